// SPDX-License-Identifier: GPL-3.0-or-later
// Lines as the options of `gentlest`: materials, bottles, what is left out, the grid, sensitive passages. They are read
// as the command reads them; nothing is searched.
#include "calling.h"
#include "cli/goal_options.h"
#include "cli/page_options.h"
#include "cli/sensitive.h"
#include "tables.h"
#include "target.h"

#include <math.h>

extern const struct command cmd_gentlest;

static const struct library *library(void) {
    static struct library lib;
    if (!lib.directories)
        tables_open(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS);
    return &lib;
}

static void check_goal(const struct goal *goal) {
    LAW(goal->remove_count >= 1 && goal->remove_count <= GOAL_MATERIALS_MAX);
    LAW(goal->spare_count >= 1 && goal->spare_count <= GOAL_MATERIALS_MAX);
    LAW(goal->bottle_count <= GOAL_BOTTLES_MAX && goal->components_most >= 1 && goal->steps >= 10);
    LAW(goal->margin >= 0 && goal->margin <= 0.9);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    static struct call call;
    static struct goal goal;
    static struct filter_report report;
    static struct sensitive_passages passages;
    char *text = input_text(bytes, length);
    char *words[CALL_WORDS_MAX];
    enum status status = call_begin(&call, &cmd_gentlest, words, call_words(text, words));
    call.inv.library = *library();
    report = (struct filter_report){0};
    if (status == STATUS_OK && !call.help)
        status = goal_from_options(&call.inv, &goal, &report, &call.err);
    if (status == STATUS_OK && !call.help) {
        check_goal(&goal);
        status = sensitive_collect(&call.inv, &passages, &call.err);
    }
    if (status == STATUS_OK)
        status = page_options_check(&call.inv, &call.err);
    call_end(&call, status);
    free(text);
    return 0;
}
