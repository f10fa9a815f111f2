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
says "with a decimal point: --use 20.5"
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

# Demonstration: 15 mL/h of toluene 60 + acetone 40 for 4 h, 38 m3, 0.5 changes an hour, hand sums by the box model: 117 mg/m3 as the mean of
# 8 h in the room when leaving after 4 h, 193 when staying; it heads for 411 and reaches 355 (tolerance 1.5 mg/m3).
run exposure "toluene 60 + acetone 40" --use 15 --hours 4 --room 38 --air-changes 0.5 --limits eu --json
exits 1
json "abs(a['components'][0]['room_8h_leaves_mg_m3'] - 117) < 1.5 and abs(a['components'][0]['room_8h_stays_mg_m3'] - 193) < 1.5"
json "abs(a['components'][0]['room_steady_mg_m3'] - 411) < 1 and abs(a['components'][0]['room_mg_m3'] - 355) < 1"
run exposure "toluene 60 + acetone 40" --use 15 --hours 4 --room 38 --air-changes 0.5 --limits eu
tells "(in the well-mixed room alone 193 and 117)"

# A day of tasks. One task by the clock is the same as --use and --hours.
day() { run exposure "$@" --room 85 --air-changes 3 --limits eu; }
run exposure "toluene 1 + acetone 1" $plan --limits eu --json
python3 -c "import json; a=json.load(open('$work/out')); a.pop('tasks'); print(json.dumps(a))" >"$work/one"
run exposure "toluene 1 + acetone 1" --task "9:30-14:30 gel 100 mL" --room 85 --air-changes 3 --limits eu --json
python3 -c "import json; a=json.load(open('$work/out')); a.pop('tasks'); print(json.dumps(a))" >"$work/two"
if cmp -s "$work/one" "$work/two"; then good; else bad "one task by the clock is another day than --use and --hours"; fi
# Two tasks of different blends, hours apart: their peaks are not added. 15-minute limits of the EU: toluene 384, acetone none,
# xylenes 442, n-butyl acetate 723 (the published rows).
day --task "9:00-9:30 swab 100 mL/h of toluene" --task "15:00-15:30 swab 100 mL/h of xylenes" --json
json "max(c['limits'][1]['share'] for c in a['components']) <= a['peak_index'] < 1.01 * max(c['limits'][1]['share'] for c in a['components'])"
day --task "9:00-9:30 swab 100 mL/h of toluene" --task "9:00-9:30 swab 100 mL/h of xylenes" --json
json "abs(a['peak_index'] - sum(c['limits'][1]['share'] for c in a['components'])) < 1e-7"
# A pause mends it: a short limit that two tasks in a row pass and one does not.
day "dichloromethane" --task "9:00-10:00 swab 60 mL/h" --task "10:00-11:00 swab 60 mL/h" --share 1 --json
json "a['pause_needed_h'] is None or a['pause_needed_h'] > 0"
day "toluene 1 + acetone 1" --task "9:00-11:00 swab 20 mL/h" --task "13:00-14:00 brush 60 mL of ethyl-acetate"
prints "   9:00  11:00  swab "
tells "2 tasks from 9:00 to 14:00 in 85 m3 with 3 air changes per hour; the person stays in the room to the end of the 8 h."
narrow
day "toluene 1 + acetone 1" --task "9:00-11:00 swab 20 mL/h" --task "13:00-14:00 brush 60 mL of ethyl-acetate" --leave
tells "the person is in the room only while a task runs."
day --task "9:00-11:00 swab 20 mL/h of toluene" --chart "$work/day.png"
exits 0
day --task "9:00-11:00 swab 20 mL/h"
exits 2
says "no blend: name it in front of the options"
for wrong in "9-11 swab 20 mL/h" "9:00-25:00 swab 20 mL/h" "11:00-9:00 swab 20 mL/h" "9:00-11:00 mop 20 mL/h" \
    "9:00-11:00 swab 20,5 mL/h" "9:00-11:00 swab 20 litres" "9:00-11:00 swab 0 mL" "9:00-11:00 swab 20 mL on 0 cm2" \
    "9:00-11:00 swab 20 mL toluene" "9:00-11:00 swab 20 mL of" "9:00-11:60 swab 20 mL" ""; do
    day toluene --task "$wrong"
    exits 2
    says "task '"
    silent
