// SPDX-License-Identifier: GPL-3.0-or-later
// One graph: what is drawn where, what is left out and said.
#include "graph_fixture.h"
#include "graphs.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

// --- lines ---

START_TEST(few_lines_are_named_at_their_ends) {
    graph_case_lines(&graph, 3, false);
    make();
    assert_sound();
    const struct panel_layout *panel = &layout.panels[0];
    ck_assert_uint_eq(panel->run_count, 3);
    ck_assert_uint_eq(panel->column_count, 3);
    for (size_t i = 0; i < 3; i++) {
        ck_assert(panel->column[i].placed);
        ck_assert_uint_eq(panel->column[i].style, i);
        const struct panel_run *run = &panel->runs[i];
        ck_assert_double_eq_tol(panel->column[i].y, run->spots[run->count - 1].y, 1e-9);
    }
}
END_TEST

START_TEST(values_stand_where_the_axes_say) {
    static const double x[] = {0, 5, 10}, y[] = {0, 50, 100};
    graph.lines[0] = (struct graph_line){"", x, y, 3, 0, false};
    graph.panels[0].lines = graph.lines;
    graph.panels[0].line_count = 1;
    make();
    struct box p = layout.panels[0].plot;
    const struct spot *spots = layout.panels[0].runs[0].spots;
    ck_assert_double_eq_tol(spots[0].x, p.x, 1e-9);
    ck_assert_double_eq_tol(spots[0].y, p.y + p.height, 1e-9);
    ck_assert_double_eq_tol(spots[1].x, p.x + p.width / 2, 1e-9);
    ck_assert_double_eq_tol(spots[1].y, p.y + p.height / 2, 1e-9);
    ck_assert_double_eq_tol(spots[2].y, p.y, 1e-9);
}
END_TEST

START_TEST(steps_turn_at_right_angles) {
    static const double x[] = {0, 1, 2, 3}, y[] = {5, 5, 8, 2};
    graph.lines[0] = (struct graph_line){"", x, y, 4, 0, true};
    graph.panels[0].lines = graph.lines;
    graph.panels[0].line_count = 1;
    make();
    const struct panel_run *run = &layout.panels[0].runs[0];
    ck_assert_uint_eq(layout.panels[0].run_count, 1);
    for (size_t i = 1; i < run->count; i++) {
        double dx = fabs(run->spots[i].x - run->spots[i - 1].x);
        double dy = fabs(run->spots[i].y - run->spots[i - 1].y);
        ck_assert(dx < 1e-9 || dy < 1e-9);
    }
}
END_TEST

START_TEST(twenty_lines_keep_their_names) {
    for (int long_names = 0; long_names < 2; long_names++) {
        set_sheet(_i);
        graph_case_lines(&graph, 20, long_names);
        make();
        assert_sound();
        ck_assert_uint_eq(layout.unlabelled_count, 0);
        graph_layout_release(&layout);
    }
}
END_TEST

START_TEST(names_without_room_stand_in_the_caption) {
    graph_case_lines(&graph, LINE_STYLES, false);
    graph.panels[1] = graph.panels[2] = graph.panels[3] = graph.panels[0];
    graph.input.panel_count = 4; // low panels
    make();
    assert_sound();
    ck_assert_uint_gt(layout.unlabelled_count, 0);
    ck_assert(caption_has(&layout.page, "No room in the chart for the names or numbers: "));
    ck_assert(caption_has(&layout.page, "line 35"));
}
END_TEST

START_TEST(equal_lines_have_a_name_each) {
    static const double x[] = {0, 1}, y[] = {5, 5};
    static const char *const own[] = {"one", "two", "three", "four"};
    for (size_t i = 0; i < 4; i++)
        graph.lines[i] = (struct graph_line){own[i], x, y, 2, i, false};
    graph.panels[0].lines = graph.lines;
    graph.panels[0].line_count = 4;
    make();
    assert_sound();
    for (size_t i = 0; i < 4; i++) {
        ck_assert(layout.panels[0].column[i].placed);
        ck_assert(layout.panels[0].column[i].has_leader);
    }
}
END_TEST

START_TEST(one_value_is_a_mark) {
    static const double x[] = {3}, y[] = {7};
    graph.lines[0] = (struct graph_line){"alone", x, y, 1, 0, false};
    graph.panels[0].lines = graph.lines;
    graph.panels[0].line_count = 1;
    make();
    assert_sound();
    ck_assert_uint_eq(layout.panels[0].run_count, 0);
    ck_assert_uint_eq(layout.panels[0].line_mark_count, 1);
    ck_assert(layout.panels[0].column[0].placed);
}
END_TEST

