#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"
case=$SOURCE_ROOT/examples/demo-case.yaml

# same_file ARGUMENTS... FILE: the second run writes the same bytes as the first
same_file() {
    for file; do :; done
    run "$@"
    exits 0
    cp "$file" "$work/first"
    run "$@"
    if cmp -s "$file" "$work/first"; then good; else bad "the same input gave other bytes"; fi
}

# a JSON report in $work/$1.json of a case is asked for values by key of a facts block or a table
report() { # report CASE ARGUMENTS...: the document as JSON on standard output, which `json` then sees
    file=$1
    shift
    run report --case "$file" "$@" --json
    exits 0
}
tables="{b['id']: b for s in a['sections'] for b in s['blocks'] if b['kind'] == 'table'}"

# --- the demo case, on the screen and as JSON ---
run report --case "$case" --learn none
exits 0
narrow
tells "Working blend: propan-2-ol 30 + isooctane 70, of the last test that stands (T5)"
tells "no decision names a blend"
tells "Swab tests that stand: 5, of 5 noted."
tells "Wet: milky while wet, clear after two minutes"
tells "Bottle methoxypropanol: holds methoxypropanol, which forms peroxides"
tells "These are calculations from tables, not tests."
report "$case" --learn none
json "[s['id'] for s in a['sections']][:3] == ['summary', 'object', 'layers'] and a['as_of'] == '2025-02-18'"
json "$tables['decisions']['rows'][0]['by'] == 'IW' and $tables['decisions']['rows'][0]['because']"
json "[r['add_ml'] for r in $tables['recipe']['rows']] == [12, 28]"
json "[r['result'] for r in $tables['tests']['rows']] == ['none', 'gloss change', 'gloss change', 'softened', 'partly removed']"
json "$tables['tests']['rows'][4]['contact_s'] == 20 and $tables['tests']['rows'][3]['rolls'] is None"
json "$tables['bottles']['rows'][1]['received'] == '2024-09'"
json "all(set(r) == {c['key'] for c in t['columns']} | {'row_note'} for t in $tables.values() for r in t['rows'])"
json "all(r['sure'] and r['sources'] for r in $tables['values']['rows'])"
json "len([b for s in a['sections'] for b in s['blocks'] if b['kind'] == 'figure' and b['alternative_text']]) == 5"
cp "$work/out" "$work/demo.json"

# What the case seeks a replacement for, as `replace` answers it by itself.
run replace --case "$case" --json
exits 0
cp "$work/out" "$work/replace.json"
report "$case" --learn none
json "[(r['blend'], round(r['ra'], 1)) for r in $tables['replacement-1']['rows']] == [(r['recipe'], round(r['ra_mpa05'], 1)) for r in json.load(open('$work/replace.json'))['replacements']]"
json "all('alike' in r['row_note'].lower() for r in $tables['replacement-1']['rows'])"

# What is planned to be put back, as `layers` judges it.
layered=$SOURCE_ROOT/examples/layers-case.yaml
run layers --case "$layered" --json
cp "$work/out" "$work/layers.json"
report "$layered"
json "[[r['touch'].strip('()') for r in $tables['pairs-%d' % i]['rows']] for i in (1, 2, 3)] == [[p['touch'] for p in s['pairs']][::-1] for s in json.load(open('$work/layers.json'))['stacks']]"
json "[b['id'] for s in a['sections'] for b in s['blocks'] if b['kind'] == 'figure'][-2:] == ['figure-section', 'figure-layers']"

