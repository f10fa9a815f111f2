#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The built program and its module are hardened: position independent, read-only after relocation, all names bound at
the start, no executable stack, stack protector, checked functions of the C library (where the build optimises), and on
x86 marks where indirect branches may land.

Usage: hardening.py [--fortified] [--branch-checks] FILE ..."""

import re
import subprocess
import sys


def readelf(option, path):
    return subprocess.run(["readelf", "-W", option, path], capture_output=True, text=True, check=True).stdout


def landing_marks(path):
    """Of functions, which may be reached by an indirect branch. (The note for the whole file is set only where every
    object has it, those of the C library too.)"""
    return subprocess.run(["objdump", "-d", "--no-show-raw-insn", path], capture_output=True, text=True,
                          check=True).stdout.count("endbr64")


def faults_of(path, is_program, fortified, branch_checks):
    head, parts, dynamic = readelf("-h", path), readelf("-l", path), readelf("-d", path)
    symbols = readelf("--dyn-syms", path)
    stack = re.search(r"GNU_STACK.*?\s([RWE ]{1,3})\s+0x", parts)
    checks = [
        (re.search(r"Type:\s+DYN", head), "it is not position independent"),
        (not is_program or re.search(r"FLAGS_1.*\bPIE\b", dynamic), "it is no position independent executable"),
        (re.search(r"FLAGS.*\bBIND_NOW\b|FLAGS_1.*\bNOW\b", dynamic), "names are bound when first used (-z now)"),
        ("GNU_RELRO" in parts, "relocations stay writable (-z relro)"),
        (stack and "E" not in stack[1], "its stack is executable"),
        ("TEXTREL" not in dynamic, "its code is changed by the loader"),
        (not re.search(r"\bR(UN)?PATH\b", dynamic), "it names folders to load libraries from"),
        ("__stack_chk_fail" in symbols, "no stack protector"),
        (not fortified or re.search(r"__(printf|fprintf|snprintf|vsnprintf|memcpy|memset|read)_chk", symbols),
         "no checked functions of the C library (_FORTIFY_SOURCE)"),
        (not branch_checks or landing_marks(path) > 20, "its functions do not begin with a mark (-fcf-protection)"),
    ]
    return [f"{path}: {words}" for passed, words in checks if not passed]


def main():
    options = [word for word in sys.argv[1:] if word.startswith("--")]
    files = [word for word in sys.argv[1:] if not word.startswith("--")]
    faults = [fault for number, path in enumerate(files)
              for fault in faults_of(path, number == 0, "--fortified" in options, "--branch-checks" in options)]
    for fault in faults:
        print(fault)
    print(f"{len(files)} files looked at, {len(faults)} faults")
    return 1 if faults or not files else 0


sys.exit(main())
