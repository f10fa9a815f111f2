// SPDX-License-Identifier: GPL-3.0-or-later
// place BLEND: where does it sit, how far from every material.
#include "base/language.h"
#include "base/print_words.h"
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/notes.h"
#include "base/units.h"
#include "physics/film.h"
#include "physics/film_band.h"
#include "physics/flash.h"
#include "physics/film_mix.h"
#include "physics/miscibility.h"
#include "physics/place.h"
#include "selection/published.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MATERIALS_MAX = 256 };

// A material's place and what its film takes up.
struct placed {
    struct material_place place;
    struct film_result film;
};

struct placing {
    struct blend blend;
    double temp_c;
    struct unifac_table groups;
    struct activity_model activity;
    double ln_activity[BLEND_COMPONENTS_MAX];
    bool has_activity;
    struct phase_judgement phase;
    bool bears_water; // `cloud` says how much
    struct cloud_water cloud;
    struct vapour vapour;
    struct flash flash;
    enum ghs_flammable flammable;
    bool has_hansen, has_teas;
    struct hansen hansen;
    struct teas by_fractions; // volume mean of published fractions
    struct teas by_hansen;    // fractions of the mean Hansen parameters
    size_t computed;          // components whose fractions had to be computed
    char missing[ERROR_TEXT_SIZE];
    const struct material *asked[MATERIALS_MAX];
    size_t asked_count;
    struct placed places[MATERIALS_MAX];
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
    const struct material_place *x = &((const struct placed *)a)->place;
    const struct material_place *y = &((const struct placed *)b)->place;
    if (isnan(x->red) != isnan(y->red))
        return isnan(x->red) ? 1 : -1;
    if (!isnan(x->red) && x->red != y->red)
        return x->red < y->red ? -1 : 1;
    return strcmp(x->material->id, y->material->id);
}

// How much water it bears is asked of blends in which water matters: those that hold some, and those with alcohols,
// which take it up from the air.
static bool water_matters(const struct blend *blend) {
    for (size_t i = 0; i < blend->count; i++)
        if (blend->components[i]->family == FAMILY_WATER || blend->components[i]->family == FAMILY_ALCOHOL)
            return true;
    return false;
}

// What cannot be asked (water alone, too many components) is left out.
static enum status judge_water(struct placing *placing, const struct library *lib, double temp_k, struct error *err) {
    struct error own = {0};
    if (!water_matters(&placing->blend))
        return STATUS_OK;
    enum status status = miscibility_cloud_water(lib, &placing->groups, &placing->blend, temp_k, &placing->cloud, &own);
    placing->bears_water = status == STATUS_OK;
    return status == STATUS_MEMORY ? error_set(err, status, "%s", own.text) : STATUS_OK;
}

static enum status prepare_liquid(struct placing *placing, const struct library *lib, struct error *err) {
    double x[BLEND_COMPONENTS_MAX];
    double temp_k = kelvin_from_celsius(placing->temp_c);
    enum status status = unifac_table_make(lib, &placing->groups, err);
    if (status == STATUS_OK)
        status = activity_prepare_blend(&placing->groups, &placing->blend, temp_k, &placing->activity, err);
    if (status == STATUS_OK)
        status = miscibility_judge_blend(lib, &placing->groups, &placing->blend, temp_k, &placing->phase, err);
    if (status == STATUS_OK)
        status = judge_water(placing, lib, temp_k, err);
    if (status == STATUS_OK)
        status = vapour_over_blend(&placing->groups, &placing->blend, placing->temp_c, &placing->vapour, err);
    if (status == STATUS_OK)
        status = flash_point_of_blend(&placing->groups, &placing->blend, &placing->flash, err);
    if (status == STATUS_OK)
        status =
            ghs_flammable_of_blend(&placing->groups, &placing->blend, &placing->flash, &placing->flammable, NULL, err);
    if (status != STATUS_OK)
        return status;
    placing->has_activity =
        activity_covers(&placing->activity) && blend_mole_fractions(&placing->blend, x, NULL) == STATUS_OK;
    if (!placing->has_activity)
        return STATUS_OK;
    if (placing->phase.verdict == PHASE_TWO)
        return film_common_activities(&placing->activity, x, placing->ln_activity, NULL, err);
    film_liquid_activities(&placing->activity, x, placing->ln_activity);
    return STATUS_OK;
}

