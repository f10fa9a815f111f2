// SPDX-License-Identifier: GPL-3.0-or-later
// Labels: everything on them, nothing cut, nothing over anything else; what is left out and in which order; sheets.
#include "base/memory.h"
#include "base/text.h"
#include "present/chart/label_picture.h"
#include "present/chart/pictogram.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const struct label_statement hazards[] = {
    {"H225", "Highly flammable liquid and vapour.", true},
    {"H304", "May be fatal if swallowed and enters airways.", false},
    {"H319", "Causes serious eye irritation.", true},
    {"H336", "May cause drowsiness or dizziness.", true},
    {"H361d", "Suspected of damaging the unborn child.", false},
    {"H373", "May cause damage to organs through prolonged or repeated exposure.", false},
};
static const struct label_statement precautions[] = {
    {"P210", "Keep away from heat, hot surfaces, sparks, open flames and other ignition sources. No smoking.", false},
    {"P301+P310", "IF SWALLOWED: Immediately call a POISON CENTER/doctor.", false},
    {"P331", "Do NOT induce vomiting.", false},
    {"P260", "Do not breathe vapours/spray.", false},
    {"P280", "Wear protective gloves/eye protection.", false},
    {"P305+P351+P338", "IF IN EYES: Rinse cautiously with water for several minutes. Continue rinsing.", false},
};

static struct label_content usual(void) {
    return (struct label_content){.name = "Test blend B3",
                                  .proportions = "toluene 60 + acetone 40 (parts by volume)",
                                  .made = "Made 2026-11-25 by AB",
                                  .signal = "DANGER",
                                  .contains = "Contains: toluene, acetone.",
                                  .pictograms = {8, 2, 7},
                                  .pictogram_count = 3,
                                  .hazards = hazards,
                                  .hazard_count = 6,
                                  .precautions = precautions,
                                  .precaution_count = 6,
                                  .left_out = "Left out for space:",
                                  .wording = "wording of ",
                                  .closing = "Computed; check against the data sheets."};
}

static struct error err;

static struct label_layout lay_out(const struct label_content *content, int bottle) {
    struct text_metric metric = metric_fixed();
    struct label_layout layout;
    enum status status = label_layout_make(content, &label_bottles[bottle], &metric, &layout, &err);
    ck_assert_msg(status == STATUS_OK, "%s", err.text);
    return layout;
}

static bool has_line_words(const struct label_layout *layout, const char *words) {
    struct text all = {0};
    for (size_t i = 0; i < layout->texts.count; i++)
        text_printf(&all, "%s ", layout->texts.items[i].text);
    bool found = strstr(text_bytes(&all), words) != NULL;
    text_release(&all);
    return found;
}

static void assert_whole(const struct label_layout *layout) {
    double width = pictogram_width(layout->pictogram_side), bottom = 0;
    for (size_t i = 0; i < layout->texts.count; i++) {
        const struct layout_text *line = &layout->texts.items[i];
        ck_assert_double_ge(line->size, LABEL_TEXT_SMALLEST - 1e-9);
        ck_assert_double_ge(line->x, layout->margin - 1e-9);
        ck_assert_msg(line->x + line->width <= layout->width - layout->margin + 1e-6, "'%s' is too wide", line->text);
        double top = line->y - line->size * TEXT_ASCENT;
        ck_assert_double_ge(top, bottom - 1e-6); // below the line before
        bottom = line->y;
        ck_assert_double_le(line->y + line->size * TEXT_DESCENT, layout->height - layout->margin + 1e-6);
        ck_assert_ptr_null(strstr(line->text, "\u2026"));
        for (size_t k = 0; k < layout->pictogram_count; k++) {
            const struct label_pictogram *p = &layout->pictograms[k];
            bool beside = line->y > p->y && top < p->y + width;
            ck_assert_msg(!beside || line->x >= p->x + width, "'%s' lies over a pictogram", line->text);
        }
    }
    for (size_t k = 0; k < layout->pictogram_count; k++) {
        const struct label_pictogram *p = &layout->pictograms[k];
        ck_assert(p->x >= layout->margin - 1e-9 && p->y >= layout->margin - 1e-9);
        ck_assert(p->x + width <= layout->width - layout->margin + 1e-6);
        ck_assert(p->y + width <= layout->height - layout->margin + 1e-6);
        for (size_t j = 0; j < k; j++) { // squares on their points do not cross
            double apart = fabs(p->x - layout->pictograms[j].x) + fabs(p->y - layout->pictograms[j].y);
            ck_assert_double_ge(apart, width - 1e-6);
        }
    }
}

