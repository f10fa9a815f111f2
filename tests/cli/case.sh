#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The case: checked with line and column, and the source of what isn't said to the other commands.
. "$(dirname "$0")/expect.sh"

cd "$SOURCE_ROOT/examples" || exit 1
demo="demo-case.yaml" # a short name, so that no line wraps inside it

run check "$demo"
exits 0
prints "no fault found"
run check "$demo" --date 2025-02-20
exits 0
prints "to be known on 2025-02-20"
prints "bottle 'methoxypropanol' holds methoxypropanol, which forms peroxides"
prints "common laboratory practice: 12 months opened, 18 unopened"
prints "bottle 'ethanol-96-denatured': an opened alcohol with 4.5 % of water"
prints "the capture of the arm was not measured"
prints "passage 'cap' is sensitive (red-lake glaze) and has no test of its own yet"
prints_not "bottle 'propan-2-ol'"
run check "$demo" --date 2026-02-20
prints "bottle 'propan-2-ol' holds propan-2-ol" # 13 months after it was opened
run check "$demo" --date 2025-02-20 --json
json "a['fault_count'] == 0 and a['faults'] == [] and a['as_of'] == '2025-02-20' and len(a['remarks']) == 5"
run check "$demo" --date 2025-02-16
exits 1
prints "demo-case.yaml:150:11: test 'T1', date: 2025-02-17 lies in the future: today is 2025-02-16"
prints "5 faults found"
run check "$demo" --date 16.2.2025
exits 2
run check "$demo" "$SOURCE_ROOT/data/bottles.yaml" --date 2025-02-20
exits 0

{ echo "# a"; cat "$demo"; } >"$work/c.yaml"
sed -i 's/^  limits: de/  limits: dd/; s/kind: varnish/kind: varnisch/' "$work/c.yaml"
run check "$work/c.yaml"
exits 1
prints "c.yaml:29:11: layer 'varnish', kind: 'varnisch': one of these is expected"
sed 's/^mildsolve_case: 1/mildsolve_case: 3/' "$demo" >"$work/c.yaml"
run check "$work/c.yaml"
exits 1
prints "c.yaml:3:17: this case was written for a newer mildsolve (case version 3; this program knows version 1)"

# --- defaults of other commands ---

