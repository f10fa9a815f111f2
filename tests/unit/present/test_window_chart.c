// SPDX-License-Identifier: GPL-3.0-or-later
// The window chart: numbers of the list, doubt both ways, bands of swelling, the effect asked for.
#include "chart_asserts.h"
#include "charts.h"
#include "graphs.h"
#include "present/chart/window_chart.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct window_chart_blend blends[GRAPH_POINTS_MAX];
static char names[GRAPH_POINTS_MAX][64];
static struct window_chart_input input;
static struct graph_layout layout;
static struct text_metric metric;
static struct error err;

static const struct window_chart_band bands[] = {
    {"very low", 0, 0.05}, {"low", 0.05, 0.15}, {"moderate", 0.15, 0.4}, {"high", 0.4, 1}, {"very high", 1, INFINITY}};

// A swarm that rises from lower left to upper right: invented.
static void fill(size_t count) {
    for (size_t i = 0; i < count; i++) {
        double step = (double)i / (double)count;
        double swelling = 0.03 * pow(40, step) * (1 + 0.3 * sin(7.0 * (double)i));
        double effect = 100 / (1 + exp(-9 * (step - 0.4)));
        snprintf(names[i], sizeof names[i], "propan-2-ol %zu + isooctane %zu", 5 * (i % 19 + 1),
                 100 - 5 * (i % 19 + 1));
        blends[i] = (struct window_chart_blend){names[i],       i + 1,  swelling,     0.7 * swelling,
                                                1.5 * swelling, effect, 0.8 * effect, fmin(100, 1.1 * effect)};
    }
    input.blend_count = count;
}

static void begin(void) {
    metric = metric_fixed();
    error_clear(&err);
    input = (struct window_chart_input){.page = chart_page_case(PAPER_A4, SHEET_HALF),
                                        .swelling_name = "swelling of linseed-oil-film-young",
                                        .effect_name = "probability to dissolve dammar-aged, %",
                                        .swelling_log = true,
                                        .swelling_low = NAN,
                                        .swelling_high = NAN,
                                        .effect_low = 0,
                                        .effect_high = 100,
                                        .asked = 80,
                                        .asked_figure = "80 %",
                                        .blends = blends,
                                        .bands = bands,
                                        .band_count = 5,
                                        .doubt = "5 to 95 % of 256 samples",
                                        .models = "Film in equilibrium with the liquid."};
    fill(10);
}

static void end(void) {
    graph_layout_release(&layout);
}

static enum status lay_out(void) {
    return window_chart_layout(&input, &metric, &layout, &err);
}

static void make(void) {
    ck_assert_msg(lay_out() == STATUS_OK, "%s", err.text);
    const char *fault = graph_fault(&layout);
    ck_assert_msg(fault == NULL, "%s", fault);
}

START_TEST(points_carry_the_numbers_of_the_list) {
    for (size_t i = 0; i < 10; i++)
        blends[i].number = 2 * i + 1;
    make();
    const struct panel_layout *panel = &layout.panels[0];
    ck_assert_uint_eq(panel->mark_count, 10);
    for (size_t i = 0; i < 10; i++)
        ck_assert_uint_eq(panel->marks[i].number, 2 * i + 1);
    ck_assert_str_eq(layout.entries[1].number.text, "1");
    ck_assert_str_eq(layout.entries[10].number.text, "19");
    ck_assert_ptr_nonnull(strstr(layout.entries[1].lines.items[0].text, "propan-2-ol 5"));
}
END_TEST

START_TEST(effective_is_up_and_mild_is_left) {
    make();
    const struct panel_layout *panel = &layout.panels[0];
    for (size_t i = 1; i < 10; i++) {
        ck_assert_int_eq(panel->marks[i].at.x > panel->marks[i - 1].at.x, blends[i].swelling > blends[i - 1].swelling);
        ck_assert_double_lt(panel->marks[i].at.y, panel->marks[i - 1].at.y); // effect rises with i
    }
}
END_TEST

START_TEST(filled_marks_are_as_effective_as_asked_for) {
    make();
    for (size_t i = 0; i < 10; i++) {
        enum mark_shape shape = blends[i].effect >= 80 ? MARK_DISC : MARK_RING;
        ck_assert_int_eq(layout.panels[0].marks[i].style.shape, shape);
        ck_assert_int_eq(layout.entries[i + 1].mark.shape, shape);
    }
    ck_assert_uint_eq(layout.panels[0].limit_count, 1);
    ck_assert(layout.panels[0].limits[0].below);
    ck_assert_str_eq(layout.panels[0].column[0].lines.items[0].text, "asked for 80 %");
    ck_assert_ptr_nonnull(strstr(layout.entries[0].lines.items[0].text, "Blends (filled"));
    graph_layout_release(&layout);
    input.asked = NAN; // nothing asked for: all are alike
    make();
    ck_assert_uint_eq(layout.panels[0].limit_count, 0);
    ck_assert_str_eq(layout.entries[0].lines.items[0].text, "Blends");
    ck_assert_int_eq(layout.panels[0].marks[0].style.shape, MARK_DISC);
}
END_TEST

