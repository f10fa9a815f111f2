#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

run recipe "propan-2-ol 30 + isooctane 70" --volume 40
exits 0
prints "propan-2-ol  12   9.4     30.0       30.0"
prints "isooctane    28  19.4     70.0       70.0"
prints "the shares are met"
narrow

run recipe "propan-2-ol 30 + isooctane 70" --volume 40 --json
exits 0
json "[l['add_ml'] for l in a['lines']] == [12, 28] and a['total_ml'] == 40 and a['step_ml'] == 1"
json "abs(a['shift_percent']) < 1e-9"
json "abs(a['lines'][0]['add_g'] - 12 * 0.785) < 0.05" # density of 2-propanol at 20 degC, CRC handbook: 0.785

# Rounding to the cylinder is said, in share and in place.
run recipe "acetone 1 + toluene 2" --volume 10
exits 0
prints "rounding shifts a share by 3.3 % of the volume"
run recipe "acetone 1 + toluene 2" --volume 10 --json
json "sum(l['add_ml'] for l in a['lines']) == 10 and abs(a['shift_percent'] - (100 / 3 - 30)) < 1e-6"
json "a['shift_ra_mpa05'] > 0.3"
run recipe "acetone 1 + toluene 2" --volume 10 --round 0.1 --json
json "a['lines'][0]['add_ml'] == 3.3"

run recipe "acetone 2 + toluene 98" --volume 10
exits 2
says "50 mL"

# 40 mL of 50:50 become 30:70 with isooctane alone: 20 mL are 30 % of 66.7 mL.
run recipe "propan-2-ol 30 + isooctane 70" --leftover "propan-2-ol 50 + isooctane 50" --leftover-ml 40 --json
exits 0
json "a['lines'][0]['add_ml'] == 0 and a['lines'][1]['add_ml'] == 27 and a['total_ml'] == 67"
run recipe "propan-2-ol 30 + isooctane 70" --leftover "propan-2-ol 50 + isooctane 50" --leftover-ml 40
prints "made from the leftover"
prints "in the jar, mL"
narrow
# What would round to nothing is told as for a fresh batch, with the volume that can be measured.
run recipe "ethanol 99 + toluene 1" --leftover ethanol --leftover-ml 10
exits 2
says "0.1 mL of toluene cannot be measured in steps of 1 mL; make at least 100 mL"
run recipe "ethanol 99 + toluene 1" --leftover ethanol --leftover-ml 10 --volume 100
exits 0
run recipe acetone --leftover toluene --leftover-ml 10
exits 2
says "the leftover holds toluene"
run recipe acetone --leftover toluene
exits 2
says "--leftover needs --leftover-ml"
run recipe acetone --leftover-ml 10
exits 2
says "--leftover-ml needs --leftover"

run recipe acetone --volume 0
exits 2
says "--volume 0 is outside the range"
run recipe acetone --volume 40mL
exits 2
says "--volume '40mL': a number is expected"
run recipe
exits 2
says "needs BLEND"

done_testing
