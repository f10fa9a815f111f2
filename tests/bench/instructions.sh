#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Instructions of the hot loops, counted by callgrind (Debian: valgrind), beside the times of bench_search and
# bench_film_search. Unlike times they are the same whatever else the machine does. Usage: instructions.sh PROGRAM
set -eu
program=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
export XDG_DATA_HOME=/nonexistent

count() { # count WORDS FUNCTION ARGUMENTS...
    words=$1
    function=$2
    shift 2
    valgrind --tool=callgrind --callgrind-out-file="$work/counts" "$program" gentlest --remove dammar-aged \
        --spare linseed-oil-film-young --threads 1 --json "$@" >"$work/answer" 2>/dev/null
    callgrind_annotate --inclusive=yes "$work/counts" >"$work/inclusive" 2>/dev/null
    callgrind_annotate "$work/counts" >"$work/own" 2>/dev/null
    python3 - "$words" "$function" "$work" <<'END'
import json, re, sys
words, function, work = sys.argv[1:]
answer = json.load(open(work + "/answer"))
line = r"^\s*([\d,]+) \(\s*[\d.]+%\)\s+\S*?:(\S+)"
def lines(name):
    seen = {}
    for match in re.finditer(line, open(work + "/" + name).read(), re.M):
        seen.setdefault(match[2].split(".")[0], int(match[1].replace(",", "")))
    return seen
whole = lines("inclusive")[function]
print(f"{words}: {whole / 1e6:.1f} million instructions in {function}, "
      f"{whole / answer['blends_on_grid']:.3g} for each of {answer['blends_on_grid']:.0f} blends")
own = lines("own")
skip = re.compile(r"yaml|malloc|free|^0x|byte_of|index_|text_|schema|arena|PROGRAM|name_compare|str|utf8|mem|bsearch|fill_")
for name in [n for n in own if not skip.search(n)][:8]:
    print(f"    {own[name] / 1e6:8.1f} million in {name}")
END
}

sixty=$("$program" solvents --json | python3 -c "
import json, sys
placed = [c['id'] for c in json.load(sys.stdin)['solvents'] if c['hansen']['delta_d'] is not None]
print(', '.join(placed[i * len(placed) // 60] for i in range(60)))")
count "by distance, up to 4 of what may be proposed of sixty bottles" search_by_distance --by red --every-set --show 10 --components 4 --bottles "$sixty"
count "by film, 6 bottles, up to 3" film_search --doubt none \
    --bottles "ethanol, propan-2-ol, acetone, isooctane, toluene, ethyl-acetate"
