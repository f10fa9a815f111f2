// SPDX-License-Identifier: GPL-3.0-or-later
// Documents: one content, and what each writer makes of it. All texts are invented.
#include "charts.h"
#include "present/document/document_write.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct document document;
static struct text_metric metric;
static struct document_pages pages;
static struct error err;

static const struct document_head head = {.title = "Mill Pond with Alders",
                                          .subtitle = "A document for tests",
                                          .object = "T-1",
                                          .date = "2025-02-18",
                                          .data_version = "2025-01-01",
                                          .program = "mildsolve 0",
                                          .language = "en"};

static void begin(void) {
    metric = metric_fixed();
    error_clear(&err);
    document_begin(&document, &head);
}

static void end(void) {
    document_pages_release(&pages);
    document_release(&document);
}

// Two kinds of columns, a number, a note, a caution, a list, a line to fill in.
static void small_document(void) {
    struct document_section *section = document_section(&document, "first", "What was found");
    document_paragraph(section, PARAGRAPH_STRONG, "The %s comes first.", "answer");
    document_paragraph(section, PARAGRAPH_ITEM, "one thing");
    document_paragraph(section, PARAGRAPH_ITEM, "another thing");
    document_paragraph(section, PARAGRAPH_CAUTION, "STOP where colour comes.");
    struct document_facts *facts = document_facts(section, "facts");
    fact_words(facts, "maker", "Maker", "somebody");
    fact_words(facts, "note", "Note", NULL);
    fact_number(facts, "width_mm", "Width", 520, 0, "mm");
    fact_number(facts, "depth_mm", "Depth", NAN, 0, "mm");
    section = document_section(&document, "second", "Tests");
    struct document_table *table = document_table(section, "tests", "All of them");
    table_column(table, "test", "Test", NULL, false);
    table_column(table, "share", "Share", NULL, true);
    table_column(table, "result", "Result", NULL, false);
    table_detail(table, "contact_s", "Contact", "s");
    table_words(table, "T1");
    table_share(table, 0.001);
    table_words(table, "softened <b> & \"more\"");
    table_number(table, 20, 0);
    table_note(table, "milky while wet");
    table_words(table, "T2");
    table_share(table, 0.5);
    table_words(table, NULL);
    table_number(table, NAN, 0);
    document_line(section, "Signature");
}

static const char *written(void (*writer)(const struct document *, struct text *), struct text *out) {
    writer(&document, out);
    ck_assert(!out->failed);
    return text_bytes(out);
}

// --- text, JSON, HTML ---

START_TEST(text_has_everything_that_is_known) {
    begin();
    small_document();
    struct text out = {0};
    ck_assert(golden_matches("document.txt", written(document_text, &out)));
    text_release(&out);
    end();
}
END_TEST

START_TEST(json_has_also_what_is_not_known) {
    begin();
    small_document();
    struct text out = {0};
    const char *json = written(document_json, &out);
    ck_assert_ptr_nonnull(strstr(json, "\"width_mm\": {\n              \"label\": \"Width\",\n"));
    ck_assert_ptr_nonnull(strstr(json, "\"number\": 520,"));
    ck_assert_ptr_nonnull(strstr(json, "\"depth_mm\""));
    ck_assert_ptr_nonnull(strstr(json, "\"contact_s\": 20,"));
    ck_assert_ptr_nonnull(strstr(json, "\"share\": 0.001,")); // not what is printed
    ck_assert_ptr_nonnull(strstr(json, "\"contact_s\": null,"));
    text_release(&out);
    end();
}
END_TEST

START_TEST(html_escapes_and_names_headings) {
    begin();
    small_document();
    struct text out = {0};
    const char *html = written(document_html, &out);
    ck_assert_ptr_nonnull(strstr(html, "softened &lt;b&gt; &amp; &quot;more&quot;"));
    ck_assert_ptr_nonnull(strstr(html, "<th scope=\"row\">T1</th>"));
    ck_assert_ptr_nonnull(strstr(html, "&lt;0.01"));
    ck_assert_ptr_nonnull(strstr(html, "Contact: 20\u00A0s \u00B7 milky while wet"));
    ck_assert_ptr_null(strstr(html, "Depth"));
    ck_assert_ptr_nonnull(strstr(html, "<ul>\n<li>one thing</li>\n<li>another thing</li>\n</ul>"));
    text_release(&out);
    end();
}
END_TEST

