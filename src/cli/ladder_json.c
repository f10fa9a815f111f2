// SPDX-License-Identifier: GPL-3.0-or-later
// ladder, for programs.
#include "casefile/casefile.h"
#include "cli/gentlest.h"
#include "cli/ladder.h"
#include "cli/notes.h"
#include "cli/overdue.h"

#include <math.h>

static void json_batch(const struct jar_batch *batch, const char *key, struct json *json) {
    json_object(json, key);
    json_integer(json, "from_jar_ml", batch->from_jar_ml);
    json_integer(json, "weak_ml", batch->weak_ml);
    json_integer(json, "strong_ml", batch->strong_ml);
    json_integer(json, "total_ml", batch->total_ml);
    json_number(json, "reached_percent", batch->reached_percent);
    json_close_object(json);
}

static void json_wait(const struct ladder_wait *wait, struct json *json) {
    json_number(json, "surface_dry_min", wait->dry_min);
    if (isnan(wait->dry_min))
        json_null(json, "judge_after_min");
    else
        json_integer(json, "judge_after_min", wait->judge_min);
    json_text(json, "residue", retention_words(wait->residue));
    json_flag(json, "same_spot_next_day", wait->next_day);
}

static void json_row(const struct ladder_answer *answer, const struct ladder_row *row, struct json *json) {
    static const char *const clearings[] = {"weak", "weak, look", "dry"};
    const struct ladder_direction *direction = ladder_direction_of(answer, row);
    const struct ladder_rung *rung = ladder_rung_of(answer, row);
    double percent = row->plan.rung * (double)LADDER_STEP_PERCENT;
    json_object(json, NULL);
    json_blend(json, &row->plan.blend);
    json_overdue(answer->inv, &row->plan.blend, json);
    json_text(json, "weak", bottle_ref_id(&direction->weak));
    json_text(json, "strong", bottle_ref_id(&direction->strong));
    json_text(json, "direction", ladder_way_words(direction->way));
    json_number(json, "strong_percent", percent);
    json_number(json, "step_percent", row->from_percent < 0 ? NAN : percent - row->from_percent);
    json_number(json, "step_margin", ladder_scale_step(answer, row));
    json_number(json, "margin", rung->margin);
    json_number(json, "p_works", rung->p_works);
    json_number(json, "p_touches", rung->p_touches);
    json_number(json, "paint", rung->paint);
    if (isnan(rung->margin) || isnan(answer->worked_rung.margin))
        json_null(json, "weaker_than_worked");
    else
        json_flag(json, "weaker_than_worked", ladder_weaker_than_worked(answer, row));
    json_batch(&row->plan.fresh, "fresh", json);
    if (row->plan.has_jar)
        json_batch(&row->plan.jar, "from_jar", json);
    else
        json_null(json, "from_jar");
    json_wait(&row->plan.wait, json);
    json_text(json, "clear_with", clearings[row->plan.clearing]);
    json_text(json, "phase", phase_verdict_word(row->plan.phase));
    json_close_object(json);
}

static void json_sites(const struct ladder_answer *answer, struct json *json) {
    json_text(json, "sites_for", answer->sites_of_worked ? answer->worked->id : "next rung");
    json_list(json, "sites");
    for (size_t i = 0; i < answer->site_count; i++) {
        const struct case_passage *passages = answer->inv->casefile->passages.items;
        const struct ladder_site *site = &answer->sites[i];
        json_object(json, NULL);
        json_text(json, "passage", passages[site->passage].id);
        json_text(json, "why", site_kind_words(site->kind));
        json_texts(json, "sensitive", passages[site->passage].sensitive.items, passages[site->passage].sensitive.count);
        json_number(json, "tested_percent", site->done_percent < 0 ? NAN : site->done_percent);
        json_flag(json, "done", site->ready);
        json_number(json, "take_percent", site->ready || site->stopped ? NAN : site->next_percent);
        json_number(json, "site_p_works", answer->site_works[i]);
        json_number(json, "x_mm", site->x_mm);
        json_number(json, "y_mm", site->y_mm);
        json_flag(json, "stopped", site->stopped);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_directions(const struct ladder_answer *answer, struct json *json) {
    json_list(json, "directions");
    for (int k = 0; k < answer->ladder->count; k++) {
        const struct ladder_step *step = &answer->steps[k];
        const struct ladder_direction *direction = &answer->ladder->directions[step->direction];
        json_object(json, NULL);
        json_text(json, "weak", bottle_ref_id(&direction->weak));
        json_text(json, "strong", bottle_ref_id(&direction->strong));
        json_text(json, "direction", ladder_way_words(direction->way));
        double last_percent = step->direction == answer->again ? answer->again_last_percent : direction->last_percent;
        json_number(json, "last_percent", last_percent < 0 ? NAN : last_percent);
        json_number(json, "next_percent", step->rung == LADDER_NONE ? NAN : step->rung * (double)LADDER_STEP_PERCENT);
        json_number(json, "likely_percent",
                    step->likely == LADDER_NONE ? NAN : step->likely * (double)LADDER_STEP_PERCENT);
        json_text(json, "state", ladder_end_words(step->end));
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_materials(const struct material *const *materials, size_t count, const char *key, struct json *json) {
    json_list(json, key);
    for (size_t i = 0; i < count; i++)
        json_text(json, NULL, materials[i]->id);
    json_close_list(json);
}

void write_ladder_json(const struct ladder_answer *answer, struct text *out) {
    struct json json;
    struct noted noted = {0};
    json_begin(&json, out);
    json_text(&json, "series", answer->even ? "even" : "adaptive");
    json_text(&json, "by", belief_view_words[answer->by]);
    json_text(&json, "touches_by", answer->other_plan ? "film and red" : belief_view_words[answer->by]);
    json_text(&json, "scale", ladder_scale_words(answer->by));
    json_materials(answer->goal.remove, answer->goal.remove_count, "remove", &json);
    json_materials(answer->goal.spare, answer->goal.spare_count, "spare", &json);
    json_integer(&json, "tests_learnt", (long long)answer->learnt.count);
    json_text(&json, "worked", answer->worked ? answer->worked->id : NULL);
    json_text(&json, "worked_further", answer->further ? answer->further->id : NULL);
    json_text(&json, "worked_barred", answer->barred ? answer->barred->id : NULL);
    json_flag(&json, "stop", answer->stopped);
    json_number(&json, "contact_s", answer->contact_s);
    json_integer(&json, "rolls", answer->rolls);
    json_number(&json, "touch_most", answer->touch_most);
    json_list(&json, "rungs");
    for (size_t i = 0; i < answer->row_count; i++) {
        json_row(answer, &answer->rows[i], &json);
        noted_add(&noted, &answer->rows[i].plan.blend);
    }
    json_close_list(&json);
    json_list(&json, "other_rungs");
    for (size_t i = 0; i < answer->other_count; i++)
        json_row(answer, &answer->others[i], &json);
    json_close_list(&json);
    json_sites(answer, &json);
    json_directions(answer, &json);
    json_list(&json, "removed_by_filter");
    json_filter_counts(&answer->filters, &json);
    json_close_list(&json);
    json_notes(&noted, &json, "components");
    json_end(&json);
}
