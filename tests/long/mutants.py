#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Changes one sign of the source at a time and asks whether the unit tests of its own folder notice.

    python3 tests/long/mutants.py [--count 400] [--seed 1] [--folders physics,selection] [--least 85] [--jobs 1]

A mutant is killed when a test fails, crashes or needs five times its usual time. One that does not compile counts for
nothing: the next of the sample takes its place. The sample is drawn by the seed and the text of the line, so that an
edit elsewhere changes nothing in it. What survives is listed; mutants.txt says which of those cannot be noticed by any
test (`equal`) and which could, but are let live (`kept`), each with the reason.

How it goes fast: the layers are one shared library; a mutated file is compiled alone and loaded in front of it; only
tests that run the changed line (by gcov) are asked, quick ones first, and a test ends at its first failure. Everything
stands in build-mutants/, also the results: a run that was interrupted goes on where it was, and a result is used again
as long as neither the changed file nor the test has changed (--fresh forgets them).
"""
import argparse
import concurrent.futures
import gzip
import hashlib
import json
import os
import pathlib
import re
import resource
import shutil
import subprocess
import sys
import threading
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
WORK = ROOT / "build-mutants"
BUILD = WORK / "build"
JUDGED = pathlib.Path(__file__).with_name("mutants.txt")
# The layers that become the shared library, and what the tests need besides.
LAYERS = ["base", "data", "physics", "casefile", "selection"]
REST = ["tests/libmodel-errors-lib.a", "tests/libtest-support.a", "src/libpresent.a"]
LIBRARIES = ["-lyaml", "-lgsl", "-lgslcblas", "-lm", "-lz", "-pthread"]
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
# Linked into every test: the first failure ends it.
STOP = """#include <unistd.h>
void __wrap__ck_assert_failed(const char *file, int line, const char *expression, const char *text, ...);
void __wrap__ck_assert_failed(const char *file, int line, const char *expression, const char *text, ...)
{
    (void)file, (void)line, (void)expression, (void)text;
    _exit(1);
}
"""


def without_strings(line):
    line = re.sub(r'"(?:[^"\\]|\\.)*"', lambda m: "\0" * len(m[0]), line)
    return re.sub(r"//.*", lambda m: "\0" * len(m[0]), line)


def mutants_of(path):
    """Every mutant of a file, named by the text of its line: `kind` counts equal lines, `place` equal signs on a line."""
    kinds = {}
    for number, line in enumerate(path.read_text().splitlines()):
        text = line.strip()
        kinds[text] = kinds.get(text, 0) + 1
        if SKIPPED_LINES.match(line) or "error_set(" in line:
            continue
        places = {}
        for pattern, new in CHANGES:
            for match in re.finditer(pattern, without_strings(line)):
                old = match[0]
                places[old] = places.get(old, 0) + 1
                yield {"path": str(path.relative_to(ROOT)), "number": number, "column": match.start(), "old": old,
                       "new": new if new is not None else f"{float(old) + 1:g}", "text": text, "kind": kinds[text],
                       "place": places[old]}


def name_of(mutant):
    return "\t".join(str(mutant[key]) for key in ("path", "text", "kind", "place", "old", "new"))


def digest(*parts):
    whole = hashlib.sha256()
    for part in parts:
        whole.update(part.read_bytes() if isinstance(part, pathlib.Path) else part.encode())
        whole.update(b"\0")
    return whole.hexdigest()[:16]


def test_file(test):
    return ROOT / "tests/unit" / test[0] / f"test_{test[1]}.c"


def run(command, **options):
    done = subprocess.run([str(c) for c in command], capture_output=True, text=True, **options)
    if done.returncode != 0:
        sys.exit(f"{' '.join(str(c) for c in command)}\n{done.stdout[-3000:]}{done.stderr[-3000:]}")
    return done.stdout


class Commands:
    """How the build folder compiles a source file."""

    def __init__(self):
        self.by_file = {}
        for entry in json.loads((BUILD / "compile_commands.json").read_text()):
            words = entry["command"].split()
            self.by_file[(BUILD / entry["file"]).resolve()] = words

    def of(self, source, text_at, output, extra):
        words = [w for w in self.by_file[(ROOT / source).resolve()] if w != "ccache"]
        kept = []
        skip = False
        for word in words:
            if skip:
                skip = False
            elif word in ("-o", "-c", "-MF", "-MQ"):
                skip = True
            elif word not in ("-MD", "-g", "-Werror"):
                kept.append(word.replace('\\"', '"').replace('"', '"'))
        return kept + ["-w", "-fPIC", *extra, "-o", str(output), str(text_at)]


def compile_one(command):
    return subprocess.run(command, cwd=BUILD, capture_output=True, env={**os.environ, "CCACHE_DISABLE": "1"}).returncode == 0


def tests_of(folders):
    found = [(p.parent.name, p.stem.removeprefix("test_")) for p in sorted((ROOT / "tests/unit").glob("*/test_*.c"))]
    return [t for t in found if t[0] in folders and not t[1].endswith("_long")]


def layer_objects(layer):
    return sorted((BUILD / f"src/lib{layer}.a.p").glob("*.o"))


def build_plain(tests):
    if not (BUILD / "build.ninja").exists():
        run(["meson", "setup", BUILD, ROOT, "-Doptimization=1", "-Ddebug=false", "-Db_staticpic=true"])
    objects = [f"tests/test_{f}_{n}.p/unit_{f}_test_{n}.c.o" for f, n in tests]
    run(["ninja", "-C", BUILD, *(f"src/lib{layer}.a" for layer in LAYERS), *REST, *objects])
    plain = WORK / "plain"
    plain.mkdir(exist_ok=True)
    run(["gcc", "-shared", "-o", plain / "liblayers.so", *(o for layer in LAYERS for o in layer_objects(layer)), *LIBRARIES])
    stop = WORK / "stop.c"
    stop.write_text(STOP)
    run(["gcc", "-c", "-o", WORK / "stop.o", stop])
    for (folder, name), made in zip(tests, objects):
        out = WORK / f"test_{folder}_{name}"
        if out.exists() and out.stat().st_mtime > max((BUILD / p).stat().st_mtime for p in [made, *REST]):
            continue
        run(["gcc", "-o", out, BUILD / made, WORK / "stop.o", "-Wl,--wrap=_ck_assert_failed", "-Wl,--start-group",
             *(BUILD / p for p in REST), "-Wl,--end-group", f"-L{plain}", "-llayers", "-lcheck", "-lsubunit", *LIBRARIES])


def build_counting(commands, folders):
    """The same library with lines counted in the folders asked for."""
    counting = WORK / "counting"
    counting.mkdir(exist_ok=True)
    objects = []
    for layer in LAYERS:
        if layer not in folders:
            objects += layer_objects(layer)
            continue
        for source in sorted((ROOT / "src" / layer).glob("*.c")):
            out = counting / f"{layer}_{source.stem}.o"
            objects.append(out)
            if not out.exists() or out.stat().st_mtime < source.stat().st_mtime:
                command = commands.of(source.relative_to(ROOT), source, out, ["-c", "-O0", "--coverage"])
                if not compile_one(command):
                    sys.exit(f"{source} does not compile with --coverage")
    run(["gcc", "-shared", "--coverage", "-o", counting / "liblayers.so", *objects, *LIBRARIES])


def run_test(test, library, seconds, preload=None, extra=None):
    """Whether the test passes, and its time on the processor."""
    environment = {**os.environ, "CK_FORK": "no", "LD_LIBRARY_PATH": str(WORK / library), **(extra or {})}
    if preload:
        environment["LD_PRELOAD"] = str(preload)

    def limit():
        resource.setrlimit(resource.RLIMIT_CPU, (int(seconds) + 1, int(seconds) + 1))
        resource.setrlimit(resource.RLIMIT_AS, (4 << 30, 4 << 30))
        resource.setrlimit(resource.RLIMIT_CORE, (0, 0))

    begun = time.monotonic()
    child = subprocess.Popen([str(WORK / f"test_{test[0]}_{test[1]}")], cwd=BUILD, env=environment, preexec_fn=limit,
                             stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    timer = threading.Timer(100 * seconds + 600, child.kill)  # waits for ever; a busy machine is no fault
    timer.start()
    _, status, usage = os.wait4(child.pid, 0)
    timer.cancel()
    child.returncode = os.waitstatus_to_exitcode(status)
    return child.returncode == 0, usage.ru_utime + usage.ru_stime, time.monotonic() - begun


def lines_run(test, seconds):
    """Lines that a test runs: {file: [line numbers from 1]}, and of each file those that can run at all."""
    counting = WORK / "counting"
    base = WORK / f"count_{test[0]}_{test[1]}"
    shutil.rmtree(base, ignore_errors=True)
    passed, _, _ = run_test(test, "counting", seconds, extra={"GCOV_PREFIX": str(base)})
    if not passed:
        return None
    ran = {}
    where = base / str(counting).lstrip("/")
    counts = sorted(where.glob(f"{test[0]}_*.gcda"))
    for count in counts:
        shutil.copy(counting / (count.stem + ".gcno"), where)
    if counts:
        subprocess.run(["gcov", "--json-format", *(c.name for c in counts)], cwd=where, check=True, capture_output=True)
    for made in where.glob("*.gcov.json.gz"):
        for file in json.loads(gzip.decompress(made.read_bytes()))["files"]:
            if file["file"].endswith(".c"):
                name = str(pathlib.Path(file["file"]).resolve().relative_to(ROOT))
                ran[name] = {"run": sorted({l["line_number"] for l in file["lines"] if l["count"]}),
                             "can": sorted({l["line_number"] for l in file["lines"]})}
    shutil.rmtree(base)
    return ran


def learn_tests(tests, commands, folders, slowest, jobs):
    """Time of each test, and the lines that it runs; remembered as long as neither source nor test changes."""
    memory = WORK / "tests.json"
    known = json.loads(memory.read_text()) if memory.exists() else {}
    sources = {f: digest(*sorted((ROOT / "src" / f).glob("*.c"))) for f in folders}
    missing = [t for t in tests if known.get("/".join(t), {}).get("stamp") != digest(sources[t[0]], test_file(t))]
    if missing:
        build_counting(commands, folders)

    def one(test):
        passed, cpu, _ = run_test(test, "plain", 200)
        if not passed:
            sys.exit(f"{'/'.join(test)} fails without any change")
        ran = lines_run(test, 40 * cpu + 60)
        return {"stamp": digest(sources[test[0]], test_file(test)), "seconds": cpu, "ran": ran}

    with concurrent.futures.ThreadPoolExecutor(jobs) as pool:
        for test, learnt in zip(missing, pool.map(one, missing)):
            known["/".join(test)] = learnt
            memory.write_text(json.dumps(known))
    for test in tests:
        if known["/".join(test)]["seconds"] > slowest:
            print(f"{'/'.join(test)} takes {known['/'.join(test)]['seconds']:.0f} s: asked only of {test[0]}/"
                  f"{first_word(test[1])}*.c")
    return {test: known["/".join(test)] for test in tests}


def runs_line(learnt, mutant):
    """A line without code of its own belongs to the statement that begins above it."""
    if learnt["ran"] is None:
        return True
    file = learnt["ran"].get(mutant["path"])
    if file is None:
        return False
    line = mutant["number"] + 1
    if line in file["can"]:
        return line in file["run"]
    above = [n for n in file["can"] if n < line]
    return not above or above[-1] in file["run"]


def first_word(name):
    return name.split("_")[0]


def tests_near(mutant, known, slowest):
    """Tests of the folder that run the line, quick ones first; the file's own before others that are as quick."""
    folder, stem = mutant["path"].split("/")[1], pathlib.Path(mutant["path"]).stem
    asked = [t for t in known if t[0] == folder and runs_line(known[t], mutant)
             and (known[t]["seconds"] <= slowest or first_word(t[1]) == first_word(stem))]
    return sorted(asked, key=lambda t: known[t]["seconds"] * (0.2 if stem.startswith(t[1]) or t[1].startswith(stem) else 1))


