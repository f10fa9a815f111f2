#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

run materials
exits 0
prints "dammar-aged"
prints "shellac-aged                       -     -     -     -     shellac, aged"
narrow
run materials --json
exits 0
json "len(a['materials']) == 36"
json "all((m['sphere']['r0'] is None) == (m['no_region'] is not None) for m in a['materials'])"

run materials dammar-aged
exits 0
prints "Oxidation makes it need more polar blends"
prints "Teas area teas-dammar-aged"
prints "estimate"
prints "sources"
narrow

# Without a published region: says so, and names the careful stand-in.
run materials linseed-oil-film-aged hard-copal
exits 0
prints "no region: "
tells "Careful stand-in: linseed-oil-film-young."
narrow
run place acetone --material "linseed-oil-film-aged, hard-copal"
exits 0
prints "materials without a published region"
tells "Careful stand-in: linseed-oil-film-young."
prints_not "Teas area"
run gentlest --remove dammar-aged --spare linseed-oil-film-aged
exits 2
says "no region is published for this material"
says "The careful stand-in is 'linseed-oil-film-young'."
silent
run gentlest --remove hard-copal
exits 2
says "no region is published for this material"
says "There is no careful stand-in: test."
silent

run materials "gealterter Dammarfirnis"
exits 0
prints "dammar-aged:"
run materials damar-aged
exits 2
says "no material is called 'damar-aged'; nearest: dammar-aged"
silent

mkdir "$work/own"
cat >"$work/own/materials.yaml" <<'YAML'
table: materials
materials:
  - {id: hard-copal, sphere: {delta_d: 18, delta_p: 9, delta_h: 9, r0: 5, unit: MPa^0.5}}
YAML
run materials hard-copal --data "$work/own"
exits 0
prints "yours"
prints_not "no region"

done_testing
