# SPDX-License-Identifier: GPL-3.0-or-later
"""The source texts of the reference CSV files, each mapped to references, sureness and a note.

Every function raises Unmapped for a text it does not know, so that nothing gets lost.
"""
import re


class Unmapped(Exception):
    """A source text without an entry in these tables."""


# --- solvents-solubility.csv -----------------------------------------------------------------
VIA_DATA = "Hansen 2007 Table A.1 via Alshehri et al. 2022 data set"
VIA_WIKI = "Hansen 2007 Table A.1 via Wikipedia (de) 'Hansen-Loeslichkeitsparameter' (mirror)"
HSP_SOURCE = {
    VIA_DATA: ("checked", ["hansen2007", "alshehri2022"], None),
    VIA_WIKI: ("checked", ["hansen2007", "wiki-hansen"], None),
    "Hansen 2007 Table A.1 (single molecule) via Wikipedia (de) 'Hansen-Loeslichkeitsparameter' (mirror)":
        ("checked", ["hansen2007", "wiki-hansen"], "single-molecule row"),
    "memory: Hansen 2007 Table A.1": ("memory", ["hansen2007"], None),
    "memory: Hansen 2007 Table A.1, entry mineral spirits": ("memory", ["hansen2007"], "entry mineral spirits"),
    "memory: Barton 1991 / Hansen 2000 (1st ed.)": ("memory", ["barton1991", "hansen2000"], None),
    "derived: CRC Handbook enthalpy of vaporisation 48.97 kJ/mol and density 0.7463 g/cm3, total = sqrt((dHv - RT)/V)":
        ("estimate", ["crc95", "own-surrogate"], "total derived from CRC enthalpy of vaporisation 48.97 kJ/mol and density 0.7463"),
    "surrogate: n-hexane, " + VIA_WIKI: ("estimate", ["hansen2007", "wiki-hansen", "own-surrogate"], "surrogate n-hexane"),
    "surrogate: n-octane, memory: Hansen 2007 Table A.1": ("estimate", ["hansen2007", "own-surrogate"], "surrogate n-octane, itself from memory"),
    "surrogate: n-decane, memory: Hansen 2007 Table A.1": ("estimate", ["hansen2007", "own-surrogate"], "surrogate n-decane, itself from memory"),
    "surrogate: 2,2,4-trimethylpentane, " + VIA_DATA: ("estimate", ["hansen2007", "alshehri2022", "own-surrogate"], "surrogate isooctane"),
    "surrogate: 1,2,4-trimethylbenzene, " + VIA_DATA: ("estimate", ["hansen2007", "alshehri2022", "own-surrogate"], "surrogate trimethylbenzene-124"),
    "surrogate: alpha-pinene (2-pinene), " + VIA_DATA: ("estimate", ["hansen2007", "alshehri2022", "own-surrogate"], "surrogate alpha-pinene"),
}
SURROGATE = {"surrogate n-hexane": "n-hexane", "surrogate n-octane, itself from memory": "n-octane",
             "surrogate n-decane, itself from memory": "n-decane", "surrogate isooctane": "isooctane",
             "surrogate trimethylbenzene-124": "trimethylbenzene-124", "surrogate alpha-pinene": "alpha-pinene"}