def try_mutant(mutant, known, commands, slowest):
    path = ROOT / mutant["path"]
    lines = path.read_text().splitlines(keepends=True)
    line, column = lines[mutant["number"]], mutant["column"]
    lines[mutant["number"]] = line[:column] + mutant["new"] + line[column + len(mutant["old"]):]
    stem = f"mutant_{digest(name_of(mutant))}"
    text, library = WORK / f"{stem}.c", WORK / f"{stem}.so"
    text.write_text("".join(lines))
    try:
        if not compile_one(commands.of(mutant["path"], text, library, ["-shared"])):
            return "compiler", 0
        near = tests_near(mutant, known, slowest)
        for test in near:
            if not run_test(test, "plain", max(5, 5 * known[test]["seconds"]), preload=library)[0]:
                return "/".join(test), len(near)
        return None, len(near)
    finally:
        text.unlink()
        library.unlink(missing_ok=True)


def stamp_of(mutant, by, known):
    folder = mutant["path"].split("/")[1]
    asked = [test_file(by.split("/"))] if by and by != "compiler" else [] if by else \
        sorted(test_file(t) for t in known if t[0] == folder)
    return digest(ROOT / mutant["path"], *(p for p in asked if p.exists()))


def judgements():
    """mutants.txt: blocks of four lines (file, line of source, change, verdict: reason); longer reasons go on."""
    judged = {}
    if not JUDGED.exists():
        return judged
    for block in re.split(r"\n\s*\n", JUDGED.read_text()):
        rows = [r.strip() for r in block.splitlines() if r.strip() and not r.startswith("#")]
        if not rows:
            continue
        change = re.fullmatch(r"'(.+)' -> '(.*)'(?:, sign (\d+))?(?:, line (\d+) of its kind)?", rows[2]) \
            if len(rows) > 3 else None
        verdict = re.fullmatch(r"(equal|kept): (.+)", " ".join(rows[3:]))
        if not change or not verdict:
            sys.exit(f"mutants.txt: not understood: {block}")
        name = "\t".join([rows[0], rows[1], change[4] or "1", change[3] or "1", change[1], change[2]])
        judged[name] = verdict.groups()
    return judged


