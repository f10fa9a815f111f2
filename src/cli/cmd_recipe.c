// SPDX-License-Identifier: GPL-3.0-or-later
// recipe BLEND: millilitres for a batch, or what to add to a leftover.
#include "base/language.h"
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/common.h"
#include "physics/hansen.h"
#include "physics/recipe.h"

#include <math.h>

struct batch {
    struct blend blend;
    struct blend leftover;
    double leftover_ml; // 0 = none
    struct recipe recipe;
    double shift_ra_mpa05; // NAN when there is no place
};

static double shift_of_place(const struct blend *asked, const struct blend *reached) {
    struct hansen a, b;
    if (hansen_of_blend(asked, &a, NULL) != STATUS_OK || hansen_of_blend(reached, &b, NULL) != STATUS_OK)
        return NAN;
    return hansen_distance(a, b);
}

static double grams(const struct invocation *inv, const struct recipe_line *line) {
    return bottle_grams(&inv->library, &line->bottle, line->add_ml);
}

static void write_text(const struct invocation *inv, const struct batch *batch, struct text *out) {
    const struct recipe *recipe = &batch->recipe;
    struct text notation = {0};
    blend_write(&batch->blend, &notation);
    page_paragraph_f(out, 0, 2, "%s: %.4g mL%s", text_bytes(&notation), recipe->total_ml,
                     batch->leftover_ml > 0 ? say(", made from the leftover") : "");
    text_release(&notation);
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "bottle", false);
    if (batch->leftover_ml > 0)
        sheet_column(&sheet, "in the jar, mL", true);
    sheet_column(&sheet, batch->leftover_ml > 0 ? say("add, mL") : say("mL"), true);
    sheet_column(&sheet, "g", true);
    sheet_column(&sheet, "asked %", true);
    sheet_column(&sheet, "reached %", true);
    for (size_t i = 0; i < recipe->count; i++) {
        const struct recipe_line *line = &recipe->lines[i];
        sheet_cell(&sheet, "%s", bottle_ref_id(&line->bottle));
        if (batch->leftover_ml > 0)
            sheet_cell(&sheet, "%.1f", line->have_ml);
        sheet_cell(&sheet, "%.6g", line->add_ml);
        sheet_cell(&sheet, isnan(grams(inv, line)) ? "-" : "%.1f", grams(inv, line));
        sheet_cell(&sheet, "%.1f", line->asked_percent);
        sheet_cell(&sheet, "%.1f", line->reached_percent);
    }
    sheet_write(&sheet, out);
    if (recipe->shift_percent < 0.05)
        page_paragraph_f(out, 2, 2, "Measured in steps of %g mL; the shares are met.", recipe->step_ml);
    else
        page_paragraph_f(
            out, 2, 2,
            "Measured in steps of %g mL; rounding shifts a share by %.1f %% of the volume at most and the place by "
            "%.2f MPa^0.5.",
            recipe->step_ml, recipe->shift_percent, batch->shift_ra_mpa05);
    page_paragraph(out, 2, 2,
                   "Parts are volumes before mixing; alcohol with water shrinks on mixing. Write name, proportions and "
                   "date on the "
                   "jar, and look whether the blend is clear before you use it.");
}