WIKI = "Wikipedia (de) 'Hansen-Loeslichkeitsparameter' (mirror)"
BIG = "table 'SolubilityParameters' (biglobe page, columns Hansen/Hoy/Burrell)"
BLANK = " (zero components are blank in the data set)"
# A part of hsp_note -> (kind, references, words). Kinds: check (only references), note, conflict, vm (molar volume).
HSP_NOTE = {
    "checked: Alshehri et al. 2022 data set": ("check", ["alshehri2022"], None),
    "checked: Alshehri et al. 2022 data set" + BLANK: ("note", ["alshehri2022"], "zeros are blank in the data set"),
    "checked: " + WIKI: ("check", ["wiki-hansen"], None), WIKI: ("check", ["wiki-hansen"], None),
    WIKI + BLANK: ("note", ["wiki-hansen"], "zeros are blank in the data set"),
    BIG: ("check", ["biglobe"], None), BIG + BLANK: ("note", ["biglobe"], "zeros are blank in the data set"),
    "Stenutz Hansen table (cal units x 2.0455)": ("check", ["stenutz"], None),
    "memory only for the split": ("note", [], "memory only for the split"),
    "memory only": ("note", [], "memory only"),
    "no published HSP found": ("note", [], "no published split found"),
    "dp = dh = 0 set as in the handbook for saturated alkanes": ("note", [], "delta_p = delta_h = 0 set as for saturated alkanes"),
    "nearest published entry 2,2,4-trimethylpentane 14.1/0/0": ("note", [], "nearest published entry isooctane 14.1/0/0"),
    "older tables 14.3/0/0 (Stenutz page: 6.99 cal = 14.3)": ("conflict", ["stenutz"], "Hansen 14.1/0/0 used; 14.3/0/0 in older tables"),
    "the biglobe page gives dh 0": ("conflict", ["biglobe"], "delta_h 0.2 used; 0 on one page"),
    "this row = trans-decalin/mixture": ("note", [], "row of trans-decalin and the mixture"),
    "cis-decalin 18.8/0/0 (memory: Hansen 2007)": ("conflict", ["hansen2007"], "Hansen 18.0/0/0 used; cis isomer 18.8/0/0 (memory)"),
    "nearest published entry n-hexane (fraction is C5-C6": ("note", [], "the cut is C5-C6"),
    "n-pentane is 14.5/0/0)": ("note", [], "n-pentane is 14.5/0/0"),
    "nearest published entry n-octane (bp 126 C)": ("note", [], "n-octane boils at 126 degC"),
    "naphthenes raise dd a little": ("note", [], "naphthenes raise delta_d a little"),
    "published Teas of V.M.&P. naphtha shows some p and h": ("note", [], "published Teas shows some p and h"),
    "the handbook molar volume 125 (memory) looks too low for C9-C12 (about 180), so the cell is empty": ("vm", ["hansen2007"], None),
    "nearest published entry n-decane": ("check", [], None),
    "naphthenic grades lie a little higher (towards 16)": ("note", [], "naphthenic grades lie a little higher (towards 16)"),
    "nearest published branched-alkane entry": ("check", [], None),
    "real fraction expected a little higher (see isododecane 14.3)": ("note", [], "real cut expected a little higher (isododecane 14.3)"),
    "published Teas (78/8/14) is far from this (90/0/10)": ("check", [], None),
    "HSP row is o-xylene, the only xylene in the handbook list": ("note", [], "row of o-xylene, the only xylene listed"),
    "isomer split not published": ("check", [], None),
    "nearest published entry trimethylbenzene": ("check", [], None),
    "handbook also has high-flash naphtha 17.9/0.7/1.8 (memory)": ("conflict", ["hansen2007"], "Hansen 18.0/1.0/1.0 used; entry high-flash naphtha 17.9/0.7/1.8 (memory)"),
    "data set entry dipentene (racemate)": ("note", [], "entry dipentene (racemate)"),
    "published Teas (75/20/5) has p and h the other way round": ("conflict", [], "published Teas has p and h the other way round"),
    "nearest published entry 2-pinene": ("check", [], None),
    "DISAGREES with published Teas 77/18/5 (this gives 78/8/14)": ("check", [], None),
    "later revision 17.0/7.3/7.1 (seen in a Numerade course exercise)": ("conflict", ["course-hansen"], "Hansen 18.2/6.3/6.1 used; 17.0/7.3/7.1 in a later revision (seen)"),
    "total 20.2 vs 20.0": ("note", [], "total 20.2 against 20.0"),
    "older tables 17.0/4.3/2.0 (memory: Barton 1991)": ("conflict", ["barton1991"], "Hansen 16.8/4.3/2.0 used; 17.0/4.3/2.0 in older tables (memory)"),
    "older tables 19.0/6.5/2.9 (memory: Barton 1991)": ("conflict", ["barton1991"], "Hansen 18.3/5.7/0 used; 19.0/6.5/2.9 in older tables (memory)"),
    "the copy of the data set inside a general chemistry library lists 18.8/5.1/5.3 under this CAS (a CAS mix-up)": ("conflict", [], "18.8/5.1/5.3 under this CAS in one copy of the data set (a mix-up)"),
    "published Teas (45/36/19) is far from this (51/24/25)": ("check", [], None),
    "data set entry amyl acetate (n-pentyl structure)": ("note", [], "entry amyl acetate (n-pentyl structure)"),
    "total 18.7 against Hildebrand 20.2 in the data set": ("check", [], None),
    "older tables 16.6/3.1/6.1 (memory: Barton 1991)": ("conflict", ["barton1991"], "Hansen 15.1/6.3/3.5 used; 16.6/3.1/6.1 in older tables (memory)"),
    "the published Teas position follows the older one - p and h change places": ("conflict", [], "published Teas follows the older Hansen values"),
    "later tables 18.0/16.6/7.4 (memory)": ("conflict", ["hansen2007"], "Hansen delta_d 19.0 used; 18.0 in later tables (memory)"),
    "total 26.3 (19.0) or 25.6 (18.0) against Hildebrand 25.7 in the data set": ("note", [], "total 26.3, or 25.6 with delta_d 18.0, against Hildebrand 25.7"),
    "later revision 14.7/12.3/22.3 (memory)": ("conflict", ["hansen2007"], "Hansen delta_d 15.1 used; 14.7 in a later revision (memory)"),
    "data set entry drawn as the linear isomer": ("note", [], "entry of the linear isomer"),
    "commercial DPM is an isomer mixture": ("note", [], "the commercial product is an isomer mixture"),
    "later revision 17.5/1.8/9.0 (memory)": ("conflict", ["hansen2007"], "Hansen 19.0/1.8/7.4 used; 17.5/1.8/9.0 in a later revision (memory)"),
    "total 21.4 against Hildebrand 23.2 in the data set": ("check", [], None),
    "same value in all tables seen (total 26.7)": ("note", [], "same value in all tables seen"),
    "total 24.9 against Hildebrand 21.5 from vaporisation enthalpy (vapour dimers) - do not mix the two": ("note", [], "vapour dimers lower the Hildebrand value"),
    "total 21.4 against Hildebrand 19.0 from vaporisation enthalpy (vapour dimers) - do not mix the two": ("note", [], "vapour dimers lower the Hildebrand value"),
    "single-molecule row": ("check", [], None),
    "handbook also lists 18.1/17.1/16.9 (from 1 % solubility correlation) and 15.1/20.4/16.5 (total miscibility correlation) (memory: Hansen 2007)":
        ("conflict", ["hansen2007"], "Hansen single-molecule row used; 18.1/17.1/16.9 (1 % solubility) and 15.1/20.4/16.5 (miscibility) also listed (memory)"),
    "biglobe page 15.6/16.0/42.3": ("conflict", ["biglobe"], "Hansen delta_d 15.5 used; 15.6 on one page"),
    "no published split found outside program data, left empty": ("nosplit", [], "no published Hansen split found"),
    "dispersion-dominated, only the total is known (see hildebrand)": ("nosplit", [], "dispersion-dominated, only the total is known"),
}
HSP_NOTE_PATTERNS = [
    (re.compile(r"(?:memory only for the split, )?total checked: Alshehri et al\. 2022 data set Hildebrand ([0-9.]+)(?: and CRC vaporisation enthalpy ([0-9.]+) \(saturated alkane, dp = dh = 0\))?$"),
     lambda m: ("note", ["alshehri2022"] + (["crc95"] if m.group(2) else []),
                "total checked: Hildebrand " + m.group(1) + (" and " + m.group(2) + " from CRC enthalpy" if m.group(2) else ""))),
]
VM_SOURCE = {
    "Alshehri et al. 2022 data set 25 C": ("checked", ["alshehri2022"], None),
    "CRC Handbook density 20 C": ("checked", ["crc95"], "from the density at 20 degC"),
    "CRC Handbook density 25 C": ("checked", ["crc95"], None),
    "VDI Heat Atlas density correlation 25 C": ("checked", ["vdi2010"], None),
    "mean of cis/trans from CRC Handbook densities": ("estimate", ["crc95"], "mean of cis and trans"),
    "mean of o/m/p in Alshehri et al. 2022 data set": ("estimate", ["alshehri2022"], "mean of the three isomers"),
    "surrogate n-hexane, Alshehri et al. 2022 data set": ("estimate", ["alshehri2022", "own-surrogate"], "surrogate n-hexane"),
    "surrogate n-octane, Alshehri et al. 2022 data set": ("estimate", ["alshehri2022", "own-surrogate"], "surrogate n-octane"),
    "surrogate n-decane, Alshehri et al. 2022 data set": ("estimate", ["alshehri2022", "own-surrogate"], "surrogate n-decane"),
    "surrogate trimethylbenzene, Alshehri et al. 2022 data set": ("estimate", ["alshehri2022", "own-surrogate"], "surrogate trimethylbenzene-124"),
    "surrogate alpha-pinene, Alshehri et al. 2022 data set": ("estimate", ["alshehri2022", "own-surrogate"], "surrogate alpha-pinene"),
    "density 0.919 g/cm3 at 25 C (memory: HSDB/PubChem)": ("memory", ["hsdb"], "from density 0.919 g/cm3 at 25 degC"),
    "handbook 93.8 (memory) and CRC 93.7 come from density 0.962, which looks wrong": ("more", ["hansen2007", "crc95"], "93.7 and 93.8 in tables that use density 0.962, which looks wrong"),
}
BURKE = "memory: Burke 1984, table of fractional parameters (after Gardon & Teas 1976)"
TEAS_TAIL = {
    "": ([], None, None),
    " - its entry V.M.&P. naphtha": ([], "entry VM&P naphtha", None),
    " - its entry mineral spirits": ([], "entry mineral spirits", None),
    " - its entry dipentene": ([], "entry dipentene", None),
    " - its entry turpentine": ([], "entry turpentine", None),
    " - its entry isoamyl acetate; Burke has no n-pentyl acetate row": ([], "entry isoamyl acetate, none for n-pentyl acetate", None),
    "; not read, but supported: part of a published equivalent of n-butyl acetate that fits within 1.6 units (Ricci et al. 2020, example 16)":
        (["ricci2020"], "supported: part of a published equivalent of n-butyl acetate, fits within 1.6", None),
    "; Feller 1976 works with fd 96 (memory); not read, but supported: published xylene substitute 74:26 with ethyl acetate fits within 1.2 units (example 11)":
        (["boelsums", "feller1976"], "supported: published xylene substitute with ethyl acetate fits within 1.2", "Teas fd 94 used; 96 in another set (memory)"),
    " - its entry o-xylene; not read, but supported: published substitute ethyl acetate-cyclohexane 26:74 fits within 1.2 units (example 11)":
        (["boelsums"], "entry o-xylene; supported: published substitute fits within 1.2", None),
    "; not read, but supported: published xylene substitute 26:74 with cyclohexane fits within 1.2 units (example 11 of solvents-solubility.md)":
        (["boelsums"], "supported: published xylene substitute with cyclohexane fits within 1.2", None),
    "; not read, but supported: a published three-part equivalent of it lands within 1.6 units (Ricci et al. 2020, example 16 of solvents-solubility.md)":
        (["ricci2020"], "supported: a published three-part equivalent fits within 1.6", None),
    "; another published set has 38/17/45 (memory: Horie 1987)": (["horie1987"], None, "Teas 41/18/41 used; 38/17/45 in another set (memory)"),
}
HILDEBRAND = {
    "Alshehri et al. 2022 data set": ("checked", ["alshehri2022"], None),
    "derived: CRC Handbook enthalpy of vaporisation 48.97 kJ/mol and density": ("estimate", ["crc95"], "from enthalpy of vaporisation and density"),
    "memory: Burke 1984, Hildebrand table, entry white spirit": ("memory", ["burke1984"], "entry white spirit"),
    "memory: Burke 1984, Hildebrand table, entry turpentine": ("memory", ["burke1984"], "entry turpentine"),
    "Shinoda & Hildebrand 1957 (6.4 cal units from energy of vaporisation; behaves like 8.2 cal = 16.8 towards iodine), checked on the abstract page":
        ("checked", ["shinoda1957"], "6.4 in calorie units from energy of vaporisation; behaves like 16.8 towards iodine"),
    "memory: Vaughan, Cosmet. Toiletries 103 (1988) 47 (5.77 cal units)": ("memory", ["vaughan1988"], "5.77 in calorie units"),
    "Alshehri et al. 2022 data set, mean of o 18.4, m 18.0, p 17.9": ("estimate", ["alshehri2022"], "mean of o 18.4, m 18.0, p 17.9"),
}


