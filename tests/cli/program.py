# SPDX-License-Identifier: GPL-3.0-or-later
"""The program under test, asked from Python: on a day that is held, and without tables of the user's."""
import os
import subprocess

PROGRAM = os.environ["MILDSOLVE"]


def run(words, directory):
    """Its standard output; ends the test when it does not answer."""
    done = subprocess.run([PROGRAM] + words, cwd=directory, capture_output=True, text=True, timeout=300,
                          env={**os.environ, "XDG_DATA_HOME": "/nonexistent", "SOURCE_DATE_EPOCH": "1764028800"})
    if done.returncode not in (0, 1):
        raise SystemExit(f"{' '.join(words)} ends with {done.returncode}: {done.stderr.strip()}")
    return done.stdout
