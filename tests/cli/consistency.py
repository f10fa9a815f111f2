#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The same blend asked through every command gives the same figures, in JSON and in text.

Blends: water and alcohol in an alkane (azeotropes, nearly two liquids), a petroleum cut, and the working blend of the demo case
with the case's own bottles and room. What two commands both print must be the same number; what a text prints must be the
JSON's number, rounded as it is printed.
"""
import json
import os
import pathlib
import re
import shutil
import sys
import tempfile

from program import run

ROOT = pathlib.Path(os.environ["SOURCE_ROOT"])
REMOVE, SPARE = "dammar-aged", "linseed-oil-film-young"
ROOM = ["--use", "20", "--hours", "5", "--room", "85", "--air-changes", "3", "--limits", "uk"]
BLENDS = ["ethanol-96 50 + isooctane 50", "white-spirit 70 + butanone 30"]
passed = 0
failures = []


class Asked:
    """What every command says of one blend; `more` are options that all of them take."""

    def __init__(self, blend, directory, more=()):
        self.blend, self.directory, self.more = blend, directory, list(more)

    def text(self, command, *options):
        return run([command, self.blend, *options, *self.more], self.directory)

    def json(self, command, *options):
        return json.loads(run([command, self.blend, *options, *self.more, "--json"], self.directory))


def same(what, a, b, digits=9):
    """Equal to the digits that JSON prints, or both null."""
    global passed
    numbers = isinstance(a, (int, float)) and isinstance(b, (int, float))
    if a == b or (numbers and abs(a - b) <= 10.0 ** -digits * max(abs(a), abs(b))):
        passed += 1
    else:
        failures.append(f"{what}: {a} and {b}")


def printed(what, text, pattern, *values):
    """The figures that the groups of `pattern` find in the text, line breaks not counted, are these, as far as they are
    printed."""
    global passed
    found = re.search(pattern, " ".join(text.split()))
    if not found:
        failures.append(f"{what}: the text has no {pattern}")
        return
    for shown, value in zip(found.groups(), values, strict=True):
        decimals = len(shown.split(".")[1]) if "." in shown else 0
        if abs(float(shown) - value) <= 0.50001 * 10.0 ** -decimals:
            passed += 1
        else:
            failures.append(f"{what}: the text prints {shown}, JSON {value}")


PLACE = ("delta_d", "delta_p", "delta_h")
TEAS = ("fd", "fp", "fh")


def check_place(asked, place):
    text = asked.text("place", "--material", f"{REMOVE},{SPARE}")
    name = f"place {asked.blend}"
    printed(name, text, r"delta_d ([\d.]+), delta_p ([\d.]+), delta_h ([\d.]+); total ([\d.]+)",
            *(place["hansen"][key] for key in (*PLACE, "total_mpa05")))
    printed(name, text, r"published fractions: fd ([\d.]+), fp ([\d.]+), fh ([\d.]+)",
            *(place["teas"]["mean_of_fractions"][key] for key in TEAS))
    printed(name, text, r"count with (-?\d+) degC", place["flash_point_c"])
    for material in place["materials"]:
        printed(name, text, material["id"] + r" +([\d.]+) +([\d.]+) ", material["ra_mpa05"], material["red"])
    for part in place["vapour"]:
        printed(name, text, r"kPa:.*?\b" + part["component"] + r" ([\d.]+)", part["partial_pressure_kpa"])


def check_drying(asked, place, drying):
    name = f"drying {asked.blend}"
    start = drying["path"][0]
    for key in PLACE:
        same(f"{name}: {key}", start[key], place["hansen"][key])
    for rule in ("mean_of_fractions", "of_mean_hansen"):
        for key in TEAS:
            same(f"{name}: Teas {key}", start["teas"][rule][key], place["teas"][rule][key])
    for component, share in start["composition_volume"].items():
        same(f"{name}: {component}", 100 * share, place["composition_volume_percent"][component])
    same(f"{name}: phase", start["phase"], place["phase"]["verdict"])
    same(f"{name}: vapour pressure", start["total_pressure_kpa"],
         sum(part["partial_pressure_kpa"] for part in place["vapour"]), 7)
    text = asked.text("drying")
    printed(name, text, r"([\d.]+) times the time that n-butyl acetate", drying["relative_time_90"])
    printed(name, text, r"dD/dP/dH 0 0 .*? ([\d.]+)/([\d.]+)/([\d.]+) ([\d.]+)/([\d.]+)/([\d.]+) 10 ",
            *(place["teas"]["mean_of_fractions"][key] for key in TEAS), *(place["hansen"][key] for key in PLACE))


def check_air(asked, exposure, room):
    name = f"exposure {asked.blend}"
    text = asked.text("exposure", *room)
    printed(name, text, r"at the person: (?:at least )?([\d.]+) \(day means\), ([\d.]+) \(short times\)", exposure["index"],
            exposure["peak_index"])
    printed(name, text, r"([\d.]+) % of the lower flammable limit in the room, ([\d.]+) % near",
            100 * exposure["flammable_share_room"], 100 * exposure["flammable_share_near"])
    for component in exposure["components"]:
        same(f"{name}: {component['id']} shares", sum(limit["share"] is None for limit in component["limits"]), 0)
        for limit in component["limits"]:
            same(f"{name}: {component['id']}", limit["share"], limit["reached_mg_m3"] / limit["limit_mg_m3"], 8)
            if limit["kind"] == "twa-8h":
                same(f"{name}: {component['id']} 8 h", limit["reached_mg_m3"], component["twa_8h_mg_m3"])


def check_portrait(name, portrait, place, drying, exposure):
    """A blend as `replace` portrays it."""
    red = {material["id"]: material for material in place["materials"]}
    for key in PLACE:
        same(f"{name}: {key}", portrait["hansen"][key], place["hansen"][key])
    for key in TEAS:
        same(f"{name}: {key}", portrait["teas"][key], place["teas"]["mean_of_fractions"][key])
    same(f"{name}: RED", portrait["red_remove"], red[REMOVE]["red"])
    same(f"{name}: dissolves", portrait["dissolves"], red[REMOVE]["dissolves"])
    same(f"{name}: swelling", portrait["film"]["swelling"], red[SPARE]["swelling"])
    same(f"{name}: phase", portrait["phase"], place["phase"]["verdict"])
    same(f"{name}: flash point", portrait["flash_point_c"], place["flash_point_c"])
    same(f"{name}: statement", portrait["flammability_statement"], place["flammability_statement"])
    for tenths in (90, 95):
        same(f"{name}: time", portrait["drying"][f"time_{tenths}"], drying[f"relative_time_{tenths}"])
    tail = drying["tail_volume"]
    last = max(tail, key=tail.get)
    same(f"{name}: last", portrait["drying"]["last"], last)
    same(f"{name}: share of the last", portrait["drying"]["last_percent_of_tail"], 100 * tail[last])
    same(f"{name}: index", portrait["air"]["index"], max(exposure["index"], exposure["peak_index"]))
    same(f"{name}: verdict", portrait["air"]["verdict"], exposure["verdict"])


def check_label(asked, place, label):
    name = f"label {asked.blend}"
    same(f"{name}: flash point", label["flash_point_c"], place["flash_point_c"])
    codes = [statement["code"] for statement in label["statements"]]
    same(f"{name}: statement", [code for code in codes if code in ("H224", "H225", "H226", "H227")],
         [place["flammability_statement"]] if place["flammability_statement"] else [])
    printed(name, asked.text("label"), r"Flash point (-?\d+) degC", label["flash_point_c"])


def check_recipe(asked, place, recipe):
    name = f"recipe {asked.blend}"
    same(f"{name}: composition", recipe["composition_volume_percent"], place["composition_volume_percent"])
    text = asked.text("recipe")
    for line in recipe["lines"]:
        printed(name, text, re.escape(line["bottle"]) + r" +([\d.]+) +([\d.]+)", line["add_ml"], line["add_g"])


def check_chart(asked, place, directory):
    chart = json.loads(run(["chart", "c.svg", "--blend", asked.blend, *asked.more, "--json"], directory))
    point = [point for point in chart["points"] if point["name"] == place["blend"]][0]
    for key in TEAS:
        same(f"chart {asked.blend}: {key}", point[key], place["teas"]["mean_of_fractions"][key])


def check_layers(asked, place, directory):
    """The blend as the carrier of a varnish on paint."""
    if asked.more:
        return
    answer = json.loads(run(["layers", "--layer", f"paint: {SPARE}", "--layer", f"varnish: {REMOVE} 20 in {asked.blend}",
                             "--now", "--doubt", "none", "--json"], directory))
    pair = answer["stacks"][0]["pairs"][0]
    spared = [material for material in place["materials"] if material["id"] == SPARE][0]
    same(f"layers {asked.blend}: RED", pair["red"], spared["red"])
    same(f"layers {asked.blend}: phase", answer["stacks"][0]["layers"][1]["phase"], place["phase"]["verdict"])


def places(asked):
    return asked.json("place", "--material", f"{REMOVE},{SPARE}")


def check_blend(asked, directory, room):
    """What is asked of one blend by name."""
    place, drying, exposure = places(asked), asked.json("drying"), asked.json("exposure", *room)
    check_place(asked, place)
    check_drying(asked, place, drying)
    check_air(asked, exposure, room)
    first = exposure["tasks"][0]["composition_volume_percent"]
    same(f"exposure {asked.blend}: composition", first, place["composition_volume_percent"])
    bottle = asked.blend.rsplit("+", 1)[0].split()[0]
    replace = asked.json("replace", "--without", bottle, "--remove", REMOVE, "--spare", SPARE, "--within", "6", "--show", "1",
                         *room)
    check_portrait(f"replace {asked.blend}", replace["original"], place, drying, exposure)
    for row in replace["replacements"][:1]:
        found = Asked(row["recipe"], directory, asked.more)
        check_portrait(f"replaced {found.blend}", row, places(found), found.json("drying"), found.json("exposure", *room))
    check_label(asked, place, asked.json("label"))
    check_recipe(asked, place, asked.json("recipe"))
    check_chart(asked, place, directory)
    check_layers(asked, place, directory)


def check_lists(bottles, directory):
    """The rows of gentlest, each asked by its recipe; by film without tests, so that the tables alone speak."""
    goal = ["gentlest", "--remove", REMOVE, "--spare", SPARE, "--bottles", bottles, "--step", "10", "--json"]
    film = json.loads(run(goal + ["--doubt", "none", "--show", "3"], directory))
    red = json.loads(run(goal + ["--by", "red", "--show", "2"], directory))
    for row in film["blends"]:
        asked = Asked(row["recipe"], directory)
        place, drying = places(asked), asked.json("drying")
        of = {material["id"]: material for material in place["materials"]}
        name = f"gentlest {row['recipe']}"
        same(f"{name}: RED", row["red_remove"], of[REMOVE]["red"])
        same(f"{name}: swelling", row["swelling"], of[SPARE]["swelling"])
        same(f"{name}: phase", row["phase"], place["phase"]["verdict"])
        same(f"{name}: flash point", row["flash_point_c"], place["flash_point_c"])
        same(f"{name}: statement", row["flammability_statement"], place["flammability_statement"])
        if row["last_to_leave_tail_share"] is not None:
            same(f"{name}: last", row["last_to_leave_tail_share"], drying["tail_volume"][row["last_to_leave"]])
    for row in red["blends"]:
        of = {material["id"]: material for material in places(Asked(row["recipe"], directory))["materials"]}
        same(f"by red {row['recipe']}: RED", row["red_remove"], of[REMOVE]["red"])
        same(f"by red {row['recipe']}: spared", row["red_spare"], of[SPARE]["red"])
        same(f"by red {row['recipe']}: Ra", row["ra_spare_mpa05"], of[SPARE]["ra_mpa05"])


# --- the demo case: report against the commands ---

CASE = ["--case", "demo-case.yaml"]
WORKING = "propan-2-ol 30 + isooctane 70"


def parts_of(report):
    """Numbers of the facts by section and key; rows of the tables by their id."""
    facts, rows = {}, {}
    for section in report["sections"]:
        for block in section["blocks"]:
            for key, fact in (block.get("facts") or {}).items():
                facts[section["id"], key] = fact["number"]
            if "rows" in block:
                rows[block["id"]] = block["rows"]
    return facts, rows


def check_report_blend(facts, rows, asked):
    place, label, recipe = places(asked), asked.json("label"), asked.json("recipe")
    for key in PLACE:
        same(f"report: {key}", facts["blend", key], place["hansen"][key])
    for key in TEAS:
        same(f"report: {key}", facts["blend", f"teas_{key}"], place["teas"]["mean_of_fractions"][key])
    same("report: flash point", facts["blend", "flash_point_c"], place["flash_point_c"])
    same("report: flash point of the label", facts["label", "flash_point_c"], label["flash_point_c"])
    same("report: statements", [(row["code"], row["left_off"]) for row in rows["statements"]],
         [(statement["code"], statement["left_off"]) for statement in label["statements"]])
    of = {material["id"]: material for material in place["materials"]}
    for row in rows["places"]:
        same(f"report: RED of {row['material']}", row["red"], of[row["material"]]["red"])
        same(f"report: Ra of {row['material']}", row["ra_mpa05"], of[row["material"]]["ra_mpa05"])
    for row, line in zip(rows["recipe"], recipe["lines"], strict=True):
        for key in ("bottle", "add_ml", "add_g", "asked_percent", "reached_percent"):
            same(f"report: recipe {key}", row[key], line[key])
    drying = asked.json("drying")
    by_share = {round(100 * point["evaporated"]): point for point in drying["path"] if point["evaporated"] < 0.995}
    for row in rows["drying"]:
        point = by_share[round(row["evaporated_mol_percent"])]
        same("report: time", row["relative_time"], point["relative_time"])
        for number, component in enumerate(point["composition_volume"], 1):
            same(f"report: {component} left", row[f"component_{number}"], 100 * point["composition_volume"][component])


def check_report_air(facts, rows, exposure):
    for key in ("index", "peak_index"):
        same(f"report: {key}", facts["air", key], exposure[key])
    same("report: up to so much", facts["air", "allowed_ml_h"], int(exposure["allowed_ml_h"]))
    same("report: LFL", facts["air", "flammable_share_near_percent"], 100 * exposure["flammable_share_near"])
    limits = [limit for component in exposure["components"] for limit in component["limits"]]
    for row, limit in zip(rows["limits"], limits, strict=True):
        for key in ("reached_mg_m3", "limit_mg_m3", "share"):
            same(f"report: {key}", row[key], limit[key])


def check_report_lists(rows, directory):
    ladder = json.loads(run(["ladder", *CASE, "--date", "2025-02-19", "--json"], directory))
    learn = json.loads(run(["learn", *CASE, "--json"], directory))
    gentlest = json.loads(run(["gentlest", *CASE, "--show", "5", "--json"], directory))
    for row, rung in zip(rows["ladder"], ladder["rungs"], strict=True):
        same("report: rung", row["blend"], rung["blend"])
        for key in ("p_works", "p_touches"):
            same(f"report: rung {key}", row[key], rung[key])
        same("report: wait", row["judge_min"], rung["judge_after_min"])
        batch = rung["from_jar"] if row["weak_ml"] != rung["fresh"]["weak_ml"] else rung["fresh"]
        same("report: weak liquid", row["weak_ml"], batch["weak_ml"])
        same("report: strong liquid", row["strong_ml"], batch["strong_ml"])
    forecasts = {(passage["id"], forecast["blend"], forecast["view"]): forecast
                 for passage in learn["passages"] for forecast in passage["forecasts"]}
    for row in rows["forecasts"]:
        views = [forecasts[row["passage"], row["blend"], view] for view in ("film", "red")]
        same("report: works by film", row["p_works_film"], views[0]["p_works"])
        same("report: works by RED", row["p_works_red"], views[1]["p_works"])
        same("report: touches", row["p_touches"], max(view["p_touches"] for view in views))
    for row, blend in zip(rows["alternatives"], gentlest["blends"], strict=False):
        same("report: row of the list", row["blend"], blend["recipe"])
        same("report: works", row["p_works"], blend["doubt"]["p_works"])
        same("report: RED", row["red_remove"], blend["red_remove"])
        same("report: flash point", row["flash_point_c"], blend["flash_point_c"])


def check_report_replacement(rows, directory):
    """The first blend for which the case seeks something else."""
    replace = json.loads(run(["replace", *CASE, "--json"], directory))
    for row, found in zip(rows["replacement-1"], replace["replacements"], strict=False):
        same("report: replacement", row["blend"], found["recipe"])
        same("report: Ra", row["ra"], found["ra_mpa05"])
        same("report: triangle", row["triangle"], found["triangle_percent"])
        same("report: flash point", row["flash_point_c"], found["flash_point_c"])
        same("report: vapour", row["vapour_ratio"], found["vapour_hazard_change"])


def check_demo(directory):
    asked = Asked(WORKING, directory, CASE)
    check_blend(asked, directory, [])
    report = json.loads(run(["report", *CASE, "--json"], directory))
    facts, rows = parts_of(report)
    check_report_blend(facts, rows, asked)
    check_report_air(facts, rows, json.loads(run(["exposure", *CASE, "--json"], directory)))
    check_report_lists(rows, directory)
    check_report_replacement(rows, directory)


def main():
    with tempfile.TemporaryDirectory() as directory:
        shutil.copy(ROOT / "examples/demo-case.yaml", directory)
        for blend in BLENDS:
            check_blend(Asked(blend, directory), directory, ROOM)
        check_lists("ethanol-96, isooctane, acetone", directory)
        check_demo(directory)
    for failure in failures:
        print("FAILED", failure)
    print(f"{passed} passed, {len(failures)} failed")
    return 1 if failures or passed == 0 else 0


if __name__ == "__main__":
    sys.exit(main())
