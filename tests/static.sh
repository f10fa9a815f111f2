#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Faults that show without running anything; ends with 1 when there are some. About two minutes on two cores:
#   tidy      clang-tidy over src and tests, by the rules in .clang-tidy but for clang's path analyzer
#   cppcheck  over src; what it takes wrongly for a fault is in tests/static/cppcheck.txt
#   gcc       gcc -fanalyzer over src; likewise in tests/static/analyzers.txt
# and, ten minutes more, only when named:
#   clang     clang's path analyzer over src; likewise in tests/static/analyzers.txt
# Usage: bash tests/static.sh [tidy] [cppcheck] [gcc] [clang]
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/packages.sh
# shellcheck disable=SC2086 # a list of words
install_missing $BUILD_PACKAGES $STATIC_PACKAGES

build=${BUILD_DIR:-build}
[ -f "$build/build.ninja" ] || meson setup "$build" --werror
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
faults=0

# tidy_over CHECKS FOLDER ...: what clang-tidy says of every C file there.
tidy_over() {
    checks="$1"
    shift
    find "$@" -name '*.c' -print0 | sort -z | xargs -0 -n 4 -P "$(nproc)" clang-tidy -p "$build" --quiet --checks="$checks" \
        --extra-arg=-Wno-unknown-warning-option 2>/dev/null || true
}

# Findings of a log that are not on the list, one line each; their number is added to the faults.
judge() {
    sed -n -E "s|^$PWD/||; s|^$build/\.\./||; s|^\.\./||; /^(src|tests)\/.*(warning|error): .*\[[^]]+\]\$/p" "$folder/log" | sort -u |
        while IFS= read -r line; do
            file=${line%%:*}
            check=${line##*[}
            check=${check%%]*}
            grep -qx "$file ${check%%,*}" tests/static/analyzers.txt || echo "$line"
        done >"$folder/found"
    cat "$folder/found"
    faults=$((faults + $(wc -l <"$folder/found")))
}

run_tidy() {
    tidy_over '-clang-analyzer-*' src tests >"$folder/log"
    judge
}

run_clang() {
    tidy_over '-bugprone-*,-cert-*,-concurrency-*,-misc-*,-performance-*,-portability-*,-readability-*' src >"$folder/log"
    judge
}

run_cppcheck() {
    cppcheck -j "$(nproc)" --enable=warning,performance,portability --inline-suppr --std=c17 -Isrc \
        --suppressions-list=tests/static/cppcheck.txt --error-exitcode=1 --quiet src || faults=$((faults + 1))
}

run_gcc() {
    # shellcheck disable=SC2046 # a list of words
    find src -name '*.c' -print0 | sort -z | xargs -0 -P "$(nproc)" -I FILE gcc -std=c17 -O1 -Isrc -D_POSIX_C_SOURCE=200809L \
        '-DMILDSOLVE_VERSION="0"' '-DMILDSOLVE_MODULE_SUBDIR="."' '-DMILDSOLVE_MODULE_DIR="."' \
        $(pkg-config --cflags gsl yaml-0.1 pangocairo libpng) -fanalyzer -fdiagnostics-plain-output -c FILE -o /dev/null \
        2>"$folder/log" || faults=$((faults + 1))
    judge
}

[ $# -gt 0 ] || set -- tidy cppcheck gcc
for name in "$@"; do
    before=$faults
    started=$(date +%s)
    "run_$name"
    echo "$name: $((faults - before)) faults, $(($(date +%s) - started)) s"
done
[ "$faults" -eq 0 ]
