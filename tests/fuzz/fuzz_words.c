// SPDX-License-Identifier: GPL-3.0-or-later
// Any text as a number, a date and a name, and any text that is shown again: on a page, in JSON, in a table.
#include "base/date.h"
#include "data/csv.h"
#include "data/schema.h"
#include "present/json.h"
#include "present/page.h"
#include "target.h"

#include <math.h>

// The C library is the yardstick: it reads every number that is one here, as the same double.
static void read_number(const char *text) {
    double value = NAN;
    if (!schema_number(text, &value)) {
        LAW(isnan(value));
        return;
    }
    char *end = NULL;
    double same = strtod(text, &end);
    LAW(isfinite(value) && *end == '\0' && memcmp(&value, &same, sizeof value) == 0);
}

static void read_date(const char *text) {
    struct date date = {0}, again;
    char buffer[DATE_BYTES];
    if (!date_parse_month(text, &date)) {
        LAW(!date_is_set(date) && !date_parse(text, &date));
        return;
    }
    LAW(date_parse(date_write(date, buffer), &again) && date_compare(date, again) == 0);
    LAW(strncmp(buffer, text, strlen(text)) == 0);
    LAW(date.year >= 9900 || date_compare(date_add_months(date, 1), date) > 0);
}

static void read_epoch(const char *text) {
    struct date date = {0};
    struct error err = {0};
    setenv("SOURCE_DATE_EPOCH", text, 1);
    enum status status = date_today(&date, &err);
    LAW(status == STATUS_OK ? date.year >= 1970 && date.month >= 1 && date.day >= 1 : err.text[0] != '\0');
}

// Two names: before and after the first line end.
static void compare(char *text) {
    char *second = strchr(text, '\n');
    if (!second)
        return;
    *second++ = '\0';
    size_t limit = name_slips(text);
    size_t distance = name_distance(text, second, limit);
    LAW(distance <= limit + 1 && distance == name_distance(second, text, limit));
    int order = name_compare(text, second), back = name_compare(second, text);
    LAW((order < 0) == (back > 0) && (order == 0) == (back == 0));
    struct near_name near = near_name_begin(text);
    near_name_try(&near, second);
    LAW(!near.best || near.best == second);
}

// Nothing in a user's text steers the terminal, and all that is written is UTF-8.
static void check_plain(const struct text *out) {
    const char *text = text_bytes(out);
    for (size_t i = 0; i < out->length;) {
        unsigned code = 0;
        size_t count = utf8_sequence((const unsigned char *)text + i, out->length - i, &code);
        LAW(count >= 1);
        LAW((code >= 0x20 || code == '\n') && code != 0x7F && !(code >= 0x80 && code < 0xA0));
        i += count;
    }
}

static void show(const char *text) {
    struct text page = {0}, answer = {0};
    page_paragraph_f(&page, 2, 4, "note: %s", text);
    struct sheet sheet = {0};
    sheet_column(&sheet, "name", false);
    sheet_cell(&sheet, "%s", text);
    sheet_write(&sheet, &page);
    LAW(!page.failed);
    check_plain(&page);
    struct json json;
    json_begin(&json, &answer);
    json_text(&json, "name", text);
    json_end(&json);
    LAW(!answer.failed && answer.length > 4);
    check_plain(&answer);
    text_release(&page);
    text_release(&answer);
}

// As a table keeps it: every line end is a line feed.
static void lines_as_read(char *text) {
    char *to = text;
    for (const char *from = text; *from; from++) {
        if (*from == '\r' && from[1] == '\n')
            from++;
        *to++ = (char)(*from == '\r' ? '\n' : *from);
    }
    *to = '\0';
}

static void put_in_table(char *text) {
    struct text line = {0};
    struct arena arena = {0};
    struct error err = {0};
    struct csv_table table = {0};
    text_add(&line, "a,b\r\n");
    csv_write_field(&line, text);
    text_add(&line, ",1\r\n");
    lines_as_read(text);
    if (csv_parse(&arena, "again", text_bytes(&line), line.length, &table, &err) == STATUS_OK)
        LAW(table.count == 2 && strcmp(table.rows[1].cells[0].text, text) == 0);
    else
        LAW(err.text[0]);
    text_release(&line);
    arena_release(&arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    char *text = input_text(bytes, length);
    read_number(text);
    read_date(text);
    read_epoch(text);
    LAW(text_prefix(text, 20) <= strlen(text));
    show(text);
    put_in_table(text); // changes it
    compare(text);
    free(text);
    return 0;
}
