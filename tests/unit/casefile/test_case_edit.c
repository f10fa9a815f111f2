// SPDX-License-Identifier: GPL-3.0-or-later
// Tests are put into texts of every layout that YAML allows, and not a byte of the text is disturbed.
#include "base/file_read.h"
#include "casefile/case_csv.h"
#include "casefile/case_edit.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <stdio.h>
#include <string.h>

static struct library lib;
static struct arena arena;
static const struct date as_of = {.year = 2025, .month = 3, .day = 1};

static void open_tables(void) {
    tables_open(&lib, CASE_TABLES);
}

static void close_tables(void) {
    library_release(&lib);
}

static void drop(void) {
    arena_release(&arena);
}

static struct casefile parse(const char *bytes, size_t length) {
    struct casefile file = {0};
    struct fault_list faults = {0};
    struct error err = {0};
    ck_assert_msg(casefile_parse(&arena, "c", bytes, length, &lib, as_of, &file, &faults, &err) == STATUS_OK, "%s\n%s",
                  err.text, bytes);
    ck_assert_msg(faults.count == 0, "%s\n%s", text_bytes(&faults.lines), bytes);
    return file;
}

static struct test_row row(const char *id, const char *note) {
    struct test_row row = {0};
    test_row_set(&row, "id", id);
    test_row_set(&row, "date", "2025-02-20");
    test_row_set(&row, "blend", "propan-2-ol 30 + isooctane 70");
    test_row_set(&row, "result", "partly removed");
    test_row_set(&row, "colour_on_swab", "none");
    test_row_set(&row, "note_wet", note);
    return row;
}

// Whether `after` is `before` with one piece put in.
static bool one_piece_more(const char *before, size_t length, const struct text *after) {
    size_t front = 0;
    while (front < length && before[front] == after->bytes[front])
        front++;
    size_t back = 0;
    while (back < length - front && before[length - 1 - back] == after->bytes[after->length - 1 - back])
        back++;
    return front + back == length && after->length > length;
}

static size_t count_of(const struct text *text, const char *part) {
    size_t count = 0;
    for (const char *at = text_bytes(text); (at = strstr(at, part)); at += strlen(part))
        count++;
    return count;
}

// Line ends of the new text are those of the old one: no lone LF in a file of CR LF, no CR in one of LF.
static void line_ends_agree(const char *before, const struct text *after) {
    if (strstr(before, "\r\n")) {
        ck_assert_msg(count_of(after, "\n") == count_of(after, "\r\n"), "%s", after->bytes);
    } else if (strchr(before, '\r')) {
        ck_assert_ptr_null(strchr(after->bytes, '\n'));
    } else {
        ck_assert_ptr_null(strchr(after->bytes, '\r'));
    }
}

static bool ends_line(const char *bytes, size_t length) {
    return length > 0 && (bytes[length - 1] == '\n' || bytes[length - 1] == '\r');
}

static void append_to(const char *before, size_t length) {
    struct casefile old = parse(before, length);
    struct test_row rows[2] = {row("N1", "first \"new\" one, caf\xC3\xA9: #1"), row("N2", "second\nline\ttab \\ '")};
    struct text after = {0};
    struct error err = {0};
    size_t values = 0;
    ck_assert_msg(case_append_tests(&old, rows, 2, &after, &values, &err) == STATUS_OK, "%s", err.text);
    ck_assert_msg(one_piece_more(before, length, &after), "--- before\n%s\n--- after\n%s", before, after.bytes);
    line_ends_agree(before, &after);
    if (old.root->flow == false && !strstr(before, "tests: ["))
        ck_assert_int_eq(ends_line(before, length), ends_line(after.bytes, after.length));
    struct casefile new = parse(after.bytes, after.length);
    ck_assert_uint_eq(new.tests.count, old.tests.count + 2);
    const struct case_test *test = case_test(&new, "N1");
    ck_assert_ptr_nonnull(test);
    ck_assert_str_eq(test->note_wet, "first \"new\" one, caf\xC3\xA9: #1");
    ck_assert_int_eq(test->result, RESULT_PARTLY_REMOVED);
    test = case_test(&new, "N2");
    ck_assert_ptr_nonnull(test);
    ck_assert_str_eq(test->note_wet, "second\nline\ttab \\ '");
    ck_assert_ptr_eq(test, (const struct case_test *)new.tests.items + old.tests.count + 1); // at the end of the list
    size_t added = 0;
    ck_assert(case_extends(old.root, new.root, &added));
    ck_assert_uint_eq(added, values);
    text_release(&after);
}

