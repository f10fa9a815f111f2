#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

run drying "ethanol 30 + toluene 70"
exits 0
prints "nothing strong remains"
narrow
run drying "ethanol 30 + toluene 70" --json
exits 0
json "a['path'][0]['evaporated'] == 0 and abs(sum(a['path'][50]['composition'].values()) - 1) < 1e-9"
json "a['path'][-1]['evaporated'] > 0.99 and a['tail']['toluene'] > 0.99"
json "all(p['evaporated'] < q['evaporated'] and p['relative_time'] < q['relative_time'] for p, q in zip(a['path'], a['path'][1:]))"
run drying "acetone 50 + benzyl-alcohol 50"
exits 0
prints "slow, strong tail"
run drying acetone
exits 0
run drying "diethyl-ether 50 + glycerol 50"
exits 0
run drying "ethanol 1 + water 0.000001"
exits 0
run drying acetone --temperature 80
exits 2
says "5 to 35"
run drying "acetic-acid 50 + pyridine 50"
exits 2
says "acetic-acid"

# Names too long for headings: numbered columns.
run drying "ethanol-denatured-common 30 + white-spirit 40 + dipropylene-glycol-methyl-ether 30"
exits 0
narrow
tells "columns: 1 = ethanol, 2 = water,"
run drying "ethanol 30 + toluene 70"
prints_not "columns:"

# The chart
run drying "ethanol 30 + toluene 70" --chart "$work/dry.png" --material dammar-aged --object "LK-14"
exits 0
prints "chart: $work/dry.png"
if [ "$(head -c 4 "$work/dry.png")" = "$(printf '\211PNG')" ]; then good; else bad "no PNG"; fi
for suffix in svg pdf; do
    run drying "ethanol-96 40 + white-spirit 60" --chart "$work/dry.$suffix" --rule hansen --size full --grey
    exits 0
    cp "$work/dry.$suffix" "$work/first"
    run drying "ethanol-96 40 + white-spirit 60" --chart "$work/dry.$suffix" --rule hansen --size full --grey --json
    json "a['chart'] == '$work/dry.$suffix'"
    if cmp -s "$work/first" "$work/dry.$suffix"; then good; else bad "the same input gave other bytes"; fi
done
if grep -q "Mixing rule: fractions of the mean Hansen parameters" "$work/dry.svg"; then good; else bad "the rule is not named"; fi
run drying acetone --chart "$work/one.png"
exits 0
run drying acetone --chart "$work/x.png" --rule hansen --material dammar-aged
exits 2
says "never"
run drying acetone --material dammar-aged
exits 2
says "ask for one with --chart FILE"
run drying acetone --chart "$work/missing/x.png"
exits 3

done_testing
