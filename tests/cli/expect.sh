# SPDX-License-Identifier: GPL-3.0-or-later
# Helpers of the command tests, read with `. expect.sh`. Each check names what was typed when it fails.
set -u
: "${MILDSOLVE:?}" "${SOURCE_ROOT:?}"
export XDG_DATA_HOME=/nonexistent NO_COLOR=1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
passed=0
failed=0

run() { # run ARGUMENTS...: output in $work/out, talk in $work/err, exit status in $status
    typed="mildsolve $*"
    "$MILDSOLVE" "$@" >"$work/out" 2>"$work/err"
    status=$?
    if grep -qiw safe "$work/out" "$work/err"; then bad "the word 'safe' is printed"; fi
}

good() { passed=$((passed + 1)); }
bad() {
    failed=$((failed + 1))
    printf 'FAILED: %s\n  %s\n' "$typed" "$1"
    head -n 12 "$work/out" "$work/err"
}

exits() { if [ "$status" -eq "$1" ]; then good; else bad "exit status $status, expected $1"; fi; }
prints() { if grep -qF -- "$1" "$work/out"; then good; else bad "standard output lacks: $1"; fi; }
tells() { # as prints, in paragraphs that may break their lines anywhere
    if tr -s ' \n' '  ' <"$work/out" | grep -qF -- "$1"; then good; else bad "standard output does not tell: $1"; fi
}
prints_not() { if grep -qF -- "$1" "$work/out"; then bad "standard output has: $1"; else good; fi; }
says() { if grep -qF -- "$1" "$work/err"; then good; else bad "standard error lacks: $1"; fi; }
silent() { if [ -s "$work/out" ]; then bad "standard output is not empty"; else good; fi; }

narrow() { # every line fits 80 columns
    if [ "$(LC_ALL=C.UTF-8 wc -L <"$work/out")" -le 80 ]; then good; else bad "a line is wider than 80 columns"; fi
}

# json EXPRESSION: a Python expression on `a`, the parsed answer, that must be true.
json() {
    if python3 -c "import json,sys; a=json.load(open(sys.argv[1])); sys.exit(0 if ($1) else 1)" "$work/out"; then
        good
    else
        bad "JSON: not true: $1"
    fi
}

own_cymene() { # own_cymene FOLDER: a table of one's own with a liquid that the shipped ones lack, as in the manual
    mkdir -p "$1"
    cat >"$1/components.yaml" <<'END'
table: components
components:
  - id: cymene
    name: p-cymene
    family: terpene
    hansen: {delta_d: 17.3, delta_p: 2.4, delta_h: 2.4, unit: MPa^0.5, sure: estimate}
    molar_volume: {value: 156.6, unit: cm3/mol}
END
}

done_testing() {
    echo "$passed passed, $failed failed"
    [ "$failed" -eq 0 ]
}