def hildebrand(text):
    m = re.match(r"Alshehri et al\. 2022 data set; CRC vaporisation enthalpy gives ([0-9.]+)$", text)
    if m:
        return "checked", ["alshehri2022", "crc95"], m.group(1) + " from CRC enthalpy"
    m = re.match(r"Encyclopedia of Polymer Technology 2nd ed\. table on the Missouri S&T page 'Examples of Solubility "
                 r"Parameters'; CRC vaporisation enthalpy gives ([0-9.]+); Burke ([0-9.]+) \(memory\)$", text)
    if m:
        return ("checked", ["polymer-encyclopedia", "crc95", "burke1984"],
                "%s from CRC enthalpy; %s in Burke 1984 (memory)" % m.groups())
    return known(HILDEBRAND, text, "hildebrand_source")


def known(table, text, where):
    if text not in table:
        raise Unmapped("%s: %r" % (where, text))
    return table[text]


def hsp_note_part(text):
    for pattern, make in HSP_NOTE_PATTERNS:
        m = pattern.match(text)
        if m:
            return make(m)
    return known(HSP_NOTE, text, "hsp_note")


def teas(text):
    if not text.startswith(BURKE):
        raise Unmapped("teas_source: %r" % text)
    refs, note, conflict = known(TEAS_TAIL, text[len(BURKE):], "teas_source")
    return ["burke1984", "gardon-teas1976"] + refs, note, conflict


# --- solvents-physical.csv -------------------------------------------------------------------
# Plain sources: text -> (references, note).
PLAIN = {
    "formula with IUPAC 2021 weights": (["iupac2021"], None),
    "CRC": (["crc95"], None), "Poling": (["poling2000"], None), "Poling-Wagner": (["poling2000"], None),
    "Landolt": (["landolt"], None), "Perry": (["perry2007"], None), "VDI": (["vdi2010"], None),
    "WebBook": (["webbook"], None), "Gharagheizi": (["gharagheizi"], None), "Jasper": (["jasper1972"], None),
    "Mulero": (["mulero2012"], None), "Dutt-Prasad": (["dutt-prasad"], None), "Yaws-Tb": (["yaws2014"], None),
    "Yaws": (["yaws-antoine"], None), "IEC": (["iec60079"], None), "NFPA497": (["nfpa497"], None),
    "DIPPR-Serat": (["serat2017"], None), "Wikidata": (["wikidata"], None), "ChemSep": (["chemsep"], None),
    "HEOS": (["heos"], None), "HEOS (REFPROP transport model)": (["heos"], "transport model of the equation of state"),
    "CoolProp": (["coolprop"], None), "thermo-fit": (["thermo-fit"], None), "Lomba2014": (["lomba2014"], None),
    "DK-EPA-2003": (["dk-epa2003"], None), "MSDS-PMA": (["supplier-pages"], None),
    "Propyl-supplier": (["supplier-pages"], None), "MSDS-cyclohexanone": (["supplier-pages"], None),
    "Montgomery2007": (["montgomery2007"], None), "NTP-DCM": (["ntp-dcm"], None), "NTP-DMSO": (["ntp-dmso"], None),
    "Wikipedia-PGMEA": (["wiki-pgmea"], None), "DMC-presentation": (["dmc-presentation"], None),
    "DMC-presentation (63 F)": (["dmc-presentation"], "63 degF"), "maker-quoted": (["glycol-ether-quoted"], None),
    "ILPI": (["safety-glossary"], None), "ILPI (VM&P naphtha)": (["safety-glossary"], "entry VM&P naphtha"),
    "ILPI (DMC-presentation 6.3)": (["safety-glossary", "dmc-presentation"], "6.3 in another list"),
    "ILPI (DMC-presentation 3.9)": (["safety-glossary", "dmc-presentation"], "3.9 in another list"),
    "ILPI (95 % ethanol)": (["safety-glossary"], "of ethanol 95 %"),
    "evaporation-list": (["evaporation-list"], None), "evaporation-list (approximate)": (["evaporation-list"], "approximate"),
    "BuAc-sheet (n-butyl acetate is 12.1 on the ether=1 scale)": (["supplier-pages"], "n-butyl acetate is 12.1 on the scale ether = 1"),
    "definition of the scale": (["scale-nbuac"], None),
    "EHC187 regular-flash grade": (["ehc187"], "regular-flash grade"),
    "EHC187 regular-flash grade (average)": (["ehc187"], "regular-flash grade, average"),
    "EHC187 regular-flash grade (at 15 C)": (["ehc187"], "regular-flash grade, at 15 degC"),
    "EHC187 regular-flash grade at 20 C": (["ehc187"], "regular-flash grade"),
    "NPG turpentine": (["npg-read"], None), "NPG VM&P naphtha": (["npg-read"], "entry VM&P naphtha"),
    "NPG VM&P naphtha (range 20-55 F)": (["npg-read"], "entry VM&P naphtha, lower end of 20-55 degF"),
    "NPG VM&P naphtha (lower end of 0.73-0.76 at 15.6 C)": (["npg-read"], "entry VM&P naphtha, lower end of 0.73-0.76 at 15.6 degC"),
    "NPG turpentine (middle of 154-170 C)": (["npg-read"], "middle of 154-170 degC"),
    "NPG turpentine (4 mmHg) at 20 C": (["npg-read"], "4 mmHg"),
    "CRC (temperature not stated)": (["crc95"], "temperature not stated"),
    "IEC (lower) and Wikidata (upper)": (["iec60079", "wikidata"], None),
}
DOI = re.compile(r"ThermoML (?:at 25 C )?\((10\.[^)]+)\)$")
ESTIMATES = {
    "CRC mean of cis 195.8 and trans 187.3": (["crc95"], "mean of cis 195.8 and trans 187.3"),
    "CRC mean of cis 0.8965 (20 C) and trans 0.8659 (25 C)": (["crc95"], "mean of cis 0.8965 (20 degC) and trans 0.8659 (25 degC)"),
    "WebBook mean of cis 50.3 and trans 46.4": (["webbook"], "mean of cis 50.3 and trans 46.4"),
    "ChemSep geometric mean of cis 3.03 and trans 1.94": (["chemsep"], "geometric mean of cis 3.03 and trans 1.94"),
    "thermo-fit mean of cis 32.2 and trans 29.9": (["thermo-fit"], "mean of cis 32.2 and trans 29.9"),
    "thermo-fit (extrapolated from 25 C)": (["thermo-fit"], "extrapolated from 25 degC"),
    "middle of the nominal range 100-140 C": (["cut-range"], None),
    "middle of the nominal range 40-60 C": (["cut-range"], None),
    "derived: slope of the Antoine curve at 25 C (ideal vapour)": (["own-antoine"], "slope of the Antoine curve at 25 degC, ideal vapour"),
    "surrogate 1,2,4-trimethylbenzene": (["own-surrogate"], "surrogate trimethylbenzene-124"),
    "surrogate 2,2-dimethylbutane": (["own-surrogate"], "surrogate 2,2-dimethylbutane"),
    "surrogate 2-methylheptane": (["own-surrogate"], "surrogate 2-methylheptane"),
}
for _t, _o in (("24", "Perry"), ("25", "Perry"), ("25", "ChemSep")):
    ESTIMATES["CRC value at %s C taken to 20 C with the %s equation" % (_t, _o)] = (
        ["crc95"] + PLAIN[_o][0], "moved from %s degC" % _t)
