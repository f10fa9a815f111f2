#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

run solvents
exits 0
prints "isooctane"
prints "ethanol-96"
narrow
run solvents --json
exits 0
json "len(a['solvents']) == 88"
json "all(s['hansen'] is None or s['hansen']['unit'] == 'MPa^0.5' for s in a['solvents'])"

run solvents acetone "white spirit" ethanol-96
exits 0
prints "acetone: acetone, CAS 67-64-1, ketone"
prints "white-spirit:"
prints "bottle ethanol-96"
prints "from memory"
prints "sources"
narrow

run solvents 67-64-1 --json
exits 0
json "a['solvents'][0]['id'] == 'acetone'"
# C. M. Hansen's handbook values of acetone, read in three tables: 15.5/10.4/7.0.
json "[a['solvents'][0]['hansen'][k] for k in ('delta_d', 'delta_p', 'delta_h')] == [15.5, 10.4, 7]"
json "set(a['solvents'][0]['hansen']['source']['refs']) <= {r['id'] for r in a['references']}"
json "a['solvents'][0]['flash_point']['unit'] == 'degC' and a['solvents'][0]['flash_point']['cup'] == 'closed'"

run solvents Isopropylalkohol
exits 0
prints "propan-2-ol"
run solvents isopropanl
exits 2
says "nearest: propan-2-ol"
silent

# The user's own values are marked as theirs, in both outputs.
mkdir "$work/own"
cat >"$work/own/components.yaml" <<'YAML'
table: components
components:
  - {id: acetone, hansen: {delta_d: 15.6, delta_p: 10.4, delta_h: 7.0, unit: MPa^0.5, refs: [5000]}}
  - {id: my-cut, name: light cut, family: petroleum-cut, hildebrand: {value: 15, unit: MPa^0.5, sure: estimate}}
YAML
cat >"$work/own/references.yaml" <<'YAML'
table: references
references:
  - {id: 5000, cite: "own notebook, p. 12", seen: own}
YAML
run solvents acetone my-cut --data "$work/own"
exits 0
tells "delta_d 15.6 MPa^0.5 yours [5000]"
prints "my-cut: light cut, CAS not known, petroleum-cut, yours"
prints "yours, estimate"
tells "own notebook, p. 12 (seen: own; yours)"
run solvents acetone my-cut --data "$work/own" --json
json "a['solvents'][0]['hansen']['source']['yours'] is True and a['solvents'][0]['yours'] is False"
json "a['solvents'][0]['teas']['source']['yours'] is False and a['solvents'][1]['yours'] is True"
# One value of a hazard row is the user's; the rest of the row, and its source, stay ours.
printf 'table: hazards\nversion: "1"\nabout: own\nhazards:\n  - {id: acetone, gloves_resistant: [my glove]}\n' >"$work/own/hazards.yaml"
run solvents acetone --data "$work/own"
tells "Gloves that last longest: my glove."
tells "From your own tables: gloves_resistant."
run place "acetone 50 + my-cut 50" --data "$work/own"
exits 0
tells "no Hansen split is published for 'my-cut'"
XDG_DATA_HOME="$work" run solvents my-cut
exits 2
mv "$work/own" "$work/mildsolve"
XDG_DATA_HOME="$work" run solvents my-cut
exits 0
prints "yours"

done_testing
