#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The tables of errors in man/mildsolve-models.7 are what the programs print today.

MODEL_ERRORS, FILM_TABLE and FILM_EVIDENCE name the programs. With --update the page is written anew.
"""
import os
import pathlib
import re
import subprocess
import sys
import textwrap

PAGE = pathlib.Path(__file__).resolve().parents[2] / "man/mildsolve-models.7"
PROGRAMS = {"liquids": os.environ["MODEL_ERRORS"], "films": os.environ["FILM_TABLE"],
            "evidence": os.environ["FILM_EVIDENCE"]}


def wrapped(line):
    """Long lines of the programs fit the page; the continuation is indented."""
    if len(line) <= 76:
        return [line]
    indent = " " * (len(line) - len(line.lstrip()) + 4)
    return textwrap.wrap(line, 76, subsequent_indent=indent, break_on_hyphens=False, drop_whitespace=True,
                         initial_indent="" if line[0] != " " else "", expand_tabs=False) or [line]


def block(name):
    text = subprocess.run([PROGRAMS[name]], capture_output=True, text=True, timeout=600).stdout
    lines = []
    for line in text.rstrip("\n").split("\n"):
        lines += wrapped(line.rstrip()) if line.strip() else [""]
    return "\n".join((r"\&" + line if line.startswith(".") or line.startswith("'") else line).replace("\\", r"\e")
                     for line in lines)


def main():
    page = PAGE.read_text()
    failures = 0
    for name in PROGRAMS:
        pattern = re.compile(r'(\.\\" begin %s\n\.Bd -literal\n).*?(\n\.Ed\n)' % name, re.S)
        fresh = block(name)
        changed = pattern.sub(lambda m: m[1] + fresh + m[2], page)
        if not pattern.search(page) or (changed != page and "--update" not in sys.argv):
            failures += 1
            print(f"FAIL the table '{name}' of {PAGE.name} is not what the program prints; run with --update")
        page = changed
    if "--update" in sys.argv:
        PAGE.write_text(page)
    print(f"{len(PROGRAMS) - failures} passed, {failures} failed")
    return 1 if failures else 0


sys.exit(main())
