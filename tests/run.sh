#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# Installs what is missing, builds, runs every test. Usage: bash tests/run.sh [--long]
# --long adds what takes more than a few minutes (thousands of kills, all allocations, large searches, a hundred
# thousand random trials).
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/packages.sh
# shellcheck disable=SC2086 # lists of words
install_missing $BUILD_PACKAGES $TEST_PACKAGES

build=${BUILD_DIR:-build}
[ -f "$build/build.ninja" ] || meson setup "$build"
ninja -C "$build"

long=no
[ "${1:-}" = "--long" ] && long=yes
# MESON_TEST_OPTIONS: more options, for builds that are slower (a sanitizer, coverage)
# shellcheck disable=SC2086 # a list of words
if [ "$long" = yes ]; then
    meson test -C "$build" --print-errorlogs ${MESON_TEST_OPTIONS:-}
else
    meson test -C "$build" --print-errorlogs --no-suite long ${MESON_TEST_OPTIONS:-}
fi
