// SPDX-License-Identifier: GPL-3.0-or-later
// Pages of graphs, as full as may be.
#include "chart_asserts.h"
#include "charts.h"
#include "graph_fixture.h"
#include "graphs.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct graph_axis open_axis = {.name = "time, h", .low = NAN, .high = NAN};

// --- pages ---

START_TEST(panels_of_a_page_line_up) {
    set_sheet(_i);
    graph_case_lines(&graph, 2, true);
    for (size_t count = 1; count <= 6; count++) {
        for (size_t i = 0; i < count; i++) {
            graph.panels[i] = graph.panels[0];
            graph.panels[i].heading =
                i % 2 ? "a panel" : "a panel with a heading that goes on and on until it needs a line more";
            graph.panels[i].y.high = i % 2 ? 1e4 : NAN;
        }
        graph.input.panel_count = count;
        make();
        assert_sound();
        for (size_t i = 1; i < count; i++)
            ck_assert_double_eq_tol(layout.panels[i].plot.width, layout.panels[0].plot.width, 1e-6);
        graph_layout_release(&layout);
    }
}
END_TEST

START_TEST(a_legend_finds_its_room) {
    static struct legend_item items[60];
    static char texts[60][32];
    set_sheet(_i);
    graph_case_lines(&graph, 1, false);
    for (size_t count = 1; count <= 60; count += count < 8 ? 1 : 13) {
        for (size_t i = 0; i < count; i++) {
            snprintf(texts[i], sizeof texts[i], "%zu", i + 1);
            items[i] = (struct legend_item){.symbol = i % 2 ? LEGEND_LINE : LEGEND_POINT,
                                            .number = texts[i],
                                            .text = "propan-2-ol 30 + isooctane 70"};
        }
        graph.input.legend = items;
        graph.input.legend_count = count;
        make();
        assert_sound();
        ck_assert_uint_eq(layout.entry_count, count);
        graph_layout_release(&layout);
    }
}
END_TEST

START_TEST(too_much_for_the_sheet_is_refused_in_words) {
    graph.input.panel_count = GRAPH_PANELS_MAX;
    layout = (struct graph_layout){.unlabelled_count = 7};
    ck_assert_int_eq(lay_out(), STATUS_RANGE);
    ck_assert_ptr_nonnull(strstr(err.text, "take the full sheet"));
    ck_assert_uint_eq(layout.unlabelled_count, 7); // untouched
    graph.input.page.sheet = SHEET_FULL;
    make();
    assert_sound();
}
END_TEST

static void assert_refused(const char *sentence) {
    assert_layout_refused(lay_out, &err, sentence);
}

START_TEST(what_no_panel_can_hold_is_refused) {
    graph.panels[0].x.low = graph.panels[0].x.high = 3;
    assert_refused("it must run upwards");
    graph.panels[0].x = open_axis;
    graph.panels[0].y.scale = GRAPH_LOG;
    graph.panels[0].y.low = 0;
    assert_refused("begins above 0");
    graph.panels[0].y = open_axis;
    graph.panels[0].y.high = INFINITY;
    assert_refused("cannot end at inf");
    graph.panels[0].y = open_axis;
    graph.panels[0].line_count = GRAPH_LINES_MAX + 1;
    assert_refused("36 lines");
    graph.panels[0].line_count = 0;
    graph.panels[0].point_count = GRAPH_POINTS_MAX + 1;
    assert_refused("201 points");
    graph.panels[0].point_count = 0;
    graph.panels[0].zone_count = GRAPH_ZONES_MAX + 1;
    assert_refused("13 zones");
    graph.panels[0].zone_count = 0;
    graph.input.page.dpi = 12;
    assert_refused("12 dpi");
    graph.input.page.dpi = 0;
    graph.input.panel_count = GRAPH_PANELS_MAX + 1;
    assert_refused("13 panels");
}
END_TEST

START_TEST(long_names_of_axes_are_wrapped) {
    set_sheet(_i);
    graph_case_lines(&graph, 1, false);
    graph.panels[0].y.name =
        "concentration in the air near the work, averaged over a quarter of an hour, in milligrams per cubic metre";
    graph.panels[0].x.name = graph.panels[0].y.name;
    graph.panels[1] = graph.panels[0];
    graph.input.panel_count = 2;
    make();
    assert_sound();
}
END_TEST

