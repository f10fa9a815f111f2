#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Numbers for people have the decimal mark of the language, numbers that are typed or read by programs a point.

Every command is asked in English and in another language. What the other says holds no figure, point, figure but for the
exceptions below; its decimal numbers are those of the English answer; its JSON is the English one, byte for byte.
"""
import collections
import html
import os
import pathlib
import re
import shutil
import sys
import tempfile

import yaml

from program import run

ROOT = pathlib.Path(os.environ["SOURCE_ROOT"])
CASE = ["--case", "demo-case.yaml"]
ROOM = ["--use", "20", "--hours", "5", "--room", "85.5", "--air-changes", "2.5", "--limits", "eu"]
GOAL = ["--remove", "dammar-aged", "--spare", "linseed-oil-film-young"]
FEW = ["--bottles", "isooctane,propan-2-ol,acetone,ethanol-96"]
BLEND = "toluene 37.5 + acetone 62.5"
COMMANDS = [
    ["place", BLEND, "--material", "dammar-aged"],
    ["place", BLEND, *CASE, "--explain"],
    ["drying", BLEND, "--explain"],
    ["recipe", BLEND, "--volume", "40", "--round", "0.5"],
    ["exposure", BLEND, *ROOM, "--explain"],
    ["exposure", *CASE],
    ["exposure", "n-hexane", "--task", "9:00-9:30 spray 60.5 mL", "--room", "20", "--air-changes", "0.5",
     "--limits", "uk"],
    ["gentlest", *CASE, "--show", "5"],
    ["gentlest", *GOAL, *FEW, "--explain", "1", "--pigment", "0.25"],
    ["gentlest", *GOAL, *FEW, "--by", "red"],
    ["gentlest", *GOAL, "--bottles", "isooctane,white-spirit", "--by", "red", "--margin", "0.9"],
    ["ladder", *CASE],
    ["learn", *CASE],
    ["layers", "--case", "layers-case.yaml"],
    ["replace", "toluene 75 + acetone 25", "--without", "toluene", *FEW],
    ["replace", "toluene", "--without", "toluene", *FEW, "--within", "0.5"],
    ["label", BLEND],
    ["limits", "toluene"],
    ["limits", "benzene"],
    ["solvents", "methoxypropanol"],
    ["solvents", "ethanol-96"],
    ["solvents"],
    ["materials", "dammar-aged"],
    ["materials"],
    ["check", "demo-case.yaml"],
    ["report", *CASE],
    ["report", *CASE, "--sheet"],
    ["report", *CASE, "--output", "report.html"],
    ["report", "--case", "layers-case.yaml", "--output", "layers.html"],
    ["chart", "teas.svg", *CASE],
    ["drying", BLEND, "--chart", "drying.svg"],
    ["exposure", BLEND, *ROOM, "--chart", "air.svg"],
    ["gentlest", *CASE, "--chart", "window.svg"],
]
ELSEWHERE = COMMANDS[:6]  # asked in the other languages as well

EXCEPTIONS = [
    ("the unit, as tables and JSON write it", r"(?:MPa|\(cal/cm3\))\^0\.5"),
    ("an option and its value, which are typed", r"--[a-z-]+[ =][^ ;]+"),
    ("blend notation, which is typed", r"[a-z][a-z0-9-]* \d+\.\d+(?= \+)|(?<=\+ )[a-z][a-z0-9-]* \d+\.\d+"),
    ("a document's number", r"\b10\.\d{4,}/\S+"),
    ("the version of the program", r"mildsolve \d+\.\d+\.\d+"),
    ("a section or table of a regulation", r"\b(?:CLP|HCS|II|[Tt]ab[a-z]+|CFR|no\.) (?:[A-Z]\.)?\d+(?:\.\d+)+"),
    ("a section or table after another", r"\b\d+\.\d+\.\d+"),
    ("a section of 29 CFR", r"\b1910\.\d{4}"),
    ("an equation of a book", r"\beq\. \d+\.\d+"),
    ("what may stand behind an option", r"\d+\.\d+(?= \S+ 1 \()"),
    ("a grade, in the words of the case", r"\b99\.[58] %"),
]
# Fields of tables that the catalogues translate.
TRANSLATED = {"words", "state", "set_apart", "health_note", "regulatory", "name", "behaviour", "not_proposed", "no_region", "meaning",
              "warning"}

passed = compared = 0
failures = []


def texts_of(node):
    if isinstance(node, dict):
        node = [value for key, value in node.items() if key not in TRANSLATED]
    if isinstance(node, list):
        for item in node:
            yield from texts_of(item)
    elif isinstance(node, str):
        yield node


def one_line(text):
    return " ".join(text.split())


# Notes, sources and the words of a case stand as they were written, in English.
TABLES = sorted([*(ROOT / "data").glob("*.yaml"), *(ROOT / "examples").glob("*-case.yaml")])
QUOTED = one_line(" | ".join(text for name in TABLES for text in texts_of(yaml.safe_load(name.read_text()))))


def said(words, language, directory):
    """What people read of the answer, files that it wrote included."""
    out = run(words + ["--language", language], directory)
    for name in words:
        if name.endswith((".html", ".svg")):
            markup = (directory / name).read_text()
            if name.endswith(".html"):
                markup = re.sub(r"<style.*?</style>", " ", markup, flags=re.S)
            else:
                markup = " ".join(re.findall(r"<(?:text|title|desc)[ >].*?</(?:text|title|desc)>", markup, flags=re.S))
            out += " " + html.unescape(re.sub(r"<[^>]*>", " ", markup))
    return one_line(out.replace("\u00a0", " ").replace("\u2212", "-"))


def is_quoted(match):
    before = match.string[max(0, match.start() - 18):match.start()].lstrip()
    behind = match.string[match.end():match.end() + 18].rstrip()
    return any(len(piece) > len(match[0]) + 8 and piece in QUOTED for piece in (before + match[0], match[0] + behind))


def without_exceptions(text):
    text = re.sub(r"\d+\.\d[\d.]*", lambda match: "~" if is_quoted(match) else match[0], text)
    for _, pattern in EXCEPTIONS:
        text = re.sub(pattern, " ~ ", text)
    return text


def numbers(text, mark):
    """Not the figures of "1,2-xylene"."""
    return collections.Counter(number.replace(mark, ".") for number in
                               re.findall(rf"(?<![\d.,])\d+[{mark}]\d+(?![\d.,]*[\d])(?![\d,]*-(?!mal\b)[a-z])", text))


def check(good, words, language, what):
    global passed
    if good:
        passed += 1
    else:
        failures.append(f"mildsolve {' '.join(words)} --language {language}\n  {what}")


def points(words, text, language):
    left = re.search(r"\d\.\d", text)
    check(left is None, words, language, f"a decimal point: {text[max(0, (left or re.search('', text)).start() - 40):][:80]}")


def same_numbers(words, english, other, language):
    global compared
    asked, got = numbers(english, "."), numbers(other, ",")
    compared += sum(got.values())
    check(asked == got, words, language, f"only in English: {dict(asked - got)}; only there: {dict(got - asked)}")


def main():
    with tempfile.TemporaryDirectory() as folder:
        directory = pathlib.Path(folder)
        for case in ("demo-case.yaml", "layers-case.yaml"):
            shutil.copy(ROOT / "examples" / case, directory)
        for words in COMMANDS:
            english = without_exceptions(said(words, "en", directory))
            for language in ["de", "fr", "it", "es"] if words in ELSEWHERE else ["de"]:
                other = without_exceptions(said(words, language, directory))
                points(words, other, language)
                same_numbers(words, english, other, language)
            if not any(word.endswith((".html", ".svg")) for word in words) and words[0] != "report":
                check(run(words + ["--json"], directory) == run(words + ["--json", "--language", "de"], directory), words,
                      "de", "the JSON is another")
        for language in ("en", "de"):
            run(["report", *CASE, "--output", f"{language}.json", "--language", language], directory)
        same = (directory / "en.json").read_bytes() == (directory / "de.json").read_bytes()
        check(same, ["report"], "de", "the JSON is another")
    check(compared > 2000, [], "de", f"only {compared} numbers were compared")
    for failure in failures:
        print("FAILED:", failure)
    print(f"{passed} passed, {len(failures)} failed")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
