#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The answer cannot be delivered: exit status 3 and a sentence, for every command; never silence and success. Files that
a command was asked for are whole all the same, whatever of the standard descriptors is closed.

Usage: output.py [--long]
"""
import argparse
import os
import signal
import subprocess
import tempfile

import common

WHOLE = [["--help"], ["place", "--help"], ["--version"], ["--completion", "bash"]]


def closing(*descriptors):
    def close():
        for descriptor in descriptors:
            os.close(descriptor)
    return close


def ignoring_pipes():
    signal.signal(signal.SIGPIPE, signal.SIG_IGN)


def heeding_pipes():
    signal.signal(signal.SIGPIPE, signal.SIG_DFL)


def broken_pipe():
    reading, writing = os.pipe()
    os.close(reading)
    return writing


def full():
    return os.open("/dev/full", os.O_WRONLY)


def only_read():
    return os.open("/dev/null", os.O_RDONLY)


def nothing():
    return os.open("/dev/null", os.O_WRONLY)


# What stands at standard output, what is done before the program starts, exit status, words.
OUTPUTS = {
    "a full disk": (full, None, 3, "cannot write the answer: No space left on device"),
    "a closed output": (nothing, closing(1), 3, "cannot write the answer: Bad file descriptor"),
    "a broken pipe": (broken_pipe, ignoring_pipes, 3, "cannot write the answer: Broken pipe"),
    "a broken pipe that ends it": (broken_pipe, heeding_pipes, -signal.SIGPIPE, ""),
    "an output to be read": (only_read, None, 3, "cannot write the answer: Bad file descriptor"),
    "nothing open at all": (nothing, closing(0, 1, 2), 3, None),
}


def fault_of(words, what, targets=(), plain=None):
    make, before, status, sentence = OUTPUTS[what]
    with tempfile.TemporaryDirectory(prefix="mildsolve-output-") as folder:
        common.fill(folder, targets)
        output = make()
        done = subprocess.run([common.PROGRAM, *words], cwd=folder, env=common.environment(), stdin=subprocess.DEVNULL,
                              stdout=output, stderr=subprocess.PIPE, preexec_fn=before, restore_signals=False,
                              timeout=common.TIMEOUT_S)
        os.close(output)
        files = common.contents(folder)
    talk = done.stderr.decode(errors="replace")
    if done.returncode != status or (sentence and sentence not in talk):
        return f"exit status {done.returncode}, expected {status}: {talk[-200:]}"
    if plain and files != plain.files:
        return "the files are not those of an ordinary run"
    return None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--long", action="store_true")
    long = parser.parse_args().long
    outputs = list(OUTPUTS) if long else ["a full disk", "a closed output", "a broken pipe"]
    jobs = [(words, what, (), None) for words in WHOLE + common.READERS for what in outputs]
    for words, targets in common.WRITERS if long else common.WRITERS[:1] + common.WRITERS[10:11]:
        plain = common.Run(words, targets)
        if plain.out:
            jobs += [(words, what, targets, plain) for what in (outputs if long else ["nothing open at all"])]
    found = common.each(lambda job: fault_of(*job), jobs)
    common.finish("answers that cannot be delivered", len(jobs),
                  [f"{common.title(job[0])}, {job[1]}: {fault}" for job, fault in zip(jobs, found) if fault], 60)


main()
