// SPDX-License-Identifier: GPL-3.0-or-later
// What the chart shows: areas, points, lines between the bottles of a blend.
#include "present/chart/teas_layout_parts.h"

#include <assert.h>

static bool add_areas(struct teas_work *work) {
    const struct teas_chart_input *input = work->input;
    struct teas_layout *layout = work->layout;
    layout->areas = arena_new(work->arena, input->area_count, sizeof *layout->areas);
    if (!layout->areas)
        return false;
    layout->area_count = input->area_count;
    for (size_t i = 0; i < input->area_count; i++) {
        struct layout_area *area = &layout->areas[i];
        area->style = i;
        area->corner_count = input->areas[i].corner_count;
        area->corners = arena_new(work->arena, area->corner_count, sizeof *area->corners);
        if (!area->corners)
            return false;
        for (size_t c = 0; c < area->corner_count; c++) {
            const double *row = input->areas[i].corners + 3 * c;
            area->corners[c] = teas_layout_spot(layout, (struct teas){row[0], row[1], row[2]});
        }
        if (!area_hatch(work->arena, i, area->corners, area->corner_count, HATCH_DEPTH, &area->hatch))
            return false;
    }
    return true;
}

// Large marks first, so that the small ones stay visible on top.
static const enum teas_point_kind drawing_order[TEAS_POINT_KINDS] = {
    TEAS_POINT_BLEND,        TEAS_POINT_TEST_NONE, TEAS_POINT_TEST_PARTLY,
    TEAS_POINT_TEST_REMOVED, TEAS_POINT_TEST_STOP, TEAS_POINT_BOTTLE,
};

enum { NAMES_MAX = 12 }; // with more points than that, the names stand in the legend only

static bool add_mark(struct teas_work *work, size_t number) {
    const struct teas_chart_point *point = &work->input->points[work->order[number - 1]];
    struct teas_layout *layout = work->layout;
    struct layout_mark *mark = &layout->marks[layout->mark_count++];
    *mark = (struct layout_mark){.kind = (int)point->kind,
                                 .style = teas_mark_style(point->kind),
                                 .number = number,
                                 .at = teas_layout_spot(layout, point->place),
                                 .priority = point->kind == TEAS_POINT_BOTTLE ? 0 : 1};
    if (work->input->point_count <= NAMES_MAX)
        mark->name = text_printable(work->arena, point->name);
    return mark->name || work->input->point_count > NAMES_MAX;
}

static bool add_marks(struct teas_work *work) {
    const struct teas_chart_input *input = work->input;
    struct teas_layout *layout = work->layout;
    size_t most = input->point_count;
    for (size_t i = 0; i < input->path_count; i++)
        most += input->paths[i].mark_count;
    layout->marks = arena_new(work->arena, most, sizeof *layout->marks);
    if (!layout->marks)
        return false;
    for (int k = 0; k < TEAS_POINT_KINDS; k++) {
        for (size_t number = 1; number <= input->point_count; number++) {
            bool now = input->points[work->order[number - 1]].kind == drawing_order[k];
            if (now && !add_mark(work, number))
                return false;
        }
    }
    return true;
}

static bool same_segment(struct segment a, struct segment b) {
    bool forth = a.from.x == b.from.x && a.from.y == b.from.y && a.to.x == b.to.x && a.to.y == b.to.y;
    bool back = a.from.x == b.to.x && a.from.y == b.to.y && a.to.x == b.from.x && a.to.y == b.from.y;
    return forth || back;
}

static bool add_link(struct teas_work *work, struct spot from, struct spot to) {
    struct segment_list *links = &work->layout->links;
    struct segment link = {from, to};
    for (size_t i = 0; i < links->count; i++)
        if (same_segment(links->items[i], link))
            return true;
    return segment_list_add(work->arena, links, link);
}

// Two bottles: the line on which all their blends lie. Three: the triangle that holds them. More would hide the chart,
// so each is joined to the blend.
static bool add_links_of(struct teas_work *work, const struct teas_chart_point *blend) {
    const struct teas_chart_point *points = work->input->points;
    struct spot centre = teas_layout_spot(work->layout, blend->place);
    for (size_t i = 0; i < blend->part_count; i++) {
        struct spot from = teas_layout_spot(work->layout, points[blend->parts[i]].place);
        if (blend->part_count > 3) {
            if (!add_link(work, from, centre))
                return false;
            continue;
        }
        for (size_t j = i + 1; j < blend->part_count; j++)
            if (!add_link(work, from, teas_layout_spot(work->layout, points[blend->parts[j]].place)))
                return false;
    }
    return true;
}

static bool add_links(struct teas_work *work) {
    for (size_t i = 0; i < work->input->point_count; i++)
        if (!add_links_of(work, &work->input->points[i]))
            return false;
    return true;
}

enum status teas_layout_marks(struct teas_work *work, struct error *err) {
    bool done = add_areas(work) && add_marks(work) && add_links(work);
    return done ? STATUS_OK : layout_no_memory(err);
}

struct mark_style teas_mark_style(enum teas_point_kind kind) {
    static const struct mark_style styles[TEAS_POINT_KINDS] = {
        [TEAS_POINT_BOTTLE] = {MARK_DISC, 2.4, INK_BLACK},
        [TEAS_POINT_BLEND] = {MARK_DIAMOND, 5.2, INK_RUST},
        [TEAS_POINT_TEST_NONE] = {MARK_SQUARE_EMPTY, 3.2, INK_BLUE},
        [TEAS_POINT_TEST_PARTLY] = {MARK_SQUARE_HALF, 3.2, INK_BLUE},
        [TEAS_POINT_TEST_REMOVED] = {MARK_SQUARE_FULL, 3.2, INK_BLUE},
        [TEAS_POINT_TEST_STOP] = {MARK_SQUARE_CROSSED, 3.6, INK_RUST},
    };
    assert(kind < TEAS_POINT_KINDS);
    return styles[kind];
}