START_TEST(everything_stands_on_every_bottle) {
    struct label_content content = usual();
    for (int bottle = 0; bottle < LABEL_BOTTLES; bottle++) {
        struct label_layout layout = lay_out(&content, bottle);
        assert_whole(&layout);
        ck_assert_str_eq(layout.left_out, "");
        ck_assert_uint_eq(layout.precaution_count, 6);
        for (size_t i = 0; i < 6; i++) {
            ck_assert_msg(has_line_words(&layout, hazards[i].text), "%s", hazards[i].code);
            ck_assert_msg(has_line_words(&layout, precautions[i].text), "%s", precautions[i].code);
            ck_assert(has_line_words(&layout, hazards[i].code) && has_line_words(&layout, precautions[i].code));
        }
        static const char *const others[] = {
            "Test blend B3", "toluene 60 + acetone 40",     "Made 2026-11-25 by AB",
            "DANGER",        "Contains: toluene, acetone.", "Computed; check against the data sheets."};
        for (size_t i = 0; i < 6; i++)
            ck_assert_msg(has_line_words(&layout, others[i]), "%s", others[i]);
        label_layout_release(&layout);
    }
}
END_TEST

// Annex I table 1.3 (from memory): 10 mm at least, 16 mm if possible; five points at least (own floor).
START_TEST(sizes_keep_their_limits) {
    struct label_content content = usual();
    double before = 0;
    for (int bottle = 0; bottle < LABEL_BOTTLES; bottle++) {
        struct label_layout layout = lay_out(&content, bottle);
        double side_mm = mm_from_points(layout.pictogram_side);
        ck_assert(side_mm > 10 - 1e-9 && side_mm < 16 + 1e-9);
        ck_assert(layout.text_size >= LABEL_TEXT_SMALLEST && layout.text_size <= label_bottles[bottle].largest_text);
        ck_assert_double_ge(layout.text_size, before);
        before = layout.text_size;
        if (bottle == LABEL_BOTTLES - 1) {
            ck_assert_double_eq_tol(side_mm, 16, 1e-9);
            ck_assert_double_ge(layout.text_size, LABEL_TEXT_READABLE);
        }
        label_layout_release(&layout);
    }
    for (int bottle = 1; bottle < LABEL_BOTTLES; bottle++) { // 52 x 74 mm if possible
        ck_assert_double_ge(label_bottles[bottle].height_mm, 52);
        ck_assert_double_ge(label_bottles[bottle].width_mm, 74);
    }
}
END_TEST

