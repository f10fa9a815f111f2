# SPDX-License-Identifier: GPL-3.0-or-later
# Debian packages, and how missing ones are installed. Read with `. tests/packages.sh`.
BUILD_PACKAGES="gcc pkg-config meson ninja-build libgsl-dev libyaml-dev libcairo2-dev libpango1.0-dev libpng-dev check \
fonts-dejavu-core python3 gettext"
TEST_PACKAGES="python3-yaml mandoc poppler-utils tidy"
CI_PACKAGES="clang libclang-rt-14-dev gcovr python3-numpy zsh fish"
STATIC_PACKAGES="clang-tidy cppcheck" # tests/static.sh

install_missing() {
    missing=""
    for package in "$@"; do
        dpkg-query -W -f='${Status}' "$package" 2>/dev/null | grep -q "ok installed" || missing="$missing $package"
    done
    [ -z "$missing" ] && return 0
    echo "installing:$missing"
    root=""
    [ "$(id -u)" -eq 0 ] || root="sudo"
    $root apt-get update -qq
    # shellcheck disable=SC2086 # a list of words
    DEBIAN_FRONTEND=noninteractive $root apt-get install -y -qq --no-install-recommends $missing >/dev/null
}
