#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The page of the case file names every key and every word that the reader knows, and none besides; its examples are
right cases."""
import os
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
PAGE = (ROOT / "man/mildsolve-case.5").read_text()
RECORDS = (ROOT / "src/casefile/case_records.c").read_text()
failures = []
checked = 0


def check(condition, sentence):
    global checked
    checked += 1
    if not condition:
        failures.append(sentence)


def keys_of_source():
    """Arrays of fields in the order of the source: name of the array -> keys."""
    arrays = {}
    for name, body in re.findall(r"struct field (\w+)_fields\[\] = \{(.*?)\};\n(?:static )?RECORD", RECORDS, re.S):
        macros = r"(?:TEXT|TEXTS|NUMBER|INTEGER|WORD|DATE|GROUP|RECORDS|NEEDED_\w+)\((\w+)"
        arrays[name] = re.findall(macros + r"|\.key = \"(\w+)\"", body)
        arrays[name] = [a or b for a, b in arrays[name]]
    return arrays


def words_of_source():
    lists = {}
    for name, body in re.findall(r"const char \*const (\w+)_words\[\] = \{(.*?)NULL\};", RECORDS, re.S):
        lists[name] = re.findall(r'"([^"]+)"', body)
    return lists


def sections_of_page():
    """Key tags of each subsection."""
    sections = {}
    for title, body in re.findall(r"^\.Ss ([^\n]+)\n(.*?)(?=^\.S[sh] )", PAGE, re.S | re.M):
        sections[title] = (re.findall(r"^\.It Ic (\w+)$", body, re.M), body)
    return sections


def main():
    arrays = keys_of_source()
    sections = sections_of_page()
    places = {"case": "Keys at the top", "object": "Object", "studio": "Studio", "layer": "Layers",
              "passage": "Passages", "place": "Passages", "bottle": "Bottles", "denaturant": "Bottles", "room": "Room",
              "people": "People", "goals": "Goals", "delivery": "Delivery", "planned": "Planned layers", "replacement": "Replacements", "decision": "Decisions", "test": "Tests"}
    check(set(arrays) == set(places), f"records of the source: {sorted(arrays)}")
    expected = {title: [] for title in places.values()}
    for array, title in places.items():
        expected[title] += arrays.get(array, [])
    for title, keys in expected.items():
        documented = sections.get(title, ([], ""))[0]
        check(len(keys) >= 3, f"{title}: only {keys} found in the source")
        check(sorted(documented) == sorted(keys), f"{title}: the page has {documented}, the reader {keys}")
    words = words_of_source()
    check(len(words) >= 9, f"only {sorted(words)} found in the source")
    listed = set(re.findall(r"^\.Li (.+?)(?: [,.;]| \))?$", PAGE, re.M))
    for name, items in words.items():
        for word in items:
            check(word in listed, f"{name}: the page lacks '{word}'")
    examples = re.findall(r"^\.Bd -literal[^\n]*\n(.*?)^\.Ed$", PAGE, re.S | re.M)
    check(len(examples) == 2, f"{len(examples)} examples on the page")
    with tempfile.TemporaryDirectory() as directory:
        for i, text in enumerate(examples):
            path = pathlib.Path(directory) / f"example{i}.yaml"
            path.write_text(text)
            done = subprocess.run([os.environ["MILDSOLVE"], "check", str(path)], capture_output=True, text=True,
                                  env={**os.environ, "XDG_DATA_HOME": "/nonexistent",
                                       "SOURCE_DATE_EPOCH": "1764028800"})
            check(done.returncode == 0, f"example {i + 1}: {done.stdout}{done.stderr}")
    for failure in failures:
        print("FAIL", failure)
    print(f"{checked} checked, {len(failures)} failed")
    return 1 if failures else 0


sys.exit(main())
