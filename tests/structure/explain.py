#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""With --explain every number of an answer says where it comes from.

For every question of json_questions.txt about a command that has the option: each number of the JSON answer stands
among the keys of one figure of `explain`, every figure says what it is and where its equation comes from, every value of the
tables has a source or says how sure it is, and the answer itself is the same as without the option. In text, every figure
and value of the JSON is there, within 80 columns.

    explain.py [COMMAND ...]     only these
"""
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile

sys.path.insert(0, str(pathlib.Path(__file__).parent))
import json_keys  # the questions, and how they are asked

PROGRAM = os.environ["MILDSOLVE"]
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


def has_option(command):
    done = subprocess.run([PROGRAM, command, "--help"], capture_output=True, text=True)
    return re.search(r"^  --explain(?! N)", done.stdout, re.M) is not None


def check_json(words, plain, full):
    name = " ".join(words)
    explain = full.pop("explain", None)
    check(explain is not None, f"{name}: no explain")
    if explain is None:
        return None
    check(json.dumps(full) == json.dumps(plain), f"{name}: the answer is another one with --explain")
    expected = set()
    numbers(plain, "", expected)
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
    return explain


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
    wanted = sys.argv[1:]
    with tempfile.TemporaryDirectory() as directory:
        options = {}
        for words in json_keys.questions():
            command = words[0]
            options.setdefault(command, has_option(command))
            if not options[command] or (wanted and command not in wanted):
                continue
            plain = json_keys.answer(words, directory)
            full = json_keys.answer(words + ["--explain"], directory)
            if plain is None or full is None:
                failures.append(f"{' '.join(words)}: no answer")
                continue
            explain = check_json(words, plain, full)
            if explain:
                check_text(words, explain, directory)
    for failure in failures:
        print("FAIL", failure)
    print(f"{counts['questions']} questions, {counts['numbers']} keys with numbers, {len(counts['quantities'])} quantities, "
          f"{counts['values']} values, {len(failures)} faults")
    return 1 if failures or not counts["questions"] else 0


if __name__ == "__main__":
    sys.exit(main())
