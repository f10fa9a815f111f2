// SPDX-License-Identifier: GPL-3.0-or-later
// place BLEND: where does it sit, how far from every material.
#include "cli/common.h"
#include "physics/place.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { MATERIALS_MAX = 256 };

struct placing {
    struct blend blend;
    bool has_hansen, has_teas;
    struct hansen hansen;
    struct teas by_fractions; // volume mean of published fractions
    struct teas by_hansen;    // fractions of the mean Hansen parameters
    size_t computed;          // components whose fractions had to be computed
    char missing[ERROR_TEXT_SIZE];
    const struct material *asked[MATERIALS_MAX];
    size_t asked_count;
    struct material_place places[MATERIALS_MAX];
    size_t count;
};

static enum status which_materials(struct invocation *inv, struct placing *placing, struct error *err) {
    const char *list = option_value(inv, "--material");
    if (list)
        return material_list_parse(&inv->library, list, placing->asked, MATERIALS_MAX, &placing->asked_count, err);
    for (size_t i = 0; i < inv->library.material_count && i < MATERIALS_MAX; i++)
        placing->asked[placing->asked_count++] = &inv->library.materials[i];
    return STATUS_OK;
}

static int by_red(const void *a, const void *b) {
    const struct material_place *x = a;
    const struct material_place *y = b;
    if (isnan(x->red) != isnan(y->red))
        return isnan(x->red) ? 1 : -1;
    if (!isnan(x->red) && x->red != y->red)
        return x->red < y->red ? -1 : 1;
    return strcmp(x->material->id, y->material->id);
}

static void compute(struct placing *placing) {
    struct error err = {0};
    placing->has_hansen = hansen_of_blend(&placing->blend, &placing->hansen, &err) == STATUS_OK;
    if (!placing->has_hansen)
        memcpy(placing->missing, err.text, sizeof placing->missing);
    placing->has_teas = teas_of_blend(&placing->blend, TEAS_MEAN_OF_FRACTIONS, &placing->by_fractions,
                                      &placing->computed, NULL) == STATUS_OK;
    if (placing->has_hansen)
        placing->by_hansen = teas_of_hansen(placing->hansen);
    for (size_t i = 0; i < placing->asked_count; i++)
        place_against(placing->asked[i], placing->has_hansen ? &placing->hansen : NULL,
                      placing->has_teas ? &placing->by_fractions : NULL, &placing->places[placing->count++]);
    qsort(placing->places, placing->count, sizeof placing->places[0], by_red);
}

// --- text ---

static void write_position(const struct placing *placing, struct text *out) {
    struct text notation = {0};
    blend_write(&placing->blend, &notation);
    page_paragraph(out, 0, 2, text_bytes(&notation));
    text_release(&notation);
    if (placing->has_hansen) {
        const struct hansen *h = &placing->hansen;
        page_paragraph_f(out, 2, 4,
                         "Hansen parameters, volume mean: delta_d %.1f, delta_p %.1f, delta_h %.1f; total %.1f "
                         "MPa^0.5",
                         h->delta_d, h->delta_p, h->delta_h, hansen_total(*h));
    }
    if (placing->has_teas) {
        const struct teas *t = &placing->by_fractions;
        page_paragraph_f(out, 2, 4, "Teas, %s: fd %.0f, fp %.0f, fh %.0f", teas_rule_words(TEAS_MEAN_OF_FRACTIONS),
                         t->fd, t->fp, t->fh);
    }
    if (placing->has_hansen) {
        const struct teas *t = &placing->by_hansen;
        page_paragraph_f(out, 2, 4, "Teas, %s: fd %.0f, fp %.0f, fh %.0f", teas_rule_words(TEAS_OF_MEAN_HANSEN), t->fd,
                         t->fp, t->fh);
    }
    if (placing->has_hansen && placing->has_teas)
        page_paragraph(out, 2, 2,
                       "The two rules are different habits, not two measurements; never compare a point of one with a "
                       "drawing of the other.");
}

static void write_components(const struct placing *placing, struct text *out) {
    page_heading(out, "components");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "component", false);
    sheet_column(&sheet, "vol%", true);
    sheet_column(&sheet, "Hansen", false);
    sheet_column(&sheet, "Teas", false);
    for (size_t i = 0; i < placing->blend.count; i++) {
        const struct component *component = placing->blend.components[i];
        sheet_cell(&sheet, "%s", component->id);
        sheet_cell(&sheet, "%.1f", 100 * placing->blend.volume_fractions[i]);
        sheet_cell(&sheet, "%s", isnan(component->hansen.delta_d) ? "not known" : doubt_words(&component->hansen.from));
        sheet_cell(&sheet, "%s",
                   isnan(component->teas.fd) ? "computed from Hansen" : doubt_words(&component->teas.from));
    }
    sheet_write(&sheet, out);
    for (size_t i = 0; i < placing->blend.count; i++)
        for (size_t j = 0; j < placing->blend.components[i]->conflicts.count; j++)
            page_paragraph_f(out, 2, 4, "%s, sources disagree: %s", placing->blend.components[i]->id,
                             placing->blend.components[i]->conflicts.items[j]);
}

static bool has_regions(const struct placing *placing) {
    for (size_t i = 0; i < placing->count; i++)
        if (!isnan(placing->places[i].red))
            return true;
    return false;
}

