#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The program finds its tables: beside it when built, under the prefix when installed, the user's on top.
. "$(dirname "$0")/expect.sh"
built=$MILDSOLVE
mkdir -p "$work/usr/bin" "$work/usr/share"
cp "$built" "$work/usr/bin/mildsolve"

MILDSOLVE="$work/usr/bin/mildsolve"
run place acetone
exits 2
says "the tables were not found"
silent
run --help
exits 0

cp -r "$SOURCE_ROOT/data" "$work/usr/share/mildsolve"
run place acetone --json
exits 0
json "a['hansen']['delta_d'] == 15.5"
run check
exits 0
rm "$work/usr/share/mildsolve/hazards.yaml"
run solvents acetone
exits 2
says "hazards.yaml: cannot open"
run recipe acetone
exits 0

MILDSOLVE=$built
mkdir -p "$work/home/.local/share/mildsolve" "$work/one" "$work/two"
row() { printf 'table: components\ncomponents:\n  - {id: acetone, name: %s}\n' "$1"; }
row "home made" >"$work/home/.local/share/mildsolve/components.yaml"
row "first" >"$work/one/components.yaml"
row "second" >"$work/two/components.yaml"
# Without XDG_DATA_HOME it is ~/.local/share; directories named later win.
typed="mildsolve solvents acetone (own tables at home)"
env -u XDG_DATA_HOME HOME="$work/home" "$MILDSOLVE" solvents acetone >"$work/out" 2>"$work/err"
status=$?
exits 0
prints "acetone: home made"
run solvents acetone --data "$work/one" --data "$work/two"
prints "acetone: second"
run solvents acetone --data "$work/two" --data "$work/one"
prints "acetone: first"
run solvents acetone --data "$work/one/components.yaml"
exits 2
says "no such directory"
d="--data $work/one"
# shellcheck disable=SC2086 # a list of words
run solvents acetone $d $d $d $d $d $d $d $d
exits 2
says "more than 8 data directories"

done_testing
