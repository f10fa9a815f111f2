#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes data/*.yaml from tests/reference/*.csv and the hand-kept side files beside this script.

The same input gives the same bytes. A source text without a mapping, or a reference that nothing
uses, stops the conversion. Run from anywhere: python3 tests/tools/import_tables.py [DIRECTORY]
"""
import csv
import os
import re
import sys

import yaml  # only for teas-regions.yaml

HERE = os.path.dirname(os.path.abspath(__file__))
sys.path.insert(0, HERE)
sys.dont_write_bytecode = True
import import_ageing as age  # noqa: E402
import import_classification as mixture  # noqa: E402
import import_extra as extra  # noqa: E402
import import_films as films  # noqa: E402
import import_formulas as formulas  # noqa: E402
import import_materials as mat  # noqa: E402
import import_miscibility as mix  # noqa: E402
import import_notes as notes  # noqa: E402
import import_refs as refs_file  # noqa: E402
import import_sources as src  # noqa: E402
import import_statements as wordings  # noqa: E402

REFERENCE = os.path.join(HERE, "..", "reference")
DATA = sys.argv[1] if len(sys.argv) > 1 else os.path.join(HERE, "..", "..", "data")
VERSION = "2026-11-25"
LANGUAGES = ("en", "de", "fr", "it", "es")

NUMBER_OF = {key: i for i, (key, _, _) in enumerate(refs_file.REFS, 1)}
USED = set()


def rows(name):
    with open(os.path.join(REFERENCE, name), encoding="utf-8", newline="") as f:
        return list(csv.DictReader(f))


# --- writing -----------------------------------------------------------------------------------
PLAIN_SCALAR = re.compile(r"[\w][\w.^/+=-]*(?: [\w.^/+=()-]+)*$|-[0-9.]+$")


def scalar(value):
    text = str(value)
    if re.search(r"\bsafe(?!ty)\b", text, re.I):
        raise ValueError("the word 'safe' must not be printed: %r" % text)
    if PLAIN_SCALAR.match(text):
        return text
    return '"' + text.replace("\\", "\\\\").replace('"', '\\"') + '"'


def flow(value):
    if isinstance(value, dict):
        return "{" + ", ".join("%s: %s" % (k, flow(v)) for k, v in value.items()) + "}"
    if isinstance(value, (list, tuple)):
        return "[" + ", ".join(flow(v) for v in value) + "]"
    return scalar(value)


def entry(lines, record):
    """One record as a block item, its groups as flow mappings."""
    lead = "  - "
    for key, value in record.items():
        if key in ("regions", "specific_limits"):
            lines.append("%s%s:" % (lead, key))
            lines.extend("      - " + flow(v) for v in value)
        else:
            lines.append("%s%s: %s" % (lead, key, flow(value)))
        lead = "    "


def write(name, about, parts, compact=False):
    lines = ["table: " + name, "version: " + VERSION, 'about: "%s"' % about]
    for key, records in parts:
        lines.append(key + ":")
        for record in records:
            if compact:
                lines.append("  - " + flow(record))
            else:
                entry(lines, record)
    with open(os.path.join(DATA, name + ".yaml"), "w", encoding="utf-8", newline="\n") as f:
        f.write("\n".join(lines) + "\n")


def ref_numbers(keys):
    unique = list(dict.fromkeys(keys))
    USED.update(unique)
    return sorted(NUMBER_OF[k] for k in unique)


def provenance(sure, keys, note=None, implied=None):
    """sure is left out where it equals `implied` (large tables only)."""
    out = {}
    if sure != implied:
        out["sure"] = sure
    if keys:
        out["refs"] = ref_numbers(keys)
    if note:
        out["note"] = note
    return out


def quantity(value, unit, sure, keys, note=None, **more):
    out = {"value": value, "unit": unit}
    out.update(more)
    out.update(provenance(sure, keys, note))
    return out


def names(table):
    return {lang: table[lang] for lang in LANGUAGES if lang in table}


# --- components --------------------------------------------------------------------------------
def largest_teas_difference(row):
    delta = [float(row[k]) for k in ("delta_d", "delta_p", "delta_h")]
    computed = [100 * d / sum(delta) for d in delta]
    printed = [float(row[k]) for k in ("teas_fd", "teas_fp", "teas_fh")]
    return max(abs(a - b) for a, b in zip(computed, printed)), computed


def hansen_and_volume(row, density, mass):
    """Splits hsp_note -> (hansen group or None, volume group, conflicts, words on a missing split)."""
    conflicts, words, keys, missing = [], [], [], []
    volume, volume_more = None, []
    source = src.known(src.HSP_SOURCE, row["hsp_source"], "hsp_source") if row["hsp_source"] else None
    if source:
        keys += source[1]
        words.append(source[2])
    for part in row["hsp_note"].split("; "):
        if part.startswith("Vm: "):
            volume = src.known(src.VM_SOURCE, part[4:], "molar volume")
            continue
        if part in src.VM_SOURCE:
            volume_more.append(src.VM_SOURCE[part])
            continue
        kind, more, text = src.hsp_note_part(part)
        if kind == "vm":
            volume_more.append(("more", more, None))
            continue
        keys += more
        if kind == "conflict":
            conflicts.append(text)
        elif kind == "nosplit":
            missing.append(text)
        elif text and not (source and source[0] == "memory" and text.startswith("memory only")):
            words.append(text)
    hansen = None
    if row["delta_d"]:
        hansen = {"delta_d": row["delta_d"], "delta_p": row["delta_p"], "delta_h": row["delta_h"], "unit": "MPa^0.5"}
        hansen.update(provenance(source[0], keys, src.join(*words)))
    if row["molar_volume_cm3_mol"]:
        sure, vkeys, note = volume
        for _, more, text in volume_more:
            vkeys, note = vkeys + more, src.join(note, text)
        group = quantity(row["molar_volume_cm3_mol"], "cm3/mol", sure, vkeys, note)
    else:
        group = quantity("%.1f" % (float(mass) / float(density)), "cm3/mol", "estimate", ["own-vm"],
                         "molar mass %s over density %s" % (mass, density))
    return hansen, group, conflicts, missing, source


def component(row, listed, physical):
    ident = row["id"]
    family, synonyms, apart = extra.COMPONENTS[ident]
    out = {"id": ident, "name": listed["name"], "cas": listed["cas"], "family": family, "synonyms": names(synonyms)}
    hansen, volume, conflicts, missing, source = hansen_and_volume(
        row, physical["density_20c_g_cm3"], physical["molar_mass_g_mol"])
    surrogate = src.SURROGATE.get(source[2]) if source else None
    if surrogate in extra.COMPONENTS:  # alpha-pinene has no row of its own: the note names it
        out["surrogate"] = surrogate
    if hansen:
        out["hansen"] = hansen
    if row["teas_fd"]:
        keys, note, conflict = src.teas(row["teas_source"])
        out["teas"] = {"fd": row["teas_fd"], "fp": row["teas_fp"], "fh": row["teas_fh"], "unit": "percent"}
        out["teas"].update(provenance("memory", keys, note))
        if conflict:
            conflicts.append(conflict)
        most, computed = largest_teas_difference(row)
        if most > 3:
            conflicts.append("Teas %s/%s/%s printed, %.0f/%.0f/%.0f from the Hansen values: largest part %.1f apart" % (
                (row["teas_fd"], row["teas_fp"], row["teas_fh"]) + tuple(computed) + (most,)))
    if row["hildebrand_mpa05"]:
        sure, keys, note = src.hildebrand(row["hildebrand_source"])
        out["hildebrand"] = quantity(row["hildebrand_mpa05"], "MPa^0.5", sure, keys, src.join(note, *missing))
        if hansen:
            total = sum(float(row[k]) ** 2 for k in ("delta_d", "delta_p", "delta_h")) ** 0.5
            if abs(total - float(row["hildebrand_mpa05"])) > 1:
                conflicts.append("Hansen total %.1f against Hildebrand %s: use the Hansen total where both are needed" % (
                    total, row["hildebrand_mpa05"]))
    out["molar_volume"] = volume
    conflicts += extra.CONFLICTS.get(ident, [])
    if conflicts:
        out["conflicts"] = conflicts
    if ident in extra.GRADES:
        out["grade"] = extra.GRADES[ident]
    if apart:
        out["set_apart"] = apart
    return out


# --- properties --------------------------------------------------------------------------------
SIMPLE = [  # csv column, key, unit, name in the source column, notes
    ("molar_mass_g_mol", "molar_mass", "g/mol", "molar_mass", {}),
    ("density_20c_g_cm3", "density_20c", "g/cm3", "density", notes.DENSITY),
    ("boiling_point_c", "boiling_point", "degC", "boiling_point", {}),
    ("enthalpy_vaporisation_25c_kj_mol", "enthalpy_vaporisation_25c", "kJ/mol", "enthalpy", notes.ENTHALPY),
    ("viscosity_25c_mpas", "viscosity_25c", "mPa.s", "viscosity", {}),
    ("surface_tension_20c_mn_m", "surface_tension_20c", "mN/m", "surface_tension", {}),
    ("relative_evaporation_rate_nbuac", "evaporation_rate", "n-BuAc=1", "evaporation_rate", {}),
    ("autoignition_c", "autoignition", "degC", "autoignition", notes.AUTOIGNITION),
]


def simple(row, sources, spec):
    column, _, unit, name, more = spec
    if not row[column]:
        return None
    sure, keys, note = src.physical(sources[name])
    return quantity(row[column], unit, sure, keys, src.join(note, more.get(row["id"])))


def antoine(row, sources):
    kind, sure, keys, note = src.antoine(sources["antoine"])
    start = float(row["antoine_tmin_c"])
    said = sources.get("antoine_note")
    if said and said != "range starts at %.0f C and values below are an extrapolation" % start:
        raise src.Unmapped("antoine_note: %r" % said)
    special = notes.ANTOINE.get(row["id"])
    if start > 10 and not (special and special.startswith("starts at the melting point")):
        special = src.join("values below %.0f degC are an extrapolation" % start, special)
    out = {"a": row["antoine_a"], "b": row["antoine_b"], "c": row["antoine_c"], "unit": "kPa, degC",
           "t_min": row["antoine_tmin_c"], "t_max": row["antoine_tmax_c"], "kind": kind}
    out.update(provenance(sure, keys, src.join(note, special)))
    return out


def vapour_pressures(row, sources):
    text = sources["vapour_pressure"]
    _, _, own_keys, _ = src.antoine(sources["antoine"])
    own = ("estimate", own_keys + ["own-antoine"], "the curve itself")
    if text == src.OWN_ROW:
        pair = (own, own)
    elif text in src.SPLIT_PRESSURES:
        pair = tuple(p or own for p in src.SPLIT_PRESSURES[text])
    elif text.endswith(src.EQUATION):
        one = src.physical(text[:-len(src.EQUATION)])
        pair = (one, one)
    else:
        raise src.Unmapped("vapour_pressure: %r" % text)
    out = {}
    for column, key, (sure, keys, note), more in (
            ("vapour_pressure_20c_kpa", "vapour_pressure_20c", pair[0], notes.VAPOUR_20),
            ("vapour_pressure_25c_kpa", "vapour_pressure_25c", pair[1], notes.VAPOUR_25)):
        if row[column]:
            keys = keys + (["npg"] if "NIOSH" in more.get(row["id"], "") and "npg-read" not in keys else [])
            out[key] = quantity(row[column], "kPa", sure, keys, src.join(note, more.get(row["id"])))
    return out


def flammability(row, sources):
    out = {}
    cup, cup_note = notes.CUP[row["flash_point_method"]]
    if (cup is None) != (row["flash_point_c"] == ""):
        raise ValueError("flash point and method disagree: " + row["id"])
    if cup:
        sure, keys, note = src.physical(sources["flash_point"])
        more = notes.FLASH.get(row["id"])
        out["flash_point"] = quantity(row["flash_point_c"], "degC", sure, keys + (["own-check"] if more else []),
                                      src.join(note, cup_note, more), cup=cup)
    if row["lel_vol_pct"]:
        lower, upper = src.SPLIT_LIMITS.get(sources["lel_uel"], (sources["lel_uel"],) * 2)
        sure, keys, note = src.physical(lower)
        out["lower_flammable_limit"] = quantity(row["lel_vol_pct"], "vol%", sure, keys,
                                                src.join(note, notes.LOWER_LIMIT.get(row["id"])))
        if row["uel_vol_pct"]:
            sure, keys, note = src.physical(upper)
            out["upper_flammable_limit"] = quantity(row["uel_vol_pct"], "vol%", sure, keys, note)
    return out


def formula(ident):
    """Atoms and rings; silent where an atom does not occur."""
    if ident in formulas.SURROGATES:
        compound, text, rings = formulas.SURROGATES[ident]
        given = provenance("estimate", ["own-surrogate"], "of " + compound)
    else:
        text, rings = formulas.FORMULAS[ident]
        given = provenance("checked", ["own-formula"], "")
    out = {symbol.lower(): number or "1" for symbol, number in re.findall(r"([A-Z][a-z]?)([0-9]*)", text)}
    if rings:
        out["rings"] = rings
    out.update(given)
    return out


def properties(row):
    sources = dict(p.split("=", 1) for p in re.split(r"; (?=[a-z_]+=)", row["source"]))
    simple_of = {s[1]: simple(row, sources, s) for s in SIMPLE}
    out = {"id": row["id"], "formula": formula(row["id"])}
    out.update({k: simple_of[k] for k in ("molar_mass", "density_20c", "boiling_point")})
    if row["id"] in extra.MELTING_POINTS:
        out["melting_point"] = quantity(extra.MELTING_POINTS[row["id"]], "degC", "memory", ["crc-memory"], None)
    out["antoine"] = antoine(row, sources)
    out.update(vapour_pressures(row, sources))
    out.update({k: simple_of[k] for k in ("enthalpy_vaporisation_25c", "viscosity_25c", "surface_tension_20c",
                                          "evaporation_rate")})
    out.update(flammability(row, sources))
    out["autoignition"] = simple_of["autoignition"]
    return {k: v for k, v in out.items() if v is not None}


# --- hazards -----------------------------------------------------------------------------------
def category(word, text):
    """Category word of 'Carc. 1B; Muta. 2' or '2 (fertility)'; Note P entries count as none."""
    if text == "none" or "Note P" in text:
        return "none"
    found = re.search(word + r"(1A|1B|2)\b", text)
    return found.group(1) if found else "none"


def semicolons(text):
    return [part for part in text.split("; ") if part]


def mixture_keys(ident):
    """What the mixture rules use beside the H codes."""
    def source(note=None):
        return provenance("memory", ["clp-annex6-memory"], note)
    out = {}
    if ident in mixture.SENSITISER_CATEGORY:
        out["sensitiser_category"] = mixture.SENSITISER_CATEGORY[ident]
    if ident in mixture.SPECIFIC_LIMITS:
        out["specific_limits"] = [
            dict([("code", code), ("from_percent", low)] + ([("below_percent", high)] if high else []), **source(note))
            for code, low, high, note in mixture.SPECIFIC_LIMITS[ident]]
    for key, table in (("acute_estimates", mixture.ESTIMATES), ("m_factors", mixture.M_FACTORS)):
        if ident in table:
            out[key] = dict(table[ident], **source())
    return out


def hazards(row):
    keys, remembered, words = [], False, []
    odour = ["memory", [], []]
    for part in row["source"].split(" | "):
        if part in src.ODOUR:
            sure, more, note = src.ODOUR[part]
            odour = [sure or odour[0], odour[1] + more, odour[2] + [note]]
            continue
        more, is_memory, note = src.hazard(part)
        keys, remembered = keys + more, remembered or is_memory
        words.append(note)
    out = {"id": row["id"]}
    codes = [c for c in row["ghs_h_codes"].split(";") if c]
    out["h_statements"] = [c for c in codes if not c.endswith("(*)")]
    starred = [c[:-3] for c in codes if c.endswith("(*)")]
    if starred:
        out["h_unless_low_benzene"] = starred
    out["signal_word"] = row["signal_word"] or "none"
    out["pictograms"] = [p for p in row["ghs_pictograms"].split(";") if p]
    if row["iarc_group"]:
        out["iarc_group"] = row["iarc_group"]
    out["reproductive"] = row["reproductive_toxicant"]
    out["reproductive_category"] = category("^", row["reproductive_toxicant"])
    out["carcinogen_mutagen"] = row["carcinogen_or_mutagen"]
    out["carcinogen_category"] = category(r"Carc\. ", row["carcinogen_or_mutagen"])
    out["mutagen_category"] = category(r"Muta\. ", row["carcinogen_or_mutagen"])
    out["skin_absorption"] = row["skin_absorption"]
    out["sensitiser"] = row["sensitiser"]
    out.update(mixture_keys(row["id"]))
    out["peroxide_former"] = row["peroxide_former"]
    for column, key in (("glove_materials_resistant", "gloves_resistant"), ("glove_materials_unsuitable", "gloves_unsuitable")):
        if row[column]:
            out[key] = semicolons(row[column])
    if row["odour_threshold_ppm"]:
        out["odour_threshold"] = quantity(row["odour_threshold_ppm"], "ppm", odour[0], odour[1], src.join(*odour[2]))
    elif odour[1]:
        raise ValueError("an odour source without a value: " + row["id"])
    out["health_note"] = row["health_note"]
    if row["id"] in extra.REGULATORY:
        text, more = extra.REGULATORY[row["id"]]
        out["regulatory"], out["restricted"] = text, "yes"
        keys = keys + more
    out.update(provenance("memory" if remembered else "checked", keys, src.join(*words)))
    return out


def statements():
    out = []
    for code, text in list(extra.STATEMENTS.items()) + list(mixture.STATEMENTS.items()):
        row = {"code": code, "en": text}
        row.update(zip(wordings.LANGUAGES, wordings.WORDINGS[code]))
        row.update({"sure": "memory", "refs": ref_numbers(["clp-articles"])})
        out.append(row)
    unused = set(wordings.WORDINGS) - {row["code"] for row in out}
    if unused:
        raise SystemExit("wordings of statements that no list has: %s" % sorted(unused))
    for code, text in mixture.US_STATEMENTS.items():
        out.append({"code": code, "en": text, "sure": "memory", "refs": ref_numbers(["hcs-app-c"])})
    return out


# --- exposure limits ---------------------------------------------------------------------------
AUTHORITY = {"OSHA-PEL": "us-osha", "NIOSH-REL": "us-niosh", "US-EPA": "us-epa", "EU-IOELV": "eu", "UK-WEL": "uk", "DE-AGW": "de"}
KIND = {"TWA-8h": "twa-8h", "TWA-10h": "twa-10h", "STEL-15min": "stel-15min", "CEILING": "ceiling", "PEAK": "ceiling", "IDLH": "idlh"}
PERIOD = re.compile(r"(\d+)-min (?:ceiling|STEL)|(\d+) min in (?:any|an) ")


def authorities():
    warm, cool = {"value": 25, "unit": "degC"}, {"value": 20, "unit": "degC"}
    specs = [
        ("us-osha", "OSHA permissible exposure limits (United States)", "law", warm, "24.45", "memory", ["osha-z1-memory"], "29 CFR 1910.1000, tables Z-1 and Z-2, 1910.1028, 1910.1052", ["osha-z1"]),
        ("us-niosh", "NIOSH recommended exposure limits and IDLH (United States)", "recommendation", warm, "24.45", "memory", ["npg"], "NIOSH documentation of May 1994; Pocket Guide 2005-149", ["niosh-rel", "npg"]),
        ("us-epa", "EPA limits under the Toxic Substances Control Act (United States)", "law", warm, "24.45", "estimate", ["osha-z1-memory"], "40 CFR 751, 2024; bind only in the uses that are still allowed", ["epa-dcm", "epa-tce-pce"]),
        ("eu", "EU indicative and binding occupational exposure limits", "law", cool, "24.055", "estimate", ["own-gas"], "directives 91/322/EEC to (EU) 2022/431", ["eu-2019-1831", "eu-2004-37"]),
        ("uk", "HSE workplace exposure limits EH40 (United Kingdom)", "law", cool, "24.05526", "memory", ["eh40"], "4th ed. 2020; changes after January 2020 were not traced", ["eh40"]),
        ("de", "TRGS 900 Arbeitsplatzgrenzwerte (Germany)", "law", cool, "24.1", "memory", ["trgs402"], "amended to 17 June 2024; the full table was not read", ["trgs900-memory"]),
    ]
    out = []
    for ident, name, kind, temp, volume, sure, keys, edition, refs in specs:
        out.append({"id": ident, "name": name, "kind": kind,
                    "reference_temp": dict(temp, **provenance(sure, keys)),
                    "molar_volume": dict({"value": volume, "unit": "L/mol"}, **provenance(sure, keys)),
                    "edition": edition, "refs": ref_numbers(refs)})
    return out


def exposure_limit(row):
    sure, keys, note = src.limit(row["source"])
    out = {"component": row["id"], "authority": AUTHORITY[row["authority"]], "kind": KIND[row["kind"]]}
    if row["ppm"]:
        out["ppm"] = row["ppm"]
    if row["mg_m3"]:
        out["mg_m3"] = row["mg_m3"]
    period = PERIOD.search(row["notation"])
    if period:
        out["period_min"] = period.group(1) or period.group(2)
    notations = (["peak"] if row["kind"] == "PEAK" else []) + semicolons(row["notation"])
    if notations:
        out["notations"] = notations
    if row["year"]:
        out["year"] = row["year"]
    out.update(provenance(sure, keys, note))
    return out


def group_limit(row, kept):
    component, authority, mg_m3, notations, year, sure, keys, note = row
    if (component, authority, "twa-8h", None) in kept:
        raise ValueError("%s has a limit of its own in set %s" % (component, authority))
    out = {"component": component, "authority": authority, "kind": "twa-8h", "mg_m3": mg_m3,
           "notations": notations, "year": year}
    out.update(provenance(sure, keys, note))
    return out


def exposure_limits():
    """One row per component, authority, kind and period: of two entries the stricter stays and names the other."""
    kept = {}
    for record in (exposure_limit(r) for r in rows("exposure-limits.csv")):
        key = tuple(record.get(k) for k in ("component", "authority", "kind", "period_min"))
        other = kept.get(key)
        if other is None:
            kept[key] = record
            continue
        if "ppm" in record or "ppm" in other:
            raise ValueError("two rows with ppm for one limit: %s" % (key,))
        strict, loose = sorted((record, other), key=lambda r: float(r["mg_m3"]))
        strict["notations"] = strict["notations"] + ["other entry %s mg/m3 (%s)" % (loose["mg_m3"], ", ".join(loose["notations"]))]
        kept[key] = strict
    return list(kept.values()) + [group_limit(row, kept) for row in extra.GROUP_LIMITS]


# --- materials ---------------------------------------------------------------------------------
def neutral(text):
    """Words of the compilation that would point at files this project doesn't have under that name."""
    for old, new in (("solvents-solubility.csv", "data/components.yaml"), ("resins.csv", "this table"),
                     ("polymer-solubility.csv (see each row)", "the published solvents and non-solvents of the material"),
                     ("polymer-solubility.csv", "the published solvents and non-solvents"),
                     ("paint-swelling.csv", "published swelling"), ("Empty on purpose. ", ""), (", see this table", ""),
                     ("the rank test of materials.md", "the rank test of swelling classes")):
        text = text.replace(old, new)
    return re.sub(r"\bmemory: ?", "from memory, ", text)