# The figures are those of the other commands.
run ladder --case "$case" --date 2025-02-18 --json
cp "$work/out" "$work/ladder.json"
report "$case"
json "[(r['rank'], r['p_works']) for r in $tables['ladder']['rows']] == [(i + 1, r['p_works']) for i, r in enumerate(json.load(open('$work/ladder.json'))['rungs'])]"
json "[r['passage'] for r in $tables['forecasts']['rows']][::4] == ['sky', 'water', 'ferry', 'cap'] and all(0 <= r['p_works_film'] <= 1 for r in $tables['forecasts']['rows'])"
json "[r['when'] for r in $tables['learnt-film']['rows']] == ['before the tests', 'after them'] * 2"
run exposure --case "$case" --json
cp "$work/out" "$work/exposure.json"
run gentlest --case "$case" --tables-only --json
json "[(b['recipe'], b['doubt']['p_works']) for b in a['blends']] == [(r['blend'], r['p_works']) for r in [b for s in json.load(open('$work/demo.json'))['sections'] for b in s['blocks'] if b.get('id') == 'alternatives'][0]['rows']]"
if python3 - "$work/demo.json" "$work/exposure.json" <<'PYTHON'; then good; else bad "the air of the report is not that of the command"; fi
import json, sys
report, exposure = (json.load(open(name)) for name in sys.argv[1:])
blocks = [b for s in report["sections"] for b in s["blocks"]]
facts = {k: f["number"] for b in blocks if b.get("id") == "room" for k, f in b["facts"].items()}
rows = [b for b in blocks if b.get("id") == "limits"][0]["rows"]
shares = [l["share"] for c in exposure["components"] for l in c["limits"]]
assert facts["index"] == exposure["index"] and facts["allowed_ml_h"] <= exposure["allowed_ml_h"] < facts["allowed_ml_h"] + 1
assert [r["share"] for r in rows] == shares
PYTHON

# --- files ---
for suffix in txt json html pdf; do
    same_file report --case "$case" --learn none -o "$work/r.$suffix"
    prints "$work/r.$suffix: sections 21"
done
if cmp -s "$work/r.json" "$work/demo.json"; then good; else bad "the JSON file is not what --json prints"; fi
run report --case "$case" -o "$work/r.html" --json --learn none
json "a['format'] == 'html' and a['figures'] == 5 and a['tests'] == 5 and a['pages'] is None"
for wrong in r.doc r report; do
    run report --case "$case" -o "$work/$wrong" --learn none
    exits 2
    says ".pdf, .html, .txt or .json"
done
run report --case "$case" -o "$work/missing/r.html" --learn none
exits 3
says "$work/missing/r.html"
mkdir "$work/folder.txt"
run report --case "$case" -o "$work/folder.txt" --learn none
exits 3
says "folder.txt"
run report
exits 2
says "--case is missing"
run report --case "$case" --paper a3 --learn none
exits 2
run report --case "$case" --date yesterday --learn none
exits 2
run report --case "$case" --volume 1 --learn none # no share of a batch of 1 mL can be measured: said, and the rest stands
exits 0
tells "No recipe:"

# --- HTML: one file, nothing from outside, every id once, figures named ---
sound() { # sound FILE
    typed="HTML of $1"
    if python3 - "$1" <<'PYTHON'; then good; else bad "the HTML is not sound"; fi
import html.parser, re, sys
text = open(sys.argv[1], encoding="utf-8").read()
assert not re.search(r"<script|<link|<img|@import|(?:src|href)=[\"'](?!#)|url\(", text), "something from outside"
class Reader(html.parser.HTMLParser):
    void = {"meta", "br"}
    def __init__(self):
        super().__init__()
        self.open, self.ids, self.refs, self.levels, self.svgs = [], [], [], [], 0
    def handle_starttag(self, tag, attributes):
        attributes = dict(attributes)
        self.ids += [attributes["id"]] if "id" in attributes else []
        self.refs += attributes.get("aria-labelledby", "").split()
        self.refs += [attributes["href"][1:]] if attributes.get("href", "").startswith("#") else []
        assert tag != "th" or attributes.get("scope") in ("row", "col"), "th without scope"
        if re.fullmatch("h[1-6]", tag):
            self.levels.append(int(tag[1]))
        if tag == "svg":
            self.svgs += 1
            assert attributes["role"] == "img"
        if tag not in self.void:
            self.open.append(tag)
    def handle_startendtag(self, tag, attributes):
        pass
    def handle_endtag(self, tag):
        assert self.open.pop() == tag, tag
reader = Reader()
reader.feed(text)
assert not reader.open and len(reader.ids) == len(set(reader.ids)), "ids twice"
assert set(reader.refs) <= set(reader.ids), set(reader.refs) - set(reader.ids)
assert reader.levels[0] == 1 and reader.levels.count(1) == 1 and max(reader.levels) == 2
PYTHON
    if command -v tidy >/dev/null; then
        # tidy knows no SVG
        python3 -c "import re, sys; print(re.sub('<svg.*?</svg>', '<p>figure</p>', sys.stdin.read(), flags=re.S))" \
            <"$1" >"$work/tidy.html"
        if tidy -q -e --show-warnings yes --drop-empty-elements no "$work/tidy.html" 2>"$work/tidy"; then
            good
        else
            bad "tidy: $(head -n 5 "$work/tidy")"
        fi
    fi
}
sound "$work/r.html"

