#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What people type by mistake: a sentence that helps, and the right exit status.
. "$(dirname "$0")/expect.sh"

refuses() { # refuses BLEND WORDS
    for command in "place" "recipe" "drying" "label" "exposure --use 20 --hours 5 --room 85 --air-changes 3"; do
        # shellcheck disable=SC2086 # a list of words
        run $command "$1"
        exits 2
        says "$2"
        silent
    done
}
refuses "" "a blend of nothing"
refuses "  " "a blend of nothing"
refuses "acetone 30 +" "an empty part in the blend"
refuses "+" "an empty part in the blend"
refuses "acetone 0" "parts by volume must be above zero"
refuses "acetone 50 + toluene -50" "'toluene -50': parts by volume must be above zero"
refuses "acetone 37,5 + toluene 62,5" "write the decimal point: \"acetone 37.5\""
refuses "acetone 37,5% + toluene 62,5%" "write the decimal point: \"acetone 37.5\""
refuses "2,2,4-trimethylpentane 37,5 + toluene 1" "write the decimal point: \"2,2,4-trimethylpentane 37.5\""
refuses "acetone 1.000,5 + toluene 1" "'1.000,5' is not a number of parts"
refuses "acetone 37,5, toluene 62,5" "names are joined with '+'"
refuses "acetone 37,5 toluene 62,5" "names are joined with '+'"
refuses "37,5 acetone + 62,5 toluene" "the parts stand behind the name: \"acetone 37.5\""
refuses "toluene:acetone 60:40" "\"toluene 60 + acetone 40\""
refuses "75 toluene + 25 acetone" "the parts stand behind the name: \"toluene 75\""
refuses "toluene 75, acetone 25" "names are joined with '+'"
refuses "acetone 1 + propanone 2" "acetone stands twice in the blend"
refuses "aceton3" "nearest: acetone"
refuses "acetone 1e999" "is not a number of parts"
refuses "acetone nan" "no solvent or bottle is called 'acetone nan'"
refuses "$(printf 'a%.0s' $(seq 300))" "a name of more than"
refuses "$(printf 'acetone \377')" "no solvent or bottle is called"

run place "ethanol 96"
exits 0
says "'ethanol 96' is read as 96 parts of ethanol"
says "'ethanol-96'"
run place acetone toluene
exits 2
says "'toluene' is one word too many"
says "quotation marks"
run place acetone --material "dammar-aged,,mastic-aged"
exits 2
says "names are separated by single commas"
# shellcheck disable=SC2046 # forty words
run solvents $(yes acetone | head -n 40)
exits 2
says "more than 16 words"

# Numbers and words behind options.
run gentlest --remove dammar-aged --components 2.5
exits 2
says "--components 2.5: a whole number is expected"
run gentlest --remove dammar-aged --components 0
exits 2
says "--components 0 is outside the range"
run gentlest --remove dammar-aged --step 7
exits 2
says "the grid must divide 100"
run gentlest --remove dammar-aged --margin ""
exits 2
says "a number is expected"
run gentlest
exits 2
says "--remove is missing: which material?"
run gentlest --remove dammar-aged --bottles "acetone, ethanol" --shelf studio
exits 2
says "--bottles and --shelf exclude each other"
run gentlest --remove dammar-aged --shelf attic
exits 2
says "no shelf is called 'attic'; one of these is expected: studio"
run gentlest --remove dammar-aged --without tolune
exits 2
says "nearest: toluene"
run gentlest --remove dammar-aged --allow carcinogen
exits 2
says "a whole hazard class cannot be allowed; name the component"
run chart "$work/teas.png" --blend acetone --size huge
exits 2
says "--size 'huge' is not known; one of these is expected: full, half"

# A decimal comma is refused with the number as it is to be typed, never read as two numbers.
run recipe acetone --volume 12,5
exits 2
says "--volume '12,5': a number is expected, with a decimal point: --volume 12.5"
run gentlest --remove dammar-aged --bottles isooctane,acetone --step 2,5
exits 2
says "--step 2.5"
run exposure acetone --task "9:00-10:00 swab 1,5 mL" --room 85 --air-changes 1
exits 2
says "with a decimal point"
for layer in "dammar-fresh 12,5 in isooctane" "dammar-fresh 20 in isooctane, 1,5 d" "dammar-fresh 20 in isooctane 1,5 d" \
    "dammar-fresh 20 in isooctane 37,5 + acetone 1" "dammar-fresh 20 in isooctane, brush, 1,5 weeks"; do
    run layers --layer linseed-oil-film-aged --layer "varnish: $layer"
    exits 2
    says "decimal point"
    silent
done
run layers --layer linseed-oil-film-aged --layer "varnish: dammar-fresh 20 in 2,2,4-trimethylpentane,brush, 5 d" --doubt none
prints "dries 5 days"
tells "dammar-fresh 20 % w/v in 2,2,4-trimethylpentane"
wrong_case() { # wrong_case SED-EXPRESSION WORDS
    sed "$1" "$SOURCE_ROOT/examples/demo-case.yaml" >"$work/comma.yaml"
    run check "$work/comma.yaml"
    exits 1
    if grep -qF -- "$2" "$work/out" "$work/err"; then good; else bad "neither output has: $2"; fi
}
wrong_case 's/air_changes_per_h: 2.5/air_changes_per_h: 2,5/' "'2,5': a number is expected, with a decimal point: 2.5"
wrong_case 's/{x_mm: 0, y_mm: 250/{x_mm: 0,5, y_mm: 250/' "a number with a comma, which ends it here before '5'"
wrong_case 's/blend: propan-2-ol 30 + isooctane 70/blend: propan-2-ol 30,5 + isooctane 69,5/' 'write the decimal point: "propan-2-ol 30.5"'
cp "$SOURCE_ROOT/examples/demo-case.yaml" "$work/comma.yaml"
for site in "40,5,25,5" "40,5 25,5" "40,5;25,5"; do
    run record --case "$work/comma.yaml" --blend isooctane --result none --site "$site"
    exits 2
    says "with a decimal point where needed: --site 40,25.5"
done
run record --case "$work/comma.yaml" --blend isooctane --result none --passage sky --contact 20,5
exits 2
says "contact_s: '20,5': a number is expected, with a decimal point: 20.5"
printf 'id,date,blend,result,passage,contact_s\nT9,2025-02-19,isooctane,none,sky,20,5\n' >"$work/tests.csv"
run record --case "$work/comma.yaml" --import "$work/tests.csv"
exits 2
says "this row has 7 fields, the heading has 6"
printf 'id;date;blend;result;passage;contact_s\nT9;2025-02-19;isooctane;none;sky;20,5\n' >"$work/tests.csv"
run record --case "$work/comma.yaml" --import "$work/tests.csv"
exits 2
says "'20,5': a number is expected, with a decimal point: 20.5"
cmp -s "$SOURCE_ROOT/examples/demo-case.yaml" "$work/comma.yaml" || bad "something was noted"

# A list of nothing but commas takes no longer than a list.
run gentlest --remove dammar-aged --bottles "isooctane, propan-2-ol" --without "$(printf ',%.0s' $(seq 60000))" --doubt none
exits 0

# The same input gives the same bytes, whatever the locale.
run solvents acetone
cp "$work/out" "$work/first"
for locale in C C.UTF-8 de_DE.UTF-8; do
    LC_ALL=$locale run solvents acetone
    if cmp -s "$work/out" "$work/first"; then good; else bad "differs under $locale"; fi
done

done_testing