static void append_everywhere(const char *before) {
    append_to(before, strlen(before));
    struct text other = {0}; // the same with CR LF, with CR, without the last line end
    for (const char *at = before; *at; at++)
        text_add_n(&other, *at == '\n' ? "\r\n" : at, *at == '\n' ? 2 : 1);
    append_to(other.bytes, other.length);
    size_t length = other.length;
    while (ends_line(other.bytes, length))
        length--;
    append_to(arena_text_n(&arena, other.bytes, length), length);
    text_release(&other);
    for (const char *at = before; *at; at++)
        text_add_n(&other, *at == '\n' ? "\r" : at, 1);
    append_to(other.bytes, other.length);
    text_release(&other);
}

#define HEAD "mildsolve_case: 1\nobject: {title: t}\n"
#define ONE "id: T1, date: 2025-02-02, blend: isooctane, result: none"
#define LINES(pad) "id: T1\n" pad "date: 2025-02-02\n" pad "blend: isooctane\n" pad "result: none\n"

START_TEST(every_layout) {
    static const char *const layouts[] = {
        HEAD,
        HEAD "# the end\n",
        HEAD "\n\n# the end\n\n",
        HEAD "note: last # with a remark\n",
        HEAD "note: |\n  several\n  lines\n",
        HEAD "note: |+\n  several\n  lines\n\n\n",
        HEAD "note: >-\n  folded\n  lines\n# behind\n",
        HEAD "tests:\n",
        HEAD "tests: # from here on\n",
        HEAD "tests:\n  # from here on\n",
        HEAD "tests:\n# not in it\nnote: x\n",
        HEAD "tests: []\n",
        HEAD "tests: [ ] # empty\n",
        HEAD "tests: [ # empty\n  ]\nnote: x\n",
        HEAD "tests: [{" ONE "}]\n",
        HEAD "tests: [{" ONE "},]\n",
        HEAD "tests: [\n  {" ONE "}, # one\n]\nnote: x\n",
        HEAD "tests: [\n  {" ONE "} # one, two\n]\n",
        HEAD "tests:\n  - {" ONE "}\n",
        HEAD "tests:\n- {" ONE "}\n",
        HEAD "tests:\n- {" ONE "} # one\n# behind\nnote: x\n",
        HEAD "tests:\n  - " LINES("    "),
        HEAD "tests:\n- " LINES("  "),
        HEAD "tests:\n-\n  " LINES("  "),
        HEAD "tests:\n    -   " LINES("        "),
        HEAD "tests:\n  - " LINES("    ") "    # of T1\n  # - id: T2, planned\n",
        HEAD "tests:\n  - " LINES("    ") "\n\n  # further down\n\n\n# behind\nnote: x\n",
        HEAD "tests:\n  - " LINES("    ") "    photo: x\n",
        HEAD "tests:\n  - " LINES("    ") "    note_dry: |\n      a\n\n      b\n\nnote: x\n",
        HEAD "tests:\n  - " LINES("    ") "    note_dry: |\n      a\n      # text\n  # a remark\n",
        HEAD "tests:\n  - " LINES("    ") "    note_dry: \"a\n      b\" # c\nnote: x\n",
        HEAD "tests:\n  - " LINES("    ") "    note_dry: a\n      b c\n\n\n",
        HEAD "tests:\n  - " LINES("    ") "...\n",
        "---\n" HEAD "...\n# end\n",
        HEAD "\"tests\":\n  - " LINES("    ") "note: x\n",
        "  mildsolve_case: 1\n  object: {title: t}\n",
        "  mildsolve_case: 1\n  object: {title: t}\n  tests:\n  - {" ONE "}\n",
        "  mildsolve_case: 1\n  object: {title: t}\n  tests:\n    # none\n  note: x\n",
        "{mildsolve_case: 1, object: {title: t}}\n",
        "{\"mildsolve_case\": 1, \"object\": {\"title\": \"t\"}, \"tests\": []}\n",
        "{\n  \"mildsolve_case\": 1,\n  \"object\": {\n    \"title\": \"t\"\n  },\n  \"tests\": [\n    {" ONE
        "}\n  ]\n}\n",
        "\xEF\xBB\xBF" HEAD "tests:\n  - " LINES("    "),
        "# \xE6\xB8\xA1\xE3\x81\x97\n" HEAD "note: \xF0\x9F\x8E\xA8\ntests:\n  - {" ONE "} # \xC3\xA9\n",
        HEAD "tests:\n  - {" ONE "} # a\xE2\x80\xA8note: x\n", // U+2028 ends a line in YAML 1.1
    };
    for (size_t i = 0; i < sizeof layouts / sizeof layouts[0]; i++) {
        if (strchr(layouts[i], '\xE2'))
            append_to(layouts[i], strlen(layouts[i])); // line ends of its own
        else
            append_everywhere(layouts[i]);
    }
}
END_TEST