// What is not known of a liquid (a molar volume of the user's own solvent) ends no answer: its place is known all the
// same, its phases and activities are not.
static enum status judge_liquid(struct placing *placing, const struct library *lib, struct error *err) {
    struct error own = {0};
    enum status status = prepare_liquid(placing, lib, &own);
    if (status != STATUS_NO_DATA)
        return status == STATUS_OK ? status : error_set(err, status, "%s", own.text);
    placing->has_activity = false;
    placing->phase = (struct phase_judgement){.verdict = PHASE_MAY_SEPARATE, .ground = PHASE_BY_NOTHING};
    placing->vapour = (struct vapour){0};
    placing->flash =
        (struct flash){.model_c = NAN, .lowest_component_c = NAN, .display_c = NAN, .sentence = "not known"};
    placing->flammable = GHS_UNKNOWN;
    print_words(placing->phase.sentence, sizeof placing->phase.sentence, "Nothing can be computed: %.500s.", own.text);
    return STATUS_OK;
}

static void place_film(const struct placing *placing, const struct material *material, struct film_result *ret) {
    struct film_parameters parameters;
    struct film film;
    if (film_parameters_of_material(material, &parameters, NULL) != STATUS_OK)
        film_no_result(FILM_NO_REGION, ret);
    else if (!placing->has_activity || film_prepare(&parameters, &placing->activity, &film, NULL) != STATUS_OK)
        film_no_result(FILM_NOT_COVERED, ret);
    else
        film_of_activities(&film, placing->ln_activity, NULL, ret);
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
    for (size_t i = 0; i < placing->asked_count; i++) {
        struct placed *placed = &placing->places[placing->count++];
        place_against(placing->asked[i], placing->has_hansen ? &placing->hansen : NULL,
                      placing->has_teas ? &placing->by_fractions : NULL, &placed->place);
        place_film(placing, placing->asked[i], &placed->film);
    }
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
        sheet_cell(&sheet, "%s",
                   isnan(component->hansen.delta_d) ? say("not known") : doubt_words(&component->hansen.from));
        sheet_cell(&sheet, "%s",
                   isnan(component->teas.fd) ? say("computed from Hansen") : doubt_words(&component->teas.from));
    }
    sheet_write(&sheet, out);
    write_grades(&placing->blend, 2, out);
    for (size_t i = 0; i < placing->blend.count; i++) {
        struct text words = {0};
        add_iarc(placing->blend.components[i]->hazard, &words);
        if (words.length)
            page_paragraph_f(out, 2, 4, "%s: %s", placing->blend.components[i]->id, text_bytes(&words));
        out->failed |= words.failed;
        text_release(&words);
    }
    for (size_t i = 0; i < placing->blend.count; i++)
        for (size_t j = 0; j < placing->blend.components[i]->conflicts.count; j++)
            page_paragraph_f(out, 2, 4, "%s, sources disagree: %s", placing->blend.components[i]->id,
                             placing->blend.components[i]->conflicts.items[j]);
}

static bool has_regions(const struct placing *placing) {
    for (size_t i = 0; i < placing->count; i++)
        if (!isnan(placing->places[i].place.red))
            return true;
    return false;
}

// "dissolves", "swells: moderate", "not covered" in a few words.
static void film_words(const struct material *material, const struct film_result *film, char words[CELL_BYTES]) {
    if (film->outcome == FILM_WITHOUT_LIMIT)
        snprintf(words, CELL_BYTES, "%s",
                 material->film == FILM_DISSOLVES ? say("dissolves") : say("swells without limit"));
    else if (film->outcome == FILM_BOUNDED && material->film == FILM_DISSOLVES)
        snprintf(words, CELL_BYTES, "%s", film_softening_words(film->swelling));
    else if (film->outcome == FILM_BOUNDED)
        print_words(words, CELL_BYTES, "swells: %s", film_band_words(film_band(film->swelling)));
    else
        snprintf(words, CELL_BYTES, "%s", film->outcome == FILM_NO_REGION ? say("no film model") : say("not covered"));
}

