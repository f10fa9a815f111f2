// SPDX-License-Identifier: GPL-3.0-or-later
// Everything stays apart without colour, and dark enough to be copied.
#include "present/chart/style.h"
#include "present/chart/teas_layout.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

// Relative luminance of an sRGB colour (WCAG 2.1, definition of "relative luminance").
static double linear(double part) {
    return part <= 0.03928 ? part / 12.92 : pow((part + 0.055) / 1.055, 2.4);
}

static double luminance(struct rgb c) {
    return 0.2126 * linear(c.red) + 0.7152 * linear(c.green) + 0.0722 * linear(c.blue);
}

static double contrast_with_white(struct rgb c) {
    return 1.05 / (luminance(c) + 0.05);
}

static bool same_dashes(const struct pen *a, const struct pen *b) {
    return a->dash_count == b->dash_count && memcmp(a->dashes, b->dashes, sizeof a->dashes) == 0;
}

// Degrees between two directions of lines, 0 to 90.
static double turned(const struct hatch_style *a, const struct hatch_style *b) {
    double cosine = fabs(a->unit_x * b->unit_x + a->unit_y * b->unit_y);
    return acos(fmin(1, cosine)) * 180 / acos(-1);
}

// What a person sees on a grey copy: lines turned by 20 degrees or more, crossed or not, broken or not.
static bool hatches_differ(const struct hatch_style *a, const struct hatch_style *b) {
    return a->crossed != b->crossed || turned(a, b) >= 20 || !same_dashes(&a->pen, &b->pen);
}

START_TEST(any_two_areas_differ_without_colour) {
    for (size_t i = 0; i < AREA_STYLES; i++) {
        for (size_t j = i + 1; j < AREA_STYLES; j++) {
            struct area_style a = area_style(i);
            struct area_style b = area_style(j);
            ck_assert_msg(hatches_differ(&a.hatch, &b.hatch) || !same_dashes(&a.outline, &b.outline),
                          "areas %zu and %zu look the same in grey", i, j);
        }
    }
}
END_TEST

START_TEST(any_two_lines_differ_without_colour) {
    for (size_t i = 0; i < LINE_STYLES; i++) {
        for (size_t j = i + 1; j < LINE_STYLES; j++) {
            struct line_style a = line_style(i);
            struct line_style b = line_style(j);
            bool marks_differ = a.marked != b.marked || (a.marked && a.mark.shape != b.mark.shape);
            ck_assert_msg(!same_dashes(&a.pen, &b.pen) || marks_differ, "lines %zu and %zu look the same in grey", i,
                          j);
        }
    }
    ck_assert_uint_eq(line_style(LINE_SOLID).pen.dash_count, 0);
    ck_assert_double_eq(line_style(LINE_DOTTED).pen.dashes[0], 0); // round dots
}
END_TEST

START_TEST(the_first_areas_differ_in_hatch_alone) {
    for (size_t i = 0; i < 8; i++) {
        for (size_t j = i + 1; j < 8; j++) {
            struct area_style a = area_style(i);
            struct area_style b = area_style(j);
            ck_assert_msg(hatches_differ(&a.hatch, &b.hatch), "hatches %zu and %zu", i, j);
        }
    }
}
END_TEST

START_TEST(no_hatch_follows_the_grid) {
    static const struct hatch_style grid[] = {
        {.unit_x = 1}, {.unit_x = 0.5, .unit_y = 0.8660254037844386}, {.unit_x = 0.5, .unit_y = -0.8660254037844386}};
    for (size_t i = 0; i < AREA_STYLES; i++)
        for (size_t g = 0; g < 3; g++) {
            struct hatch_style hatch = area_style(i).hatch;
            ck_assert_double_ge(turned(&hatch, &grid[g]), 14.5);
            ck_assert_double_eq_tol(hypot(hatch.unit_x, hatch.unit_y), 1, 1e-12);
        }
}
END_TEST

// Text over a hatch stays readable when the hatch covers little of the paper.
START_TEST(hatches_are_light_and_lines_thick_enough) {
    for (size_t i = 0; i < AREA_STYLES; i++) {
        struct area_style style = area_style(i);
        double ink = style.hatch.pen.width / style.hatch.spacing * (style.hatch.crossed ? 2 : 1);
        ck_assert_double_le(ink, 0.31);
        ck_assert_double_ge(style.hatch.pen.width, HAIRLINE);
        ck_assert_double_ge(style.outline.width, 2 * HAIRLINE);
        ck_assert_double_gt(style.outline.width, style.hatch.pen.dash_count ? 0 : style.hatch.pen.width);
    }
}
END_TEST

START_TEST(inks_that_carry_meaning_are_dark_in_colour_and_in_grey) {
    for (int ink = 0; ink < INK_COUNT; ink++) {
        if (ink == INK_PALE || ink == INK_WHITE) // grid and paper
            continue;
        ck_assert_double_ge(contrast_with_white(ink_colour((enum ink)ink)), 4.5);
        ck_assert_double_ge(contrast_with_white(ink_as_grey((enum ink)ink)), 4.5);
    }
}
END_TEST

START_TEST(grey_inks_have_no_hue) {
    for (int ink = 0; ink < INK_COUNT; ink++) {
        struct rgb grey = ink_as_grey((enum ink)ink);
        ck_assert_double_eq(grey.red, grey.green);
        ck_assert_double_eq(grey.green, grey.blue);
    }
}
END_TEST

START_TEST(every_kind_of_point_has_its_own_shape) {
    for (int i = 0; i < TEAS_POINT_KINDS; i++) {
        for (int j = i + 1; j < TEAS_POINT_KINDS; j++)
            ck_assert_int_ne(teas_mark_style((enum teas_point_kind)i).shape,
                             teas_mark_style((enum teas_point_kind)j).shape);
        // 1.5 mm across at least, to be told apart on a copy.
        ck_assert_double_ge(2 * teas_mark_style((enum teas_point_kind)i).radius, 1.5 / 25.4 * 72);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("style");
    TCase *tests = tcase_create("grey");
    tcase_add_test(tests, any_two_areas_differ_without_colour);
    tcase_add_test(tests, any_two_lines_differ_without_colour);
    tcase_add_test(tests, the_first_areas_differ_in_hatch_alone);
    tcase_add_test(tests, no_hatch_follows_the_grid);
    tcase_add_test(tests, hatches_are_light_and_lines_thick_enough);
    tcase_add_test(tests, inks_that_carry_meaning_are_dark_in_colour_and_in_grey);
    tcase_add_test(tests, grey_inks_have_no_hue);
    tcase_add_test(tests, every_kind_of_point_has_its_own_shape);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