run gentlest --case "$demo" --json
exits 0
json "a['blends']"
json "all('toluene' not in b['recipe'] for b in a['blends'])"
cp "$work/out" "$work/first"
says "from $demo: --remove dammar-aged"
says "careful stand-in"
run gentlest --case "$demo" --json # the same bytes
if cmp -s "$work/out" "$work/first"; then good; else bad "two answers differ"; fi
run gentlest --remove dammar-aged --spare linseed-oil-film-young --json --bottles "isooctane, white-spirit-dearomatised, propan-2-ol, acetone, ethyl-acetate, methoxypropanol"
cp "$work/out" "$work/first"
sed '/^  - id: ethanol-96-denatured/,/^    opened/d' "$demo" >"$work/c.yaml"
run gentlest --case "$work/c.yaml" --tables-only --json # what is taken from the case is as good as typed
json "a.pop('sensitive_passages', None) is not None"
# only a case has passages, tests, and bottles with a day
strip="import json,sys; a=json.load(open(sys.argv[1])); a.pop('sensitive_passages', None); a.pop('first_test'); [b.pop('test_for_peroxides') for b in a['blends']]; print(json.dumps(a))"
if [ "$(python3 -c "$strip" "$work/out")" = "$(python3 -c "$strip" "$work/first")" ]; then good; else bad "the case gives another answer than the command line"; fi
run gentlest --case "$demo" --bottles "acetone, isooctane" --json # what is typed wins
json "all('propan' not in b['recipe'] for b in a['blends'])"
run place "ethanol-96-denatured 50 + isooctane 50" --case "$demo" --json
exits 0
json "abs(a['composition_volume_percent']['water'] - 2.25) < 1e-9"
json "abs(a['composition_volume_percent']['butanone'] - 0.5) < 1e-9"
run place "ethanol-96-denatured 50 + isooctane 50"
exits 2
run recipe --case "$demo" --volume 20
exits 0
prints "propan-2-ol 30 + isooctane 70: 20 mL"
run exposure --case "$demo" --json
exits 0
json "a['index_complete'] is True"
cp "$work/out" "$work/first"
run exposure "propan-2-ol 30 + isooctane 70" --use 18 --hours 4 --room 92 --air-changes 2.5 --limits de --json
# Only the case knows when a bottle was opened.
json "a['peroxide_bottles'] == []"
same="import json,sys; a=json.load(open(sys.argv[1])); a.pop('peroxide_bottles'); print(json.dumps(a))"
if [ "$(python3 -c "$same" "$work/out")" = "$(python3 -c "$same" "$work/first")" ]; then good; else bad "the case gives another answer than the command line"; fi
run exposure --case "$demo" --json
json "a['peroxide_bottles'] == [{'bottle': 'propan-2-ol', 'counted_from': '2025-01-13', 'test_after': '2026-01-13'}]"
# A day of tasks stands in the case; a task without a blend means the working blend.
cp "$demo" "$work/day.yaml"
printf 'day:\n  - "9:00-10:00 swab 18 mL/h"\n  - "11:00-11:15 brush 20 mL of acetone"\n' >>"$work/day.yaml"
run exposure --case "$work/day.yaml" --json
exits 0
says "9:00-10:00 swab 18 mL/h; --task 11:00-11:15 brush 20 mL of acetone"
json "[(t['blend'], t['start_h'], t['length_h'], t['use_ml_h'], t['method']) for t in a['tasks']] == [('propan-2-ol 30 + isooctane 70', 0, 1, 18, 'swab'), ('acetone 100', 2, 0.25, 80, 'brush')]"
run exposure --case "$work/day.yaml" --use 5 --json
json "len(a['tasks']) == 1 and a['tasks'][0]['use_ml_h'] == 5 and a['tasks'][0]['length_h'] == 4"
printf '  - "9:00-25:00 swab 18 mL/h"\n' >>"$work/day.yaml"
run check "$work/day.yaml"
exits 1
tells "two times of one day stand first, from 0:00 to 24:00"
run drying --case "$demo" --json
exits 0
json "a['path'][0]['composition']"
if grep -q -- "--object" "$work/err"; then bad "what is for a chart is taken although none is drawn"; else good; fi
run drying --case "$demo" --chart "$work/dry.svg" # a chart takes object and materials too
exits 0
if grep -q "<desc>Object: not given" "$work/dry.svg"; then bad "the object of the case is not on the chart"; else good; fi
run drying --case "$demo" --chart "$work/dry.svg" --rule hansen
exits 0
run exposure --case "$demo" --chart "$work/air.svg"
if grep -q "<desc>Object: not given" "$work/air.svg"; then bad "the object of the case is not on the chart"; else good; fi
run label --case "$demo"
prints "propan-2-ol 30 + isooctane 70, classified by"
run chart "$work/case.svg" --case "$demo"
exits 0
if [ -s "$work/case.svg" ]; then good; else bad "no chart"; fi
says "LT-0417"