static char *demo(size_t *ret_length) {
    struct text bytes = {0};
    ck_assert_int_eq(file_read(reference_path("../../examples/demo-case.yaml"), 1 << 20, &bytes, NULL), STATUS_OK);
    char *copy = arena_text_n(&arena, bytes.bytes, bytes.length);
    *ret_length = bytes.length;
    text_release(&bytes);
    return copy;
}

// A few bytes lost, doubled, swapped or replaced by others that mean something in YAML.
static void damage(struct random *random, char *bytes, size_t *length) {
    static const char meaning[] = "\n\n\r\t  -:#[]{},'\"|>&*!%@\\0a\xC3\xE2";
    size_t at = random_below(random, *length);
    size_t span = 1 + random_below(random, 30);
    if (span > *length - at)
        span = *length - at;
    switch (random_below(random, 4)) {
    case 0: // lost
        memmove(bytes + at, bytes + at + span, *length - at - span);
        *length -= span;
        break;
    case 1: // doubled
        memmove(bytes + at + span, bytes + at, *length - at);
        *length += span;
        break;
    case 2: // a line end put in
        memmove(bytes + at + 1, bytes + at, *length - at);
        bytes[at] = '\n';
        *length += 1;
        break;
    default:
        bytes[at] = meaning[random_below(random, sizeof meaning - 1)];
    }
}

// Whatever a slip of the hand makes of a case: either it is refused, or a test goes in and nothing else changes, or the
// place is refused.
START_TEST(damaged_cases) {
    struct random random = {.state = 4711};
    size_t whole = 0;
    const char *original = demo(&whole);
    size_t right = 0;
    size_t refused = 0;
    for (int round = 0; round < 3000; round++) {
        struct arena own = {0};
        char *bytes = arena_new(&own, whole + 200, 1);
        size_t length = whole;
        memcpy(bytes, original, whole);
        for (size_t i = 0; i <= random_below(&random, 3); i++)
            damage(&random, bytes, &length);
        struct casefile old = {0};
        struct fault_list faults = {.most = 20};
        struct error err = {0};
        enum status status = casefile_parse(&own, "c", bytes, length, &lib, as_of, &old, &faults, &err);
        ck_assert(status == STATUS_OK || status == STATUS_INPUT);
        ck_assert(status == STATUS_OK || err.text[0] != '\0');
        if (status != STATUS_OK || faults.count > 0) {
            refused++;
        } else {
            struct test_row new_row = row("N1", "x");
            struct text after = {0};
            struct casefile new = {0};
            size_t values = 0;
            size_t added = 0;
            right++;
            ck_assert_int_eq(case_append_tests(&old, &new_row, 1, &after, &values, &err), STATUS_OK);
            ck_assert(one_piece_more(bytes, length, &after));
            status = casefile_parse(&own, "c", after.bytes, after.length, &lib, as_of, &new, &faults, &err);
            ck_assert_msg(status == STATUS_OK && faults.count == 0, "%s%s\n%s", err.text, text_bytes(&faults.lines),
                          after.bytes);
            ck_assert(case_extends(old.root, new.root, &added) && added == values);
            text_release(&after);
        }
        faults_release(&faults);
        arena_release(&own);
    }
    ck_assert_uint_gt(right, 150);
    ck_assert_uint_gt(refused, 300);
}
END_TEST

static void extend(const char *before, size_t test) {
    size_t length = strlen(before);
    struct casefile old = parse(before, length);
    struct test_row more = {0};
    struct text after = {0};
    struct error err = {0};
    size_t values = 0;
    test_row_set(&more, "note_uv", "glow: \"weaker\"");
    test_row_set(&more, "withdrawn", "true");
    test_row_set(&more, "withdrawn_on", "2025-02-21");
    ck_assert_msg(case_extend_test(&old, test, &more, &after, &values, &err) == STATUS_OK, "%s", err.text);
    ck_assert_msg(one_piece_more(before, length, &after), "--- before\n%s\n--- after\n%s", before, after.bytes);
    line_ends_agree(before, &after);
    struct casefile new = parse(after.bytes, after.length);
    ck_assert_uint_eq(new.tests.count, old.tests.count);
    const struct case_test *tests = new.tests.items;
    ck_assert_str_eq(tests[test].note_uv, "glow: \"weaker\"");
    for (size_t i = 0; i < new.tests.count; i++)
        ck_assert_int_eq(tests[i].withdrawn, i == test);
    size_t added = 0;
    ck_assert(case_extends(old.root, new.root, &added));
    ck_assert_uint_eq(added, values);
    text_release(&after);
}

