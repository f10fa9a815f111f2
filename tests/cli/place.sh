#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

run place "toluene 75 + acetone 25"
exits 0
prints "fd 72, fp 13, fh 15" # Burke 1984 (from memory): volume mean of fractions, 71.75/13.25/15.00
prints "volume mean of published fractions"
prints "fractions of the mean Hansen parameters"
narrow

run place "toluene 75 + acetone 25" --json
exits 0
json "abs(a['hansen']['delta_d'] - (0.75*18.0 + 0.25*15.5)) < 1e-9"
json "abs(a['teas']['mean_of_fractions']['fd'] - 71.75) < 1e-9"
json "abs(sum(a['teas']['of_mean_hansen'].values()) - 100) < 1e-6"
json "any(m['id'] == 'dammar-aged' and m['red'] > 1 for m in a['materials'])"
json "any(m['id'] == 'linseed-oil-film-aged' and m['red'] is None and m['substitute'] for m in a['materials'])"

# Film figures of an independent implementation (modified UNIFAC on both sides, tests/reference/film-checks.csv): within 1 %.
run place "ethanol 10 + isooctane 90" --json
exits 0
json "abs([m for m in a['materials'] if m['id'] == 'alkyd-short-oil'][0]['swelling'] / 0.3740 - 1) < 0.01"
json "abs([m for m in a['materials'] if m['id'] == 'dammar-aged'][0]['swelling'] / 5.549 - 1) < 0.05"
json "[m for m in a['materials'] if m['id'] == 'dammar-aged'][0]['dissolves'] is False"
json "[m for m in a['materials'] if m['id'] == 'alkyd-short-oil'][0]['swelling_status'] == 'bounded'"
json "[m for m in a['materials'] if m['id'] == 'hard-copal'][0]['swelling_status'] == 'no-region'"
json "a['phase']['verdict'] in ('one', 'may-separate')"
run place "ethanol 15 + isooctane 85" --json
json "[m for m in a['materials'] if m['id'] == 'dammar-aged'][0]['dissolves'] is True"
json "[m for m in a['materials'] if m['id'] == 'dammar-aged'][0]['swelling_status'] == 'without-limit'"
run place "ethanol 15 + isooctane 85"
prints "activities (1 = as strong as neat): ethanol 0.90, isooctane 0.95"
narrow

# The water a blend bears, and the two liquids of one that splits.
run place "ethanol-96 30 + isooctane 70" --json
json "a['phase']['verdict'] == 'two' and len(a['phase']['liquids']) == 2"
json "abs(sum(l['volume_percent_of_all'] for l in a['phase']['liquids']) - 100) < 1e-6"
json "abs(sum(l['volume_percent_of_all'] * l['composition_volume_percent']['water'] / 100 for l in a['phase']['liquids']) - 1.2) < 0.01"
json "a['cloud_water']['sure_percent'] <= 1.2 + 1e-9 and a['cloud_water']['present_percent'] > 1.19"
run place "propan-2-ol 50 + isooctane 50" --json
json "a['phase']['liquids'] == [] and 0 < a['cloud_water']['first_percent'] < a['cloud_water']['sure_percent'] < 20"
run place "propan-2-ol 50 + isooctane 50"
prints "  water: "
narrow
run place "toluene 50 + isooctane 50" --json
json "a['cloud_water'] is None"
run place water --json
json "a['cloud_water'] is None"
exits 0

run place "tolune 75 + acetone 25"
exits 2
says "toluene"
silent

run place
exits 2
says "needs BLEND"

run place toluene 75
exits 2
says "quotation marks"

run place acetone --material dammar-agd
exits 2
says "dammar-aged"

run place acetone --frobnicate
exits 2
says "--frobnicate"

# Which white spirit is meant is said, where the name alone does not tell.
run place "white spirit 50 + acetone 50" --material dammar-aged
tells "white-spirit: Taken as the grade with 17 to 20 % aromatics."
run place "white-spirit-dearomatised 50 + acetone 50" --material dammar-aged
prints_not "Taken as the grade"
run place "white-spirit 50 + acetone 50" --material dammar-aged --json
json "[bool(c['grade']) for c in a['components']] == [True, False]"
run solvents "white spirit"
tells "Taken as the grade with 17 to 20 % aromatics."

run place "ethylbenzene 50 + toluene 50" --material dammar-aged
tells "ethylbenzene: IARC group 2B, possibly carcinogenic to humans;"
prints_not "toluene: IARC" # group 3: not classifiable

# A published list outranks the film model: butyl acetate dissolves aged dammar by the model, by the list it does not.
run place "n-butyl-acetate" --json
exits 0
json "[m['dissolves'] and m['published_outside'] for m in a['materials'] if m['id'] == 'dammar-aged'] == [True]"
json "[m['published_class'] for m in a['materials'] if m['id'] == 'linseed-oil-film-young'] == ['moderate']"
run place "n-butyl-acetate"
tells "dammar-aged: film and list disagree"
run place benzyl-alcohol
tells "linseed-oil-film-young: the class of neat benzyl-alcohol is 'high' (memory)"
done_testing
