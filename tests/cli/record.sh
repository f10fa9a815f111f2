#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# record: tests are added, nothing else is changed, and whatever is wrong is said and leaves the file as it was.
. "$(dirname "$0")/expect.sh"
: "${FAILING_CALLS:?}"
export ASAN_OPTIONS="${ASAN_OPTIONS:-}:verify_asan_link_order=0"

demo="$SOURCE_ROOT/examples/demo-case.yaml"
cd "$work" || exit 1
case=case.yaml # a short name, so that no line wraps inside it

fresh() { cp "$demo" "$case"; }
unchanged() { if cmp -s "$demo" "$case"; then good; else bad "the case was changed"; fi; }
alone() { # nothing is left beside the case
    left=$(cd "$work" && ls -A | grep -v -x -e case.yaml -e out -e err -e 'table.*' -e link.yaml | tr '\n' ' ')
    if [ -z "$left" ]; then good; else bad "left behind: $left"; fi
}
added_only() { # every line of the case stands as it stood, in its place
    if diff "$demo" "$case" | grep -q '^[<-]'; then bad "a line of the user was changed"; else good; fi
}
note() { run record --case "$case" --passage sky --site 96,372 --result softened --date 2025-02-19 "$@"; }

# --- a test is noted ---

fresh
note --blend "propan-2-ol 20 + isooctane 80" --contact 20 --rolls 6 --layer varnish --colour-on-swab "varnish tint" \
    --blanching "wet only" --wet 'milky: "a # b" — ⟨é⟩' --photo 0217 --by IW
exits 0
prints "T6 noted in"
prints "lower left"
prints_not "STOP"
narrow
added_only
alone
run check "$case" --date 2025-02-20
exits 0
run record --case "$case" --export -
prints 'T6,2025-02-19,IW,sky,96,372,varnish,propan-2-ol 20 + isooctane 80,swab through tissue,,20,6,softened,varnish tint,wet only,,"milky: ""a # b"" — ⟨é⟩",,,,0217,,,,'

fresh
note --blend "acetone" --delivery microfibre --json
exits 0
json "a == {'case': a['case'], 'noted': ['T6'], 'tests': 6, 'stop': False}"
note --blend "acetone" --id A1 --json
json "a['noted'] == ['A1'] and a['tests'] == 7"
note --blend "acetone" --json
json "a['noted'] == ['T7']"
note --blend "ethanol-96-denatured 10 + isooctane 90" # a bottle of the case
exits 0
says "note: T7 was made on the same spot"
fresh
note --blend "acetone"
if grep -q "same spot" "$work/err"; then bad "a spot nobody tested is told"; else good; fi

# Words are those of the list; hyphens and capitals are forgiven.
fresh
run record --case "$case" --passage sky --blend isooctane --result Partly-removed --date 2025-02-19
exits 0
run record --case "$case" --export -
prints "partly removed"

# --- original colour: stop ---

for colour in original unsure; do
    fresh
    note --blend acetone --colour-on-swab $colour
    exits 0
    prints "STOP."
    added_only
    note --blend acetone --colour-on-swab $colour --json
    json "a['stop'] is True"
    run check "$case" --date 2025-02-20
    exits 0
    prints "STOP in passage 'sky'"
done
note --blend isooctane
says "T6 had found original colour in passage sky"

# --- undo keeps history; amend adds what is known later ---

fresh
note --blend acetone
run record --case "$case" --amend T6 --next-day "no change" --uv "even"
exits 0
added_only
run record --case "$case" --amend T6 --next-day "something else"
exits 2
says "'note_next_day' stands here already"
run record --case "$case" --amend T9 --uv x
exits 2
says "has no test 'T9'; the last one is T6"
run record --case "$case" --undo --because "wrong bottle" --by IW --date 2025-02-20
exits 0
prints "T6 in $case is marked as withdrawn on 2025-02-20"
tells "It was: acetone, softened. Another --undo withdraws the test before it."
prints_not "No reason is noted"
added_only
run record --case "$case" --export -
prints "acetone,swab through tissue,,,,softened,,,,,,no change,even,,true,2025-02-20,IW,wrong bottle"
run record --case "$case" --undo --date 2025-02-20 # the one before
prints "T5 in"
prints "No reason is noted; put withdrawn_because beside it in the file."
for i in 1 2 3 4; do run record --case "$case" --undo --date 2025-02-20; done
exits 0
cp "$case" "$work/table.before"
run record --case "$case" --undo --date 2025-02-20
exits 1
says "no test stands that could be withdrawn"
if cmp -s "$work/table.before" "$case"; then good; else bad "the case was changed"; fi
note --blend acetone # numbers are not given twice
prints "T7 noted"

# --- what is typed wrong ---