// Published classes and lists outrank the film model in the cautious direction.
static void write_published(const struct placing *placing, struct text *out) {
    for (size_t i = 0; i < placing->count; i++) {
        const struct material *material = placing->places[i].place.material;
        const struct film_result *film = &placing->places[i].film;
        struct published published = published_swelling_of(material, &placing->blend);
        if (published.swelling && film->outcome == FILM_BOUNDED && published.least > film->swelling)
            page_paragraph_f(
                out, 2, 4, "%s: the class of neat %s is '%s' (%s), which outranks the milder answer of the film.",
                material->id, published.component->id, say(swelling_class_words[published.swelling->class]),
                say(sureness_word(published.swelling->from.sure)));
        if (film->outcome == FILM_WITHOUT_LIMIT && published_outside(material, &placing->blend))
            page_paragraph_f(out, 2, 4,
                             "%s: film and list disagree; published or remembered lists call every strong liquid of "
                             "the blend a non-solvent, so don't count on it.",
                             material->id);
    }
}

static void write_regions(const struct placing *placing, struct text *out) {
    page_heading(out, "materials, nearest first (RED below 1 = inside the solubility or swelling sphere)");
    struct sheet sheet = {.indent = 2};
    char words[CELL_BYTES];
    sheet_column(&sheet, "material", false);
    sheet_column(&sheet, "Ra", true);
    sheet_column(&sheet, "RED", true);
    sheet_column(&sheet, "sphere", false);
    sheet_column(&sheet, "Teas area", false);
    sheet_column(&sheet, "film", false);
    for (size_t i = 0; i < placing->count; i++) {
        const struct material_place *place = &placing->places[i].place;
        if (isnan(place->red))
            continue;
        sheet_cell(&sheet, "%s", place->material->id);
        sheet_cell(&sheet, "%.1f", place->ra_mpa05);
        sheet_cell(&sheet, "%.2f", place->red);
        sheet_cell(&sheet, "%s",
                   place->material->sphere.from.user ? say("yours")
                                                     : say(sureness_word(place->material->sphere.from.sure)));
        if (place->area)
            sheet_cell(&sheet, "%s %.0f", place->inside_area ? say("in") : say("out"), place->teas_distance);
        else
            sheet_cell(&sheet, "-");
        film_words(place->material, &placing->places[i].film, words);
        sheet_cell(&sheet, "%s%s", words, place->material->film_model.rank_by == RANK_BY_RED ? " *" : "");
    }
    sheet_write(&sheet, out);
    write_published(placing, out);
}

static void write_without_region(const struct placing *placing, struct text *out) {
    bool first = true;
    for (size_t i = 0; i < placing->count; i++) {
        const struct material *material = placing->places[i].place.material;
        if (!material->no_region)
            continue;
        if (first)
            page_heading(out, "materials without a published region");
        first = false;
        page_paragraph_f(out, 2, 4, "%s: %s%s%s%s", material->id, say(material->no_region),
                         material->substitute ? say(" Careful stand-in: ") : "",
                         material->substitute ? material->substitute : "", material->substitute ? "." : "");
    }
}

static void write_vapour(const struct placing *placing, struct text *out) {
    struct text words = {0};
    char number[FIGURE_BYTES];
    for (size_t i = 0; i < placing->vapour.count; i++)
        text_printf(&words, "%s%s %s", i ? ", " : "", placing->vapour.parts[i].component->id,
                    figure(placing->vapour.parts[i].p_kpa, 3, number));
    if (words.length)
        page_paragraph_f(out, 2, 4, "vapour over it at %g degC, kPa: %s", placing->temp_c, text_bytes(&words));
    text_release(&words);
    if (isnan(placing->flash.display_c))
        page_paragraph_f(out, 2, 4, "flash point: %s", placing->flash.sentence);
    else
        page_paragraph_f(out, 2, 4, "flash point: count with %.0f degC%s%s. %s", placing->flash.display_c,
                         ghs_flammable_statement(placing->flammable) ? ", " : "",
                         ghs_flammable_statement(placing->flammable) ? ghs_flammable_statement(placing->flammable) : "",
                         placing->flash.sentence);
}

