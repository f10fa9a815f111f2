#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The language of an answer: text changes with it, what programs read never does, and no locale need be installed.
. "$(dirname "$0")/expect.sh"
export LC_ALL=C
unset LANGUAGE LANG

# english_and NAME ARGUMENTS...: $work/NAME.en and $work/NAME.de hold both answers.
english_and() {
    name=$1
    shift
    run "$@"
    cp "$work/out" "$work/$name.en"
    before=$status
    run "$@" --language de
    cp "$work/out" "$work/$name.de"
    exits "$before"
}
differ() { if cmp -s "$1" "$2"; then bad "the German answer is the English one"; else good; fi; }
same() { if cmp -s "$1" "$2"; then good; else bad "the answer changed with the language"; fi; }

blend="toluene 75 + acetone 25"
case="$SOURCE_ROOT/examples/demo-case.yaml"
task="--use 20 --hours 5 --room 85 --air-changes 3 --limits eu"

english_and place place "$blend" --material dammar-aged
differ "$work/place.en" "$work/place.de"
prints "$blend" # ids and notation stay
english_and gentlest gentlest --remove dammar-aged --spare linseed-oil-film-young --bottles isooctane,propan-2-ol --doubt none
differ "$work/gentlest.en" "$work/gentlest.de"
# shellcheck disable=SC2086 # options are words
english_and exposure exposure "$blend" $task
differ "$work/exposure.en" "$work/exposure.de"

run report --case "$case" -o "$work/en.txt" --date 2025-03-01
run report --case "$case" -o "$work/de.txt" --date 2025-03-01 --language de
exits 0
differ "$work/en.txt" "$work/de.txt"
run chart "$work/en.svg" --blend "$blend"
run chart "$work/de.svg" --blend "$blend" --language de
exits 0
differ "$work/en.svg" "$work/de.svg"

english_and place_json place "$blend" --material dammar-aged --json
same "$work/place_json.en" "$work/place_json.de"
english_and gentlest_json gentlest --remove dammar-aged --bottles isooctane,propan-2-ol --doubt none --json
same "$work/gentlest_json.en" "$work/gentlest_json.de"
# shellcheck disable=SC2086
english_and exposure_json exposure "$blend" $task --json
same "$work/exposure_json.en" "$work/exposure_json.de"
if grep -q 'Isooctan\b' "$work/de.txt" && ! grep -q '2,2,4-trimethylpentane' "$work/de.txt"; then good; else bad "the bottles have English names"; fi
run report --case "$case" -o "$work/en.json" --date 2025-03-01
run report --case "$case" -o "$work/de.json" --date 2025-03-01 --language de
same "$work/en.json" "$work/de.json"

# before the command, and for the help of all
run place "$blend" --language de
cp "$work/out" "$work/behind"
for before in "--language de" --language=de; do
    # shellcheck disable=SC2086 # an option and its value
    run $before place "$blend"
    exits 0
    same "$work/behind" "$work/out"
done
run --help --language it
exits 0
prints "COMANDO"
run --language it --help
prints "COMANDO"

run place acetone --language xx
exits 2
silent
says "xx"
run place acetone --language xx --json
exits 2

# The words of a case are shown in the language of the report.
run report --case "$SOURCE_ROOT/examples/demo-case.yaml" --language de --doubt none --learn none
exits 0
prints "Bitumenbraun"

done_testing