START_TEST(bands_of_swelling_are_named) {
    make();
    const struct panel_layout *panel = &layout.panels[0];
    ck_assert_uint_ge(panel->zone_names.count, 4);
    ck_assert_str_eq(panel->zone_names.items[0].text, "very low");
    ck_assert_uint_eq(panel->zones.count, 4);
}
END_TEST

START_TEST(blends_without_a_figure_are_named_in_the_caption) {
    blends[2].swelling = INFINITY; // without limit
    blends[7].effect = NAN;
    make();
    ck_assert(caption_has(&layout.page, "beyond the axes: 3, 8"));
    ck_assert_uint_eq(layout.entry_count, 11); // all the same in the list
}
END_TEST

START_TEST(doubt_that_is_not_known_has_no_bars) {
    for (size_t i = 0; i < 10; i++)
        blends[i].swelling_low = blends[i].swelling_high = blends[i].effect_low = blends[i].effect_high = NAN;
    input.doubt = NULL;
    make();
    ck_assert_uint_eq(layout.panels[0].bars.count, 0);
    ck_assert(!caption_has(&layout.page, "Bars"));
}
END_TEST

START_TEST(equal_blends_share_a_label) {
    for (size_t i = 1; i < 10; i++) {
        blends[i] = blends[0];
        blends[i].number = i + 1;
    }
    make();
    ck_assert_str_eq(layout.panels[0].labels[0].number.text, "1\u201310");
}
END_TEST

START_TEST(the_caption_says_what_it_is) {
    make();
    ck_assert(caption_has(&layout.page, "Bars: 5 to 95 % of 256 samples \u00B7 Film in equilibrium"));
    ck_assert(caption_has(&layout.page, "Computed, not tested. Proposes tests, does not prove safety."));
}
END_TEST

START_TEST(one_blend_and_two_hundred) {
    static const size_t counts[] = {1, 2, 25, 60, 120};
    input.page.sheet = SHEET_FULL;
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++) {
        for (int logarithmic = 0; logarithmic < 2; logarithmic++) {
            input.swelling_log = logarithmic;
            fill(counts[i]);
            make();
            graph_layout_release(&layout);
        }
    }
    fill(GRAPH_POINTS_MAX);
    enum status status = lay_out();
    ck_assert(status == STATUS_OK || strstr(err.text, "two charts") != NULL);
}
END_TEST

START_TEST(what_cannot_be_laid_out_is_refused) {
    input.blend_count = 0;
    ck_assert_int_eq(lay_out(), STATUS_RANGE);
    input.blend_count = GRAPH_POINTS_MAX + 1;
    ck_assert_int_eq(lay_out(), STATUS_RANGE);
    input.blend_count = 1;
    input.band_count = GRAPH_ZONES_MAX + 1;
    ck_assert_int_eq(lay_out(), STATUS_RANGE);
    ck_assert_ptr_nonnull(strstr(err.text, "13 bands"));
}
END_TEST

START_TEST(every_failed_allocation_is_reported) {
    assert_failed_allocations_reported(lay_out, 5, 3000);
}
END_TEST

START_TEST(a_window_chart_as_text) {
    struct text text = {0};
    input.page.black_and_white = true;
    make();
    graph_layout_text(&layout, &text);
    assert_golden("window-a4-half.txt", &text);
    text_release(&text);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("window chart");
    TCase *tests = tcase_create("window");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, points_carry_the_numbers_of_the_list);
    tcase_add_test(tests, effective_is_up_and_mild_is_left);
    tcase_add_test(tests, filled_marks_are_as_effective_as_asked_for);
    tcase_add_test(tests, bands_of_swelling_are_named);
    tcase_add_test(tests, blends_without_a_figure_are_named_in_the_caption);
    tcase_add_test(tests, doubt_that_is_not_known_has_no_bars);
    tcase_add_test(tests, equal_blends_share_a_label);
    tcase_add_test(tests, the_caption_says_what_it_is);
    tcase_add_test(tests, one_blend_and_two_hundred);
    tcase_add_test(tests, what_cannot_be_laid_out_is_refused);
    tcase_add_test(tests, every_failed_allocation_is_reported);
    tcase_add_test(tests, a_window_chart_as_text);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
