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

# meson install puts everything in place, and what is installed works from there.
build=$(dirname "$built")
typed="meson install"
if DESTDIR="$work/dest" meson install -C "$build" --no-rebuild >"$work/out" 2>"$work/err"; then good; else bad "it failed"; fi
prefix=$(cd "$work/dest" && find . -name mildsolve -path '*/bin/*' | sed 's,/bin/mildsolve$,,')
prefix="$work/dest/$prefix"
MILDSOLVE="$prefix/bin/mildsolve"
run place acetone --json
exits 0
json "a['hansen']['delta_d'] == 15.5"
run chart "$work/installed.png" --blend "ethanol 30 + toluene 70"
exits 0
run place acetone --language de
exits 0
for file in share/mildsolve/components.yaml share/man/man1/mildsolve.1 share/man/man1/mildsolve-gentlest.1 \
    share/man/man5/mildsolve-case.5 share/man/man7/mildsolve-models.7 share/bash-completion/completions/mildsolve \
    share/zsh/site-functions/_mildsolve share/fish/vendor_completions.d/mildsolve.fish \
    share/locale/fr/LC_MESSAGES/mildsolve.mo share/doc/mildsolve/examples/demo-case.yaml; do
    if [ -s "$prefix/$file" ]; then good; else bad "$file is not installed"; fi
done
for table in "$SOURCE_ROOT"/data/*.yaml; do
    if cmp -s "$table" "$prefix/share/mildsolve/$(basename "$table")"; then good; else bad "$table is not installed"; fi
done
if [ -e "$prefix/share/mildsolve/po" ] || [ -e "$prefix/share/mildsolve/completions" ]; then bad "too much is installed"; fi

done_testing