done
day toluene --task "9:00-11:00 swab 20 mL/h" --use 20
exits 2
says "say the same thing twice"
run exposure toluene --use 20 --hours 25 --room 85 --air-changes 3
exits 2
says "--hours 25 is outside the range 0.01 to 24"
run exposure toluene --use 20 --hours 5 --room 0 --air-changes 3
exits 2
says "--room 0 is outside the range"

# A spray of a solid: tert-butanol melts at 25.7 degC (CRC Handbook, from memory).
day --task "9:00-9:30 spray 50 mL of tert-butanol"
exits 2
says "is a solid below 25.7 degC and cannot be sprayed at 20 degC"
day --task "9:00-9:30 spray 50 mL of tert-butanol" --temperature 30 --json
json "a['tasks'][0]['method'] == 'spray'"
day --task "9:00-9:30 spray 50 mL of tert-butanol 50 + ethanol 50" --json
json "a['tasks'][0]['use_ml_h'] == 100"

# By the model: n-butyl acetate from 100 cm2 in still air. 1464 p M microgram/(m2 h) (Mackay and van Wesenbeeck 2014) with the
# vapour pressure of the tables is far below 100 mL/h, so both are printed and the larger decides.
run exposure n-butyl-acetate --use 100 --hours 1 --room 85 --air-changes 3 --limits eu --rate model --wet 100 --json
json "a['rates']['all']['decides'] and not a['rates']['model']['decides']"
json "a['rates']['model']['twa_8h_mg_m3']['n-butyl-acetate'] < a['rates']['all']['twa_8h_mg_m3']['n-butyl-acetate'] == a['components'][0]['twa_8h_mg_m3']"
run exposure n-butyl-acetate --use 100 --hours 1 --room 85 --air-changes 3 --limits eu --rate model --wet 100
tells "The larger decides."
narrow
run exposure n-butyl-acetate --use 100 --hours 1 --room 85 --air-changes 3 --limits eu --rate model
exits 2
says "--wet 200"
run exposure toluene $plan --wet 100
exits 2
says "--wet counts only with --rate model"

# An arm counts when it was measured, and only then.
run exposure toluene $plan --limits eu --json
cp "$work/out" "$work/first"
run exposure toluene $plan --limits eu --capture 80 --capture-measured "tracer gas at the easel" --json
json "abs(a['index'] - 0.2 * json.load(open('$work/first'))['index']) < 1e-9"
run exposure toluene $plan --limits eu --capture 80 --capture-measured "tracer gas at the easel"
tells "An extraction arm takes 80 % of the vapour at the source, measured: tracer gas at the easel."
prints_not "no credit"
run exposure toluene $plan --capture 80
exits 2
says "counts only when its capture was measured"

# Longer shifts: Brief and Scala, 10 h: 0.700 of the limit, for the mean of the shift.
run exposure toluene $plan --limits eu --shift 10 --long-shift --json
json "abs(a['components'][0]['limits'][0]['limit_mg_m3'] - 0.7 * 192) < 1e-6 and a['shift_h'] == 10"
run exposure "toluene 1 + acetone 1" $plan --limits eu --like-effects
prints "index by effect in common"
json_effects="a['index_by_effect']['reproduction'] < a['index_by_effect']['narcosis'] <= a['index'] + 1e-12"
run exposure "toluene 1 + acetone 1" $plan --limits eu --json
json "$json_effects"
# Hydrocarbons together, and group values by name.
run exposure "isooctane 50 + toluene 50" $plan --limits de
tells "The 2 hydrocarbons together by the reciprocal procedure of de"
prints "group value"

# Waste, gloves, peroxides, swabs.
run exposure "toluene 1 + acetone 1" $plan --limits eu
tells "toluene 50 + acetone 50: waste without halogens."
tells "Used swabs go into a closed metal bin that is emptied every day"
tells "Nothing goes down the drain."
tells "laminate for every component taken alone."
tells "A blend may pass where each of its components does not"
tells "not while a pregnancy is announced or planned in this room"
run exposure "dichloromethane 1 + water 99" $plan --limits de --json
json "a['handling'][0]['waste'] == 'halogenated'"
run exposure "ethanol 20 + water 80" $plan --limits de --json
json "a['handling'][0]['waste'] == 'watery' and 'PVA' not in a['handling'][0]['gloves_for_every_component']"
run exposure "tetrahydrofuran" $plan --limits eu --json
json "a['peroxide_formers'] == ['tetrahydrofuran'] and a['handling'][0]['waste'] == 'not-halogenated'"
# Near the work the alarm of 10 % is passed.
run exposure "n-pentane" --use 3000 --hours 1 --room 30 --air-changes 1 --limits eu
exits 1
tells "ABOVE the alarm of 10 %"

