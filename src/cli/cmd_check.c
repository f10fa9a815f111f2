// SPDX-License-Identifier: GPL-3.0-or-later
// check [FILE ...]: a data file or a case, or all tables: right, or which line is wrong and how.
#include "casefile/casefile.h"
#include "cli/common.h"
#include "data/yaml.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>

struct checking {
    struct invocation *inv;
    struct fault_list faults;
    struct fault_list remarks; // of cases: not wrong, but to be known
    struct date as_of;
    bool has_case;
};

static enum status day_of_cases(struct checking *checking, struct error *err) {
    if (!option_given(checking->inv, "--date"))
        return date_today(&checking->as_of, err);
    return option_date(checking->inv, "--date", (struct date){0}, &checking->as_of, err);
}

static enum status check_case(struct checking *checking, const char *path, struct error *err) {
    struct invocation *inv = checking->inv;
    struct casefile file;
    checking->has_case = true;
    size_t before = checking->faults.count;
    enum status status = day_of_cases(checking, err);
    if (status == STATUS_OK && !inv->library.loaded)
        status = library_open(&inv->library, inv->directories.items, inv->directories.count, CASE_TABLES, err);
    if (status != STATUS_OK)
        return status;
    status = casefile_read(inv->arena, path, &inv->library, checking->as_of, &file, &checking->faults, err);
    if (status == STATUS_INPUT) { // of a newer version: the answer is no, like any other fault
        faults_add_line(&checking->faults, err->text);
        error_clear(err);
        return STATUS_OK;
    }
    if (status == STATUS_OK && checking->faults.count == before)
        casefile_remarks(&file, checking->as_of, &checking->remarks);
    return status;
}

static enum status check_one(struct checking *checking, const char *path, struct error *err) {
    struct invocation *inv = checking->inv;
    struct stat info;
    if (stat(path, &info) == 0 && S_ISDIR(info.st_mode))
        return error_set(err, STATUS_INPUT,
                         "%s is a directory; `mildsolve check --data %s` checks a directory of tables", path, path);
    const struct yaml_node *root = NULL;
    struct error unread; // said again by the check of a table
    if (yaml_read_file(inv->arena, path, &yaml_default_limits, &root, &unread) == STATUS_OK && casefile_is(root))
        return check_case(checking, path, err);
    return library_check_file(path, inv->directories.items, inv->directories.count, &checking->faults, err);
}

// The bytes of "LINE:COLUMN: " at the start of `text`, filling both numbers; 0 when it does not begin so.
static size_t read_place(const char *text, int *ret_line, int *ret_column) {
    int line = 0, column = 0, length = 0;
    if (text[0] < '0' || text[0] > '9' || sscanf(text, "%9d:%9d:%n", &line, &column, &length) != 2 || length == 0 ||
        text[length] != ' ')
        return 0;
    *ret_line = line;
    *ret_column = column;
    return (size_t)length + 1;
}

static void json_part(struct json *json, const char *key, const char *bytes, size_t length) {
    struct text part = {0};
    text_add_n(&part, bytes, length);
    json_text(json, key, text_bytes(&part));
    text_release(&part);
}

// "FILE:LINE:COLUMN: MESSAGE", or "FILE: MESSAGE" of a whole file.
static void json_fault(struct json *json, const char *text, size_t length) {
    int line = 0, column = 0;
    size_t file = 0, message = 0;
    for (size_t i = 0; i < length && message == 0; i++)
        if (text[i] == ':') {
            size_t place = read_place(text + i + 1, &line, &column);
            file = i;
            message = place ? i + 1 + place : 0;
        }
    if (message == 0) {
        const char *colon = strstr(text, ": ");
        file = colon && colon < text + length ? (size_t)(colon - text) : 0;
        message = file ? file + 2 : 0;
    }
    json_object(json, NULL);
    json_part(json, "file", text, file);
    json_number(json, "line", line ? (double)line : (double)NAN);
    json_number(json, "column", column ? (double)column : (double)NAN);
    json_part(json, "message", text + message, length - message);
    json_close_object(json);
}

static void json_faults(struct json *json, const char *key, const struct fault_list *faults) {
    json_list(json, key);
    const char *lines = text_bytes(&faults->lines);
    while (*lines) {
        size_t length = strcspn(lines, "\n");
        json_fault(json, lines, length);
        lines += length + (lines[length] == '\n');
    }
    json_close_list(json);
}

static void write_json(const struct checking *checking, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_integer(&json, "fault_count", (long long)checking->faults.count);
    json_faults(&json, "faults", &checking->faults);
    if (checking->has_case) {
        char day[DATE_BYTES];
        json_text(&json, "as_of", date_write(checking->as_of, day));
        json_faults(&json, "remarks", &checking->remarks);
    }
    json_end(&json);
}

static void write_text(const struct checking *checking, struct text *out) {
    size_t count = checking->faults.count;
    text_add(out, text_bytes(&checking->faults.lines));
    if (count == 1)
        text_say(out, "1 fault found\n");
    else if (count)
        text_say(out, "%zu faults found\n", count);
    else
        text_say(out, "no fault found\n");
    if (checking->remarks.count) {
        char day[DATE_BYTES];
        text_say(out, "\nto be known on %s\n%s", date_write(checking->as_of, day),
                 text_bytes(&checking->remarks.lines));
    }
}

static enum status run(struct invocation *inv, struct error *err) {
    struct checking checking = {.inv = inv, .faults = {.most = 1000}, .remarks = {.most = 200}};
    enum status status = STATUS_OK;
    if (inv->argument_count == 0)
        status = library_check(inv->directories.items, inv->directories.count, &checking.faults, err);
    for (size_t i = 0; status == STATUS_OK && i < inv->argument_count; i++)
        status = check_one(&checking, inv->arguments[i], err);
    if (status == STATUS_OK && (checking.faults.lines.failed || checking.remarks.lines.failed))
        status = error_set(err, STATUS_MEMORY, "out of memory");
    if (status == STATUS_OK && inv->json)
        write_json(&checking, inv->out);
    else if (status == STATUS_OK)
        write_text(&checking, inv->out);
    bool found = checking.faults.count > 0;
    faults_release(&checking.faults);
    faults_release(&checking.remarks);
    return status == STATUS_OK && found ? STATUS_NEGATIVE : status;
}

static const struct option options[] = {
    {.name = "--date", .argument = "DATE", .help = "day on which a case is judged (default today)"},
};

const struct command cmd_check = {
    .name = "check",
    .arguments = "[FILE ...]",
    .arguments_least = 0,
    .arguments_most = ARGUMENTS_MAX,
    .summary = "A data file or a case: right, or which line is wrong and how; without FILE all tables",
    .details = "Every fault is one line: file:line:column, what it is about, the value and the rule. Exit status 1 "
               "when faults are "
               "found.",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .example = "mildsolve check my-solvents/components.yaml",
    .run = run,
};
