#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every key that a command prints with --json is named in the section JSON of its manual page, and every key named
there is one that some question prints. Keys that are data (ids of liquids) are left out. Every number is explained: what can be
asked with --explain is, and explain.py looks at it.

    json_keys.py [COMMAND ...]     only these
"""
import json
import os
import pathlib
import re
import shlex
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import explain  # what --explain says of every number

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ["MILDSOLVE"]
# Maps whose keys are ids.
BY_ID = {"composition", "composition_volume", "composition_volume_percent", "tail", "tail_volume", "inside",
         "volume_percent", "p_words", "twa_8h_mg_m3", "sets_with_a_limit", "index_by_effect", "defaults"}


def questions():
    for line in (ROOT / "tests/structure/json_questions.txt").read_text().splitlines():
        if line and not line.startswith("#"):
            yield shlex.split(line)


def keys_of(value, found):
    if isinstance(value, list):
        for item in value:
            keys_of(item, found)
    elif isinstance(value, dict):
        for key, inner in value.items():
            found.add(key)
            if key in BY_ID and isinstance(inner, dict):
                continue
            keys_of(inner, found)


def answer(words, directory):
    shutil.copy(ROOT / "examples/demo-case.yaml", directory)
    shutil.copy(ROOT / "examples/layers-case.yaml", directory)
    shutil.copy(ROOT / "tests/reference/polymer-solubility.csv", directory)
    done = subprocess.run([PROGRAM] + words + ["--json"], cwd=directory, capture_output=True, text=True, timeout=200,
                          env={**os.environ, "XDG_DATA_HOME": "/nonexistent", "SOURCE_DATE_EPOCH": "1764028800"})
    try:
        return json.loads(done.stdout)
    except ValueError:
        print(f"FAIL {' '.join(words)}: no JSON (exit {done.returncode}): {done.stderr.strip()[:200]}")
        return None


def common():
    """The keys that mildsolve-json(5) describes for all commands."""
    text = (ROOT / "man/mildsolve-json.5").read_text().split(".Sh BLENDS")[1]
    return set(re.findall(r"[a-z][a-z0-9_]*", text))


def section(command):
    text = (ROOT / f"man/mildsolve-{command}.1").read_text()
    match = re.search(r"^\.Sh JSON\n(.*?)^\.Sh ", text, re.M | re.S)
    return re.sub(r"\\&|\\", "", match[1]) if match else ""


def main():
    wanted = sys.argv[1:]
    found = {}
    failures = 0
    with tempfile.TemporaryDirectory() as directory:
        for words in questions():
            if wanted and words[0] not in wanted:
                continue
            value = answer(words + ["--explain"] if explain.has_option(words[0]) else words, directory)
            failures += value is None
            if value and "explain" in value:
                explain.check_json(words, value)
            keys_of(value, found.setdefault(words[0], set()))
    for command, keys in sorted(found.items()):
        named = set(re.findall(r"[a-z][a-z0-9_]*", section(command)))
        lacking = sorted(keys - named - common())
        if lacking:
            failures += 1
            print(f"FAIL man/mildsolve-{command}.1 does not name: {', '.join(lacking)}")
        keylike = {word for word in named if "_" in word}
        idle = sorted(keylike - keys - common())
        if idle:
            failures += 1
            print(f"FAIL man/mildsolve-{command}.1 names what no question prints: {', '.join(idle)}")
    failures += explain.report()
    print(f"{sum(map(len, found.values()))} keys of {len(found)} commands, {failures} faults")
    return 1 if failures or not found else 0


if __name__ == "__main__":
    sys.exit(main())
