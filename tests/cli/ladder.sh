#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# ladder: the next test by the rule, with all that is needed to make it; it follows what is noted.
. "$(dirname "$0")/expect.sh"

demo="$SOURCE_ROOT/examples/demo-case.yaml"
cd "$work" || exit 1
case=case.yaml
fresh() { cp "$demo" "$case"; }
note() { "$MILDSOLVE" record --case "$case" --passage sky --layer varnish --date 2025-02-19 "$@" >/dev/null 2>&1; }

# The rule, read off the answer: no more than 10 % above the last, no higher than the weakest likely one.
by_rule() {
    json "all(d['next_percent'] is None or (d['next_percent'] <= (d['last_percent'] if d['last_percent'] is not None else -10) + 10 and (d['likely_percent'] is None or d['next_percent'] <= d['likely_percent'])) for d in a['directions'])"
}

# --- with the case ---

fresh
run ladder --case "$case" --date 2025-02-19 --threads 1 --json
exits 0
json "a['series'] == 'adaptive' and a['tests_learnt'] == 5 and a['worked'] == 'T5' and not a['stop']"
by_rule
json "len(a['rungs']) == 3 and a['rungs'][0]['strong'] == 'propan-2-ol' and a['rungs'][0]['strong_percent'] in (35, 40)"
json "all(0 <= r['p_touches'] <= a['touch_most'] and 0 <= r['p_works'] <= 1 for r in a['rungs'] + a['other_rungs'])"
json "all(0 < r['step_percent'] <= 10 and r['step_margin'] > 0 for r in a['rungs'])"
json "all(x['strong_percent'] < y['strong_percent'] for x, y in zip(a['rungs'], a['rungs'][1:]))"
json "not any(r['weaker_than_worked'] for r in a['rungs'])"
json "all(5 <= b['total_ml'] <= 20 and b['total_ml'] == b['from_jar_ml'] + b['weak_ml'] + b['strong_ml'] for r in a['rungs'] for b in (r['fresh'], r['from_jar']) if b)"
json "all(r['judge_after_min'] >= 2 and r['judge_after_min'] >= 3 * r['surface_dry_min'] and r['clear_with'] == 'weak' for r in a['rungs'])"
json "a['sites_for'] == 'T5' and {s['passage']: s['why'] for s in a['sites']} == {'sky': 'light', 'ferry': 'dark', 'cap': 'sensitive'}"
json "[s['done'] for s in a['sites']] == [True, False, False] and all(s['take_percent'] == 0 for s in a['sites'][1:])"
mv out first
run ladder --case "$case" --date 2025-02-19 --threads 3 --json
if cmp -s out first; then good; else bad "another answer with other threads"; fi

run ladder --case "$case" --date 2025-02-19
exits 0
narrow
for words in "Test T5: partly removed" "Direction: more hydrogen bonding (propan-2-ol in isooctane)." \
    "Fresh: 6 mL of isooctane + 4 mL of propan-2-ol (10 mL)" "From the jar before:" "Clear with isooctane" \
    "sky (light) at" "cap (sensitive)" "ethanol-96-denatured (more hydrogen bonding): its next rungs separate into" \
    "at once in the passage, when original colour is on the swab"; do
    tells "$words"
done
says "bottle methoxypropanol holds methoxypropanol, which forms peroxides"
tells "bituminous or asphalt brown: Bitumen never dries through" # why the ferry is sensitive

# The same caution wherever the case's bottles are proposed or poured.
overdue() {
    run "$@" --case "$case"
    exits 0
    says "bottle methoxypropanol holds methoxypropanol, which forms peroxides"
}
SOURCE_DATE_EPOCH=1764028800 # 2025-11-25
export SOURCE_DATE_EPOCH
overdue gentlest --by red --components 2
overdue recipe "methoxypropanol 20 + isooctane 80"
overdue label "methoxypropanol 20 + isooctane 80"
overdue replace "toluene 20 + isooctane 80" --without toluene --components 2
run recipe "propan-2-ol 20 + isooctane 80" --case "$case" # it is not poured
if grep -q peroxides err; then bad "a bottle that is not in the blend is told"; else good; fi
unset SOURCE_DATE_EPOCH