# Remembered sources: text after "memory: " -> (references, note).
MEMORY = {
    "supplier safety data sheets": (["sds-memory"], None),
    "supplier safety data sheets (reported as below -20 C)": (["sds-memory"], "upper bound: reported as below -20 degC"),
    "supplier data sheets": (["maker-memory"], None), "supplier data sheets (typical)": (["maker-memory"], "typical"),
    "supplier data sheets (typical average)": (["maker-memory"], "typical average"),
    "supplier data sheets (typical for a 160-200 C dearomatised cut)": (["maker-memory"], "typical for a dearomatised cut 160-200 degC"),
    "supplier data sheets (typical for the 40-60 C cut)": (["maker-memory"], "typical for the cut 40-60 degC"),
    "a maker's solvent tables": (["maker-memory"], None),
    "a maker's solvent tables (mixed amyl acetates)": (["maker-memory"], "mixed amyl acetates"),
    "a maker's solvent tables (other tables 27.5)": (["maker-memory"], "27.5 in other tables"),
    "a maker's chlorinated-solvent literature (other tables 12.8)": (["maker-memory"], "12.8 in other tables"),
    "a maker's data sheet": (["maker-memory"], None),
    "a maker's data sheet (reported as below 0.005)": (["maker-memory"], "upper bound: reported as below 0.005"),
    "a maker's glycol-ether data sheet": (["maker-memory"], None),
    "a maker's glycol-ether data sheet (at 25 C)": (["maker-memory"], "at 25 degC"),
    "a maker's bulletin": (["maker-memory"], None), "a maker's product guide": (["maker-memory"], None),
    "makers' glycol-ether tables": (["maker-memory"], None), "makers' data sheets": (["maker-memory"], None),
    "CRC Handbook": (["crc-memory"], None), "NFPA 325": (["nfpa325"], None),
    "NFPA 325 (VM&P naphtha)": (["nfpa325"], "entry VM&P naphtha"), "EHC187": (["ehc187"], None),
    "NIOSH Pocket Guide": (["npg"], None), "Riddick Bunger & Sakano 1986": (["riddick1986"], None),
    "Xu 2004 Chem. Rev. 104 4303": (["xu2004"], None), "Smallwood 1996": (["smallwood1996"], None),
    "ASTM D235 (EHC187 regular grade 31-54 C)": (["astm-d235", "ehc187"], "specification minimum; regular grade 31-54 degC"),
    "ICSC": (["icsc"], None),
}
MEMORY_PATTERNS = [
    (re.compile(r"ICSC (\d+)$"), lambda m: (["icsc"], "card " + m.group(1))),
    (re.compile(r"supplier data sheets \(middle of (\d+-\d+) C\)$"), lambda m: (["maker-memory"], "middle of %s degC" % m.group(1))),
]
SURROGATE_NAME = re.compile(r"(?:surrogate )?(m-xylene|1,2,4-trimethylbenzene|2,2-dimethylbutane|2-methylheptane|alpha-pinene|isododecane|n-decane|n-nonane) (.+)$")
EQUATION = " equation (independent of the Antoine row)"


def plain(text):
    """A source read as it stands -> (sure, refs, note)."""
    if text in PLAIN:
        return ("checked",) + PLAIN[text]
    m = DOI.match(text)
    if m:
        return "checked", ["thermoml"], ("at 25 degC, " if "at 25 C" in text else "") + "doi " + m.group(1)
    raise Unmapped("physical source: %r" % text)


def physical(text):
    """Source of one quantity of solvents-physical.csv -> (sure, refs, note)."""
    if text.startswith("memory: "):
        rest = text[len("memory: "):]
        for pattern, make in MEMORY_PATTERNS:
            m = pattern.match(rest)
            if m:
                return ("memory",) + make(m)
        return ("memory",) + known(MEMORY, rest, "remembered source")
    if text in ESTIMATES:
        return ("estimate",) + ESTIMATES[text]
    m = SURROGATE_NAME.match(text)
    if m:
        _, refs, note = physical(m.group(2))
        return "estimate", refs + ["own-surrogate"], join("surrogate " + m.group(1), note)
    return plain(text)


def join(*notes):
    return "; ".join(n for n in notes if n) or None