fresh
note --blend isoctane
exits 2
says "nothing was noted: test 'T6', blend: no solvent or bottle is called 'isoctane'; nearest: isooctane"
silent
run record --case "$case" --passage sky --blend acetone --result goen
exits 2
says "result: 'goen': one of these is expected: none, gloss change, softened, partly removed, removed"
run record --case "$case" --passage skyy --blend acetone --result none
exits 2
says "this case has no passage 'skyy'; nearest: 'sky'"
run record --case "$case" --site 521,10 --blend acetone --result none
exits 2
says "521 mm is outside the picture, which is 520 mm wide"
run record --case "$case" --site 52,411 --blend acetone --result none
exits 2
says "411 mm is outside the picture, which is 410 mm high"
run record --case "$case" --site 52 --blend acetone --result none
exits 2
says "two numbers are expected"
run record --case "$case" --site 52,5,3 --blend acetone --result none
exits 2
run record --case "$case" --passage sky --blend acetone --result none --date 9999-01-01
exits 2
says "--date 9999-01-01 lies in the future: today is"
run record --case "$case" --passage sky --blend acetone --result none --date 19.2.2025
exits 2
says "a date is expected, year-month-day"
note --blend acetone --colour-on-swab blue
exits 2
says "not looked, none, varnish tint, overpaint, original, unsure"
note --blend acetone --blanching some
exits 2
says "not looked, none, wet only, after drying"
note --blend acetone --delivery brush
exits 2
says "swab, swab through tissue, gel, microfibre"
note --blend acetone --rolls 2,5
exits 2
note --blend acetone --id T3
exits 2
says "test 'T3' stands in $case already"
note --blend acetone --wet "$(printf 'a\033[31mb')"
exits 2
says "control character U+001B"
note --blend acetone --wet "$(printf 'a\377b')"
exits 2
says "not valid UTF-8"
run record --case "$case" --blend acetone --result none
exits 2
says "--site is missing"
run record --case "$case" --passage sky --result none
exits 2
says "--blend is missing"
run record --case "$case" --passage sky --blend acetone
exits 2
says "--result is missing"
run record --passage sky --blend acetone --result none
exits 2
says "--case is missing"
run record --case "$case" --undo --blend acetone
exits 2
says "exclude each other"
run record --case "$case" --undo --import "$work/table.csv"
exits 2
says "exclude each other"
run record --case "$case" --amend T5
exits 2
says "--amend needs what is to be added"
run record --case "$work/none.yaml" --passage sky --blend acetone --result none
exits 2
says "none.yaml"
run record --case "$work" --passage sky --blend acetone --result none
exits 3
unchanged
alone

# The clock can be held still.
SOURCE_DATE_EPOCH=1740000000 run record --case "$case" --passage sky --blend acetone --result none
exits 0
prints "2025-02-19" # date -u -d @1740000000
fresh
SOURCE_DATE_EPOCH=1738000000 run record --case "$case" --passage sky --blend acetone --result none
exits 2
says "lies in the future: today is 2025-01-27"
SOURCE_DATE_EPOCH=soon run record --case "$case" --passage sky --blend acetone --result none
exits 2
says "SOURCE_DATE_EPOCH"
unchanged

# --- files that are not right ---

broken() { # broken TEXT WORDS: record refuses and leaves the file alone
    printf '%s' "$1" >"$case"
    cp "$case" "$work/table.before"
    run record --case "$case" --site 1,1 --blend acetone --result none --date 2025-02-19
    exits 2
    says "$2"
    silent
    if cmp -s "$work/table.before" "$case"; then good; else bad "the case was changed"; fi
    alone
}
broken "" "is empty"
broken "mildsolve_case: 1
object:
  title: \"half ty" "not valid YAML"
