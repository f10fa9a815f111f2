// SPDX-License-Identifier: GPL-3.0-or-later
// The Teas chart of what was learnt: where the middle of each region may lie, before and after, and every test by its
// result.
#include "base/language.h"
#include "cli/learn.h"
#include "cli/page_options.h"
#include "cli/teas_areas.h"
#include "physics/teas.h"
#include "present/chart/teas_chart.h"

#include <math.h>
#include <stdlib.h>

enum { CORNERS = 48 };
static const double held = 0.9;                // share of the belief inside an area
static const double rise = 0.8660254037844386; // height of the triangle

struct drawing {
    const struct learning *learning;
    struct teas_chart_area areas[AREA_STYLES];
    size_t area_count;
    struct teas_chart_point points[TEAS_POINTS_MAX];
    size_t point_count;
};

// --- areas ---

static int ascending(const void *a, const void *b) {
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

// Back from the plane of the chart; what sticks out of the triangle is drawn at its edge.
static void write_corner(double x, double y, double *ret) {
    double fh = fmax(y / rise, 0), fp = fmax(x - y / rise / 2, 0), fd = fmax(1 - x - y / rise / 2, 0);
    double sum = fd + fp + fh;
    ret[0] = 100 * fd / sum, ret[1] = 100 * fp / sum, ret[2] = 100 * fh / sum;
}

struct spread {
    double x, y;       // mean
    double xx, xy, yy; // covariance
    double reach;      // Mahalanobis distance that holds the share
};

static struct spread spread_of(const double *xy, size_t count, double *distances) {
    struct spread s = {0};
    double n = (double)count;
    for (size_t i = 0; i < count; i++)
        s.x += xy[2 * i] / n, s.y += xy[2 * i + 1] / n;
    for (size_t i = 0; i < count; i++) {
        double dx = xy[2 * i] - s.x, dy = xy[2 * i + 1] - s.y;
        s.xx += dx * dx / n, s.xy += dx * dy / n, s.yy += dy * dy / n;
    }
    double determinant = s.xx * s.yy - s.xy * s.xy;
    for (size_t i = 0; i < count; i++) {
        double dx = xy[2 * i] - s.x, dy = xy[2 * i + 1] - s.y;
        distances[i] = sqrt((s.yy * dx * dx - 2 * s.xy * dx * dy + s.xx * dy * dy) / determinant);
    }
    qsort(distances, count, sizeof *distances, ascending);
    s.reach = distances[(size_t)(held * (n - 1))];
    return s;
}

// The ellipse round the mean, in the shape of the draws' spread, that holds 90 % of them.
static double *corners_of(struct arena *arena, const struct belief *belief, size_t material) {
    size_t count = belief_particles(belief);
    double *xy = arena_new(arena, 3 * count, sizeof *xy), *corners = arena_new(arena, 3 * CORNERS, sizeof *corners);
    if (!xy || !corners)
        return NULL;
    for (size_t i = 0; i < count; i++) {
        double draw[BELIEF_PARAMETERS];
        belief_particle(belief, material, i, draw);
        struct hansen centre = {fmax(draw[BELIEF_DELTA_D], 0.1), fmax(draw[BELIEF_DELTA_P], 0),
                                fmax(draw[BELIEF_DELTA_H], 0)};
        teas_xy(teas_of_hansen(centre), &xy[2 * i], &xy[2 * i + 1]);
    }
    struct spread s = spread_of(xy, count, xy + 2 * count);
    double a = sqrt(s.xx), b = s.xy / a, c = sqrt(s.yy - b * b); // Cholesky factor
    for (size_t k = 0; k < CORNERS; k++) {
        double turn = 6.283185307179586 * (double)k / CORNERS, u = s.reach * cos(turn), v = s.reach * sin(turn);
        write_corner(s.x + a * u, s.y + b * u + c * v, corners + 3 * k);
    }
    return corners;
}

static enum status add_area(struct drawing *drawing, const struct belief *belief, size_t material, const char *format,
                            struct error *err) {
    struct arena *arena = drawing->learning->inv->arena;
    if (drawing->area_count == AREA_STYLES)
        return STATUS_OK;
    struct teas_chart_area *area = &drawing->areas[drawing->area_count++];
    const char *id = drawing->learning->views[BELIEF_RED].known
                         ? belief_material(drawing->learning->views[BELIEF_RED].learnt.plan, material)->id
                         : belief_material(drawing->learning->views[BELIEF_FILM].learnt.plan, material)->id;
    *area = (struct teas_chart_area){.name = arena_printf(arena, "%s, %s", id, say(format)),
                                     .corners = corners_of(arena, belief, material),
                                     .corner_count = CORNERS,
                                     .confidence = -1};
    return area->name && area->corners ? STATUS_OK : error_set(err, STATUS_MEMORY, "out of memory");
}

// Both views mostly begin at the same place.
static bool same_start(const struct belief_plan *a, const struct belief_plan *b, size_t material) {
    for (size_t i = 0; i < BELIEF_STRENGTH; i++) {
        struct belief_interval left, right;
        belief_prior(a, material, i, &left);
        belief_prior(b, material, i, &right);
        if (left.mean != right.mean || left.sd != right.sd)
            return false;
    }
    return true;
}

static enum status add_areas_of(struct drawing *drawing, size_t material, struct error *err) {
    static const char *const before[] = {N_("before the tests, by film"), N_("before the tests, by RED")};
    static const char *const after[] = {N_("after the tests, by film"), N_("after the tests, by RED")};
    const struct learn_view *views = drawing->learning->views;
    bool shared = views[BELIEF_FILM].known && views[BELIEF_RED].known &&
                  same_start(views[BELIEF_FILM].learnt.plan, views[BELIEF_RED].learnt.plan, material);
    enum status status = STATUS_OK;
    for (int v = 0; v < LEARN_VIEWS && status == STATUS_OK; v++) {
        if (!views[v].known)
            continue;
        if (!shared || v == BELIEF_FILM)
            status =
                add_area(drawing, views[v].learnt.prior, material, shared ? N_("before the tests") : before[v], err);
        if (status == STATUS_OK && belief_tests(views[v].learnt.belief, material))
            status = add_area(drawing, views[v].learnt.belief, material, after[v], err);
    }
    return status;
}

static enum status add_areas(struct drawing *drawing, struct error *err) {
    const struct learn_view *views = drawing->learning->views;
    const struct belief_case *any = &views[views[BELIEF_RED].known ? BELIEF_RED : BELIEF_FILM].learnt;
    enum status status = STATUS_OK;
    for (size_t i = 0; i < belief_material_count(any->plan) && status == STATUS_OK; i++)
        status = add_areas_of(drawing, i, err);
    return status;
}

// --- tests ---

static enum status add_points(struct drawing *drawing, struct error *err) {
    const struct learning *learning = drawing->learning;
    const struct case_test *tests = learning->file->tests.items;
    for (size_t i = 0; i < learning->file->tests.count && drawing->point_count < TEAS_POINTS_MAX; i++) {
        if (tests[i].withdrawn)
            continue;
        struct teas_chart_point *point = &drawing->points[drawing->point_count++];
        *point = (struct teas_chart_point){
            .kind = teas_kind_of_test(&tests[i]),
            .name = arena_printf(learning->inv->arena, "%s %s: %s%s", tests[i].id, tests[i].blend,
                                 say(result_words[tests[i].result]),
                                 case_test_stops(&tests[i]) ? say(", colour on the swab") : "")};
        if (!point->name)
            return error_set(err, STATUS_MEMORY, "out of memory");
        enum status status = teas_of_blend(&tests[i].mix, TEAS_OF_MEAN_HANSEN, &point->place, NULL, err);
        if (status != STATUS_OK)
            return error_wrap(err, status, "test %s", tests[i].id);
    }
    return STATUS_OK;
}

enum status draw_learn(const struct learning *learning, const char *path, struct error *err) {
    struct drawing *drawing = arena_new(learning->inv->arena, 1, sizeof *drawing);
    if (!drawing)
        return error_set(err, STATUS_MEMORY, "out of memory");
    drawing->learning = learning;
    enum status status = add_areas(drawing, err);
    if (status == STATUS_OK)
        status = add_points(drawing, err);
    struct teas_chart_words words = *teas_chart_words_english();
    for (int kind = 0; kind < TEAS_POINT_KINDS; kind++)
        words.results[kind] = ""; // the names say it more exactly
    struct teas_chart_input input = {.words = &words,
                                     .rule = teas_rule_words(TEAS_OF_MEAN_HANSEN),
                                     .areas = drawing->areas,
                                     .area_count = drawing->area_count,
                                     .points = drawing->points,
                                     .point_count = drawing->point_count};
    if (status == STATUS_OK)
        status = page_options(learning->inv, SHEET_HALF, &input.page, err);
    const char *const captions[] = {say(
        "Areas of doubt: each holds 90 % of the belief where the middle of that region lies, not what dissolves it.")};
    input.page.captions = captions;
    input.page.caption_count = 1;
    if (status == STATUS_OK)
        status = teas_chart_write(&input, path, NULL, err);
    bool too_full = status == STATUS_RANGE && !option_given(learning->inv, "--size");
    if (!too_full)
        return status;
    input.page.sheet = SHEET_FULL; // the legend of many tests needs it
    return teas_chart_write(&input, path, NULL, err);
}
