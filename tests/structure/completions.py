#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""data/completions is what the program writes; its words are those the program knows; the shells offer what they should.

With --update the files are written anew: do so after a command or an option has changed.
"""
import json
import os
import pathlib
import pty
import re
import select
import shlex
import shutil
import subprocess
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
PROGRAM = os.environ["MILDSOLVE"]
FOLDER = ROOT / "data" / "completions"
FILES = {"bash": "mildsolve.bash", "zsh": "_mildsolve", "fish": "mildsolve.fish"}
ENVIRONMENT = {**os.environ, "XDG_DATA_HOME": "/nonexistent", "SOURCE_DATE_EPOCH": "1764028800", "LC_ALL": "C.UTF-8",
               "PATH": f"{pathlib.Path(PROGRAM).parent}:{os.environ['PATH']}"}
passed = 0
failures = []


def check(condition, sentence):
    global passed
    if condition:
        passed += 1
    else:
        failures.append(sentence)


def run(words, **more):
    return subprocess.run(words, capture_output=True, text=True, timeout=300, env=ENVIRONMENT, **more)


def written(shell):
    return run([PROGRAM, "--completion", shell]).stdout


def names(kind, *more):
    return run([PROGRAM, "--names", kind, *more]).stdout.split("\n")[:-1]


# --- the files and the names ---

def check_files():
    for shell, name in FILES.items():
        check((FOLDER / name).read_text() == written(shell),
              f"data/completions/{name} is not what the program writes: MILDSOLVE={PROGRAM} tests/structure/completions.py --update")


def check_names():
    listed = json.loads(run([PROGRAM, "solvents", "--json"]).stdout)
    ids = {row["id"] for part in ("solvents", "bottles") for row in listed.get(part, [])}
    check(set(names("bottles")) == ids, f"--names bottles is not what `solvents` lists: {set(names('bottles')) ^ ids}")
    listed = json.loads(run([PROGRAM, "materials", "--json"]).stdout)
    check(names("materials") == [row["id"] for row in listed["materials"]], "--names materials is not what `materials` lists")
    check("reproductive" in names("left-out") and "acetone" in names("left-out"), "--names left-out")
    check("studio" in names("shelves") and "lake-glaze" in names("sensitivities"), "--names shelves, sensitivities")
    check("uk" in names("limits") and "strictest" in names("limits"), "--names limits")
    demo = str(ROOT / "examples" / "demo-case.yaml")
    check(names("passages") == [] and "cap" in names("passages", "--case", demo), "--names passages of a case")
    check("T1" in names("tests", "--case", demo) and "varnish" in names("layers", "--case", demo), "--names of a case")
    check(run([PROGRAM, "--names", "luck"]).returncode == 2, "--names of an unknown kind is refused")
    check(run([PROGRAM, "--completion", "luck"]).returncode == 2, "--completion of an unknown shell is refused")


# --- the words after an option, as the bash script has them ---

def words_of_options():
    command = None
    for line in written("bash").split("\n"):
        begin = re.match(r"    ([a-z]+)\)$", line)
        command = begin[1] if begin else command
        branch = re.match(r"        (--.*)\) value=option:(\w*)(?: words='(.*)')? ;;", line)
        if branch and command:
            yield command, branch[1].split(" | "), branch[2], branch[3]


def example_of(command, folder):
    """The example of --help, which runs in a folder with the example cases."""
    text = run([PROGRAM, command, "--help"]).stdout.replace("\\\n", " ")
    lines = [line.strip() for line in text.split("\n") if line.strip().startswith("mildsolve ")]
    words = shlex.split(lines[-1])[1:]
    for case in (folder / "case.yaml", folder / "my-case.yaml", folder / "river.yaml"):
        case.write_text((ROOT / "examples" / "demo-case.yaml").read_text())
    return words


def check_words():
    """A word that nobody knows makes the program name those it knows."""
    with tempfile.TemporaryDirectory() as scratch:
        folder = pathlib.Path(scratch)
        shutil.copytree(ROOT / "examples", folder / "examples")
        for case in (ROOT / "examples").glob("*.yaml"):
            (folder / case.name).write_text(case.read_text())
        for command, options, kind, words in words_of_options():
            for option in options:
                if kind != "words":
                    continue
                line = example_of(command, folder)
                while option in line:
                    at = line.index(option)
                    del line[at:at + 2]
                more = ["--chart", "x.png"] if option in ("--size", "--paper", "--rule") and "--chart" in options_of(command) else []
                wrong = "7" if option == "--step" else "zzz"
                said = run([PROGRAM, *line, *more, option, wrong], cwd=folder)
                known = re.search(r"expected: (.*)", said.stderr)
                listed = set(known[1].strip().split(", ")) if known else None
                good = all(word in said.stderr for word in words.split("|"))
                check(said.returncode == 2 and good, f"{command} {option}: {words}, but the program says: {said.stderr[-300:]}")
                check(listed is None or listed - {"not stated"} <= set(words.split("|")),
                      f"{command} {option}: the completion lacks {listed} - {words}")


def options_of(command):
    return re.findall(r"^  (--\S+)", run([PROGRAM, command, "--help"]).stdout, re.M)


def check_hints():
    """Every option whose argument is a word of ours has its words."""
    for command, options, kind, _ in words_of_options():
        text = run([PROGRAM, command, "--help"]).stdout
        for option in options:
            argument = re.search(rf"^  {option} (\S+)", text, re.M)[1]
            needs = argument in ("WORD", "VIEW", "EFFORT", "WHAT", "SIZE", "PAPER", "RULE", "RATE", "CODE", "LIST", "SET", "BOTTLE")
            check(not needs or kind, f"{command} {option} {argument}: src/cli/completion_hints.c does not say what may stand there")
            check(argument not in ("FILE", "DIR", "BLEND") or kind in ("file", "directory", "blend"), f"{command} {option} {argument}")


# --- the shells ---

BASH = r"""
compopt() { :; }
source "$1"; shift
COMP_WORDS=("$@"); COMP_CWORD=$(($# - 1))
_mildsolve
printf '%s\n' "${COMPREPLY[@]}"
"""

def by_bash(*line):
    return run(["bash", "-c", BASH, "bash", str(FOLDER / FILES["bash"]), *line]).stdout.split("\n")[:-1]


def by_fish(line):
    said = run(["fish", "--no-config", "-c", f"source {FOLDER / FILES['fish']}; complete -C {shlex.quote(line)}"]).stdout
    return [row.split("\t")[0] for row in said.split("\n")[:-1]]


def check_bash():
    check(by_bash("mildsolve", "gen") == ["gentlest"], f"bash: a command: {by_bash('mildsolve', 'gen')}")
    check("--remove" in by_bash("mildsolve", "gentlest", "--r"), "bash: an option")
    check(by_bash("mildsolve", "gentlest", "--remove", "dammar-a") == ["dammar-aged"], "bash: a material")
    check(by_bash("mildsolve", "gentlest", "--bottles", "acetone,toluen") == ["acetone,toluene"], "bash: the last of a list")
    check(by_bash("mildsolve", "gentlest", "--bottles", '"acetone, toluen') == ["acetone, toluene"], "bash: a list in quotes")
    check(by_bash("mildsolve", "place", '"propan-2-ol 30 + isooct') == ["propan-2-ol 30 + isooctane"], "bash: a blend")
    check(by_bash("mildsolve", "gentlest", "--by", "") == ["film", "red"], "bash: words")
    check(by_bash("mildsolve", "gentlest", "--margin", "") == [""], "bash: nothing for a number")
    check(by_bash("mildsolve", "record", "--result", "par") == ["partly removed"], "bash: words with spaces")
    demo = str(ROOT / "examples" / "demo-case.yaml")
    check(by_bash("mildsolve", "record", "--case", demo, "--passage", "ca") == ["cap"], "bash: a passage of the case")
    check(demo in by_bash("mildsolve", "check", demo[:-4]), "bash: a file")
    check(by_bash("mildsolve", "materials", "dammar-a") == ["dammar-aged"], "bash: a name as argument")


def check_fish():
    if not shutil.which("fish"):
        print("fish is not installed: skipped")
        return
    check("gentlest" in by_fish("mildsolve gen"), f"fish: a command: {by_fish('mildsolve gen')}")
    check("--remove" in by_fish("mildsolve gentlest --rem"), "fish: an option")
    check("--remove" not in by_fish("mildsolve recipe --rem"), "fish: an option of another command")
    check("dammar-aged" in by_fish("mildsolve gentlest --remove dammar-a"), "fish: a material")
    check("acetone,toluene" in by_fish("mildsolve gentlest --bottles acetone,toluen"), "fish: the last of a list")
    check(by_fish("mildsolve gentlest --by ") == ["film", "red"], f"fish: words: {by_fish('mildsolve gentlest --by ')}")
    check("toluene" in by_fish("mildsolve place tolu"), "fish: a bottle as argument")


def by_zsh(line, expected):
    """What an interactive zsh has on its line after the tabulator key; waits for what is expected."""
    child, terminal = pty.fork()
    if child == 0:
        os.execvpe("zsh", ["zsh", "-f", "-i"], {**ENVIRONMENT, "TERM": "dumb"})
    said = ""

    def wait_for(pattern):
        nonlocal said
        end = time.time() + 60
        while time.time() < end and not re.search(pattern, said):
            if select.select([terminal], [], [], 0.2)[0]:
                said += os.read(terminal, 65536).decode(errors="replace")

    # The prompt is typed in two parts, so that it can be told from what was typed.
    os.write(terminal, f"fpath=({FOLDER} $fpath); autoload -U compinit; compinit -u -D; setopt no_list_beep; "
                       "PS1='rea''dy> '\n".encode())
    wait_for("ready> ")
    said = ""
    os.write(terminal, (line + "\t").encode())
    wait_for(re.escape(expected))
    os.close(terminal)
    os.waitpid(child, 0)
    return said


def check_zsh():
    if not shutil.which("zsh"):
        print("zsh is not installed: skipped")
        return
    for typed, completed in (("mildsolve gentl", "gentlest"), ("mildsolve gentlest --rem", "--remove"),
                             ("mildsolve materials dammar-a", "dammar-aged"),
                             ("mildsolve gentlest --bottles acetone,tolu", "acetone,toluene"),
                             ("mildsolve place 'ethanol 30 + isooct", "'ethanol 30 + isooctane"),
                             ("mildsolve gentlest --by f", "film")):
        line = by_zsh(typed, completed)
        check(completed in line, f"zsh: {typed} became {line!r}")


if "--update" in sys.argv:
    for shell, name in FILES.items():
        (FOLDER / name).write_text(written(shell))
    sys.exit()
check_files()
check_names()
check_hints()
check_words()
check_bash()
check_fish()
check_zsh()
for sentence in failures:
    print("FAILED:", sentence)
print(f"{passed} passed, {len(failures)} failed")
sys.exit(1 if failures else 0)
