#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"
goal="--by red --remove dammar-aged --spare linseed-oil-film-young"

# --- an ordinary answer ---
# shellcheck disable=SC2086 # the goal is words
run gentlest $goal
exits 0
prints "no.  RED varnish"
prints "proved: no blend on this grid is better"
narrow
run gentlest $goal --json
exits 0
json "a['proved'] is True and a['list_cut'] is False and a['components_proved'] == 3"
json "a['blends_on_grid'] == 198570" # 20 + 190*19 + 1140*171
json "a['evaluated'] + a['excluded_by_bound'] == a['blends_on_grid']"
json "[b['ra_spare_mpa05'] for b in a['blends']] == sorted((b['ra_spare_mpa05'] for b in a['blends']), reverse=True)"
json "all(s['least_percent'] <= s['most_percent'] for b in a['blends'] for s in b['shares_that_pass'])"
json "a['nearest_red'] is None and a['passing_sets'] > len(a['blends'])"
cp "$work/out" "$work/one"
for threads in 1 2 5; do # the same bytes from any number of threads
    run gentlest $goal --json --threads $threads
    if cmp -s "$work/out" "$work/one"; then good; else bad "--threads $threads changes the answer"; fi
done
# By hand, volume means: isooctane 14.1/0/0, propan-2-ol 15.8/6.1/16.4, sphere 16.6/9.9/13.8, R0 9.3.
run gentlest $goal --bottles "isooctane, propan-2-ol" --components 2 --every-set --json
exits 0
json "[b['recipe'] for b in a['blends']] == ['propan-2-ol 100', 'isooctane 5 + propan-2-ol 95']"
json "abs(a['blends'][0]['red_remove'] - (4*0.8**2 + 3.8**2 + 2.6**2)**0.5 / 9.3) < 1e-9"

# --- every liquid of the tables, 1 % grid, interrupted by nobody: the proof stays ---
run solvents --json
placed=$(python3 -c "
import json,sys
print(', '.join(c['id'] for c in json.load(open(sys.argv[1]))['solvents'] if c['hansen']['delta_d'] is not None))" "$work/out")
run gentlest $goal --bottles "$placed" --components 4 --step 1 --every-set --json
exits 0
json "a['blends_on_grid'] > 1e10 and a['proved'] is True and a['passing_sets'] is None"
json "a['evaluated'] < 1e6"
run gentlest $goal --bottles "decamethylcyclopentasiloxane, ethanol"
exits 2
says "no Hansen split"

# --- Ctrl-C: the best so far, marked; a bar on a terminal. (A shell would start it with the signal ignored.) ---
cat >"$work/interrupt.py" <<'END'
import os, pty, signal, subprocess, sys
terminal, theirs = pty.openpty()
with open(sys.argv[1] + "/out", "w") as out, open(sys.argv[1] + "/err", "wb") as err:
    program = subprocess.Popen(sys.argv[2:], stdout=out, stderr=theirs)
    os.close(theirs)
    sent = False
    while True:
        try:
            said = os.read(terminal, 4096)
        except OSError: # the other end was closed
            break
        err.write(said)
        if b"%" in said and not sent:
            program.send_signal(signal.SIGINT)
            sent = True
    sys.exit(program.wait())
END
typed="mildsolve gentlest with 5 components on 1 %, interrupted"
# shellcheck disable=SC2086
python3 "$work/interrupt.py" "$work" "$MILDSOLVE" gentlest $goal --bottles "$placed" --components 5 --step 1 --json
status=$?
exits 130
says "interrupted"
says "%"
json "a['proved'] is False and 2 <= a['components_proved'] < 5 and len(a['blends']) > 0"

# --- shelves of nothing and of little ---
run gentlest $goal --bottles ""
exits 2
run gentlest $goal --bottles "acetone" --without acetone
exits 1
prints "no bottle is left on the shelf"
prints "The filter that took most: acetone"
run gentlest $goal --bottles "ethanol" --json
exits 0
json "[b['recipe'] for b in a['blends']] == ['ethanol 100'] and a['blends_on_grid'] == 1"
run gentlest $goal --bottles "isooctane"
exits 1
prints "nearest is isooctane 100 with RED 1.90"
run gentlest $goal --bottles "ethanol, isooctane" --components 5 --json
exits 0
json "a['blends_on_grid'] == 2 + 19 and a['components_proved'] == 2"
run gentlest $goal --bottles "ethanol, acetone, Ethanol, 64-17-5" --json # one liquid, three names
exits 0
says "named twice"
json "a['blends_on_grid'] == 2 + 19"

# --- bottles at one point: ties stand in the order of their recipes ---
mkdir "$work/own"
cat >"$work/own/bottles.yaml" <<'END'
table: bottles
version: 2026-11-25
bottles:
  - {id: spirit-b, name: spirit b, composition: [{component: ethanol, percent: 100}], sure: memory, refs: [164]}
  - {id: spirit-a, name: spirit a, composition: [{component: ethanol, percent: 100}], sure: memory, refs: [164]}
END
run gentlest $goal --data "$work/own" --bottles "spirit-b, spirit-a, ethanol" --every-set --json
exits 0
json "len(a['blends']) == 7" # 3 neat, 3 pairs, 1 of three
json "[b['recipe'] for b in a['blends']] == sorted(b['recipe'] for b in a['blends'])"
json "len({b['ra_spare_mpa05'] for b in a['blends']}) == 1"

# --- goals that cannot be met ---
run gentlest --by red --remove dammar-aged --bottles "ethylbenzene, ethanol" --step 10
tells "IARC group 2B, possibly carcinogenic to humans; the classification of the EU has no category for that."
run gentlest --by red --remove dammar-aged --bottles "ethylbenzene, ethanol" --step 10 --json
json "all(c['iarc_group'] == {'ethylbenzene': '2B', 'ethanol': '1 (alcoholic beverages only)'}[c['id']] for c in a['components']) and a['components']"
run gentlest --by red --remove dammar-aged --bottles "white-spirit, acetone" --step 10
tells "white-spirit: Taken as the grade with 17 to 20 % aromatics."
run gentlest --by red --remove dammar-aged --bottles "isooctane, white-spirit" --json
exits 1
json "a['blends'] == [] and a['nearest_red'] > 1 and a['proved'] is True"
run gentlest --by red --remove "dammar-aged, beeswax" --margin 0.5
exits 1
prints "No blend of these bottles reaches the region with the margin asked for."
run gentlest --by red --remove dammar-aged --margin 0.89
prints "Relax first: --margin"

# --- options out of range ---
run gentlest $goal --step 3
exits 2
says "10, 5, 2.5 or 1"
run gentlest $goal --step 7
exits 2
run gentlest $goal --components 9
exits 2
says "--components"
run gentlest $goal --components 0
exits 2
run gentlest $goal --components 2.5
exits 2
run gentlest $goal --threads 0
exits 2
run gentlest --remove dammar-aged --by luck
exits 2
says "red"
run gentlest $goal --show 0
exits 2
for step in 10 5 2.5 1; do
    run gentlest $goal --bottles "ethanol, isooctane, acetone" --step $step --json
    exits 0
    json "abs(a['blends_on_grid'] - (3 + 3*(100/$step - 1) + (100/$step - 1)*(100/$step - 2)/2)) < 1e-6"
done

done_testing