# Flammable limits with one source for each end: text -> (lower, upper).
SPLIT_LIMITS = {
    "IEC (lower) and memory: ICSC 1063 (upper)": ("IEC", "memory: ICSC 1063"),
    "NTP-DMSO (lower) and memory: ICSC 0459 (upper)": ("NTP-DMSO", "memory: ICSC 0459"),
    "IEC (lower) and Wikidata (upper)": ("IEC", "Wikidata"),
}
OWN_ROW = "the Antoine row itself (no better independent equation)"
# Vapour pressures with one source for each temperature: text -> (20 C, 25 C); None = the Antoine row.
SPLIT_PRESSURES = {
    "nBuAc-summary (1.2 kPa at 20 C) and Haz-Map (11.5 mmHg at 25 C)":
        (("checked", ["nbuac-summary"], None), ("checked", ["haz-map"], "11.5 mmHg")),
    "DK-EPA-2003 at 20 C": (("checked", ["dk-epa2003"], None), None),
    "DK-EPA-2003 at 20 C and the Antoine row at 25 C": (("checked", ["dk-epa2003"], None), None),
    "EHC187 regular-flash grade at 20 C": (("checked", ["ehc187"], "regular-flash grade"), None),
    "NPG turpentine (4 mmHg) at 20 C": (("checked", ["npg-read"], "4 mmHg"), None),
    "NTP-DMSO (0.42 mmHg) at 20 C and the Antoine row at 25 C": (("checked", ["ntp-dmso"], "0.42 mmHg"), None),
    "PMA-supplier (3.8 mmHg) at 25 C and the Antoine row at 20 C": (None, ("checked", ["supplier-pages"], "3.8 mmHg")),
}


def antoine(text):
    """-> (kind, sure, refs, note)."""
    m = SURROGATE_NAME.match(text)
    if m:
        inner = m.group(2)
        if inner.startswith("("):
            inner = inner[1:-1]
        _, _, refs, note = antoine(inner)
        return "surrogate", "estimate", refs + ["own-surrogate"], join("surrogate " + m.group(1), note)
    m = re.match(r"own refit of (\S+) \(max deviation ([0-9.]+) % at 10-40 C\)$", text)
    if m:
        return ("refit", "estimate", plain(m.group(1))[1] + ["own-antoine"],
                "refit within %s %% at 10-40 degC" % m.group(2))
    derived = {
        "derived: Landolt curve at 120 and 200 C with the slope at 25 C set to the Gharagheizi enthalpy 52.4 kJ/mol":
            (["landolt", "gharagheizi"], "curve at 120 and 200 degC, slope at 25 degC from enthalpy 52.4 kJ/mol"),
        "derived: Landolt curve at 90 and 240 C with the slope at 25 C set to the Gharagheizi enthalpy 66.3 kJ/mol":
            (["landolt", "gharagheizi"], "curve at 90 and 240 degC, slope at 25 degC from enthalpy 66.3 kJ/mol"),
        "derived: through the Yaws curve at 100 C and the boiling point with the slope at 25 C set to the CRC enthalpy 48.97 kJ/mol":
            (["yaws-antoine", "crc95"], "curve at 100 degC and the boiling point, slope at 25 degC from enthalpy 48.97 kJ/mol"),
        "derived: two points (0.037 kPa at 20 C and the boiling point 189.6 C from [DK-EPA-2003]) with C=239-0.19*Tb (Thomson rule)":
            (["dk-epa2003"], "two points (0.037 kPa at 20 degC, boiling point 189.6 degC), C = 239 - 0.19 Tb (Thomson's rule)"),
        "derived: two points (3.8 mmHg at 25 C from a supplier page [PMA-supplier] and the boiling point 145.8 C) with C=239-0.19*Tb (Thomson rule)":
            (["supplier-pages"], "two points (3.8 mmHg at 25 degC, boiling point 145.8 degC), C = 239 - 0.19 Tb (Thomson's rule)"),
        "own fit to an ideal 50:50 mole mixture of the Landolt cis and trans curves":
            (["landolt"], "fit to an ideal 50:50 mole mixture of the cis and trans curves"),
        "own least-squares fit to 25 measured points of [Lomba2014]":
            (["lomba2014"], "least-squares fit to 25 measured points"),
    }
    if text in derived:
        refs, note = derived[text]
        return "derived", "estimate", refs + ["own-antoine"], note
    sure, refs, note = plain(text)
    return "published", sure, refs, note


# --- exposure-limits.csv ---------------------------------------------------------------------
EH40 = ("HSE EH40/2005 Workplace exposure limits, 4th ed. 2020, Table 1 (Open Government Licence), read in a copy of "
        "the HSE PDF of January 2020")
IDLH_DOC = "NIOSH IDLH documentation (May 1994)"
FR = "checked indirectly: same figures in the French transposition, Code du travail art. R4412-149 (text of 1 September 2020)"
TR = ("read indirectly: same figures in a public machine-readable copy of the IOELV directives and in the Turkish "
      "transposition (Official Gazette no. 32345, 20 October 2023, Annex 1)")