# What is noted is learnt: a failure makes the same rung less likely, and the climb goes on from there.
run ladder --case "$case" --date 2025-02-19 --json --show 1
likely=$(python3 -c "import json; print(json.load(open('out'))['rungs'][0]['p_works'])")
share=$(python3 -c "import json; print(int(json.load(open('out'))['rungs'][0]['strong_percent']))")
note --site 96,372 --blend "propan-2-ol $share + isooctane $((100 - share))" --result none --contact 20 --rolls 6
note --site 300,372 --blend "propan-2-ol $share + isooctane $((100 - share))" --result none --contact 20 --rolls 6
run ladder --case "$case" --date 2025-02-19 --json --toward propan-2-ol
exits 0
by_rule
json "a['tests_learnt'] == 7 and a['rungs'][0]['strong_percent'] > $share and [d['last_percent'] for d in a['directions'] if d['strong'] == 'propan-2-ol'] == [$share]"
run ladder --case "$case" --date 2025-02-19 --json --even --show 12 --toward propan-2-ol
json "a['series'] == 'even' and a['rungs'][-1]['strong_percent'] == 100 and all(r['strong_percent'] % 10 == 0 for r in a['rungs'])"
"$MILDSOLVE" record --case "$case" --undo --date 2025-02-19 --because "wrong jar" >/dev/null 2>&1
"$MILDSOLVE" record --case "$case" --undo --date 2025-02-19 --because "wrong jar" >/dev/null 2>&1
run ladder --case "$case" --date 2025-02-19 --json --show 1
json "a['rungs'][0]['p_works'] == $likely and a['rungs'][0]['strong_percent'] == $share" # undone: as if never noted

# Original colour stops the passage.
fresh
note --site 96,372 --blend "propan-2-ol 35 + isooctane 65" --result removed --colour-on-swab unsure
run ladder --case "$case" --date 2025-02-19 --json
json "a['stop'] and a['worked'] == 'T5' and all(s['stopped'] == (s['passage'] == 'sky') for s in a['sites'])"
run ladder --case "$case" --date 2025-02-19
tells "STOP: test T6 (propan-2-ol 35 + isooctane 65) found colour that is original or may be. No further test in passage sky"
tells "next, only in passages without original colour"