static void write_json(const struct invocation *inv, const struct batch *batch, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_blend(&json, &batch->blend);
    json_number(&json, "total_ml", batch->recipe.total_ml);
    json_number(&json, "step_ml", batch->recipe.step_ml);
    json_list(&json, "lines");
    for (size_t i = 0; i < batch->recipe.count; i++) {
        const struct recipe_line *line = &batch->recipe.lines[i];
        json_object(&json, NULL);
        json_text(&json, "bottle", bottle_ref_id(&line->bottle));
        json_number(&json, "have_ml", line->have_ml);
        json_number(&json, "add_ml", line->add_ml);
        json_number(&json, "add_g", grams(inv, line));
        json_number(&json, "asked_percent", line->asked_percent);
        json_number(&json, "reached_percent", line->reached_percent);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_number(&json, "shift_percent", batch->recipe.shift_percent);
    json_number(&json, "shift_ra_mpa05", batch->shift_ra_mpa05);
    json_end(&json);
}

static enum status read_leftover(struct invocation *inv, struct batch *batch, struct error *err) {
    const char *leftover = option_value(inv, "--leftover");
    if (!leftover)
        return option_given(inv, "--leftover-ml")
                   ? error_set(err, STATUS_USAGE, "--leftover-ml needs --leftover \"BLEND\": what is in the jar?")
                   : STATUS_OK;
    if (!option_given(inv, "--leftover-ml"))
        return error_set(err, STATUS_USAGE, "--leftover needs --leftover-ml: how much is in the jar?");
    enum status status = option_number(inv, "--leftover-ml", 0.01, 100000, 0, &batch->leftover_ml, err);
    if (status == STATUS_OK)
        status = blend_parse(&inv->library, leftover, &batch->leftover, NULL, err);
    return status;
}

static enum status explain(struct invocation *inv, const struct batch *batch, struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(inv);
    if (!explaining)
        return STATUS_OK;
    explain_blend(explaining, &batch->blend);
    write_json(inv, batch, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct batch *batch = arena_new(inv->arena, 1, sizeof *batch);
    if (!batch)
        return error_set(err, STATUS_MEMORY, "out of memory");
    const struct blend *const blends[] = {&batch->blend, &batch->leftover};
    double volume_ml = 0;
    double step_ml = 1;
    enum status status = argument_blend(inv, 0, &batch->blend, err);
    if (status == STATUS_OK)
        status = read_leftover(inv, batch, err);
    if (status == STATUS_OK)
        status = read_rows_of_blends(inv, blends, batch->leftover_ml > 0 ? 2 : 1, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--volume", 0.01, 100000, batch->leftover_ml > 0 ? 0 : 40, &volume_ml, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--round", 0.01, 100, 1, &step_ml, err);
    if (status == STATUS_OK)
        status = case_option_warn_peroxides(inv, &batch->blend, err);
    if (status != STATUS_OK)
        return status;
    if (batch->leftover_ml > 0)
        status = recipe_correct(&inv->library, &batch->leftover, batch->leftover_ml, &batch->blend, volume_ml, step_ml,
                                &batch->recipe, err);
    else
        status = recipe_make(&inv->library, &batch->blend, volume_ml, step_ml, &batch->recipe, err);
    if (status != STATUS_OK)
        return status;
    batch->shift_ra_mpa05 = shift_of_place(&batch->blend, &batch->recipe.reached);
    if (inv->json)
        write_json(inv, batch, inv->out);
    else
        write_text(inv, batch, inv->out);
    return explain(inv, batch, err);
}

static const struct option options[] = {
    {.name = "--volume",
     .argument = "ML",
     .help = "size of the batch (default 40; for a leftover: as little as possible)"},
    {.name = "--round", .argument = "ML", .help = "smallest step of your cylinder (default 1)"},
    {.name = "--leftover", .argument = "BLEND", .help = "what is in the jar already"},
    {.name = "--leftover-ml", .argument = "ML", .help = "how much of it"},
    {.name = "--date", .argument = "DATE", .help = "day on which bottles are judged (default today)"},
    CASE_OPTION,
    EXPLAIN_OPTION,
};

const struct command cmd_recipe = {
    .name = "recipe",
    .arguments = "BLEND",
    .arguments_least = 1,
    .arguments_most = 1,
    .summary = "Millilitres for a batch, or what to add to a leftover to make another blend",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES,
    .row_tables = TABLE_PROPERTIES,
    .example = "mildsolve recipe \"propan-2-ol 30 + isooctane 70\" --volume 40",
    .dated = true,
    .run = run,
};
