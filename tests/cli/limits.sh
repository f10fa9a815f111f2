#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

run limits toluene
exits 0
# As printed: 29 CFR 1910.1000 Table Z-2 (200 ppm, ceiling 300), NIOSH (100 ppm, 375 mg/m3), directive 2006/15/EC.
tells "us-osha twa-8h 200 - 1994 checked"
tells "us-niosh twa-10h 100 375 1994 checked"
tells "eu twa-8h 50 192 2006 checked; skin"
prints "sources"
tells "local law and the supplier's safety data sheet win."
narrow

run limits toluene --limits eu --json
exits 0
json "[(l['kind'], l['ppm'], l['mg_m3']) for l in a['limits']] == [('twa-8h', 50, 192), ('stel-15min', 100, 384)]"
json "all(l['authority'] == 'eu' and 'skin' in l['notations'] for l in a['limits'])"
json "len(a['authorities']) == 6"
json "{r for l in a['limits'] for r in l['source']['refs']} <= {r['id'] for r in a['references']}"

run limits acetone ethanol --limits uk
exits 0
prints "acetone"
prints "ethanol"
prints_not "us-osha"

run limits
exits 0
narrow
run limits --json
json "len(a['limits']) > 400"

# No limit is said, and is no hint of harmlessness.
run limits decamethylcyclopentasiloxane --limits eu
exits 0
tells "No limit is known in these tables. That is never a sign that there is no hazard."

run limits tolune
exits 2
says "nearest: toluene"
silent
run limits toluene --limits strictest
exits 2
says "one of these is expected: us-osha, us-niosh, us-epa, eu, uk, de"

# The user's own limit replaces the row whole and is marked.
mkdir "$work/own"
cat >"$work/own/limits.yaml" <<'YAML'
table: limits
limits:
  - {component: toluene, authority: eu, kind: twa-8h, mg_m3: 50}
YAML
run limits toluene --limits eu --data "$work/own"
exits 0
tells "eu twa-8h - 50 - yours"
run exposure toluene --use 20 --hours 5 --room 85 --air-changes 3 --limits eu --data "$work/own" --json
json "[l['limit_mg_m3'] for l in a['components'][0]['limits'] if l['kind'] == 'twa-8h'] == [50]"

done_testing
