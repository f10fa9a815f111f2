#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The sessions in README.md show what the program prints today.

A block that begins with ```console holds commands (`$ mildsolve ...`, continued with a backslash) and their output; a line
`[...]` stands for lines left out. With --update the output is written anew, keeping at most the number of lines that
stood there. Every command is run as of today and as of a day far ahead: what depends on the day says which with --date.
"""
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ["MILDSOLVE"]
README = ROOT / "README.md"


FAR_AHEAD = "4102444800"  # 2100-01-01


def run(command, directory, clock=None):
    words = shlex.split(command)
    environment = {**os.environ, "XDG_DATA_HOME": "/nonexistent"}
    environment.pop("SOURCE_DATE_EPOCH", None)
    if clock:
        environment["SOURCE_DATE_EPOCH"] = clock
    result = subprocess.run([PROGRAM] + words[1:], cwd=directory, capture_output=True, text=True, timeout=300,
                            env=environment)
    return result.stdout.rstrip("\n").split("\n")


def parse(block):
    """[(command as written, command to run, [output lines])]"""
    found = []
    lines = block.split("\n")
    i = 0
    while i < len(lines):
        if not lines[i].startswith("$ "):
            raise SystemExit(f"README.md: a console block begins without a command: {lines[i]}")
        written = [lines[i]]
        while written[-1].endswith("\\"):
            i += 1
            written.append(lines[i])
        command = " ".join(line.rstrip("\\").strip() for line in written)[2:]
        i += 1
        output = []
        while i < len(lines) and not lines[i].startswith("$ "):
            output.append(lines[i])
            i += 1
        while output and output[-1] == "":
            output.pop()
        found.append((written, command, output))
    return found


def matches(expected, got):
    """Every piece between [...] stands in the output, whole and in order."""
    at = 0
    pieces = "\n".join(expected).split("[...]")
    for number, piece in enumerate(pieces):
        lines = piece.strip("\n").split("\n")
        if lines == [""]:
            continue
        last = len(got) - len(lines)
        for start in range(at, last + 1):
            if got[start:start + len(lines)] == lines:
                at = start + len(lines)
                break
            if number == 0 and start == 0:
                return False
        else:
            return False
    return True


def updated(expected, got):
    if "[...]" not in expected:
        return got if len(got) <= 60 else got[:60] + ["[...]"]
    keep = expected.index("[...]") or 26
    return got[:keep] + ["[...]"]


def main():
    update = "--update" in sys.argv
    text = README.read_text()
    failures = 0
    count = 0
    with tempfile.TemporaryDirectory() as directory:
        (pathlib.Path(directory) / "examples").symlink_to(ROOT / "examples")

        def replace(match):
            nonlocal failures, count
            out = []
            for written, command, expected in parse(match[1].rstrip("\n")):
                got = run(command, directory)
                count += 1
                if got != run(command, directory, FAR_AHEAD):
                    failures += 1
                    print("FAIL what this prints depends on the day; give it with --date:", command)
                if update:
                    out += written + updated(expected, got) + [""]
                elif not matches(expected, got):
                    failures += 1
                    print("FAIL the README shows something else than:", command)
            return "```console\n" + "\n".join(out).rstrip("\n") + "\n```" if update else match[0]

        changed = re.sub(r"```console\n(.*?)```", replace, text, flags=re.S)
    if update:
        README.write_text(changed)
    print(f"{count - failures} passed, {failures} failed")
    return 1 if failures or count < 3 else 0


sys.exit(main())
