// SPDX-License-Identifier: GPL-3.0-or-later
// The air chart: a panel for each component, its own limits, its own worst window.
#include "base/language.h"
#include "chart_asserts.h"
#include "charts.h"
#include "graphs.h"
#include "present/chart/air_chart.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { HOURS = 81, COMPONENTS = GRAPH_PANELS_MAX };

static double hours[HOURS], near[COMPONENTS][HOURS], room[COMPONENTS][HOURS];
static struct air_chart_component components[COMPONENTS];
static struct air_chart_input input;
static struct graph_layout layout;
static struct text_metric metric;
static struct error err;

// Limits of the EU for toluene (directive 2006/15/EC: 192 and 384 mg/m3) and acetone (2000/39/EC: 1210 mg/m3).
static const struct air_chart_limit toluene_limits[] = {{AIR_LIMIT_8H, 192, AIR_LIMIT_OWN},
                                                        {AIR_LIMIT_15MIN, 384, AIR_LIMIT_OWN}};
static const struct air_chart_limit acetone_limits[] = {{AIR_LIMIT_8H, 1210, AIR_LIMIT_OWN}};
// Invented, for the words.
static const struct air_chart_limit ceiling[] = {{AIR_LIMIT_CEILING, 40, AIR_LIMIT_BY_FACTOR},
                                                 {AIR_LIMIT_10H, 20, AIR_LIMIT_OF_GROUP}};

static const struct air_chart_task tasks[] = {{0, 2}, {3, 5.5}};

// Rise to `high` in the first task, a pause, a second rise, and away: invented, any curve would do.
static void fill_component(size_t i, const char *name, double high) {
    for (size_t k = 0; k < HOURS; k++) {
        double h = hours[k];
        double rise = h <= 2     ? h / 2
                      : h <= 3   ? 1 - (h - 2) / 2
                      : h <= 5.5 ? 0.5 + (h - 3) / 5
                                 : fmax(0, 1 - (h - 5.5) / 2);
        room[i][k] = 0.8 * high * rise;
        near[i][k] = room[i][k] + (h <= 2 || (h >= 3 && h <= 5.5) ? 0.2 * high : 0);
    }
    components[i] = (struct air_chart_component){.name = name,
                                                 .near_mg_m3 = near[i],
                                                 .room_mg_m3 = room[i],
                                                 .mean_8h_mg_m3 = 0.4 * high,
                                                 .window_start_h = 1.75,
                                                 .window_mean_mg_m3 = 0.95 * high};
}

static void begin(void) {
    metric = metric_fixed();
    error_clear(&err);
    for (size_t k = 0; k < HOURS; k++)
        hours[k] = (double)k / 10;
    fill_component(0, "toluene", 330);
    fill_component(1, "acetone", 210);
    components[0].limits = toluene_limits;
    components[0].limit_count = 2;
    components[1].limits = acetone_limits;
    components[1].limit_count = 1;
    input =
        (struct air_chart_input){.page = chart_page_case(PAPER_A4, SHEET_HALF),
                                 .question = "toluene 60 + acetone 40: 15 mL/h in 38 m3 with 0.5 air changes per hour",
                                 .limit_set = "eu",
                                 .models = "Well-mixed room and near field.",
                                 .hours = hours,
                                 .hour_count = HOURS,
                                 .components = components,
                                 .component_count = 2,
                                 .tasks = tasks,
                                 .task_count = 2,
                                 .begins_h = NAN};
}

static void end(void) {
    graph_layout_release(&layout);
}

static enum status lay_out(void) {
    return air_chart_layout(&input, &metric, &layout, &err);
}

static void make(void) {
    ck_assert_msg(lay_out() == STATUS_OK, "%s", err.text);
    const char *fault = graph_fault(&layout);
    ck_assert_msg(fault == NULL, "%s", fault);
}

static bool has_text(const struct layout_texts *texts, const char *words) {
    for (size_t i = 0; i < texts->count; i++)
        if (strstr(texts->items[i].text, words))
            return true;
    return false;
}

static bool column_has(const struct panel_layout *panel, const char *words) {
    for (size_t i = 0; i < panel->column_count; i++)
        if (panel->column[i].placed && has_text(&panel->column[i].lines, words))
            return true;
    return false;
}

