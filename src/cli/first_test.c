// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/first_test.h"

#include "base/language.h"
#include "casefile/casefile.h"
#include "cli/overdue.h"
#include "physics/miscibility.h"
#include "present/page.h"
#include "selection/ladder_pairs.h"

#include <string.h>

// The direction toward the strong bottle that makes up most of the row; NULL when the row holds none.
static const struct ladder_direction *direction_of(const struct ladder *ladder, const struct blend *row) {
    const struct ladder_direction *found = NULL;
    double most = 0;
    for (size_t i = 0; i < row->part_count; i++)
        for (int d = 0; d < ladder->count; d++)
            if (row->parts[i].parts > most && bottle_ref_same(&row->parts[i].bottle, &ladder->directions[d].strong)) {
                found = &ladder->directions[d];
                most = row->parts[i].parts;
            }
    return found;
}

static void find_in(const struct library *lib, const struct unifac_table *table, double temp_k,
                    const struct ladder_direction *direction, struct first_test *test) {
    struct phase_judgement phase = {.verdict = PHASE_MAY_SEPARATE};
    struct blend next;
    if (ladder_blend(direction, lib, 0, &test->first, NULL) != STATUS_OK ||
        ladder_blend(direction, lib, LADDER_RISE_PERCENT / LADDER_STEP_PERCENT, &next, NULL) != STATUS_OK)
        return;
    miscibility_judge_blend(lib, table, &next, temp_k, &phase, NULL);
    if (phase.verdict != PHASE_TWO)
        test->next = next;
}

enum status first_test_find(struct invocation *inv, const struct goal *goal, const struct unifac_table *table,
                            double temp_k, const struct blend *row, const struct blend *weakest, struct first_test *ret,
                            struct error *err) {
    struct ladder *ladder = arena_new(inv->arena, 1, sizeof *ladder);
    if (!ladder)
        return error_set(err, STATUS_MEMORY, "out of memory");
    *ret = (struct first_test){.first = weakest && weakest->count ? *weakest : *row};
    ret->asked = !inv->casefile || case_tests_standing(inv->casefile) == 0;
    if (!ret->asked || ladder_pairs(goal, &inv->library, inv->casefile, ladder, NULL) != STATUS_OK)
        return STATUS_OK;
    const struct ladder_direction *direction = direction_of(ladder, row);
    if (direction)
        find_in(&inv->library, table, temp_k, direction, ret);
    return STATUS_OK;
}

static void add_command(const struct invocation *inv, struct text *out) {
    text_add(out, "mildsolve ladder");
    if (inv->casefile)
        text_printf(out, strchr(inv->casefile->path, ' ') ? " --case \"%s\"" : " --case %s", inv->casefile->path);
}

void add_first_test(const struct invocation *inv, const struct first_test *test, struct text *out) {
    struct text first = {0};
    struct text next = {0};
    struct text command = {0};
    blend_write(&test->first, &first);
    blend_write(&test->next, &next);
    text_add(&first, overdue_mark(inv, &test->first));
    text_add(&next, overdue_mark(inv, &test->next));
    add_command(inv, &command);
    if (test->next.part_count)
        text_say(out, "Test %s first, then %s, not row 1 of the list; every step by %s.", text_bytes(&first),
                 text_bytes(&next), text_bytes(&command));
    else
        text_say(out, "Test %s first, before anything stronger; every step by %s.", text_bytes(&first),
                 text_bytes(&command));
    out->failed |= first.failed | next.failed | command.failed;
    text_release(&first);
    text_release(&next);
    text_release(&command);
}

void write_first_test(const struct invocation *inv, const struct first_test *test, struct text *out) {
    struct text words = {0};
    if (!test->asked)
        return;
    text_say(&words, "No swab test yet. ");
    add_first_test(inv, test, &words);
    page_paragraph_f(out, 0, 2, "%s", text_bytes(&words));
    out->failed |= words.failed;
    text_release(&words);
}

static void json_recipe(const struct blend *blend, const char *key, struct json *json) {
    struct text words = {0};
    blend_write(blend, &words);
    json_text(json, key, blend->part_count ? text_bytes(&words) : NULL);
    text_release(&words);
}

void json_first_test(const struct invocation *inv, const struct first_test *test, struct json *json) {
    struct text command = {0};
    if (!test->asked) {
        json_null(json, "first_test");
        return;
    }
    add_command(inv, &command);
    json_object(json, "first_test");
    json_recipe(&test->first, "recipe", json);
    json_recipe(&test->next, "then", json);
    json_text(json, "command", text_bytes(&command));
    json_close_object(json);
    text_release(&command);
}
