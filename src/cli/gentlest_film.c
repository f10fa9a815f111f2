// SPDX-License-Identifier: GPL-3.0-or-later
// gentlest by film: from the options to the ranking.
#include "cli/explain.h"
#include "cli/gentlest.h"

#include "base/units.h"
#include "cli/draw_gentlest.h"
#include "cli/goal_learnt.h"
#include "cli/interrupt.h"
#include "cli/page_options.h"

#include <math.h>
#include <string.h>

// The paint to spare with the pigment asked for. A material that is to be removed as well is one and the same film.
static enum status set_pigment(struct film_answer *answer, struct error *err) {
    struct goal *goal = &answer->goal;
    for (size_t i = 0; i < goal->spare_count && !isnan(answer->pigment); i++) {
        const struct material *plain = goal->spare[i];
        if (plain->film != FILM_CROSS_LINKED || !material_has_film(plain))
            continue;
        struct material *own = arena_new(answer->inv->arena, 1, sizeof *own);
        if (!own)
            return error_set(err, STATUS_MEMORY, "out of memory");
        *own = *plain;
        own->film_model.pigment = answer->pigment;
        goal->spare[i] = own;
        for (size_t k = 0; k < goal->remove_count; k++)
            if (goal->remove[k] == plain)
                goal->remove[k] = own;
    }
    return STATUS_OK;
}

// --explain with a number; without one the list is explained.
static enum status read_row_to_explain(struct film_answer *answer, struct error *err) {
    const char *value = option_value(answer->inv, "--explain");
    if (value && strcmp(value, OPTION_SWITCHED_ON) == 0)
        return STATUS_OK;
    return option_integer(answer->inv, "--explain", 1, RANKING_SHOWN_MAX, 0, &answer->explain, err);
}

static enum status read_options(struct film_answer *answer, struct error *err) {
    static const char *const residues[] = {"short", "medium", "long", "any", NULL};
    static const char *const efforts[] = {"none", "quick", "full", NULL};
    struct invocation *inv = answer->inv;
    enum status status = goal_from_options(inv, &answer->goal, &answer->filters, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--show", 1, RANKING_SHOWN_MAX, 8, &answer->show, err);
    if (status == STATUS_OK)
        status = option_word(inv, "--doubt", efforts, DOUBT_EFFORT_QUICK, &answer->effort, err);
    if (status == STATUS_OK)
        status = sensitive_collect(inv, &answer->sensitive, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--flash-least", -100, 200, NAN, &answer->flash_least_c, err);
    if (status == STATUS_OK)
        status = option_word(inv, "--residue-most", residues, RETENTION_VERY_LONG, &answer->residue_most, err);
    if (status == STATUS_OK)
        status = option_word(inv, "--prefer", preference_words, PREFER_PAINT, &answer->prefer, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--probability", 0, 1, 0.8, &answer->least_probability, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--temperature", 5, 35, 20, &answer->temp_c, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--pigment", 0, 0.9, NAN, &answer->pigment, err);
    if (status == STATUS_OK)
        status = set_pigment(answer, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--film-age", 0, 1000, NAN, &answer->film_age_years, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--seed", 1, 1000000, 1, &answer->seed, err);
    if (status == STATUS_OK)
        status = read_row_to_explain(answer, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--threads", 1, CREW_MAX, crew_processors(), &answer->threads, err);
    return status;
}

static enum status explain(const struct film_answer *answer, struct error *err) {
    struct text json = {0};
    struct explaining *explaining = explain_begin(answer->inv);
    if (!explaining)
        return STATUS_OK;
    for (size_t i = 0; i < answer->ranking.count; i++)
        explain_blend(explaining, &answer->ranking.rows[i].blend);
    explain_goal(explaining, &answer->goal);
    write_film_json(answer, &json);
    return explain_answer(explaining, &json, err);
}

static enum status rank(struct film_answer *answer, struct error *err) {
    struct ranking_request request = {.goal = &answer->goal,
                                      .lib = &answer->inv->library,
                                      .table = &answer->groups,
                                      .temp_k = kelvin_from_celsius(answer->temp_c),
                                      .flash_least_c = answer->flash_least_c,
                                      .residue_most = (enum retention_word)answer->residue_most,
                                      .effort = (enum doubt_effort)answer->effort,
                                      .prefer = (enum preference)answer->prefer,
                                      .seed = (unsigned long)answer->seed,
                                      .least_probability = answer->least_probability,
                                      .show = (size_t)answer->show,
                                      .fold = !option_given(answer->inv, "--every-set"),
                                      .threads = answer->threads,
                                      .watch = {.progress = interrupt_progress, .cancel = interrupt_cancel()}};
    interrupt_watch();
    enum status status = ranking_make(&request, &answer->ranking, err);
    interrupt_done();
    return status;
}

static enum status write_answer(struct film_answer *answer, struct error *err) {
    if (answer->inv->json)
        write_film_json(answer, answer->inv->out);
    else if (answer->explain)
        return write_film_explanation(answer, answer->explain, answer->inv->out, err);
    else
        write_film_text(answer, answer->inv->out);
    return explain(answer, err);
}

enum status film_answer_make(struct invocation *inv, struct film_answer *answer, struct error *err) {
    answer->inv = inv;
    enum status status = page_options_check(inv, err);
    if (status == STATUS_OK)
        status = read_options(answer, err);
    if (status == STATUS_OK)
        status = unifac_table_make(&inv->library, &answer->groups, err);
    if (status == STATUS_OK)
        status = goal_learn(inv, &answer->goal, &answer->groups, kelvin_from_celsius(answer->temp_c), err);
    if (status == STATUS_OK)
        status = rank(answer, err);
    const struct ranked_row *first = answer->ranking.rows;
    if ((status == STATUS_OK || status == STATUS_INTERRUPTED) && answer->ranking.count &&
        first_test_find(inv, &answer->goal, &answer->groups, kelvin_from_celsius(answer->temp_c), &first->blend,
                        &first->weakest.blend, &answer->first_test, err) == STATUS_MEMORY)
        return STATUS_MEMORY;
    return status;
}

void film_answer_release(struct film_answer *answer) {
    ranking_release(&answer->ranking);
    unifac_table_release(&answer->groups);
}

enum status gentlest_by_film(struct invocation *inv, struct error *err) {
    struct film_answer *answer = arena_new(inv->arena, 1, sizeof *answer);
    if (!answer)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = film_answer_make(inv, answer, err);
    const char *chart = option_value(inv, "--chart");
    if (status == STATUS_OK && chart && answer->ranking.count)
        status = draw_gentlest(answer, chart, err);
    if (status == STATUS_OK || status == STATUS_INTERRUPTED) {
        enum status written = write_answer(answer, err);
        status = written != STATUS_OK ? written : status;
    }
    if (status == STATUS_OK && answer->ranking.count == 0)
        status = STATUS_NEGATIVE;
    film_answer_release(answer);
    return status;
}
