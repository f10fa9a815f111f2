// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/teas_layout_parts.h"

#include <assert.h>
#include <math.h>

const struct teas_chart_words *teas_chart_words_english(void) {
    static const struct teas_chart_words words = {
        .page = CHART_PAGE_WORDS_ENGLISH,
        .heading = "Teas chart: shares of dispersion forces, polar forces and hydrogen bonding",
        .dispersion = "dispersion forces, %",
        .polar = "polar forces, %",
        .hydrogen_bonding = "hydrogen bonding, %",
        .areas = "Areas (confidence)",
        .bottles = "Bottles",
        .blends = "Blends",
        .tests = "Swab tests",
        .paths = "Paths",
        .results = {"", "", "no effect", "softened or partly removed", "removed", "colour on the swab"},
        .confidences = {"low", "medium", "high"},
        .rule = "Mixing rule",
        .computed = "computed from Hansen parameters, no published fractions",
        .computed_mark = "*",
        .unlabelled = "In the legend only, no room in the chart:",
        .purpose = "This chart plots tests, does not prove safety.",
        .purpose_untested = "This chart shows where liquids lie, does not prove safety.",
    };
    return &words;
}

// --- what may go in ---

// Published fractions are whole numbers, so their sum may miss 100 by the rounding of three of them.
static const double sum_slack = 1.0;
static const double below_zero_slack = 0.01;

static bool in_triangle(struct teas place) {
    return fabs(place.fd + place.fp + place.fh - 100) <= sum_slack && place.fd >= -below_zero_slack &&
           place.fp >= -below_zero_slack && place.fh >= -below_zero_slack;
}

static enum status check_area(const struct teas_chart_area *area, struct error *err) {
    const char *name = area->name ? area->name : "";
    if (area->corner_count < 3 || area->corner_count > TEAS_CORNERS_MAX)
        return error_set(err, STATUS_RANGE, "area '%s' has %zu corners; an area on the chart has 3 to %d", name,
                         area->corner_count, TEAS_CORNERS_MAX);
    for (size_t i = 0; i < area->corner_count; i++) {
        const double *row = area->corners + 3 * i;
        if (!in_triangle((struct teas){row[0], row[1], row[2]}))
            return error_set(err, STATUS_RANGE,
                             "area '%s', corner %zu (%g, %g, %g) is not in the triangle; fd, fp and fh are percentages "
                             "of sum 100",
                             name, i + 1, row[0], row[1], row[2]);
    }
    return STATUS_OK;
}

static enum status check_point(const struct teas_chart_input *input, size_t number, struct error *err) {
    const struct teas_chart_point *point = &input->points[number];
    assert(point->kind < TEAS_POINT_KINDS);
    for (size_t i = 0; i < point->part_count; i++)
        assert(point->parts[i] < input->point_count);
    if (in_triangle(point->place))
        return STATUS_OK;
    return error_set(err, STATUS_RANGE,
                     "'%s' (%g, %g, %g) is not in the triangle; fd, fp and fh are percentages of sum 100",
                     point->name ? point->name : "", point->place.fd, point->place.fp, point->place.fh);
}

static bool has_place(struct teas place) {
    return !isnan(place.fd) && !isnan(place.fp) && !isnan(place.fh);
}

static enum status check_path(const struct teas_chart_path *path, struct error *err) {
    const char *name = path->name ? path->name : "";
    if (path->place_count > TEAS_PLACES_MAX || path->mark_count > TEAS_PATH_MARKS_MAX)
        return error_set(err, STATUS_RANGE, "path '%s' has %zu places and %zu marks; at most %d and %d are possible",
                         name, path->place_count, path->mark_count, TEAS_PLACES_MAX, TEAS_PATH_MARKS_MAX);
    for (size_t i = 0; i < path->mark_count; i++)
        assert(path->marks[i].place < path->place_count);
    for (size_t i = 0; i < path->place_count; i++) {
        struct teas place = path->places[i];
        if (has_place(place) && !in_triangle(place))
            return error_set(err, STATUS_RANGE,
                             "path '%s', place %zu (%g, %g, %g) is not in the triangle; fd, fp and fh are percentages "
                             "of sum 100",
                             name, i + 1, place.fd, place.fp, place.fh);
    }
    return STATUS_OK;
}

