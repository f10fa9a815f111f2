#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""No two sources of src/ need each other, straight or by way of others: what each object file takes from the others, as
`nm` tells it, makes no circle.

    circles.py FOLDER     where the object files lie, below the build folder's src/
"""
import pathlib
import subprocess
import sys


def read(folder):
    """source: {source it needs: [names]}"""
    objects = sorted(folder.glob("lib*.a.p/*.c.o"))
    lines = subprocess.run(["nm", "-A", *objects], capture_output=True, text=True, check=True).stdout.splitlines()
    home, taken = {}, {p.name.removesuffix(".c.o"): set() for p in objects}
    for line in lines:
        path, words = line.rsplit(":", 1)[0], line.rsplit(":", 1)[1].split()
        source = pathlib.PurePath(path).name.removesuffix(".c.o")
        if len(words) == 2 and words[0] == "U":
            taken[source].add(words[1])
        elif len(words) == 3 and words[1] in "TDRBC":
            home[words[2]] = source
    needs = {source: {} for source in taken}
    for source, names in taken.items():
        for name in sorted(names & home.keys()):
            if home[name] != source:
                needs[source].setdefault(home[name], []).append(name)
    return needs


def left_in_circles(needs):
    """What remains when sources that need nothing that is left, or that nothing left needs, are taken away."""
    left = set(needs)
    while True:
        idle = {s for s in left if not left & needs[s].keys() or not any(s in needs[o] for o in left)}
        if not idle:
            return left
        left -= idle


def main():
    needs = read(pathlib.Path(sys.argv[1]))
    left = left_in_circles(needs)
    for source in sorted(left):
        for other in sorted(left & needs[source].keys()):
            print(f"{source} needs {other}: {', '.join(needs[source][other])}")
    print(f"{len(needs)} sources read, {len(left)} in circles or between them")
    return 1 if left or len(needs) < 100 else 0


if __name__ == "__main__":
    sys.exit(main())
