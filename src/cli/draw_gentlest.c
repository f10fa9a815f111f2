// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/draw_gentlest.h"

#include "cli/page_options.h"
#include "physics/film_band.h"

#include <math.h>

// The axis: from the middle of "very low" to three times the bound of "very high"; what lies beyond is drawn at the
// edge. Decades would leave half of the panel empty.
static const double axis_least = 0.05;
static const double axis_most = 3.3;

struct window_drawing {
    struct window_chart_blend blends[RANKING_SHOWN_MAX];
    size_t count;
    struct window_chart_band bands[BAND_VERY_HIGH + 1];
};

// "isooctane 70 + propan-2-ol 30 (tie a)"
static const char *name_of(const struct film_answer *answer, const struct ranked_row *row) {
    struct text recipe = {0};
    composition_recipe(&answer->goal, &row->row.best, &recipe);
    const char *name = recipe.failed ? NULL
                                     : arena_say(answer->inv->arena, "%s (tie %c)", text_bytes(&recipe),
                                                 (char)('a' + (row->tie - 1) % 26));
    text_release(&recipe);
    return name;
}

// One standard error of the sampled probability to either side.
static void set_effect(const struct film_answer *answer, const struct doubt_row *doubt,
                       struct window_chart_blend *blend) {
    double error = doubt_error(doubt->p_works, answer->ranking.samples);
    blend->effect = 100 * doubt->p_works;
    blend->effect_low = 100 * fmax(doubt->p_works - error, 0);
    blend->effect_high = 100 * fmin(doubt->p_works + error, 1);
}

static enum status fill_blends(const struct film_answer *answer, struct window_drawing *drawing, struct error *err) {
    for (size_t i = 0; i < answer->ranking.count; i++) {
        const struct ranked_row *row = &answer->ranking.rows[i];
        if (row->apart || !row->doubted)
            continue;
        struct window_chart_blend *blend = &drawing->blends[drawing->count++];
        *blend = (struct window_chart_blend){.name = name_of(answer, row),
                                             .number = i + 1,
                                             .swelling = row->doubt.swelling_median,
                                             .swelling_low = row->doubt.swelling_least,
                                             .swelling_high = row->doubt.swelling_most};
        if (!blend->name)
            return error_set(err, STATUS_MEMORY, "out of memory");
        set_effect(answer, &row->doubt, blend);
    }
    return drawing->count ? STATUS_OK
                          : error_set(err, STATUS_NO_DATA, "--chart: the list has no row that could be drawn");
}

static void fill_bands(struct window_drawing *drawing) {
    for (int i = BAND_VERY_LOW; i <= BAND_VERY_HIGH; i++)
        drawing->bands[i] =
            (struct window_chart_band){.name = film_band_words((enum film_band)i),
                                       .from = i == BAND_VERY_LOW ? -INFINITY : film_band_from((enum film_band)i),
                                       .to = i == BAND_VERY_HIGH ? INFINITY : film_band_from((enum film_band)(i + 1))};
}

static const char *names_of(const struct film_answer *answer, const struct material *const *materials, size_t count) {
    struct text names = {0};
    add_material_names(materials, count, &names);
    const char *copy = names.failed ? NULL : arena_text(answer->inv->arena, text_bytes(&names));
    text_release(&names);
    return copy;
}

static enum status fill_words(const struct film_answer *answer, struct window_chart_input *input, struct error *err) {
    struct arena *arena = answer->inv->arena;
    const char *spare = names_of(answer, answer->goal.spare, answer->goal.spare_count);
    const char *remove = names_of(answer, answer->goal.remove, answer->goal.remove_count);
    if (!spare || !remove)
        return error_set(err, STATUS_MEMORY, "out of memory");
    input->swelling_name = arena_say(arena, "volume taken up per dry volume of %s, median of the samples", spare);
    input->effect_name = arena_say(arena, "probability that it works on %s, %%", remove);
    input->asked_figure = arena_say(arena, "%g %%", 100 * answer->least_probability);
    input->doubt = arena_say(arena,
                             "10 to 90 %% of %zu samples across (an open end: beyond the axis, or the paint "
                             "dissolves), one standard error of sampling upwards and downwards",
                             answer->ranking.samples);
    input->models = arena_say(arena,
                              "Film model, %g \u00B0C; %zu candidates sampled, seed %lu. A tie holds blends that "
                              "cannot be told apart",
                              answer->temp_c, answer->ranking.candidates, answer->ranking.seed);
    bool complete = input->swelling_name && input->effect_name && input->asked_figure && input->doubt && input->models;
    return complete ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory");
}

enum status window_chart_of(const struct film_answer *answer, struct window_chart_input *ret, struct error *err) {
    struct window_drawing *drawing = arena_new(answer->inv->arena, 1, sizeof *drawing);
    struct window_chart_input input = {.swelling_log = true,
                                       .swelling_low = axis_least,
                                       .swelling_high = axis_most,
                                       .effect_low = 0,
                                       .effect_high = 100,
                                       .asked = 100 * answer->least_probability};
    if (!drawing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (!answer->ranking.samples)
        return error_set(err, STATUS_USAGE,
                         "--chart draws how likely a blend works; ask for samples with --doubt quick or --doubt full");
    enum status status = page_options(answer->inv, SHEET_HALF, &input.page, err);
    if (status == STATUS_OK)
        status = fill_blends(answer, drawing, err);
    if (status == STATUS_OK)
        status = fill_words(answer, &input, err);
    if (status != STATUS_OK)
        return status;
    fill_bands(drawing);
    input.blends = drawing->blends;
    input.blend_count = drawing->count;
    input.bands = drawing->bands;
    input.band_count = sizeof drawing->bands / sizeof drawing->bands[0];
    *ret = input;
    return STATUS_OK;
}

enum status draw_gentlest(const struct film_answer *answer, const char *path, struct error *err) {
    struct window_chart_input input;
    enum status status = window_chart_of(answer, &input, err);
    return status == STATUS_OK ? window_chart_write(&input, path, err) : status;
}