static enum status check_counts(const struct teas_chart_input *input, struct error *err) {
    if (input->area_count > AREA_STYLES)
        return error_set(err, STATUS_RANGE, "%zu areas; one chart holds at most %d, because each needs a letter",
                         input->area_count, AREA_STYLES);
    if (input->point_count > TEAS_POINTS_MAX)
        return error_set(err, STATUS_RANGE, "%zu points; one chart holds at most %d", input->point_count,
                         TEAS_POINTS_MAX);
    if (input->path_count > TEAS_PATHS_MAX)
        return error_set(err, STATUS_RANGE, "%zu paths; one chart holds at most %d", input->path_count, TEAS_PATHS_MAX);
    return chart_page_check(&input->page, err);
}

static enum status check_input(const struct teas_chart_input *input, struct error *err) {
    enum status status = check_counts(input, err);
    for (size_t i = 0; status == STATUS_OK && i < input->area_count; i++)
        status = check_area(&input->areas[i], err);
    for (size_t i = 0; status == STATUS_OK && i < input->point_count; i++)
        status = check_point(input, i, err);
    for (size_t i = 0; status == STATUS_OK && i < input->path_count; i++)
        status = check_path(&input->paths[i], err);
    return status;
}

// --- the steps ---

// Numbers run through the kinds in their order, so that the legend counts upwards.
static bool number_points(struct teas_work *work) {
    const struct teas_chart_input *input = work->input;
    work->order = arena_new(work->arena, input->point_count, sizeof *work->order);
    if (!work->order)
        return false;
    size_t number = 0;
    for (int kind = 0; kind < TEAS_POINT_KINDS; kind++)
        for (size_t i = 0; i < input->point_count; i++)
            if ((int)input->points[i].kind == kind)
                work->order[number++] = i;
    return true;
}

static const struct teas_sizes full_sizes = {.axis = 9.5, .scale = 8, .label = 8.5, .smallest_side = 230};
static const struct teas_sizes half_sizes = {.axis = 8.5, .scale = 7, .label = 8, .smallest_side = 190};

// One try with the room for `note` kept in the caption. The layout owns all memory, also of earlier tries.
static enum status lay_out(struct teas_work *work, struct error *err) {
    struct teas_layout fresh = {.arena = work->layout->arena};
    page_layout_begin(&work->input->page, &fresh.page);
    *work->layout = fresh;
    enum status status = teas_layout_frame(work, err);
    if (status == STATUS_OK)
        status = teas_layout_scale(work, err);
    if (status == STATUS_OK)
        status = teas_layout_marks(work, err);
    if (status == STATUS_OK)
        status = teas_layout_paths(work, err);
    if (status == STATUS_OK)
        status = teas_layout_labels(work, err);
    return status;
}

// Naming the labels without room takes room itself, so the layout is made again with it until the list fits there.
static enum status lay_out_with_note(struct teas_work *work, struct error *err) {
    enum { TRIES = 4 };
    enum status status = lay_out(work, err);
    for (int i = 0; i < TRIES && status == STATUS_OK; i++) {
        work->note = teas_layout_unlabelled(work);
        if (!work->note)
            return layout_no_memory(err);
        double before = work->page.caption_top;
        if (!teas_layout_caption(work))
            return layout_no_memory(err);
        if (work->page.caption_top >=
            before) // a caption that shrinks leaves its room empty, else the two might take turns
            return STATUS_OK;
        status = lay_out(work, err);
    }
    return status;
}

enum status teas_layout_make(const struct teas_chart_input *input, const struct text_metric *metric,
                             struct teas_layout *ret, struct error *err) {
    enum status status = check_input(input, err);
    if (status != STATUS_OK)
        return status;
    struct teas_layout layout = {0};
    const struct teas_chart_words *words = input->words ? input->words : teas_chart_words_english();
    struct teas_work work = {.page = {.page = &input->page,
                                      .words = &words->page,
                                      .metric = metric,
                                      .sizes = page_sizes_of(input->page.sheet),
                                      .arena = &layout.arena,
                                      .layout = &layout.page},
                             .input = input,
                             .words = words,
                             .metric = metric,
                             .sizes = input->page.sheet == SHEET_FULL ? &full_sizes : &half_sizes,
                             .arena = &layout.arena,
                             .layout = &layout};
    status = number_points(&work) ? lay_out_with_note(&work, err) : layout_no_memory(err);
    if (status != STATUS_OK) {
        teas_layout_release(&layout);
        return status;
    }
    *ret = layout;
    return STATUS_OK;
}

void teas_layout_release(struct teas_layout *layout) {
    if (!layout)
        return;
    arena_release(&layout->arena);
    *layout = (struct teas_layout){0};
}