# Two ceilings of one set are told apart: 300 ppm, and 500 ppm over 10 minutes (29 CFR 1910.1000, table Z-2).
run exposure toluene $plan --limits us-osha
prints " ceiling, from ppm"
prints "ceiling, 10 min, from ppm"
run exposure toluene --use 20 --hours 10 --room 85 --air-changes 3 --limits eu --long-shift
prints "8 h, for the long shift"
run exposure toluene --use 20 --hours 10 --room 85 --air-changes 3 --limits eu
prints_not "for the long shift"

# No limit anywhere: no set is the strictest, and no amount is promised.
run exposure methyltetrahydrofuran-2 $plan
tells "(no set has a limit for any of it)."
tells "How much may be used cannot be told"
run exposure toluene $plan
tells "(the strictest: largest index of any one set)"
prints_not "cannot be told"

# A spray is more than its vapour.
run exposure acetone --task "9:00-9:10 spray 20 mL" --room 85 --air-changes 3 --limits eu
tells "Of the spray only the vapour is reckoned."
run exposure acetone --task "9:00-9:10 brush 20 mL" --room 85 --air-changes 3 --limits eu
prints_not "Of the spray only"

# The fire alarm decides too. Isooctane for ten minutes: 14400 mL/h pass a tenth of 0.7 vol% (IEC 60079-20-1) and no day mean, and no
# amount is promised above the alarm.
spray() { run exposure isooctane --task "9:00-9:$2 spray $1 mL" --room 100 --air-changes 4 --limits uk ${3:-}; }
spray 2400 10
exits 1
prints "OVER the fire alarm: 135 % of the lower flammable limit near the work"
prints_not "Within the limits"
tells "comes before the limits of uk."
tells "No general ventilation mends it: the near field alone passes the fire alarm."
narrow
spray 2400 10 --json
exits 1
json "a['index'] < 1 and a['verdict'] == 'over' and a['flammable_alarm'] and a['capped_by'] == 'fire'"
json "a['over_because'] == ['limits', 'fire'] and abs(a['allowed_ml_h'] * a['flammable_share_near'] - 14400 * 0.1) < 1e-6"
# Passed by fire alone: every index is below 1, and a little less is within.
spray 320 20
exits 1
prints "OVER the fire alarm"
prints_not "OVER the limits"
spray 320 20 --json
json "max(a['index'], a['peak_index']) < 1 and a['over_because'] == ['fire'] and a['hours_possible'] is not None"
spray 300 20
exits 0
prints "Within the limits"
prints "the air near the work would stay below the fire alarm of 10 %"

# Peaks without a short-term limit. EH40, from memory: three times the long-term value where none is listed; n-hexane 72 mg/m3.
peak() { run exposure n-hexane --task "9:00-9:05 spray 60 mL" --room 200 --air-changes 6 --limits "$@"; }
peak uk
exits 1
tells "the figure that EH40 says to use then (from memory). It decides."
tells "15 min, three times the 8 h value"
narrow
peak uk --json
json "a['index'] < 1 < a['peak_index'] and a['components'][0]['limits'][1]['value_is'] == 'guide' and a['verdict'] == 'over'"
json "a['components'][0]['limits'][1]['limit_mg_m3'] == 3 * 72 and abs(a['peak_index'] - a['components'][0]['excursion_guide']) < 1e-9"
peak eu
exits 0
tells "A PEAK: n-hexane has no short-term limit in eu, but its highest 15-min mean is 2.8 times"
peak de
exits 0
tells "Within the factor TRGS 900 allows that only in four quarters of an hour of a shift (from memory)."
run exposure n-hexane --use 5 --hours 1 --room 200 --air-changes 6 --limits de
prints_not "four quarters"
prints_not "A PEAK"

