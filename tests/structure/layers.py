#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Every #include in src/ points to the same layer or to one above it; outside libraries stay where they belong."""
import pathlib
import re
import sys

SOURCE = pathlib.Path(__file__).resolve().parents[2] / "src"
ORDER = ["base", "data", "physics", "casefile", "selection", "present", "cli"]
# Header -> folders that may use it.
OUTSIDE = {
    "yaml.h": ["data"],
    "gsl/": ["physics", "casefile", "selection"],
    "cairo": ["present/chart/draw"],
    "pango/": ["present/chart/draw"],
    "png.h": ["present/chart/draw"],
    "dlfcn.h": ["present/chart"],
    "pthread.h": ["base", "selection"],
}


def folder_of(path):
    return path.relative_to(SOURCE).parent.as_posix()


def check_own(path, target, faults):
    layer = folder_of(path).split("/")[0]
    other = target.split("/")[0]
    if not (SOURCE / target).is_file():
        faults.append(f"{path}: #include \"{target}\" names no file of src/")
    elif layer == ".":
        return
    elif other not in ORDER or layer not in ORDER:
        faults.append(f"{path}: folder '{other}' or '{layer}' is not in the list of layers")
    elif ORDER.index(other) > ORDER.index(layer):
        faults.append(f"{path}: {layer} may not use {other} (\"{target}\")")


def check_outside(path, target, faults):
    for header, folders in OUTSIDE.items():
        inside = any(folder_of(path) == f or folder_of(path).startswith(f + "/") for f in folders)
        if target.startswith(header) and not inside:
            faults.append(f"{path}: <{target}> may only be used in {', '.join(folders)}")


def main():
    faults = []
    seen = 0
    for path in sorted(SOURCE.rglob("*.[ch]")):
        for line in path.read_text().splitlines():
            match = re.match(r'\s*#\s*include\s*(["<])([^">]+)[">]', line)
            if not match:
                continue
            seen += 1
            (check_own if match[1] == '"' else check_outside)(path, match[2], faults)
    for fault in faults:
        print(fault)
    print(f"{seen} includes read, {len(faults)} against the direction")
    return 1 if faults or seen < 100 else 0


sys.exit(main())