START_TEST(no_values_at_all_are_an_empty_frame) {
    graph.lines[0] = (struct graph_line){"nothing", graph.xs[0], graph.ys[0], 0, 0, false};
    graph.panels[0].lines = graph.lines;
    graph.panels[0].line_count = 1;
    make();
    assert_sound();
    ck_assert(!layout.panels[0].column[0].placed);
    ck_assert(caption_has(&layout.page, "nothing"));
}
END_TEST

START_TEST(what_is_no_number_is_left_out_and_said) {
    graph_case_lines(&graph, 2, false);
    graph.ys[0][10] = NAN;
    graph.ys[0][11] = INFINITY;
    graph.xs[1][20] = NAN;
    graph.ys[1][0] = 4e30;
    make();
    assert_sound();
    ck_assert(caption_has(&layout.page, "Values left out, because they are no numbers: 4"));
    ck_assert_uint_eq(layout.panels[0].run_count, 4); // the gaps stay open
}
END_TEST

START_TEST(logarithms_of_nothing_are_left_out_and_said) {
    static const double x[] = {0, 1, 10, 100}, y[] = {1, 0, -3, 5};
    graph.lines[0] = (struct graph_line){"dose", x, y, 4, 0, false};
    graph.panels[0].lines = graph.lines;
    graph.panels[0].line_count = 1;
    graph.panels[0].x.scale = graph.panels[0].y.scale = GRAPH_LOG;
    make();
    assert_sound();
    ck_assert(caption_has(&layout.page, "no numbers: 3"));
}
END_TEST

START_TEST(huge_and_tiny_values_have_readable_axes) {
    static const struct {
        double low, high;
        enum graph_scale scale;
    } cases[] = {{0, 1e30, GRAPH_LINEAR},   {-1e30, 1e30, GRAPH_LINEAR},  {1e-30, 1e30, GRAPH_LOG},
                 {0, 1e-29, GRAPH_LINEAR},  {1e9, 1e9 + 1, GRAPH_LINEAR}, {5e-324, 1e-310, GRAPH_LINEAR},
                 {-1e-3, 1e6, GRAPH_LINEAR}};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        double x[] = {cases[i].low, cases[i].high};
        graph.lines[0] = (struct graph_line){"line", x, x, 2, 0, false};
        graph.panels[0].lines = graph.lines;
        graph.panels[0].line_count = 1;
        graph.panels[0].x.scale = graph.panels[0].y.scale = cases[i].scale;
        make();
        assert_sound();
        graph_layout_release(&layout);
    }
}
END_TEST

START_TEST(a_given_range_cuts_the_lines) {
    static const double x[] = {-10, 20}, y[] = {-10, 20};
    graph.lines[0] = (struct graph_line){"", x, y, 2, 0, false};
    graph.panels[0].lines = graph.lines;
    graph.panels[0].line_count = 1;
    graph.panels[0].x.low = graph.panels[0].y.low = 0;
    graph.panels[0].x.high = graph.panels[0].y.high = 10;
    make();
    assert_sound();
    struct box p = layout.panels[0].plot;
    const struct panel_run *run = &layout.panels[0].runs[0];
    ck_assert_uint_eq(run->count, 2);
    ck_assert_double_eq_tol(run->spots[0].x, p.x, 1e-3);
    ck_assert_double_eq_tol(run->spots[1].y, p.y, 1e-3);
}
END_TEST

// --- limits, windows, spans, zones ---

START_TEST(limits_within_reach_widen_the_axis_and_others_stand_above) {
    static const struct graph_limit limits[] = {{.value = 50, .name = "8 h: 50"},
                                                {.value = 5000, .name = "15 min: 5000"}};
    graph_case_lines(&graph, 1, false);
    graph.panels[0].limits = limits;
    graph.panels[0].limit_count = 2;
    make();
    assert_sound();
    const struct panel_layout *panel = &layout.panels[0];
    ck_assert_uint_eq(panel->limit_count, 1);
    ck_assert_double_ge(panel->limits[0].line.from.y, panel->plot.y + 3); // its strokes have room
    ck_assert_str_eq(panel->column[1].lines.items[0].text, "\u2191 15 min: 5000");
    ck_assert(!panel->column[1].has_leader);
}
END_TEST