# Over by the mark of danger alone, in a set without a limit. NIOSH: diethyl ether 1900 ppm; 74.12 g/mol over 24.45 L/mol.
ether() { run exposure diethyl-ether --use 2000 --hours 1 --room 20 --air-changes 1 --limits us-niosh ${1:-}; }
ether
exits 1
tells "OVER the mark of danger: diethyl-ether reaches"
tells "(IDLH) of us-niosh, 5760 mg/m3. Do not do this."
prints "IDLH of us-niosh"
prints_not "OVER the limits"
tells "reckoned until no known limit, no IDLH and no fire alarm is passed"
narrow
ether --json
json "a['over_because'] == ['idlh', 'fire'] and abs(a['components'][0]['idlh_mg_m3'] - 1900 * 74.12 / 24.45) < 2"
json "a['components'][0]['idlh_of'] == 'us-niosh' and a['index'] == 0"

# What the tables note of a component.
run exposure "white-spirit 50 + acetone 50" $plan --limits de
tells "note: Taken as the grade with 17 to 20 % aromatics."
run exposure "ethylbenzene 50 + tetrahydrofuran 50" $plan --limits de
tells "IARC group 2B, possibly carcinogenic to humans; the classification of the EU has no category for that." # vol. 77
tells "IARC group 2B, possibly carcinogenic to humans. note:" # tetrahydrofuran is in category 2 as well
run exposure "ethanol 50 + toluene 50" $plan --limits de --json
json "[c['iarc_group'] for c in a['components']] == ['1 (alcoholic beverages only)', '3']"
run exposure "white-spirit 50 + acetone 50" $plan --limits de --json
json "[bool(c['grade']) for c in a['components']] == [True, False]"
run exposure "n-hexane 50 + butanone 50" $plan --limits de
tells "it worsens the nerve damage caused by hexane, so never combine the two"
run exposure "n-hexane 50 + butanone 50" $plan --limits de --json
json "'never combine' in a['components'][1]['health_note']"

# An own solvent of which little is known: it cannot be judged, which is an answer.
mkdir "$work/own"
printf 'table: components\nversion: "1"\nabout: "own"\ncomponents:\n  - id: mystery-liquid\n    name: mystery liquid\n    family: ester\n' >"$work/own/components.yaml"
run exposure "mystery-liquid 50 + acetone 50" $plan --limits eu --data "$work/own"
exits 1
tells "mystery-liquid has no density in the tables"
prints_not "Up to "
printf 'table: properties\nversion: "1"\nabout: "own"\nproperties:\n  - id: mystery-liquid\n    density_20c: {value: 0.9, unit: g/cm3}\n' >"$work/own/properties.yaml"
run exposure "mystery-liquid 50 + acetone 50" $plan --limits eu --data "$work/own" --json
exits 1
json "a['components'][0]['lacks'] == 'limit' and a['components'][0]['twa_8h_mg_m3'] > 0 and a['components'][0]['near_ppm'] is None"

# A limit of ten hours is told beside columns of eight; a near field that fills the room is no near field.
run exposure acetone --use 50 --hours 10 --room 50 --air-changes 2 --limits us-niosh
tells "'10 h': reached is the dose of the day over the 10 h of this shift"
run exposure acetone --use 50 --hours 8 --room 50 --air-changes 2 --limits us-niosh
prints_not "reached is the dose"
run exposure acetone --use 5 --hours 2 --room 10.6 --air-changes 2 --limits eu # 2/3 pi 0.8^3 = 1.07 m3, a tenth of 10.7
tells "SMALL ROOM: the near field alone (1.1 m3) is 10 % of it"
run exposure acetone --use 5 --hours 2 --room 10.8 --air-changes 2 --limits eu
prints_not "SMALL ROOM"
# An option that is about what was meant.
run exposure acetone --use 5 --hours 2 --room 50 --air-changes 2 --arm 80
exits 2
says "'--capture' is about that"
run exposure acetone --use 5 --hours 2 --room 50 --air-changes 2 --wombat 80
exits 2
says "option '--wombat' is not known to \`mildsolve exposure\`; see"

# --- people, and liquids of which no hazards are known: no index says yes to either ---
own_cymene "$work/own"
cat >"$work/own/properties.yaml" <<'END'
table: properties
properties:
  - id: cymene
    molar_mass: {value: 134.2, unit: g/mol}
    density_20c: {value: 0.86, unit: g/cm3}
    vapour_pressure_20c: {value: 0.15, unit: kPa}
END
cat >"$work/own/limits.yaml" <<'END' # an invented limit, as in the manual's example
table: limits
limits:
  - {component: cymene, authority: de, kind: twa-8h, mg_m3: 100}