START_TEST(further_keys_of_a_test) {
    extend(HEAD "tests:\n  - " LINES("    "), 0);
    extend(HEAD "tests:\n  - " LINES("    ") "    # of T1\n  # planned\nnote: x\n", 0);
    extend("mildsolve_case: 1\r\nobject: {title: t}\r\ntests:\r\n  - {" ONE "}\r\n", 0);
    extend(HEAD "tests: [{" ONE "}, {id: T2, date: 2025-02-02, blend: acetone, result: none}]\n", 0);
    extend(HEAD "tests: [{" ONE "}, {id: T2, date: 2025-02-02, blend: acetone, result: none , }]", 1);
    extend(HEAD "tests:\n- " LINES("  ") "- id: T2\n  date: 2025-02-02\n  blend: acetone\n  result: none", 0);
    extend(HEAD "tests:\n- " LINES("  ") "- id: T2\n  date: 2025-02-02\n  blend: acetone\n  result: none", 1);
    extend(HEAD "tests:\n- " LINES("  ") "  note_wet: |\n    a\n    b\n", 0);
    extend(HEAD "tests:\n- " LINES("  ") "  note_wet: |\n    a\n    b", 0);
}
END_TEST

START_TEST(what_stands_is_not_written_over) {
    struct casefile file = parse(HEAD "tests:\n- {" ONE "}\n", strlen(HEAD "tests:\n- {" ONE "}\n"));
    struct test_row more = {0};
    struct text after = {0};
    struct error err = {0};
    size_t values = 0;
    test_row_set(&more, "result", "removed");
    ck_assert_int_eq(case_extend_test(&file, 0, &more, &after, &values, &err), STATUS_INPUT);
    ck_assert_msg(strstr(err.text, "c:4:56: 'result' stands here already") != NULL, "%s", err.text);
    ck_assert_uint_eq(after.length, 0);
}
END_TEST

// Every character that may stand in a text comes back as it was.
START_TEST(any_text_comes_back) {
    static const char before[] = HEAD "tests:\n";
    struct casefile old = parse(before, strlen(before));
    struct random random = {.state = 20250301};
    static const unsigned edges[] = {0x20,   0x22,   0x5C,   0x7E,   0xA0,   0x2028,  0x2029,  0xD7FF,
                                     0xE000, 0xFEFF, 0xFFFD, 0xFFFE, 0xFFFF, 0x10000, 0x1F3A8, 0x10FFFF,
                                     '\n',   '\t',   ':',    '#',    '-',    '{',     '\'',    '%'};
    for (int round = 0; round < 400; round++) {
        char text[256];
        size_t at = 0;
        for (int i = 0; i < 40; i++) {
            unsigned code = random_below(&random, 3) ? edges[random_below(&random, sizeof edges / sizeof edges[0])]
                                                     : 0xA1 + (unsigned)random_below(&random, 0x3000);
            if (code < 0x80) {
                text[at++] = (char)code;
            } else if (code < 0x800) {
                text[at++] = (char)(0xC0 | code >> 6);
                text[at++] = (char)(0x80 | (code & 0x3F));
            } else if (code < 0x10000) {
                text[at++] = (char)(0xE0 | code >> 12);
                text[at++] = (char)(0x80 | (code >> 6 & 0x3F));
                text[at++] = (char)(0x80 | (code & 0x3F));
            } else {
                text[at++] = (char)(0xF0 | code >> 18);
                text[at++] = (char)(0x80 | (code >> 12 & 0x3F));
                text[at++] = (char)(0x80 | (code >> 6 & 0x3F));
                text[at++] = (char)(0x80 | (code & 0x3F));
            }
        }
        text[at] = '\0';
        struct test_row new_row = row("T1", text);
        struct case_test checked;
        struct fault_list faults = {0};
        struct text after = {0};
        size_t values = 0;
        ck_assert_int_eq(test_row_check(&arena, &old, as_of, "row", &new_row, &checked, &faults, NULL), STATUS_OK);
        ck_assert_msg(faults.count == 0, "%s", text_bytes(&faults.lines));
        ck_assert_int_eq(case_append_tests(&old, &new_row, 1, &after, &values, NULL), STATUS_OK);
        struct casefile new = parse(after.bytes, after.length);
        ck_assert_str_eq(case_test(&new, "T1")->note_wet, text);
        text_release(&after);
    }
}
END_TEST

