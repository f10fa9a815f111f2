#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every allocation of every command fails in turn: the command says "out of memory" with exit status 3, prints nothing
and leaves each file as it was; or it gives the same answer and files as ever. Half an answer, half a file, a file that
lacks anything, a crash or a leak is a failure. (What fails behind the file, while the answer is put together, leaves the
new one.)

Usage: allocations.py [--sample N of each command] [--every N commands] [--seed N]
"""
import argparse
import random
import re

import common

# Allocations after the last one that mattered: the run is then the plain one.
QUIET_RUNS = 3

PLAN = ["--use", "20", "--hours", "5", "--room", "85", "--air-changes", "3"]
COMMANDS = [
    ["place", "ethanol-96 15 + isooctane 85"],
    ["place", "acetone", "--material", "dammar-aged, hard-copal", "--json"],
    ["place", "ethanol-96 50 + toluene 50", "--material", "dammar-aged", "--explain"],
    ["exposure", "toluene 1 + acetone 1", *PLAN, "--limits", "eu", "--explain", "--json"],
    ["exposure", "toluene 1 + d-limonene 1", *PLAN, "--limits", "eu"],
    ["exposure", "toluene 1 + acetone 1", *PLAN, "--json"],
    ["exposure", "--room", "85", "--air-changes", "3", "--task", "9:00-10:00 swab 20 mL/h of toluene", "--task",
     "11:00-12:00 brush 20 mL of acetone", "--rate", "model", "--wet", "100"],
    ["recipe", "acetone 1 + toluene 2", "--leftover", "toluene", "--leftover-ml", "10"],
    ["recipe", "acetone 1 + toluene 2", "--json"],
    ["solvents", "acetone", "ethanol-96"],
    ["solvents", "acetone", "--json"],
    ["solvents"],
    ["materials", "dammar-aged"],
    ["materials", "dammar-aged", "--json"],
    ["materials"],
    ["limits", "toluene", "decamethylcyclopentasiloxane"],
    ["limits", "toluene", "--json"],
    ["gentlest", "--remove", "dammar-aged", "--bottles", "isooctane, propan-2-ol, acetone, toluene", "--without",
     "reproductive"],
    ["gentlest", "--remove", "dammar-aged", "--bottles", "isooctane, propan-2-ol", "--json"],
    ["replace", "toluene 60 + acetone 40", "--bottle", "toluene", "--bottles", "xylenes", "--threads", "1", "--limits",
     "eu", *PLAN],
    ["replace", "toluene", "--bottles", "xylenes", "--threads", "1", "--json"],
    ["ladder", "--remove", "dammar-aged", "--bottles", "isooctane, propan-2-ol", "--by", "red", "--threads", "1"],
    ["ladder", "--case", "demo-case.yaml", "--bottles", "isooctane, propan-2-ol", "--by", "red", "--threads", "1", "--date",
     "2025-02-19", "--json"],
    ["layers", "--layer", "retouching: urea-aldehyde-resin in ethanol, done", "--layer", "dammar-fresh 20 in xylenes",
     "--bottles", "xylenes, isooctane", "--threads", "1", "--section", "section.svg", "--chart", "windows.svg"],
    ["layers", "--layer", "pnbma in toluene, done", "--layer", "dammar-fresh in xylenes", "--now", "--threads", "1",
     "--json"],
    ["exposure", "toluene 1 + acetone 1", *PLAN, "--limits", "eu", "--chart", "air.svg", "--start", "9:30"],
    ["drying", "ethanol-96 30 + toluene 70", "--chart", "drying.svg", "--material", "dammar-aged, hard-copal"],
    ["check"],
    ["check", "--json"],
    ["check", "demo-case.yaml", "--date", "2025-02-20"],
    ["gentlest", "--case", "demo-case.yaml", "--components", "2"],
    ["recipe", "--case", "demo-case.yaml"],
    ["report", "--case", "demo-case.yaml", "--learn", "none", "--doubt", "none", "--sheet", "--json"],
    ["learn", "--case", "demo-case.yaml", "--particles", "400"],
    ["learn", "--case", "demo-case.yaml", "--particles", "400", "--chart", "doubt.svg", "--json"],
    ["record", "--case", "demo-case.yaml", "--export", "-"],
    ["record", "--case", "demo-case.yaml", "--import", "tests.csv", "--json"],
    ["record", "--case", "demo-case.yaml", "--passage", "sky", "--blend", "acetone", "--result", "none", "--date",
     "2025-02-19", "--wet", "a note"],
    ["record", "--case", "demo-case.yaml", "--passage", "sky", "--blend", "acetne", "--result", "non"],
    ["record", "--case", "demo-case.yaml", "--undo", "--date", "2025-02-19", "--because", "a reason"],
    ["label", "ethanol-96 30 + toluene 70"],
    ["label", "ethanol-96 30 + toluene 70", "--rules", "us-hcs", "--json"],
    ["chart", "case.svg", "--case", "demo-case.yaml", "--json"],
    ["drying", "ethanol-96 30 + toluene 70", "--json"],
    ["replace", "toluene", "--bottles", "xylenes", "--threads", "1", "--chart", "replace.svg"],
    ["layers", "--layer", "pnbma in toluene, done", "--layer", "dammar-fresh in xylenes", "--now", "--threads", "1",
     "--language", "de"],
    ["gentlest", "--remove", "dammar-aged", "--bottles", "isooctane, propan-2-ol", "--by", "red", "--threads", "1"],
    ["check", "tests.csv"],
    ["place", "acetone", "--data", "."],
    ["--completion", "bash"],
    ["--version"],
    ["--help"],
    ["exposure", "--help"],
    ["place", "tolune"],
]


def run(words, targets, number):
    env = common.environment(MILDSOLVE_FAIL_ALLOCATION=str(number))
    return common.Run(words, targets, env=env)


def file_fault(got, plain, told):
    """Each file is the old one or the new one, byte for byte."""
    if set(got.files) - set(plain.files):
        return f"left behind: {sorted(set(got.files) - set(plain.files))}"
    new = [name for name, data in plain.files.items() if got.before.get(name) != data]
    for name in {**got.before, **plain.files}:
        now = got.files.get(name)
        if now not in (got.before.get(name), plain.files[name]):
            return f"half a file {name}"
        if name in new and not told and now != plain.files[name]:
            return f"an answer as ever, and the old file {name}"
    return None


def fault_of(got, plain):
    if got.crashed():
        return "crashed or leaked: " + got.err[-400:]
    if (got.status, got.out) == (plain.status, plain.out):
        return file_fault(got, plain, False)
    if got.status != 3 or got.out:
        return f"exit status {got.status}, {len(got.out)} bytes of answer, talk: {got.err[-200:]}"
    if not re.search("out of memory|no memory|Speicher reicht nicht", got.err):
        return "no word on memory: " + got.err[-200:]
    return file_fault(got, plain, True)


def same(got, plain):
    return (got.status, got.out, got.err, got.files) == (plain.status, plain.out, plain.err, plain.files)


def sweep(words, targets, sample, generator, faults):
    """All allocations, or a sample of the first ones, which every command makes."""
    plain = run(words, targets, 0)
    number, quiet, tried = 0, 0, 0
    while quiet < QUIET_RUNS and not (sample and tried >= sample):
        numbers = [generator.randint(1, 24)] if sample else range(number + 1, number + 1 + 2 * common.WORKERS)
        for number, got in zip(numbers, common.each(lambda n: run(words, targets, n), numbers)):
            tried += 1
            quiet = quiet + 1 if same(got, plain) else 0
            fault = fault_of(got, plain)
            if fault:
                faults.append(f"{common.title(words)}, allocation {number}: {fault}")
    return tried


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--sample", type=int, default=0, help="0: all")
    parser.add_argument("--every", type=int, default=1)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    generator = random.Random(asked.seed)
    total, faults = 0, []
    for words, targets in ([(words, []) for words in COMMANDS] + common.WRITERS)[::asked.every]:
        before = len(faults)
        count = sweep(words, targets, asked.sample, generator, faults)
        print(f"{count:5d} allocations, {len(faults) - before} faults: {common.title(words)}", flush=True)
        total += count
    common.finish("runs with an allocation that fails", total, faults, 10 if asked.sample else 4000)


main()
