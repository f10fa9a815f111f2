#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Feeds the parsers and the engine with inputs made by a fuzzer, under AddressSanitizer and UBSan.
# Usage: bash tests/fuzz/run.sh [--seconds N] [--cpu-minutes M] [--seed K] [--afl] [TARGET ...]
#   --seconds N       each target runs so long by the clock (default 4: a minute in all)
#   --cpu-minutes M   round after round of all targets, until M minutes of processor time are used; for nights
#   --seed K          begins anew with the seeds alone and draws by K: the same inputs each time, so that a change is
#                     not held up by a fault that was there before it; finding those is for the nights
#   --afl             with AFL++ instead of libFuzzer, without the sanitizers: other inputs, many more of them
# What was tried is kept in build-fuzz/corpus or build-afl/queue, so that the next run goes on from there. An input that
# breaks something is written to build-fuzz/found/TARGET or build-afl/queue/TARGET/default/crashes (hangs), and belongs,
# once its fault is mended, in tests/fuzz/found/TARGET, where every test run tries it again.
# The table at the end has inputs and processor time (user and system), which is what a busy machine really gave.
set -euo pipefail
cd "$(dirname "$0")/../.."
. tests/packages.sh
seconds=4
cpu_minutes=0
seed=""
afl=no
targets=""
while [ $# -gt 0 ]; do
    case $1 in
    --seconds) seconds=$2 && shift ;;
    --cpu-minutes) cpu_minutes=$2 && shift ;;
    --seed) seed=$2 && shift ;;
    --afl) afl=yes ;;
    -*) sed -n '3,13s/^# //p' "$0" && exit 2 ;;
    *) targets="$targets $1" ;;
    esac
    shift
done
[ -n "$targets" ] || targets="blend case command csv engine fit goal layers record rows table task words yaml"
# shellcheck disable=SC2086 # lists of words
install_missing $BUILD_PACKAGES clang libclang-rt-14-dev
[ "$afl" = no ] || install_missing afl++

if [ "$afl" = yes ]; then
    folder=build-afl
    export AFL_QUIET=1
    [ -f $folder/build.ninja ] || CC=afl-clang-fast meson setup $folder -Dfuzz=true -Db_lundef=false >/dev/null
else
    folder=build-fuzz
    [ -f $folder/build.ninja ] || CC=clang meson setup $folder -Dfuzz=true -Db_lundef=false \
        -Db_sanitize=address,undefined -Dc_args=-fsanitize=fuzzer-no-link >/dev/null
fi
programs=""
for target in $targets; do programs="$programs tests/fuzz_$target"; done
# shellcheck disable=SC2086 # a list of words
ninja -C $folder $programs >/dev/null

# The fuzzer also goes by addresses, so with --seed they are kept the same where the system lets us.
fixed=""
[ -z "$seed" ] || ! setarch -R true 2>/dev/null || fixed="setarch -R"

longest() { # bytes of an input: short where every byte costs, or where nobody types more
    case $1 in blend | engine | command | layers | task | goal | words) echo 300 ;; *) echo 8192 ;; esac
}

# Both print what the fuzzer says to the log, and set runs and broken.
by_libfuzzer() {
    corpus=$folder/corpus/$1
    [ -z "$seed" ] || corpus=$folder/corpus-$seed/$1
    [ -z "$seed" ] || rm -rf "$corpus"
    mkdir -p "$corpus" "$folder/found/$1"
    found=""
    [ ! -d "tests/fuzz/found/$1" ] || found=tests/fuzz/found/$1
    status=0
    # shellcheck disable=SC2086 # none, one or two words
    ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=halt_on_error=1:print_stacktrace=1 \
        python3 tests/fuzz/processor_time.py "$log.cpu" $fixed "$folder/tests/fuzz_$1" -max_total_time="$seconds" \
        ${seed:+-seed="$seed" -reload=0} -timeout=600 -rss_limit_mb=1024 -max_len="$(longest "$1")" -dict=tests/fuzz/words.dict \
        -artifact_prefix="$folder/found/$1/" -print_final_stats=1 "$corpus" \
        "tests/fuzz/seeds/$1" $found >"$log" 2>&1 || status=$?
    runs=$(sed -n 's/^stat::number_of_executed_units: //p' "$log")
    broken=""
    [ "$status" -eq 0 ] || broken=$(find "$folder/found/$1" -type f -newer "$log.begun")
    [ "$status" -eq 0 ] || [ -n "$broken" ] || broken="exit status $status"
}

by_afl() {
    queue=$folder/queue/$1
    mkdir -p "$queue" "$folder/seeds/$1"
    cp "tests/fuzz/seeds/$1"/* "$folder/seeds/$1"
    [ ! -d "tests/fuzz/found/$1" ] || cp "tests/fuzz/found/$1"/* "$folder/seeds/$1"
    find "$folder/seeds/$1" -size +16k -delete # large ones belong to the replay
    before=$(sed -n 's/^execs_done *: //p' "$queue/default/fuzzer_stats" 2>/dev/null || echo 0)
    status=0
    AFL_AUTORESUME=1 AFL_SKIP_CPUFREQ=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1 AFL_NO_UI=1 AFL_NO_AFFINITY=1 \
        python3 tests/fuzz/processor_time.py "$log.cpu" afl-fuzz -V "$seconds" -t 60000 -G "$(longest "$1")" \
        -x tests/fuzz/words.dict -i "$folder/seeds/$1" -o "$queue" -- "$folder/tests/fuzz_$1" >"$log" 2>&1 || status=$?
    stats=$queue/default/fuzzer_stats
    runs=$(($(sed -n 's/^execs_done *: //p' "$stats" 2>/dev/null || echo 0) - before))
    broken=$(find "$queue/default/crashes" "$queue/default/hangs" -name 'id:*' -newer "$log.begun" 2>/dev/null || true)
    [ "$status" -eq 0 ] || broken="$broken exit status $status"
}

declare -A all_runs all_cpu
failed=0
used() { awk 'BEGIN { for (i = 1; i < ARGC; i++) sum += ARGV[i]; printf "%.1f", sum }' "$@"; }
table() {
    printf '%-8s %10s %8s\n' target inputs "CPU s"
    for target in $targets; do
        printf '%-8s %10d %8.1f\n' "$target" "${all_runs[$target]:-0}" "${all_cpu[$target]:-0}"
    done
    printf '%-8s %10d %8.1f, broken %d times\n' all "$(used "${all_runs[@]}" | cut -d. -f1)" "$(used "${all_cpu[@]}")" "$failed"
}
trap 'table; exit 130' INT TERM # after the target that runs; what it tried is not in the table
while :; do
    for target in $targets; do
        log=$folder/$target.log
        : >"$log.begun"
        if [ "$afl" = yes ]; then by_afl "$target"; else by_libfuzzer "$target"; fi
        all_cpu[$target]=$(used "${all_cpu[$target]:-0}" "$(cat "$log.cpu")")
        all_runs[$target]=$((${all_runs[$target]:-0} + ${runs:-0}))
        if [ -n "$broken" ]; then
            printf '%s broken: %s\n' "$target" "$broken"
            tail -n 40 "$log"
            failed=$((failed + 1))
        fi
    done
    total=$(used "${all_cpu[@]}")
    awk "BEGIN { exit !($total < 60 * $cpu_minutes) }" || break
done
table
[ "$failed" -eq 0 ]
