#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

bottles="isooctane, propan-2-ol, ethanol, acetone"
run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "$bottles"
exits 0
prints "why each stands there"
prints "what was left out"
tells "No weaker blend of the same strong liquids"
prints "health and fire"
prints "These are calculations from tables, not tests."
prints_not " safe "
narrow

run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "$bottles" --json
exits 0
json "a['by'] == 'film' and a['proved'] and a['blends'][0]['rank'] == 1"
json "all(b['doubt']['p_works'] >= 0.8 for b in a['blends'])"
json "all('red_remove' in b and b['recipe'] and b['swelling'] > 0 for b in a['blends'])"
json "0 < len(a['weak_but_less_likely']) <= 3 and all(0.4 <= w['p_works'] < 0.8 for w in a['weak_but_less_likely'])"
json "a['evaluated'] == 4 + 6*19 + 4*171 and a['samples'] > 0"
cp "$work/out" "$work/first"
run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "$bottles" --json
if cmp -s "$work/first" "$work/out"; then good; else bad "the same question gave another answer"; fi

run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "$bottles" --explain 1
exits 0
prints "chi_i ="
prints "sources"
run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "$bottles" --explain 40
exits 2
says "--explain 40"

# An alkane alone does nothing to an oxidised triterpenoid varnish: that is an answer, and it is no.
run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "isooctane, n-heptane"
exits 1
prints "No blend of these bottles works"

# Benzyl alcohol plots well and is never proposed of the tool's own accord.
run gentlest --remove dammar-aged --bottles "isooctane, benzyl-alcohol" --json
exits 1
json "a['blends'] == [] and a['removed_by_filter'][0]['bottles'] == 1"
run gentlest --remove dammar-aged --bottles "isooctane, benzyl-alcohol" --allow benzyl-alcohol --doubt none
exits 0
prints "benzyl-alcohol"

run gentlest --remove linseed-oil-film-young --spare linseed-oil-film-young --bottles "$bottles"
exits 1
prints "this layer only swells"