def change_text(mutant):
    text = f"'{mutant['old']}' -> '{mutant['new']}'"
    text += f", sign {mutant['place']}" if mutant["place"] > 1 else ""
    return text + (f", line {mutant['kind']} of its kind" if mutant["kind"] > 1 else "")


def try_sample(every, options, known, commands):
    """Results of the first `count` mutants of the order that compile, as (mutant, killer or None)."""
    memory = WORK / "results.jsonl"
    if options.fresh:
        memory.unlink(missing_ok=True)
    old = {}
    if memory.exists():
        for row in memory.read_text().splitlines():
            result = json.loads(row)
            old[result["name"]] = result
    lock = threading.Lock()
    begun, tried = time.monotonic(), 0

    def one(mutant):
        nonlocal tried
        name = name_of(mutant)
        known_result = old.get(name)
        if known_result and (options.trust or known_result["stamp"] == stamp_of(mutant, known_result["by"], known)):
            return known_result["by"], known_result["asked"]
        by, asked = try_mutant(mutant, known, commands, options.slowest)
        with lock:
            tried += 1
            row = {"name": name, "by": by, "asked": asked, "stamp": stamp_of(mutant, by, known)}
            with memory.open("a") as out:
                out.write(json.dumps(row) + "\n")
            print(f"{tried} in {(time.monotonic() - begun) / 60:.1f} min: {mutant['path']}:{mutant['number'] + 1} "
                  f"{change_text(mutant)}: {by or f'SURVIVES {asked} tests'}", flush=True)
        return by, asked

    results, at = [], 0
    with concurrent.futures.ThreadPoolExecutor(options.jobs) as pool:
        while len(results) < options.count and at < len(every):
            part = every[at:at + options.count - len(results)]
            at += len(part)
            for mutant, (by, asked) in zip(part, pool.map(one, part)):
                if by != "compiler":
                    results.append((mutant, by, asked))
    return results, at - len(results)


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--count", type=int, default=400)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--folders", default="physics,selection")
    parser.add_argument("--least", type=float, default=85)
    parser.add_argument("--slowest", type=float, default=5,
                        help="seconds; tests that take longer are asked only of files that begin with the same word")
    parser.add_argument("--jobs", type=int, default=1)
    parser.add_argument("--trust", action="store_true", help="use earlier results whatever has changed since")
    parser.add_argument("--fresh", action="store_true", help="forget earlier results")
    options = parser.parse_args()
    folders = options.folders.split(",")
    WORK.mkdir(exist_ok=True)
    judged = judgements()
    every = [m for folder in folders for path in sorted((ROOT / "src" / folder).glob("*.c")) for m in mutants_of(path)]
    stale = set(judged) - {name_of(m) for m in every}
    if stale:
        print("mutants.txt judges what is no longer there:\n" + "\n".join(sorted(stale)))
    every.sort(key=lambda m: digest(str(options.seed), name_of(m)))
    tests = tests_of(folders)
    build_plain(tests)
    commands = Commands()
    known = learn_tests(tests, commands, folders, options.slowest, options.jobs)
    results, stillborn = try_sample(every, options, known, commands)

    survivors = [(m, asked) for m, by, asked in results if by is None]
    for mutant, asked in sorted(survivors, key=lambda s: (s[0]["path"], s[0]["number"])):
        verdict, reason = judged.get(name_of(mutant), ("not judged", "" if asked else "no test runs the line"))
        print(f"\n{mutant['path']}\n    {mutant['text']}\n    {change_text(mutant)}\n    {verdict}: {reason}"
              f"   (line {mutant['number'] + 1}, {asked} tests)")
    equal = sum(judged.get(name_of(m), ("",))[0] == "equal" for m, _ in survivors)
    killed = len(results) - len(survivors)
    share = 100 * killed / (len(results) - equal)
    print(f"\n{len(every)} mutants are possible; {len(results)} tried ({stillborn} more did not compile), {killed} killed, "
          f"{len(survivors)} survive, of which {equal} equal the original")
    for folder in folders:
        here = [by for m, by, _ in results if m["path"].split("/")[1] == folder]
        print(f"  {folder}: {sum(by is not None for by in here)} of {len(here)} killed")
    print(f"killed of all: {100 * killed / len(results):.1f} %; of those that can be noticed: {share:.1f} %")
    return 0 if share >= options.least else 1


if __name__ == "__main__":
    sys.exit(main())