def sphere(row, keys, uncertainty):
    sure, note = src.known(src.SPHERE_SOURCE, row["hsp_source"], "sphere source")
    out = {"delta_d": row["delta_d"], "delta_p": row["delta_p"], "delta_h": row["delta_h"], "r0": row["r0"], "unit": "MPa^0.5"}
    if uncertainty:
        out["uncertainty"] = uncertainty[0]
        if uncertainty[1]:
            out["uncertainty_r0"] = uncertainty[1]
    out.update(provenance(sure, keys, src.join(note, neutral(row["note"]))))
    return out


def area(region):
    keys = ["own-teas-hull", "burke1984"] + mat.AREA_REFS[region["id"]]
    note = neutral(" ".join(region["source"].split()))
    if region["non_solvents_inside"]:
        note = src.join(note, "non-solvents inside: " + ", ".join(region["non_solvents_inside"]))
    out = {"id": region["id"], "meaning": " ".join(region["meaning"].split())}
    if "legend" in region:
        out["legend"] = region["legend"]
    out["vertices"] = [["%g" % v for v in p] for p in region["vertices"]]
    out["confidence"] = region["confidence"]
    out.update(provenance("estimate", keys, note))
    return out


def film_model(film):
    out = {k: v for k, v in film.items() if k not in ("sure", "keys", "note")}
    out.update(provenance(film["sure"], film["keys"], film["note"]))
    return out