// --- without colour, without memory, the same every time ---

START_TEST(colour_carries_nothing) {
    struct picture colour, grey;
    graph_case_lines(&graph, 8, false);
    graph_case_points(&graph, 5);
    make();
    ck_assert_int_eq(graph_picture(&layout, &colour, &err), STATUS_OK);
    graph_layout_release(&layout);
    graph.input.page.black_and_white = true;
    make();
    ck_assert_int_eq(graph_picture(&layout, &grey, &err), STATUS_OK);
    ck_assert_uint_eq(colour.count, grey.count);
    for (size_t i = 0; i < grey.count; i++) {
        const struct picture_item *a = &colour.items[i];
        const struct picture_item *b = &grey.items[i];
        ck_assert(a->kind == b->kind && a->spot_count == b->spot_count && a->dash_count == b->dash_count);
        ck_assert(b->stroke.red == b->stroke.green && b->stroke.green == b->stroke.blue);
        ck_assert(b->fill.red == b->fill.green && b->fill.green == b->fill.blue);
    }
    picture_release(&colour);
    picture_release(&grey);
}
END_TEST

START_TEST(every_failed_allocation_is_reported) {
    static const struct graph_limit limits[] = {{.value = 50, .name = "limit"}};
    static const struct graph_window window = {1, 2};
    static const struct graph_zone zone = {1, 3, "zone"};
    graph_case_lines(&graph, 3, false);
    graph_case_points(&graph, 6);
    graph.panels[0].limits = limits;
    graph.panels[0].zones = &zone;
    graph.panels[0].windows = graph.panels[0].spans = &window;
    graph.panels[0].limit_count = graph.panels[0].zone_count = graph.panels[0].window_count =
        graph.panels[0].span_count = 1;
    assert_failed_allocations_reported(lay_out, 5, 3000);
}
END_TEST

START_TEST(a_graph_as_text) {
    static const struct graph_limit limits[] = {{.value = 36, .name = "limit"},
                                                {.value = 18, .name = "asked for", .below = true}};
    static const struct graph_window windows[] = {{2, 2.5}};
    static const struct graph_zone zones[] = {{0, 3, "low"}, {3, 6, "high"}};
    struct text first = {0}, second = {0};
    graph_case_lines(&graph, 3, false);
    graph_case_points(&graph, 3);
    for (size_t i = 0; i < 3; i++)
        graph.points[i].x /= 20;
    graph.panels[0].limits = limits;
    graph.panels[0].limit_count = 2;
    graph.panels[0].windows = graph.panels[0].spans = windows;
    graph.panels[0].window_count = graph.panels[0].span_count = 1;
    graph.panels[0].zones = zones;
    graph.panels[0].zone_count = 2;
    graph.panels[0].heading = "A panel";
    graph.panels[0].note = "with a bit of everything";
    make();
    graph_layout_text(&layout, &first);
    assert_golden("graph-a4-half.txt", &first);
    graph_layout_release(&layout);
    make();
    graph_layout_text(&layout, &second);
    ck_assert_str_eq(first.bytes, second.bytes);
    text_release(&first);
    text_release(&second);
}
END_TEST

static TCase *page_tests(void) {
    TCase *tests = tcase_create("pages");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_set_timeout(tests, 60);
    tcase_add_loop_test(tests, panels_of_a_page_line_up, 0, SHEETS);
    tcase_add_loop_test(tests, a_legend_finds_its_room, 0, SHEETS);
    tcase_add_test(tests, too_much_for_the_sheet_is_refused_in_words);
    tcase_add_test(tests, what_no_panel_can_hold_is_refused);
    tcase_add_loop_test(tests, long_names_of_axes_are_wrapped, 0, SHEETS);
    tcase_add_test(tests, colour_carries_nothing);
    tcase_add_test(tests, every_failed_allocation_is_reported);
    tcase_add_test(tests, a_graph_as_text);
    return tests;
}

int main(void) {
    Suite *suite = suite_create("graph layout");
    suite_add_tcase(suite, page_tests());
    return suite_run(suite);
}
