// SPDX-License-Identifier: GPL-3.0-or-later
// Paths through the triangle.
#include "present/chart/teas_layout_parts.h"

#include <math.h>

static const double head_length = 7.5; // pt of the path from which the arrow takes its direction
static const double head_room = 16;    // pt clear of marks at least, else there is no arrow
static const double mark_radius = 2.6;

struct mark_style teas_path_mark_style(void) {
    return (struct mark_style){MARK_RING, mark_radius, INK_BLACK};
}

static bool has_place(struct teas place) {
    return !isnan(place.fd) && !isnan(place.fp) && !isnan(place.fh);
}

static double distance(struct spot a, struct spot b) {
    return sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

// The spot so far along the path.
static struct spot spot_along(const struct layout_path *path, double length) {
    size_t i = 1;
    while (i + 1 < path->spot_count && distance(path->spots[i - 1], path->spots[i]) < length) {
        length -= distance(path->spots[i - 1], path->spots[i]);
        i++;
    }
    struct spot a = path->spots[i - 1];
    struct spot b = path->spots[i];
    double whole = distance(a, b);
    double share = whole > 0 ? fmin(length / whole, 1) : 0;
    return (struct spot){a.x + share * (b.x - a.x), a.y + share * (b.y - a.y)};
}

// Where the marks lie along the path; returns its length.
static double measure(const struct teas_chart_path *input, const struct layout_path *path, double *ret_marks) {
    double walked = 0;
    size_t spot = 0;
    for (size_t i = 0; i < input->place_count; i++) {
        if (!has_place(input->places[i]))
            continue;
        if (spot > 0)
            walked += distance(path->spots[spot - 1], path->spots[spot]);
        spot++;
        for (size_t k = 0; k < input->mark_count; k++)
            if (input->marks[k].place == i)
                ret_marks[k] = walked;
    }
    return walked;
}

// At the end when no mark is near, else in the middle of the longest stretch between marks.
static void add_head(const struct teas_chart_path *input, struct layout_path *path) {
    double marks[TEAS_PATH_MARKS_MAX] = {0};
    double length = measure(input, path, marks);
    double tip = length;
    double room = length - (input->mark_count ? marks[input->mark_count - 1] : 0);
    bool at_end = room >= head_room;
    for (size_t i = 1; i < input->mark_count && !at_end; i++) {
        if (marks[i] - marks[i - 1] <= room)
            continue;
        room = marks[i] - marks[i - 1];
        tip = (marks[i] + marks[i - 1] + head_length) / 2;
    }
    path->has_head = room >= head_room;
    if (path->has_head)
        path->head = (struct segment){spot_along(path, tip - head_length), spot_along(path, tip)};
}

static bool add_path(struct teas_work *work, size_t index) {
    const struct teas_chart_path *input = &work->input->paths[index];
    struct teas_layout *layout = work->layout;
    struct layout_path *path = &layout->paths[layout->path_count++];
    path->style = index;
    path->spots = arena_new(work->arena, input->place_count, sizeof *path->spots);
    if (!path->spots)
        return false;
    for (size_t i = 0; i < input->place_count; i++)
        if (has_place(input->places[i]))
            path->spots[path->spot_count++] = teas_layout_spot(layout, input->places[i]);
    add_head(input, path);
    return true;
}

static bool add_marks(struct teas_work *work, size_t index) {
    const struct teas_chart_path *input = &work->input->paths[index];
    struct teas_layout *layout = work->layout;
    for (size_t i = 0; i < input->mark_count; i++) {
        struct teas place = input->places[input->marks[i].place];
        if (!has_place(place))
            continue;
        const char *text = text_printable(work->arena, input->marks[i].text);
        if (!text)
            return false;
        layout->marks[layout->mark_count++] = (struct layout_mark){.kind = TEAS_PATH_KIND + (int)index,
                                                                   .style = teas_path_mark_style(),
                                                                   .number = i + 1,
                                                                   .at = teas_layout_spot(layout, place),
                                                                   .text = text,
                                                                   .priority = 1};
    }
    return true;
}

enum status teas_layout_paths(struct teas_work *work, struct error *err) {
    struct teas_layout *layout = work->layout;
    layout->paths = arena_new(work->arena, work->input->path_count, sizeof *layout->paths);
    if (!layout->paths)
        return layout_no_memory(err);
    for (size_t i = 0; i < work->input->path_count; i++)
        if (!add_path(work, i) || !add_marks(work, i))
            return layout_no_memory(err);
    return STATUS_OK;
}