# In the others the climb begins anew, and stays below what found it until it was approached there.
two() { # two SHARE RESULT COLOUR PASSAGE ...: a case of two passages with such tests of propan-2-ol
    {
        printf '%s\n' "mildsolve_case: 1" "object: {title: t, width_mm: 520, height_mm: 410, measured_from: lower left}" \
            "layers:" "  - {id: varnish, kind: varnish, material: dammar-aged}" \
            "  - {id: paint, kind: paint, material: linseed-oil-film-young}" "goals: {remove: [varnish], spare: [paint]}" \
            "passages:" "  - {id: sky, tone: light}" "  - {id: boat, tone: dark}" "tests:"
        number=1
        while [ $# -gt 0 ]; do
            blend="propan-2-ol $1 + isooctane $((100 - $1))"
            if [ "$1" -eq 0 ]; then blend=isooctane; fi
            echo "  - {id: T$number, date: 2025-02-17, passage: $4, blend: $blend, result: $2, colour_on_swab: $3}"
            number=$((number + 1))
            shift 4
        done
    } >"$case"
}
climb() { run ladder --case "$case" --bottles "isooctane, propan-2-ol" --show 12 --json "$@"; }

two 40 none original sky
for series in "" --even; do
    climb $series
    exits 0
    json "a['stop'] and a['rungs'][0]['strong_percent'] == 0 and all(r['strong_percent'] < 40 for r in a['rungs'])"
    json "[s['take_percent'] for s in a['sites'] if s['passage'] == 'boat'] == [0]"
done
two 40 none original sky 0 none none boat 10 none none boat 20 none none boat
climb
json "a['rungs'][0]['strong_percent'] in (25, 30) and all(r['strong_percent'] < 40 for r in a['rungs'])"
two 40 none original sky 20 none none boat 30 none none boat
climb # approached: the rung itself may come, nothing above it
json "[r['strong_percent'] for r in a['rungs']][-1] == 40"
two 40 none original sky 30 none none boat 40 none none boat
climb # passed without colour there
json "all(r['strong_percent'] > 40 for r in a['rungs']) and a['rungs'][0]['strong_percent'] <= 50"

# What worked in one passage comes before anything stronger in those that were not tested with it.
two 20 softened none sky 30 "partly removed" none sky 40 removed none sky 20 softened none boat 30 "partly removed" none boat
climb
json "a['worked'] == 'T5' and a['worked_further'] == 'T3' and a['rungs'][0]['strong_percent'] in (35, 40)"
json "all(0 < r['step_percent'] <= 10 for r in a['rungs']) and [d['last_percent'] for d in a['directions']] == [40]"
run ladder --case "$case" --bottles "isooctane, propan-2-ol"
tells "Test T3: removed, with propan-2-ol 40 + isooctane 60, but not every passage was tested with that much"
two 20 softened none sky 30 "partly removed" none sky 40 removed none sky 30 softened none boat 40 removed none boat
climb
json "a['worked_further'] is None and 40 < a['rungs'][0]['strong_percent'] <= 50"
two 30 "partly removed" none sky 40 removed none sky 30 removed original boat
climb # the only other passage is stopped
json "a['worked_further'] is None and 40 < a['rungs'][0]['strong_percent'] <= 50"
run ladder --case "$case" --bottles "isooctane, propan-2-ol"
tells "next, only in passages without original colour, where that does too little"

two 40 none original sky 10 none unsure boat
run ladder --case "$case" --bottles "isooctane, propan-2-ol"
exits 1
tells "No next test: original colour was found in every passage."
climb --even
exits 1
json "a['rungs'] == [] and a['other_rungs'] == [] and all(d['next_percent'] is None for d in a['directions'])"
two 0 none original sky
climb # nothing is milder than the neat weak liquid
exits 1
json "a['directions'][0]['state'].startswith('held back by original colour')"

# On the paint both views are heard, and the larger one counts.
two 30 none none boat
climb
cp out film
climb --by red --touch-most 1
python3 - film out <<'CODE' >out.json
import json, sys
film, red = (json.load(open(name)) for name in sys.argv[1:])
print(json.dumps({"by": [film["touches_by"], red["touches_by"]],
                  "touches": [[{r["strong_percent"]: r["p_touches"] for r in a["rungs"]} for a in (film, red)]]}))
CODE
mv out.json out
json "a['by'] == ['film and red', 'film and red'] and all(f[k] == r[k] for f, r in a['touches'] for k in set(f) & set(r)) and any(set(f) & set(r) for f, r in a['touches'])"

# --- the session of the examples, from the first swab to the final blend ---

typed="examples/swab-session.sh"
sh "$SOURCE_ROOT/examples/swab-session.sh" >out 2>err
status=$?
exits 0
for words in "start     -  isooctane 100" "T5 noted in case.yaml" "sky (light) at 108,372 mm: done" "Learnt from 9 tests"; do
    prints "$words"
done
if [ "$(grep -c '^    1 ' out)" -eq 5 ]; then good; else bad "five next tests were expected"; fi

# --- without a case ---

run ladder --remove dammar-aged --spare linseed-oil-film-young --bottles "isooctane, propan-2-ol, acetone" --json
exits 0
by_rule
json "all(r['weaker_than_worked'] is None for r in a['rungs'])"
json "a['tests_learnt'] == 0 and a['rungs'][0]['strong_percent'] == 0 and a['rungs'][0]['step_percent'] is None and a['sites'] == []"
json "{d['strong']: d['direction'] for d in a['directions']} == {'propan-2-ol': 'more hydrogen bonding', 'acetone': 'more polar'}"
run ladder --remove dammar-aged --spare linseed-oil-film-young --bottles "isooctane, propan-2-ol" --by red
exits 0
narrow
tells "Paint: RED about"
run ladder --remove beeswax --spare linseed-oil-film-young --bottles "isooctane, acetone" --json # it has no film
exits 0
says "beeswax has no film model; judged by distance of the mean (--by red)"
json "a['by'] == 'red'"
run ladder --remove beeswax --spare linseed-oil-film-young --bottles "isooctane, acetone" --by film
exits 2
run ladder --remove dammar-aged --spare linseed-oil-film-young --bottles "isooctane, acetone" --touch-most 0
exits 1
tells "No next test can be proposed from these bottles."

# --- refused ---

refused() { # refused WORDS ARGUMENTS...
    words=$1
    shift
    run ladder "$@"
    exits 2
    silent
    says "$words"
}
refused "at least two bottles" --remove dammar-aged --bottles isooctane
refused "dimethylformamide was left out: the tool never proposes it" --remove dammar-aged --toward dimethylformamide \
    --bottles "isooctane, dimethylformamide"
refused "acetone was left out by --without" --remove dammar-aged --bottles "isooctane, acetone" --without acetone
refused "all of these bottles are weak hydrocarbons" --remove dammar-aged --bottles "isooctane, white-spirit-dearomatised"
refused "none of the strong bottles at hand" --remove dammar-aged --bottles "isooctane, acetone" --toward toluene
refused "--show 13 is outside the range" --remove dammar-aged --show 13
refused "--by 'taste' is not known" --remove dammar-aged --by taste
refused "--remove is missing" --bottles "isooctane, acetone"
fresh
sed 's/result: softened/result: soft/' "$demo" >"$case"
refused "case.yaml:" --case "$case"
# The mildest blend that worked goes to the other places, not the last one.
{
    printf 'mildsolve_case: 1\nobject: {title: A, width_mm: 200, height_mm: 200, measured_from: lower left}\n'
    printf 'layers:\n  - {id: varnish, kind: varnish, material: mastic-aged}\n'
    printf '  - {id: paint, kind: paint, material: linseed-oil-film-young}\ngoals: {remove: [varnish], spare: [paint]}\n'
    printf 'bottles:\n  - {id: isooctane}\n  - {id: propan-2-ol}\n'
    printf 'passages:\n  - {id: light, tone: light, place: {x_mm: 0, y_mm: 0, width_mm: 90, height_mm: 90}}\n'
    printf '  - {id: dark, tone: dark, place: {x_mm: 100, y_mm: 0, width_mm: 90, height_mm: 90}}\n'
    printf 'tests:\n  - {id: T1, date: 2025-02-18, passage: light, x_mm: 20, y_mm: 20, blend: propan-2-ol 20 + isooctane 80, result: partly removed}\n'
    printf '  - {id: T2, date: 2025-02-18, passage: light, x_mm: 60, y_mm: 60, blend: propan-2-ol 60 + isooctane 40, result: removed}\n'
} >"$work/mildest.yaml"
run ladder --case "$work/mildest.yaml" --date 2025-02-20
tells "propan-2-ol 20 + isooctane 80"
prints_not "take propan-2-ol 60"
prints_not "'strength'" # it goes on from there, so nothing of it is weaker

# Where the direction that worked ends, the sites are still told for the blend that worked, not for the next direction.
sed -e 's/^tests:/&\n  - {id: T0, date: 2025-02-18, passage: dark, x_mm: 120, y_mm: 20, blend: isooctane, result: none}/' \
    -e '/id: T2/d' -e 's/^  - {id: propan-2-ol}/&\n  - {id: spirit, content: ethanol-96, water_percent: 4}/' \
    -e 's/blend: propan-2-ol 20 + isooctane 80/blend: spirit 20 + isooctane 80/' "$work/mildest.yaml" >"$work/ends.yaml"
run ladder --case "$work/ends.yaml" --date 2025-02-20 --json
exits 0
json "a['worked'] == 'T1' and a['sites_for'] == 'T1' and a['rungs'][0]['strong'] == 'propan-2-ol'"
json "{s['passage']: (s['tested_percent'], s['done'], s['take_percent']) for s in a['sites']} == {'light': (20, True, None), 'dark': (0, False, 20)}"
# The next one begins with less than what worked: that is told, in every row.
json "all(r['weaker_than_worked'] for r in a['rungs'])"
run ladder --case "$work/ends.yaml" --date 2025-02-20
tells "For the blend of test T1, before the next step:"
tells "tested up to 0 %; take spirit 20 + isooctane 80 there"
tells "next, in a direction that begins with less than what worked"
tells "The direction of test T1 does not go on: its next rungs separate into two liquids."
prints "weaker    propan-2-ol 10 + isooctane 90"
prints_not "next, where that does too little"
run report --case "$work/ends.yaml" --doubt none
tells "The next direction begins with less than that, which tells whether less is enough:"
tells "weaker than test T1, by the model"

# An overdue bottle is marked wherever it is proposed, and waits where another has as good a chance.
sed -e "s/  - {id: propan-2-ol}/  - {id: old, content: propan-2-ol, opened: 2022-01-01}\n  - {id: new, content: propan-2-ol, opened: 2025-01-10}/" \
    -e '/id: spirit/d' -e '/id: T1/d' "$work/ends.yaml" >"$work/old.yaml"
run ladder --case "$work/old.yaml" --date 2025-02-20 --json
exits 0
json "[r['strong'] for r in a['rungs']] == ['new'] * 3 and all(r['test_for_peroxides'] == [] for r in a['rungs'])"
json "[(r['strong'], r['test_for_peroxides']) for r in a['other_rungs']] == [('old', ['old'])]"
run ladder --case "$work/old.yaml" --date 2025-02-20
tells "old 10 + isooctane 90 (peroxide test overdue)"
tells "Test for peroxides before use, or do not use: old. A bottle without that doubt was preferred"
run ladder --case "$work/old.yaml" --date 2022-02-20 --json # both are fresh: the first of equals
json "a['rungs'][0]['strong'] == 'old' and all(r['test_for_peroxides'] == [] for r in a['rungs'] + a['other_rungs'])"
run ladder --case "$work/old.yaml" --date 2025-02-20 --bottles "isooctane, old"
tells "old 10 + isooctane 90 (peroxide test overdue)"
tells "Not before old was tested for peroxides; else take it to waste."
# --date is one thing everywhere: the day on which bottles are judged, today where it is not given.
for view in film red; do
    run gentlest --case "$work/old.yaml" --by $view --doubt none --components 2 --step 10 --every-set --date 2025-02-20 --json
    exits 0
    json "any('old' in r['recipe'] for r in a['blends']) and all(r['test_for_peroxides'] == (['old'] if 'old ' in r['recipe'] else []) for r in a['blends'])"
    run gentlest --case "$work/old.yaml" --by $view --doubt none --components 2 --step 10 --every-set --date 2025-02-20
    tells "(peroxide test overdue)"
    tells "test these bottles for peroxides first, or do not use them: old."
    run gentlest --case "$work/old.yaml" --by $view --doubt none --components 2 --step 10 --every-set --date 2022-02-20
    prints_not "overdue"
done
run recipe "old 10 + isooctane 90" --case "$work/old.yaml" --date 2022-02-20
if grep -q peroxides "$work/err"; then bad "a fresh bottle is told of"; else good; fi
run recipe "old 10 + isooctane 90" --case "$work/old.yaml" --date 2025-02-20
says "bottle old holds propan-2-ol, which forms peroxides"
run label "old 10 + isooctane 90" "$work/label.pdf" --case "$work/old.yaml" --date 2022-02-20
exits 0
if grep -q peroxides "$work/err"; then bad "a fresh bottle is told of"; else good; fi
run replace "old 10 + isooctane 90" --without old --case "$work/old.yaml" --date 2025-02-20
says "bottle old holds propan-2-ol, which forms peroxides"
for command in "gentlest --case $work/old.yaml" "gentlest --remove dammar-aged --spare linseed-oil-film-young" \
    "recipe isooctane" "label isooctane" "chart $work/none.png --blend isooctane"; do
    run $command --date yesterday
    exits 2
    says "--date 'yesterday': a date is expected"
done
# the same day stands in the caption of the chart, not that of the last test
quick="--components 2 --step 10"
run gentlest --case "$work/old.yaml" $quick --date 2025-02-20 --chart "$work/dated.png"
exits 0
SOURCE_DATE_EPOCH=1740009600 run gentlest --case "$work/old.yaml" $quick --chart "$work/today.png"
if cmp -s "$work/dated.png" "$work/today.png"; then good; else bad "the caption does not hold today"; fi
run gentlest --case "$work/old.yaml" $quick --date 2025-02-21 --chart "$work/later.png"
if cmp -s "$work/dated.png" "$work/later.png"; then bad "the caption does not hold the day"; else good; fi
# Without a date nobody can call it overdue.
sed 's/, opened: 2022-01-01//' "$work/old.yaml" >"$work/undated.yaml"
run gentlest --case "$work/undated.yaml" --doubt none --components 2 --step 10 --every-set --date 2025-02-20
tells "(no date: test for peroxides)"
tells "test these bottles for peroxides first, or do not use them: old."
prints_not "overdue)"
sed 's/blend: isooctane,/blend: old 10 + isooctane 90,/' "$work/old.yaml" >"$work/chosen.yaml"
run report --case "$work/chosen.yaml" --doubt none --learn none
tells "Test for peroxides before use, or do not use: old (the reason stands with the bottles)."
run report --case "$work/chosen.yaml" --sheet
tells "Test for peroxides before use, or do not use: old (the reason stands with the bottles)."
sed -e '/^tests:/,$d' -e '/id: new/d' -e 's/^bottles:/&\n  - {id: white-spirit}/' "$work/old.yaml" >"$work/untested.yaml"
run gentlest --case "$work/untested.yaml" --doubt none --components 2 --step 10 --date 2025-02-20
tells "then old 10 + isooctane 90 (peroxide test overdue), not row 1"
run report --case "$work/untested.yaml" --doubt none
tells "Bottle white-spirit: Taken as the grade with 17 to 20 % aromatics."
run report --case "$work/old.yaml" --doubt none --date 2025-02-20 --json # in the note of a row: its blend is read by programs
json "[r for s in a['sections'] for b in s['blocks'] if b.get('id') == 'alternatives' for r in b['rows'] if 'old ' in r['blend']][0]['row_note'].startswith('Test for peroxides before use, or do not use: old. ')"

# The computed list says what the tests found, whatever it ranks; a stop above all.
for view in film red; do
    run gentlest --case "$work/ends.yaml" --by $view --doubt none --components 2 --step 10
    exits 0
    tells "Test T1: partly removed, with spirit 20 + isooctane 80. What was tested outranks this list"
    prints_not "STOP"
done
cp "$work/ends.yaml" "$work/stop.yaml"
printf '  - {id: T3, date: 2025-02-19, passage: dark, x_mm: 150, y_mm: 20, blend: spirit 10 + isooctane 90, result: removed, colour_on_swab: unsure}\n' >>"$work/stop.yaml"
run gentlest --case "$work/stop.yaml" --doubt none --components 2 --step 10
tells "STOP: test T3 (spirit 10 + isooctane 90) found colour that is original or may be. No further test in passage dark"
tells "Nothing of this list is to be used before that is decided."
run report --case "$work/stop.yaml" --doubt none --learn none
tells "At a glance ----------- ! STOP in dark: test T3 with spirit 10 + isooctane 90 found colour that may be original."
tells "First of the list by the film model, not to be used before the STOP above is decided:"
prints_not "First of the list by the film model:"

# Before any test the list says what to test first: the foot of its first row's direction, where the ladder begins too.
sed '/^tests:/,$d' "$work/ends.yaml" >"$work/untested.yaml"
for view in film red; do
    run gentlest --case "$work/untested.yaml" --by $view --doubt none --components 2 --step 10 --json
    json "a['first_test']['recipe'] == 'isooctane 100' and a['first_test']['command'] == 'mildsolve ladder --case $work/untested.yaml'"
    json "a['first_test']['then'] in (None, 'propan-2-ol 10 + isooctane 90', 'spirit 10 + isooctane 90') and a['first_test']['then'].split()[0] in a['blends'][0]['recipe']"
    run gentlest --case "$work/untested.yaml" --by $view --doubt none --components 2 --step 10
    tells "No swab test yet. Test isooctane 100 first, then "
    tells "not row 1 of the list; every step by mildsolve ladder --case"
    run gentlest --case "$work/ends.yaml" --by $view --doubt none --components 2 --step 10 --json
    json "a['first_test'] is None"
done
run report --case "$work/untested.yaml" --doubt none
tells "Test isooctane 100 first, then "
tells "Row 1 of the list by the film model, no first test: "
run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "isooctane, propan-2-ol" --doubt none --step 10 --json
json "a['first_test'] == {'recipe': 'isooctane 100', 'then': 'propan-2-ol 10 + isooctane 90', 'command': 'mildsolve ladder'}"
run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles propan-2-ol --doubt none --step 10
tells "Test propan-2-ol 100 first, before anything stronger; every step by mildsolve ladder."

# Without the other direction there is no next rung, but the same test at the other site there is.
run ladder --case "$work/ends.yaml" --date 2025-02-20 --bottles "isooctane, spirit"
exits 1
tells "No next test can be proposed from these bottles."
tells "take spirit 20 + isooctane 80 there"

done_testing
