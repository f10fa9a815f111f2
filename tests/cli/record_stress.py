#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writers at the same time lose no test; a writer killed at any instant leaves the old case or the new one whole.

Usage: record_stress.py --writers 2 --tests 200 --kills 300 [--seed 1]
"""
import argparse
import os
import pathlib
import random
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time

MILDSOLVE = os.environ["MILDSOLVE"]
FAILING = os.environ["FAILING_CALLS"]
DEMO = pathlib.Path(os.environ["SOURCE_ROOT"]) / "examples" / "demo-case.yaml"
ENVIRONMENT = dict(os.environ, XDG_DATA_HOME="/nonexistent", NO_COLOR="1",
                   ASAN_OPTIONS=os.environ.get("ASAN_OPTIONS", "") + ":verify_asan_link_order=0")
BLEND = "propan-2-ol 20 + isooctane 80"


def command(case, photo):
    return [MILDSOLVE, "record", "--case", str(case), "--passage", "sky", "--site", "40,300", "--blend", BLEND,
            "--contact", "20", "--result", "softened", "--date", "2025-02-19", "--photo", photo]


def piece(number, photo):
    return (f'  - id: T{number}\n    date: 2025-02-19\n    passage: sky\n    x_mm: 40\n    y_mm: 300\n'
            f'    blend: "{BLEND}"\n    delivery: swab through tissue\n    contact_s: 20\n    result: softened\n'
            f'    photo: {photo}\n').encode()


def is_right(case):
    done = subprocess.run([MILDSOLVE, "check", str(case), "--date", "2025-02-20"], env=ENVIRONMENT,
                          capture_output=True)
    return done.returncode == 0 and done.stdout.startswith(b"no fault found")


def fail(words):
    print("FAILED:", words)
    sys.exit(1)


# --- writers at the same time ---

def write_many(case, name, count, faults):
    for i in range(count):
        done = subprocess.run(command(case, f"{name}-{i}"), env=ENVIRONMENT, capture_output=True)
        if done.returncode != 0:
            faults.append(done.stderr.decode())


def writers_together(folder, writers, count):
    case = folder / "shared.yaml"
    shutil.copy(DEMO, case)
    before = case.read_bytes()
    faults = []
    threads = [threading.Thread(target=write_many, args=(case, f"w{w}", count, faults)) for w in range(writers)]
    started = time.monotonic()
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    seconds = time.monotonic() - started
    after = case.read_text()
    if faults:
        fail(f"{len(faults)} records were refused, the first: {faults[0]}")
    if not after.encode().startswith(before):
        fail("bytes of the user were changed")
    photos = re.findall(r'photo: (w\d+-\d+)\n', after)
    if sorted(photos) != sorted(f"w{w}-{i}" for w in range(writers) for i in range(count)):
        fail(f"{writers * count} tests were noted, {len(photos)} stand in the file")
    ids = re.findall(r"- id: (T\d+)\n", after)
    if len(set(ids)) != len(ids) or len(ids) != 5 + writers * count:
        fail("ids are lost or stand twice")
    if not is_right(case):
        fail("the case is not right any more")
    print(f"{writers} writers, {count} tests each: none lost, {seconds:.1f} s")


# --- kills ---

def judge(folder, case, old, number, photo):
    """'old' or 'new'; anything else ends the test."""
    try:
        now = case.read_bytes()
    except FileNotFoundError:
        beside = sorted(os.listdir(folder)) if folder.is_dir() else None
        fail(f"the case is gone; {'its folder too: something outside cleared it' if beside is None else beside}")
    if now == old:
        return "old"
    if now == old + piece(number, photo):
        return "new"
    (folder / "broken.yaml").write_bytes(now)
    fail(f"neither the old case nor the new one; {len(now)} bytes, kept in {folder}/broken.yaml")


def killed_at_every_call(folder):
    case = folder / "steps.yaml"
    shutil.copy(DEMO, case)
    counted = folder / "steps"
    subprocess.run(command(case, "count"), check=True, capture_output=True,
                   env=dict(ENVIRONMENT, LD_PRELOAD=FAILING, COUNT_CALLS=str(counted)))
    steps = int(counted.read_text().split()[0])
    if steps < 8:
        fail(f"only {steps} calls of the system were seen")
    seen = {"old": 0, "new": 0}
    for at in range(1, steps + 1):
        shutil.copy(DEMO, case)
        done = subprocess.run(command(case, "k"), capture_output=True,
                              env=dict(ENVIRONMENT, LD_PRELOAD=FAILING, KILL_AT=str(at)))
        if done.returncode != -signal.SIGKILL:
            fail(f"not killed at call {at}: {done.returncode} {done.stderr}")
        seen[judge(folder, case, DEMO.read_bytes(), 6, "k")] += 1
        # What the killed one left behind does not keep the next one from writing.
        shutil.copy(DEMO, case)
        subprocess.run(command(case, "next"), check=True, capture_output=True, env=ENVIRONMENT)
        judge(folder, case, DEMO.read_bytes(), 6, "next")
    if not seen["old"] or not seen["new"]:
        fail(f"kills on both sides of the rename were expected: {seen}")
    print(f"killed at each of {steps} calls of the system: old {seen['old']}, new {seen['new']}")


def killed_at_random(folder, kills, generator):
    case = folder / "killed.yaml"
    shutil.copy(DEMO, case)
    timed = []
    for i in range(5):
        started = time.monotonic()
        subprocess.run(command(folder / "killed.yaml", f"t{i}"), check=True, capture_output=True, env=ENVIRONMENT)
        timed.append(time.monotonic() - started)
    longest = sorted(timed)[2]
    shutil.copy(DEMO, case)
    number = 6
    seen = {"old": 0, "new": 0}
    for i in range(kills):
        old = case.read_bytes()
        photo = f"r{i}"
        process = subprocess.Popen(command(case, photo), env=ENVIRONMENT, stdout=subprocess.DEVNULL,
                                   stderr=subprocess.DEVNULL)
        time.sleep(generator.uniform(0.1, 1.15) * longest)
        process.kill()
        process.wait()
        found = judge(folder, case, old, number, photo)
        seen[found] += 1
        number += found == "new"
        if i % 100 == 99 and not is_right(case):
            fail("the case is not right any more")
        if i % 200 == 199:
            shutil.copy(DEMO, case)
            number = 6
    if not is_right(case):
        fail("the case is not right any more")
    print(f"killed {kills} times at random instants: old {seen['old']}, new {seen['new']}")


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--writers", type=int, default=2)
    parser.add_argument("--tests", type=int, default=200)
    parser.add_argument("--kills", type=int, default=300)
    parser.add_argument("--seed", type=int, default=1)
    asked = parser.parse_args()
    with tempfile.TemporaryDirectory(prefix="mildsolve-record-") as name:
        folder = pathlib.Path(name)
        killed_at_every_call(folder)
        killed_at_random(folder, asked.kills, random.Random(asked.seed))
        writers_together(folder, asked.writers, asked.tests)


main()
