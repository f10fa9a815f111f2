#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

blend="propan-2-ol 30 + isooctane 70"
run chart "$work/a.png" --blend "$blend" --material dammar-aged --object "LK-14" --date 2026-11-25
exits 0
prints "points 3, areas 1"
narrow
file_begins() { # FILE BYTES
    if [ "$(head -c "${#2}" "$1")" = "$2" ]; then good; else bad "$1 does not begin with $2"; fi
}
file_begins "$work/a.png" "$(printf '\211PNG')"
# 300 dpi, half A4 lying: 210 x 148.5 mm (ISO 216) = 2480 x 1754 pixels
python3 - "$work/a.png" <<'PY' && good || bad "size or resolution of the PNG is wrong"
import struct, sys
data = open(sys.argv[1], "rb").read()
width, height = struct.unpack(">II", data[16:24])
at = data.index(b"pHYs")
per_metre = struct.unpack(">I", data[at + 4:at + 8])[0]
sys.exit(0 if (width, height) == (2480, 1754) and abs(per_metre - 300 / 0.0254) < 1 else 1)
PY

for suffix in svg pdf; do
    run chart "$work/a.$suffix" --blend "$blend" --material dammar-aged --date 2026-11-25
    exits 0
    cp "$work/a.$suffix" "$work/first"
    run chart "$work/a.$suffix" --blend "$blend" --material dammar-aged --date 2026-11-25
    if cmp -s "$work/first" "$work/a.$suffix"; then good; else bad "the same input gave other bytes"; fi
done
file_begins "$work/a.pdf" "%PDF"

run chart "$work/b.png" --shelf studio --size full --paper letter --grey --json
exits 0
json "len(a['points']) == 20 and a['points'][0]['number'] == 1"

run chart "$work/missing/a.png" --blend acetone
exits 3
says "missing"
run chart "$work/a.gif" --blend acetone
exits 2
says ".png"
run chart "$work/c.png"
exits 2
says "nothing to draw"
run chart "$work/empty.png" --material hard-copal
exits 2
says "nothing to draw: none of the materials has a Teas area"
says "no Teas area is known for hard-copal"
if [ -e "$work/empty.png" ]; then bad "an empty chart was written"; else good; fi
run chart "$work/c.png" --rule hansen --material dammar-aged --blend acetone
exits 2
says "never"
run chart "$work/c.png" --blend "acetone 0"
exits 2
run chart "$work/c.png" --blend "decamethylcyclopentasiloxane"
exits 2
says "decamethylcyclopentasiloxane"
run chart "$work/c.png" --material hard-copal --blend acetone
exits 0
says "no Teas area is known for hard-copal"
if [ -e "$work/c.png.part" ] || ls "$work" | grep -q '\.part'; then bad "a half-written file is left"; else good; fi

# A file that is there stays whole when the new one cannot be made.
cp "$work/a.png" "$work/keep.png"
run chart "$work/keep.png" --blend "nosuchsolvent"
exits 2
if cmp -s "$work/a.png" "$work/keep.png"; then good; else bad "the old file was touched"; fi

# Commands without pictures load neither Cairo nor Pango.
if ldd "$MILDSOLVE" | grep -qiE 'cairo|pango'; then bad "the program links Cairo or Pango"; else good; fi

done_testing