# --- PDF: what stands in the text stands on the pages, dated by the case ---
# paper FILE SIZE: sound pages of that size, and their text in $work/paper
paper() {
    typed="PDF of $1"
    command -v pdftotext >/dev/null || return 0
    if pdftotext -layout "$1" "$work/paper" 2>"$work/err"; then good; else bad "pdftotext cannot read it"; fi
    if pdfinfo "$1" | grep -q "Page size: *$2"; then good; else bad "not $2: $(pdfinfo "$1" | grep size)"; fi
}
on_paper() { # a text that may break its lines anywhere
    command -v pdftotext >/dev/null || return 0
    if tr -s ' \n\f' '   ' <"$work/paper" | grep -qF -- "$1"; then good; else bad "the pages lack: $1"; fi
}
if command -v pdftotext >/dev/null; then
    paper "$work/r.pdf" "595"
    on_paper "Wet: milky while wet, clear after two minutes"
    on_paper "page 2 of "
    on_paper "TRGS 900"
    on_paper "propan-2-ol 12 9.4 30.0 30.0"
    if pdfinfo "$work/r.pdf" | grep -q "CreationDate: *Tue Feb 18 .* 2025"; then good; else bad "not dated by the case"; fi
    run report --case "$case" -o "$work/letter.pdf" --sheet --paper letter --grey --learn none
    exits 0
    prints "pages 1"
    paper "$work/letter.pdf" "612 x 792"
    on_paper "propan-2-ol 12 30"
fi
run report --case "$case" -o "$work/r.pdf" --json --learn none
json "a['format'] == 'pdf' and a['pages'] > 5"
run report --case "$case" -o "$work/missing/r.pdf" --learn none
exits 3
run report --case "$case" -o "$work/sheet.html" --sheet --paper letter --grey --learn none
exits 0
sound "$work/sheet.html"

# --- cases that are hard ---
cat >"$work/bare.yaml" <<'YAML'
mildsolve_case: 1
object: {title: Bare}
YAML
report "$work/bare.yaml" --learn none
json "a['as_of'] is None and 'drying' not in [s['id'] for s in a['sections']]"
run report --case "$work/bare.yaml" --learn none
tells "No swab test is noted yet."
tells "No list can be given: the case does not say what is to be removed"
for suffix in html txt pdf; do
    run report --case "$work/bare.yaml" -o "$work/bare.$suffix" --learn none
    exits 0
    run report --case "$work/bare.yaml" -o "$work/bare.$suffix" --sheet --learn none
    exits 0
done
sound "$work/bare.html"

# Names with markup, quotation marks and right-to-left letters; a note of 2,000 characters.
python3 - >"$work/names.yaml" <<'PYTHON'
note = "The swab <b>did</b> take & \\\"hold\\\"; " * 60
print(f"""mildsolve_case: 1
object:
  title: "</title><script>alert(1)</script> & \\"Ferry\\" 'quoted'"
  number: "<LT>&\\"1\\""
  maker: "\u05d3\u05d5\u05d3 \u05db\u05d4\u05df"
  width_mm: 300
  height_mm: 200
  measured_from: lower left
layers:
  - id: varnish
    name: "\u0648\u0631\u0646\u064a\u0634 <1>"
    kind: varnish
    material: dammar-aged
passages:
  - id: sky
    name: "\u7a7a & \u05e9\u05de\u05d9\u05d9\u05dd"
tests:
  - id: T1
    date: 2025-02-17
    by: "\u05d3\u05db"
    passage: sky
    layer: varnish
    blend: isooctane
    result: removed
    colour_on_swab: original
    note_wet: "{note[:2000]}"
    note_uv: "{'x' * 2000}"
""")
PYTHON
run check "$work/names.yaml"
exits 0
for form in "" --sheet; do
    # shellcheck disable=SC2086 # one word or none
    run report --case "$work/names.yaml" -o "$work/names.html" $form --learn none
    exits 0
    sound "$work/names.html"
    # shellcheck disable=SC2086
    run report --case "$work/names.yaml" -o "$work/names.pdf" $form --learn none
    exits 0
    paper "$work/names.pdf" "595"
    if grep -q "<script\|<b>" "$work/names.html"; then bad "user text is not escaped"; else good; fi
