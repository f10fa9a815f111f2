// SPDX-License-Identifier: GPL-3.0-or-later
// Hatch lines lie inside their polygon and no deeper than the band.
#include "present/chart/hatch.h"
#include "suite.h"

#include <check.h>
#include <math.h>

static struct arena arena;

static void end(void) {
    arena_release(&arena);
}

static const struct spot square[] = {{0, 0}, {40, 0}, {40, 40}, {0, 40}};
static const struct spot hook[] = {{0, 0}, {60, 0}, {60, 20}, {20, 20}, {20, 60}, {0, 60}}; // not convex

static double length_of(const struct segment_list *list) {
    double sum = 0;
    for (size_t i = 0; i < list->count; i++)
        sum += hypot(list->items[i].to.x - list->items[i].from.x, list->items[i].to.y - list->items[i].from.y);
    return sum;
}

START_TEST(a_deep_band_fills_the_square) {
    struct segment_list list = {0};
    ck_assert(hatch_polygon(&arena, square, 4, 1, 0, 5, 1000, &list));
    // Level lines at 0, 5, ... 35: the upper edge belongs to the polygon, the lower one to what follows.
    ck_assert_uint_eq(list.count, 8);
    ck_assert_double_eq_tol(length_of(&list), 8 * 40, 1e-9);
}
END_TEST

START_TEST(a_band_leaves_the_middle_free) {
    struct segment_list list = {0};
    ck_assert(hatch_polygon(&arena, square, 4, 1, 0, 5, 7, &list));
    // Lines at 0, 5 and 35 are within 7 of an edge over their whole length; 10 to 30 only 7 at each end.
    ck_assert_uint_eq(list.count, 3 + 5 * 2);
    ck_assert_double_eq_tol(length_of(&list), 3 * 40 + 5 * 2 * 7, 1e-9);
}
END_TEST

START_TEST(lines_stay_inside_and_near_the_outline) {
    const double d = sqrt(0.5);
    struct segment_list list = {0};
    ck_assert(hatch_polygon(&arena, hook, 6, d, -d, 3, 6, &list));
    ck_assert_uint_gt(list.count, 10);
    for (size_t i = 0; i < list.count; i++) {
        for (int k = 1; k < 10; k++) {
            double share = k / 10.0;
            struct spot p = {list.items[i].from.x + share * (list.items[i].to.x - list.items[i].from.x),
                             list.items[i].from.y + share * (list.items[i].to.y - list.items[i].from.y)};
            ck_assert(polygon_contains(hook, 6, p));
            ck_assert_double_le(polygon_distance(hook, 6, p), 6 + 1e-9);
        }
    }
}
END_TEST

// Every point of the band that lies on a hatch line is covered: compared with the definition, point by point.
START_TEST(no_part_of_the_band_is_missing) {
    const double d = sqrt(0.5);
    struct segment_list list = {0};
    ck_assert(hatch_polygon(&arena, hook, 6, d, d, 4, 5, &list));
    int inside_band = 0;
    for (int line = -20; line < 40; line++) {
        for (double t = -50; t < 120; t += 0.77) {
            struct spot p = {t * d - line * 4 * d, t * d + line * 4 * d};
            double depth = polygon_distance(hook, 6, p);
            if (!polygon_contains(hook, 6, p) || depth > 4.9 || depth < 0.4)
                continue;
            inside_band++;
            double nearest = INFINITY;
            for (size_t i = 0; i < list.count; i++)
                nearest = fmin(nearest, segment_distance(list.items[i], p));
            ck_assert_double_lt(nearest, 1e-6);
        }
    }
    ck_assert_int_gt(inside_band, 200);
}
END_TEST

START_TEST(a_polygon_without_surface_has_no_hatch) {
    const struct spot flat[] = {{1, 1}, {9, 1}, {5, 1}};
    struct segment_list list = {0};
    ck_assert(hatch_polygon(&arena, flat, 3, 0, 1, 2, 5, &list));
    ck_assert_uint_eq(list.count, 0);
    const struct spot point[] = {{3, 3}, {3, 3}, {3, 3}};
    ck_assert(hatch_polygon(&arena, point, 3, 0, 1, 2, 5, &list));
    ck_assert_uint_eq(list.count, 0);
}
END_TEST

START_TEST(crossing_and_distance) {
    ck_assert(segments_cross((struct segment){{0, 0}, {2, 2}}, (struct segment){{0, 2}, {2, 0}}));
    ck_assert(!segments_cross((struct segment){{0, 0}, {2, 2}}, (struct segment){{3, 0}, {5, 1}}));
    ck_assert_double_eq_tol(segment_distance((struct segment){{0, 0}, {4, 0}}, (struct spot){2, 3}), 3, 1e-12);
    ck_assert_double_eq_tol(segment_distance((struct segment){{0, 0}, {4, 0}}, (struct spot){7, 4}), 5, 1e-12);
    ck_assert_double_eq_tol(segment_distance((struct segment){{1, 1}, {1, 1}}, (struct spot){4, 5}), 5, 1e-12);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("hatch");
    TCase *tests = tcase_create("hatch");
    tcase_add_checked_fixture(tests, NULL, end);
    tcase_add_test(tests, a_deep_band_fills_the_square);
    tcase_add_test(tests, a_band_leaves_the_middle_free);
    tcase_add_test(tests, lines_stay_inside_and_near_the_outline);
    tcase_add_test(tests, no_part_of_the_band_is_missing);
    tcase_add_test(tests, a_polygon_without_surface_has_no_hatch);
    tcase_add_test(tests, crossing_and_distance);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
