// SPDX-License-Identifier: GPL-3.0-or-later
// Labels find free places, near ones first, and always the same.
#include "base/memory.h"
#include "present/chart/labels.h"
#include "suite.h"

#include <check.h>
#include <string.h>

static const struct box page = {0, 0, 200, 200};

static struct label_wish wish_at(double x, double y) {
    return (struct label_wish){.point = {x, y}, .radius = 3, .variants = 2, .sizes = {{50, 10}, {12, 8}}};
}

static struct disc mark_of(const struct label_wish *wish) {
    return (struct disc){wish->point, wish->radius};
}

static void assert_apart(const struct label_place *places, size_t count) {
    for (size_t i = 0; i < count; i++)
        for (size_t j = 0; j < count; j++) {
            if (i == j || !places[i].placed || !places[j].placed)
                continue;
            ck_assert(!boxes_overlap(places[i].box, places[j].box));
            ck_assert(!places[i].has_leader || !box_meets_segment(places[j].box, places[i].leader));
            ck_assert(!places[i].has_leader || !places[j].has_leader ||
                      !segments_cross(places[i].leader, places[j].leader));
        }
}

START_TEST(a_lone_label_stands_to_the_right) {
    struct label_wish wish = wish_at(100, 100);
    struct disc mark = mark_of(&wish);
    struct label_field field = {.bounds = page, .marks = &mark, .mark_count = 1};
    struct label_place place;
    ck_assert(labels_place(&field, &wish, 1, &place));
    ck_assert(place.placed && !place.has_leader);
    ck_assert_uint_eq(place.variant, 0);
    ck_assert_double_gt(place.box.x, 103);
    ck_assert_double_lt(place.box.x, 106);
    ck_assert_double_eq_tol(place.box.y + place.box.height / 2, 100, 1e-9);
}
END_TEST

START_TEST(a_label_at_the_edge_turns_inwards) {
    struct label_wish wish = wish_at(195, 100);
    struct label_field field = {.bounds = page};
    struct label_place place;
    ck_assert(labels_place(&field, &wish, 1, &place));
    ck_assert(place.placed && box_inside(place.box, page));
    ck_assert_double_lt(place.box.x, 195);
}
END_TEST

START_TEST(the_short_form_is_taken_where_the_long_one_does_not_fit) {
    struct label_wish wish = wish_at(30, 30);
    struct label_field field = {.bounds = {0, 0, 60, 60}};
    const struct box wall[] = {{45, 0, 15, 60}};
    field.taken = wall;
    field.taken_count = 1;
    wish.sizes[0].width = 80;
    struct label_place place;
    ck_assert(labels_place(&field, &wish, 1, &place));
    ck_assert(place.placed);
    ck_assert_uint_eq(place.variant, 1);
}
END_TEST

START_TEST(an_enclosed_mark_gets_a_leader_over_the_wall_only_if_it_may) {
    struct label_wish wish = wish_at(100, 100);
    const struct box ring[] = {{90, 80, 20, 6}, {90, 114, 20, 6}, {80, 80, 10, 40}, {110, 80, 10, 20}};
    struct label_field field = {.bounds = page, .taken = ring, .taken_count = 4};
    wish.variants = 1;
    wish.sizes[0].width = 30;
    wish.sizes[0].height = 16;
    struct label_place place;
    ck_assert(labels_place(&field, &wish, 1, &place)); // the gap at the lower right lets a leader out
    ck_assert(place.placed && place.has_leader);
    for (size_t i = 0; i < 4; i++)
        ck_assert(!box_meets_segment(ring[i], place.leader));
    const struct box closed[] = {{90, 80, 30, 6}, {90, 114, 30, 6}, {80, 80, 10, 40}, {112, 80, 10, 40}};
    field.taken = closed;
    ck_assert(labels_place(&field, &wish, 1, &place));
    ck_assert(!place.placed);
}
END_TEST

START_TEST(coincident_points_share_the_space) {
    struct label_wish wishes[6];
    struct disc marks[6];
    struct label_place places[6];
    for (size_t i = 0; i < 6; i++) {
        wishes[i] = wish_at(100, 100);
        marks[i] = mark_of(&wishes[i]);
    }
    struct label_field field = {.bounds = page, .marks = marks, .mark_count = 6};
    ck_assert(labels_place(&field, wishes, 6, places));
    for (size_t i = 0; i < 6; i++)
        ck_assert(places[i].placed);
    assert_apart(places, 6);
}
END_TEST

