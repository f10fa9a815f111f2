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

done_testing