START_TEST(limits_alone_and_below_the_data) {
    static const struct graph_limit limits[] = {
        {.value = 50, .name = "a"}, {.value = NAN, .name = "none"}, {.value = -1, .name = "low"}};
    graph.panels[0].limits = limits;
    graph.panels[0].limit_count = 3;
    graph.panels[0].y.low = 0;
    make();
    assert_sound();
    ck_assert_uint_eq(layout.panels[0].limit_count, 1);
    ck_assert_str_eq(layout.panels[0].column[1].lines.items[0].text, "\u2193 low");
    ck_assert(caption_has(&layout.page, "no numbers: 1"));
}
END_TEST

START_TEST(windows_and_spans_are_cut_to_the_axis) {
    static const struct graph_window windows[] = {{1, 2}, {5.5, 9}, {NAN, 3}, {7, 8}};
    graph_case_lines(&graph, 1, false);
    graph.panels[0].x.low = 0;
    graph.panels[0].x.high = 6;
    graph.panels[0].windows = graph.panels[0].spans = windows;
    graph.panels[0].window_count = graph.panels[0].span_count = 4;
    make();
    assert_sound();
    const struct panel_layout *panel = &layout.panels[0];
    ck_assert_uint_eq(panel->window_count, 2);
    ck_assert_uint_eq(panel->spans.count, 2);
    ck_assert_double_eq_tol(panel->windows[0].box.width, panel->plot.width / 6, 1e-9);
    ck_assert_double_eq_tol(panel->windows[1].box.x + panel->windows[1].box.width, panel->plot.x + panel->plot.width,
                            1e-9);
    ck_assert_uint_gt(panel->windows[0].hatch.count, 10);
}
END_TEST

START_TEST(zones_are_named_above_or_upright_or_in_the_caption) {
    static const struct graph_zone zones[] = {{-INFINITY, 30, "very low"},
                                              {30, 33.5, "narrow one"},
                                              {33.5, 33.6, "sliver"},
                                              {33.6, INFINITY, "high"},
                                              {70, 60, "turned"}};
    graph.panels[0].zones = zones;
    graph.panels[0].zone_count = 5;
    graph.panels[0].x.low = 0;
    graph.panels[0].x.high = 100;
    make();
    assert_sound();
    const struct panel_layout *panel = &layout.panels[0];
    ck_assert_uint_eq(panel->zones.count, 3);
    ck_assert_uint_eq(panel->zone_names.count, 3);
    ck_assert_double_lt(panel->zone_names.items[0].y, panel->plot.y);
    ck_assert_double_eq(panel->zone_names.items[1].unit_y, -1);
    ck_assert(caption_has(&layout.page, "sliver"));
}
END_TEST

// --- points ---

START_TEST(points_have_bars_with_ends) {
    graph_case_points(&graph, 1);
    make();
    assert_sound();
    ck_assert_uint_eq(layout.panels[0].mark_count, 1);
    ck_assert_uint_eq(layout.panels[0].bars.count, 8); // four halves and their ends
    graph_layout_release(&layout);
    graph.points[0].x_low = graph.points[0].y_high = NAN;
    make();
    ck_assert_uint_eq(layout.panels[0].bars.count, 4);
}
END_TEST

START_TEST(bars_beyond_the_panel_have_no_end) {
    graph_case_points(&graph, 1);
    graph.points[0].x_high = INFINITY;
    graph.points[0].y_low = -INFINITY;
    graph.panels[0].x.low = graph.panels[0].y.low = -20;
    graph.panels[0].x.high = graph.panels[0].y.high = 20;
    make();
    assert_sound();
    ck_assert_uint_eq(layout.panels[0].bars.count, 6);
}
END_TEST

START_TEST(points_without_figures_or_beyond_the_axes_are_named) {
    graph_case_points(&graph, 5);
    graph.points[1].x = NAN;
    graph.points[3].y = INFINITY;
    graph.points[4].x = 500;
    graph.panels[0].x.low = -10;
    graph.panels[0].x.high = 110;
    make();
    assert_sound();
    ck_assert_uint_eq(layout.panels[0].mark_count, 2);
    ck_assert(caption_has(&layout.page, "Not drawn, without a figure or beyond the axes: 2, 4, 5"));
}
END_TEST

START_TEST(crowds_of_points_are_sound) {
    static const size_t counts[] = {10, 30, 80, 200};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        set_sheet(_i);
        graph_case_points(&graph, counts[i]);
        make();
        assert_sound();
        size_t labelled = 0;
        for (size_t k = 0; k < layout.panels[0].label_count; k++)
            labelled += layout.panels[0].labels[k].placed ? layout.panels[0].labels[k].number_count : 0;
        ck_assert_uint_eq(labelled + layout.unlabelled_count, counts[i]);
        ck_assert_int_eq(layout.unlabelled_count > 0, caption_has(&layout.page, "No room in the chart"));
        graph_layout_release(&layout);
    }
}
END_TEST