END
printf 'mildsolve_case: 1\nobject: {title: a panel}\npeople: {flags: [pregnancy announced]}\n' >"$work/expecting.yaml"
room="--hours 4 --room 85 --air-changes 3"
# Toluene: Repr. 2, H361d (Reg. (EC) 1272/2008, Annex VI).
run exposure "toluene 75 + acetone 25" --use 5 $room --limits de --case "$work/expecting.yaml"
exits 1
tells "NOT FOR THE PEOPLE WHO WORK THERE, although within the limits of this set, on these assumptions."
tells "no work with toluene in this room, whatever the index."
prints_not "  Within the limits"
run exposure "toluene 75 + acetone 25" --use 5 $room --limits de --case "$work/expecting.yaml" --json
exits 1
json "a['index'] < 1 and a['verdict'] == 'not-for-people' == a['people'] and a['over_because'] == [] and a['hazards_unknown'] == []"
run exposure "toluene 75 + acetone 25" --use 500 $room --limits de --case "$work/expecting.yaml" --json
json "a['verdict'] == 'not-for-people' and 'limits' in a['over_because']" # no smaller amount would mend it
run exposure "toluene 75 + acetone 25" --use 5 $room --limits de --json
exits 0
json "a['verdict'] == 'within' and a['people'] is None"
run exposure "ethanol 75 + acetone 25" --use 5 $room --limits de --case "$work/expecting.yaml" --json
exits 0
json "a['verdict'] == 'within' and a['people'] == 'nothing-against'"
run exposure "cymene 50 + ethanol 50" --use 5 $room --limits de --data "$work/own" --case "$work/expecting.yaml"
exits 1
tells "CANNOT BE JUDGED for the people who work there, although within the limits of this set"
tells "The hazards of cymene are not known: no index clears that for those who work there by the case"
run exposure "cymene 50 + ethanol 50" --use 5 $room --limits de --data "$work/own" --case "$work/expecting.yaml" --json
exits 1
json "a['index_complete'] and a['verdict'] == 'cannot-be-judged' == a['people'] and a['hazards_unknown'] == ['cymene']"
json "[c['reproductive'] for c in a['components']] == [None, False]" # not known is never 'no'
run exposure "cymene 50 + ethanol 50" --use 5 $room --limits de --data "$work/own"
exits 0
tells "Within the limits of this set, on these assumptions."
tells "The hazards of cymene are not known: no index clears that for anybody who is pregnant"
tells "hazards: not known; that is never harmless"
# A row that states an empty list is known; one that lacks it is not.
printf 'table: hazards\nhazards:\n  - {id: cymene, gloves_resistant: [nitrile]}\n' >"$work/own/hazards.yaml"
run exposure "cymene 50 + ethanol 50" --use 5 $room --limits de --data "$work/own" --json
json "a['hazards_unknown'] == ['cymene']"
# A statement says what its class is, also where the category is left out.
printf 'table: hazards\nhazards:\n  - {id: cymene, h_statements: [H226, H360D]}\n' >"$work/own/hazards.yaml"
run exposure "cymene 50 + ethanol 50" --use 5 $room --limits de --data "$work/own" --case "$work/expecting.yaml" --json
exits 1
json "a['verdict'] == 'not-for-people' and [c['reproductive'] for c in a['components']] == [True, False]"
printf 'table: hazards\nhazards:\n  - {id: cymene, h_statements: []}\n' >"$work/own/hazards.yaml"
run exposure "cymene 50 + ethanol 50" --use 5 $room --limits de --data "$work/own" --case "$work/expecting.yaml" --json
exits 0
json "a['hazards_unknown'] == [] and a['people'] == 'nothing-against'"

# --- at the printed digits: what is needed is rounded up, what is over prints above 1 ---
run exposure "propan-2-ol 30 + isooctane 70" --use 20 --hours 4 --room 30 --air-changes 0.3 --json
json "0.3 < a['air_changes_needed'] < 0.35" # else the next line proves nothing
run exposure "propan-2-ol 30 + isooctane 70" --use 20 --hours 4 --room 30 --air-changes 0.3
exits 1
tells "The same amount needs 0.4 air changes per hour."
run exposure toluene --use 10 $room --limits de --json
amount=$(python3 -c "import json; print(json.load(open('$work/out'))['allowed_ml_h'] * 1.0005)")
run exposure toluene --use "$amount" $room --limits de
exits 1
tells "OVER the limits"
tells "1.01 (short times)"

done_testing