static void row_fault(const char *key, const char *text, const char *words) {
    static const char before[] =
        "mildsolve_case: 1\nobject: {title: t, width_mm: 520, height_mm: 410, measured_from: lower left}\n";
    struct casefile file = parse(before, strlen(before));
    struct test_row wrong = row("T1", "x");
    struct case_test checked;
    struct fault_list faults = {0};
    test_row_set(&wrong, "x_mm", "1");
    test_row_set(&wrong, "y_mm", "1");
    test_row_set(&wrong, key, text);
    ck_assert_int_eq(test_row_check(&arena, &file, as_of, "row", &wrong, &checked, &faults, NULL), STATUS_OK);
    ck_assert_uint_eq(faults.count, 1);
    ck_assert_msg(strncmp(text_bytes(&faults.lines), words, strlen(words)) == 0, "expected '%s', got: %s", words,
                  text_bytes(&faults.lines));
    faults_release(&faults);
}

START_TEST(rows_follow_the_rules_of_the_file) {
    row_fault("result", "goen", "row: test 'T1', result: 'goen': one of these is expected");
    row_fault("x_mm", "521", "row: test 'T1', x_mm: 521 mm is outside the picture");
    row_fault("y_mm", NULL, "row: test 'T1', x_mm: a site needs both x_mm and y_mm");
    row_fault("date", "2025-03-02", "row: test 'T1', date: 2025-03-02 lies in the future");
    row_fault("date", NULL, "row: test 'T1': key 'date' is missing");
    row_fault("blend", "isoctan", "row: test 'T1', blend: no solvent or bottle is called");
    row_fault("passage", "sky", "row: test 'T1', passage: this case has no passage 'sky'");
    row_fault("rolls", "2.5", "row: test 'T1', rolls: '2.5': a whole number is expected");
    row_fault("note_dry", "a\x1b[0m", "row: note_dry: control character U+001B");
    row_fault("note_dry", "a\r", "row: note_dry: control character U+000D");
    row_fault("note_dry", "a\xFF", "row: note_dry: byte 0xFF is not valid UTF-8");
}
END_TEST

START_TEST(words_may_be_typed_with_hyphens) {
    struct test_row typed = {0};
    test_row_set(&typed, "result", "Partly-Removed");
    test_row_set(&typed, "delivery", "swab_through_tissue");
    test_row_set(&typed, "blanching", "wet onl");
    test_row_words(&typed);
    ck_assert_str_eq(test_row_text(&typed, "result"), "partly removed");
    ck_assert_str_eq(test_row_text(&typed, "delivery"), "swab through tissue");
    ck_assert_str_eq(test_row_text(&typed, "blanching"), "wet onl");
}
END_TEST

// --- tables ---

START_TEST(a_table_goes_out_and_comes_back) {
    const char *before =
        HEAD "passages: [{id: p}]\ntests:\n"
             "- {" ONE ", passage: p, note_wet: \"a, \\\"b\\\"\\nc\", photo: '017'}\n"
             "- {id: T2, date: 2025-02-03, blend: acetone 1 + isooctane 9, result: gloss change, rolls: "
             "4, withdrawn: yes, withdrawn_on: 2025-02-04}\n";
    struct casefile file = parse(before, strlen(before));
    struct text table = {0};
    case_csv_write(&file, &table);
    ck_assert_ptr_nonnull(
        strstr(table.bytes, "T1,2025-02-02,,p,,,,isooctane,,,,,none,,,,\"a, \"\"b\"\"\nc\",,,,017,,,,\r\n"));
    struct test_row *rows = NULL;
    size_t count = 0;
    struct error err = {0};
    ck_assert_msg(case_csv_read(&arena, "t.csv", table.bytes, table.length, &rows, &count, &err) == STATUS_OK, "%s",
                  err.text);
    ck_assert_uint_eq(count, 2);
    const char *empty = HEAD "passages: [{id: p}]\n";
    struct casefile bare = parse(empty, strlen(empty));
    struct text after = {0};
    size_t values = 0;
    ck_assert_int_eq(case_append_tests(&bare, rows, count, &after, &values, &err), STATUS_OK);
    struct casefile again = parse(after.bytes, after.length);
    struct text second = {0};
    case_csv_write(&again, &second);
    ck_assert_str_eq(second.bytes, table.bytes);
    text_release(&second);
    text_release(&after);
    text_release(&table);
}
END_TEST

