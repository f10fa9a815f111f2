#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Every command explains itself; slips of commands and options are answered with the nearest.
. "$(dirname "$0")/expect.sh"

run --help
exits 0
prints "It proposes tests; the"
narrow
commands=$(sed -n '/^  command/,/^$/s/^  \([a-z][a-z]*\)  .*/\1/p' "$work/out" | grep -v '^command$')
count=0
for command in $commands; do
    count=$((count + 1))
    run "$command" --help
    exits 0
    prints "mildsolve $command"
    prints "--json"
    prints "example"
    narrow
    help=$(cat "$work/out")
    run help "$command"
    exits 0
    if [ "$help" = "$(cat "$work/out")" ]; then good; else bad "differs from $command --help"; fi
    run "$command" --frobnicate
    exits 2
    says "option '--frobnicate' is not known to \`mildsolve $command\`; see \`mildsolve $command --help\`"
    silent
    run "$command" --jsn
    exits 2
    says "did you mean '--json'?"
    run "$command" --json --json
    exits 2
    says "option '--json' is given more than once"
    run "$command" --data
    exits 2
    says "option '--data' needs a value: --data DIR"
done
typed="the list of commands"
if [ "$count" -ge 9 ]; then good; else bad "only $count commands in the list"; fi

run
exits 2
prints "mildsolve COMMAND"
run -h
exits 0
run help
exits 0
prints "first steps"
run --version
exits 0
prints "mildsolve "
run plase acetone
exits 2
says "no command is called 'plase'; did you mean 'place'? \`mildsolve --help\` lists them"
silent
run zzzzzz
exits 2
says "no command is called 'zzzzzz'; \`mildsolve --help\` lists them"
run help zzzzzz
exits 2
says "no command is called 'zzzzzz'"
run place --json=yes acetone
exits 2
says "option '--json' takes no value"
run place --material=dammar-fresh acetone
exits 0
prints "dammar-fresh"
run place -- acetone
exits 0

done_testing