# Pigment takes up nothing: swelling falls by its share. Age is told in words.
run gentlest --remove dammar-aged --bottles propan-2-ol --doubt none --json
plain=$(python3 -c "import json,sys; print(json.load(open(sys.argv[1]))['blends'][0]['swelling'])" "$work/out")
run gentlest --remove dammar-aged --bottles propan-2-ol --doubt none --pigment 0.4 --film-age 160 --json
exits 0
json "abs(a['blends'][0]['swelling'] / $plain - 0.6) < 1e-6 and a['pigment'] == 0.4 and a['film_age_years'] == 160"
run gentlest --remove dammar-aged --bottles "$bottles" --film-age 160 --doubt none
tells "Paint of 160 years is older"
run gentlest --remove dammar-aged --bottles "$bottles" --film-age 2 --pigment 0.3 --doubt none
tells "Paint of 2 years is younger"
tells "Pigment: 30 %"
run gentlest --remove dammar-aged --pigment 1.5
exits 2
says "--pigment"
run gentlest --remove oil-resin-varnish-aged --spare linseed-oil-film-young --bottles "$bottles"
exits 1
tells "oil-resin-varnish-aged is cross-linked: this layer only swells"
tells "there is no window"
run gentlest --remove oil-resin-varnish-aged --spare linseed-oil-film-young --by red
exits 2
says "stand-in is 'linseed-oil-film-young'"
run gentlest --remove shellac-aged
exits 2
says "stand-in is 'shellac-fresh'"
# What has no film is spared by its sphere, beside a paint that has one.
run gentlest --remove dammar-aged --spare beeswax --bottles "$bottles"
exits 2
says "--by red"
run gentlest --remove dammar-aged --spare "beeswax, linseed-oil-film-young" --bottles "$bottles, toluene" --doubt none
exits 0
tells "beeswax has no film model"
run gentlest --remove dammar-aged --spare "beeswax, linseed-oil-film-young" --bottles "$bottles, toluene" --json
cp "$work/out" "$work/list"
for recipe in $(python3 -c "import json,sys
for b in json.load(open(sys.argv[1]))['blends']: print(b['recipe'].replace(' ', '_'))" "$work/list"); do
    run place "$(echo "$recipe" | tr _ ' ')" --json
    json "[m['red'] for m in a['materials'] if m['id'] == 'beeswax'][0] >= 1"
done
run gentlest --remove hard-copal
exits 2
says "no region is published"
run gentlest
exits 2
says "--remove is missing"
run gentlest --remove dammar-aged --by moonlight
exits 2
says "film, red"
run gentlest --remove dammar-aged --doubt some
exits 2
run gentlest --remove dammar-aged --prefer fire --bottles "$bottles" --doubt none
exits 0
run gentlest --remove dammar-aged --bottles "$bottles" --by red
exits 0
prints "RED varnish"
run gentlest --remove dammar-aged --bottles "$bottles" --doubt none --sensitive "wax-lining, red-lake glaze"
exits 0
prints "wax or wax-resin lining"
tells "touched by the blends of rows:"
run gentlest --remove dammar-aged --bottles "isooctane, propan-2-ol, toluene" --sensitive "bituminous-brown" --json
exits 0
json "1 not in a['sensitive_passages'][0]['touched_by_ranks']"
json "1 in a['sensitive_passages'][0]['touched_by_weakest_of_ranks']"
run gentlest --remove dammar-aged --bottles "isooctane, propan-2-ol, toluene, acetone" --doubt full --json
exits 0
json "a['samples'] >= 256 and a['candidates'] >= 200 and a['cases_at_ends'] >= 15 and a['sampling_error'] <= 0.04"
run gentlest --remove dammar-aged --bottles "$bottles" --sensitive nonsense
exits 2
says "nonsense"
run gentlest --remove dammar-aged --bottles "$bottles" --doubt none --residue-most short --json
exits 0
json "all(b['residue'] == 'short' for b in a['blends'])"
json "[f['blends'] for f in a['removed_by_filter'] if f['filter'] == 'residue'][0] > 0"
run gentlest --remove dammar-aged --bottles "$bottles" --doubt none --flash-least 60
exits 1
prints "kept out by a filter"


# What a row says of its blend is what `place` says of it: for every row, and for the weakest named beside it.
for doubt in none quick; do
    run gentlest --remove dammar-aged --spare linseed-oil-film-young --json --doubt "$doubt" \
        --bottles "isooctane, white-spirit, propan-2-ol, acetone, ethyl-acetate" --every-set
    exits 0
    cp "$work/out" "$work/list"
    rows=$(python3 -c "import json,sys; print(len(json.load(open(sys.argv[1]))['blends']))" "$work/list")
    if [ "$rows" -ge 3 ]; then good; else bad "only $rows rows"; fi
    row=0
    while [ "$row" -lt "$rows" ]; do
        get="import json,sys; b=json.load(open(sys.argv[1]))['blends'][$row]; print(b[sys.argv[2]])"
        run place "$(python3 -c "$get" "$work/list" recipe)" --json
        red=$(python3 -c "$get" "$work/list" red_remove)
        json "abs([m['red'] for m in a['materials'] if m['id'] == 'dammar-aged'][0] - $red) < 1e-4"
        row=$((row + 1))
    done
done

# The window as a chart: numbers as in the list, the same bytes for the same input.
for suffix in png svg pdf; do
    run gentlest --remove dammar-aged --bottles "$bottles" --chart "$work/window.$suffix" --grey --object "LK-14"
    exits 0
    tells "chart: $work/window.$suffix"
    cp "$work/window.$suffix" "$work/first"
    run gentlest --remove dammar-aged --bottles "$bottles" --chart "$work/window.$suffix" --grey --object "LK-14" --json
    exits 0
    json "a['chart'] == '$work/window.$suffix' and a['seed'] == 1"
    if cmp -s "$work/first" "$work/window.$suffix"; then good; else bad "the same input gave another chart"; fi
done
run gentlest --remove dammar-aged --bottles "$bottles" --chart "$work/window.svg" --seed 3 --json
for words in "10 to 90 % of 64 samples" "$(python3 -c "import json,sys; print(json.load(open(sys.argv[1]))['candidates'])" \
    "$work/out") candidates sampled, seed 3"; do
    if grep -qF "$words" "$work/window.svg"; then good; else bad "the chart doesn't say: $words"; fi
done
run gentlest --remove dammar-aged --bottles "$bottles" --chart "$work/x.png" --doubt none
exits 2
says "--doubt quick"
run gentlest --remove dammar-aged --bottles "$bottles" --chart "$work/x.png" --by red
exits 2
says "by red has none"
run gentlest --remove dammar-aged --bottles "$bottles" --grey
exits 2
says "ask for one with --chart FILE"
run gentlest --remove dammar-aged --bottles "$bottles" --chart "$work/missing/x.png"
exits 3
run gentlest --remove dammar-aged --bottles "$bottles" --seed 7 --json
exits 0
json "a['seed'] == 7"

# A bottle that splits is said to, also where only distances count.
run gentlest --remove dammar-aged --spare linseed-oil-film-young --by red --json \
    --bottles "ethanol-70, isooctane, acetone" --every-set --explain 1
exits 0
says "--explain does nothing with --by red"
json "all(b['phase'] != 'two' for b in a['blends'])"
json "[f['sets'] for f in a['removed_by_filter'] if f['filter'] == 'two liquids in the bottle'][0] > 0"
json "all(('look before use' in b['reason']) == (b['phase'] == 'may-separate') for b in a['blends'])"
run gentlest --remove dammar-aged --bottles "toluene, isooctane" --without aromatic
exits 1
tells "The filter that took most from the shelf: aromatic (toluene)"

# What is asked of a row holds for the blend that its tests begin with, whose liquids stand under health and fire.
run gentlest --remove dammar-aged --spare linseed-oil-film-young --flash-least 21 --step 10 --json
exits 0
json "all(b['weakest'] is None or not b['weakest'] or b['weakest']['flash_point_c'] >= 21 for b in a['blends'])"
run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "white-spirit,propan-2-ol" --prefer health --json
exits 0
json "all(any(c['id'] == 'white-spirit' for c in a['components']) for b in a['blends'] if b['weakest'] and 'white-spirit' in b['weakest']['recipe'])"
run gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles "isooctane,propan-2-ol" --doubt none
exits 0
prints_not "0.00"
# What swells only as alkanes make everything swell does not come off.
run gentlest --remove linseed-oil-film-young --spare dammar-aged --bottles "white-spirit,isododecane,isooctane"
exits 1

done_testing