// --- names from right to left ---

static const char hebrew[] = "\u05D3\u05D5\u05D3";

START_TEST(names_from_right_to_left_are_isolated) {
    begin();
    ck_assert(document_right_to_left(hebrew) && !document_right_to_left("M\u00FCller"));
    ck_assert(document_begins_right_to_left(hebrew));
    ck_assert(!document_begins_right_to_left("by \u05D3"));
    ck_assert_str_eq(document_name(&document, "plain"), "plain");
    ck_assert_str_eq(document_name(&document, hebrew), "\u2068\u05D3\u05D5\u05D3\u2069");
    ck_assert_str_eq(document_short(&document, "a long name", 6), "a lon\u2026");
    end();
}
END_TEST

static const struct picture_item *item_with(const char *text, size_t *ret_page) {
    for (size_t i = 0; i < pages.count; i++)
        for (size_t k = 0; k < pages.items[i].count; k++) {
            const struct picture_item *item = &pages.items[i].items[k];
            if (item->kind == PICTURE_TEXT && strcmp(item->text, text) == 0) {
                *ret_page = i;
                return item;
            }
        }
    return NULL;
}

START_TEST(a_line_from_right_to_left_ends_at_the_right_edge) {
    begin();
    size_t page = 0;
    struct document_section *section = document_section(&document, "s", "Section");
    document_paragraph(section, PARAGRAPH_PLAIN, "%s", hebrew);
    ck_assert_int_eq(document_paginate(&document, &metric, &pages, &err), STATUS_OK);
    const struct picture_item *item = item_with(hebrew, &page);
    ck_assert_ptr_nonnull(item);
    ck_assert_double_eq_tol(item->spots[0].x + item->width, pages.items[0].width - 40, 0.1); // the margin
    end();
}
END_TEST

// --- pages ---

// Every text lies on its page, inside the margins.
static void check_inside(void) {
    for (size_t i = 0; i < pages.count; i++)
        for (size_t k = 0; k < pages.items[i].count; k++) {
            const struct picture_item *item = &pages.items[i].items[k];
            if (item->kind != PICTURE_TEXT)
                continue;
            ck_assert_double_ge(item->spots[0].x, 39.9);
            ck_assert_double_le(item->spots[0].x + item->width, pages.items[i].width - 39.9);
            ck_assert_double_ge(item->spots[0].y, 38);
            ck_assert_double_le(item->spots[0].y, pages.items[i].height - 20);
        }
}

static void write_pages(struct text *out) {
    for (size_t i = 0; i < pages.count; i++)
        for (size_t k = 0; k < pages.items[i].count; k++) {
            const struct picture_item *item = &pages.items[i].items[k];
            if (item->kind == PICTURE_TEXT)
                text_printf(out, "%zu %.1f %.1f %.1f%s %s\n", i + 1, item->spots[0].x, item->spots[0].y, item->size,
                            item->bold ? " bold" : "", item->text);
        }
}

START_TEST(pages_are_laid_out_as_before) {
    begin();
    small_document();
    struct text out = {0};
    ck_assert_int_eq(document_paginate(&document, &metric, &pages, &err), STATUS_OK);
    check_inside();
    write_pages(&out);
    ck_assert(golden_matches("document-a4.txt", text_bytes(&out)));
    ck_assert_uint_eq(pages.mark_count, 2);
    ck_assert_str_eq(pages.marks[1].heading, "Tests");
    text_release(&out);
    end();
}
END_TEST

enum { ROWS = 400 };

