// SPDX-License-Identifier: GPL-3.0-or-later
// drying BLEND: what happens as it evaporates, what stays last.
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/common.h"
#include "cli/draw_drying.h"
#include "cli/page_options.h"
#include "cli/teas_areas.h"
#include "physics/azeotrope.h"
#include "physics/evaporation.h"

#include "base/language.h"
#include "base/units.h"

#include <math.h>
#include <string.h>

enum { AZEOTROPES_SHOWN = 8 };

// An azeotrope of two components of the blend.
struct pair_azeotrope {
    const struct component *first, *second;
    struct azeotrope found;
    double volume_share; // of the first, 0 to 1
};

struct following {
    struct invocation *inv;
    struct blend blend;
    struct unifac_table groups;
    struct evaporation path;
    struct pair_azeotrope azeotropes[AZEOTROPES_SHOWN];
    size_t azeotrope_count;
};

// --- azeotropes ---

static void keep_azeotrope(struct following *following, const struct component *first, const struct component *second,
                           const struct azeotrope *found) {
    if (following->azeotrope_count == AZEOTROPES_SHOWN)
        return;
    double volume_1 = found->x1 * first->molar_volume.value, volume_2 = (1 - found->x1) * second->molar_volume.value;
    following->azeotropes[following->azeotrope_count++] = (struct pair_azeotrope){
        .first = first, .second = second, .found = *found, .volume_share = volume_1 / (volume_1 + volume_2)};
}

static const double azeotrope_least_share = 0.01; // of the blend's volume; a trace decides nothing

// Those of all pairs of the blend at its temperature. What no model covers has none that is known.
static void find_azeotropes(struct following *following) {
    const struct blend *blend = &following->blend;
    for (size_t i = 0; i < blend->count; i++)
        for (size_t j = i + 1; j < blend->count; j++) {
            const struct component *const pair[] = {blend->components[i], blend->components[j]};
            struct vapour_liquid liquid;
            struct azeotrope found[AZEOTROPES_MAX];
            size_t count = 0;
            if (blend->volume_fractions[i] < azeotrope_least_share ||
                blend->volume_fractions[j] < azeotrope_least_share)
                continue;
            double temp_k = kelvin_from_celsius(following->path.temp_c);
            if (vapour_liquid_prepare(&following->groups, pair, 2, temp_k, &liquid, NULL) != STATUS_OK ||
                vapour_liquid_complete(&liquid, NULL) != STATUS_OK ||
                azeotropes_at_temperature(&liquid, temp_k, found, &count, NULL) != STATUS_OK)
                continue;
            for (size_t k = 0; k < count; k++)
                keep_azeotrope(following, pair[0], pair[1], &found[k]);
        }
}

static void write_azeotropes(const struct following *following, struct text *out) {
    for (size_t i = 0; i < following->azeotrope_count; i++) {
        const struct pair_azeotrope *item = &following->azeotropes[i];
        static const char *const sentences[] = {
            [AZEOTROPE_MINIMUM] =
                N_("%s %.0f + %s %.0f (vol%%) is an azeotrope at %g degC by the model: the vapour over it "
                   "(%s kPa, more than over either) has the same shares, so that a blend near it changes "
                   "late."),
            [AZEOTROPE_MAXIMUM] =
                N_("%s %.0f + %s %.0f (vol%%) is an azeotrope at %g degC by the model: the vapour over it "
                   "(%s kPa, less than over either) has the same shares, and blends of the two drift "
                   "towards it as they dry."),
            [AZEOTROPE_HETEROGENEOUS] = N_(
                "%s %.0f + %s %.0f (vol%%) is an azeotrope over two liquids at %g degC by the model: the vapour over "
                "it "
                "(%s kPa, more than over either) has the shares of both liquids taken together.")};
        char number[FIGURE_BYTES];
        page_paragraph_f(out, 2, 4, sentences[item->found.kind], item->first->id, 100 * item->volume_share,
                         item->second->id, 100 * (1 - item->volume_share), following->path.temp_c,
                         figure(item->found.p_kpa, 3, number));
    }
}

