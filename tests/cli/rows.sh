#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Commands about a blend read only the rows of its components. A folder of the user's with the same tables, empty, makes
# them read every row: the answer must be the same to the byte. What a model looks up beyond the blend shows here.
. "$(dirname "$0")/expect.sh"

mkdir "$work/empty"
while read -r table list; do
    printf 'table: %s\n%s: []\n' "$table" "$list" >"$work/empty/$table.yaml"
done <<'TABLES'
properties properties
hazards hazards
limits limits
miscibility pairs
unifac-assignments assignments
unifac-interactions interactions
TABLES

same() { # same ARGUMENTS...: the same answer, talk and exit status with every row read
    run "$@" --data "$work/empty"
    mv "$work/out" "$work/all-out"
    mv "$work/err" "$work/all-err"
    all_status=$status
    run "$@"
    exits "$all_status"
    if cmp -s "$work/out" "$work/all-out" && cmp -s "$work/err" "$work/all-err"; then
        good
    else
        bad "another answer when every row is read"
        diff "$work/out" "$work/all-out" | head -n 8
    fi
}

same_answers() { # same_answers BLEND: of every command about a blend
    same place "$1" --json
    same drying "$1" --json
    same exposure "$1" --use 20 --hours 5 --room 85 --air-changes 3 --json
    same exposure "$1" --use 20 --hours 5 --room 85 --air-changes 3 --rate model --wet 100 --json
    same label "$1" --json
    same recipe "$1" --json
}

# Neat liquids with water or without, parts that separate, petroleum cuts by surrogate, nothing known of one.
for blend in acetone water white-spirit "toluene 75 + acetone 25" "ethanol-96 30 + isooctane 70" \
    "butanone 10 + water 90" "methanol 50 + n-hexane 50" "white-spirit-dearomatised 80 + propan-2-ol 20" \
    "octamethylcyclotetrasiloxane 60 + ethanol 40" "n-butyl-acetate 30 + xylene 30 + ethanol 40" \
    "d-limonene 1 + dimethyl-sulfoxide 1 + glycerol 1"; do
    same_answers "$blend"
done

# Blends of every component in turn with the one seven rows below it.
"$MILDSOLVE" solvents --json | python3 -c "
import json, sys
ids = [s['id'] for s in json.load(sys.stdin)['solvents']]
for i in range(0, len(ids), 2):
    print('%s 2 + %s 3' % (ids[i], ids[(i + 7) % len(ids)]))" >"$work/blends"
while read -r blend; do
    same place "$blend" --json
    same drying "$blend" --json
    same label "$blend" --json
done <"$work/blends"

same recipe "propan-2-ol 30 + isooctane 70" --leftover "ethanol 1 + isooctane 1" --leftover-ml 20 --json
same solvents acetone ethanol-96
same solvents
same limits toluene
same limits
same place "tolune 75 + acetone 25"
done_testing
