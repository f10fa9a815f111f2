// SPDX-License-Identifier: GPL-3.0-or-later
// replace, for programs.
#include "cli/replace.h"

#include "cli/gentlest.h"
#include "cli/notes.h"
#include "physics/film_band.h"

#include <math.h>
#include <stdint.h>

static void json_notation(struct json *json, const char *key, const struct blend *blend) {
    struct text notation = {0};
    blend_write(blend, &notation);
    json_text(json, key, text_bytes(&notation));
    text_release(&notation);
}

static void json_place(struct json *json, const char *key, struct hansen place) {
    json_object(json, key);
    json_number(json, "delta_d", place.delta_d);
    json_number(json, "delta_p", place.delta_p);
    json_number(json, "delta_h", place.delta_h);
    json_close_object(json);
}

static void json_air(const struct air_index *air, struct json *json) {
    static const char *const verdicts[] = {"within", "over", "cannot-be-judged"};
    if (!air->authority) {
        json_null(json, "air");
        return;
    }
    json_object(json, "air");
    json_number(json, "index", air->index);
    json_flag(json, "index_complete", air->complete);
    json_text(json, "limits", air->authority->id);
    json_text(json, "verdict", verdicts[air->verdict]);
    json_close_object(json);
}

static void json_film(const struct portrait *portrait, struct json *json) {
    json_object(json, "film");
    json_text(json, "material", portrait->spared ? portrait->spared->id : NULL);
    json_text(json, "swelling_status", film_outcome_word(portrait->film));
    json_number(json, "swelling", portrait->swelling);
    json_object(json, "inside");
    for (size_t i = 0; i < portrait->blend.count && portrait->film == FILM_BOUNDED; i++)
        json_number(json, portrait->blend.components[i]->id, portrait->inside[i]);
    json_close_object(json);
    json_close_object(json);
}

static void json_drying(const struct portrait *portrait, struct json *json) {
    json_object(json, "drying");
    json_number(json, "time_90", portrait->time_90);
    json_number(json, "time_95", portrait->time_95);
    json_place(json, "tail_place", portrait->tail);
    json_text(json, "last", portrait->last ? portrait->last->id : NULL);
    json_number(json, "last_percent_of_tail", portrait->last ? 100 * portrait->last_share : NAN);
    json_text(json, "residue", retention_words(portrait->residue));
    json_close_object(json);
}

static void json_classes(struct json *json, const char *key, unsigned classes) {
    json_list(json, key);
    for (int i = 0; hazard_class_words[i]; i++)
        if (classes & 1u << i)
            json_text(json, NULL, hazard_class_words[i]);
    json_close_list(json);
}

static void json_hazard(const struct portrait *portrait, struct json *json) {
    json_object(json, "hazard");
    json_text(json, "health", health_burden_words(portrait->burden));
    json_classes(json, "classes", portrait->classes);
    json_list(json, "unknown");
    for (size_t i = 0; i < portrait->blend.count; i++)
        if (!component_hazards_known(portrait->blend.components[i]))
            json_text(json, NULL, portrait->blend.components[i]->id);
    json_close_list(json);
    json_list(json, "vapour");
    for (size_t i = 0; i < portrait->hazard_count; i++) {
        const struct vapour_hazard *hazard = &portrait->hazards[i];
        json_object(json, NULL);
        json_text(json, "limits", hazard->authority->id);
        json_number(json, "vapour_hazard_ratio", hazard->ratio);
        json_flag(json, "complete", hazard->complete);
        json_text(json, "without_limit", hazard->unknown ? hazard->unknown->id : NULL);
        json_text(json, "largest_part", hazard->largest ? hazard->largest->id : NULL);
        json_close_object(json);
    }
    json_close_list(json);
    json_close_object(json);
}

static void json_portrait(const struct portrait *portrait, struct json *json) {
    json_place(json, "hansen", portrait->hansen);
    json_teas(json, "teas", &portrait->teas);
    json_drying(portrait, json);
    json_film(portrait, json);
    json_number(json, "red_remove", portrait->red_remove);
    if (portrait->dissolves_judged)
        json_flag(json, "dissolves", portrait->dissolves);
    else
        json_null(json, "dissolves");
    json_text(json, "phase", phase_verdict_word(portrait->phase));
    json_number(json, "flash_point_c", portrait->flash_point_c);
    json_text(json, "flammability_statement", ghs_flammable_statement(portrait->flammable));
    json_hazard(portrait, json);
    json_air(&portrait->air, json);
}

