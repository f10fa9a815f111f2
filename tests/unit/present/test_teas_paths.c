// SPDX-License-Identifier: GPL-3.0-or-later
// Paths on the Teas chart: lines of their own dashes, marks with texts, nothing mixed up with the points.
#include "chart_asserts.h"
#include "charts.h"
#include "graphs.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { PLACES = 40 };

static struct chart_case chart;
static struct teas places[TEAS_PATHS_MAX][PLACES];
static struct teas_path_mark marks[TEAS_PATH_MARKS_MAX];
static char texts[TEAS_PATH_MARKS_MAX][8];
static struct teas_chart_path paths[TEAS_PATHS_MAX + 1];
static struct teas_layout layout;
static struct text_metric metric;
static struct error err;

// From near pure dispersion into the middle, side by side.
static void begin(void) {
    metric = metric_fixed();
    error_clear(&err);
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    for (size_t i = 0; i < TEAS_PATHS_MAX; i++) {
        for (size_t k = 0; k < PLACES; k++) {
            double fp = 2 + (double)i + 0.5 * (double)k;
            double fh = 3 + 4 * (double)i + 0.4 * (double)k;
            places[i][k] = (struct teas){100 - fp - fh, fp, fh};
        }
        paths[i] = (struct teas_chart_path){"a way", places[i], PLACES, marks, 2};
    }
    for (size_t i = 0; i < TEAS_PATH_MARKS_MAX; i++) {
        snprintf(texts[i], sizeof texts[i], "%zu", i);
        marks[i] = (struct teas_path_mark){i == 1 ? PLACES - 1 : i, texts[i]};
    }
    chart.input.paths = paths;
    chart.input.path_count = TEAS_PATHS_MAX;
}

static void end(void) {
    teas_layout_release(&layout);
}

static enum status lay_out(void) {
    return teas_layout_make(&chart.input, &metric, &layout, &err);
}

static void make(void) {
    ck_assert_msg(lay_out() == STATUS_OK, "%s", err.text);
}

START_TEST(paths_differ_in_dashes_and_stand_in_the_legend) {
    make();
    ck_assert_uint_eq(layout.path_count, TEAS_PATHS_MAX);
    size_t in_legend = 0;
    for (size_t i = 0; i < layout.entry_count; i++)
        in_legend += layout.entries[i].symbol == LEGEND_PATH;
    ck_assert_uint_eq(in_legend, TEAS_PATHS_MAX);
    for (size_t i = 0; i < TEAS_PATHS_MAX; i++)
        ck_assert_uint_eq(layout.paths[i].style, i);
}
END_TEST

START_TEST(marks_of_paths_are_no_points) {
    make();
    ck_assert_uint_eq(layout.mark_count, chart.input.point_count + 2 * TEAS_PATHS_MAX);
    for (size_t i = 0; i < layout.label_count; i++) {
        ck_assert(layout.labels[i].placed);
        ck_assert_uint_eq(layout.labels[i].number_count, 1);
    }
    ck_assert_uint_eq(layout.unlabelled_count, 0);
}
END_TEST

START_TEST(labels_keep_clear_of_each_other) {
    make();
    for (size_t i = 0; i < layout.label_count; i++) {
        for (size_t j = i + 1; j < layout.label_count; j++)
            ck_assert(!boxes_overlap(layout.labels[i].box, layout.labels[j].box));
        for (size_t k = 0; k < layout.mark_count; k++)
            ck_assert(
                !box_meets_disc(layout.labels[i].box, (struct disc){layout.marks[k].at, layout.marks[k].style.radius}));
    }
}
END_TEST

START_TEST(marks_without_room_are_named_in_brackets) {
    for (size_t i = 0; i < TEAS_PATHS_MAX; i++) {
        paths[i].mark_count = TEAS_PATH_MARKS_MAX;
        for (size_t k = 0; k < PLACES; k++) { // a knot
            double fp = 20 + 0.02 * (double)k + 0.3 * (double)i;
            places[i][k] = (struct teas){80 - fp, fp, 20};
        }
    }
    chart.input.page.sheet = SHEET_HALF;
    make();
    if (layout.unlabelled_count > 0)
        ck_assert(caption_has(&layout.page, "("));
    size_t placed = 0;
    for (size_t i = 0; i < layout.label_count; i++)
        placed += layout.labels[i].placed;
    ck_assert_uint_eq(placed + layout.unlabelled_count, layout.label_count);
}
END_TEST

START_TEST(a_path_of_one_place_is_a_mark) {
    paths[0].place_count = 1;
    paths[0].mark_count = 1;
    chart.input.path_count = 1;
    make();
    ck_assert_uint_eq(layout.paths[0].spot_count, 1);
    ck_assert(!layout.paths[0].has_head);
    ck_assert_uint_eq(layout.mark_count, chart.input.point_count + 1);
}
END_TEST

static void assert_refused(const char *sentence) {
    assert_layout_refused(lay_out, &err, sentence);
}

START_TEST(what_no_chart_can_hold_is_refused) {
    chart.input.path_count = TEAS_PATHS_MAX + 1;
    assert_refused("9 paths");
    chart.input.path_count = 1;
    paths[0].place_count = TEAS_PLACES_MAX + 1;
    assert_refused("1001 places");
    paths[0].place_count = PLACES;
    places[0][4] = (struct teas){10, 10, 10};
    assert_refused("'a way', place 5");
}
END_TEST

START_TEST(room_for_another_panel_is_kept_free) {
    static const struct {
        enum sheet_size sheet;
        double width, height;
    } rooms[] = {{SHEET_HALF, 240, 190}, {SHEET_FULL, 0, 200}};
    chart.input.path_count = 1;
    for (size_t i = 0; i < 2; i++) {
        chart.input.page.sheet = rooms[i].sheet;
        chart.input.room_width = rooms[i].width;
        chart.input.room_height = rooms[i].height;
        make();
        struct box room = layout.room;
        ck_assert_double_eq(room.height, rooms[i].height);
        ck_assert_double_ge(room.width, 240);
        ck_assert(!boxes_overlap(room, layout.legend));
        struct box page = {0, 0, layout.page.width, layout.page.caption_rule.from.y};
        ck_assert(box_inside(room, page));
        for (size_t k = 0; k < layout.label_count; k++)
            ck_assert(!boxes_overlap(room, layout.labels[k].box));
        teas_layout_release(&layout);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("teas paths");
    TCase *tests = tcase_create("paths");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, paths_differ_in_dashes_and_stand_in_the_legend);
    tcase_add_test(tests, marks_of_paths_are_no_points);
    tcase_add_test(tests, labels_keep_clear_of_each_other);
    tcase_add_test(tests, marks_without_room_are_named_in_brackets);
    tcase_add_test(tests, a_path_of_one_place_is_a_mark);
    tcase_add_test(tests, what_no_chart_can_hold_is_refused);
    tcase_add_test(tests, room_for_another_panel_is_kept_free);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
