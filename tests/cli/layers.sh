#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

paint="linseed-oil-film-aged"
isolating="isolating varnish: urea-aldehyde-resin 15 in methoxypropanol, brush, 3 weeks, done"
retouching="retouching: urea-aldehyde-resin in propan-2-ol, brush, 5 d, done"

# Three final varnishes over urea-aldehyde retouching. Published: 30 to 50 % aromatics dissolve it (tests/reference/
# lifting-thresholds.csv); a hydrocarbon without aromatics does not.
run layers --layer "$paint" --layer "$isolating" --layer "$retouching" \
    --layer "varnish: hydrogenated-hydrocarbon-resin 20 in isoparaffin-c9-c12 80 + xylenes 20, spray" \
    --instead "hydrogenated-hydrocarbon-resin 20 in isoparaffin-c9-c12, spray" --instead "ema-copolymer 10 in xylenes, spray"
exits 0
narrow
tells "stack A"
tells "4 on 3: may lift it"
tells "4 on 3: swells it"
tells "4 on 3: lifts it"
tells "that outranks the models"
tells "It comes off only together with layer 2"
run layers --layer "$paint" --layer "$isolating" --layer "$retouching" \
    --layer "varnish: hydrogenated-hydrocarbon-resin 20 in isoparaffin-c9-c12 80 + xylenes 20, spray" \
    --instead "hydrogenated-hydrocarbon-resin 20 in isoparaffin-c9-c12, spray" --instead "ema-copolymer 10 in xylenes, spray" \
    --json
exits 0
json "[s['worst'] for s in a['stacks']] == ['may lift it', 'swells it', 'lifts it']"
json "all(0 <= p['p_dissolves'] <= 1 for s in a['stacks'] for p in s['pairs'] if p['p_dissolves'] is not None)"
json "a['stacks'][1]['later'][0]['blends'][0]['recipe'] == 'white-spirit-dearomatised 100'"
json "all(l['wet_least_s'] < l['wet_most_s'] for s in a['stacks'] for l in s['layers'] if l['planned'])"
json "[p['touches'] for p in a['stacks'][0]['pairs']] == [False, True, True]"

# A published threshold outranks the sphere.
run layers --layer "$paint" --layer "$retouching" \
    --layer "varnish: hydrogenated-hydrocarbon-resin 20 in white-spirit-dearomatised 65 + aromatic-naphtha-c9 35, spray" --now --json
exits 1
json "a['stacks'][0]['pairs'][1]['red_least'] > 1 and a['stacks'][0]['pairs'][1]['touch'] == 'may lift it'"
json "'published-threshold' in a['stacks'][0]['pairs'][1]['reasons']"
json "a['stacks'][0]['pairs'][1]['threshold']['carrier_percent'] >= 35 and a['stacks'][0]['later'] == []"

# The same resin twice.
run layers --layer "$paint" --layer "isolating varnish: dammar-fresh 20 in turpentine, 30 d" --layer "varnish: dammar-fresh 20 in turpentine"
exits 1
tells "The same resin twice"
tells "It comes off only together with layer 2"

# Nothing stands already: paint is taken.
run layers --layer "varnish: dammar-fresh 25 in white-spirit, brush"
says "linseed-oil-film-young is taken as"
tells "dammar-fresh, aged:"
tells "Starts in a weak hydrocarbon"

# No published ageing.
run layers --layer "$paint" --layer "varnish: colophony 25 in white-spirit"
tells "No published data on its ageing were found"