def swelling_classes():
    """Film 16 of paint-swelling.csv, the one with a class for every liquid: ten years old, kept dark."""
    out = []
    for row in rows("paint-swelling.csv"):
        if not row["film"].startswith("film 16") or not row["swelling_class"]:
            continue
        out.append(dict([("component", row["solvent_id"]), ("class", row["swelling_class"])],
                        **provenance("memory" if row["source"].startswith("memory") else "checked", ["phenix2002"],
                                     row["note"] if row["note"].startswith("uncertain") else None)))
    return out


def material(row, regions):
    film, synonyms, behaviour, substitute, keys, uncertainty = mat.MATERIALS[row["id"]]
    out = {"id": row["id"], "name": row["name"], "kind": row["kind"],
           "age": "not-stated" if row["age"] == "n/a" else row["age"], "film": film, "synonyms": names(synonyms)}
    if row["r0"]:
        out["sphere"] = sphere(row, keys, uncertainty)
    else:
        out["no_region"] = neutral(row["note"])
    if row["id"] in films.FILMS:
        out["film_model"] = film_model(films.FILMS[row["id"]])
    outside = [r["solvent_id"] for r in rows("polymer-solubility.csv") if r["polymer"] == row["id"] and r["score"] == "0"]
    outside = outside or mat.NON_SOLVENTS.get(row["id"], [])
    if outside:
        out["non_solvents"] = outside
    if row["id"] == "linseed-oil-film-young":
        out["swelling_classes"] = swelling_classes()
    if substitute:
        out["substitute"] = substitute
    out["behaviour"] = behaviour
    if row["id"] in mat.NOT_PROPOSED:
        out["not_proposed"] = mat.NOT_PROPOSED[row["id"]]
    out["refs"] = ref_numbers(keys)
    found = [area(r) for r in regions if r["material"] == row["id"]]
    if found:
        out["regions"] = found
    return out


