// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/language.h"
#include "cli/learn.h"

#include <math.h>
#include <stdio.h>

// --- words ---

enum { PERCENT_BYTES = 16 };

// Whole percents; what is nearly never or nearly always is not printed as never or always.
static const char *percent(double p, char buffer[PERCENT_BYTES]) {
    if (isnan(p))
        snprintf(buffer, PERCENT_BYTES, "-");
    else if (p < 0.01)
        snprintf(buffer, PERCENT_BYTES, "<1 %%");
    else if (p > 0.99)
        snprintf(buffer, PERCENT_BYTES, ">99 %%");
    else
        snprintf(buffer, PERCENT_BYTES, "%.0f %%", 100 * p);
    return buffer;
}

static const char *view_title(enum belief_view view) {
    return view == BELIEF_FILM ? N_("By film (swelling by the activities)")
                               : N_("By RED (distance of the mean in Hansen space)");
}

// --- regions ---

static void region_row(enum belief_view view, const char *when, const struct belief_interval *parameters,
                       struct sheet *sheet) {
    sheet_cell(sheet, "%s", when);
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++) {
        bool strength = i == BELIEF_STRENGTH;
        double least = strength ? learn_strength(view, parameters[i].least) : parameters[i].least;
        double most = strength ? learn_strength(view, parameters[i].most) : parameters[i].most;
        if (strength && view == BELIEF_FILM)
            sheet_cell(sheet, "%+.2f to %+.2f", least, most);
        else
            sheet_cell(sheet, "%.1f to %.1f", least, most);
    }
}

static void write_region(const struct learning *learning, enum belief_view view, size_t material, struct text *out) {
    const struct belief_case *learnt = &learning->views[view].learnt;
    struct belief_interval before[BELIEF_PARAMETERS], after[BELIEF_PARAMETERS];
    for (size_t i = 0; i < BELIEF_PARAMETERS; i++) {
        belief_prior(learnt->plan, material, i, &before[i]);
        if (belief_posterior(learnt->belief, material, i, &after[i], NULL) != STATUS_OK)
            return; // main prints no answer once memory ran out
    }
    struct sheet sheet = {.indent = 2};
    page_paragraph_f(out, 0, 2, "%s (tests: %zu)", belief_material(learnt->plan, material)->id,
                     belief_tests(learnt->belief, material));
    sheet_column(&sheet, "", false);
    sheet_column(&sheet, "delta D", true);
    sheet_column(&sheet, "delta P", true);
    sheet_column(&sheet, "delta H", true);
    sheet_column(&sheet, view == BELIEF_RED ? N_("radius") : N_("shift of chi"), true);
    region_row(view, say("before the tests"), before, &sheet);
    region_row(view, say("after them"), after, &sheet);
    sheet_write(&sheet, out);
}

static void write_regions(const struct learning *learning, enum belief_view view, struct text *out) {
    const struct learn_view *seen = &learning->views[view];
    page_heading(out, view_title(view));
    if (!seen->known) {
        page_paragraph_f(out, 0, 2, "Left out: %s.", seen->why.text);
        return;
    }
    for (size_t i = 0; i < belief_material_count(seen->learnt.plan); i++)
        write_region(learning, view, i, out);
    for (size_t i = 0; i < seen->learnt.left_out_count; i++)
        page_paragraph_f(out, 0, 2, "Test %s is left out: %s.", seen->learnt.left_out[i].test->id,
                         seen->learnt.left_out[i].why.text);
}

// --- passages ---

static void forecast_row(const struct learning *learning, size_t blend, size_t passage, struct sheet *sheet) {
    double works[LEARN_VIEWS] = {NAN, NAN}, touches = NAN;
    char text[PERCENT_BYTES];
    for (int view = 0; view < LEARN_VIEWS; view++) {
        struct belief_forecast forecast;
        if (!learn_forecast(learning, (enum belief_view)view, blend, passage, &forecast))
            continue;
        works[view] = forecast.p_works;
        touches = fmax(touches, forecast.p_touches); // fmax passes over NAN
    }
    sheet_cell(sheet, "%s", percent(works[BELIEF_FILM], text));
    sheet_cell(sheet, "%s", percent(works[BELIEF_RED], text));
    sheet_cell(sheet, "%s", percent(touches, text));
    sheet_cell(sheet, "%s", learning->blends[blend].notation);
}

static void write_passage(const struct learning *learning, size_t number, struct text *out) {
    const struct case_passage *passage = (const struct case_passage *)learning->file->passages.items + number;
    struct sheet sheet = {.indent = 2};
    page_paragraph_f(out, 0, 2, "%s (tests: %zu)", passage->id, case_tests_in(learning->file, passage->id));
    sheet_column(&sheet, N_("works, film"), true);
    sheet_column(&sheet, N_("works, RED"), true);
    sheet_column(&sheet, N_("touches paint"), true);
    sheet_column(&sheet, N_("blend, parts by volume"), false);
    for (size_t i = 0; i < learning->blend_count; i++)
        forecast_row(learning, i, number, &sheet);
    sheet_write(&sheet, out);
}

static void write_passages(const struct learning *learning, struct text *out) {
    page_heading(out, N_("What the blends tried so far would do at a new site of each passage"));
    for (size_t i = 0; i < learning->file->passages.count; i++)
        write_passage(learning, i, out);
    page_paragraph(
        out, 0, 2,
        N_("Works: at least partly removed, as a swab test of the case's usual contact. Touches paint: original "
           "colour on the swab where the paint lies bare, the larger of both views."));
}