LIMIT_SOURCE = {
    EH40: ("checked", ["eh40"], None),
    EH40 + "; entry 'pentyl acetates, all isomers'": ("checked", ["eh40"], "entry pentyl acetates, all isomers"),
    EH40 + "; entry 'ethane-1,2-diol, vapour'": ("checked", ["eh40"], "entry vapour"),
    EH40 + "; entry 'trimethylbenzenes, all isomers or mixtures'": ("checked", ["eh40"], "entry trimethylbenzenes, all isomers or mixtures"),
    EH40 + "; entry 'propane-1,2-diol, total vapour and particulates'": ("checked", ["eh40"], "entry total vapour and particulates"),
    "NIOSH REL, as quoted by " + IDLH_DOC: ("checked", ["niosh-rel"], None),
    "29 CFR 1910.1000 Table Z-1, as quoted by " + IDLH_DOC: ("checked", ["osha-z1"], None),
    "29 CFR 1910.1000 Table Z-2, as quoted by " + IDLH_DOC: ("checked", ["osha-z2"], None),
    "29 CFR 1910.1000 Table Z-1 / NIOSH, entry petroleum distillates (naphtha), as quoted by " + IDLH_DOC:
        ("checked", ["osha-z1", "niosh-rel"], "entry petroleum distillates (naphtha)"),
    "29 CFR 1910.1028 (benzene standard), as quoted by " + IDLH_DOC: ("checked", ["osha-benzene"], None),
    "NIOSH revised IDLH, " + IDLH_DOC: ("checked", ["niosh-idlh"], None),
    "NIOSH revised IDLH, NIOSH IDLH documentation (May 1994), read in a mirror text of the page": ("checked", ["niosh-idlh"], "read in a mirror text"),
    "NIOSH IDLH (Pocket Guide, 1994 ed.), read in a table of a site health and safety plan hosted by a US county": ("checked", ["niosh-idlh-plan"], None),
    "NIOSH IDLH documentation (May 1994): 10 % of the LEL = 2000 ppm; that the IDLH is 10 % of the LEL read on Haz-Map": ("checked", ["niosh-idlh", "haz-map"], "10 % of the lower limit; that this is the IDLH was read elsewhere"),
    "NIOSH IDLH as quoted by Haz-Map (agent page for acetonitrile)": ("checked", ["haz-map"], None),
    "NIOSH IDLH as quoted by Haz-Map (agent page for pyridine)": ("checked", ["haz-map"], None),
    "29 CFR 1910.1000 Table Z-1, as quoted by the US National Academies Laboratory Chemical Safety Summary for pyridine": ("checked", ["osha-z1-nas"], None),
    "29 CFR 1910.1052 (methylene chloride standard), as summarised by a university safety office (Youngstown State) and the OSHA rule preamble": ("checked", ["osha-dcm"], None),
    "memory: 29 CFR 1910.1000 Table Z-1": ("memory", ["osha-z1-memory"], None),
    "memory: NIOSH Pocket Guide to Chemical Hazards, DHHS (NIOSH) 2005-149": ("memory", ["npg"], None),
    "memory: NIOSH Pocket Guide to Chemical Hazards, DHHS (NIOSH) 2005-149 (OSHA 1989 rule text, seen, records that NIOSH concurred with 25 ppm)": ("memory", ["npg"], "the OSHA rule text of 1989, read, records that NIOSH agreed with 25 ppm"),
    "memory: NIOSH Pocket Guide to Chemical Hazards, DHHS (NIOSH) 2005-149 (NIOSH IDLH page, seen, gives 10 % of the LEL as 3300 ppm; revised line not seen)": ("memory", ["npg", "niosh-idlh"], "the page read gives 10 % of the lower limit as 3300 ppm"),
    "memory: NIOSH Pocket Guide to Chemical Hazards, DHHS (NIOSH) 2005-149 (NIOSH IDLH page, seen, gives 10 % of the LEL as 2000 ppm; revised line not seen)": ("memory", ["npg", "niosh-idlh"], "the page read gives 10 % of the lower limit as 2000 ppm"),
    "memory: NIOSH Pocket Guide to Chemical Hazards, DHHS (NIOSH) 2005-149 (NIOSH IDLH page, seen, derives 1600 ppm; revised line not seen)": ("memory", ["npg", "niosh-idlh"], "the page read derives 1600 ppm"),
    "Directive 2000/39/EC; " + FR: ("checked", ["eu-2000-39", "fr-r4412"], None),
    "Directive 2000/39/EC; " + TR: ("checked", ["eu-2000-39", "tr-list"], None),
    "Directive 2000/39/EC; " + TR + " and on a glycol-ether trade association page": ("checked", ["eu-2000-39", "tr-list", "glycol-association"], None),
    "Directive 2000/39/EC; checked indirectly: quoted in a German safety data sheet": ("checked", ["eu-2000-39", "trgs900-sds"], "quoted in a safety data sheet"),
    "Directive 2006/15/EC; " + FR: ("checked", ["eu-2006-15", "fr-r4412"], None),
    "Directive 2006/15/EC; " + TR: ("checked", ["eu-2006-15", "tr-list"], None),
    "Directive (EU) 2017/164; " + TR: ("checked", ["eu-2017-164", "tr-list"], None),
    "Directive (EU) 2017/164; " + FR: ("checked", ["eu-2017-164", "fr-r4412"], None),
    "Directive (EU) 2017/164; checked indirectly: same figures in a later French transposition text": ("checked", ["eu-2017-164", "fr-r4412"], "later text"),
    "Directive (EU) 2017/164; read indirectly: same figures in a public machine-readable copy of the IOELV directives": ("checked", ["eu-2017-164", "eu-copy"], None),
    "Directive (EU) 2019/1831, annex table (checked)": ("checked", ["eu-2019-1831"], None),
    "Directive 2009/161/EU, annex table (checked)": ("checked", ["eu-2009-161"], None),
    "Directive 2009/161/EU, annex table (checked); a binding limit (proposed 18 July 2025: 2 ppm, 7.3 mg/m3; short term 20 ppm, 73 mg/m3) was provisionally agreed in June 2026, final text not seen":
        ("checked", ["eu-2009-161"], "binding limit proposed 18 July 2025 (2 ppm, 7.3 mg/m3; short term 20 ppm, 73 mg/m3), provisionally agreed June 2026, final text not seen"),
    "Directive 91/322/EEC, annex table (checked)": ("checked", ["eu-91-322"], None),
    "Directive 2004/37/EC Annex III (binding), as amended by Directive (EU) 2022/431; annex text checked": ("checked", ["eu-2004-37"], None),
    "Directive 2004/37/EC Annex III (binding), as amended by Directive (EU) 2022/431; annex text checked; figures and date also read on the ECHA substance page": ("checked", ["eu-2004-37"], "also read on the ECHA substance page"),
    "memory: TRGS 900 Arbeitsplatzgrenzwerte (edition 2006, amended to 2024)": ("memory", ["trgs900-memory"], None),
    "memory: TRGS 900 Arbeitsplatzgrenzwerte (edition 2006, amended to 2024) (that it has a limit of its own, outside the group limits, was read in the amendment of 21 February 2019, GMBl 2019 p. 117)":
        ("memory", ["trgs900-memory", "trgs900-2019"], "that it has a limit of its own was read"),
    "memory: TRGS 900 no. 2.9, group limits for hydrocarbon solvent mixtures (2017/2018 revision; the scheme, not the figures, was checked in Gefahrstoffe - Reinhaltung der Luft, February 2018)":
        ("memory", ["trgs900-groups"], None),
    "TRGS 900, as quoted in a German safety data sheet (checked)": ("checked", ["trgs900-sds"], None),
    "TRGS 900, as quoted in a supplier safety data sheet for solvent wipes of 24 May 2016 (short term 20 ppm, 112 mg/m3)": ("checked", ["trgs900-sds"], "sheet of 24 May 2016; short term 20 ppm, 112 mg/m3"),
    "TRGS 900, amendment of 2 March 2011, GMBl 2011 p. 193": ("checked", ["trgs900-2011"], None),
    "TRGS 900, amendment of 31 May 2022, GMBl 2022 p. 469": ("checked", ["trgs900-2022"], None),
    "TRGS 900 (AGW, skin, Z), as quoted on an undated page of a German healthy-building association; excursion factor not seen there": ("checked", ["trgs900-pages"], "undated page; excursion factor not seen there"),
    "TRGS 900 value, as quoted on an undated occupational-safety page of a German legal publisher; excursion factor not seen there": ("checked", ["trgs900-pages"], "undated page; excursion factor not seen there"),
    "TRGS 900 value in mg/m3, read in a table of German limits for carcinogens in a trade journal, issue 01/2024, p. 12; ppm, remarks and excursion factor not seen there": ("checked", ["trgs900-pages"], "only the mg/m3 figure was read; ppm, remarks and excursion factor from memory"),
    "40 CFR 751.109 (89 FR 39254, May 2024), as quoted by AIHA, 18 July 2024": ("checked", ["epa-dcm"], None),
    "EPA rule under TSCA, 40 CFR 751 (89 FR 102568, December 2024), as quoted in AIHA Synergist NewsWatch, February 2025": ("checked", ["epa-tce-pce"], None),
    "EPA rule under TSCA, 40 CFR 751 (89 FR 103560, December 2024), as quoted in AIHA Synergist NewsWatch, February 2025": ("checked", ["epa-tce-pce"], None),
}
GISCHEM = re.compile(r"TRGS 900, as quoted in the GisChem data sheet for (.+?) of the German statutory accident insurers "
                     r"\(undated(?:, (cites the \d{4} TA Luft|laboratory use))?\)(?:; (.+))?$")