done
run report --case "$work/names.yaml" --learn none
exits 0
narrow
tells "STOP in sky: test T1 with isooctane found original colour on the swab."
tells "No test names a photograph."
report "$work/names.yaml" --learn none
json "'dir' not in a and a['object'] == '<LT>&\"1\"' and len($tables['tests']['rows'][0]['row_note']) > 3000"

# 500 tests: all in the table, the latest in the chart.
python3 - >"$work/many.yaml" <<'PYTHON'
print("mildsolve_case: 1\nobject: {title: Many}\nlayers:\n  - {id: varnish, kind: varnish, material: dammar-aged}\n"
      "  - {id: paint, kind: paint, material: linseed-oil-film-young}\n"
      "goals: {remove: [varnish], spare: [paint]}\nbottles: [{id: isooctane}, {id: propan-2-ol}]\ntests:")
words = ["none", "gloss change", "softened", "partly removed", "removed"]
for i in range(500):
    print(f"  - {{id: T{i + 1}, date: 2025-02-{1 + i // 20:02d}, layer: varnish, "
          f"blend: 'propan-2-ol {1 + i % 97} + isooctane {99 - i % 97}', result: {words[i % 5]}}}")
PYTHON
run report --case "$work/many.yaml" -o "$work/many.html"
exits 0
sound "$work/many.html"
if [ "$(grep -c '<th scope="row">T[0-9]*</th>' "$work/many.html")" -eq 500 ]; then good; else bad "not all tests"; fi
if grep -q "The chart has room for the latest" "$work/many.html"; then good; else bad "the cut of the chart is not told"; fi
# Every row whole, in order, under headings that every page repeats.
run report --case "$work/many.yaml" -o "$work/many.pdf"
exits 0
if command -v pdftotext >/dev/null; then
    paper "$work/many.pdf" "595"
    if [ "$(grep -cE '^ *T[0-9]+ +2025-02-[0-9]+ +propan-2-ol' "$work/paper")" -eq 500 ]; then
        good
    else
        bad "not all tests are on paper"
    fi
    if [ "$(grep -c "Swab tests, in the order of the case (continued)" "$work/paper")" -eq "$(grep -c '^ *Test  *Date' "$work/paper" | awk '{print $1 - 1}')" ]; then
        good
    else
        bad "headings are not repeated"
    fi
fi
run report --case "$work/many.yaml" --sheet
exits 0
tells "The last 6 of 500 tests."
run report --case "$work/many.yaml"
tells "ask for it with --learn all"

# A layer without material: no list, but a report.
sed '/material: dammar-aged/d' "$case" >"$work/unknown.yaml"
run report --case "$work/unknown.yaml" -o "$work/unknown.html" --learn none
exits 0
run report --case "$work/unknown.yaml" --learn none
tells "No list can be given:"
tells "layer 'varnish' has no material yet"

