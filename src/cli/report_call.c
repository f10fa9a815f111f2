// SPDX-License-Identifier: GPL-3.0-or-later
// The report asks other commands: their calls, and what becomes of an answer that is lacking.
#include "cli/report.h"
#include "cli/case_option.h"

struct invocation *report_call_about(const struct report *report, const struct command *command, const char *blend,
                                     bool figure, enum status *ret_status, struct error *err) {
    struct invocation *call = arena_new(report->inv->arena, 1, sizeof *call);
    struct text *unread = arena_new(report->inv->arena, 2, sizeof *unread);
    if (!call || !unread) {
        *ret_status = error_set(err, STATUS_MEMORY, "out of memory");
        return NULL;
    }
    *call = (struct invocation){.command = command,
                                .arena = report->inv->arena,
                                .directories = report->inv->directories,
                                .library = report->inv->library,
                                .as_of = report->as_of,
                                .out = unread,
                                .talk = unread + 1};
    if (figure)
        option_fill(call, "--chart", "figure");
    if (blend)
        call->arguments[call->argument_count++] = blend;
    *ret_status = case_option_fill(call, report->file, err);
    text_release(call->talk);
    return call;
}

struct invocation *report_call(const struct report *report, const struct command *command, bool figure,
                               enum status *ret_status, struct error *err) {
    return report_call_about(report, command, NULL, figure, ret_status, err);
}

// Only what would make the whole report wrong ends it.
enum status report_note_answer(struct report_answer *answer, enum status status, struct error *err) {
    answer->there = status == STATUS_OK;
    if (status == STATUS_MEMORY)
        return error_set(err, status, "out of memory");
    return STATUS_OK;
}

enum status report_end_call(struct invocation *call, struct report_answer *answer, enum status status,
                            struct error *err) {
    text_release(call->talk);
    if (status == STATUS_INTERRUPTED)
        return error_set(err, status, "interrupted; no report is written");
    if (status == STATUS_USAGE)
        return error_set(err, status, "%s", answer->why.text);
    return report_note_answer(answer, status, err);
}

bool report_has_goals(const struct report *report, struct error *why) {
    const struct case_goals *goals = &report->file->goals;
    if (goals->remove.count && goals->spare.count + goals->unsure.count)
        return true;
    error_set(why, STATUS_NO_DATA, "the case does not say what is to be removed and what is to be spared (goals)");
    return false;
}