START_TEST(equal_points_share_a_label) {
    graph_case_points(&graph, 4);
    for (size_t i = 1; i < 4; i++) {
        graph.points[i] = graph.points[0];
        graph.points[i].number = i + 1;
    }
    make();
    assert_sound();
    ck_assert_uint_eq(layout.panels[0].label_count, 1);
    ck_assert_str_eq(layout.panels[0].labels[0].number.text, "1\u20134");
}
END_TEST

// --- bands ---

START_TEST(bands_add_up_and_carry_their_names) {
    static const double x[] = {0, 50, 100}, a[] = {60, 30, 100}, b[] = {40, 69.5, 0}, c[] = {0, 0.5, 0};
    static const double *const layers[] = {a, b, c};
    static const char *const own[] = {"propan-2-ol", "isooctane", "water"};
    struct graph_stack stack = {x, 3, layers, own, 3, 0};
    graph.panels[0].stack = &stack;
    graph.panels[0].y.low = 0;
    graph.panels[0].y.high = 100;
    make();
    assert_sound();
    const struct panel_layout *panel = &layout.panels[0];
    ck_assert_uint_eq(panel->band_count, 3);
    const struct panel_run *top = &panel->edges[2];
    for (size_t i = 0; i < 3; i++) // the whole is 100 everywhere
        ck_assert_double_eq_tol(top->spots[i].y, panel->plot.y, 1e-9);
    ck_assert_double_eq_tol(panel->edges[0].spots[0].y, panel->plot.y + 0.4 * panel->plot.height, 1e-9);
    for (size_t i = 0; i < 3; i++)
        ck_assert(panel->band_labels[i].placed);
    ck_assert(!panel->band_labels[0].has_leader && !panel->band_labels[1].has_leader);
    ck_assert(panel->band_labels[2].has_leader); // half a percent is too thin for its name
}
END_TEST

START_TEST(bands_with_holes_say_so) {
    static const double x[] = {0, 25, 50, 100}, a[] = {60, NAN, 30, 10}, b[] = {40, 10, -1, 90};
    static const double *const layers[] = {a, b};
    static const char *const own[] = {"a", "b"};
    struct graph_stack stack = {x, 4, layers, own, 2, 0};
    graph.panels[0].stack = &stack;
    make();
    assert_sound();
    ck_assert(caption_has(&layout.page, "no numbers: 2"));
}
END_TEST

static TCase *line_tests(void) {
    TCase *tests = tcase_create("lines");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, few_lines_are_named_at_their_ends);
    tcase_add_test(tests, values_stand_where_the_axes_say);
    tcase_add_test(tests, steps_turn_at_right_angles);
    tcase_add_loop_test(tests, twenty_lines_keep_their_names, 0, SHEETS);
    tcase_add_test(tests, names_without_room_stand_in_the_caption);
    tcase_add_test(tests, equal_lines_have_a_name_each);
    tcase_add_test(tests, one_value_is_a_mark);
    tcase_add_test(tests, no_values_at_all_are_an_empty_frame);
    tcase_add_test(tests, what_is_no_number_is_left_out_and_said);
    tcase_add_test(tests, logarithms_of_nothing_are_left_out_and_said);
    tcase_add_test(tests, huge_and_tiny_values_have_readable_axes);
    tcase_add_test(tests, a_given_range_cuts_the_lines);
    tcase_add_test(tests, limits_within_reach_widen_the_axis_and_others_stand_above);
    tcase_add_test(tests, limits_alone_and_below_the_data);
    tcase_add_test(tests, windows_and_spans_are_cut_to_the_axis);
    tcase_add_test(tests, zones_are_named_above_or_upright_or_in_the_caption);
    return tests;
}

static TCase *point_tests(void) {
    TCase *tests = tcase_create("points and bands");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, points_have_bars_with_ends);
    tcase_add_test(tests, bars_beyond_the_panel_have_no_end);
    tcase_add_test(tests, points_without_figures_or_beyond_the_axes_are_named);
    tcase_add_loop_test(tests, crowds_of_points_are_sound, 0, SHEETS);
    tcase_add_test(tests, equal_points_share_a_label);
    tcase_add_test(tests, bands_add_up_and_carry_their_names);
    tcase_add_test(tests, bands_with_holes_say_so);
    return tests;
}

int main(void) {
    Suite *suite = suite_create("graph panel");
    suite_add_tcase(suite, line_tests());
    suite_add_tcase(suite, point_tests());
    return suite_run(suite);
}
