# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tests of faults share: a small case, the commands, and running them in a folder of their own."""
import concurrent.futures
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ["MILDSOLVE"]
DEMO = ROOT / "examples" / "demo-case.yaml"
WORKERS = 2
TIMEOUT_S = 600

# A case that is quick to answer; object and people are invented.
CASE = """mildsolve_case: 1
object: {title: Boat Shed, number: LT-1, width_mm: 300, height_mm: 200, measured_from: lower left}
layers:
  - {id: varnish, kind: varnish, material: dammar-aged, thickness_um: 20}
  - {id: paint, kind: paint, material: linseed-oil-film-aged}
passages:
  - {id: sky, place: {x_mm: 0, y_mm: 100, width_mm: 300, height_mm: 100}}
bottles: [{id: isooctane}, {id: propan-2-ol}]
goals: {remove: [varnish], spare: [paint]}
room: {volume_m3: 80, air_changes_per_h: 3, air_changes_are: measured}
tests:
  - {id: T1, date: 2025-02-17, passage: sky, layer: varnish, blend: isooctane, result: none}
"""
TABLE = "date,passage,blend,result,note_wet\n2025-02-19,sky,isooctane,none,one\n2025-02-19,sky,isooctane,none,two\n"
OLD = b"what stood there before\n"

NOTE = ["record", "--case", "case.yaml", "--passage", "sky", "--blend", "propan-2-ol 20 + isooctane 80", "--result",
        "softened", "--date", "2025-02-19"]
REPORT = ["report", "--case", "case.yaml", "--learn", "none", "--doubt", "none"]
AIR = ["exposure", "toluene 1 + acetone 1", "--use", "20", "--hours", "5", "--room", "85", "--air-changes", "3",
       "--limits", "eu"]

# Everything that writes a file: the words, then the files.
WRITERS = [
    (NOTE, ["case.yaml"]),
    (["record", "--case", "case.yaml", "--import", "tests.csv"], ["case.yaml"]),
    (["record", "--case", "case.yaml", "--amend", "T1", "--next-day", "no change"],
     ["case.yaml"]),
    (["record", "--case", "case.yaml", "--undo", "--date", "2025-02-19", "--because", "a reason"], ["case.yaml"]),
    (["record", "--case", "case.yaml", "--export", "out.csv"], ["out.csv"]),
    (REPORT + ["-o", "out.txt"], ["out.txt"]),
    (REPORT + ["-o", "out.html"], ["out.html"]),
    (REPORT + ["-o", "out.json"], ["out.json"]),
    (REPORT + ["-o", "out.pdf"], ["out.pdf"]),
    (REPORT + ["--sheet", "-o", "out.pdf"], ["out.pdf"]),
    (["chart", "out.svg", "--blend", "acetone", "--material", "dammar-aged"], ["out.svg"]),
    (["chart", "out.png", "--blend", "acetone"], ["out.png"]),
    (["chart", "out.pdf", "--blend", "acetone"], ["out.pdf"]),
    (["label", "acetone", "out.svg"], ["out.svg"]),
    (["label", "acetone", "out.png"], ["out.png"]),
    (["label", "acetone", "out.pdf", "--sheet"], ["out.pdf"]),
    (["gentlest", "--remove", "dammar-aged", "--bottles", "isooctane, propan-2-ol", "--chart", "out.svg"],
     ["out.svg"]),
    (["replace", "toluene", "--bottles", "xylenes", "--threads", "1", "--chart", "out.svg"], ["out.svg"]),
    (["learn", "--case", "case.yaml", "--particles", "400", "--chart", "out.svg"], ["out.svg"]),
    (["layers", "--layer", "pnbma in toluene, done", "--layer", "dammar-fresh in xylenes", "--now", "--threads", "1",
      "--section", "section.svg", "--chart", "out.svg"], ["section.svg", "out.svg"]),
    (AIR + ["--chart", "out.svg", "--start", "9:30"], ["out.svg"]),
    (["drying", "ethanol-96 30 + toluene 70", "--chart", "out.svg"], ["out.svg"]),
]

# Every command that only answers.
READERS = [
    ["place", "ethanol-96 15 + isooctane 85"],
    AIR,
    ["recipe", "acetone 1 + toluene 2"],
    ["solvents"],
    ["materials"],
    ["limits", "toluene"],
    ["drying", "acetone"],
    ["label", "acetone"],
    ["gentlest", "--remove", "dammar-aged", "--bottles", "isooctane, propan-2-ol"],
    ["replace", "toluene", "--bottles", "xylenes", "--threads", "1"],
    ["ladder", "--remove", "dammar-aged", "--bottles", "isooctane, propan-2-ol", "--by", "red", "--threads", "1"],
    ["layers", "--layer", "pnbma in toluene, done", "--layer", "dammar-fresh in xylenes", "--now", "--threads", "1"],
    ["learn", "--case", "case.yaml", "--particles", "400"],
    REPORT,
    REPORT + ["--json"],
    ["record", "--case", "case.yaml", "--export", "-"],
    ["check"],
    ["check", "case.yaml", "--date", "2025-02-20"],
]


def environment(**more):
    """Without tables of the user; a module loaded in front may stand before that of a sanitizer."""
    asan = os.environ.get("ASAN_OPTIONS", "") + ":verify_asan_link_order=0"
    return {**os.environ, "XDG_DATA_HOME": "/nonexistent", "NO_COLOR": "1", "ASAN_OPTIONS": asan, **more}


def fill(folder, targets=(), case=CASE):
    """The case and a table of tests; old files at the targets."""
    folder = pathlib.Path(folder)
    for name in targets:
        (folder / name).write_bytes(OLD)
    (folder / "case.yaml").write_text(case)
    shutil.copy(DEMO, folder)
    (folder / "tests.csv").write_text(TABLE)


class Run:
    """One run in a folder of its own: status, out, err, files (name to bytes)."""

    def __init__(self, words, targets=(), case=CASE, env=None):
        with tempfile.TemporaryDirectory(prefix="mildsolve-faults-") as name:
            fill(name, targets, case)
            self.before = contents(name)
            done = subprocess.run([PROGRAM, *words], cwd=name, env=env or environment(), capture_output=True,
                                  stdin=subprocess.DEVNULL, timeout=TIMEOUT_S)
            self.status = done.returncode
            self.out = done.stdout
            self.err = done.stderr.decode(errors="replace")
            self.files = contents(name)

    def crashed(self):
        return self.status < 0 or "Sanitizer" in self.err or "runtime error" in self.err


def contents(folder):
    return {path.name: path.read_bytes() for path in pathlib.Path(folder).iterdir() if path.is_file()}


def each(function, items):
    """Results in order, worked out by as many workers as there may be."""
    with concurrent.futures.ThreadPoolExecutor(WORKERS) as pool:
        return list(pool.map(function, items))


def finish(what, count, faults, least):
    """The last lines of a test: at most 40 faults, the counts; ends the process."""
    for fault in faults[:40]:
        print("FAILED:", fault)
    print(f"{what}: {count}, {len(faults)} faults", flush=True)
    if count < least:
        print(f"FAILED: at least {least} were expected")
    sys.exit(1 if faults or count < least else 0)


def title(words):
    return " ".join(words)
