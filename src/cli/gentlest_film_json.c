// SPDX-License-Identifier: GPL-3.0-or-later
// gentlest by film, for programs.
#include "cli/gentlest.h"
#include "cli/goal_learnt.h"
#include "cli/notes.h"
#include "cli/overdue.h"
#include "physics/film_band.h"

#include <math.h>

static void json_doubt(const struct ranked_row *row, struct json *json) {
    if (!row->doubted) {
        json_null(json, "doubt");
        return;
    }
    json_object(json, "doubt");
    json_number(json, "p_works", row->doubt.p_works);
    json_number(json, "p_dissolves", row->doubt.p_dissolves);
    json_number(json, "swelling_p10", row->doubt.swelling_least);
    json_number(json, "swelling_p50", row->doubt.swelling_median);
    json_number(json, "swelling_p90", row->doubt.swelling_most);
    json_number(json, "p_unbounded", row->doubt.p_unbounded);
    json_number(json, "rank_p10", row->doubt.rank_least);
    json_number(json, "rank_p90", row->doubt.rank_most);
    json_number(json, "p_mildest_five", row->doubt.p_mildest_five);
    json_integer(json, "tie", (long long)row->tie);
    json_close_object(json);
}

static void json_span(const struct film_answer *answer, const struct ranked_row *row, struct json *json) {
    const struct goal *goal = &answer->goal;
    json_list(json, "shares_that_work");
    for (int i = 0; i < row->row.best.count; i++) {
        json_object(json, NULL);
        json_text(json, "bottle", bottle_ref_id(&goal->bottles[row->row.best.bottles[i]]));
        json_number(json, "least_percent", percent_of_steps(goal, row->row.least_steps[i]));
        json_number(json, "most_percent", percent_of_steps(goal, row->row.most_steps[i]));
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_row(const struct film_answer *answer, size_t i, struct json *json) {
    const struct ranked_row *row = &answer->ranking.rows[i];
    struct text reason = {0};
    add_film_reason(answer, row, &reason);
    json_object(json, NULL);
    json_integer(json, "rank", (long long)i + 1);
    json_composition(&answer->goal, &row->row.best, json, "recipe");
    json_overdue(answer->inv, &row->blend, json);
    json_number(json, "red_remove", row->row.red_remove);
    json_number(json, "swelling", row->apart ? NAN : row->row.swelling);
    json_text(json, "swelling_band", row->apart ? NULL : film_band_words(film_band(row->row.swelling)));
    json_text(json, "published_class",
              row->published.swelling ? swelling_class_words[row->published.swelling->class] : NULL);
    json_text(json, "published_liquid", row->published.component ? row->published.component->id : NULL);
    json_text(json, "spared_most_swollen", row->row.spared ? row->row.spared->id : NULL);
    json_number(json, "target_swelling", row->row.target_swelling);
    json_doubt(row, json);
    json_flag(json, "edge", row->edge);
    json_flag(json, "beyond_the_model", row->apart);
    json_number(json, "strong_share", row->row.strong_share);
    json_text(json, "phase", phase_verdict_word(row->phase.verdict));
    json_object(json, "if_separated");
    if (row->split.known) {
        json_flag(json, "works", row->split.works);
        json_number(json, "swelling", row->split.swelling);
    }
    json_close_object(json);
    json_number(json, "flash_point_c", row->flash.display_c);
    json_text(json, "flammability_statement", ghs_flammable_statement(row->flammable));
    json_text(json, "residue", retention_words(row->retention.word));
    json_text(json, "health", health_burden_words(row->health));
    if (row->beaten_by)
        json_integer(json, "beaten_by", (long long)row->beaten_by);
    else
        json_null(json, "beaten_by");
    json_number(json, "last_to_leave_tail_share", row->retention.tail_share);
    json_text(json, "last_to_leave", row->retention.slowest ? row->retention.slowest->id : NULL);
    json_text(json, "reason", text_bytes(&reason));
    json_span(answer, row, json);
    json_object(json, "weakest");
    if (row->weakest.blend.count) {
        json_composition(&answer->goal, &row->weakest.composition, json, "recipe");
        json_number(json, "swelling", row->weakest.swelling);
        json_number(json, "flash_point_c", row->weakest.flash_c);
        json_number(json, "p_works", row->doubted ? row->weakest.doubt.p_works : NAN);
        json_text(json, "phase", phase_verdict_word(row->weakest.phase));
    }
    json_close_object(json);
    json_integer(json, "near_identical_sets", (long long)row->similar);
    json_list(json, "near_identical");
    for (size_t k = 0; k < row->like_count; k++)
        json_composition(&answer->goal, &row->like[k], json, NULL);
    json_close_list(json);
    json_close_object(json);
    text_release(&reason);
}

static void json_filter(struct json *json, const char *name, double blends) {
    json_object(json, NULL);
    json_text(json, "filter", name);
    json_number(json, "blends", blends);
    json_close_object(json);
}

static void json_filters(const struct film_answer *answer, struct json *json) {
    const struct ranking *ranking = &answer->ranking;
    json_list(json, "removed_by_filter");
    json_filter_counts(&answer->filters, json);
    json_filter(json, "does not work", ranking->search.evaluated - ranking->search.working - ranking->search.failed);
    json_filter(json, "not covered", ranking->search.not_covered);
    json_filter(json, "solver failed", ranking->search.failed);
    json_filter(json, "too unlikely", (double)ranking->too_unlikely);
    json_filter(json, "two liquids", (double)ranking->split);
    json_filter(json, "flash point", (double)ranking->too_flammable);
    json_filter(json, "residue", (double)ranking->too_slow);
    json_close_list(json);
}

static void json_doubtful(const struct film_answer *answer, struct json *json) {
    json_list(json, "weak_but_less_likely");
    for (size_t i = 0; i < answer->ranking.doubtful_count; i++) {
        json_object(json, NULL);
        json_composition(&answer->goal, &answer->ranking.doubtful[i], json, "recipe");
        json_number(json, "p_works", answer->ranking.doubtful_p[i]);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_touching(const struct film_answer *answer, const struct sensitivity *sensitivity, bool weakest,
                          struct json *json, const char *key) {
    json_list(json, key);
    for (size_t k = 0; k < answer->ranking.count; k++)
        if (row_touches(&answer->ranking.rows[k], sensitivity, weakest))
            json_integer(json, NULL, (long long)k + 1);
    json_close_list(json);
}

static void json_sensitive(const struct film_answer *answer, struct json *json) {
    json_list(json, "sensitive_passages");
    for (size_t i = 0; i < answer->sensitive.count; i++) {
        const struct sensitive_passage *item = &answer->sensitive.items[i];
        json_object(json, NULL);
        json_text(json, "sensitivity", item->sensitivity->id);
        json_text(json, "passage", item->passage);
        json_touching(answer, item->sensitivity, false, json, "touched_by_ranks");
        json_touching(answer, item->sensitivity, true, json, "touched_by_weakest_of_ranks");
        json_text(json, "warning", item->sensitivity->warning);
        json_close_object(json);
    }
    json_close_list(json);
}

void write_film_json(const struct film_answer *answer, struct text *out) {
    const struct ranking *ranking = &answer->ranking;
    struct noted noted = {0};
    struct json json;
    json_begin(&json, out);
    json_text(&json, "by", "film");
    json_first_test(answer->inv, &answer->first_test, &json);
    json_list(&json, "blends");
    for (size_t i = 0; i < ranking->count; i++) {
        json_row(answer, i, &json);
        noted_add(&noted, &ranking->rows[i].blend);
    }
    for (size_t i = 0; i < ranking->count; i++)
        noted_add(&noted, &ranking->rows[i].weakest.blend);
    json_close_list(&json);
    json_doubtful(answer, &json);
    json_learnt(&answer->goal, &json);
    json_flag(&json, "complete", ranking->complete);
    json_flag(&json, "proved", ranking->complete && ranking->search.failed == 0);
    json_number(&json, "blends_on_grid", ranking->search.blends);
    json_number(&json, "evaluated", ranking->search.evaluated);
    json_number(&json, "excluded_by_bound", 0);
    json_integer(&json, "working_sets", (long long)ranking->search.row_count);
    json_integer(&json, "samples", (long long)ranking->samples);
    json_integer(&json, "candidates", (long long)ranking->candidates);
    json_integer(&json, "cases_at_ends", (long long)(ranking->ends_cases ? ranking->ends_cases - 1 : 0));
    json_number(&json, "film_age_years", answer->film_age_years);
    json_number(&json, "pigment", answer->pigment);
    json_integer(&json, "seed", (long long)ranking->seed);
    json_number(&json, "sampling_error", ranking->samples ? ranking->sampling_error : NAN);
    json_number(&json, "probability_asked", answer->least_probability);
    json_filters(answer, &json);
    json_sensitive(answer, &json);
    json_notes(&noted, &json, "components");
    if (option_given(answer->inv, "--chart"))
        json_text(&json, "chart", option_value(answer->inv, "--chart"));
    json_end(&json);
}
