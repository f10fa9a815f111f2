#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"
own="$work/own"
mkdir "$own"

run check
exits 0
prints "no fault found"
run check "$SOURCE_ROOT/data/components.yaml" "$SOURCE_ROOT/data/references.yaml"
exits 0
prints "no fault found"

cat >"$own/components.yaml" <<'YAML'
table: components
components:
  - {id: acetone, hansen: {delta_d: 155, delta_p: 10.4, delta_h: .nan, unit: MPa^0.5}}
  - {id: my-ester, name: mine, famly: ester}
YAML
run check "$own/components.yaml"
exits 1
prints "components.yaml:3:37: component 'acetone', hansen.delta_d: '155': is outside the valid range 0 to 40 MPa^0.5"
prints "components.yaml:3:66: component 'acetone', hansen.delta_h: '.nan': a number is expected"
prints "components.yaml:4:32: component 'my-ester': key 'famly' is not known in a component; did you mean 'family'?"
prints "components.yaml:4:5: component 'my-ester': key 'family' is missing"
prints "4 faults found"
run check --data "$own"
exits 1
prints "4 faults found"
run check "$own/components.yaml" --json
exits 1
json "a['fault_count'] == 4 and len(a['faults']) == 4 and all(f['file'].endswith('/components.yaml') for f in a['faults'])"
json "(a['faults'][0]['line'], a['faults'][0]['column']) == (3, 37)"
json "a['faults'][0]['message'].startswith('component \'acetone\', hansen.delta_d: \'155\': is outside')"

# Every other command stops at the first fault and says where the rest is listed.
run place acetone --data "$own"
exits 2
says "components.yaml:3:37: component 'acetone', hansen.delta_d: '155'"
says "(and 3 more; \`mildsolve check\` lists them)"
silent

printf 'a: &x [1]\nb: *x\n' >"$own/components.yaml"
run check "$own/components.yaml"
exits 1
prints "components.yaml:1:4: anchors"
head -c 300000 /dev/urandom >"$own/components.yaml"
run check "$own/components.yaml"
exits 1
prints "components.yaml:"
prints "1 fault found"
run place acetone --data "$own"
exits 2
says "components.yaml:"
silent
yes '# ten million bytes of nothing' | head -c 10485760 >"$own/components.yaml"
run check "$own/components.yaml"
exits 1
prints "components.yaml:1:1: longer than 4194304 bytes, the most a data file may have"
run solvents --data "$own"
exits 2
says "longer than 4194304 bytes"
silent
: >"$own/components.yaml"
run check "$own/components.yaml"
exits 1
prints "the file is empty"
printf 'table: solvents\n' >"$own/components.yaml"
run check "$own/components.yaml"
exits 1
prints "table: 'solvents': is not known; one of these is expected: references, components"
rm "$own/components.yaml"
printf 'table: components\ncomponents: []\n' >"$own/shop.yaml"
run check --data "$own"
exits 1
prints "this file is never read; the table 'components' is read from components.yaml"
printf 'components:\n  - {id: acetone}\n' >"$own/shop.yaml"
run check --data "$own"
exits 1
prints "shop.yaml:2:3: this file is never read; such rows are read from components.yaml"
rm "$own/shop.yaml"
printf 'id,name\nacetone,mine\n' >"$own/solvents.csv"
run check --data "$own"
exits 1
prints "own: no table is in it"
for command in "place acetone" "solvents acetone" "limits acetone" "materials dammar-aged" "recipe acetone" "drying acetone" \
    "label acetone" "exposure acetone --use 20 --hours 5 --room 85 --air-changes 3" "chart --blend acetone t.svg" \
    "gentlest --case $SOURCE_ROOT/examples/demo-case.yaml" "learn --case $SOURCE_ROOT/examples/demo-case.yaml"; do
    # shellcheck disable=SC2086 # a list of words
    run $command --data "$own"
    exits 2
    silent
    says "own: no table that can be read is in it, so nothing of yours would count; its files are called "
    says "components.yaml, properties.yaml, "
done
rm "$own/solvents.csv"

# What is no code would stand on the label as it is, and the pictogram be lost.
cat >"$own/hazards.yaml" <<'YAML'
table: hazards
hazards:
  - {id: acetone, h_statements: [H225, h319, H999, flammable, H360FD, EUH066], pictograms: [GHS02, flame]}
YAML
run check --data "$own"
exits 1
for value in h319 H999 flammable; do
    prints "hazards.yaml:3:33: hazard row 'acetone', h_statements: '$value': not the code of a hazard statement"
done
prints "hazards.yaml:3:92: hazard row 'acetone', pictograms: 'flame': not a pictogram: GHS01 to GHS09"
prints "4 faults found"
run label acetone --data "$own"
exits 2
says "not the code of a hazard statement"
rm "$own/hazards.yaml"

# Groups of the IARC are four; what is meant may follow.
cat >"$own/hazards.yaml" <<'YAML'
table: hazards
hazards:
  - {id: acetone, iarc_group: 2C}
  - {id: ethanol, iarc_group: "2B (as a mist)"}
YAML
run check --data "$own"
exits 1
prints "hazards.yaml:3:31: hazard row 'acetone', iarc_group: '2C': not a group of the IARC: 1, 2A, 2B or 3"
prints "1 fault found"
rm "$own/hazards.yaml"