broken "mildsolve_case: 1
object: {title: t
tests: []
" "not valid YAML"
broken "mildsolve_case: 2
object: {title: t}
" "$case:1:17: this case was written for a newer mildsolve (case version 2; this program knows version 1)"
broken "mildsolve_case: 1
object: {title: t}
tests: [{id: T1, date: 2025-02-02, blend: acetone, result: goen}]
" "$case:3:60: test 'T1', result: 'goen'"
broken "mildsolve_case: 1
object: {title: t}
test: []
" "key 'test' is not known in a case; did you mean 'tests'?"
broken "title: t
" "no key 'mildsolve_case'"
broken "mildsolve_case: 1
object: {title: t}
tests: &a []
" "anchors"
printf 'mildsolve_case: 1\nobject: {title: a\377b}\n' >"$case"
run record --case "$case" --site 1,1 --blend acetone --result none
exits 2
says "0xFF is not valid UTF-8"

# --- a disk that fails ---

failing() { # failing CALL WORDS: exit status 3, the sentence, the case as it was
    fresh
    LD_PRELOAD="$FAILING_CALLS" FAIL_CALL="$1" "$MILDSOLVE" record --case "$case" --passage sky --blend acetone \
        --result none --date 2025-02-19 >"$work/out" 2>"$work/err"
    status=$?
    typed="FAIL_CALL=$1 mildsolve record"
    exits 3
    says "$2"
    silent
}
failing write:1:ENOSPC "cannot write '$case': no space left on the disk"
unchanged
alone
failing write:1:EIO "cannot write '$case'"
unchanged
alone
failing fsync:1:EIO "cannot write '$case'"
unchanged
alone
failing fsync:1:ENOSPC "no space left on the disk"
unchanged
alone
failing rename:1:EIO "cannot write '$case'"
unchanged
alone
failing rename:1:ENOSPC "no space left on the disk"
unchanged
alone
failing fchmod:1:EIO "cannot write '$case'"
unchanged
alone
failing create:1:EROFS "/$case.lock'"
unchanged
alone
failing create:1:ENOSPC "cannot lock"
unchanged
alone
failing create:2:EROFS "cannot write '$case': the disk is read-only"
unchanged
alone
failing flock:1:EIO "cannot lock"
unchanged
rm -f "$case.lock"
# By then the file is replaced; the sentence says so.
failing fsync:2:EIO "'$case' is written, but its directory could not be flushed"
added_only
alone
# An old lock file that cannot be removed harms nobody.
fresh
LD_PRELOAD="$FAILING_CALLS" FAIL_CALL=unlink:1:EIO "$MILDSOLVE" record --case "$case" --passage sky --blend acetone \
    --result none --date 2025-02-19 >"$work/out" 2>"$work/err"
status=$?
exits 0
note --blend acetone
exits 0
alone

# A symbolic link stays a link, and meets the same lock.
fresh
ln -s case.yaml "$work/link.yaml"
run record --case "$work/link.yaml" --passage sky --blend acetone --result none --date 2025-02-19
exits 0
if [ -L "$work/link.yaml" ]; then good; else bad "the link was replaced"; fi
added_only

# Permissions stay.
fresh
chmod 640 "$case"
note --blend acetone
if [ "$(stat -c %a "$case")" = 640 ]; then good; else bad "the permissions were changed"; fi

# --- tables ---

fresh
run record --case "$case" --export "$work/table.csv"
exits 0
says "tests written to $work/table.csv: 5"
if [ "$(grep -c "$(printf '\r')$" "$work/table.csv")" = 6 ]; then good; else bad "lines do not end with CR LF"; fi
run record --case "$case" --import "$work/table.csv"
exits 2
says "$work/table.csv:2:1: test 'T1' stands in $case already"
says "5 faults; $case was not changed"
unchanged
sed 's/^T\([0-9]\),/B\1,/' "$work/table.csv" >"$work/table.b.csv"
run record --case "$case" --import "$work/table.b.csv" --json
exits 0
json "a['noted'] == ['B1', 'B2', 'B3', 'B4', 'B5'] and a['tests'] == 10"
added_only
fresh
printf 'date;passage;blend;result;contact_s;note_wet\n2025-02-19;sky;acetone 10 + isooctane 90;Softened; 20 ;"two; lines\nhere"\n2025-02-19;cap;acetone;none;;\n' >"$work/table.semicolon.csv"
run record --case "$case" --import "$work/table.semicolon.csv"
exits 0
prints "T6 noted"
prints "T7 noted"
added_only
fresh
printf 'date,passage,blend,result\n2025-02-19,sky,acetone,none\n2025-02-19,skie,acetne,some\n' >"$work/table.wrong.csv"
run record --case "$case" --import "$work/table.wrong.csv"
exits 2
says "$work/table.wrong.csv:3:24: test 'T7', result: 'some'"
unchanged
printf 'date,blend,reslt\n' >"$work/table.wrong.csv"
run record --case "$case" --import "$work/table.wrong.csv"
exits 2
says "column 'reslt' is not known; nearest: 'result'"
printf 'date,blend,result\n' >"$work/table.wrong.csv"
run record --case "$case" --import "$work/table.wrong.csv"
exits 2
says "no test below it"
run record --case "$case" --import "$work/table.none.csv"
exits 2
unchanged

# --- what may not be overlooked in the answer ---

fresh
run record --case "$case" --passage ferry --blend "methoxypropanol 10 + isooctane 90" --result none --date 2025-02-19
says "bottle methoxypropanol holds methoxypropanol, which forms peroxides"

# The answer cannot be printed, the test is noted all the same: nobody should record it twice.
cp "$SOURCE_ROOT/examples/demo-case.yaml" "$work/full.yaml"
typed="mildsolve record ... >/dev/full"
"$MILDSOLVE" record --case "$work/full.yaml" --passage sky --layer varnish --date 2025-02-19 --blend acetone --result none \
    >/dev/full 2>"$work/err"
status=$?
exits 3
says "cannot write the answer: No space left on device; what was to be noted is noted in $work/full.yaml all the same"
if grep -q "blend: acetone" "$work/full.yaml"; then good; else bad "it is not noted"; fi

done_testing