static void json_likeness(const struct portrait *new, const struct likeness *like, struct json *json) {
    json_number(json, "ra_mpa05", like->ra);
    json_number(json, "ra_uncertainty_mpa05", like->ra_uncertainty);
    json_number(json, "triangle_percent", like->triangle);
    json_flag(json, "triangle_misleads", like->triangle > MISLEADING_TRIANGLE);
    json_number(json, "drying_time_ratio", like->speed);
    json_number(json, "path_ra_mpa05", like->path_ra);
    json_integer(json, "path_gone_percent", like->path_gone);
    json_number(json, "tail_ra_mpa05", like->tail_ra);
    json_number(json, "swelling_ratio", like->swelling);
    json_number(json, "inside_ra_mpa05", like->inside_ra);
    json_number(json, "vapour_hazard_change", like->hazard);
    json_text(json, "vapour_hazard_limits", like->hazard_set < 0 ? NULL : new->hazards[like->hazard_set].authority->id);
    json_number(json, "index_change", like->index);
    json_classes(json, "classes_gone", like->classes_gone);
    json_classes(json, "classes_new", like->classes_new);
    json_object(json, "respects");
    for (int i = 0; i < RESPECTS; i++)
        json_text(json, respect_words[i], match_words[like->match[i]]);
    json_close_object(json);
    json_integer(json, "speaks_against", like->against);
}

static void json_row(const struct replacing *replacing, size_t i, struct json *json) {
    const struct replacement_row *row = &replacing->found.rows[i];
    json_object(json, NULL);
    json_integer(json, "rank", (long long)i + 1);
    json_notation(json, "recipe", &row->portrait.blend);
    json_likeness(&row->portrait, &row->like, json);
    json_portrait(&row->portrait, json);
    json_list(json, "newly_touches");
    for (size_t k = 0; k < replacing->sensitive.count; k++)
        if (newly_touched(replacing, row, replacing->sensitive.items[k].sensitivity))
            json_text(json, NULL, replacing->sensitive.items[k].sensitivity->id);
    json_close_list(json);
    json_integer(json, "similar_sets", (long long)row->similar);
    json_close_object(json);
}

static void json_decoys(const struct replacing *replacing, struct json *json) {
    json_list(json, "near_on_triangle_only");
    for (size_t i = 0; i < replacing->found.decoy_count; i++) {
        const struct replacement_decoy *decoy = &replacing->found.decoys[i];
        json_object(json, NULL);
        json_notation(json, "recipe", &decoy->blend);
        json_number(json, "triangle_percent", decoy->triangle);
        json_number(json, "ra_mpa05", decoy->ra);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_original(const struct replacing *replacing, struct json *json) {
    json_object(json, "original");
    json_notation(json, "recipe", &replacing->original);
    json_portrait(&replacing->found.original, json);
    json_close_object(json);
    json_text(json, "bottle",
              replacing->request.bottle == SIZE_MAX
                  ? NULL
                  : bottle_ref_id(&replacing->original.parts[replacing->request.bottle].bottle));
}

static void json_nearest(const struct replacing *replacing, struct json *json) {
    if (replacing->found.nearest.count == 0) {
        json_null(json, "nearest");
        return;
    }
    json_object(json, "nearest");
    json_notation(json, "recipe", &replacing->found.nearest_blend);
    json_number(json, "ra_mpa05", replacing->found.nearest_ra);
    json_close_object(json);
}

static void json_search(const struct replacing *replacing, struct json *json) {
    const struct replacement *found = &replacing->found;
    json_list(json, "removed_by_filter");
    json_filter_counts(&replacing->filters, json);
    json_close_list(json);
    json_integer(json, "bottles", (long long)replacing->goal.bottle_count);
    json_number(json, "blends_on_grid", found->blends);
    json_number(json, "evaluated", found->evaluated);
    json_flag(json, "proved", found->proved);
    json_integer(json, "sets_within", (long long)found->within);
    json_flag(json, "sets_cut", found->cut);
    json_integer(json, "sets_compared", (long long)found->portrayed);
    json_integer(json, "two_liquids", (long long)found->split);
    json_integer(json, "rows", (long long)found->listed);
}

void json_replacements(const struct replacing *replacing, struct text *out) {
    struct noted noted = {0};
    struct json json;
    json_begin(&json, out);
    json_original(replacing, &json);
    json_number(&json, "within_mpa05", replacing->request.within);
    json_list(&json, "replacements");
    for (size_t i = 0; i < replacing->found.count; i++) {
        json_row(replacing, i, &json);
        noted_add(&noted, &replacing->found.rows[i].portrait.blend);
    }
    json_close_list(&json);
    json_nearest(replacing, &json);
    json_decoys(replacing, &json);
    json_search(replacing, &json);
    json_notes(&noted, &json, "components");
    if (option_given(replacing->inv, "--chart"))
        json_text(&json, "chart", option_value(replacing->inv, "--chart"));
    json_end(&json);
}