# --- what is wrong with the air is said at once and again where the figures are ---
air() { # air BLEND LIMITS VOLUME CHANGES LOAD HOURS: the report of a day with this blend
    cat >"$work/air.yaml" <<CASE
mildsolve_case: 1
object: {title: Invented picture, width_mm: 400, height_mm: 300}
studio: {limits: $2}
room: {volume_m3: $3, air_changes_per_h: $4}
delivery: {load_ml_per_h: $5, hours_per_day: $6}
decisions:
  - {date: 2025-02-01, by: IW, decision: go on, blend: $1}
CASE
    run report --case "$work/air.yaml" --learn none
    exits 0
}
twice() { # twice TEXT: at a glance and in the section on the air
    if [ "$(tr -s ' \n' '  ' <"$work/out" | grep -oF -- "$1" | wc -l)" -eq 2 ]; then good; else bad "not told twice: $1"; fi
}
air toluene de 12 0.3 120 5
twice "OVER the limits of de: change the plan"
tells "No general ventilation mends it: the near field alone passes the limit."
air "ethyl-lactate 50 + ethanol 50" us-osha 90 3 10 2
twice "The air CANNOT BE JUDGED: a component has no limit in us-osha."
prints "ethyl-lactate   no limit in this"
prints "never zero hazard"
# A short task: the mean of the day is within, the vapour for some minutes is not. Lower flammable limit of n-heptane by
# the tables 0.8 vol%, IDLH 750 ppm (NIOSH): 9.4 % of it.
air n-heptane us-osha 30 1 900 0.25
twice "OVER the fire alarm of 10 % of the lower flammable limit near the work"
air n-heptane us-osha 30 1 440 0.25
twice "OVER a concentration immediately dangerous to life or health (IDLH)"
air ethanol uk 90 0 10 2
twice "Air within the limits of uk, on its assumptions"
tells "No air change: the vapour rises without bound as long as work goes on."
prints "15 min, three times" # the guide of EH40 where it lists no short-term limit

# What --explain adds has no place in a file.
run report --case "$SOURCE_ROOT/examples/demo-case.yaml" --explain -o "$work/explained.html"
exits 2
says "leave out --output"
if [ -e "$work/explained.html" ]; then bad "a file in spite of the refusal"; else good; fi

# --- what a sheet must not invite to ---
# Original colour at a site without a passage: the stop comes first, nothing is to be mixed, and the reason is ladder's.
stopped() { # stopped FILE SITE: a case without passages, a test that worked and one that found original colour
    cat >"$1" <<CASE
mildsolve_case: 1
object: {title: Stopped, width_mm: 300, height_mm: 200, measured_from: lower left}
layers:
  - {id: varnish, kind: varnish, material: dammar-aged}
  - {id: paint, kind: paint, material: linseed-oil-film-young}
bottles: [{id: isooctane}, {id: propan-2-ol}]
goals: {remove: [varnish], spare: [paint]}
tests:
  - {id: T1, date: 2025-02-17, layer: varnish, blend: isooctane, result: removed, colour_on_swab: none}
  - {id: T2, date: 2025-02-17, $2layer: varnish, blend: propan-2-ol 50 + isooctane 50, result: removed, colour_on_swab: original}
CASE
}
stopped "$work/stopped.yaml" ""
run report --case "$work/stopped.yaml" --sheet
exits 0
tells "Take care --------- ! STOP at an unnamed site: test T2 with propan-2-ol 50 + isooctane 50 found original colour on the swab. Task"
tells "Not to be used before the STOP is decided."
tells "removed STOP: original colour"
tells "No next test: original colour was found, and the case names no passage in which it was not."
prints_not "No next test can be proposed"
prints_not "Volume, mL"
run report --case "$work/stopped.yaml" --doubt none
tells "No next test: original colour was found, and the case names no passage in which it was not."
prints_not "Recipe of a batch"
run ladder --case "$work/stopped.yaml"
tells "STOP at an unnamed site: test T2 (propan-2-ol 50 + isooctane 50) found colour"
prints_not "sites below"
stopped "$work/stopped.yaml" "x_mm: 60, y_mm: 72, "
run report --case "$work/stopped.yaml" --sheet --learn none
tells "STOP at the site 60, 72 mm: test T2"
# A blend that found original colour in one passage is not mixed for the others either, before that is decided.
cp "$case" "$work/same.yaml"
printf '  - {id: T6, date: 2025-02-18, passage: cap, layer: varnish, blend: propan-2-ol 30 + isooctane 70, result: removed, colour_on_swab: original}\n' >>"$work/same.yaml"
run report --case "$work/same.yaml" --sheet --learn none
tells "Not to be used before the STOP is decided: test T6 with this blend found colour that is original or may be."
prints_not "Volume, mL"

