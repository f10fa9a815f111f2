// SPDX-License-Identifier: GPL-3.0-or-later
// The drying chart: a path with numbered marks on the Teas chart, bands of what is left beside it.
#include "chart_asserts.h"
#include "charts.h"
#include "graphs.h"
#include "present/chart/drying_chart.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

enum { POINTS = 101, COMPONENTS = 3 };

static double evaporated[POINTS], percent[COMPONENTS][POINTS];
static const double *layers[COMPONENTS];
static struct teas places[POINTS];
static bool two[POINTS];
static struct drying_chart_input input;
static struct drying_layout layout;
static struct text_metric metric;
static struct error err;
static const char *const names[COMPONENTS] = {"benzyl-alcohol", "propan-2-ol", "isooctane"};

// Fractional parameters of Burke 1984 (from memory: AIC Book and Paper Group Annual 3): any would do.
static const struct teas corners[COMPONENTS] = {{48, 16, 36}, {41, 18, 41}, {100, 0, 0}};
static const double aged[] = {57, 15, 28, 53, 30, 17, 47, 32, 21, 36, 18, 46, 43, 15, 42};
static const struct teas_chart_area area = {"dammar, aged", aged, 5, TEAS_CONFIDENCE_LOW};

// The light ones leave evenly, the slow one stays: invented.
static void begin(void) {
    metric = metric_fixed();
    error_clear(&err);
    for (size_t i = 0; i < POINTS; i++) {
        double gone = 0.999 * (double)i / (POINTS - 1);
        double amounts[COMPONENTS] = {0.05 * (1 - pow(gone, 20)), 0.25 * (1 - gone), 0.7 * pow(1 - gone, 1.3)};
        double sum = amounts[0] + amounts[1] + amounts[2];
        evaporated[i] = gone;
        places[i] = (struct teas){0, 0, 0};
        for (size_t c = 0; c < COMPONENTS; c++) {
            percent[c][i] = 100 * amounts[c] / sum;
            places[i].fd += amounts[c] / sum * corners[c].fd;
            places[i].fp += amounts[c] / sum * corners[c].fp;
            places[i].fh += amounts[c] / sum * corners[c].fh;
            layers[c] = percent[c];
        }
        two[i] = i >= 20 && i <= 40;
    }
    input = (struct drying_chart_input){.page = chart_page_case(PAPER_A4, SHEET_HALF),
                                        .blend = "propan-2-ol 25 + isooctane 70 + benzyl-alcohol 5",
                                        .rule = "volume mean of published fractions",
                                        .models = "activities by a model",
                                        .evaporated = evaporated,
                                        .places = places,
                                        .count = POINTS,
                                        .names = names,
                                        .volume_percent = layers,
                                        .component_count = COMPONENTS};
}

static void end(void) {
    drying_layout_release(&layout);
    layout = (struct drying_layout){0};
}

static enum status lay_out(void) {
    return drying_layout_make(&input, &metric, &layout, &err);
}

static void make(void) {
    ck_assert_msg(lay_out() == STATUS_OK, "%s", err.text);
    const char *fault = panel_fault(&layout.composition, &layout.teas.page);
    ck_assert_msg(fault == NULL, "%s", fault);
}

static const struct layout_mark *mark_named(const char *text) {
    for (size_t i = 0; i < layout.teas.mark_count; i++)
        if (layout.teas.marks[i].text && strcmp(layout.teas.marks[i].text, text) == 0)
            return &layout.teas.marks[i];
    return NULL;
}

START_TEST(the_path_has_its_seven_marks) {
    static const char *const texts[] = {"0", "20", "40", "60", "80", "90", "95"};
    make();
    ck_assert_uint_eq(layout.teas.mark_count, 7);
    ck_assert_uint_eq(layout.teas.path_count, 1);
    ck_assert_uint_eq(layout.teas.paths[0].spot_count, POINTS);
    for (size_t i = 0; i < 7; i++) {
        const struct layout_mark *mark = mark_named(texts[i]);
        ck_assert_ptr_nonnull(mark);
        ck_assert_int_eq(mark->style.shape, MARK_RING);
        double nearest = INFINITY; // on the path
        for (size_t k = 1; k < POINTS; k++)
            nearest = fmin(nearest, segment_distance((struct segment){layout.teas.paths[0].spots[k - 1],
                                                                      layout.teas.paths[0].spots[k]},
                                                     mark->at));
        ck_assert_double_lt(nearest, 1e-9);
    }
    ck_assert_double_eq(mark_named("0")->at.x, layout.teas.paths[0].spots[0].x);
}
END_TEST

