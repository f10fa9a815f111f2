#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
. "$(dirname "$0")/expect.sh"

# Text: statements with reasons, label elements, what was assumed.
run label "toluene 60 + acetone 40"
exits 0
prints "Signal word: DANGER"
prints "GHS02 flame"
prints "H361d Suspected of damaging the unborn child."
prints "CLP 3.7.3.1"
prints "so H304 stands"
prints "P210"
prints "Specific limits not checked"
prints "check against the safety data"
narrow

# JSON: the same, by mass: 60 mL of 0.867 and 40 mL of 0.790 g/mL are 62 % and 38 %.
run label "toluene 60 + acetone 40" --json
exits 0
json "[s['code'] for s in a['statements']] == ['H225', 'H304', 'H315', 'H319', 'H336', 'H361d', 'H373']"
json "a['statements'][1]['components'] == ['toluene'] and '62' in a['statements'][1]['reason']"
json "a['pictograms'] == ['GHS02', 'GHS07', 'GHS08'] and a['signal_word'] == 'Danger'"
json "len(a['precautions']) == 6 and all(not p['printed'] for p in a['precautions'])"
json "a['complete'] and a['unknown'] == [] and a['label'] is None"
json "a['specific_limits_not_checked'] == ['toluene', 'acetone']"

# One text or the other (0.15 % by volume of the amide is 0.21 % by mass).
run label "dimethylformamide 0.15 + n-heptane 99.85" --json
json "not any(s['code'] == 'H360D' for s in a['statements'])" # CLP: 0.3 %
run label "dimethylformamide 0.15 + n-heptane 99.85" --rules us-hcs --json
json "any(s['code'] == 'H360D' for s in a['statements'])" # HCS: 0.1 %
json "not any(s['code'].startswith('H4') for s in a['statements'])"

# What the user states.
run label "isooctane" --viscosity 25 --json
json "not any(s['code'] == 'H304' for s in a['statements'])"
run label "ethanol 50 + water 50" --flash 24 --json
json "any(s['code'] == 'H226' for s in a['statements']) and a['flash_point_c'] == 24"
# A slip of the pen takes no flame off: acetone flashes at -20 degC (from memory: data sheets), so 80 is not believed, and 8 K higher is.
run label acetone --flash 80
exits 0
prints "H225"
tells "CAUTION: the flash point that you stated, 80 degC, is not used: the tables say -20 degC"
tells "Flash point as stated 80 degC; the tables say -20 degC, which counts."
narrow
run label acetone "$work/doubt.svg" --flash 80
grep -q "as stated 80" "$work/doubt.svg" && good || bad "the label lacks the mark of doubt"
run label acetone --flash 80 --json
json "a['flash_point_contradicted'] and a['flash_point_stated_c'] == 80 and a['flash_point_c'] == -20"
json "any(s['code'] == 'H225' for s in a['statements']) and 'GHS02' in a['pictograms']"
run label acetone --flash -12 --json
json "not a['flash_point_contradicted'] and a['flash_point_c'] == -12"
run label "white-spirit"
prints "taken as below 0.1 % benzene"
prints_not "H350"
run label "white-spirit" --benzene-unknown
prints "H350 May cause cancer."
run label "water"
exits 0
prints "no statement that there is no hazard"

# Fire by the model: below every component, and the azeotrope of pentane and methanol boils at 30.9 degC (Horsley, Azeotropic
# Data III, from memory), below pentane's 36 and below the 35 degC of category 1.
run label "n-pentane 80 + methanol 20" --json
json "a['statements'][0]['code'] == 'H224' and abs(a['boiling_point_c'] - 30.9) < 1.5"
run label "ethanol 30 + isooctane 70" --json
json "a['flash_point_c'] < -12 and 'model' in a['flash_point_from']" # isooctane alone: -12
run label "dichloromethane" --json
json "a['flash_point_c'] is None and not any(s['code'][:3] == 'H22' for s in a['statements'])"

# Pictures.
for format in png svg pdf; do
    run label "toluene 60 + acetone 40" "$work/a.$format" --bottle 100 --name "Blend B3" --date 2026-11-25 --initials AB
    exits 0
    prints "1 label of 95 x 56 mm for 100 mL"
    if [ -s "$work/a.$format" ]; then good; else bad "no file a.$format"; fi
    cp "$work/a.$format" "$work/b.$format"
    run label "toluene 60 + acetone 40" "$work/a.$format" --bottle 100 --name "Blend B3" --date 2026-11-25 --initials AB
    if cmp -s "$work/a.$format" "$work/b.$format"; then good; else bad "the same input gives other bytes: $format"; fi
