#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Feeds the parsers and the engine with inputs made by a fuzzer, under AddressSanitizer and UBSan.
# Usage: bash tests/fuzz/run.sh [--seconds N] [--afl] [TARGET ...]     N of each target (default 8)
# What was tried is kept in build-fuzz/corpus; an input that breaks something is written to build-fuzz/found/TARGET and
# belongs, once its fault is mended, in tests/fuzz/found/TARGET, where every test run tries it again.
set -euo pipefail
cd "$(dirname "$0")/../.."
. tests/packages.sh
seconds=8
afl=no
targets=""
while [ $# -gt 0 ]; do
    case $1 in
    --seconds) seconds=$2; shift ;;
    --afl) afl=yes ;;
    *) targets="$targets $1" ;;
    esac
    shift
done
[ -n "$targets" ] || targets="blend case command csv engine table yaml"
# shellcheck disable=SC2086 # lists of words
install_missing $BUILD_PACKAGES clang libclang-rt-14-dev
[ "$afl" = no ] || install_missing afl++

if [ "$afl" = yes ]; then
    folder=build-afl
    [ -f $folder/build.ninja ] || AFL_QUIET=1 CC=afl-clang-fast meson setup $folder -Dfuzz=true >/dev/null
else
    folder=build-fuzz
    [ -f $folder/build.ninja ] || CC=clang meson setup $folder -Dfuzz=true -Db_lundef=false \
        -Db_sanitize=address,undefined -Dc_args=-fsanitize=fuzzer-no-link >/dev/null
fi
programs=""
for target in $targets; do programs="$programs tests/fuzz_$target"; done
# shellcheck disable=SC2086 # a list of words
AFL_QUIET=1 ninja -C $folder $programs >/dev/null
failed=0
for target in $targets; do
    most=8192
    case $target in blend | engine | command) most=200 ;; esac
    corpus=$folder/corpus/$target
    found=$folder/found/$target
    mkdir -p "$corpus" "$found"
    log=$folder/$target.log
    status=0
    if [ "$afl" = yes ]; then
        AFL_SKIP_CPUFREQ=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1 AFL_NO_UI=1 AFL_NO_AFFINITY=1 \
            afl-fuzz -V "$seconds" -x tests/fuzz/words.dict -i "tests/fuzz/seeds/$target" -o "$folder/afl-$target" -- \
            "$folder/tests/fuzz_$target" >"$log" 2>&1 || status=$?
        stats=$folder/afl-$target/default/fuzzer_stats
        runs=$(sed -n 's/^execs_done *: //p' "$stats")
        crashes=$(sed -n 's/^saved_crashes *: //p' "$stats")
        printf '%-8s %10s inputs, %s crashes\n' "$target" "$runs" "$crashes"
        [ "$crashes" = 0 ] || failed=1
    else
        ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1 \
            "$folder/tests/fuzz_$target" -max_total_time="$seconds" -timeout=120 -rss_limit_mb=2048 -max_len=$most \
            -dict=tests/fuzz/words.dict -artifact_prefix="$found/" -print_final_stats=1 "$corpus" \
            "tests/fuzz/seeds/$target" $( [ -d "tests/fuzz/found/$target" ] && echo "tests/fuzz/found/$target" ) \
            >"$log" 2>&1 || status=$?
        runs=$(sed -n 's/^stat::number_of_executed_units: //p' "$log")
        if [ "$status" -eq 0 ]; then
            printf '%-8s %10s inputs, nothing broken\n' "$target" "$runs"
        else
            printf '%-8s broken: %s\n' "$target" "$(ls "$found" | tail -n 1)"
            tail -n 40 "$log"
            failed=1
        fi
    fi
done
exit $failed
