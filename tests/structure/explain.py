#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""With --explain every number of an answer says where it comes from.

Each number of the JSON answer stands among the keys of one figure of `explain`, every figure says what it is and where its
equation comes from, every value of the tables has a source or says how sure it is. json_keys.py asks this of its questions;
here, of those that are answered at once, the answer itself is the same as without the option, and in the text every
figure and value of the JSON is there, within 80 columns.

    explain.py [COMMAND ...]     only these
"""
import functools
import json
import os
import pathlib
import re
import shlex
import subprocess
import sys
import tempfile

PROGRAM = os.environ["MILDSOLVE"]
AT_ONCE = ["place", "exposure", "drying", "recipe", "label", "chart"]
# Besides the questions about keys: figures that only some options print.
MORE = [
    'exposure "n-hexane 50 + xylenes 50" --use 30 --hours 9 --room 40 --air-changes 2 --limits uk --shift 10 --long-shift --like-effects',
    'exposure "isooctane 1 + n-heptane 1" --task "9:00-10:00 swab 200 mL/h" --task "10:05-12:00 swab 300 mL/h" --room 30 '
    '--air-changes 1 --limits de --capture 50 --capture-measured smoke',
    'recipe "isooctane 70 + acetone 30" --leftover "isooctane 80 + acetone 20" --leftover-ml 50',
    'label "acetone 50 + white-spirit 50" --flash -10',
    'drying "ethanol-96 50 + isooctane 50"',
    'place "white-spirit 80 + benzyl-alcohol 20" --temperature 25',
]
failures = []
counts = {"questions": 0, "numbers": 0, "quantities": set(), "echoes": set(), "values": 0}


def check(condition, sentence):
    if not condition:
        failures.append(sentence)


def numbers(value, path, found):
    """The keys that lead to every number, as `explain` writes them."""
    if isinstance(value, list):
        for item in value:
            numbers(item, path + "[]", found)
    elif isinstance(value, dict):
        for key, inner in value.items():
            numbers(inner, f"{path}.{key}" if path else key, found)
    elif isinstance(value, (int, float)) and not isinstance(value, bool):
        found.add(path)


@functools.cache
def has_option(command):
    done = subprocess.run([PROGRAM, command, "--help"], capture_output=True, text=True)
    return re.search(r"^  --explain", done.stdout, re.M) is not None


def check_json(words, full):
    """Of an answer with --explain."""
    name = " ".join(words)
    explain = full["explain"]
    expected = set()
    numbers({key: value for key, value in full.items() if key != "explain"}, "", expected)
    listed = [key for figure in explain["figures"] for key in figure["keys"]]
    check(len(listed) == len(set(listed)), f"{name}: a key stands twice")
    lacking = sorted(expected - set(listed))
    check(not lacking, f"{name}: nothing is said of {', '.join(lacking)}")
    check(not explain["without_line"], f"{name}: without_line is {explain['without_line']}")
    strange = sorted(set(listed) - expected)
    check(not strange, f"{name}: explained but not printed: {', '.join(strange)}")
    for figure in explain["figures"]:
        if figure["as_given"]:
            counts["echoes"].add((words[0], figure["keys"][0]))
            continue
        counts["quantities"].add((figure["name"], figure["meaning"]))
        check(figure["name"] and figure["meaning"] and figure["equation_from"], f"{name}: incomplete: {figure}")
    known = {reference["id"] for reference in explain["references"]}
    for value in explain["values"]:
        check(set(value["source"]["refs"]) <= known, f"{name}: a source isn't listed: {value}")
        check(value["source"]["refs"] or value["source"]["sure"] != "unstated" or value["source"]["yours"],
              f"{name}: no source: {value}")
    counts["questions"] += 1
    counts["numbers"] += len(expected)
    counts["values"] += len(explain["values"])


def report():
    """Prints the faults, and how much was looked at; returns the number of faults."""
    for failure in failures:
        print("FAIL", failure)
    print(f"{counts['questions']} questions, {counts['numbers']} keys with numbers, {len(counts['quantities'])} quantities, "
          f"{len(counts['echoes'])} echoes, {counts['values']} values, {len(failures)} faults")
    return len(failures)


def check_text(words, explain, directory):
    name = " ".join(words)
    done = subprocess.run([PROGRAM] + words + ["--explain"], cwd=directory, capture_output=True, text=True, timeout=200,
                          env={**os.environ, "XDG_DATA_HOME": "/nonexistent", "SOURCE_DATE_EPOCH": "1764028800"})
    check("\nHow the figures came about\n" in done.stdout, f"{name}: the text has no such part")
    part = done.stdout.split("\nHow the figures came about\n")[-1]
    flat = " ".join(part.split())
    for figure in explain["figures"]:
        check(figure["as_given"] or f"{figure['name']}: {figure['meaning']}" in flat, f"{name}: not in the text: {figure['name']}")
    for value in explain["values"]:
        words_of = value["value"] if isinstance(value["value"], str) else f"{value['value']:.10g}"
        check(" ".join(words_of.split()) in flat, f"{name}: not in the text: {value}")
    for line in part.split("\n"):
        check(len(line) <= 80 or " " not in line.strip(), f"{name}: more than 80 columns: {line}")


def main():
    import json_keys  # the questions, and how they are asked
    wanted = sys.argv[1:]
    with tempfile.TemporaryDirectory() as directory:
        for words in [*json_keys.questions(), *map(shlex.split, MORE)]:
            if words[0] not in (wanted or AT_ONCE) or not has_option(words[0]):
                continue
            plain = json_keys.answer(words, directory)
            full = json_keys.answer(words + ["--explain"], directory)
            check(plain and full and "explain" in full, f"{' '.join(words)}: no answer")
            if plain and full and "explain" in full:
                check_json(words, full)
                explain = full.pop("explain")
                if "-o" not in words:  # a file does not hold it, so it is refused there
                    check_text(words, explain, directory)
                check(json.dumps(full) == json.dumps(plain), f"{' '.join(words)}: the answer is another one with --explain")
    return 1 if report() or not counts["questions"] else 0


if __name__ == "__main__":
    sys.exit(main())