// A longer and longer name pushes out first the precautions, the last first, then the wording of hazard statements
// that may be left out, and is refused in the end; at no step is a text cut.
START_TEST(what_has_no_room_is_left_out_in_the_stated_order) {
    static const struct label_statement many[] = {
        {"H225", "Highly flammable liquid and vapour.", true},
        {"H304", "May be fatal if swallowed and enters airways.", false},
        {"H312", "Harmful in contact with skin.", true},
        {"H315", "Causes skin irritation.", true},
        {"H332", "Harmful if inhaled.", true},
        {"H373", "May cause damage to organs through prolonged or repeated exposure.", true},
        {"H410", "Very toxic to aquatic life with long lasting effects.", true},
    };
    struct label_content content = usual();
    content.hazards = many;
    content.hazard_count = 7;
    struct text_metric metric = metric_fixed();
    struct text name = {0};
    size_t precautions_before = 6;
    bool shortened = false, refused = false, dropped_all = false;
    while (!refused) {
        text_add(&name, "a longer name ");
        content.name = text_bytes(&name);
        struct label_layout layout;
        enum status status = label_layout_make(&content, &label_bottles[0], &metric, &layout, &err);
        if (status == STATUS_RANGE) {
            refused = true;
            ck_assert_ptr_nonnull(strstr(err.text, "30 mL"));
            break;
        }
        ck_assert_int_eq(status, STATUS_OK);
        assert_whole(&layout);
        if (!shortened && layout.codes_only) {
            ck_assert(dropped_all || precautions_before <= 1); // precautions went first
            ck_assert_ptr_nonnull(strstr(layout.left_out, "wording of H225, H312, H315, H332, H373, H410"));
            ck_assert(!has_line_words(&layout, many[0].text) && has_line_words(&layout, many[1].text));
            precautions_before = 6; // they may come back for the room that was won
            shortened = true;
        }
        ck_assert_uint_le(layout.precaution_count, precautions_before);
        precautions_before = layout.precaution_count;
        dropped_all = dropped_all || layout.precaution_count == 0;
        for (size_t i = 0; i < 6; i++) {
            bool printed = has_line_words(&layout, precautions[i].text);
            ck_assert(printed == (i < layout.precaution_count));
            ck_assert((strstr(layout.left_out, precautions[i].code) != NULL) == !printed);
        }
        if (layout.left_out[0]) {
            ck_assert(has_line_words(&layout, layout.left_out));
            ck_assert_double_lt(layout.text_size, 7); // smaller text came first
        }
        label_layout_release(&layout);
    }
    ck_assert(shortened && dropped_all && refused);
    text_release(&name);
}
END_TEST