START_TEST(each_component_has_its_own_panel_and_limits) {
    make();
    ck_assert_uint_eq(layout.panel_count, 2);
    const struct panel_layout *toluene = &layout.panels[0];
    const struct panel_layout *acetone = &layout.panels[1];
    ck_assert_str_eq(toluene->heading.items[0].text, "toluene");
    ck_assert(column_has(toluene, "8\u00A0h:\u00A0192"));
    ck_assert(column_has(toluene, "15\u00A0min:\u00A0384"));
    ck_assert_uint_eq(toluene->limit_count, 2);
    ck_assert(column_has(acetone, "\u2191 8\u00A0h:\u00A01210")); // far above what is reached
    ck_assert_uint_eq(acetone->limit_count, 0);
    ck_assert(has_text(&toluene->heading, "8-h mean 132 of 192"));
    ck_assert(has_text(&toluene->heading, "worst 15\u00A0min 314 of 384"));
    ck_assert(has_text(&acetone->heading, "worst 15\u00A0min 200")); // no limit to hold it against
}
END_TEST

START_TEST(near_is_solid_and_room_is_dashed) {
    make();
    const struct panel_layout *panel = &layout.panels[0];
    ck_assert_uint_eq(panel->runs[0].style, LINE_DASHED);
    ck_assert_uint_eq(panel->runs[1].style, LINE_SOLID);
    ck_assert_double_gt(panel->runs[0].spots[5].y, panel->runs[1].spots[5].y); // the room lies lower
    ck_assert_uint_eq(line_style(LINE_SOLID).pen.dash_count, 0);
    ck_assert_uint_ne(line_style(LINE_DASHED).pen.dash_count, 0);
    ck_assert_uint_eq(layout.entries[0].style, LINE_SOLID);
    ck_assert_ptr_nonnull(strstr(layout.entries[0].lines.items[0].text, "near"));
    ck_assert_uint_eq(layout.entries[1].style, LINE_DASHED);
    ck_assert_ptr_nonnull(strstr(layout.entries[1].lines.items[0].text, "room"));
}
END_TEST

START_TEST(the_worst_window_and_the_work_stand_where_they_are) {
    make();
    const struct panel_layout *panel = &layout.panels[0];
    double hour = panel->plot.width / 8;
    ck_assert_uint_eq(panel->window_count, 1);
    ck_assert_double_eq_tol(panel->windows[0].box.x, panel->plot.x + 1.75 * hour, 1e-6);
    ck_assert_double_eq_tol(panel->windows[0].box.width, 0.25 * hour, 1e-6);
    ck_assert_uint_eq(panel->spans.count, 2);
    ck_assert_double_eq_tol(panel->spans.items[1].from.x, panel->plot.x + 3 * hour, 1e-6);
    ck_assert_double_eq_tol(panel->spans.items[1].to.x, panel->plot.x + 5.5 * hour, 1e-6);
}
END_TEST

START_TEST(time_of_day_where_the_beginning_is_known) {
    make();
    ck_assert(has_text(&layout.panels[0].x_name, "hours"));
    ck_assert(has_text(&layout.panels[0].scale, "8"));
    graph_layout_release(&layout);
    input.begins_h = 9.5;
    make();
    ck_assert(has_text(&layout.panels[0].x_name, "time of day"));
    ck_assert(has_text(&layout.panels[0].scale, "12:00"));
    ck_assert_double_eq_tol(layout.panels[0].windows[0].box.x - layout.panels[0].plot.x,
                            layout.panels[0].plot.width * 1.75 / 8, 1e-6);
}
END_TEST

START_TEST(a_missing_limit_is_never_zero_hazard) {
    components[1].limit_count = 0;
    make();
    ck_assert(has_text(&layout.panels[1].heading, "no limit found"));
    ck_assert(has_text(&layout.panels[1].heading, "zero hazard"));
    ck_assert(!has_text(&layout.panels[0].heading, "no limit found"));
}
END_TEST

START_TEST(kinds_and_origins_of_limits_are_named) {
    fill_component(1, "n-heptane", 30);
    components[1].limits = ceiling;
    components[1].limit_count = 2;
    make();
    ck_assert(column_has(&layout.panels[1], "ceiling:\u00A040"));
    ck_assert(column_has(&layout.panels[1], "(by factor)"));
    ck_assert(column_has(&layout.panels[1], "10\u00A0h:\u00A020"));
    ck_assert(column_has(&layout.panels[1], "(group)"));
}
END_TEST