START_TEST(a_long_table_repeats_its_headings_and_loses_no_row) {
    char name[32];
    bool seen[ROWS] = {false};
    size_t headings = 0, last = 0;
    begin();
    struct document_section *section = document_section(&document, "s", "Section");
    struct document_table *table = document_table(section, "t", "Rows");
    table_column(table, "row", "Row", NULL, false);
    table_column(table, "text", "Words", NULL, false);
    for (size_t i = 0; i < ROWS; i++) {
        table_words(table, document_print(&document, "R%zu", i));
        table_words(table, i % 7 ? "short"
                                 : "a sentence that is long enough to need more than one line of its column, so "
                                   "that rows of different heights come to stand at the foot of pages");
    }
    ck_assert_int_eq(document_paginate(&document, &metric, &pages, &err), STATUS_OK);
    check_inside();
    for (size_t i = 0; i < pages.count; i++)
        for (size_t k = 0; k < pages.items[i].count; k++) {
            const struct picture_item *item = &pages.items[i].items[k];
            if (item->kind != PICTURE_TEXT)
                continue;
            headings += strcmp(item->text, "Row") == 0;
            size_t row = item->text[0] == 'R' && item->text[1] >= '0' && item->text[1] <= '9'
                             ? strtoul(item->text + 1, NULL, 10)
                             : ROWS;
            if (row == ROWS)
                continue;
            ck_assert(!seen[row] && (row == 0 || row == last + 1)); // each once, in order
            seen[row] = true;
            last = row;
        }
    ck_assert_uint_eq(last, ROWS - 1);
    ck_assert_uint_gt(pages.count, 4);
    ck_assert_uint_eq(headings, pages.count);
    size_t page = 0;
    snprintf(name, sizeof name, "page %zu of %zu", pages.count, pages.count);
    ck_assert_ptr_nonnull(item_with(name, &page));
    ck_assert_uint_eq(page, pages.count - 1);
    end();
}
END_TEST

START_TEST(a_cell_taller_than_a_page_goes_on_without_losing_a_word) {
    enum { WORDS = 4000 };
    char word[16];
    struct text words = {0};
    begin();
    for (size_t i = 0; i < WORDS; i++)
        text_printf(&words, "w%zu ", i);
    struct document_section *section = document_section(&document, "s", "Section");
    struct document_table *table = document_table(section, "t", "Rows");
    table_column(table, "row", "Row", NULL, false);
    table_column(table, "text", "Words", NULL, false);
    table_words(table, "first");
    table_words(table, text_bytes(&words));
    ck_assert_int_eq(document_paginate(&document, &metric, &pages, &err), STATUS_OK);
    check_inside();
    struct text all = {0};
    write_pages(&all);
    for (size_t i = 0; i < WORDS; i += 97) {
        snprintf(word, sizeof word, "w%zu ", i);
        ck_assert_ptr_nonnull(strstr(text_bytes(&words), word));
        snprintf(word, sizeof word, "w%zu", i);
        ck_assert_ptr_nonnull(strstr(text_bytes(&all), word));
    }
    ck_assert_uint_gt(pages.count, 2);
    text_release(&all);
    text_release(&words);
    end();
}
END_TEST

START_TEST(headings_never_stand_alone_at_the_foot) {
    for (int lines = 40; lines < 60; lines++) {
        size_t head_page = 0, row_page = 1;
        begin();
        struct document_section *section = document_section(&document, "s", "Section");
        for (int i = 0; i < lines; i++)
            document_paragraph(section, PARAGRAPH_PLAIN, "line %d", i);
        struct document_table *table = document_table(section, "t", "Rows");
        table_column(table, "row", "Heading", NULL, false);
        table_words(table, "content");
        ck_assert_int_eq(document_paginate(&document, &metric, &pages, &err), STATUS_OK);
        ck_assert_ptr_nonnull(item_with("Heading", &head_page));
        ck_assert_ptr_nonnull(item_with("content", &row_page));
        ck_assert_uint_eq(head_page, row_page);
        end();
    }
}
END_TEST