START_TEST(a_word_wider_than_the_label_is_broken_not_cut) {
    struct label_content content = usual();
    char name[200];
    memset(name, 'm', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    content.name = name;
    struct label_layout layout = lay_out(&content, 1);
    assert_whole(&layout);
    size_t letters = 0;
    for (size_t i = 0; i < layout.texts.count; i++)
        if (layout.texts.items[i].text[0] == 'm')
            letters += strspn(layout.texts.items[i].text, "m");
    ck_assert_uint_eq(letters, sizeof name - 1);
    label_layout_release(&layout);
}
END_TEST

START_TEST(labels_without_hazards_and_with_all_pictograms) {
    struct label_content content = {.name = "water", .closing = "Computed."};
    struct label_layout layout = lay_out(&content, 0);
    ck_assert_uint_eq(layout.texts.count, 2);
    ck_assert_uint_eq(layout.pictogram_count, 0);
    ck_assert_double_eq(layout.text_size, label_bottles[0].largest_text);
    assert_whole(&layout);
    label_layout_release(&layout);
    content = usual();
    for (content.pictogram_count = 1; content.pictogram_count <= 6; content.pictogram_count++) {
        static const int all[] = {6, 5, 8, 2, 7, 9};
        memcpy(content.pictograms, all, sizeof all);
        for (int bottle = 1; bottle < LABEL_BOTTLES; bottle++) {
            layout = lay_out(&content, bottle);
            assert_whole(&layout);
            ck_assert_uint_eq(layout.pictogram_count, content.pictogram_count);
            label_layout_release(&layout);
        }
    }
}
END_TEST

// Control characters and line breaks of a name become spaces.
START_TEST(names_are_made_printable) {
    struct label_content content = usual();
    content.name = "red\033[31m\nlake \xff";
    struct label_layout layout = lay_out(&content, 2);
    ck_assert_str_eq(layout.texts.items[0].text, "red [31m lake \uFFFD");
    label_layout_release(&layout);
}
END_TEST

START_TEST(sheets_hold_whole_labels) {
    static const size_t expected[] = {12, 10, 4};
    for (int bottle = 0; bottle < LABEL_BOTTLES; bottle++) {
        struct label_sheet sheet = label_sheet_plan(&label_bottles[bottle]);
        double width = points_from_mm(label_bottles[bottle].width_mm) * (double)sheet.columns;
        double height = points_from_mm(label_bottles[bottle].height_mm) * (double)sheet.rows;
        ck_assert_uint_eq(sheet.columns * sheet.rows, expected[bottle]);
        ck_assert_double_ge(sheet.left, points_from_mm(8) - 1e-9); // room for the cut marks
        ck_assert_double_ge(sheet.top, points_from_mm(8) - 1e-9);
        ck_assert_double_eq_tol(2 * sheet.left + width, sheet.width, 1e-9);
        ck_assert_double_eq_tol(2 * sheet.top + height, sheet.height, 1e-9);
        double a = mm_from_points(fmin(sheet.width, sheet.height)), b = mm_from_points(fmax(sheet.width, sheet.height));
        ck_assert(fabs(a - 210) < 1e-9 && fabs(b - 297) < 1e-9); // A4, ISO 216
    }
}
END_TEST

START_TEST(a_sheet_repeats_the_label_between_cut_marks) {
    struct label_content content = usual();
    struct label_layout layout = lay_out(&content, 0);
    struct label_page page = {.bottle = &label_bottles[0], .dpi = 300, .date = "2026-11-25"};
    struct picture one, sheet;
    ck_assert_int_eq(label_picture(&layout, &content, &page, &one, &err), STATUS_OK);
    page.sheet = true;
    ck_assert_int_eq(label_picture(&layout, &content, &page, &sheet, &err), STATUS_OK);
    ck_assert_double_eq_tol(mm_from_points(one.width), label_bottles[0].width_mm, 1e-9);
    ck_assert_double_eq_tol(mm_from_points(one.height), label_bottles[0].height_mm, 1e-9);
    ck_assert_uint_eq(sheet.count, 12 * one.count + (2 + 1) + (6 + 1)); // one item for each cut
    ck_assert_str_eq(one.title, "Test blend B3");
    ck_assert_str_eq(one.date, "2026-11-25");
    ck_assert_ptr_nonnull(strstr(one.description, "Pictograms: health hazard, flame, exclamation mark"));
    ck_assert_ptr_nonnull(strstr(one.description, "DANGER"));
    picture_release(&one);
    picture_release(&sheet);
    label_layout_release(&layout);
}
END_TEST

START_TEST(every_failing_allocation_is_reported) {
    struct label_content content = usual();
    struct text_metric metric = metric_fixed();
    content.name =
        "a name that is long enough to push something off the label of the small bottle, so that the list of "
        "what was left out is made too";
    for (unsigned long n = 1;; n++) {
        struct label_layout layout;
        memory_fail_at(n);
        enum status status = label_layout_make(&content, &label_bottles[0], &metric, &layout, &err);
        memory_fail_at(0);
        if (status == STATUS_OK) {
            ck_assert_uint_gt(n, 20);
            label_layout_release(&layout);
            break;
        }
        ck_assert_int_eq(status, STATUS_MEMORY);
    }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("label layout");
    TCase *tests = tcase_create("label");
    tcase_set_timeout(tests, 60);
    tcase_add_test(tests, everything_stands_on_every_bottle);
    tcase_add_test(tests, sizes_keep_their_limits);
    tcase_add_test(tests, what_has_no_room_is_left_out_in_the_stated_order);
    tcase_add_test(tests, a_word_wider_than_the_label_is_broken_not_cut);
    tcase_add_test(tests, labels_without_hazards_and_with_all_pictograms);
    tcase_add_test(tests, names_are_made_printable);
    tcase_add_test(tests, sheets_hold_whole_labels);
    tcase_add_test(tests, a_sheet_repeats_the_label_between_cut_marks);
    tcase_add_test(tests, every_failing_allocation_is_reported);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