static void json_azeotropes(const struct following *following, struct json *json) {
    json_list(json, "azeotropes");
    for (size_t i = 0; i < following->azeotrope_count; i++) {
        const struct pair_azeotrope *item = &following->azeotropes[i];
        json_object(json, NULL);
        json_text(json, "first", item->first->id);
        json_text(json, "second", item->second->id);
        json_text(json, "kind", azeotrope_kind_word(item->found.kind));
        json_number(json, "first_volume_percent", 100 * item->volume_share);
        json_number(json, "first_mole_fraction", item->found.x1);
        json_number(json, "first_mass_fraction", item->found.w1);
        json_number(json, "pressure_kpa", item->found.p_kpa);
        json_close_object(json);
    }
    json_close_list(json);
}

// Rows of the table for people; the JSON has every point.
static const size_t shown_points[] = {0, 10, 20, 30, 40, 50, 60, 70, 80, 90, 95, 99};

static void write_heading_lines(const struct following *following, struct text *out) {
    struct text notation = {0};
    blend_write(&following->blend, &notation);
    page_paragraph_f(out, 0, 2, "%s, drying at %g degC", text_bytes(&notation), following->path.temp_c);
    text_release(&notation);
}

static void write_findings(const struct following *following, struct text *out) {
    const struct evaporation *path = &following->path;
    page_heading(out, "what to expect");
    for (size_t i = 0; i < path->finding_count; i++)
        page_paragraph_f(out, 2, 4, "%s.", path->findings[i].sentence);
    write_azeotropes(following, out);
    char number[FIGURE_BYTES];
    if (!isnan(path->time_90))
        page_paragraph_f(
            out, 2, 4,
            "Nine tenths are gone after %s times the time that n-butyl acetate takes; half after %.2g, 95 %% "
            "after %.2g. A swab dries in minutes, what has entered paint or varnish leaves far more slowly.",
            figure(path->time_90, 2, number), path->time_50, path->time_95);
}

enum { PATH_COLUMNS_MOST = 6, PATH_COLUMNS_WITH_TEAS = 4 };

// Whether the names fit as headings beside the other columns, whose cells are taken as wide as they come.
static bool names_fit(const struct blend *blend, size_t columns) {
    size_t taken = 2 + strlen("gone mol%") + 2 + strlen("0.00012") + 2 + strlen("15.5/12.3/22.3 *");
    taken += columns <= PATH_COLUMNS_WITH_TEAS ? 2 + strlen("72/13/15") : 0;
    for (size_t i = 0; i < columns; i++) {
        size_t name = text_columns(blend->components[i]->id);
        taken += 2 + (name > strlen("100.0") ? name : strlen("100.0"));
    }
    return taken <= PAGE_COLUMNS;
}

static void write_numbers_of_columns(const struct blend *blend, size_t columns, struct text *out) {
    struct text words = {0};
    for (size_t i = 0; i < columns; i++)
        text_printf(&words, "%s%zu = %s", i ? ", " : "", i + 1, blend->components[i]->id);
    page_paragraph_f(out, 2, 4, "columns: %s", text_bytes(&words));
    text_release(&words);
}