START_TEST(an_arrow_shows_the_way) {
    make();
    const struct layout_path *path = &layout.teas.paths[0];
    ck_assert(path->has_head);
    struct spot start = path->spots[0];
    double before = hypot(path->head.from.x - start.x, path->head.from.y - start.y);
    double after = hypot(path->head.to.x - start.x, path->head.to.y - start.y);
    ck_assert_double_gt(after, before);
}
END_TEST

START_TEST(a_liquid_that_stays_where_it_is_has_one_mark_and_no_arrow) {
    for (size_t i = 0; i < POINTS; i++)
        places[i] = corners[1];
    make();
    ck_assert(!layout.teas.paths[0].has_head);
    ck_assert_uint_eq(layout.teas.label_count, 1);
    ck_assert_str_eq(layout.teas.labels[0].number.text, "0\u201395");
}
END_TEST

START_TEST(both_panels_share_the_page) {
    static const enum paper papers[] = {PAPER_A4, PAPER_LETTER};
    static const enum sheet_size sheets[] = {SHEET_HALF, SHEET_FULL};
    input.areas = &area;
    input.area_count = 1;
    for (size_t i = 0; i < 4; i++) {
        input.page.paper = papers[i % 2];
        input.page.sheet = sheets[i / 2];
        make();
        struct box room = layout.teas.room;
        ck_assert(box_inside(layout.composition.plot, room));
        ck_assert(!boxes_overlap(room, layout.teas.legend));
        ck_assert(layout.teas.polar.x + 10 < room.x || layout.teas.polar.y + 20 < room.y);
        ck_assert_double_lt(room.y + room.height, layout.teas.page.caption_rule.from.y);
        drying_layout_release(&layout);
    }
}
END_TEST

START_TEST(bands_and_areas_have_different_hatches) {
    input.areas = &area;
    input.area_count = 1;
    make();
    ck_assert_uint_eq(layout.composition.band_count, COMPONENTS);
    for (size_t i = 0; i < COMPONENTS; i++)
        ck_assert_uint_ne(layout.composition.bands[i].style, layout.teas.areas[0].style);
    ck_assert_str_eq(layout.composition.band_labels[0].number.text, "benzyl-alcohol");
}
END_TEST

START_TEST(a_stretch_of_two_liquids_is_thick_on_the_axis) {
    make();
    ck_assert_uint_eq(layout.composition.spans.count, 0);
    drying_layout_release(&layout);
    input.two = two;
    make();
    ck_assert_uint_eq(layout.composition.spans.count, 1);
    struct box plot = layout.composition.plot; // points 20 and 40 of 100, at 0.999 i / 100
    ck_assert_double_eq_tol(layout.composition.spans.items[0].from.x, plot.x + plot.width * 0.1998, 1e-6);
    ck_assert_double_eq_tol(layout.composition.spans.items[0].to.x, plot.x + plot.width * 0.3996, 1e-6);
    ck_assert_ptr_nonnull(strstr(layout.composition.heading.items[1].text, "two liquids"));
}
END_TEST

START_TEST(a_path_that_ends_early_has_fewer_marks) {
    input.count = 50;
    make();
    ck_assert_ptr_nonnull(mark_named("40"));
    ck_assert_ptr_null(mark_named("60"));
}
END_TEST