# The faults people make most say what to do.
printf 'object:\n  title: A\n' >"$work/c.yaml"
run check "$work/c.yaml"
prints "a case with 'mildsolve_case: 1'"
printf 'mildsolve_case: 1\nobject:\n\ttitle: A\n' >"$work/c.yaml"
run check "$work/c.yaml"
prints "(a tab stands here: indent with spaces)"
printf 'mildsolve_case: 1\nobject:\n  title: A: B\n' >"$work/c.yaml"
run check "$work/c.yaml"
prints "needs quotation marks"
printf 'mildsolve_case: 1\nobject: {title: A, sizes: 3 x 4}\n' >"$work/c.yaml"
run check "$work/c.yaml"
prints "key 'sizes' is not known in an object; known are: title, number, maker"

# What a row names may stand in a table beside the file.
printf 'table: references\nreferences:\n  - {id: 5001, cite: "own note", seen: whole}\n' >"$own/references.yaml"
cat >"$own/components.yaml" <<'YAML'
table: components
components:
  - {id: acetone, hansen: {delta_d: 15.4, delta_p: 10.4, delta_h: 7.0, unit: MPa^0.5, sure: checked, refs: [5001]}}
YAML
run check "$own/components.yaml"
exits 0
prints "no fault found"
mv "$own/components.yaml" "$own/mine.yaml"
run check "$own/mine.yaml"
exits 0
rm "$own/references.yaml"
run check "$own/mine.yaml"
exits 1
prints "5001"

# A name that stands for something else finds nothing.
mkdir "$work/names"
printf 'table: components\ncomponents:\n  - {id: my-acetone, name: acetone, family: ketone}\n  - {id: toluene, synonyms: {en: [ethanol]}}\n' >"$work/names/components.yaml"
run check --data "$work/names"
exits 1
prints "components.yaml:3:5: component 'my-acetone': another row is called 'acetone' too, so this row is not found by that name"
prints "components.yaml:4:5: component 'toluene': another row is called 'ethanol' too"
prints "2 faults found"
run check "$work/names/components.yaml"
exits 1

# The manual's own solvent and own resin do for every answer that it promises.
mkdir "$work/my-data"
python3 - "$SOURCE_ROOT/man/mildsolve-data.5" "$work/my-data" <<'PY'
import re, sys
for block in re.findall(r"^\.Bd .*\n((?:.*\n)*?)^\.Ed", open(sys.argv[1]).read(), re.M):
    table = re.match(r"table: (\w+)\n", block)
    if table:
        open(f"{sys.argv[2]}/{table[1]}.yaml", "w").write(block)
PY
run check --data "$work/my-data"
exits 0
run gentlest --remove studio-resin --spare linseed-oil-film-young --bottles "cymene, isooctane, ethanol" --data "$work/my-data" --doubt none
exits 0
tells "because no film model of it is in the tables"
run gentlest --remove studio-resin --spare linseed-oil-film-young --bottles "cymene, isooctane, ethanol" --data "$work/my-data"
prints_not "than what the list proposes" # the closing example of mildsolve-data(5): there is no list
mkdir "$work/bare"
printf 'table: components\ncomponents:\n  - {id: bare-liquid, name: bare, family: ester}\n' >"$work/bare/components.yaml"
run solvents bare-liquid --data "$work/bare" # headings with nothing below them say nothing
exits 0
if grep -qx -e notes -e sources "$work/out"; then bad "an empty heading"; else good; fi
run solvents acetone --data "$work/bare"
prints "sources"
run place "cymene 60 + ethanol 40" --data "$work/my-data"
exits 0
prints "studio-resin"
run recipe "cymene 60 + ethanol 40" --data "$work/my-data"
exits 0
run label "cymene 60 + ethanol 40" --data "$work/my-data"
exits 0
prints "H304"
run drying "cymene 60 + ethanol 40" --data "$work/my-data"
exits 0
run exposure "cymene 60 + ethanol 40" --use 15 --hours 4 --room 74 --air-changes 3 --limits de --data "$work/my-data"
exits 0
tells "Within the limits of this set"
# Without them it says what to write, and where.
rm "$work/my-data/properties.yaml"
run label "cymene 60 + ethanol 40" --data "$work/my-data"
exits 2
says "no density is known for 'cymene'; put density_20c into your own properties.yaml"
run drying "cymene 60 + ethanol 40" --data "$work/my-data"
exits 2
says "into your own properties.yaml"

# A pipe that nobody writes into is not waited for.
mkfifo "$work/pipe.yaml"
run check "$work/pipe.yaml"
exits 1
prints "pipe.yaml: not an ordinary file; pipes and devices are not read"
run check /dev/null --json
exits 1
json "a['faults'] == [{'file': '/dev/null', 'line': None, 'column': None, 'message': 'not an ordinary file; pipes and devices are not read'}]"
run place acetone --case "$work/pipe.yaml"
exits 2
says "not an ordinary file"

run check "$work/none.yaml"
exits 2
says "none.yaml: cannot open: No such file or directory"
run check "$own"
exits 2
says "is a directory; \`mildsolve check --data"
run check --data "$work/none"
exits 2
says "--data $work/none: no such directory"

done_testing
