#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"
demo="$SOURCE_ROOT/examples/demo-case.yaml"

# --- a blend without one of its bottles ---
run replace "toluene 75 + acetone 25" --without toluene
exits 0
prints "toluene 75 + acetone 25"
tells "No longer in it: reproductive."
tells "near on the triangle, but another liquid"
tells "A replacement on paper is a proposal for a test"
narrow
run replace "toluene 75 + acetone 25" --without toluene --json
exits 0
json "all('toluene' not in r['recipe'] for r in a['replacements'] + a['near_on_triangle_only'])"
json "all(r['ra_mpa05'] <= 3 for r in a['replacements']) and len(a['replacements']) == 6"
json "[r['rank'] for r in a['replacements']] == [1, 2, 3, 4, 5, 6]"
json "all(r['ra_mpa05'] > 4 and r['triangle_percent'] <= 5 for r in a['near_on_triangle_only'])"
json "a['proved'] and a['nearest']['ra_mpa05'] <= min(r['ra_mpa05'] for r in a['replacements'])"
json "a['original']['recipe'] == 'toluene 75 + acetone 25' and a['bottle'] is None"
json "abs(a['original']['hansen']['delta_p'] - 3.65) < 1e-9" # 0.75 * 1.4 + 0.25 * 10.4
json "all(set(r['respects'].values()) <= {'alike','better','worse','differs','unknown','not-asked'} for r in a['replacements'])"
json "all(r['speaks_against'] == sum(v in ('worse','differs','unknown') for v in r['respects'].values()) for r in a['replacements'])"
json "all(r['respects']['varnish'] == 'not-asked' and r['air'] is None for r in a['replacements'])"

# The places that it prints are those that `place` prints.
first=$(python3 -c "import json,sys; print(json.load(open(sys.argv[1]))['replacements'][0]['recipe'])" "$work/out")
cp "$work/out" "$work/list"
run place "$first" --json
cat >"$work/same.py" <<'PYTHON'
import json, sys
listed, placed = json.load(open(sys.argv[1]))["replacements"][0], json.load(open(sys.argv[2]))
near = lambda x, y: abs(x - y) <= 1e-6 * max(1, abs(y))
film = next(m for m in placed["materials"] if m["id"] == "linseed-oil-film-young")
assert all(near(listed["hansen"][k], placed["hansen"][k]) for k in listed["hansen"])
assert all(near(listed["teas"][k], placed["teas"]["mean_of_fractions"][k]) for k in listed["teas"])
assert near(listed["film"]["swelling"], film["swelling"]), (listed["film"], film)
assert near(listed["flash_point_c"], placed["flash_point_c"])
assert listed["phase"] == placed["phase"]["verdict"]
PYTHON
if python3 "$work/same.py" "$work/list" "$work/out"; then good; else bad "replace and place disagree"; fi

# Without a reason, or with one that touches nothing, there is nothing to replace.
run replace "toluene 75 + acetone 25"
exits 2
says "what shall go?"
run replace "toluene 75 + acetone 25" --without benzene
exits 2
says "takes nothing out of this blend"
run replace "toluene 75 + acetone 25" --without tolune
exits 2
says "toluene"
run replace
exits 2
run replace octamethylcyclotetrasiloxane
exits 2
says "place in solubility space is not known"

# --- a lone liquid is what goes ---
run replace toluene --json
exits 0
json "a['replacements'][0]['recipe'] == 'xylenes 100' and abs(a['replacements'][0]['ra_mpa05'] - 1.237) < 0.001"
json "'reproductive' in a['replacements'][0]['classes_gone']"
json "a['replacements'][0]['respects']['health'] == 'better'"