static void write_liquid(const struct placing *placing, struct text *out) {
    page_heading(out, "the liquid as it is");
    page_paragraph_f(out, 2, 4, "phases: %s. %s",
                     placing->phase.verdict == PHASE_ONE ? say("one")
                     : placing->phase.verdict == PHASE_TWO
                         ? say("two: shake and look, the average place is then fiction")
                         : say("may separate: look before use"),
                     placing->phase.sentence);
    if (placing->bears_water)
        page_paragraph_f(out, 2, 4, "water: %s", placing->cloud.sentence);
    if (placing->has_activity) {
        struct text words = {0};
        for (size_t i = 0; i < placing->blend.count; i++)
            text_say(&words, "%s%s %.2f", i ? ", " : "", placing->blend.components[i]->id,
                     exp(placing->ln_activity[i]));
        page_paragraph_f(out, 2, 4, "activities (1 = as strong as neat): %s", text_bytes(&words));
        text_release(&words);
    }
    page_paragraph(out, 2, 4, placing->activity.coverage.sentence);
    write_vapour(placing, out);
}

static void write_text(const struct placing *placing, struct text *out) {
    write_position(placing, out);
    if (!placing->has_hansen)
        page_paragraph(out, 2, 2, placing->missing);
    write_components(placing, out);
    write_liquid(placing, out);
    if (has_regions(placing))
        write_regions(placing, out);
    write_without_region(placing, out);
    page_heading(out, "units and doubt");
    page_paragraph(
        out, 2, 2,
        "Ra in MPa^0.5. Teas distances in percent along a side of the triangle, by the volume mean of fractions, "
        "the rule the areas were built with. An estimated sphere is one of many that fit; its centre is uncertain "
        "by about 2 MPa^0.5. The film is that of a large reservoir after a long time, by the activities above; where "
        "it and RED disagree, a test decides; a star marks resins on which the film model does no better than "
        "the sphere. `mildsolve materials NAME` shows sources.");
    write_caution(out);
}

// --- JSON ---

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
        json_text(json, "grade", component->grade);
        json_text(json, "iarc_group", component->hazard ? component->hazard->iarc_group : NULL);
        json_provenance(json, "hansen_source", &component->hansen.from);
        json_provenance(json, "teas_source", &component->teas.from);
        json_close_object(json);
    }
    json_close_list(json);
}

// Whether a cross-linked film dissolves is no question: it doesn't.
static void json_film(const struct material *material, const struct film_result *film, struct json *json) {
    bool figures = film_is_known(film->outcome);
    json_number(json, "swelling", film->outcome == FILM_BOUNDED ? film->swelling : NAN);
    json_text(json, "swelling_status", film_outcome_word(film->outcome));
    if (material->film == FILM_CROSS_LINKED && figures)
        json_flag(json, "dissolves", false);
    else if (figures)
        json_flag(json, "dissolves", film->outcome == FILM_WITHOUT_LIMIT);
    else
        json_null(json, "dissolves");
}

static void json_published(const struct placing *placing, const struct material *material, struct json *json) {
    struct published published = published_swelling_of(material, &placing->blend);
    json_text(json, "published_class",
              published.swelling ? say(swelling_class_words[published.swelling->class]) : NULL);
    json_flag(json, "published_outside", published_outside(material, &placing->blend));
}

static void json_materials(const struct placing *placing, struct json *json) {
    json_list(json, "materials");
    for (size_t i = 0; i < placing->count; i++) {
        const struct material_place *place = &placing->places[i].place;
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
        json_film(place->material, &placing->places[i].film, json);
        json_published(placing, place->material, json);
        json_provenance(json, "sphere_source", &place->material->sphere.from);
        json_text(json, "no_region", place->material->no_region);
        json_text(json, "substitute", place->material->substitute);
        json_close_object(json);
    }
    json_close_list(json);
}