# What the people of the case must not work with is neither mixed nor tested again, whatever it did.
cat >"$work/people.yaml" <<'CASE'
mildsolve_case: 1
object: {title: People, width_mm: 300, height_mm: 200, measured_from: lower left}
layers:
  - {id: varnish, kind: varnish, material: dammar-aged}
  - {id: paint, kind: paint, material: linseed-oil-film-young}
people: {flags: [pregnancy announced]}
bottles: [{id: toluene}, {id: isooctane}, {id: propan-2-ol}]
goals: {remove: [varnish], spare: [paint]}
tests:
  - {id: T1, date: 2025-02-17, layer: varnish, blend: toluene, result: partly removed, colour_on_swab: none}
CASE
again="Test T1: partly removed, with toluene. Not again while a pregnancy or breastfeeding is announced (toluene); go on with something else."
for form in "" --sheet; do
    # shellcheck disable=SC2086 # one word or none
    run report --case "$work/people.yaml" --doubt none $form
    exits 0
    tells "$again"
    tells "Not to be used while a pregnancy or breastfeeding is announced (toluene)."
    tells "isooctane 100: 10 mL of isooctane."
    prints_not "Volume, mL"
    prints_not "the same test"
done
run ladder --case "$work/people.yaml"
tells "$again"
prints_not "the same test"
run ladder --case "$work/people.yaml" --json
json "a['worked'] is None and a['worked_barred'] == 'T1' and a['rungs'][0]['weaker_than_worked'] is None"
run gentlest --case "$work/people.yaml" --doubt none --components 2 --step 10
tells "$again"
sed -i 's/pregnancy announced/alone/' "$work/people.yaml"
run report --case "$work/people.yaml" --sheet
tells "Test T1: partly removed, with toluene. First the same test at the other sites"
tells "toluene 40 100"
run ladder --case "$work/people.yaml" --json
json "a['worked'] == 'T1' and a['worked_barred'] is None"

# The statements of the label, not those that another one covers.
report "$case" --sheet --learn none
json "[f['statements']['text'] for s in a['sections'] for b in s['blocks'] if b['kind'] == 'facts' for f in [b['facts']] if 'statements' in f] == ['H225, H304, H315, H319, H336, H410']"

# Layers that are planned: their figures with sources, the hazards of their carriers, and who judges the air.
report "$layered"
json "{r['of'] for r in $tables['values']['rows']} >= {'xylenes', 'isoparaffin-c9-c12', 'methoxypropanol', 'ema-copolymer', 'urea-aldehyde-resin', 'hydrogenated-hydrocarbon-resin'}"
json "all(r['sure'] and r['sources'] for r in $tables['values']['rows'])"
json "{int(n) for r in $tables['values']['rows'] for n in r['sources'].strip('[]').split(', ')} <= {r['id'] for r in $tables['sources']['rows']}"
json "any('30 to 40' in r['row_note'] for r in $tables['pairs-1']['rows']) and any('retouching' in r['cite'] for r in $tables['sources']['rows'])"
json "[b['text'].split(':')[0] for s in a['sections'] if s['id'] == 'hazards' for b in s['blocks']][:2] == ['isoparaffin-c9-c12', 'xylenes']"
json "['ask mildsolve exposure' in b['text'] for s in a['sections'] if s['id'] == 'air' for b in s['blocks'] if b['kind'] == 'paragraph'] == [False, True]"
report "$layered" --sheet
json "[s['id'] for s in a['sections']] == ['mix', 'care', 'tests', 'planned', 'air', 'notes'] and all(s['blocks'] for s in a['sections'])"
json "[b['text'].split(':')[0].split(',')[0] for s in a['sections'] if s['id'] == 'planned' for b in s['blocks']] == ['Variant V1', 'V1', 'Variant V2', 'V2', 'Variant V3', 'V3']"
run report --case "$layered" --sheet
tells "Variant V3, from the top down: 4 ema-copolymer 10 % in xylenes, spray; 3 urea-aldehyde-resin;"
tells "! V3: 4 ema-copolymer: lifts something below."
prints_not "Task"

done_testing