START_TEST(figures_that_are_not_known_are_not_shown) {
    components[0].mean_8h_mg_m3 = NAN;
    components[0].window_start_h = NAN;
    make();
    ck_assert_uint_eq(layout.panels[0].heading.count, 1);
    ck_assert_uint_eq(layout.panels[0].window_count, 0);
    ck_assert_uint_eq(layout.panels[0].run_count, 2);
}
END_TEST

START_TEST(the_caption_says_what_was_asked_and_by_whose_limits) {
    static const char *const more[] = {"Additive index 1.7."};
    input.page.captions = more;
    input.page.caption_count = 1;
    make();
    ck_assert(caption_has(&layout.page, "Object: Fishing Boats at Slack Water, 1881 \u00B7 Date: 2024-05-17"));
    ck_assert(caption_has(&layout.page, input.question));
    ck_assert(caption_has(&layout.page, "Limits: eu"));
    ck_assert(caption_has(&layout.page, input.models));
    ck_assert(caption_has(&layout.page, more[0]));
    ck_assert(caption_has(&layout.page, "Computed, not measured. Does not prove safety"));
    graph_layout_release(&layout);
    input.limit_set = input.question = input.models = NULL;
    make();
    ck_assert(caption_has(&layout.page, "Limits: not given"));
}
END_TEST

START_TEST(words_and_decimal_mark_of_another_language) {
    struct air_chart_words german = *air_chart_words_english();
    german.mean_8h = "Schichtmittel";
    german.purpose = "Berechnet, nicht gemessen. Beweist keine Sicherheit.";
    components[0].mean_8h_mg_m3 = 1.25;
    input.words = &german;
    language_speak(language_known("de"));
    make();
    language_speak(language_known("en"));
    ck_assert(has_text(&layout.panels[0].heading, "Schichtmittel 1,25"));
    ck_assert(caption_has(&layout.page, german.purpose));
}
END_TEST

START_TEST(any_number_of_components_fits_the_full_sheet) {
    static char names[COMPONENTS][40];
    for (size_t count = 1; count <= COMPONENTS; count++) {
        snprintf(names[count - 1], sizeof names[0], "component-%zu-with-a-long-name", count);
        fill_component(count - 1, names[count - 1], pow(10, (double)count - 5));
        components[count - 1].limits = toluene_limits;
        components[count - 1].limit_count = count % 3;
        input.component_count = count;
        input.page.sheet = SHEET_FULL;
        make();
        graph_layout_release(&layout);
    }
}
END_TEST

static void assert_refused(const char *sentence) {
    assert_layout_refused(lay_out, &err, sentence);
}

START_TEST(what_cannot_be_laid_out_is_refused) {
    input.component_count = 0;
    assert_refused("0 components");
    input.component_count = COMPONENTS + 1;
    assert_refused("13 components");
    input.component_count = 1;
    input.hour_count = 1;
    assert_refused("at least two hours");
    input.hour_count = HOURS;
    input.task_count = AIR_CHART_TASKS_MAX + 1;
    assert_refused("25 tasks");
    input.task_count = 1;
    components[0].limit_count = AIR_CHART_LIMITS_MAX + 1;
    assert_refused("limits of 'toluene'");
}
END_TEST

START_TEST(every_failed_allocation_is_reported) {
    assert_failed_allocations_reported(lay_out, 5, 3000);
}
END_TEST

START_TEST(an_air_chart_as_text) {
    struct text text = {0};
    input.begins_h = 9;
    make();
    graph_layout_text(&layout, &text);
    assert_golden("air-a4-half.txt", &text);
    text_release(&text);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("air chart");
    TCase *tests = tcase_create("air");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, each_component_has_its_own_panel_and_limits);
    tcase_add_test(tests, near_is_solid_and_room_is_dashed);
    tcase_add_test(tests, the_worst_window_and_the_work_stand_where_they_are);
    tcase_add_test(tests, time_of_day_where_the_beginning_is_known);
    tcase_add_test(tests, a_missing_limit_is_never_zero_hazard);
    tcase_add_test(tests, kinds_and_origins_of_limits_are_named);
    tcase_add_test(tests, figures_that_are_not_known_are_not_shown);
    tcase_add_test(tests, the_caption_says_what_was_asked_and_by_whose_limits);
    tcase_add_test(tests, words_and_decimal_mark_of_another_language);
    tcase_add_test(tests, any_number_of_components_fits_the_full_sheet);
    tcase_add_test(tests, what_cannot_be_laid_out_is_refused);
    tcase_add_test(tests, every_failed_allocation_is_reported);
    tcase_add_test(tests, an_air_chart_as_text);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