// The two liquids of a split by the model, the larger first.
static void json_liquids(const struct placing *placing, struct json *json) {
    const struct phase_split *split = &placing->phase.split;
    json_list(json, "liquids");
    for (int k = 0; k < 2 && placing->phase.split_found; k++) {
        json_object(json, NULL);
        json_number(json, "volume_percent_of_all", 100 * split->volume_share[k]);
        json_object(json, "composition_volume_percent");
        for (size_t i = 0; i < placing->blend.count; i++)
            json_number(json, placing->blend.components[i]->id, 100 * split->phi[k][i]);
        json_close_object(json);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_water(const struct placing *placing, struct json *json) {
    if (!placing->bears_water) {
        json_null(json, "cloud_water");
        return;
    }
    json_object(json, "cloud_water");
    json_flag(json, "judged", placing->cloud.judged);
    json_number(json, "present_percent", placing->cloud.present_percent);
    json_number(json, "first_percent", placing->cloud.first_percent);
    json_number(json, "sure_percent", placing->cloud.sure_percent);
    json_text(json, "sentence", placing->cloud.sentence);
    json_close_object(json);
}

static void json_phase(const struct placing *placing, struct json *json) {
    json_object(json, "phase");
    json_text(json, "verdict", phase_verdict_word(placing->phase.verdict));
    json_flag(json, "covered", placing->phase.covered);
    json_text(json, "reason", placing->phase.sentence);
    json_liquids(placing, json);
    json_close_object(json);
    json_water(placing, json);
}

static void json_vapour(const struct placing *placing, struct json *json) {
    json_list(json, "vapour");
    for (size_t i = 0; i < placing->vapour.count; i++) {
        const struct vapour_part *part = &placing->vapour.parts[i];
        json_object(json, NULL);
        json_text(json, "component", part->component->id);
        json_number(json, "activity", part->activity);
        json_number(json, "partial_pressure_kpa", part->p_kpa);
        json_number(json, "saturated_mg_m3", part->saturated_mg_m3);
        json_close_object(json);
    }
    json_close_list(json);
    json_number(json, "flash_point_c", placing->flash.display_c);
    json_number(json, "flash_point_model_c", placing->flash.model_c);
    json_text(json, "flammability_statement", ghs_flammable_statement(placing->flammable));
    json_object(json, "activity");
    json_text(json, "model", activity_serves_word(placing->activity.coverage.serves));
    json_text(json, "coverage", placing->activity.coverage.sentence);
    json_close_object(json);
}

static void write_json(const struct placing *placing, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_blend(&json, &placing->blend);
    json_positions(placing, &json);
    json_components(placing, &json);
    json_phase(placing, &json);
    json_vapour(placing, &json);
    json_materials(placing, &json);
    json_end(&json);
}

static enum status explain(const struct placing *placing, struct invocation *inv, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(inv);
    if (!explaining)
        return STATUS_OK;
    explain_blend(explaining, &placing->blend);
    for (size_t i = 0; i < placing->count; i++)
        explain_material(explaining, placing->places[i].place.material);
    write_json(placing, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct placing *placing = arena_new(inv->arena, 1, sizeof *placing);
    if (!placing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    const struct blend *blend = &placing->blend;
    enum status status = argument_blend(inv, 0, &placing->blend, err);
    if (status == STATUS_OK)
        status = read_rows_of_blends(inv, &blend, 1, err);
    if (status == STATUS_OK)
        status = which_materials(inv, placing, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--temperature", 5, 35, 20, &placing->temp_c, err);
    if (status == STATUS_OK)
        status = judge_liquid(placing, &inv->library, err);
    if (status != STATUS_OK) {
        unifac_table_release(&placing->groups);
        return status;
    }
    compute(placing);
    if (inv->json)
        write_json(placing, inv->out);
    else
        write_text(placing, inv->out);
    status = explain(placing, inv, err);
    unifac_table_release(&placing->groups);
    return status;
}

static const struct option options[] = {
    {.name = "--temperature", .argument = "DEGC", .help = "of the liquid, 5 to 35 (default 20)"},
    {.name = "--material", .argument = "LIST", .help = "only these materials (names separated by commas)"},
    CASE_OPTION,
    EXPLAIN_OPTION,
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
    .row_tables = TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_UNIFAC | TABLE_MISCIBILITY,
    .example = "mildsolve place \"toluene 75 + acetone 25\"",
    .run = run,
};
