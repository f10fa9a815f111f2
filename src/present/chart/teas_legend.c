// SPDX-License-Identifier: GPL-3.0-or-later
// What stands in the legend of the Teas chart.
#include "base/language.h"
#include "present/chart/teas_layout_parts.h"

// Items while they are listed.
struct listing {
    struct teas_work *work;
    struct legend_item *items;
    size_t count;
};

static void add_heading(struct listing *listing, const char *text) {
    listing->items[listing->count++] = (struct legend_item){.symbol = LEGEND_HEADING, .number = "", .text = text};
}

static void add_areas(struct listing *listing) {
    const struct teas_chart_input *input = listing->work->input;
    const struct teas_chart_words *words = listing->work->words;
    struct arena *arena = listing->work->arena;
    if (input->area_count)
        add_heading(listing, say(words->areas));
    for (size_t i = 0; i < input->area_count; i++) {
        const struct teas_chart_area *area = &input->areas[i];
        bool stated = area->confidence >= 0 && area->confidence < TEAS_CONFIDENCES;
        const char *name = arena_printf(arena, "%s%s%s%s", area->name ? area->name : "", stated ? " (" : "",
                                        stated ? say(words->confidences[area->confidence]) : "", stated ? ")" : "");
        listing->items[listing->count++] = (struct legend_item){
            .symbol = LEGEND_AREA, .style = i, .number = arena_printf(arena, "%c", 'A' + (char)i), .text = name};
    }
}

static const char *heading_of(const struct teas_chart_words *words, enum teas_point_kind kind) {
    if (kind == TEAS_POINT_BOTTLE)
        return say(words->bottles);
    return kind == TEAS_POINT_BLEND ? say(words->blends) : say(words->tests);
}

// Name, mark of computed values, result: "T4 propan-2-ol 20 + isooctane 80 *: softened or partly removed".
static const char *point_name(struct teas_work *work, const struct teas_chart_point *point) {
    const char *result = say(work->words->results[point->kind]);
    return arena_printf(work->arena, "%s%s%s%s%s", point->name ? point->name : "", point->computed ? "\u00A0" : "",
                        point->computed ? work->words->computed_mark : "", result[0] ? ": " : "", result);
}

static void add_points(struct listing *listing) {
    struct teas_work *work = listing->work;
    const char *heading = NULL;
    for (size_t number = 1; number <= work->input->point_count; number++) {
        const struct teas_chart_point *point = &work->input->points[work->order[number - 1]];
        const char *own = heading_of(work->words, point->kind);
        if (own != heading)
            add_heading(listing, own);
        heading = own;
        listing->items[listing->count++] = (struct legend_item){.symbol = LEGEND_POINT,
                                                                .mark = teas_mark_style(point->kind),
                                                                .number = arena_printf(work->arena, "%zu", number),
                                                                .text = point_name(work, point)};
    }
}

static void add_paths(struct listing *listing) {
    const struct teas_chart_input *input = listing->work->input;
    if (input->path_count)
        add_heading(listing, say(listing->work->words->paths));
    for (size_t i = 0; i < input->path_count; i++)
        listing->items[listing->count++] =
            (struct legend_item){.symbol = LEGEND_PATH,
                                 .style = i,
                                 .mark = teas_path_mark_style(),
                                 .number = "",
                                 .text = input->paths[i].name ? input->paths[i].name : ""};
}

struct legend_item *teas_legend_items(struct teas_work *work, size_t *ret_count) {
    size_t most = work->input->area_count + work->input->point_count + work->input->path_count + TEAS_POINT_KINDS + 2;
    struct listing listing = {work, arena_new(work->arena, most, sizeof *listing.items), 0};
    if (!listing.items)
        return NULL;
    add_areas(&listing);
    add_points(&listing);
    add_paths(&listing);
    *ret_count = listing.count;
    return listing.items;
}
