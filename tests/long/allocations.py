#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every allocation of every command fails in turn: the command says "out of memory" with exit status 3 and prints
nothing, or it gives the same answer as ever. Half an answer, a crash or a leak is a failure."""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

PROGRAM = os.environ["MILDSOLVE"]
ROOT = pathlib.Path(__file__).resolve().parents[2]
# Allocations after the last one that mattered: the run is then the plain one.
QUIET_RUNS = 3

PLAN = ["--use", "20", "--hours", "5", "--room", "85", "--air-changes", "3"]
COMMANDS = [
    ["place", "ethanol-96 15 + isooctane 85"],
    ["place", "acetone", "--material", "dammar-aged, hard-copal", "--json"],
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
    ["chart", "chart.svg", "--blend", "isooctane 70 + propan-2-ol 30", "--material", "dammar-aged"],
    ["exposure", "toluene 1 + acetone 1", *PLAN, "--limits", "eu", "--chart", "air.svg", "--start", "9:30"],
    ["drying", "ethanol-96 30 + toluene 70", "--chart", "drying.svg", "--material", "dammar-aged, hard-copal"],
    ["check"],
    ["check", "--json"],
    ["check", "demo-case.yaml", "--date", "2025-02-20"],
    ["gentlest", "--case", "demo-case.yaml", "--components", "2"],
    ["recipe", "--case", "demo-case.yaml"],
    ["report", "--case", "demo-case.yaml", "--learn", "none", "--doubt", "none", "-o", "report.html"],
    ["report", "--case", "demo-case.yaml", "--learn", "none", "--doubt", "none", "-o", "report.pdf"],
    ["report", "--case", "demo-case.yaml", "--learn", "none", "--doubt", "none", "--sheet", "--json"],
    ["learn", "--case", "demo-case.yaml", "--particles", "400"],
    ["learn", "--case", "demo-case.yaml", "--particles", "400", "--chart", "doubt.svg", "--json"],
    ["record", "--case", "demo-case.yaml", "--export", "-"],
    ["record", "--case", "demo-case.yaml", "--import", "tests.csv", "--json"],
    ["record", "--case", "demo-case.yaml", "--passage", "sky", "--blend", "acetone", "--result", "none", "--date",
     "2025-02-19", "--wet", "a note"],
    ["record", "--case", "demo-case.yaml", "--passage", "sky", "--blend", "acetne", "--result", "non"],
    ["record", "--case", "demo-case.yaml", "--undo", "--date", "2025-02-19", "--because", "a reason"],
    ["--help"],
    ["exposure", "--help"],
    ["place", "tolune"],
]


CASE = ROOT / "examples/demo-case.yaml"
TABLE = "date,passage,blend,result,note_wet\n2025-02-19,sky,acetone,none,one\n2025-02-19,sky,acetone,none,two\n"


def run(words, number, directory):
    """A fresh case each time, because record adds to it; what it leaves must be right whatever failed."""
    case = pathlib.Path(directory) / CASE.name
    shutil.copy(CASE, case)
    (pathlib.Path(directory) / "tests.csv").write_text(TABLE)
    env = {**os.environ, "XDG_DATA_HOME": "/nonexistent", "MILDSOLVE_FAIL_ALLOCATION": str(number)}
    got = subprocess.run([PROGRAM, *words], cwd=directory, env=env, capture_output=True, text=True, timeout=300)
    if words[0] == "record" and "--undo" not in words and not case.read_bytes().startswith(CASE.read_bytes()):
        got.returncode = -1
    return got


def fault_of(got, plain):
    if "Sanitizer" in got.stderr or got.returncode < 0:
        return "crashed or leaked: " + got.stderr[-400:]
    if (got.returncode, got.stdout) == (plain.returncode, plain.stdout):
        return None
    if got.returncode != 3 or got.stdout:
        return "exit status %d, %d bytes of answer, talk: %s" % (got.returncode, len(got.stdout), got.stderr[-200:])
    if not re.search("out of memory|no memory", got.stderr):
        return "no word on memory: " + got.stderr[-200:]
    return None


def sweep(words, directory):
    plain = run(words, 0, directory)
    number, quiet, faults = 0, 0, []
    while quiet < QUIET_RUNS:
        number += 1
        got = run(words, number, directory)
        same = (got.returncode, got.stdout, got.stderr) == (plain.returncode, plain.stdout, plain.stderr)
        quiet = quiet + 1 if same else 0
        fault = fault_of(got, plain)
        if fault:
            faults.append("%s, allocation %d: %s" % (" ".join(words), number, fault))
    return number - QUIET_RUNS, faults


def main():
    total, all_faults = 0, []
    with tempfile.TemporaryDirectory() as directory:
        for words in COMMANDS:
            count, faults = sweep(words, directory)
            print("%5d allocations, %d faults: %s" % (count, len(faults), " ".join(words)), flush=True)
            total += count
            all_faults += faults
    for fault in all_faults[:40]:
        print("FAILED: " + fault)
    print("%d allocations made to fail, %d faults" % (total, len(all_faults)))
    return 1 if all_faults or total < 200 else 0


sys.exit(main())
