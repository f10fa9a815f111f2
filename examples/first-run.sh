#!/usr/bin/env bash
# SPDX-License-Identifier: GPL-3.0-or-later
# From nothing to the first answer on a fresh Debian machine: installs what is missing, builds, runs the main job on
# the demo case. Usage: bash examples/first-run.sh
set -euo pipefail
cd "$(dirname "$0")/.."
. tests/packages.sh
install_missing $BUILD_PACKAGES

[ -f build/build.ninja ] || meson setup build
ninja -C build

show() {
    printf '\n$ mildsolve'
    printf ' %q' "$@"
    printf '\n'
    build/mildsolve "$@"
}
show check examples/demo-case.yaml --date 2025-02-20
show gentlest --case examples/demo-case.yaml --date 2025-02-20 --show 4
show place "propan-2-ol 30 + isooctane 70" --material dammar-aged,linseed-oil-film-young
show exposure --case examples/demo-case.yaml
show recipe "propan-2-ol 30 + isooctane 70" --volume 40
show chart build/first-chart.png --case examples/demo-case.yaml
printf '\nThe chart is build/first-chart.png; the program is build/mildsolve.\n'