def materials():
    with open(os.path.join(REFERENCE, "teas-regions.yaml"), encoding="utf-8") as f:
        regions = yaml.safe_load(f)["regions"]
    table = rows("resins.csv")
    unknown = {r["material"] for r in regions} - {r["id"] for r in table}
    if unknown:
        raise ValueError("areas of unknown materials: %s" % unknown)
    return [material(row, regions) for row in table]


def bottles():
    out = []
    for ident, name, synonyms, parts, sure, keys, note in mat.BOTTLES:
        record = {"id": ident, "name": name, "synonyms": names(synonyms),
                  "composition": [{"component": c, "percent": p} for c, p in parts]}
        record.update(provenance(sure, keys, note))
        out.append(record)
    return out


def shelves():
    return [{"id": i, "name": n, "bottles": b, "note": note} for i, n, b, note in mat.SHELVES]


def uncertainties():
    return [{"quantity": q, "sure": s, "value": v, "unit": u, "relative": r,
             "refs": ref_numbers(["own-uncertainty"]), "note": n} for q, s, v, u, r, n in mat.UNCERTAINTIES]


# --- groups ------------------------------------------------------------------------------------
MODELS = (("dortmund", "dortmund-unifac-"), ("original", "unifac-"))


def unifac_source(text, words=None):
    keys, sure, note = src.known(src.UNIFAC_SOURCE, text, "unifac source")
    return sure or "checked", keys, src.join(note, words)