START_TEST(a_label_without_room_is_left_out_and_the_rest_stays_apart) {
    enum { COUNT = 40 };
    static struct label_wish wishes[COUNT];
    static struct disc marks[COUNT];
    static struct label_place places[COUNT];
    for (size_t i = 0; i < COUNT; i++) {
        wishes[i] = wish_at(20 + 6 * (double)(i % 4), 20 + 6 * (double)(i / 4));
        wishes[i].variants = 1;
        marks[i] = mark_of(&wishes[i]);
    }
    struct label_field field = {.bounds = {0, 0, 120, 100}, .marks = marks, .mark_count = COUNT};
    ck_assert(labels_place(&field, wishes, COUNT, places));
    size_t placed = 0;
    for (size_t i = 0; i < COUNT; i++)
        placed += places[i].placed;
    ck_assert_uint_gt(placed, 4);
    ck_assert_uint_lt(placed, COUNT);
    assert_apart(places, COUNT);
}
END_TEST

START_TEST(important_labels_choose_first) {
    struct label_wish wishes[2] = {wish_at(20, 30), wish_at(20, 30)};
    wishes[1].priority = 1;
    wishes[0].variants = wishes[1].variants = 1;
    struct label_field field = {.bounds = {0, 24, 76, 12}}; // room for one
    struct label_place places[2];
    ck_assert(labels_place(&field, wishes, 2, places));
    ck_assert(places[1].placed);
    ck_assert(!places[0].placed);
}
END_TEST

START_TEST(the_same_input_gives_the_same_places) {
    enum { COUNT = 25 };
    struct label_wish wishes[COUNT];
    struct label_place first[COUNT], second[COUNT];
    for (size_t i = 0; i < COUNT; i++)
        wishes[i] = wish_at(50 + 13 * (double)(i % 5), 60 + 9 * (double)(i / 5));
    struct label_field field = {.bounds = page};
    ck_assert(labels_place(&field, wishes, COUNT, first));
    ck_assert(labels_place(&field, wishes, COUNT, second));
    for (size_t i = 0; i < COUNT; i++) {
        ck_assert_int_eq(first[i].placed, second[i].placed);
        ck_assert_double_eq(first[i].box.x, second[i].box.x);
        ck_assert_double_eq(first[i].box.y, second[i].box.y);
    }
}
END_TEST

START_TEST(failed_allocations_are_reported) {
    struct label_wish wish = wish_at(100, 100);
    struct label_field field = {.bounds = page};
    struct label_place place;
    memory_fail_at(1);
    ck_assert(!labels_place(&field, &wish, 1, &place));
    memory_fail_at(2);
    ck_assert(!labels_place(&field, &wish, 1, &place));
    memory_fail_at(0);
    ck_assert(labels_place(&field, &wish, 1, &place));
}
END_TEST

START_TEST(no_labels_are_no_trouble) {
    struct label_field field = {.bounds = page};
    struct label_place place;
    ck_assert(labels_place(&field, NULL, 0, &place));
}
END_TEST

int main(void) {
    Suite *suite = suite_create("labels");
    TCase *tests = tcase_create("places");
    tcase_add_test(tests, a_lone_label_stands_to_the_right);
    tcase_add_test(tests, a_label_at_the_edge_turns_inwards);
    tcase_add_test(tests, the_short_form_is_taken_where_the_long_one_does_not_fit);
    tcase_add_test(tests, an_enclosed_mark_gets_a_leader_over_the_wall_only_if_it_may);
    tcase_add_test(tests, coincident_points_share_the_space);
    tcase_add_test(tests, a_label_without_room_is_left_out_and_the_rest_stays_apart);
    tcase_add_test(tests, important_labels_choose_first);
    tcase_add_test(tests, the_same_input_gives_the_same_places);
    tcase_add_test(tests, failed_allocations_are_reported);
    tcase_add_test(tests, no_labels_are_no_trouble);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