GISCHEM_TAIL = {
    None: None,
    "same in a spray supplier safety data sheet of 22 April 2015": "same in a safety data sheet of 22 April 2015",
    "skin remark not seen there; an older sheet of the same series gives factor 4": "skin remark not seen there; an older sheet gives factor 4",
    "skin and Y remarks not seen there": "skin and Y remarks not seen there",
    "skin remark not seen there": "skin remark not seen there",
}


def limit(text):
    """Source of an exposure limit -> (sure, refs, note)."""
    text = re.sub(r",? ?(?:page |of the page )?for CAS [0-9-]+", lambda m: " of the page" if "of the page" in m.group(0) else "", text)
    m = GISCHEM.match(text)
    if m:
        tail = known(GISCHEM_TAIL, m.group(3), "GisChem")
        sheet = "sheet 'methanol 3-5 %'" if m.group(1) == "methanol 3-5 %" else None
        return "checked", ["trgs900-gischem"], join(sheet, m.group(2), tail)
    return known(LIMIT_SOURCE, text, "limit source")


# --- hazards.csv -----------------------------------------------------------------------------
CLP = re.compile(r"CLP harmonised, Annex VI to Reg\. \(EC\) 1272/2008, index ([0-9X-]+), (original entry|ATP \d+)"
                 r"(?:, (Reg\. \(E[CU]\) [0-9/]+))?(?:, (applies from [^;]+))?; "
                 r"read in the ECHA workbook up to ATP 23, Reg\. \(EU\) 2025/1222(?:; (.+))?$")
CLP_TAIL = {
    None: None,
    "H372 in place of H373": "H372 in place of H373",
    "H351 and H336 new in ATP 17": "H351 and H336 new in ATP 17", "H317 new in ATP 21": "H317 new in ATP 21",
    "H331 new in ATP 18": "H331 new in ATP 18", "Carc. 1B new in ATP 17": "Carc. 1B new in ATP 17",
    "all codes harmonised, H226 only above 85 %": "H226 only above 85 %",
    "C and M entries fall away when benzene is below 0.1 % (Note P); (*) omitted from pictograms and signal word": "Note P",
    "STOT RE 1 (H372, central nervous system) is harmonised, RAC opinion of 2011 checked; C and M entries fall away when benzene is below 0.1 % (Note P); (*) omitted from pictograms and signal word":
        "H372 (central nervous system) is harmonised; Note P",
}
NONE_HARMONISED = "CLP: no harmonised entry (ECHA workbook up to ATP 23 read); "
H_LIST = r"((?:(?:EU)?H\d+[A-Za-z]*(?:\(\*\))? ?)+)$"
HAZARD_PATTERNS = [  # pattern, (references, makes the classification remembered, note)
    (re.compile(re.escape(NONE_HARMONISED) + r"usual supplier self-classification memory: " + H_LIST),
     lambda m: (["clp-annex6", "clp-self"], True, "no harmonised entry; usual supplier classification from memory")),
    (re.compile(re.escape(NONE_HARMONISED) + r"not classified memory: usual supplier practice$"),
     lambda m: (["clp-annex6", "clp-self"], True, "no harmonised entry; not classified by usual supplier practice (memory)")),
    (re.compile(re.escape(NONE_HARMONISED) + r"self-classification read in a supplier safety data sheet for decahydronaphthalene of 25 April 2024$"),
     lambda m: (["clp-annex6", "clp-self-sds"], False, "no harmonised entry; classification of a supplier's sheet of 25 April 2024")),
    (re.compile(re.escape(NONE_HARMONISED) + r"not classified$"), lambda m: (["clp-annex6"], False, "no harmonised entry")),
    (re.compile(r"self-classified in addition \(memory: usual supplier classification\): " + H_LIST),
     lambda m: (["clp-self"], True, m.group(1).strip() + " by suppliers, from memory")),
    (re.compile(r"self-classified in addition, read in the list of the German accident insurers \(GisChem data sheet, undated\): " + H_LIST),
     lambda m: (["clp-self-gischem"], False, m.group(1).strip() + " by suppliers, read")),
    (re.compile(r"self-classified in addition, read in a supplier safety data sheet for petroleum ether 60-95 of 30 July 2020: (.+?); EUH066 memory: usual supplier classification$"),
     lambda m: (["clp-self-sds", "clp-self"], True, m.group(1) + " read in a sheet for petroleum ether 60-95 of 30 July 2020; EUH066 from memory")),
    (re.compile(r"REACH Annex XVII entry 70, Reg\. \(EU\) 2024/1328, read$"), lambda m: ([], False, None)),
    (re.compile(r"REACH Annex XVII entry 76 sets worker DNELs 6 mg/m3 and 1\.1 mg/kg/day, checked$"), lambda m: ([], False, None)),
    (re.compile(r"REACH Annex XVII entry 71, existence checked$"), lambda m: ([], False, None)),
    (re.compile(r"paint-stripper ban: checked on an archived UK HSE page \(REACH Annex XVII entry 59\)$"), lambda m: ([], False, None)),
    (re.compile(r"IARC: Monographs list in the open chemicals data set \(C\. Bell\)$"), lambda m: (["iarc-list"], False, None)),
    (re.compile(r"IARC memory: Monographs vol\. 47 \(some petroleum solvents\)$"), lambda m: (["iarc47"], False, "IARC group from memory")),
    (re.compile(r"IARC 2A: Monographs vol\. 130, checked$"), lambda m: (["iarc130"], False, None)),
    (re.compile(r"IARC (?:3|2B): Monographs vol\. 138, checked$"), lambda m: (["iarc138"], False, None)),
    (re.compile(r"gloves memory: general chemical-resistance guides$"), lambda m: (["gloves-memory"], False, "gloves from memory")),
    (re.compile(r"gloves: EN 374 class table of a German university pharmacy \(bdsoft\.de\); classes without number, laminate and fluororubber memory: general chemical-resistance guides$"),
     lambda m: (["gloves-table", "gloves-memory"], False, "gloves without class from memory")),
    (re.compile(r"peroxides memory: Kelly, Chem\. Health Saf\. 1996, 3\(5\), 28, and EUH019 entries$"), lambda m: (["kelly1996"], False, "peroxides from memory")),
]
ODOUR = {  # part of the source -> (sure or None, references, note of the odour threshold)
    "odour memory: Amoore and Hautala, J. Appl. Toxicol. 1983, 3, 272": ("memory", ["amoore1983"], None),
    "odour: CHEMINFO detection value quoted by Haz-Map, checked": ("checked", ["cheminfo", "haz-map"], "detection value"),
    "odour value is for m-xylene": (None, [], "of m-xylene"),
    "a CHEMINFO page gives 0.052 ppm for the odour, checked": (None, ["cheminfo"], "0.052 on a page read"),
    "odour range 2-50 ppm in the US National Academies summary, checked": (None, ["nas-summary"], "range 2-50 read"),
    "odour range 0.23-1.9 ppm in the US National Academies summary, checked": (None, ["nas-summary"], "range 0.23-1.9 read: all above the value used"),
    "odour range 40-1161 ppm on Haz-Map, checked": (None, ["haz-map"], "range 40-1161 read"),
    "odour range 0.01-0.07 ppm on Haz-Map, checked": (None, ["haz-map"], "range 0.01-0.07 read"),
}