# --- hazard classes; what is never proposed of its own accord ---
run replace toluene --without aromatic --whole-table --json --show 64
exits 0
json "all('xylene' not in r['recipe'] and 'benzene' not in r['recipe'] for r in a['replacements'])"
json "any(f['filter'] == 'aromatic' and f['bottles'] > 3 for f in a['removed_by_filter'])"
run replace dimethylformamide --whole-table
exits 1
tells "There is no honest replacement within 3 MPa^0.5."
tells "would list it"
run replace dimethylformamide --whole-table --within 8 --json --show 64
exits 0
names="{n.rsplit(' ', 1)[0] for r in a['replacements'] for n in r['recipe'].split(' + ')}"
json "len($names) > 5 and not $names & {'benzene', 'dimethylacetamide', 'n-methylpyrrolidone', 'dimethyl-sulfoxide', 'methoxyethanol', 'benzyl-alcohol', 'ethylene-glycol', 'propylene-carbonate', 'cyclohexanone', 'trichloroethylene'}"
run replace dimethylformamide --bottles "dimethyl-sulfoxide, butanone" --allow dimethyl-sulfoxide --within 8 --json
json "any('dimethyl-sulfoxide' in r['recipe'] for r in a['replacements'])"
run replace toluene --whole-table --show 64 --json
json "all(not r['classes_new'] or not set(r['classes_new']) & {'carcinogen','mutagen','reproductive','restricted'} or r['respects']['health'] == 'worse' for r in a['replacements'])"
json "[r['respects']['health'] == 'worse' for r in a['replacements']] == sorted(r['respects']['health'] == 'worse' for r in a['replacements'])"

# --- one bottle in a recipe ---
run replace "toluene 60 + acetone 40" --bottle toluene --json
exits 0
json "a['bottle'] == 'toluene' and all('acetone 40' in r['recipe'] and 'toluene' not in r['recipe'] for r in a['replacements'])"
run replace "toluene 60 + acetone 40" --bottle toluene
tells "and keep the rest"
narrow
run replace "toluene 60 + acetone 40" --bottle xylenes
exits 2
says "this bottle is not in the blend"
run replace "toluene 1 + acetone 2" --bottle toluene --bottles "xylenes, cyclohexane" --json
exits 0
says "no whole number of steps"
json "all('acetone 66.6' in r['recipe'] for r in a['replacements'])"
run replace toluene --bottle toluene --json
exits 0
json "a['bottle'] is None and a['replacements'][0]['recipe'] == 'xylenes 100'"

# --- an original that is two liquids has no place ---
run replace "ethanol-70 50 + isooctane 50" --without isooctane
tells "It is two liquids in the bottle, so its mean place is fiction"

# --- nothing near enough ---
run replace acetone --bottles "isooctane, cyclohexane"
exits 1
tells "There is no honest replacement within 3 MPa^0.5."
narrow
run replace acetone --bottles "isooctane, cyclohexane" --json
exits 1
json "a['replacements'] == [] and a['nearest']['ra_mpa05'] > 3"
run replace acetone --bottles acetone
exits 1
tells "No bottle is left to look at."

# --- a substitute found on the triangle: Ricci et al., Coatings 10 (2020) 466 (test_nearest.c) ---
run replace n-butyl-acetate --bottles "ethanol, acetone, isooctane" --step 1 --json
json "a['near_on_triangle_only'][0]['recipe'] == 'ethanol 54 + acetone 10 + isooctane 36'"
json "4.5 < a['near_on_triangle_only'][0]['ra_mpa05'] < 6"

# --- varnish, room, limits ---
run replace "toluene 60 + acetone 40" --without toluene --remove dammar-aged --room 38 --air-changes 0.5 --use 15 --hours 4 \
    --limits de
exits 0
tells "In this room its index is"
narrow
run replace "toluene 60 + acetone 40" --without toluene --remove dammar-aged --room 38 --air-changes 0.5 --use 15 --hours 4 \
    --limits de --json
json "a['original']['air']['verdict'] == 'over' and a['original']['air']['limits'] == 'de'"
json "all(r['respects']['varnish'] != 'not-asked' and r['air']['index'] > 0 for r in a['replacements'])"
index=$(python3 -c "import json,sys; print(json.load(open(sys.argv[1]))['original']['air']['index'])" "$work/out")
run exposure "toluene 60 + acetone 40" --room 38 --air-changes 0.5 --use 15 --hours 4 --limits de --json
json "abs(max(a['index'], a['peak_index']) - $index) < 1e-6"
run replace toluene --room 38
exits 0
says "--air-changes is missing, so no index is computed"
run replace toluene --limits nowhere
exits 2
says "strictest"
run replace toluene --step 10 --components 1
says "the 20 of the shelf 'studio' of the tables are taken"
run replace toluene --whole-table --bottles acetone
exits 2
says "exclude each other"