static void write_path(const struct evaporation *path, struct text *out) {
    page_heading(out, "path (vol% of what is left; Teas: mean of fractions; Hansen: MPa^0.5)");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "gone mol%", true);
    sheet_column(&sheet, "time", true);
    static const char *const numbers[PATH_COLUMNS_MOST] = {"1", "2", "3", "4", "5", "6"};
    size_t columns = path->blend.count < PATH_COLUMNS_MOST ? path->blend.count : PATH_COLUMNS_MOST;
    bool named = names_fit(&path->blend, columns);
    bool with_teas = columns <= PATH_COLUMNS_WITH_TEAS, two = false;
    if (!named)
        write_numbers_of_columns(&path->blend, columns, out);
    for (size_t i = 0; i < columns; i++)
        sheet_column(&sheet, named ? path->blend.components[i]->id : numbers[i], true);
    if (with_teas)
        sheet_column(&sheet, "fd/fp/fh", false);
    sheet_column(&sheet, "dD/dP/dH", false);
    for (size_t k = 0; k < sizeof shown_points / sizeof shown_points[0]; k++) {
        if (shown_points[k] >= path->count)
            break;
        const struct evaporation_point *point = &path->points[shown_points[k]];
        sheet_cell(&sheet, "%.0f", 100 * point->evaporated);
        sheet_cell(&sheet, "%.2g", point->time);
        for (size_t i = 0; i < columns; i++)
            sheet_cell(&sheet, "%.1f", 100 * point->phi[i]);
        if (with_teas && isnan(point->teas_fractions.fd))
            sheet_cell(&sheet, "-");
        else if (with_teas)
            sheet_cell(&sheet, "%.0f/%.0f/%.0f", point->teas_fractions.fd, point->teas_fractions.fp,
                       point->teas_fractions.fh);
        if (isnan(point->hansen.delta_d))
            sheet_cell(&sheet, "-");
        else
            sheet_cell(&sheet, "%.1f/%.1f/%.1f%s", point->hansen.delta_d, point->hansen.delta_p, point->hansen.delta_h,
                       point->verdict == PHASE_TWO ? " *" : "");
        two |= point->verdict == PHASE_TWO;
    }
    sheet_write(&sheet, out);
    if (two)
        page_paragraph(out, 2, 4, "* two liquids; the place is that of both taken together");
    if (columns < path->blend.count)
        page_paragraph_f(out, 2, 2, "%zu more components: see --json", path->blend.count - columns);
}

static void write_tail(const struct evaporation *path, struct text *out) {
    if (isnan(path->tail[0]))
        return;
    struct text words = {0};
    for (size_t i = 0; i < path->blend.count; i++)
        text_say(&words, "%s%s %.1f", i ? ", " : "", path->blend.components[i]->id, 100 * path->tail_phi[i]);
    page_paragraph_f(out, 2, 4, "the last 5 %% (vol%%): %s", text_bytes(&words));
    text_release(&words);
}

static void write_text(const struct following *following, struct text *out) {
    const struct evaporation *path = &following->path;
    write_heading_lines(following, out);
    write_findings(following, out);
    write_path(path, out);
    write_tail(path, out);
    page_heading(out, "models and doubt");
    page_paragraph(out, 2, 2, path->sentence);
    page_paragraph(
        out, 2, 2,
        "Time 1 = what the same volume of n-butyl acetate takes. The gas film controls; cooling, water from the air "
        "and what paint holds back are not in it.");
    write_caution(out);
    if (option_given(following->inv, "--chart"))
        page_paragraph_f(out, 0, 2, "chart: %s", option_value(following->inv, "--chart"));
}

static void json_shares(const struct evaporation *path, const double *shares, struct json *json, const char *key) {
    json_object(json, key);
    for (size_t i = 0; i < path->blend.count; i++)
        json_number(json, path->blend.components[i]->id, shares[i]);
    json_close_object(json);
}

static void json_point(const struct evaporation *path, const struct evaporation_point *point, struct json *json) {
    json_object(json, NULL);
    json_number(json, "evaporated", point->evaporated);
    json_number(json, "relative_time", point->time);
    json_shares(path, point->x, json, "composition");
    json_shares(path, point->phi, json, "composition_volume");
    json_number(json, "volume_left", point->volume_left);
    json_number(json, "total_pressure_kpa", point->total_kpa);
    json_text(json, "phase", phase_verdict_word(point->verdict));
    json_number(json, "delta_d", point->hansen.delta_d);
    json_number(json, "delta_p", point->hansen.delta_p);
    json_number(json, "delta_h", point->hansen.delta_h);
    json_object(json, "teas");
    json_teas(json, "mean_of_fractions", &point->teas_fractions);
    json_teas(json, "of_mean_hansen", &point->teas_hansen);
    json_close_object(json);
    json_close_object(json);
}

