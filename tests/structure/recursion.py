#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""No recursion without a bound: every cycle of calls in the linked program and its module is on the list below, with
what bounds its depth. Calls are read from the machine code (objdump); where
a function takes another's address (a comparison for qsort, a callback) it counts as a call of it. Addresses in tables of
constants are not followed: the table of commands is read by main alone.

Usage: recursion.py PROGRAM [MODULE ...]"""

import re
import subprocess
import sys
from pathlib import Path

SOURCES = Path(__file__).resolve().parents[2] / "src"

# Functions of one cycle: what bounds its depth.
RECORDS = "records in records as the constants of tables.c and case_records.c nest them, three deep"
NODES = "the tree of a file, which data/yaml.c refuses beyond 64 levels (DEPTH_CAP)"
BOUNDED = {
    frozenset({"path_words"}): RECORDS,            # data/schema.c
    frozenset({"schema_blank"}): RECORDS,          # data/schema.c
    frozenset({"read_record"}): RECORDS,           # data/schema.c: through the kinds of fields
    frozenset({"check_all_characters"}): NODES,    # casefile/casefile.c
    frozenset({"values_in"}): NODES,               # casefile/case_edit.c
    frozenset({"case_extends"}): NODES,            # casefile/case_edit.c
}

HEAD = re.compile(r"^([0-9a-f]+) <([^>]+)>:$")
STEP = re.compile(r"^\s*([0-9a-f]+):\s+(\S+)\s+(.*)$")
TARGET = re.compile(r"([0-9a-f]+) <([^>+]+)>$")


def calls_of(path):
    """{function: set of functions it calls}, functions as (address, name)."""
    text = subprocess.run(["objdump", "-d", "--no-show-raw-insn", path], capture_output=True, text=True,
                          check=True).stdout
    functions, edges, here = {}, {}, None
    for line in text.splitlines():
        head = HEAD.match(line)
        if head:
            here = (int(head[1], 16), head[2].split(".")[0])
            functions[here[0]] = here
            edges[here] = set()
            continue
        step = STEP.match(line)
        target = TARGET.search(line) if step and here else None
        if not target:
            continue
        address, jump = int(target[1], 16), step[2]
        if address == here[0] and not jump.startswith(("call", "bl", "lea")):
            continue  # a loop that begins where the function does
        edges[here].add(address)
    return {f: {functions[a] for a in targets if a in functions and not functions[a][1].endswith("@plt")}
            for f, targets in edges.items()}


def cycles_of(graph):
    """Strongly connected components with a cycle (Tarjan, SIAM J. Comput. 1 (1972) 146), without recursion."""
    index, low, on, stack, found = {}, {}, set(), [], []
    for root in graph:
        if root in index:
            continue
        work = [(root, iter(graph[root]))]
        index[root] = low[root] = len(index)
        stack.append(root)
        on.add(root)
        while work:
            node, rest = work[-1]
            for next_node in rest:
                if next_node not in index:
                    index[next_node] = low[next_node] = len(index)
                    stack.append(next_node)
                    on.add(next_node)
                    work.append((next_node, iter(graph[next_node])))
                    break
                if next_node in on:
                    low[node] = min(low[node], index[next_node])
            else:
                work.pop()
                if work:
                    low[work[-1][0]] = min(low[work[-1][0]], low[node])
                if low[node] == index[node]:
                    part = set()
                    while True:
                        member = stack.pop()
                        on.discard(member)
                        part.add(member)
                        if member == node:
                            break
                    if len(part) > 1 or node in graph[node]:
                        found.append(frozenset(name for _, name in part))
    return found


def main():
    faults, seen, functions = [], set(), 0
    for path in sys.argv[1:]:
        graph = calls_of(path)
        functions += len(graph)
        for cycle in cycles_of(graph):
            seen.add(cycle)
            if cycle not in BOUNDED:
                faults.append(f"{path}: these functions call each other, without a stated bound: "
                              + ", ".join(sorted(cycle)))
    sources = "\n".join(path.read_text(encoding="utf-8") for path in SOURCES.rglob("*.c"))
    faults += [f"{name} is on the list of this test, but is no function any more"
               for cycle in BOUNDED for name in cycle if f" {name}(" not in sources]
    if functions < 1000:
        faults.append(f"only {functions} functions were found: the disassembly is not understood")
    if not any("main" == name for _, name in calls_of(sys.argv[1])):
        faults.append("main was not found: the program is stripped")
    for fault in faults:
        print(fault)
    print(f"{functions} functions, {len(seen)} cycles, each with a bound" if not faults else f"{len(faults)} faults")
    return 1 if faults else 0


sys.exit(main())
