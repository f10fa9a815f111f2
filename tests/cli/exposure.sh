#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"
plan="--use 20 --hours 5 --room 85 --air-changes 3"

run exposure "toluene 1 + acetone 1" $plan --limits eu
exits 0
prints "Within the limits of this set, on these assumptions."
prints "The limit that bites first: toluene of eu (8 h, 2006)"
tells "taken up through the skin"
tells "no credit for an extraction arm"
narrow

run exposure "toluene 1 + acetone 1" $plan --limits eu --json
exits 0
json "[c['id'] for c in a['components']] == ['toluene', 'acetone']"
json "all(k in c for c in a['components'] for k in ('room_mg_m3', 'near_mg_m3', 'twa_8h_mg_m3'))"
json "all(c['near_mg_m3'] > c['room_mg_m3'] > 0 for c in a['components'])"
# Directive 2006/15/EC: toluene 192 mg/m3; directive 2000/39/EC: acetone 1210 mg/m3. The index is their sum of shares.
json "abs(a['index'] - sum(c['twa_8h_mg_m3'] / l for c, l in zip(a['components'], (192, 1210)))) < 1e-9"
json "a['index_complete'] is True and a['unknown'] == [] and a['limits'] == 'eu' and a['strictest'] is False"
# Steady state by hand: 10 mL/h of each, densities 0.867 and 0.790 g/cm3, over 255 m3/h of fresh air.
json "abs(a['components'][0]['room_mg_m3'] - 10 * 867 / 255) < 0.2"
json "abs(a['components'][1]['room_mg_m3'] - 10 * 790 / 255) < 0.2"

# One authority's largest index is the default, and it is named; sets are never added.
run exposure "toluene 1 + acetone 1" $plan --json
exits 0
json "a['strictest'] is True and a['index'] == max(s['index'] for s in a['sets'])"
json "[s['id'] for s in a['sets']] == ['us-osha', 'us-niosh', 'us-epa', 'eu', 'uk', 'de']"
run exposure "toluene 1 + acetone 1" $plan --limits strictest --json
json "a['strictest'] is True"

run exposure toluene --use 100 --hours 4 --room 38 --air-changes 0.5 --limits eu
exits 1
prints "OVER the limits: change the plan."
prints "The same amount needs"
prints_not "Within the limits"

# What would stay within does stay within, and a little more does not.
run exposure toluene --use 100 --hours 4 --room 38 --air-changes 0.5 --limits eu --json
exits 1
json "a['verdict'] == 'over' and a['index'] > 1 and 0 < a['allowed_ml_h'] < 100"
allowed=$(python3 -c "import json; print('%.3f' % (json.load(open('$work/out'))['allowed_ml_h'] * 0.999))")
run exposure toluene --use "$allowed" --hours 4 --room 38 --air-changes 0.5 --limits eu
exits 0
allowed=$(python3 -c "print('%.3f' % ($allowed * 1.01))")
run exposure toluene --use "$allowed" --hours 4 --room 38 --air-changes 0.5 --limits eu
exits 1

# A component without a limit in the set: cannot be judged, never within.
run exposure "n-hexane 50 + d-limonene 50" $plan --limits eu
exits 1
prints "CANNOT BE JUDGED"
prints "at least"
tells "d-limonene has no limit in eu; these sets have one: de"
tells "No limit found is never zero hazard."
prints_not "Within the limits"
narrow
run exposure "n-hexane 50 + d-limonene 50" $plan --limits eu --json
json "a['index_complete'] is False and a['unknown'] == ['d-limonene'] and a['verdict'] == 'cannot-be-judged'"

json "a['allowed_ml_h'] is None"
# No amount is promised where a limit is lacking, and least of all where every limit is.
for blend in "toluene 1 + isooctane 1" "n-hexane 50 + d-limonene 50"; do
    run exposure "$blend" $plan --limits us-epa
    exits 1
    prints "CANNOT BE JUDGED"
    prints_not "Up to "
    run exposure "$blend" $plan --limits us-epa --json
    json "a['allowed_ml_h'] is None and a['verdict'] == 'cannot-be-judged'"
done

# Work longer than 8 h: the true hours.
run exposure toluene --use 20 --hours 10 --room 85 --air-changes 3 --limits eu
tells "stays in the room to the end of the 10 h."
run exposure toluene $plan --limits eu
tells "stays in the room to the end of the 8 h."