def unifac_groups():
    for model, prefix in MODELS:
        for row in rows(prefix + "groups.csv"):
            out = {"model": model, "subgroup": row["subgroup_id"], "name": row["subgroup"],
                   "main_group": row["main_group_id"], "main_name": row["main_group"], "r": row["R"], "q": row["Q"]}
            out.update(provenance(*unifac_source(row["source"]), implied="checked"))
            yield out


def unifac_estimated(model, source):
    pairs = {(r["main_group_m"], r["main_group_n"]): r for r in source}
    for of, missing, like, other in src.UNIFAC_ESTIMATED:
        for m, n, taken in ((missing, other, pairs[(like, other)]), (other, missing, pairs[(other, like)])):
            if of != model:
                continue
            if (m, n) in pairs:
                raise ValueError("an interaction is estimated although it is published: %s %s" % (m, n))
            out = {"model": model, "m": m, "n": n, "a": taken["a_mn"]}
            if model == "dortmund":
                out.update({"b": taken["b_mn"], "c": taken["c_mn"]})
            out.update(provenance("estimate", ["dortmund2016", "own-ring"], src.UNIFAC_ESTIMATE_NOTE))
            yield out


def unifac_interactions():
    for model, prefix in MODELS:
        for row in rows(prefix + "interactions.csv"):
            sure, keys, note = unifac_source(row["source"])
            out = {"model": model, "m": row["main_group_m"], "n": row["main_group_n"], "a": row["a_mn"]}
            if model == "dortmund":
                out.update({"b": row["b_mn"], "c": row["c_mn"]})
            out.update(provenance("estimate" if row["fill"] == "1" else sure, keys, note, implied="checked"))
            yield out
        yield from unifac_estimated(model, rows(prefix + "interactions.csv"))


