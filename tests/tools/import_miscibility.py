# SPDX-License-Identifier: GPL-3.0-or-later
"""Sources of tests/reference/miscibility.csv: what each part of a source text stands for.

RULES: (pattern of one part, keys of references, words that survive as a note or None). A part that
no pattern fits stops the conversion. A row is 'memory' as soon as any part of it is.
"""
import re

from import_sources import Unmapped

AQSOL = r"AqSolDB \(Sorkun et al\., Sci\. Data 6 \(2019\) 143\)"
LLE_COPY = (r"stored copy of a 2026 literature table \"Literature LLE Data for Binary Solvent Systems\" "
            r"\(compiled from IUPAC-NIST SDS\): ")
SDS56 = r"IUPAC Solubility Data Series vol\. 56, Alcohols with Hydrocarbons \(Shaw, Skrzecz, Lorimer, Maczynski, 1994\)"
CHARTS = r"published laboratory solvent-miscibility charts \([^)]*\)"
RIDDICK = r"Riddick, Bunger & Sakano, Organic Solvents, 4th ed\. \(Wiley, 1986\)"
FRANCIS = r"Francis(?: A\.W\., Critical Solution Temperatures, ACS Adv\. Chem\. Ser\. 31 \(1961\)| 1961)"
STEPHENSON = r"Stephenson(?: & Stuart)?(?:,? J\. Chem\. Eng\. Data \d+ \(\d+\) \d+-\d+ \([^)]*\)| 1986)"

RULES = [
    (AQSOL + r" lists the 1000 g/L convention for miscible", ["aqsoldb"], None),
    (AQSOL + r": ([\d.]+ g/L in water at 25 C)", ["aqsoldb"], r"\1"),
    (r"(?:organic-side solubility )?memory: " + RIDDICK, ["riddick1986"], None),
    (r"(?:organic-side solubility )?memory: " + STEPHENSON, ["stephenson"], None),
    (r"organic-side solubility memory: (supplier solubility figures \(.*\))", ["maker-memory"], r"\1"),
    (r"organic-side solubility memory: supplier data(?: \((.*)\))?", ["maker-memory"], r"\1"),
    (r"memory: silicone manufacturers solubility tables", ["maker-memory"], None),
    (r"memory: DMSO solubility bulletin 102B \(.*\)", ["maker-memory"], "a supplier's solubility bulletin"),
    (r"memory: manufacturer glycol handbook \((.*)\)", ["maker-memory"], r"\1"),
    (r"memory: " + SDS56, ["sds56"], None),
    (r"memory: inferred class from methanol \+ n-decane / n-nonane gaps \(IUPAC SDS 56\)", ["sds56", "own-miscible"],
     "inferred from the gaps with n-nonane and n-decane"),
    (r"memory: IUPAC-NIST Solubility Data Series 78 \(2002\)", ["sds78"], None),
    (r"memory: Bazyleva et al\., Pure Appl\. Chem\. \(2021\), doi 10\.1515/pac-2020-0905 \(IUPAC reference LLE system\)",
     ["bazyleva2021"], None),
    (LLE_COPY + r"(.*)", ["lle-table"], r"\1"),
    (r"memory: " + CHARTS, ["miscibility-charts"], None),
    (r"immiscible in " + CHARTS, ["miscibility-charts"], "immiscible in the charts"),
    (r"memory: " + FRANCIS + r"(?:, (UCST about \d+ C))?", ["francis1961"], r"\1"),
    (r"acetone \+ C10-C11 alkanes single phase at 25 C \(Francis 1961\)", ["francis1961"],
     "with C10 and C11 alkanes one phase at 25 degC"),
    (r"(?:memory: )?Fluid Phase Equilibria literature, (UCST about 47 C)", ["fpe-memory"], r"\1"),
    (r"memory: Gonzalez et al\., thermodynamics of mixtures containing a strongly polar compound, "
     r"NMP \+ alkanes \(Fluid Phase Equilibria\)", ["fpe-memory"], "thermodynamics of NMP + alkanes"),
    (r"memory: Gonzalez, dialkyl carbonate \+ alkane LLE \((.*)\)", ["fpe-memory"], r"\1"),
    (r"memory: dialkyl carbonate \+ alkane LLE, (.*)", ["fpe-memory"], r"\1"),
    (r"Lobos et al\., J\. Chem\. Eng\. Data 51 \(2006\) 623-627: abstract read, coexistence curve with a UCST",
     ["lobos2006"], "a coexistence curve with an upper critical temperature"),
    (r"(?:class at 25 C|UCST value) memory: same paper(?: \(rounded\))?", ["lobos2006-inside"], None),
    (r"Al-Jimaz et al\., J\. Chem\. Eng\. Data 50 \(2005\) 1740-1746(?: for dodecane| \((.*)\))?", ["al-jimaz2005"], r"\1"),
    (r"gap reported in Fluid Phase Equilibria 143 \(1998\) 111-123 \((.*)\)", ["fpe1998"], r"\1"),
    (r"single-phase VLE over the whole range: (doi \S+)(?: \(NIST ThermoML Archive\))?(, [\d.]+ K)?", ["thermoml"],
     r"one phase over the whole range, \1\2"),
    (r"(doi \S+): (limiting activity coefficient.*)", ["thermoml"], r"\2, \1"),
    (r"(limiting activity coefficient.*\(doi \S+\))", ["thermoml"], r"\1"),
    (r"memory: Drury, Ind\. Eng\. Chem\. 44 \(1952\) 2744(?: \((two layers)\) and Riddick et al\. 1986)?", ["drury1952"],
     r"\1"),
    (r"memory: conservation and paint-industry literature", ["common"], None),
    (r"((?:about|UCST) .*)", [], r"\1"),
    (r"petroleum fraction", [], "petroleum fraction"),
]
COMPILED = [(re.compile(pattern + r"\Z"), keys, words) for pattern, keys, words in RULES]

# Notes that speak of models, not of the pair.
NO_NOTE = ("no original-UNIFAC group",)


def parts(text):
    """Cuts at '; ' outside brackets."""
    depth, start = 0, 0
    for i, c in enumerate(text):
        depth += (c == "(") - (c == ")")
        if depth == 0 and text.startswith("; ", i):
            yield text[start:i]
            start = i + 2
    yield text[start:]


def source(text, note):
    keys, words = [], []
    for part in list(parts(text)) + [n for n in [note] if n and n not in NO_NOTE]:
        fitting = [(m, k, w) for r, k, w in COMPILED for m in [r.match(part)] if m] if part != note else [(None, [], note)]
        if not fitting:
            raise Unmapped("miscibility.csv: %r" % part)
        match, more, said = fitting[0]
        keys += more
        said = match.expand(said) if match and said else said
        if said and said not in words:
            words.append(said)
    said = "; ".join(words)
    said = re.sub(r"(\d) ?C\b", r"\1 degC", said)
    return ("memory" if "memory" in text else "checked"), keys, said or None
