#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# From the first swab to the final blend, on the demo case without its tests: ask the ladder, make the test, note the
# result, ask again. The results are those of an invented varnish. Run it after `examples/first-run.sh`.
set -eu
here=$(cd "$(dirname "$0")" && pwd)
mildsolve=${MILDSOLVE:-$here/../build/mildsolve}
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cd "$folder"
sed '/^tests:/,$d' "$here/demo-case.yaml" >case.yaml
x=48

next() { # the first row of the ladder
    echo
    echo "\$ mildsolve ladder --case case.yaml"
    "$mildsolve" ladder --case case.yaml --date 2025-02-17 --show 1 2>/dev/null | sed -n '/^next/,/^  Direction/p'
}

note() { # note BLEND RESULT [PASSAGE Y]: the next place of a row of swabs
    echo "\$ mildsolve record --case case.yaml --passage ${3:-sky} --site $x,${4:-372} --blend \"$1\" --contact 20" \
        "--rolls 6 --result \"$2\" --layer varnish --colour-on-swab none"
    "$mildsolve" record --case case.yaml --passage "${3:-sky}" --site "$x,${4:-372}" --blend "$1" --contact 20 --rolls 6 \
        --result "$2" --layer varnish --colour-on-swab none --date 2025-02-17 2>/dev/null
    x=$((x + 12))
}

next
note "isooctane" none
next
note "propan-2-ol 10 + isooctane 90" none
next
note "propan-2-ol 20 + isooctane 80" "gloss change"
next
note "propan-2-ol 30 + isooctane 70" softened
next
note "propan-2-ol 40 + isooctane 60" removed
echo
echo "# It works in the light passage: now the dark and sensitive ones, each from the weak liquid up."
echo "\$ mildsolve ladder --case case.yaml"
"$mildsolve" ladder --case case.yaml --date 2025-02-17 --show 1 2>/dev/null | sed -n '/^Test/,/^$/p; /^where/,/^$/p'
x=180
note "isooctane" none ferry 120
note "propan-2-ol 10 + isooctane 90" none ferry 120
note "propan-2-ol 20 + isooctane 80" softened ferry 120
note "propan-2-ol 30 + isooctane 70" "partly removed" ferry 120
echo
echo "\$ mildsolve learn --case case.yaml"
"$mildsolve" learn --case case.yaml 2>/dev/null | head -n 24
echo
echo "\$ mildsolve gentlest --case case.yaml --date 2025-02-17 --show 3"
"$mildsolve" gentlest --case case.yaml --date 2025-02-17 --show 3 2>/dev/null | sed '/^why/,$d'