START_TEST(a_sheet_shrinks_until_it_fits_or_says_so) {
    begin();
    document.one_page = true;
    struct document_section *section = document_section(&document, "s", "Section");
    for (int i = 0; i < 45; i++)
        document_paragraph(section, PARAGRAPH_PLAIN, "line %d", i);
    ck_assert_int_eq(document_paginate(&document, &metric, &pages, &err), STATUS_OK);
    ck_assert_uint_eq(pages.count, 1);
    ck_assert_double_lt(pages.scale, 1);
    ck_assert_double_ge(pages.scale, 0.6);
    check_inside();
    document_pages_release(&pages);
    for (int i = 0; i < 200; i++)
        document_paragraph(section, PARAGRAPH_PLAIN, "line %d", i);
    ck_assert_int_eq(document_paginate(&document, &metric, &pages, &err), STATUS_RANGE);
    ck_assert_ptr_nonnull(strstr(err.text, "does not fit on one page"));
    end();
}
END_TEST

START_TEST(letter_is_letter) {
    begin();
    document.paper = PAPER_LETTER;
    small_document();
    ck_assert_int_eq(document_paginate(&document, &metric, &pages, &err), STATUS_OK);
    ck_assert_double_eq_tol(pages.items[0].width, 612, 1e-9); // ANSI Letter: 8.5 in x 11 in
    ck_assert_double_eq_tol(pages.items[0].height, 792, 1e-9);
    end();
}
END_TEST

// --- pictures ---

START_TEST(a_picture_is_placed_to_scale) {
    struct picture from = {.width = 100, .height = 50};
    struct picture to = {.width = 200, .height = 200};
    const struct pen pen = {.width = 2, .ink = INK_BLACK};
    const struct segment line = {{10, 20}, {30, 40}};
    picture_segments(&from, &line, 1, &pen);
    picture_text(&from, &(struct picture_text){.text = "a", .x = 5, .y = 6, .unit_x = 1, .size = 8, .width = 4});
    picture_place(&to, &from, 100, 50, 0.5);
    ck_assert_uint_eq(to.count, 2);
    ck_assert_double_eq(to.items[0].spots[1].x, 115);
    ck_assert_double_eq(to.items[0].spots[1].y, 70);
    ck_assert_double_eq(to.items[0].pen_width, 1);
    ck_assert_double_eq(to.items[1].size, 4);
    ck_assert_str_eq(to.items[1].text, "a");
    picture_release(&from);
    picture_release(&to);
}
END_TEST

START_TEST(figures_have_ids_of_their_own) {
    begin();
    struct document_section *section = document_section(&document, "s", "Section");
    for (int i = 0; i < 2; i++) {
        struct picture picture = {.width = 100, .height = 50};
        picture_text(&picture, &(struct picture_text){.text = "<&>", .x = 5, .y = 6, .unit_x = 1, .size = 8});
        document_figure(section, i ? "figure-b" : "figure-a", "A caption", "In words", &picture);
        ck_assert_ptr_null(picture.items); // taken over
    }
    struct text out = {0};
    const char *html = written(document_html, &out);
    ck_assert_ptr_nonnull(strstr(html, "aria-labelledby=\"figure-a-title figure-a-desc\""));
    ck_assert_ptr_nonnull(strstr(html, "<desc id=\"figure-b-desc\">In words</desc>"));
    ck_assert_ptr_nonnull(strstr(html, ">&lt;&amp;&gt;</text>"));
    text_release(&out);
    end();
}
END_TEST

int main(void) {
    Suite *suite = suite_create("document");
    TCase *tests = tcase_create("document");
    tcase_add_test(tests, text_has_everything_that_is_known);
    tcase_add_test(tests, json_has_also_what_is_not_known);
    tcase_add_test(tests, html_escapes_and_names_headings);
    tcase_add_test(tests, names_from_right_to_left_are_isolated);
    tcase_add_test(tests, a_line_from_right_to_left_ends_at_the_right_edge);
    tcase_add_test(tests, pages_are_laid_out_as_before);
    tcase_add_test(tests, a_long_table_repeats_its_headings_and_loses_no_row);
    tcase_add_test(tests, a_cell_taller_than_a_page_goes_on_without_losing_a_word);
    tcase_add_test(tests, headings_never_stand_alone_at_the_foot);
    tcase_add_test(tests, a_sheet_shrinks_until_it_fits_or_says_so);
    tcase_add_test(tests, letter_is_letter);
    tcase_add_test(tests, a_picture_is_placed_to_scale);
    tcase_add_test(tests, figures_have_ids_of_their_own);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