# Long names stay within the page.
run exposure "white-spirit 50 + dipropylene-glycol-methyl-ether 30 + n-methylpyrrolidone 20" $plan
narrow
prints "  dipropylene-glycol-methyl"

# Water needs no limit.
run exposure "ethanol-96" $plan --limits de
exits 0
prints_not "CANNOT BE JUDGED"

# A sealed room is an answer, not an error.
run exposure "propan-2-ol 30 + isooctane 70" --use 20 --hours 5 --room 85 --air-changes 0 --limits de
tells "rises without bound as long as work goes on"
prints "(sealed)"
narrow
# Everything used stays: 20 mL/h for 5 h of 30 % at 0.785 g/cm3 in 85 m3 (arithmetic).
run exposure "propan-2-ol 30 + isooctane 70" --use 20 --hours 5 --room 85 --air-changes 0 --json
json "abs(a['components'][0]['room_mg_m3'] - 20 * 5 * 0.3 * 785 / 85) < 2"

# Leaving with the task lowers the day's mean; half of the limits halves the amount.
run exposure toluene $plan --limits eu --leave --json
json "a['components'][0]['twa_8h_mg_m3'] == a['components'][0]['twa_8h_leaves_mg_m3'] < a['components'][0]['twa_8h_stays_mg_m3']"
run exposure toluene $plan --limits eu
prints "would stay within the limits of eu."
run exposure toluene $plan --limits eu --share 0.5
prints "would use up no more than 0.5 of any limit of eu."

run exposure toluene --use 20 --hours 5 --room 85
exits 2
says "--air-changes is missing"
silent
run exposure toluene --use 20 --hours 5 --room 85 --air-changes -1
exits 2
says "--air-changes -1 is outside the range 0 to 1000"
run exposure toluene --use 20,5 --hours 5 --room 85 --air-changes 1
exits 2
says "with a decimal point"
run exposure toluene $plan --limits fr
exits 2
says "no limit set is called 'fr'; one of these is expected: us-osha, us-niosh, us-epa, eu, uk, de, strictest"
# What is wrong is told before what is missing.
run exposure toluene --use 20 --hours 5 --air-changes -1
exits 2
says "--air-changes -1 is outside the range 0 to 1000"
run exposure toluene --limits xx
exits 2
says "no limit set is called 'xx'"
run exposure tolune $plan
exits 2
says "nearest: toluene"
silent

# The chart: water is not drawn, time of day where the beginning is known, the same bytes for the same question.
run exposure "toluene 50 + acetone 49 + water 1" $plan --limits eu --chart "$work/air.png" --start 9:30 --object "LK-14" --date 2026-11-25
exits 0
prints "chart: $work/air.png"
if [ "$(head -c 4 "$work/air.png")" = "$(printf '\211PNG')" ]; then good; else bad "no PNG"; fi
for suffix in svg pdf; do
    run exposure "toluene 1 + acetone 1" $plan --limits eu --chart "$work/air.$suffix" --size full --paper letter --grey
    exits 0
    cp "$work/air.$suffix" "$work/first"
    run exposure "toluene 1 + acetone 1" $plan --limits eu --chart "$work/air.$suffix" --size full --paper letter --grey --json
    json "a['chart'] == '$work/air.$suffix'"
    if cmp -s "$work/first" "$work/air.$suffix"; then good; else bad "the same input gave other bytes"; fi
done
if grep -q "<desc>Object: not given" "$work/air.svg"; then good; else bad "the SVG does not describe itself"; fi
# Over the limit is still drawn.
run exposure toluene --use 100 --hours 4 --room 38 --air-changes 0.5 --limits eu --chart "$work/over.png"
exits 1
if [ -s "$work/over.png" ]; then good; else bad "no chart of what is over the limit"; fi
run exposure toluene $plan --limits eu --chart "$work/missing/air.png"
exits 3
run exposure toluene $plan --limits eu --chart "$work/air.gif"
exits 2
says ".png"
silent
run exposure toluene $plan --limits eu --dpi 100
exits 2
says "ask for one with --chart FILE"
run exposure toluene $plan --limits eu --chart "$work/air.png" --start 25:00
exits 2
says "a time of day is expected"
run exposure water $plan --limits eu --chart "$work/water.png"
exits 2
says "nothing to draw"

done_testing
