// SPDX-License-Identifier: GPL-3.0-or-later
// chart FILE: the Teas chart for the treatment file as PNG, SVG or PDF.
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/page_options.h"
#include "cli/teas_areas.h"
#include "cli/teas_points.h"

enum { MATERIALS_MAX = 64 };

struct charting {
    struct invocation *inv;
    enum teas_rule rule;
    struct blend blends[TEAS_BLENDS_MAX];
    struct teas_areas areas;
    struct teas_points points;
};

// --- what is to be drawn ---

static enum status read_bottles(struct charting *charting, struct error *err) {
    struct bottle_ref found[TEAS_BOTTLES_MAX];
    size_t count = 0;
    const char *list = option_value(charting->inv, "--bottles");
    enum status status =
        list ? bottle_list_parse(&charting->inv->library, list, found, TEAS_BOTTLES_MAX, &count, err) : STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < count; i++)
        teas_points_add_bottle(&charting->points, &found[i]);
    const char *name = option_value(charting->inv, "--shelf");
    const struct shelf *shelf = NULL;
    if (status == STATUS_OK && name)
        status = library_shelf(&charting->inv->library, name, &shelf, err);
    for (size_t i = 0; status == STATUS_OK && shelf && i < shelf->bottles.count; i++) {
        struct bottle_ref bottle;
        status = library_bottle(&charting->inv->library, shelf->bottles.items[i], &bottle, err);
        if (status == STATUS_OK)
            teas_points_add_bottle(&charting->points, &bottle);
    }
    return status;
}

static enum status read_blends(struct charting *charting, struct error *err) {
    const char *const *notations = NULL;
    size_t count = option_values(charting->inv, "--blend", &notations);
    for (size_t i = 0; i < count; i++) {
        enum status status = read_blend(charting->inv, notations[i], &charting->blends[i], err);
        if (status != STATUS_OK)
            return status;
        const char *name = blend_notation(charting->inv->arena, &charting->blends[i]);
        if (!name)
            return error_set(err, STATUS_MEMORY, "out of memory");
        teas_points_add_blend(&charting->points, &charting->blends[i], name);
    }
    return STATUS_OK;
}

// An empty triangle answers nothing, and would replace a chart that is there.
static enum status check_content(const struct charting *charting, struct error *err) {
    if (charting->points.bottle_count || charting->areas.count)
        return STATUS_OK;
    if (option_given(charting->inv, "--material"))
        return error_set(err, STATUS_NO_DATA,
                         "nothing to draw: none of the materials has a Teas area, and no bottle or blend is given");
    return error_set(err, STATUS_USAGE, "nothing to draw; for example: %s", charting->inv->command->example);
}

// --- writing ---

static enum status fill_input(struct charting *charting, struct teas_chart_input *input, struct error *err) {
    *input = (struct teas_chart_input){.rule = teas_rule_words(charting->rule),
                                       .areas = charting->areas.items,
                                       .area_count = charting->areas.count,
                                       .points = charting->points.items,
                                       .point_count = charting->points.count};
    enum status status = page_options(charting->inv, SHEET_HALF, &input->page, err);
    input->page.captions = charting->areas.notes;
    input->page.caption_count = charting->areas.note_count;
    return status;
}

static void write_json(const struct charting *charting, size_t unlabelled, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_text(&json, "file", charting->inv->arguments[0]);
    json_text(&json, "rule", teas_rule_words(charting->rule));
    json_list(&json, "points");
    for (size_t i = 0; i < charting->points.count; i++) {
        json_object(&json, NULL);
        json_integer(&json, "number", (long long)i + 1);
        json_text(&json, "name", charting->points.items[i].name);
        json_number(&json, "fd", charting->points.items[i].place.fd);
        json_number(&json, "fp", charting->points.items[i].place.fp);
        json_number(&json, "fh", charting->points.items[i].place.fh);
        json_flag(&json, "computed", charting->points.items[i].computed);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_integer(&json, "areas", (long long)charting->areas.count);
    json_integer(&json, "in_legend_only", (long long)unlabelled);
    json_end(&json);
}

static enum status explain(const struct charting *charting, size_t unlabelled, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(charting->inv);
    if (!explaining)
        return STATUS_OK;
    for (size_t i = 0; i < charting->points.bottle_count; i++)
        explain_bottle(explaining, &charting->points.bottles[i]);
    const struct material *materials[MATERIALS_MAX];
    size_t count = 0;
    const char *list = option_value(charting->inv, "--material");
    if (list && material_list_parse(&charting->inv->library, list, materials, MATERIALS_MAX, &count, err) != STATUS_OK)
        return err->status;
    for (size_t i = 0; i < count; i++)
        explain_material(explaining, materials[i]);
    write_json(charting, unlabelled, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status report(const struct charting *charting, size_t unlabelled, struct error *err) {
    struct text *out = charting->inv->out;
    const char *path = charting->inv->arguments[0];
    if (charting->inv->json) {
        write_json(charting, unlabelled, out);
        return explain(charting, unlabelled, err);
    }
    page_paragraph_f(out, 0, 2, "%s: points %zu, areas %zu; %s", path, charting->points.count, charting->areas.count,
                     teas_rule_words(charting->rule));
    if (unlabelled)
        page_paragraph_f(out, 0, 2, "labels without room, which stand in the legend only: %zu.", unlabelled);
    return explain(charting, unlabelled, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct charting *charting = arena_new(inv->arena, 1, sizeof *charting);
    if (!charting)
        return error_set(err, STATUS_MEMORY, "out of memory");
    charting->inv = inv;
    struct teas_chart_input input;
    size_t unlabelled = 0;
    enum status status = read_teas_rule(inv, &charting->rule, err);
    if (status == STATUS_OK)
        status = read_bottles(charting, err);
    if (status == STATUS_OK)
        status = read_blends(charting, err);
    if (status == STATUS_OK)
        status = read_teas_areas(inv, charting->rule, &charting->areas, err);
    if (status == STATUS_OK)
        status = check_content(charting, err);
    if (status == STATUS_OK)
        status = teas_points_place(&inv->library, charting->rule, &charting->points, err);
    if (status == STATUS_OK)
        status = fill_input(charting, &input, err);
    if (status == STATUS_OK)
        status = teas_chart_write(&input, inv->arguments[0], &unlabelled, err);
    return status == STATUS_OK ? report(charting, unlabelled, err) : status;
}

static const struct option options[] = {
    {.name = "--blend", .argument = "BLEND", .help = "a blend and the line between its bottles", .repeats = true},
    {.name = "--bottles", .argument = "LIST", .help = "bottles to plot"},
    {.name = "--shelf", .argument = "NAME", .help = "plot a shelf of the tables, for example studio"},
    TEAS_OPTIONS,
    PAGE_OPTIONS,
    CASE_OPTION,
    EXPLAIN_OPTION,
};

const struct command cmd_chart = {
    .name = "chart",
    .arguments = "FILE",
    .arguments_least = 1,
    .arguments_most = 1,
    .summary = "The Teas chart for the treatment file as PNG, SVG or PDF (by the suffix of FILE)",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS,
    .example = "mildsolve chart teas.png --blend \"propan-2-ol 30 + isooctane 70\" --material dammar-aged",
    .run = run,
};