def unifac_assignments():
    for model, prefix in MODELS:
        by_component = {}
        for row in rows(prefix + "assignments.csv"):
            by_component.setdefault(row["id"], []).append(row)
        for ident, found in by_component.items():
            first = found[0]
            if len({(r["status"], r["source"], r["note"]) for r in found}) != 1:
                raise ValueError("rows of one assignment disagree: " + ident)
            status = "none" if first["status"] == "unsupported" else first["status"]
            words = src.UNIFAC_NOTE.get(first["note"], "; ".join(
                w for w in first["note"].split("; ") if src.UNIFAC_NOTE.get(w, w)))
            doubt = src.UNIFAC_UNRELIABLE.get(ident) if status == "ok" else None
            if doubt:
                status, words = "unreliable", "; ".join(w for w in (words, doubt) if w)
            out = {"component": ident, "model": model, "status": status}
            if status != "none":
                out["groups"] = [[r["subgroup_id"], r["count"]] for r in found]
            sure, keys, note = unifac_source(first["source"], words)
            table = "dortmund2016" if model == "dortmund" else "hansen1991"  # the table that has no such group
            out.update(provenance(sure, keys or [table], note, implied="checked"))
            yield out


# --- miscibility ---------------------------------------------------------------------------------
def miscibility():
    for row in rows("miscibility.csv"):
        out = {"first": row["comp1"], "second": row["comp2"], "miscible": row["miscible"]}
        for key, column in (("ucst", "ucst_c_if_known"), ("lcst", "lcst_c_if_known")):
            if row[column]:
                out[key] = row[column]
        sure, keys, note = mix.source(row["source"], row["note"])
        out.update(provenance(sure, keys, note))
        yield out


