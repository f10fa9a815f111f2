// SPDX-License-Identifier: GPL-3.0-or-later
// check [FILE ...]: a data file, or all tables: right, or which line is wrong and how.
#include "cli/common.h"

#include <sys/stat.h>

static enum status check_one(struct invocation *inv, const char *path, struct fault_list *faults, struct error *err) {
    struct stat status;
    if (stat(path, &status) == 0 && S_ISDIR(status.st_mode))
        return error_set(err, STATUS_INPUT,
                         "%s is a directory; `mildsolve check --data %s` checks a directory of tables", path, path);
    return library_check_file(path, inv->directories.items, inv->directories.count, faults, err);
}

static void write_json(const struct fault_list *faults, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_integer(&json, "faults", (long long)faults->count);
    json_list(&json, "lines");
    const char *lines = text_bytes(&faults->lines);
    while (*lines) {
        size_t length = 0;
        while (lines[length] && lines[length] != '\n')
            length++;
        struct text line = {0};
        text_add_n(&line, lines, length);
        json_text(&json, NULL, text_bytes(&line));
        text_release(&line);
        lines += length + (lines[length] == '\n');
    }
    json_close_list(&json);
    json_end(&json);
}

static enum status run(struct invocation *inv, struct error *err) {
    struct fault_list faults = {.most = 1000};
    enum status status = STATUS_OK;
    if (inv->argument_count == 0)
        status = library_check(inv->directories.items, inv->directories.count, &faults, err);
    for (size_t i = 0; status == STATUS_OK && i < inv->argument_count; i++)
        status = check_one(inv, inv->arguments[i], &faults, err);
    if (status == STATUS_OK && faults.lines.failed)
        status = error_set(err, STATUS_MEMORY, "out of memory");
    if (status == STATUS_OK && inv->json) {
        write_json(&faults, inv->out);
    } else if (status == STATUS_OK) {
        text_add(inv->out, text_bytes(&faults.lines));
        if (faults.count)
            text_printf(inv->out, "%zu fault%s found\n", faults.count, faults.count == 1 ? "" : "s");
        else
            text_add(inv->out, "no fault found\n");
    }
    bool found = faults.count > 0;
    faults_release(&faults);
    return status == STATUS_OK && found ? STATUS_NEGATIVE : status;
}

const struct command cmd_check = {
    .name = "check",
    .arguments = "[FILE ...]",
    .arguments_least = 0,
    .arguments_most = ARGUMENTS_MAX,
    .summary = "A data file: right, or which line is wrong and how; without FILE all tables",
    .details = "Every fault is one line: file:line:column, what it is about, the value and the rule. Exit status 1 "
               "when faults are "
               "found.",
    .example = "mildsolve check my-solvents/components.yaml",
    .run = run,
};