static void write_regions(const struct placing *placing, struct text *out) {
    page_heading(out, "materials, nearest first (RED below 1 = inside the solubility or swelling sphere)");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "material", false);
    sheet_column(&sheet, "Ra", true);
    sheet_column(&sheet, "RED", true);
    sheet_column(&sheet, "Teas area", false);
    sheet_column(&sheet, "sphere is", false);
    for (size_t i = 0; i < placing->count; i++) {
        const struct material_place *place = &placing->places[i];
        if (isnan(place->red))
            continue;
        sheet_cell(&sheet, "%s", place->material->id);
        sheet_cell(&sheet, "%.1f", place->ra_mpa05);
        sheet_cell(&sheet, "%.2f", place->red);
        if (place->area)
            sheet_cell(&sheet, "%s, %.0f from edge", place->inside_area ? "inside" : "outside", place->teas_distance);
        else
            sheet_cell(&sheet, "-");
        sheet_cell(&sheet, "%s", doubt_words(&place->material->sphere.from));
    }
    sheet_write(&sheet, out);
}

static void write_without_region(const struct placing *placing, struct text *out) {
    bool first = true;
    for (size_t i = 0; i < placing->count; i++) {
        const struct material *material = placing->places[i].material;
        if (!material->no_region)
            continue;
        if (first)
            page_heading(out, "materials without a published region");
        first = false;
        page_paragraph_f(out, 2, 4, "%s: %s%s%s%s", material->id, material->no_region,
                         material->substitute ? " Careful stand-in: " : "",
                         material->substitute ? material->substitute : "", material->substitute ? "." : "");
    }
}

static void write_text(const struct placing *placing, struct text *out) {
    write_position(placing, out);
    if (!placing->has_hansen)
        page_paragraph(out, 2, 2, placing->missing);
    write_components(placing, out);
    if (has_regions(placing))
        write_regions(placing, out);
    write_without_region(placing, out);
    page_heading(out, "units and doubt");
    page_paragraph(
        out, 2, 2,
        "Ra in MPa^0.5. Teas distances in percent along a side of the triangle, by the volume mean of fractions, "
        "the rule the areas were built with. An estimated sphere is one of many that fit; its centre is uncertain "
        "by about 2 MPa^0.5. `mildsolve materials NAME` shows sources.");
    write_caution(out);
}

// --- JSON ---

static void json_teas(struct json *json, const char *key, const struct teas *point) {
    json_object(json, key);
    json_number(json, "fd", point->fd);
    json_number(json, "fp", point->fp);
    json_number(json, "fh", point->fh);
    json_close_object(json);
}

static void json_positions(const struct placing *placing, struct json *json) {
    json_object(json, "hansen");
    json_number(json, "delta_d", placing->has_hansen ? placing->hansen.delta_d : NAN);
    json_number(json, "delta_p", placing->has_hansen ? placing->hansen.delta_p : NAN);
    json_number(json, "delta_h", placing->has_hansen ? placing->hansen.delta_h : NAN);
    json_number(json, "total_mpa05", placing->has_hansen ? hansen_total(placing->hansen) : NAN);
    json_close_object(json);
    const struct teas none = {NAN, NAN, NAN};
    json_object(json, "teas");
    json_teas(json, "mean_of_fractions", placing->has_teas ? &placing->by_fractions : &none);
    json_teas(json, "of_mean_hansen", placing->has_hansen ? &placing->by_hansen : &none);
    json_integer(json, "computed_components", (long long)placing->computed);
    json_close_object(json);
}

static void json_components(const struct placing *placing, struct json *json) {
    json_list(json, "components");
    for (size_t i = 0; i < placing->blend.count; i++) {
        const struct component *component = placing->blend.components[i];
        json_object(json, NULL);
        json_text(json, "id", component->id);
        json_number(json, "volume_percent", 100 * placing->blend.volume_fractions[i]);
        json_provenance(json, "hansen_source", &component->hansen.from);
        json_provenance(json, "teas_source", &component->teas.from);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_materials(const struct placing *placing, struct json *json) {
    json_list(json, "materials");
    for (size_t i = 0; i < placing->count; i++) {
        const struct material_place *place = &placing->places[i];
        json_object(json, NULL);
        json_text(json, "id", place->material->id);
        json_number(json, "ra_mpa05", place->ra_mpa05);
        json_number(json, "red", place->red);
        json_text(json, "teas_area", place->area ? place->area->id : NULL);
        if (place->area)
            json_flag(json, "teas_inside", place->inside_area);
        else
            json_null(json, "teas_inside");
        json_number(json, "teas_distance_percent", place->teas_distance);
        json_provenance(json, "sphere_source", &place->material->sphere.from);
        json_text(json, "no_region", place->material->no_region);
        json_text(json, "substitute", place->material->substitute);
        json_close_object(json);
    }
    json_close_list(json);
}

static void write_json(const struct placing *placing, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_blend(&json, &placing->blend);
    json_positions(placing, &json);
    json_components(placing, &json);
    json_materials(placing, &json);
    json_end(&json);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct placing *placing = arena_new(inv->arena, 1, sizeof *placing);
    if (!placing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = argument_blend(inv, 0, &placing->blend, err);
    if (status == STATUS_OK)
        status = which_materials(inv, placing, err);
    if (status != STATUS_OK)
        return status;
    compute(placing);
    if (inv->json)
        write_json(placing, inv->out);
    else
        write_text(placing, inv->out);
    return STATUS_OK;
}

static const struct option options[] = {
    {.name = "--material", .argument = "LIST", .help = "only these materials (names separated by commas)"},
};

const struct command cmd_place = {
    .name = "place",
    .arguments = "BLEND",
    .arguments_least = 1,
    .arguments_most = 1,
    .summary = "Where a blend sits (Hansen; Teas by both rules) and how far from every material",
    .details =
        "BLEND is parts by volume of bottles: \"propan-2-ol 30 + isooctane 70\"; a lone name is the neat bottle.",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS,
    .example = "mildsolve place \"toluene 75 + acetone 25\"",
    .run = run,
};