done
words() { pdftotext "$1" - | tr '\n' ' '; }
holds() { case $(words "$1") in *"$2"*) good ;; *) bad "$1 lacks: $2" ;; esac }
for sentence in "Blend B3" "toluene 60 + acetone 40" "Made 2026-11-25 by AB" "DANGER" "Contains: toluene, acetone." \
    "H304 May be fatal if swallowed and enters airways." "P331 Do NOT induce vomiting." "specific limits not checked"; do
    holds "$work/a.pdf" "$sentence"
done

run label "toluene 60 + acetone 40" "$work/sheet.pdf" --bottle 30 --sheet --name "Blend B3" --json
exits 0
json "a['label']['copies'] == 12 and a['label']['text_pt'] >= 5 and a['label']['pictogram_side_mm'] >= 10"
if [ "$(pdftotext "$work/sheet.pdf" - | grep -c 'Blend B3')" -eq 12 ]; then good; else bad "not twelve labels"; fi
if pdfinfo "$work/sheet.pdf" | grep -q 'A4'; then good; else bad "the sheet is not A4"; fi

# In other languages: the official wording (from memory of the language versions of Reg. (EC) 1272/2008, Annex III), the signal
# word of Annex I table 1.2, names of components; JSON stays English.
for language in "de:GEFAHR:H225 Flüssigkeit und Dampf leicht entzündbar.:Enthält: Toluol, Aceton." \
    "fr:DANGER:H225 Liquide et vapeurs très inflammables.:toluène, acétone." \
    "it:PERICOLO:H225 Liquido e vapori facilmente infiammabili.:Contiene: toluolo, acetone." \
    "es:PELIGRO:H225 Líquido y vapores muy inflamables.:Contiene: tolueno, acetona."; do
    code=${language%%:*}
    run label "toluene 60 + acetone 40" "$work/$code.pdf" --bottle 500 --language "$code"
    exits 0
    narrow
    rest=${language#*:}
    prints "${rest%%:*}"
    holds "$work/$code.pdf" "${rest%%:*}"
    rest=${rest#*:}
    tells "${rest%%:*}"
    holds "$work/$code.pdf" "${rest%%:*}"
    holds "$work/$code.pdf" "${rest#*:}"
done
run label "toluene 60 + acetone 40" --language de --json
json "a['statements'][0]['text'] == 'Highly flammable liquid and vapour.' and a['precautions'][2]['text'] == 'Do NOT induce vomiting.'"

# Small bottle: what is left out is said, on the label and beside it.
run label "toluene 50 + acetone 20 + d-limonene 30" "$work/small.pdf" --bottle 30 --json
exits 0
json "a['label']['left_out'] != '' and not all(p['printed'] for p in a['precautions'])"
holds "$work/small.pdf" "Left out for space: "

# A component that only the user knows, without hazard data: the label says so, and the answer is no.
mkdir "$work/own"
cat >"$work/own/components.yaml" <<'EOF'
table: components
version: "1"
about: "own"
components:
  - id: mystery-liquid
    name: mystery liquid
    family: ester
EOF
cat >"$work/own/properties.yaml" <<'EOF'
table: properties
version: "1"
about: "own"
properties:
  - id: mystery-liquid
    density_20c: {value: 0.9, unit: g/cm3}
EOF
run label "mystery-liquid 50 + acetone 50" "$work/m.pdf" --data "$work/own"
exits 1
prints "No hazard data in the tables: mystery-liquid"
holds "$work/m.pdf" "without hazard data: treat as hazardous."

# Faults.
run label
exits 2
run label "tolune"
exits 2
says "toluene"
run label acetone "$work/a.gif"
exits 2
says ".png"
silent
run label acetone "$work/a.png" --bottle 250
exits 2
says "30, 100, 500"
run label acetone --rules gb-mcl
exits 2
says "eu-clp, us-hcs"
run label "methoxypropanol 50 + isooctane 50"
tells "Forms peroxides once opened: methoxypropanol 58.2 %."
run label acetone
prints_not "peroxides"
run label acetone --name ""
exits 2
run label acetone --flash warm
exits 2
run label acetone "$work/missing/a.png"
exits 3
run label "formic-acid 10 + methanol 20 + chloroform 20 + d-limonene 30 + turpentine 20" "$work/full.png" --bottle 30
exits 2
says "take the label of a larger bottle"
if [ -e "$work/full.png" ]; then bad "a file in spite of the refusal"; else good; fi

# A flash point that prints as that of the lowest component is not called lower than it.
run label "propan-2-ol 30 + isooctane 70"
tells "-12"
prints_not "below that of every component"

done_testing