START_TEST(places_that_are_not_known_are_left_out_and_said) {
    for (size_t i = 30; i < 50; i++)
        places[i] = (struct teas){NAN, NAN, NAN};
    percent[1][70] = NAN;
    make();
    ck_assert_uint_eq(layout.teas.paths[0].spot_count, POINTS - 20);
    ck_assert_ptr_null(mark_named("40"));
    ck_assert(caption_has(&layout.teas.page, "no numbers: 21"));
    drying_layout_release(&layout);
    for (size_t i = 0; i < POINTS; i++)
        places[i] = (struct teas){NAN, 0, 0};
    make(); // nothing on the Teas chart, the bands all the same
    ck_assert_uint_eq(layout.teas.mark_count, 0);
    ck_assert_uint_eq(layout.composition.band_count, COMPONENTS);
}
END_TEST

START_TEST(one_component_fills_the_graph) {
    for (size_t i = 0; i < POINTS; i++)
        percent[0][i] = 100;
    input.component_count = 1;
    make();
    ck_assert_uint_eq(layout.composition.band_count, 1);
    ck_assert(!layout.composition.band_labels[0].has_leader);
}
END_TEST

START_TEST(the_caption_says_what_it_is) {
    make();
    ck_assert(caption_has(&layout.teas.page, "Mixing rule: volume mean of published fractions"));
    ck_assert(caption_has(&layout.teas.page, "Blend: propan-2-ol 25 + isooctane 70 + benzyl-alcohol 5"));
    ck_assert(caption_has(&layout.teas.page, input.models));
    ck_assert(caption_has(&layout.teas.page, "Does not prove safety."));
    drying_layout_release(&layout);
    input.page.title = NULL; // the blend takes its place
    make();
    ck_assert_ptr_nonnull(strstr(layout.teas.page.title, "propan-2-ol 25"));
}
END_TEST

START_TEST(words_of_another_language) {
    struct drying_chart_words german = *drying_chart_words_english();
    german.heading = "Trocknung, berechnet";
    german.composition = "Was bleibt";
    input.words = &german;
    make();
    ck_assert_str_eq(layout.teas.page.header.items[1].text, german.heading);
    ck_assert_str_eq(layout.composition.heading.items[0].text, german.composition);
}
END_TEST

static void assert_refused(const char *sentence) {
    assert_layout_refused(lay_out, &err, sentence);
}

START_TEST(what_cannot_be_laid_out_is_refused) {
    input.count = 1;
    assert_refused("1 points");
    input.count = POINTS;
    evaporated[7] = evaporated[6];
    assert_refused("point 8");
    evaporated[7] = NAN;
    assert_refused("point 8");
    begin();
    input.component_count = 0;
    assert_refused("0 components");
    begin();
    places[3] = (struct teas){50, 50, 50};
    assert_refused("place 4");
}
END_TEST

START_TEST(every_failed_allocation_is_reported) {
    input.areas = &area;
    input.area_count = 1;
    assert_failed_allocations_reported(lay_out, 5, 3000);
}
END_TEST

START_TEST(a_drying_chart_as_text) {
    struct text text = {0};
    input.areas = &area;
    input.area_count = 1;
    input.two = two;
    make();
    drying_layout_text(&layout, &text);
    assert_golden("drying-a4-half.txt", &text);
    text_release(&text);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("drying chart");
    TCase *tests = tcase_create("drying");
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, the_path_has_its_seven_marks);
    tcase_add_test(tests, an_arrow_shows_the_way);
    tcase_add_test(tests, a_liquid_that_stays_where_it_is_has_one_mark_and_no_arrow);
    tcase_add_test(tests, both_panels_share_the_page);
    tcase_add_test(tests, bands_and_areas_have_different_hatches);
    tcase_add_test(tests, a_stretch_of_two_liquids_is_thick_on_the_axis);
    tcase_add_test(tests, a_path_that_ends_early_has_fewer_marks);
    tcase_add_test(tests, places_that_are_not_known_are_left_out_and_said);
    tcase_add_test(tests, one_component_fills_the_graph);
    tcase_add_test(tests, the_caption_says_what_it_is);
    tcase_add_test(tests, words_of_another_language);
    tcase_add_test(tests, what_cannot_be_laid_out_is_refused);
    tcase_add_test(tests, every_failed_allocation_is_reported);
    tcase_add_test(tests, a_drying_chart_as_text);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