// --- warnings ---

void learn_add_warning(const struct learning *learning, const struct learn_warning *warning, struct text *out) {
    const char *material = belief_material(learning->views[warning->view].learnt.plan, warning->material)->id;
    const char *view = say(belief_view_words[warning->view]);
    char text[PERCENT_BYTES];
    switch (warning->kind) {
    case LEARN_AGAINST_MODEL:
        text_say(out,
                 "The tests contradict what the tables say of %s (by %s): of tests on layers as the tables have "
                 "them, only %s come out so improbably. Another material, another layer on top, or a result "
                 "written down wrongly?",
                 material, view, percent(warning->value, text));
        break;
    case LEARN_ODD_TEST:
        text_say(out,
                 "Test %s (%s) does not go with the others on %s (by %s): they expect a result so far out in %s "
                 "of cases. Look at it again; withdraw it if it was written down wrongly.",
                 warning->test->id, say(result_words[warning->test->result]), material, view,
                 percent(warning->value, text));
        break;
    case LEARN_OTHER_VIEW:
        text_say(out,
                 "The other view explains the tests on %s better than the view by %s, %.0f to 1: rather go by "
                 "that one.",
                 material, view, fmin(warning->value, 1e6));
        break;
    case LEARN_POOR_SAMPLE:
        text_say(out, "The sample for %s (by %s) is poor (R-hat %.2f): ask for more --particles before you trust it.",
                 material, view, warning->value);
        break;
    }
}

static void write_warning(const struct learning *learning, const struct learn_warning *warning, struct text *out) {
    struct text words = {0};
    learn_add_warning(learning, warning, &words);
    page_paragraph(out, 0, 2, text_bytes(&words));
    out->failed |= words.failed;
    text_release(&words);
}

// --- the whole ---

static void add_names(const struct material *const *materials, size_t count, struct text *out) {
    for (size_t i = 0; i < count; i++)
        text_printf(out, "%s%s", i ? ", " : "", materials[i]->id);
}

static void write_stand_ins(const struct learning *learning, const struct text_list *goal, struct text *out) {
    const struct material *materials[GOAL_MATERIALS_MAX], *stand_in;
    size_t count = 0;
    if (case_goal_materials(learning->file, goal, materials, GOAL_MATERIALS_MAX, &count, NULL) != STATUS_OK)
        return;
    for (size_t i = 0; i < count; i++)
        if (isnan(materials[i]->sphere.r0) && materials[i]->substitute &&
            library_material(&learning->inv->library, materials[i]->substitute, &stand_in, NULL) == STATUS_OK)
            page_paragraph_f(out, 0, 2, "%s stands in for %s, of which no region is published.", stand_in->id,
                             materials[i]->id);
}

static void write_head(const struct learning *learning, struct text *out) {
    const struct learn_view *view = &learning->views[learning->views[BELIEF_FILM].known ? BELIEF_FILM : BELIEF_RED];
    const struct belief_materials *materials = &view->learnt.materials;
    struct text remove = {0}, spare = {0};
    add_names(materials->remove, materials->remove_count, &remove);
    add_names(materials->spare, materials->spare_count, &spare);
    page_paragraph_f(out, 0, 2, "Learnt from %zu tests. To remove: %s. To spare: %s. Ranges hold 90 %% of the belief.",
                     view->learnt.count + view->learnt.left_out_count, text_bytes(&remove),
                     spare.length ? text_bytes(&spare) : say("nothing named"));
    if (view->learnt.older)
        page_paragraph_f(out, 0, 2, "Only the latest %d tests are learnt from; older ones: %zu.", BELIEF_CASE_TESTS_MAX,
                         view->learnt.older);
    text_release(&remove);
    text_release(&spare);
}

static void write_quality(const struct learning *learning, struct text *out) {
    double effective = INFINITY, r_hat = 1;
    for (int v = 0; v < LEARN_VIEWS; v++)
        for (size_t i = 0; learning->views[v].known && i < belief_material_count(learning->views[v].learnt.plan); i++) {
            effective = fmin(effective, learning->views[v].diagnostics[i].effective);
            r_hat = fmax(r_hat, learning->views[v].diagnostics[i].r_hat);
        }
    page_paragraph_f(out, 0, 2, "Sample: %d draws, at least %.0f of them effective, R-hat at most %.3f; seed %d.",
                     learning->particles, effective, r_hat, learning->seed);
}

void write_learn_text(const struct learning *learning, struct text *out) {
    write_head(learning, out);
    write_stand_ins(learning, &learning->file->goals.remove, out);
    write_stand_ins(learning, &learning->file->goals.spare, out);
    write_stand_ins(learning, &learning->file->goals.unsure, out);
    for (int view = 0; view < LEARN_VIEWS; view++)
        write_regions(learning, (enum belief_view)view, out);
    if (learning->blend_count)
        write_passages(learning, out);
    if (learning->warning_count)
        page_heading(out, N_("Warnings"));
    for (size_t i = 0; i < learning->warning_count; i++)
        write_warning(learning, &learning->warnings[i], out);
    text_add(out, "\n");
    write_quality(learning, out);
    if (option_given(learning->inv, "--chart"))
        page_paragraph_f(out, 0, 2, "chart: %s", option_value(learning->inv, "--chart"));
    write_caution(out);
}
