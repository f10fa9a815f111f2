#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Changes one sign of the source at a time and asks whether the unit tests of its own folder notice.

    python3 tests/long/mutants.py [--count 400] [--seed 1] [--folders physics,selection] [--least 85]

Works in a copy of the tree under build-mutants/. A mutant is killed when a test fails, crashes or hangs, or when it does
not compile. What survives is listed with file, line and change, to be judged: many are equal to the
original (a tolerance, a start value of a search, a limit that is never met).
"""
import argparse
import pathlib
import random
import re
import shutil
import subprocess
import sys
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
WORK = ROOT / "build-mutants"
COPY = WORK / "tree"
BUILD = WORK / "build"
# What is replaced, and by what. Each match is one possible mutant.
CHANGES = [
    (r"(?<=[\w)\]] )\+(?= [\w(])", "-"), (r"(?<=[\w)\]] )-(?= [\w(])", "+"),
    (r"(?<=[\w)\]] )\*(?= [\w(])", "/"), (r"(?<=[\w)\]] )/(?= [\w(])", "*"),
    (r"(?<= )\+=(?= )", "-="), (r"(?<= )-=(?= )", "+="), (r"(?<= )\*=(?= )", "/="), (r"(?<= )/=(?= )", "*="),
    (r"(?<= )<(?= )", ">="), (r"(?<= )>(?= )", "<="), (r"(?<= )<=(?= )", ">"), (r"(?<= )>=(?= )", "<"),
    (r"(?<= )==(?= )", "!="), (r"(?<= )!=(?= )", "=="),
    (r"(?<= )&&(?= )", "||"), (r"(?<= )\|\|(?= )", "&&"),
    (r"(?<=[(& ])!(?=\w)", ""),
    (r"\bfmin\(", "fmax("), (r"\bfmax\(", "fmin("), (r"\blog\(", "exp("), (r"\bexp\(", "log("), (r"\bsqrt\(", "fabs("),
    (r"(?<![\w.])0\.5(?![\w.])", "0.75"), (r"(?<![\w.])[2-9](?:\.\d+)?(?![\w.\]])", None),
    (r"\btrue\b", "false"), (r"\bfalse\b", "true"), (r"\bbreak;", ";"), (r"\bcontinue;", ";"),
]
SKIPPED_LINES = re.compile(r"^\s*(#|//|\*|assert\(|static_assert|enum\b|typedef|struct\b.*;$|\[[A-Z]|\{?\")")


def without_strings(line):
    line = re.sub(r'"(?:[^"\\]|\\.)*"', lambda m: "\0" * len(m[0]), line)
    return re.sub(r"//.*", lambda m: "\0" * len(m[0]), line)


def mutants_of(path):
    for number, line in enumerate(path.read_text().splitlines()):
        if SKIPPED_LINES.match(line) or "error_set(" in line:
            continue
        for pattern, new in CHANGES:
            for match in re.finditer(pattern, without_strings(line)):
                text = new if new is not None else f"{float(match[0]) + 1:g}"
                yield path.relative_to(ROOT), number, match.start(), match[0], text


def tests_near(path, known):
    """Tests of the folder: the file's own first, then those that include its header, then the others, quick ones first."""
    folder, stem = path.parts[1], path.stem
    own = [t for t in known if t[0] == folder]
    including = {t for t in own if f'"{folder}/{stem}.h"' in (ROOT / f"tests/unit/{folder}/test_{t[1]}.c").read_text()}
    return sorted(own, key=lambda t: (t[1] != stem, t not in including, known[t]))


def build(target):
    return subprocess.run(["ninja", "-C", str(BUILD), target], capture_output=True, text=True).returncode == 0


def passes(test, seconds):
    try:
        done = subprocess.run([str(BUILD / "tests" / f"test_{test[0]}_{test[1]}")], cwd=BUILD, capture_output=True,
                              timeout=seconds)
    except subprocess.TimeoutExpired:
        return False
    return done.returncode == 0


def prepare(folders, slowest):
    if COPY.exists():
        shutil.rmtree(COPY)
    shutil.copytree(ROOT, COPY, ignore=shutil.ignore_patterns("build*", ".git"))
    if not (BUILD / "build.ninja").exists():
        subprocess.run(["meson", "setup", str(BUILD), str(COPY), "-Doptimization=1", "-Ddebug=false"], check=True,
                       capture_output=True)
    subprocess.run(["ninja", "-C", str(BUILD)], check=True, capture_output=True)
    known = {}
    for path in sorted((ROOT / "tests/unit").glob("*/test_*.c")):
        test = (path.parent.name, path.stem.removeprefix("test_"))
        if test[0] not in folders or test[1].endswith("_long"):
            continue
        begun = time.monotonic()
        if not passes(test, 300):
            sys.exit(f"{test} fails without any change")
        known[test] = time.monotonic() - begun
        if known[test] > slowest:
            print(f"{'/'.join(test)} takes {known[test]:.0f} s and is left out")
            del known[test]
    return known


def killed_by(mutant, known):
    path, number, column, old, new = mutant
    target = COPY / path
    original = target.read_text()
    lines = original.splitlines(keepends=True)
    lines[number] = lines[number][:column] + new + lines[number][column + len(old):]
    target.write_text("".join(lines))
    try:
        for test in tests_near(path, known):
            if not build(f"tests/test_{test[0]}_{test[1]}"):
                return "compiler"
            if not passes(test, 5 + 8 * known[test]):
                return "/".join(test)
        return None
    finally:
        target.write_text(original)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=400)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--folders", default="physics,selection")
    parser.add_argument("--least", type=float, default=85)
    parser.add_argument("--slowest", type=float, default=30, help="seconds; tests that take longer are not asked")
    options = parser.parse_args()
    folders = options.folders.split(",")
    every = [m for folder in folders for path in sorted((ROOT / "src" / folder).glob("*.c")) for m in mutants_of(path)]
    chosen = random.Random(options.seed).sample(every, min(options.count, len(every)))
    known = prepare(folders, options.slowest)
    killed, survivors = 0, []
    for i, mutant in enumerate(chosen, 1):
        by = killed_by(mutant, known)
        path, number, _, old, new = mutant
        killed += by is not None
        if by is None:
            survivors.append(mutant)
        print(f"{i}/{len(chosen)} {path}:{number + 1} '{old}' -> '{new}': {by or 'SURVIVES'}", flush=True)
    share = 100 * killed / len(chosen)
    print(f"{killed} of {len(chosen)} mutants killed ({share:.1f} %), out of {len(every)} possible")
    for path, number, column, old, new in survivors:
        line = (ROOT / path).read_text().splitlines()[number].strip()
        print(f"survives: {path}:{number + 1} '{old}' -> '{new}' in: {line}")
    return 0 if share >= options.least else 1


if __name__ == "__main__":
    sys.exit(main())