# The layers planned in a case, one stack for each option.
case="$SOURCE_ROOT/examples/layers-case.yaml"
run check "$case"
exits 0
run layers --case "$case" --now --json
exits 0
json "[(s['option'], s['worst']) for s in a['stacks']] == [('V1', 'may lift it'), ('V2', 'swells it'), ('V3', 'lifts it')]"
# Nobody lays rosin as a final varnish; the tables say so, and another resin of unknown ageing comes last.
json "not any(b['material'] in ('colophony', 'ester-gum', 'shellac-fresh', 'sandarac', 'manila-copal', 'petroleum-hydrocarbon-resin', 'terpene-resin') for s in a['stacks'] for b in s['better'])"
json "all([b['kind'] == 'resin' and not b['ageing_known'] for b in s['better']] == sorted(b['kind'] == 'resin' and not b['ageing_known'] for b in s['better']) for s in a['stacks'])"
json "a['stacks'][0]['layers'][0]['id'] == 'paint' and a['stacks'][0]['layers'][3]['id'] == 'final-1'"
run layers --case "$case" --option V2
exits 0
prints_not "stack V1"
prints_not "what would be better"
run layers --case "$case" --option V3
exits 1
tells "another resin, hydrogenated-hydrocarbon-resin in isoparaffin-c9-c12 100: swells it"
# Resins that cross-link or harden with age are nobody's improvement.
run layers --case "$case" --option V1
prints "what would be better"
prints_not "another resin, pnbma"
prints_not "another resin, pibma"
prints_not "another resin, dammar-fresh"
run layers --case "$case" --option V9
exits 2
says "V9"
run layers --case "$SOURCE_ROOT/examples/demo-case.yaml"
exits 2
says "nothing is planned"
sed 's/carrier: xylenes, method: spray/carrier: xylem, method: spray/' "$case" >"$work/bad.yaml"
run layers --case "$work/bad.yaml"
exits 2
says "planned layer 'final-3', carrier:"

# The drawings
run layers --case "$case" --now --section "$work/section.png" --chart "$work/windows.svg"
exits 0
tells "section: $work/section.png"
if [ "$(head -c 4 "$work/section.png")" = "$(printf '\211PNG')" ]; then good; else bad "no PNG"; fi
if grep -q "Mixing rule" "$work/windows.svg"; then good; else bad "the rule of the Teas chart is not named"; fi
if grep -q "GH-3" "$work/windows.svg"; then good; else bad "the object of the case is not named"; fi
for suffix in svg pdf; do
    run layers --case "$case" --now --section "$work/a.$suffix" --grey --size full --json
    json "a['section'] == '$work/a.$suffix' and a['chart'] is None"
    run layers --case "$case" --now --section "$work/b.$suffix" --grey --size full
    if cmp -s "$work/a.$suffix" "$work/b.$suffix"; then good; else bad "the same input gave other bytes"; fi
done
if grep -q "Heavy outline" "$work/a.svg"; then good; else bad "the section does not say what its outlines mean"; fi
run layers --case "$case" --now --title "x"
exits 2
says "ask for one with --chart FILE"
run layers --case "$case" --now --section "$work/missing/x.png"
exits 3
run layers --layer "$paint" --layer "dammar-fresh 10 in xylenes" --layer "pnbma 10 in xylenes" --layer "pvac 10 in ethanol" \
    --layer "shellac-fresh 10 in ethanol" --layer "ema-copolymer 10 in toluene" --layer "dammar-fresh 10 in xylenes" \
    --layer "hydrogenated-hydrocarbon-resin 10 in isooctane" --now --section "$work/eight.png"
narrow

# Bad input, said plainly
run layers
exits 2
says "the stack is empty"
run layers --layer "$paint"
exits 2
says "nothing is put on"
run layers --layer "varnish: dammar-fresh 25 in white-spirit" --layer "dammar-aged"
exits 2
says "has no carrier and lies above one that is still to be put on"
run layers --layer "varnish: damar-frsh 25 in white-spirit"
exits 2
says "nearest: "
run layers --layer "dammar-fresh 25 in whit-spirit"
exits 2
says "carrier"
run layers --layer "dammar-fresh 250 in white-spirit"
exits 2
says "g of resin in 100 mL"
run layers --layer "dammar-fresh 25"
exits 2
says "a percentage needs a carrier"
run layers --layer "$paint" --layer "varnish: shellac-fresh 20 in methanol 50 + n-hexane 50" --now
exits 1
tells "the carrier separates into two liquids"
tells "cannot be judged"
run layers --layer hard-copal --layer "varnish: dammar-fresh 25 in white-spirit" --now
exits 1
tells "only a test can tell"
run layers --layer "$paint" --layer "dammar-fresh in white-spirit" --instead "dammar-fresh"
exits 2
says "--instead"

done_testing