sed 's/flags: \[alone\]/flags: [pregnancy announced]/; s/content: ethanol-96$/content: toluene/' "$demo" >"$work/c.yaml"
run gentlest --case "$work/c.yaml" --json
says "--without reproductive"
json "all('ethanol-96-denatured' not in b['recipe'] for b in a['blends'])" # toluene now; Repr. 2
says "thereby harmless"
# Carcinogens of category 2 and what is toxic in small amounts as well (Council Directive 92/85/EEC, Annex I, as amended by
# 2014/27/EU, from memory: H351, H370): tetrahydrofuran, methyl isobutyl ketone, methanol (Reg. (EC) 1272/2008, Annex VI).
for flag in "pregnancy announced" breastfeeding; do
    sed "s/flags: \\[alone\\]/flags: [$flag]/" "$demo" >"$work/c.yaml"
    run replace toluene --case "$work/c.yaml" --whole-table --json
    json "all(any(f['filter'] == c and x in f['names'] for f in a['removed_by_filter']) for c, x in (('carcinogen', 'tetrahydrofuran'), ('carcinogen', 'methyl-isobutyl-ketone'), ('toxic', 'methanol')))"
    run exposure "tetrahydrofuran 10 + acetone 90" --case "$work/c.yaml" --use 2 --hours 1
    tells "By the case a pregnancy or breastfeeding is announced: no work with tetrahydrofuran in this room, whatever the index."
done
run exposure "turpentine 10 + acetone 90" --case "$work/c.yaml" --use 2 --hours 1
prints_not "By the case"
# Under 18 (Council Directive 94/33/EC, Annex, as amended by 2014/27/EU, from memory): the same, and what corrodes (acetic
# acid, H314), sensitises (turpentine, H317) or may damage organs (xylenes, H373); Reg. (EC) 1272/2008, Annex VI.
sed "s/flags: \\[alone\\]/flags: [under 18]/" "$demo" >"$work/young.yaml"
run replace toluene --case "$work/young.yaml" --whole-table --json
says "people under 18 must not work with what is left out for them"
json "all(any(f['filter'] == c and x in f['names'] for f in a['removed_by_filter']) for c, x in (('carcinogen', 'tetrahydrofuran'), ('toxic', 'methanol'), ('sensitiser', 'turpentine'), ('xylenes', 'xylenes')))"
run exposure "turpentine 10 + xylenes 10 + acetone 80" --case "$work/young.yaml" --use 2 --hours 1
tells "By the case somebody under 18 works there: no work with turpentine, xylenes for them, whatever the index"
run exposure "acetic-acid 10 + acetone 90" --case "$work/young.yaml" --use 2 --hours 1
tells "no work with acetic-acid for them"
run exposure acetone --case "$work/young.yaml" --use 2 --hours 1
prints_not "By the case"
sed 's/flags: \[alone\]/flags: [sensitised]/' "$demo" >"$work/c.yaml"
run exposure "turpentine 10 + toluene 90" --case "$work/c.yaml" --use 2 --hours 1
tells "keep them away from turpentine, whatever the index."
prints_not "pregnancy or breastfeeding is announced"
set -- # so often that nothing can be added: never dropped in silence
for name in acetone butanone ethanol propan-2-ol toluene xylenes n-hexane n-pentane isooctane water methanol turpentine; do
    set -- "$@" --without "$name"
done
run replace toluene --case "$work/c.yaml" "$@"
exits 2
says "join the names with commas"
run place --case "$work/none.yaml"
exits 2
says "none.yaml"
run place
exits 2
says "needs BLEND"
printf 'mildsolve_case: 1\nobject: {title: t}\n' >"$work/c.yaml"
run place --case "$work/c.yaml" # nothing in it to take
exits 2
says "needs BLEND"
run gentlest --case "$work/c.yaml"
exits 2
says "--remove is missing"

# A stop belongs to the passage that holds its place, whether or not the test names it.
{
    printf 'mildsolve_case: 1\nobject: {title: A, width_mm: 200, height_mm: 200, measured_from: lower left}\n'
    printf 'passages:\n  - {id: whole, place: {x_mm: 0, y_mm: 0, width_mm: 200, height_mm: 200}}\n'
    printf '  - {id: lake, place: {x_mm: 120, y_mm: 110, width_mm: 30, height_mm: 30}}\n'
    printf 'tests:\n  - {id: T1, date: 2025-02-18, x_mm: 125, y_mm: 115, blend: acetone 1, result: removed, colour_on_swab: original}\n'
} >"$work/place.yaml"
run check "$work/place.yaml" --date 2025-02-20
tells "STOP in passage 'lake'"

done_testing
