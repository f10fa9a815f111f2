#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The manual says what the program does: synopsis and options equal --help, pages are clean, every example runs."""
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ["MILDSOLVE"]
passed = 0
failures = []


def check(condition, sentence):
    global passed
    if condition:
        passed += 1
    else:
        failures.append(sentence)


def run(words, directory):
    return subprocess.run(words, cwd=directory, capture_output=True, text=True, timeout=120,
                          env={**os.environ, "XDG_DATA_HOME": "/nonexistent", "SOURCE_DATE_EPOCH": "1764028800"})


def help_of(command):
    return run([PROGRAM, command, "--help"], "/").stdout


def options_of_help(text):
    return re.findall(r"^  (--\S+)(?: ([A-Z0-9/,]+))?", text, re.M)


def options_of_page(text, macro):
    found = []
    for flag, argument in re.findall(r"^\.%s Fl (-\S+)(?: Ar (\S+))?" % macro, text, re.M):
        found.append(("-" + flag, argument))
    return found


def commands():
    text = run([PROGRAM, "--help"], "/").stdout
    block = text.split("  command ")[1].split("\n\n")[0]
    return re.findall(r"^  (\w+)  ", block, re.M)


def examples(text):
    for line in re.findall(r"^\.Dl (mildsolve .*)$", text, re.M):
        yield line.replace(r"\(dq", '"').replace(r"\e", "\\")


def check_quotes(page):
    """mdoc eats plain quotation marks in macro lines: a reader would copy an example without them."""
    text = page.read_text()
    for line in re.findall(r'^\.[A-Z][a-z] .*"', text, re.M):
        failures.append(f"{page.name}: write \\(dq, a plain quotation mark is not printed: {line}")
    if shutil.which("mandoc"):
        result = subprocess.run(["mandoc", "-T", "utf8", "-O", "width=500", str(page)], capture_output=True, text=True)
        printed = {re.sub(".\\x08", "", line).strip() for line in result.stdout.splitlines()}
        for line in examples(text):
            check(line in printed, f"{page.name}: the printed page does not show `{line}`")


def check_example(line, directory, where):
    words = shlex.split(line)
    if "my-solvents" in line:
        return
    shutil.copy(ROOT / "examples/demo-case.yaml", directory)  # afresh: record adds to it
    shutil.copy(ROOT / "examples/layers-case.yaml", directory)
    result = run([PROGRAM] + words[1:], directory)
    check(result.returncode in (0, 1), f"{where}: `{line}` ends with {result.returncode}: {result.stderr.strip()}")
    check(result.stdout != "", f"{where}: `{line}` prints nothing")


def lint(page):
    if not shutil.which("mandoc"):
        return
    result = subprocess.run(["mandoc", "-Tlint", "-W", "style", str(page)], capture_output=True, text=True)
    for line in (result.stdout + result.stderr).splitlines():
        if "referenced manual not found" not in line:
            failures.append(line)


def main():
    names = commands()
    check(len(names) >= 8, f"only {len(names)} commands are listed by --help")
    overview = (ROOT / "man/mildsolve.1").read_text()
    with tempfile.TemporaryDirectory() as directory:
        for name in names:
            page = ROOT / f"man/mildsolve-{name}.1"
            check(page.is_file(), f"man/mildsolve-{name}.1 is missing")
            if not page.is_file():
                continue
            text = page.read_text()
            helped = options_of_help(help_of(name))
            check(len(helped) >= 3, f"{name}: --help lists no options")
            check(options_of_page(text, "Op") == helped, f"{page.name}: SYNOPSIS differs from --help")
            check(options_of_page(text, "It") == helped, f"{page.name}: the list of options differs from --help")
            check(f"mildsolve-{name} 1" in overview, f"mildsolve.1 does not refer to {name}")
            for line in examples(text):
                check_example(line, directory, page.name)
        for line in examples(overview):
            check_example(line, directory, "mildsolve.1")
    for page in sorted((ROOT / "man").iterdir()):
        check_quotes(page)
        lint(page)
    for failure in failures:
        print("FAIL", failure)
    print(f"{passed} passed, {len(failures)} failed")
    return 1 if failures else 0


sys.exit(main())
