// SPDX-License-Identifier: GPL-3.0-or-later
// Treatment files: what is written is read, what is added disturbs nothing.
#include "base/text.h"
#include "casefile/case_csv.h"
#include "casefile/case_edit.h"
#include "draw.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { TESTS_MOST = 6, WORD_BYTES = 192 };

// One test as drawn, in the words that go into the file.
struct drawn_test {
    char id[16], date[16], blend[WORD_BYTES], x[24], y[24], contact[24], note[WORD_BYTES];
    int result, colour, rolls;
};

struct drawn_case {
    double width_mm, height_mm, volume_m3, air_changes_per_h;
    size_t count;
    struct drawn_test tests[TESTS_MOST];
};

static void draw_notes(struct random *random, char *ret) {
    // What YAML, CSV and shells like to trip over.
    static const char *const pieces[] = {"clear", " ",    "\"",  "'", ": ", "#",  ",",        ";",
                                         "- ",    "{",    "]",   "&", "*",  "\\", "\xc3\xa4", "\xe2\x82\xac",
                                         "0391",  "null", "<b>", "%", "@",  "|",  "yes",      "~"};
    size_t count = random_below(random, 12);
    ret[0] = '\0';
    for (size_t i = 0; i < count; i++)
        strcat(ret, pieces[random_below(random, sizeof pieces / sizeof *pieces)]);
}

// Text of a file begins and ends with something to be seen.
static bool is_plain(const char *words) {
    size_t length = strlen(words);
    return length && words[0] != ' ' && words[length - 1] != ' ';
}

static void draw_test(struct trial *trial, const struct drawn_case *of, size_t number, struct drawn_test *ret) {
    struct random *random = &trial->random;
    struct text words = {0};
    struct blend blend;
    char kept[sizeof trial->words];
    memcpy(kept, trial->words, sizeof kept);
    do {
        blend = draw_blend(trial, 3);
        text_release(&words);
        blend_write(&blend, &words);
    } while (words.length >= sizeof ret->blend);
    memcpy(trial->words, kept, sizeof kept);
    snprintf(ret->blend, sizeof ret->blend, "%s", text_bytes(&words));
    text_release(&words);
    snprintf(ret->id, sizeof ret->id, "T%zu", number + 1);
    snprintf(ret->date, sizeof ret->date, "2025-02-%02zu", 1 + random_below(random, 28));
    snprintf(ret->x, sizeof ret->x, "%.6g", of->width_mm * 0.99 * random_uniform(random));
    snprintf(ret->y, sizeof ret->y, "%.6g", of->height_mm * 0.99 * random_uniform(random));
    snprintf(ret->contact, sizeof ret->contact, "%.6g", random_between(random, 1, 1000));
    do
        draw_notes(random, ret->note);
    while (!is_plain(ret->note));
    ret->result = (int)random_below(random, 5);
    ret->colour = (int)random_below(random, 6);
    ret->rolls = 1 + (int)random_below(random, 40);
}

static struct drawn_case draw_case(struct trial *trial) {
    struct random *random = &trial->random;
    struct drawn_case drawn = {.width_mm = floor(random_between(random, 50, 5000)),
                               .height_mm = floor(random_between(random, 50, 5000)),
                               .volume_m3 = floor(random_between(random, 5, 2000)),
                               .air_changes_per_h = 0.25 * (double)(1 + random_below(random, 40))};
    drawn.count = 1 + random_below(random, TESTS_MOST);
    for (size_t i = 0; i < drawn.count; i++)
        draw_test(trial, &drawn, i, &drawn.tests[i]);
    return drawn;
}

static void write_empty_case(struct random *random, const struct drawn_case *drawn, struct text *out) {
    text_printf(out,
                "mildsolve_case: 1\n%sobject:\n  title: Invented picture\n  width_mm: %g\n  height_mm: %g\n"
                "  measured_from: lower left\n",
                random_uniform(random) < 0.5 ? "\n# a remark\n" : "", drawn->width_mm, drawn->height_mm);
    text_printf(out, "room: {volume_m3: %g, air_changes_per_h: %g, air_changes_are: measured}%s", drawn->volume_m3,
                drawn->air_changes_per_h, random_uniform(random) < 0.5 ? "   # measured once\n" : "\n");
}

static struct test_row row_of(const struct drawn_test *test) {
    struct test_row row = {0};
    static char rolls[TESTS_MOST][16];
    char *count = rolls[atoi(test->id + 1) - 1];
    snprintf(count, sizeof rolls[0], "%d", test->rolls);
    test_row_set(&row, "id", test->id);
    test_row_set(&row, "date", test->date);
    test_row_set(&row, "x_mm", test->x);
    test_row_set(&row, "y_mm", test->y);
    test_row_set(&row, "blend", test->blend);
    test_row_set(&row, "contact_s", test->contact);
    test_row_set(&row, "rolls", count);
    test_row_set(&row, "result", result_words[test->result]);
    test_row_set(&row, "colour_on_swab", colour_words[test->colour]);
    test_row_set(&row, "note_wet", test->note);
    return row;
}

