// SPDX-License-Identifier: GPL-3.0-or-later
// The section drawing: everything on the page, layers from the bottom up, spots apart, and what does not fit is
// refused.
#include "present/chart/section_chart.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct section_column columns[SECTION_COLUMNS_MAX + 1];
static struct section_layout layout;

static struct section_chart_input input_of(size_t column_count, size_t layers) {
    for (size_t i = 0; i < column_count; i++) {
        columns[i] = (struct section_column){.title = "V1", .count = layers};
        for (size_t k = 0; k < layers; k++) {
            columns[i].layers[k] = (struct section_layer){.name = "2  isolating varnish",
                                                          .legend = "2  a resin 15 % w/v in a carrier, brush",
                                                          .style = k,
                                                          .spots = k == 1,
                                                          .planned = k > 1,
                                                          .notes = {"4: cannot be judged", "5: may lift it"},
                                                          .note_strong = {true, false},
                                                          .note_count = 2};
        }
    }
    return (struct section_chart_input){.page = {.title = "Ferry", .object = "LK-14", .sheet = SHEET_HALF},
                                        .columns = columns,
                                        .column_count = column_count};
}

static enum status lay(const struct section_chart_input *input, struct error *err) {
    struct text_metric metric = metric_fixed();
    return section_layout_make(input, &metric, &layout, err);
}

static void is_on_page(void) {
    for (size_t i = 0; i < layout.box_count; i++) {
        const struct box *box = &layout.boxes[i].box;
        ck_assert(box->x >= 0 && box->y >= 0 && box->width > 0 && box->height > 0);
        ck_assert(box->x + box->width <= layout.page.width && box->y + box->height < layout.page.caption_rule.from.y);
    }
    for (size_t i = 0; i < layout.texts.count; i++) {
        struct box box = layout_text_box(&layout.texts.items[i]);
        ck_assert_msg(box.x + box.width <= layout.page.width && box.y + box.height <= layout.page.caption_rule.from.y,
                      "'%s' leaves its room", layout.texts.items[i].text);
    }
}

START_TEST(everything_is_on_the_page) {
    struct error err = {0};
    for (size_t count = 1; count <= SECTION_COLUMNS_MAX; count++)
        for (size_t layers = 1; layers <= 5; layers++) {
            struct section_chart_input input = input_of(count, layers);
            input.page.sheet = layers > 3 ? SHEET_FULL : SHEET_HALF;
            ck_assert_msg(lay(&input, &err) == STATUS_OK, "%s", err.text);
            is_on_page();
            // one box a layer, three for the one that covers spots only
            ck_assert_uint_eq(layout.box_count, count * (layers + (layers > 1 ? 2 : 0)));
            section_layout_release(&layout);
        }
}
END_TEST

START_TEST(layers_lie_on_each_other) {
    struct section_chart_input input = input_of(1, 3);
    struct error err = {0};
    ck_assert_int_eq(lay(&input, &err), STATUS_OK);
    const struct box *bottom = &layout.boxes[0].box, *spot = &layout.boxes[1].box, *next = &layout.boxes[2].box,
                     *top = &layout.boxes[4].box;
    ck_assert_double_eq_tol(spot->y + spot->height, bottom->y, 1e-9);
    ck_assert_double_eq_tol(top->y + top->height, spot->y, 1e-9);
    ck_assert_double_gt(next->x, spot->x + spot->width); // a gap
    ck_assert(layout.boxes[4].planned && !layout.boxes[0].planned);
    section_layout_release(&layout);
}
END_TEST

START_TEST(what_does_not_fit_is_refused) {
    struct error err = {0};
    struct section_chart_input input = input_of(0, 2);
    ck_assert_int_eq(lay(&input, &err), STATUS_RANGE);
    input = input_of(SECTION_COLUMNS_MAX + 1, 2);
    ck_assert_int_eq(lay(&input, &err), STATUS_RANGE);
    input = input_of(4, SECTION_LAYERS_MAX);
    ck_assert_int_eq(lay(&input, &err), STATUS_RANGE);
    ck_assert_ptr_nonnull(strstr(err.text, "--size full"));
    input.page.dpi = 5;
    ck_assert_int_eq(lay(&input, &err), STATUS_RANGE);
}
END_TEST

static Suite *suite(void) {
    Suite *suite = suite_create("section_chart");
    TCase *all = tcase_create("all");
    tcase_add_test(all, everything_is_on_the_page);
    tcase_add_test(all, layers_lie_on_each_other);
    tcase_add_test(all, what_does_not_fit_is_refused);
    suite_add_tcase(suite, all);
    return suite;
}

int main(void) {
    return suite_run(suite());
}