def hazard(text):
    """A part of the source of hazards.csv -> (references, remembered, note)."""
    m = CLP.match(text)
    if m:
        tail = known(CLP_TAIL, m.group(5), "CLP")
        entry = "" if m.group(2) == "original entry" else ", " + m.group(2) + (", " + m.group(4) if m.group(4) else "")
        return ["clp-annex6"], False, join("Annex VI " + m.group(1) + entry, tail)
    for pattern, make in HAZARD_PATTERNS:
        m = pattern.match(text)
        if m:
            return make(m)
    raise Unmapped("hazards source: %r" % text)


# --- resins.csv ------------------------------------------------------------------------------
HANSEN_1971 = ("memory: Hansen 1971 polymer table, as reprinted in Barton, CRC Handbook of Solubility Parameters, and in "
               "Polymer Handbook 4th ed. (Grulke)")
SEARCH = "estimate: smallest sphere found that separates the solvents and non-solvents %s (random search, solvent values of solvents-solubility.csv)"
SPHERE_SOURCE = {  # -> (sure, note)
    HANSEN_1971: ("memory", None),
    SEARCH % "listed for this id in polymer-solubility.csv": ("estimate", None),
    SEARCH % "named in the note": ("estimate", None),
    "estimate: same as dammar-aged (the literature treats the two triterpenoid resins alike once oxidised)": ("estimate", "same as dammar-aged: the literature treats both alike once oxidised"),
    "estimate: sphere separating moderate-and-high swelling solvents from low and low-moderate ones in paint-swelling.csv (classes mostly from memory)": ("estimate", "separates moderate and high swelling from low (classes mostly from memory)"),
    "estimate: long-chain ester and alkane; delta_d between hexadecane and polyethylene, small ester delta_h; radius chosen so that alkanes, aromatics, turpentine, chloroform and ether fall inside": ("estimate", "delta_d between hexadecane and polyethylene, small ester delta_h; radius so that alkanes, aromatics, turpentine, chloroform and ether fall inside"),
    "estimate: pure long-chain alkane (delta_p and delta_h zero by structure); radius as for beeswax": ("estimate", "long-chain alkane, delta_p and delta_h zero by structure; radius as for beeswax"),
    "estimate: taken equal to pnbma (isomer; slightly more alkane-tolerant)": ("estimate", "taken equal to pnbma (isomer)"),
    "estimate: published value of pema used for the copolymer": ("estimate", "published value of pema used for the copolymer"),
}

# --- unifac-*.csv ----------------------------------------------------------------------------
UNIFAC_SOURCE = {  # -> (refs, sure or None, note)
    "Hansen 1991 / public original-UNIFAC table, via thermo 0.6.1; = ugropy": (["hansen1991", "ugropy"], None, None),
    "Hansen 1991 / public original-UNIFAC table, via thermo 0.6.1; = ugropy; needed only by the diethylamine textbook check": (["hansen1991", "ugropy"], None, "needed only by a textbook check"),
    "Hansen 1991 / public original-UNIFAC table, via thermo 0.6.1; needed only by the diethylamine textbook check": (["hansen1991"], None, "needed only by a textbook check"),
    "Hansen 1991 / public original-UNIFAC table, via thermo 0.6.1; = Clapeyron.jl": (["hansen1991", "clapeyron"], None, None),
    "Hansen 1991 / public original-UNIFAC table, via thermo 0.6.1; no second source": (["hansen1991"], None, None),
    "public Dortmund table 2016, via thermo 0.6.1; = ugropy": (["dortmund2016", "ugropy"], None, None),
    "public Dortmund table 2016, via thermo 0.6.1; = ugropy; thermo labels it THF, atom balance of THF and 1,4-dioxane shows CH2-O-CH2": (["dortmund2016", "ugropy"], None, "labelled THF; the atom balance shows CH2-O-CH2"),
    "public Dortmund table 2016, via thermo 0.6.1; = ugropy; thermo labels it CY-CH2O, atom balance of 1,3-dioxolane shows one and a half CH2": (["dortmund2016", "ugropy"], None, "labelled CY-CH2O; the atom balance shows one and a half CH2"),
    "public Dortmund table 2016, via thermo 0.6.1; = Clapeyron.jl": (["dortmund2016", "clapeyron"], None, None),
    "public Dortmund table 2016, via thermo 0.6.1; Clapeyron.jl differs": (["dortmund2016"], None, "another table differs"),
    "public Dortmund table 2006, via thermo 0.6.1; the 2016 value fails at 25 C, see activity.md": (["dortmund2006"], None, "the 2016 value fails at 25 degC"),
    "public DDBST assignment, via thermo 0.6.1 (by InChIKey)": (["ddbst"], None, None),
    "chosen here from the boiling range and the usual composition of the fraction; member groups from the public DDBST assignments": (["ddbst", "own-groups"], "estimate", None),
    "built here for 1-(2-methoxypropoxy)propan-2-ol (main isomer), in the style of the DDBST assignment of its linear isomer": (["own-groups"], "estimate", "built for the main isomer"),
    "group sum made here (2 CH2, CH, 2 OH(p), OH(s)); the DDBST file marks glycerol as not assigned in Dortmund": (["own-groups"], "estimate", "own group sum"),
    "": ([], None, None),
}
# Interactions that the public table lacks, taken from those of another main group: (model, missing, taken from, with).
# Ring CH2 (42) as chain CH2 (1) with the diol group (31) and DMSO (35): against three measured limiting activity
# coefficients the mean error of ln is 0.33, by original UNIFAC 0.57.
UNIFAC_ESTIMATED = [("dortmund", "42", "1", "31"), ("dortmund", "42", "1", "35")]
UNIFAC_ESTIMATE_NOTE = "ring CH2 taken as chain CH2"

# Assignments that are right group by group but whose predictions are not to be relied on (found with
# tests/unit/physics/test_miscibility.c and test_activity.c).
UNIFAC_UNRELIABLE = {
    "dimethoxymethane": "one phase with water is predicted, a gap is published",
    "ethylene-glycol": "no gap with ethyl and butyl acetate is predicted, one is published; limiting activity coefficients of alkanes 3 to 4 times too low",
    "dimethyl-sulfoxide": "no gap with tetrachloroethylene is predicted, one is published; the table lacks many pairs",
    "formic-acid": "associates; every figure is weak",
}
UNIFAC_NOTE = {
    "DDBST gives the open-chain ester group; the ring lactone is far more polar: predicts full miscibility with alkanes and a gap with water, both wrong; override with miscibility.csv": "open-chain ester groups: full miscibility with alkanes and a gap with water, both wrong",
    "group counts are the mole average; expand into these members for evaporation": None,
}
