#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""What each command costs on the demo case: processor time, wall time and largest memory of whole processes, the best of
several rounds that take turns, against `--version`, which does nothing, in the same run. The memory of a process is not
told below that of this script, from which it began. Processor time is judged:
everything is to answer in 100 ms, but for the commands below, each for its reason. Ends with 1 when one is slower.

Usage: everyday.py PROGRAM [--rounds N]"""

import os
import sys
import tempfile
import time
from pathlib import Path

CASE = str(Path(__file__).resolve().parents[2] / "examples" / "demo-case.yaml")
LAYERS = str(Path(__file__).resolve().parents[2] / "examples" / "layers-case.yaml")
BLEND = "propan-2-ol 30 + isooctane 70"
GOAL_MS = 100

COMMANDS = [
    (["--version"], None),
    (["--help"], None),
    (["gentlest", "--case", CASE], "learns from five tests, solves the films of 1600 blends, and takes 64 samples of doubt"),
    (["gentlest", "--case", CASE, "--by", "red"], "learns from five tests"),
    (["replace", "toluene 40 + isooctane 60", "--without", "toluene", "--case", CASE],
     "follows the drying of each candidate and looks whether it separates"),
    (["place", BLEND, "--case", CASE], None),
    (["chart", "chart.png", "--blend", BLEND, "--case", CASE], "draws 300 dots an inch and packs them"),
    (["chart", "chart.svg", "--blend", BLEND, "--case", CASE], None),
    (["drying", BLEND, "--case", CASE], None),
    (["exposure", BLEND, "--case", CASE], None),
    (["recipe", BLEND, "--case", CASE], None),
    (["ladder", "--case", CASE], "learns from five tests by both views, and judges some twenty rungs by the film"),
    (["layers", "--case", LAYERS], "searches by film what takes each layer off later, and better carriers for a new one"),
    (["learn", "--case", CASE], "learns from five tests by both views, and asks whether they contradict them"),
    (["report", "--case", CASE], "asks gentlest, ladder and learn, and the other commands besides"),
    (["report", "--case", CASE, "-o", "report.pdf"], "does all that, and draws five figures"),
    (["label", BLEND, "--case", CASE], None),
    (["solvents"], None),
    (["solvents", "acetone"], None),
    (["materials"], None),
    (["limits", "toluene"], None),
    (["check"], None),
    (["check", CASE], None),
]


def run(program, words, folder):
    """(processor ms, wall ms, largest memory in MB) of one process; its answer is thrown away."""
    start = time.monotonic()
    child = os.fork()
    if child == 0:
        os.chdir(folder)
        for stream in (1, 2):
            os.dup2(os.open(os.devnull, os.O_WRONLY), stream)
        os.execve(program, [program, *words], {"PATH": "/usr/bin:/bin", "XDG_DATA_HOME": "/nonexistent"})
    _, status, used = os.wait4(child, 0)
    code = os.waitstatus_to_exitcode(status)
    if code not in (0, 1):
        sys.exit(f"{' '.join(words)}: ended with {code}")
    return 1e3 * (used.ru_utime + used.ru_stime), 1e3 * (time.monotonic() - start), used.ru_maxrss / 1024


def main():
    program = os.path.abspath(sys.argv[1])
    rounds = int(sys.argv[sys.argv.index("--rounds") + 1]) if "--rounds" in sys.argv else 5
    best = [(float("inf"),) * 3 for _ in COMMANDS]
    with tempfile.TemporaryDirectory() as folder:
        for _ in range(rounds):
            for i, (words, _) in enumerate(COMMANDS):
                best[i] = tuple(map(min, best[i], run(program, words, folder)))
    slow = 0
    print(f" cpu ms  wall ms  peak MB  (least of {rounds} runs each)")
    for (words, reason), (cpu, wall, peak) in zip(COMMANDS, best):
        shown = " ".join(Path(word).name if word in (CASE, LAYERS) else word for word in words)
        print(f"{cpu:7.1f}  {wall:7.1f}  {peak:7.1f}  {shown}")
        if cpu > GOAL_MS:
            print(f"{'':27}{'because it ' + reason if reason else 'slower than ' + str(GOAL_MS) + ' ms'}")
            slow += not reason
    print(f"goal ({GOAL_MS} ms where there is no reason): {'missed' if slow else 'reached'}")
    return 1 if slow else 0


sys.exit(main())