# --- layers --------------------------------------------------------------------------------------
def layer_rows(name):
    """Rows of a reference file as they stand, without empty cells, with their sources."""
    for row in rows(name):
        out = {key: value for key, value in row.items() if key != "source" and value}
        sure, keys = age.source(row["source"])
        out.update(provenance(sure, keys))
        yield out


# --- all ---------------------------------------------------------------------------------------
def references():
    unused = [key for key, _, _ in refs_file.REFS if key not in USED]
    if unused:
        raise ValueError("references that nothing uses: %s" % ", ".join(unused))
    return [{"id": i, "cite": cite, "seen": seen} for i, (_, seen, cite) in enumerate(refs_file.REFS, 1)]


def check_ids():
    """Every liquid stands in every file, in the same order; says in one sentence which is missing where."""
    ids = [r["id"] for r in rows("solvent-list.csv")]
    files = ["solvents-physical.csv", "solvents-solubility.csv", "hazards.csv"] + [p + "assignments.csv" for _, p in MODELS]
    places = [(name, list(dict.fromkeys(r["id"] for r in rows(name)))) for name in files]
    for name, found in places + [("COMPONENTS of import_extra.py", list(extra.COMPONENTS)),
                                 ("FORMULAS or SURROGATES of import_formulas.py", [*formulas.FORMULAS, *formulas.SURROGATES])]:
        for ident in ids:
            if ident not in found:
                sys.exit("import_tables: %s is in solvent-list.csv but not in %s" % (ident, name))
        for ident in found:
            if ident not in ids:
                sys.exit("import_tables: %s is in %s but not in solvent-list.csv" % (ident, name))
        if name in files and found != ids:
            sys.exit("import_tables: the liquids of %s are not in the order of solvent-list.csv" % name)