static void write_json(const struct following *following, struct text *out) {
    const struct evaporation *path = &following->path;
    struct json json;
    json_begin(&json, out);
    json_blend(&json, &following->blend);
    json_number(&json, "temperature_c", path->temp_c);
    json_list(&json, "path");
    for (size_t i = 0; i < path->count; i++)
        json_point(path, &path->points[i], &json);
    json_close_list(&json);
    json_shares(path, path->tail, &json, "tail");
    json_shares(path, path->tail_phi, &json, "tail_volume");
    json_number(&json, "relative_time_50", path->time_50);
    json_number(&json, "relative_time_90", path->time_90);
    json_number(&json, "relative_time_95", path->time_95);
    json_list(&json, "findings");
    for (size_t i = 0; i < path->finding_count; i++) {
        json_object(&json, NULL);
        json_text(&json, "finding", evaporation_finding_word(path->findings[i].kind));
        json_text(&json, "component", path->findings[i].component ? path->findings[i].component->id : NULL);
        json_text(&json, "sentence", path->findings[i].sentence);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_azeotropes(following, &json);
    json_text(&json, "stop", drift_stop_words(path->stop));
    json_flag(&json, "extrapolated", path->extrapolated);
    json_flag(&json, "weak", path->weak);
    json_text(&json, "models", path->sentence);
    if (option_given(following->inv, "--chart"))
        json_text(&json, "chart", option_value(following->inv, "--chart"));
    json_end(&json);
}

static enum status explain(const struct following *following, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(following->inv);
    if (!explaining)
        return STATUS_OK;
    explain_blend(explaining, &following->blend);
    explain_reference(explaining);
    write_json(following, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct following *following = arena_new(inv->arena, 1, sizeof *following);
    if (!following)
        return error_set(err, STATUS_MEMORY, "out of memory");
    following->inv = inv;
    struct evaporation_options how = {.temp_c = 20};
    const struct blend *blend = &following->blend;
    const char *chart = option_value(inv, "--chart");
    enum status status = page_options_check(inv, err);
    if (status == STATUS_OK)
        status = argument_blend(inv, 0, &following->blend, err);
    if (status == STATUS_OK)
        status = read_rows_of_blends(inv, &blend, 1, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--temperature", 5, 35, 20, &how.temp_c, err);
    if (status == STATUS_OK)
        status = unifac_table_make(&inv->library, &following->groups, err);
    if (status != STATUS_OK)
        return status;
    status = evaporation_follow(&inv->library, &following->groups, &following->blend, &how, &following->path, err);
    if (status == STATUS_OK)
        find_azeotropes(following);
    if (status == STATUS_OK && chart)
        status = draw_drying(inv, &following->path, chart, err);
    if (status == STATUS_OK && inv->json)
        write_json(following, inv->out);
    else if (status == STATUS_OK)
        write_text(following, inv->out);
    if (status == STATUS_OK)
        status = explain(following, err);
    unifac_table_release(&following->groups);
    return status;
}

static const struct option options[] = {
    {.name = "--temperature", .argument = "DEGC", .help = "of liquid and air, 5 to 35 (default 20)"},
    CASE_OPTION,
    EXPLAIN_OPTION,
    CHART_OPTION("the path on the Teas chart and what is left, as PNG, SVG or PDF"),
    TEAS_OPTIONS,
    PAGE_OPTIONS,
};

const struct command cmd_drying = {
    .name = "drying",
    .arguments = "BLEND",
    .arguments_least = 1,
    .arguments_most = 1,
    .summary = "What happens as a blend evaporates: what leaves first, what stays last",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES,
    .row_tables = TABLE_PROPERTIES | TABLE_UNIFAC | TABLE_MISCIBILITY,
    .example = "mildsolve drying \"ethanol 30 + toluene 70\"",
    .run = run,
};
