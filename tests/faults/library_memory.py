#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Allocations inside the libraries fail. In libyaml and GSL: "out of memory" with exit status 3, no answer, no file that
lacks anything; or the same answer as ever. Inside the libraries for drawing, some of which end the process by design:
the old file, or a whole one, in which a letter may look otherwise for want of its font.

Usage: library_memory.py [--sample N in each library and command] [--drawing N] [--seed N]
"""
import argparse
import os
import pathlib
import random
import re
import tempfile

import common

ENDS = {"svg": (b"<?xml", b"</svg>"), "png": (b"\x89PNG", b"IEND\xaeB`\x82"), "pdf": (b"%PDF", b"%%EOF"),
        "html": (b"<!DOCTYPE", b"</html>")}
SHIM = os.environ["FAILING_LIBRARY_MEMORY"]
READING = ["libyaml", "libgsl"]
DRAWING = "libglib,libgobject,libpango,libcairo,libfontconfig,libfreetype,libharfbuzz,libpixman,libpng"
# The commands that work longest in GSL.
SOLVING = [["drying", "ethanol-96 30 + toluene 70 + acetone 20"], ["label", "ethanol-96 30 + toluene 70"],
           ["exposure", "--room", "85", "--air-changes", "3", "--task", "9:00-10:00 swab 20 mL/h of toluene", "--task",
            "11:00-12:00 brush 20 mL of acetone", "--rate", "model", "--wet", "100"]]


def run(words, targets, libraries, number=0, counts=None):
    more = {"COUNT_ALLOCATIONS": counts} if counts else {"FAIL_ALLOCATION": str(number)}
    return common.Run(words, targets, env=common.environment(LD_PRELOAD=SHIM, FAIL_LIBRARIES=libraries, **more))


def count_of(words, targets, libraries):
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "count"
        plain = run(words, targets, libraries, counts=str(path))
        return plain, int(path.read_text())


def is_whole(name, data):
    kind = name.rsplit(".", 1)[1]
    first, last = ENDS[kind]
    return data.startswith(first) and data.rstrip().endswith(last)


def drawing_fault(got, plain, targets):
    """One that a library ended by design could not clear away its unfinished file; it is not the file asked for."""
    for name in targets:
        now = got.files.get(name)
        if now is None:
            return f"{name} is gone"
        if now not in (got.before[name], plain.files[name]) and not is_whole(name, now):
            return f"half a file {name}"
        if got.status == plain.status and now == got.before[name]:
            return f"exit status {got.status}, and the old file"
    beside = set(got.files) - set(plain.files)
    if beside and not (got.status < 0 and all(name.endswith(".part") for name in beside)):
        return f"left behind: {sorted(beside)}"
    return None


def reading_fault(got, plain, targets):
    if got.crashed():
        return "crashed: " + got.err[-300:]
    if (got.status, got.out, got.files) == (plain.status, plain.out, plain.files):
        return None
    if got.status != 3 or got.out:
        return f"exit status {got.status}, {len(got.out)} bytes of answer: {got.err[-300:]}"
    if not re.search("out of memory|no memory", got.err):
        return "no word on memory: " + got.err[-300:]
    if any(got.files[name] not in (got.before[name], plain.files[name]) for name in targets):
        return "half a file, or one that lacks something"
    if set(got.files) != set(plain.files):
        return f"left behind: {sorted(set(got.files) - set(plain.files))}"
    return None


def sweep(words, targets, libraries, most, generator, faults):
    drawing = libraries == DRAWING
    plain, count = count_of(words, targets, libraries)
    numbers = sorted(generator.sample(range(1, count + 1), min(count, most)))
    endings = {"as ever": 0, "told": 0, "ended by the library": 0}

    def one(number):
        got = run(words, targets, libraries, number)
        endings["told" if got.status == 3 else "ended by the library" if got.status < 0 else "as ever"] += 1
        fault = drawing_fault(got, plain, targets) if drawing else reading_fault(got, plain, targets)
        return fault and f"{libraries.split(',')[0]} allocation {number} of {count}, {common.title(words)}: {fault}"

    found = [fault for fault in common.each(one, numbers) if fault]
    print(f"{len(numbers):5d} of {count} allocations, in {libraries.split(',')[0]}, {len(found)} faults, {endings}: {common.title(words)}", flush=True)
    faults += found
    return len(numbers)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--sample", type=int, default=10)
    parser.add_argument("--drawing", type=int, default=6)
    parser.add_argument("--commands", type=int, default=0, help="the first so many of each list; 0: all")
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    generator = random.Random(asked.seed)
    some = slice(asked.commands or None)
    faults = []
    total = 0
    plain = [(words, []) for words in SOLVING + common.READERS]
    seen = set()
    for words, targets in plain[some] + common.WRITERS[some]:
        # The other forms of a command read the same tables again.
        most = asked.sample if words[0] not in seen else asked.sample // 10 + 1
        seen.add(words[0])
        for library in READING:
            total += sweep(words, targets, library, most, generator, faults)
    drawn = [writer for writer in common.WRITERS if writer[1][0] not in ("case.yaml", "out.csv", "out.txt", "out.json")]
    for words, targets in drawn[some]:
        total += sweep(words, targets, DRAWING, asked.drawing, generator, faults)
    common.finish("allocations inside libraries that fail", total, faults, asked.sample)


main()