def main():
    check_ids()
    os.makedirs(DATA, exist_ok=True)
    listed = {r["id"]: r for r in rows("solvent-list.csv")}
    physical = {r["id"]: r for r in rows("solvents-physical.csv")}
    write("components", "Liquids: Hansen, Teas and Hildebrand values and molar volumes at 25 degC; "
          "names from general chemical and trade vocabulary.",
          [("components", [component(r, listed[r["id"]], physical[r["id"]]) for r in rows("solvents-solubility.csv")])])
    write("properties", "Physical figures of the liquids; a row without flash_point has none by closed cup, "
          "other absent keys are not known. Antoine: log10(p/kPa) = a - b / (t/degC + c).",
          [("properties", [properties(r) for r in physical.values()])])
    write("hazards", "Classification by Reg. (EC) 1272/2008, gloves (cl n = EN 374 class: 0 below 10 min, 1 over 10, 2 over 30, "
          "3 over 60, 4 over 120, 5 over 240, 6 over 480), odour and health notes.",
          [("hazards", [hazards(r) for r in rows("hazards.csv")])])
    write("statements", "Wording of hazard and precautionary statements, from memory of Reg. (EC) 1272/2008.",
          [("statements", statements())], compact=True)
    write("limits", "Occupational exposure limits as printed by each authority, never converted; year of the document that was read.",
          [("authorities", authorities()), ("limits", exposure_limits())], compact=True)
    write("materials", "Varnishes, resins, paint, waxes: solubility or swelling spheres and Teas areas (for display only).",
          [("materials", materials())])
    write("bottles", "Bottles by composition in percent by volume, and shelves of twenty.",
          [("bottles", bottles()), ("shelves", shelves())])
    write("uncertainty", "Standard deviations by quantity and sureness, used where a value has none of its own.",
          [("uncertainties", uncertainties())], compact=True)
    write("unifac-groups", "Group volumes and areas; a row without sure is checked.", [("groups", unifac_groups())], compact=True)
    write("unifac-interactions", "Group interaction parameters in K, 1 and 1/K; a row without sure is checked.",
          [("interactions", unifac_interactions())], compact=True)
    write("unifac-assignments", "Groups of each liquid as [subgroup, count]; a row without sure is checked.",
          [("assignments", unifac_assignments())], compact=True)
    write("miscibility", "Pairs of liquids at 25 degC: yes = miscible in all proportions, partial, no = hardly miscible; "
          "ucst, lcst = upper and lower critical solution temperature in degC.",
          [("pairs", miscibility())], compact=True)
    write("ageing", "What becomes of a layer: states after ageing, shares of a family from which a carrier is published to lift it, "
          "blends that took old films off, carrier that was found in films long after, and how much of a family a petroleum cut holds.",
          [("states", layer_rows("ageing-states.csv")), ("thresholds", layer_rows("lifting-thresholds.csv")),
           ("removals", layer_rows("aged-removals.csv")), ("retained", layer_rows("retained-carrier.csv")), ("shares", layer_rows("family-shares.csv"))], compact=True)
    write("references", "Every source of every number, numbered; seen says how much of it was read.",
          [("references", references())], compact=True)


if __name__ == "__main__":
    try:
        main()
    except (src.Unmapped, ValueError) as fault:
        sys.exit("import_tables: %s" % fault)