# --- the case: its bottles, room, limits; who is pregnant keeps away from reproductive toxicants ---
run replace propan-2-ol --case "$demo" --json
exits 0
json "all(r['air']['limits'] == 'de' for r in a['replacements'])"
json "a['original']['dissolves'] is True"
sed 's/flags: \[alone\]/flags: [pregnancy announced]/' "$demo" >"$work/case.yaml"
run replace "ethyl-acetate 50 + acetone 50" --without acetone --case "$work/case.yaml" --json --show 64 \
    --bottles "toluene, n-hexane, cyclohexane, ethyl-acetate, butanone, ethanol"
exits 0
says "--without reproductive"
json "any(f['filter'] == 'reproductive' and f['bottles'] > 0 for f in a['removed_by_filter'])"
json "len(a['replacements']) > 0 and all('toluene' not in r['recipe'] and 'n-hexane' not in r['recipe'] for r in a['replacements'])"

# --- sensitive passages: what the original spared ---
run replace xylenes --bottles "cyclohexane, ethyl-acetate" --sensitive lake-glaze
exits 0
tells "NEW danger for"
run replace xylenes --bottles "cyclohexane, ethyl-acetate" --sensitive lake-glaze --json
json "a['replacements'][0]['newly_touches'] == ['lake-glaze']"
run replace ethanol --bottles "propan-2-ol" --within 6 --sensitive lake-glaze --json
json "a['replacements'][0]['newly_touches'] == []"

# --- the chart ---
run replace toluene --chart "$work/chart.svg" --material dammar-aged --json
exits 0
json "a['chart'].endswith('chart.svg')"
if grep -q "<svg" "$work/chart.svg"; then good; else bad "no chart was written"; fi
run replace toluene --paper letter
exits 2
says "ask for one with --chart FILE"
run replace toluene --chart "$work/chart.gif"
exits 2

# --- the same from one thread ---
run replace "toluene 75 + acetone 25" --without toluene --threads 1 --json
if cmp -s "$work/out" "$work/list"; then good; else bad "another answer from one thread"; fi

# Over by the fire alarm alone: 990 mL/h of isooctane for 20 min pass 0.07 vol% near the work and no limit of the UK.
run replace isooctane --use 990 --hours 0.33 --room 100 --air-changes 4 --limits uk
tells "but it is OVER: another limit, an IDLH or the fire alarm is passed."

# --- more hazardous is said in capitals, with what is new ---
run replace n-heptane --bottles "n-hexane, isooctane" --allow n-hexane --show 2
exits 0
tells "MORE hazardous (statements: heavy, before irritant)"
tells "New in it: reproductive, toxic."
run replace n-heptane --bottles "n-hexane, isooctane" --allow n-hexane --json
json "[r['respects']['health'] for r in a['replacements'] if 'n-hexane' in r['recipe']][0] == 'worse'"
json "all('isooctane' in r['recipe'] for r in a['replacements'][:1])" # the one that brings no new class comes first

# --- a liquid of which no hazards are known is not thereby harmless ---
own_cymene "$work/own"
own="--without toluene --bottles cymene,ethanol --data $work/own"
run replace "toluene 50 + ethanol 50" $own --case "$work/case.yaml"
exits 0
tells "(hazards not known)"
tells "Of the hazards of cymene nothing is known: NOT JUDGED for the people who work there by the case."
tells "No longer in it: aromatic." # by its family, which is known
prints_not "ess hazardous (statements"
run replace "toluene 50 + ethanol 50" $own
tells "Of the hazards of cymene nothing is known, which is never harmless."
prints_not "(hazards not known)"
run replace "toluene 50 + ethanol 50" $own --json
json "all(r['hazard']['unknown'] == ['cymene'] for r in a['replacements']) and a['original']['hazard']['unknown'] == []"
json "all(r['classes_gone'] == ['aromatic'] and r['respects']['health'] in ('unknown', 'worse') for r in a['replacements'])"
# The same liquid with a row that states no statements is compared.
printf 'table: hazards\nhazards:\n  - {id: cymene, h_statements: []}\n' >"$work/own/hazards.yaml"
run replace "toluene 50 + ethanol 50" $own --json
json "all('reproductive' in r['classes_gone'] and r['hazard']['unknown'] == [] for r in a['replacements'])"

# No more bottles in a blend than there are.
run replace "toluene 75 + acetone 25" --without toluene --bottles "acetone, cyclohexane"
tells "by blends of up to 2 of 2 bottles"

done_testing
