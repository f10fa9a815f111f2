#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""SIGINT, SIGTERM and SIGKILL at random instants and at calls of the system while a file is written: the old file or the
new one, whole. After SIGINT and SIGTERM nothing else is left; what SIGKILL leaves keeps nobody from writing again.

Usage: kills.py [--kills N of each signal] [--calls N] [--commands N] [--seed N]
"""
import argparse
import os
import pathlib
import random
import signal
import subprocess
import tempfile
import time

import common

SHIM = os.environ["FAILING_CALLS"]
SIGNALS = [signal.SIGINT, signal.SIGTERM, signal.SIGKILL]
# Words, file, share of the kills: pictures take longer and are written by the same functions.
COMMANDS = [(common.NOTE, "case.yaml", 1), (common.REPORT + ["-o", "out.txt"], "out.txt", 1),
            (common.REPORT + ["-o", "out.html"], "out.html", 0.1), (common.REPORT + ["-o", "out.pdf"], "out.pdf", 0.1),
            (["chart", "out.svg", "--blend", "acetone"], "out.svg", 0.1)]
# Statuses of one that was interrupted and said so, or that ended in time.
ENDED = (0, 1, 130)


def heeded():
    """Whatever started the test, a job in the background for instance, may ignore them."""
    for number in SIGNALS[:2]:
        signal.signal(number, signal.SIG_DFL)


def start(words, folder, **more):
    return subprocess.Popen([common.PROGRAM, *words], cwd=folder, env=common.environment(**more),
                            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                            preexec_fn=heeded)


def judge(folder, before, words, target, new, process, number):
    """'old' or 'new', or a sentence."""
    talk = process.communicate(timeout=common.TIMEOUT_S)[1].decode(errors="replace")
    now = common.contents(folder)
    beside = set(now) - set(before)
    if process.returncode != -number and process.returncode not in ENDED:
        return f"exit status {process.returncode}: {talk[-300:]}"
    if beside and number != signal.SIGKILL:
        return f"left behind: {sorted(beside)}"
    if any(not name.endswith(".lock") and not name.endswith(".part") for name in beside):
        return f"files that nobody asked for: {sorted(beside)}"
    if target not in now:
        return "neither the old file nor the new one"
    if now[target] not in (before[target], new):
        return f"half a file: {len(now[target])} bytes"
    return "old" if now[target] == before[target] else "new"


def fresh(folder, target):
    for path in pathlib.Path(folder).iterdir():
        path.unlink()
    common.fill(folder, [target] if target != "case.yaml" else [])
    return common.contents(folder)


def next_one_writes(folder, words, target, new):
    """Over what a kill has left, without clearing it away."""
    common.fill(folder, [target] if target != "case.yaml" else [])
    done = subprocess.run([common.PROGRAM, *words], cwd=folder, env=common.environment(), capture_output=True)
    return done.returncode in (0, 1) and common.contents(folder)[target] == new


class Tally:
    def __init__(self):
        self.kills = {number: {"old": 0, "new": 0, "left": 0} for number in SIGNALS}
        self.faults = []

    def add(self, number, found, what):
        if found in ("old", "new"):
            self.kills[number][found] += 1
        else:
            self.faults.append(f"{signal.Signals(number).name} {what}: {found}")

    def show(self, what):
        for number, seen in self.kills.items():
            print(f"  {signal.Signals(number).name}: old {seen['old']}, new {seen['new']}, "
                  f"with something left {seen['left']}: {what}", flush=True)

    def count(self):
        return sum(seen["old"] + seen["new"] for seen in self.kills.values()) + len(self.faults)


def kill_once(tally, folder, words, target, new, number, delay, what, **more):
    before = fresh(folder, target)
    process = start(words, folder, **more)
    if delay is not None:
        time.sleep(delay)
        process.send_signal(number)
    tally.add(number, judge(folder, before, words, target, new, process, number), what)
    left = set(common.contents(folder)) - set(before)
    tally.kills[number]["left"] += bool(left)
    if left and not next_one_writes(folder, words, target, new):
        tally.faults.append(f"{what}: the next one cannot write over {sorted(left)}")


def at_random(words, target, kills, generator):
    tally = Tally()
    with tempfile.TemporaryDirectory(prefix="mildsolve-kills-") as folder:
        times = []
        for _ in range(3):
            fresh(folder, target)
            begun = time.monotonic()
            start(words, folder).communicate()
            times.append(time.monotonic() - begun)
        new = common.contents(folder)[target]
        longest = sorted(times)[1]
        for number in SIGNALS:
            for i in range(kills):
                # The end, where the file is written, more often than the rest.
                share = generator.uniform(0, 1.1) if i % 2 else generator.uniform(0.75, 1.05)
                kill_once(tally, folder, words, target, new, number, share * longest,
                          f"kill {i} of {common.title(words)}")
    tally.show("at random instants, " + common.title(words))
    return tally


def at_calls(words, target, most, generator):
    """At each call, or at a sample of so many: the first and the last ones always."""
    tally = Tally()
    with tempfile.TemporaryDirectory(prefix="mildsolve-kills-") as folder, tempfile.TemporaryDirectory() as aside:
        fresh(folder, target)
        counts = pathlib.Path(aside) / "counts"
        start(words, folder, LD_PRELOAD=SHIM, COUNT_CALLS=str(counts)).communicate()
        new = common.contents(folder)[target]
        steps = int(counts.read_text().split()[0])
        ends = [1, *range(max(2, steps - most // 2 + 1), steps + 1)]
        middle = [step for step in range(2, steps + 1) if step not in ends]
        chosen = sorted(ends + generator.sample(middle, min(len(middle), max(most - len(ends), 0))))
        for number in SIGNALS:
            for step in chosen:
                kill_once(tally, folder, words, target, new, number, None, f"at call {step} of {common.title(words)}",
                          LD_PRELOAD=SHIM, KILL_AT=str(step), KILL_WITH=str(int(number)))
    tally.show(f"at {len(chosen)} of {steps} calls of the system, " + common.title(words))
    for number, seen in tally.kills.items():
        if not seen["old"] or not seen["new"]:
            tally.faults.append(f"{signal.Signals(number).name}: on both sides of the rename were expected, not {seen}")
    return tally


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--kills", type=int, default=6)
    parser.add_argument("--calls", type=int, default=8)
    parser.add_argument("--commands", type=int, default=2)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    generator = random.Random(asked.seed)
    tallies = []
    for words, target, share in COMMANDS[:asked.commands]:
        tallies.append(at_calls(words, target, asked.calls, generator))
        tallies.append(at_random(words, target, int(share * asked.kills), generator))
    common.finish("kills", sum(tally.count() for tally in tallies), [f for tally in tallies for f in tally.faults],
                  2 * len(SIGNALS) * asked.kills)


main()
