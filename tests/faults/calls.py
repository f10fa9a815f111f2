#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Calls of the system fail one after the other, or do less than they were asked: every command that writes a file ends
with exit status 3, a sentence that names file and reason, and the old file as it was; or with the new file whole.

Usage: calls.py [--long]
"""
import argparse
import os
import pathlib
import random
import tempfile

import common

SHIM = os.environ["FAILING_CALLS"]
# What a disk, its file system and the table of open files can answer.
CODES = {
    "create": ["EROFS", "ENOSPC", "EMFILE", "EACCES"],
    "open": ["EMFILE", "EACCES"],
    "read": ["EIO"],
    "close": ["EIO", "ENOSPC"],
    "flock": ["ENOLCK"],
    "write": ["ENOSPC", "EIO", "EDQUOT"],
    "fsync": ["EIO", "ENOSPC"],
    "fchmod": ["EIO"],
    "rename": ["EIO", "ENOSPC"],
    "unlink": ["EIO"],
}
REASONS = {
    "EROFS": ["the disk is read-only", "Read-only file system"],
    "ENOSPC": ["no space left on the disk", "No space left on device"],
    "EDQUOT": ["no space left on the disk", "Disk quota exceeded"],
    "EMFILE": ["Too many open files"],
    "EACCES": ["permission denied", "Permission denied"],
    "EIO": ["Input/output error"],
    "ENOLCK": ["No locks available"],
}
# Less than was asked, or interrupted by a signal: never worth a word.
HARMLESS = ["read:all:SHORT", "write:all:SHORT", "read:odd:EINTR", "write:odd:EINTR", "fsync:odd:EINTR",
            "close:all:EINTR", "flock:odd:EINTR"]
# Without these nothing is sure to be on the disk. (A write that nobody noticed would leave half a file.)
NEEDED = ["create", "flock", "fsync", "fchmod", "rename"]
# Of one kind in one command, at most so many places.
PLACES_LONG = {"read": 12, "write": 24}


def counted(words, targets):
    """The plain run and how often each call is made in it."""
    with tempfile.TemporaryDirectory() as folder:
        path = pathlib.Path(folder) / "counts"
        plain = common.Run(words, targets, env=common.environment(LD_PRELOAD=SHIM, COUNT_CALLS=str(path)))
        lines = path.read_text().split("\n")[1:]
    return plain, {line.split()[0]: int(line.split()[1]) for line in lines if line}


def places(kind, count, long, generator):
    """First and last always; of many in between a sample."""
    most = PLACES_LONG.get(kind, count) if long else 2
    if count <= most:
        return list(range(1, count + 1))
    return sorted({1, count, *generator.sample(range(2, count), max(most - 2, 0))})


def state(got, plain, name):
    now = got.files.get(name)
    return "new" if now == plain.files[name] else "old" if now == got.before.get(name) else "neither"


def names_file(talk, targets):
    return "cannot write the answer" in talk or ".yaml" in talk or any(name in talk for name in [*targets, "tests.csv"])


def fault_of(words, targets, plain, order):
    """None when all is as it should be."""
    got = common.Run(words, targets, env=common.environment(LD_PRELOAD=SHIM, FAIL_CALL=order))
    kind, _, code = order.split(":")
    if got.crashed():
        return "crashed: " + got.err[-300:]
    states = [state(got, plain, name) for name in targets]
    beside = set(got.files) - set(plain.files)
    if kind in ("unlink", "flock"):  # an old lock file keeps nobody out; another may just be waiting for it
        beside -= {"case.yaml.lock"}
    if "neither" in states:
        return "half a file"
    if beside:
        return f"left behind: {sorted(beside)}"
    if (got.status, got.out) == (plain.status, plain.out):
        if kind in NEEDED and order not in HARMLESS:
            return "nobody noticed"
        return None if set(states) == {"new"} else f"exit status {got.status}, and the old file"
    if order in HARMLESS:
        return f"exit status {got.status}: {got.err[-300:]}"
    if got.status != 3 or got.out:
        return f"exit status {got.status}, {len(got.out)} bytes of answer: {got.err[-300:]}"
    if not names_file(got.err, targets):
        return "no file is named: " + got.err[-300:]
    if not any(reason in got.err for reason in REASONS[code]):
        return "no reason: " + got.err[-300:]
    stands = "is written, but its directory" in got.err or "cannot write the answer" in got.err
    if stands != ("old" not in states) and len(targets) == 1:
        return f"{states[0]} file, but: {got.err[-300:]}"
    return None


def sweep(words, targets, long, generator, faults):
    plain, counts = counted(words, targets)
    if any(state(plain, plain, name) != "new" or plain.before.get(name) == plain.files[name] for name in targets):
        faults.append(f"{common.title(words)}: writes nothing")
    orders = [f"{kind}:{number}:{code}" for kind in CODES for number in places(kind, counts[kind], long, generator)
              for code in (CODES[kind] if long else CODES[kind][:1])]
    orders += HARMLESS if long else HARMLESS[:2]

    def one(order):
        fault = fault_of(words, targets, plain, order)
        return fault and f"FAIL_CALL={order} {common.title(words)}: {fault}"

    found = [fault for fault in common.each(one, orders) if fault]
    print(f"{len(orders):5d} faults injected, {len(found)} wrong: {common.title(words)}", flush=True)
    faults += found
    return len(orders)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    long = parser.parse_args().long
    generator = random.Random(1)
    short = ["record", "chart"]
    writers = common.WRITERS if long else [w for w in common.WRITERS if w[0][0] in short][::5]
    faults = []
    total = sum(sweep(words, targets, long, generator, faults) for words, targets in writers)
    common.finish("system calls that fail", total, faults, 1000 if long else 30)


main()