static void refuse_table(const char *bytes, const char *words) {
    struct test_row *rows = NULL;
    size_t count = 0;
    struct error err = {0};
    ck_assert_int_eq(case_csv_read(&arena, "t.csv", bytes, strlen(bytes), &rows, &count, &err), STATUS_INPUT);
    ck_assert_msg(strstr(err.text, words) != NULL, "expected '%s', got: %s", words, err.text);
}

START_TEST(tables_with_other_columns) {
    refuse_table("id,resul\nT1,none\n", "t.csv:1:4: column 'resul' is not known; nearest: 'result'; one of these");
    refuse_table("id,id\nT1,T1\n", "t.csv:1:4: column 'id' stands here for the second time");
    struct test_row *rows = NULL;
    size_t count = 0;
    const char *spaces = "id;contact_s;note_wet\n T1 ; 20 ; kept \n;;\n";
    ck_assert_int_eq(case_csv_read(&arena, "t.csv", spaces, strlen(spaces), &rows, &count, NULL), STATUS_OK);
    ck_assert_uint_eq(count, 2);
    ck_assert_str_eq(test_row_text(&rows[0], "contact_s"), "20");
    ck_assert_str_eq(test_row_text(&rows[0], "note_wet"), " kept ");
    ck_assert_int_eq(rows[0].cells[0].line, 2);
    ck_assert_ptr_null(test_row_text(&rows[1], "id"));
}
END_TEST

// --- the comparison that guards every write ---

static bool extends(const char *earlier, const char *later, size_t *ret_added) {
    const struct yaml_node *a = NULL;
    const struct yaml_node *b = NULL;
    *ret_added = 0;
    ck_assert_int_eq(yaml_read_memory(&arena, "a", earlier, strlen(earlier), &yaml_default_limits, &a, NULL),
                     STATUS_OK);
    ck_assert_int_eq(yaml_read_memory(&arena, "b", later, strlen(later), &yaml_default_limits, &b, NULL), STATUS_OK);
    return case_extends(a, b, ret_added);
}

START_TEST(nothing_lost_nothing_changed) {
    size_t added = 0;
    ck_assert(extends("{a: 1, b: [x]}", "{a: 1, b: [x]}", &added));
    ck_assert_uint_eq(added, 0);
    ck_assert(extends("{a: 1, b: [x]}", "{a: 1, b: [x, y], c: 2}", &added));
    ck_assert_uint_eq(added, 3);
    ck_assert(extends("{a: 1, b: [{x: 1}]}", "{a: 1, b: [{x: 1, y: 2}]}", &added));
    ck_assert_uint_eq(added, 2);
    ck_assert(extends("{a: }", "{a: [{x: 1}]}", &added));
    ck_assert_uint_eq(added, 3);
    ck_assert(!extends("{a: 1, b: [x]}", "{a: 2, b: [x]}", &added));
    ck_assert(!extends("{a: 1, b: [x]}", "{a: 1}", &added));
    ck_assert(!extends("{a: 1, b: [x]}", "{a: 1, b: []}", &added));
    ck_assert(!extends("{a: 1, b: [x]}", "{a: 1, b: [y, x]}", &added));
    ck_assert(!extends("{a: 1, b: [x]}", "{a: 1, c: 0, b: [x]}", &added));
    ck_assert(!extends("{a: 1}", "{a: [1]}", &added));
    ck_assert(!extends("{a: 1}", "{a: 10}", &added));
}
END_TEST

int main(void) {
    Suite *suite = suite_create("case_edit");
    TCase *tests = tcase_create("edit");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_add_checked_fixture(tests, NULL, drop);
    tcase_add_test(tests, every_layout);
    tcase_add_test(tests, damaged_cases);
    tcase_add_test(tests, further_keys_of_a_test);
    tcase_add_test(tests, what_stands_is_not_written_over);
    tcase_add_test(tests, any_text_comes_back);
    tcase_add_test(tests, rows_follow_the_rules_of_the_file);
    tcase_add_test(tests, words_may_be_typed_with_hyphens);
    tcase_add_test(tests, a_table_goes_out_and_comes_back);
    tcase_add_test(tests, tables_with_other_columns);
    tcase_add_test(tests, nothing_lost_nothing_changed);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