// From a copy that lives as long as the case.
static enum outcome parse(struct trial *trial, struct arena *arena, const struct text *words, struct casefile *ret) {
    struct fault_list faults = {0};
    struct error err = {0};
    const char *bytes = arena_text(arena, text_bytes(words));
    REQUIRE(bytes, "out of memory");
    enum status status =
        casefile_parse(arena, "c", bytes, strlen(bytes), trial->lib, (struct date){0}, ret, &faults, &err);
    enum outcome outcome = HELD;
    if (status != STATUS_OK || faults.count)
        outcome = broken(trial, "%s%s\n%s", err.text, text_bytes(&faults.lines), bytes);
    faults_release(&faults);
    return outcome;
}

static enum outcome same_tests(struct trial *trial, const struct drawn_case *drawn, const struct casefile *file) {
    const struct case_test *tests = file->tests.items;
    REQUIRE(file->object.width_mm == drawn->width_mm && file->object.height_mm == drawn->height_mm &&
                file->room.volume_m3 == drawn->volume_m3 && file->room.air_changes_per_h == drawn->air_changes_per_h,
            "another picture or room");
    REQUIRE(file->tests.count == drawn->count, "%zu tests of %zu", file->tests.count, drawn->count);
    for (size_t i = 0; i < drawn->count; i++) {
        const struct drawn_test *test = &drawn->tests[i];
        REQUIRE(strcmp(tests[i].id, test->id) == 0 && strcmp(tests[i].blend, test->blend) == 0, "%s: '%s'", test->id,
                tests[i].blend);
        REQUIRE(strcmp(tests[i].note_wet, test->note) == 0, "%s: note '%s', written '%s'", test->id, tests[i].note_wet,
                test->note);
        REQUIRE(tests[i].x_mm == strtod(test->x, NULL) && tests[i].y_mm == strtod(test->y, NULL) &&
                    tests[i].contact_s == strtod(test->contact, NULL) && tests[i].rolls == test->rolls,
                "%s: at %g, %g for %g s", test->id, tests[i].x_mm, tests[i].y_mm, tests[i].contact_s);
        REQUIRE(tests[i].result == test->result && tests[i].colour_on_swab == test->colour, "%s: other words",
                test->id);
    }
    return HELD;
}

// Adds the tests one by one, each to what the file has become.
static enum outcome add_all(struct trial *trial, struct arena *arena, const struct drawn_case *drawn,
                            struct casefile *file) {
    struct error err = {0};
    for (size_t i = 0; i < drawn->count; i++) {
        struct text longer = {0};
        struct casefile after = {0};
        struct test_row row = row_of(&drawn->tests[i]);
        size_t values = 0, added = 0;
        if (case_append_tests(file, &row, 1, &longer, &values, &err) != STATUS_OK)
            return broken(trial, "%s\n%s", err.text, file->bytes);
        enum outcome outcome = parse(trial, arena, &longer, &after);
        text_release(&longer);
        if (outcome == HELD && (!case_extends(file->root, after.root, &added) || added != values))
            outcome = broken(trial, "%zu values added, %zu were to be", added, values);
        if (outcome != HELD)
            return outcome;
        *file = after;
    }
    return HELD;
}

static enum outcome table_comes_back(struct trial *trial, struct arena *arena, const struct drawn_case *drawn,
                                     const struct casefile *file) {
    struct text table = {0};
    struct test_row *rows = NULL;
    struct error err = {0};
    size_t count = 0;
    case_csv_write(file, &table);
    enum status status = case_csv_read(arena, "t", text_bytes(&table), table.length, &rows, &count, &err);
    enum outcome outcome = status == STATUS_OK ? HELD : broken(trial, "%s\n%s", err.text, text_bytes(&table));
    text_release(&table);
    if (outcome != HELD)
        return outcome;
    REQUIRE(count == drawn->count, "%zu rows of %zu in the table", count, drawn->count);
    for (size_t i = 0; i < count; i++) {
        struct test_row expected = row_of(&drawn->tests[i]);
        static const char *const keys[] = {"id", "date", "blend", "x_mm", "result", "colour_on_swab", "note_wet"};
        for (size_t k = 0; k < sizeof keys / sizeof *keys; k++) {
            const char *text = test_row_text(&rows[i], keys[k]), *right = test_row_text(&expected, keys[k]);
            REQUIRE(text && strcmp(text, right) == 0, "%s of row %zu: '%s', written '%s'", keys[k], i,
                    text ? text : "nothing", right);
        }
    }
    return HELD;
}

static enum outcome tests_are_kept(struct trial *trial) {
    struct drawn_case drawn = draw_case(trial);
    struct text bytes = {0};
    struct arena arena = {0};
    struct casefile file = {0};
    write_empty_case(&trial->random, &drawn, &bytes);
    enum outcome outcome = parse(trial, &arena, &bytes, &file);
    if (outcome == HELD)
        outcome = add_all(trial, &arena, &drawn, &file);
    if (outcome == HELD)
        outcome = same_tests(trial, &drawn, &file);
    if (outcome == HELD)
        outcome = table_comes_back(trial, &arena, &drawn, &file);
    arena_release(&arena);
    text_release(&bytes);
    return outcome;
}

static const struct law laws[] = {
    {"case", "tests added to a case and sent out as a table come back as they were", 2, tests_are_kept},
};
const struct law_list case_laws = LAWS(laws);
