// SPDX-License-Identifier: GPL-3.0-or-later
// Hazard pictograms: a square on its point, a frame wide enough, the symbol inside it.
#include "present/chart/pictogram.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

static const int numbers[] = {2, 3, 5, 6, 7, 8, 9};
enum { COUNT = sizeof numbers / sizeof numbers[0] };

static struct picture draw(int number, double x, double y, double side, bool black_and_white) {
    struct picture picture = {.width = 500, .height = 500, .black_and_white = black_and_white};
    pictogram_draw(&picture, number, x, y, side);
    ck_assert(!picture.failed);
    return picture;
}

static bool is_colour(struct rgb a, enum ink ink) {
    struct rgb b = ink_colour(ink);
    return a.red == b.red && a.green == b.green && a.blue == b.blue;
}

// Distance of a spot from the centre along the axes of a square on its point: the square of half diagonal r is <= r.
static double reach(struct spot spot, struct spot centre) {
    return fabs(spot.x - centre.x) + fabs(spot.y - centre.y);
}

START_TEST(numbers_of_the_system) {
    for (int i = 0; i < 12; i++) {
        bool listed = false;
        for (int k = 0; k < COUNT; k++)
            listed = listed || numbers[k] == i;
        ck_assert(pictogram_known(i) == listed);
        ck_assert((pictogram_name(i) != NULL) == listed);
    }
    ck_assert_str_eq(pictogram_name(6), "skull and crossbones");
}
END_TEST

// The side is that of the square, not of the upright square round it (ECHA, Guidance on labelling, from memory).
START_TEST(frame_is_a_square_on_its_point) {
    double side = 28.35, x = 30, y = 50, half = side * sqrt(2) / 2;
    ck_assert_double_eq_tol(pictogram_width(side), 2 * half, 1e-12);
    struct picture picture = draw(2, x, y, side, false);
    const struct picture_item *frame = &picture.items[0];
    ck_assert(frame->filled && is_colour(frame->fill, INK_RED));
    ck_assert_uint_eq(frame->spot_count, 4);
    struct spot centre = {x + half, y + half};
    for (size_t i = 0; i < 4; i++) {
        ck_assert_double_eq_tol(reach(frame->spots[i], centre), half, 1e-9);
        ck_assert(fabs(frame->spots[i].x - centre.x) < 1e-9 || fabs(frame->spots[i].y - centre.y) < 1e-9);
    }
    picture_release(&picture);
}
END_TEST

// Own choice: wide enough to be seen, 0.6 mm at least on the smallest pictogram of 10 mm, and no symbol touches it.
START_TEST(symbol_lies_inside_a_wide_frame) {
    double side = 10 / 25.4 * 72, half = side * sqrt(2) / 2;
    struct spot centre = {half, half};
    for (int k = 0; k < COUNT; k++) {
        struct picture picture = draw(numbers[k], 0, 0, side, false);
        double inner = reach(picture.items[1].spots[0], centre);
        ck_assert(is_colour(picture.items[1].fill, INK_WHITE));
        ck_assert_double_ge((half - inner) / sqrt(2) / 72 * 25.4, 0.6);
        double lowest = INFINITY, highest = -INFINITY;
        for (size_t i = 2; i < picture.count; i++) {
            const struct picture_item *item = &picture.items[i];
            ck_assert(is_colour(item->fill, INK_BLACK) || is_colour(item->fill, INK_WHITE));
            for (size_t s = 0; s < item->spot_count; s++) {
                if (is_colour(item->fill, INK_BLACK)) // a disc reaches sqrt(2) radii in this measure
                    ck_assert_msg(reach(item->spots[s], centre) + sqrt(2) * item->radius < inner - 0.3,
                                  "GHS%02d touches its frame", numbers[k]);
                lowest = fmin(lowest, item->spots[s].y - item->radius);
                highest = fmax(highest, item->spots[s].y + item->radius);
            }
        }
        ck_assert_double_ge((highest - lowest) / (2 * half), 0.5); // fills the square
        picture_release(&picture);
    }
}
END_TEST

// On a grey copy the frame is dark, the symbol black.
START_TEST(black_and_white_keeps_the_contrast) {
    for (int k = 0; k < COUNT; k++) {
        struct picture picture = draw(numbers[k], 0, 0, 30, true);
        for (size_t i = 0; i < picture.count; i++) {
            struct rgb fill = picture.items[i].fill;
            ck_assert(fill.red == fill.green && fill.green == fill.blue);
            ck_assert(fill.red <= 0.35 || fill.red == 1);
        }
        picture_release(&picture);
    }
}
END_TEST

START_TEST(symbols_differ) {
    for (int a = 0; a < COUNT; a++)
        for (int b = a + 1; b < COUNT; b++) {
            struct picture one = draw(numbers[a], 0, 0, 30, false), other = draw(numbers[b], 0, 0, 30, false);
            bool same = one.count == other.count;
            for (size_t i = 2; same && i < one.count; i++)
                same = one.items[i].spot_count == other.items[i].spot_count &&
                       memcmp(one.items[i].spots, other.items[i].spots,
                              one.items[i].spot_count * sizeof(struct spot)) == 0;
            ck_assert_msg(!same, "GHS%02d and GHS%02d", numbers[a], numbers[b]);
            picture_release(&one);
            picture_release(&other);
        }
}
END_TEST

// Twice the side, twice as far from the corner.
START_TEST(drawing_scales) {
    for (int k = 0; k < COUNT; k++) {
        struct picture one = draw(numbers[k], 0, 0, 20, false), two = draw(numbers[k], 0, 0, 40, false);
        ck_assert_uint_eq(one.count, two.count);
        for (size_t i = 0; i < one.count; i++)
            for (size_t s = 0; s < one.items[i].spot_count; s++) {
                ck_assert_double_eq_tol(2 * one.items[i].spots[s].x, two.items[i].spots[s].x, 1e-9);
                ck_assert_double_eq_tol(2 * one.items[i].spots[s].y, two.items[i].spots[s].y, 1e-9);
            }
        picture_release(&one);
        picture_release(&two);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("pictogram");
    TCase *tests = tcase_create("pictogram");
    tcase_add_test(tests, numbers_of_the_system);
    tcase_add_test(tests, frame_is_a_square_on_its_point);
    tcase_add_test(tests, symbol_lies_inside_a_wide_frame);
    tcase_add_test(tests, black_and_white_keeps_the_contrast);
    tcase_add_test(tests, symbols_differ);
    tcase_add_test(tests, drawing_scales);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
