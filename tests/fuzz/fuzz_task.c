// SPDX-License-Identifier: GPL-3.0-or-later
// Any text as a task of a day, and as a time of it.
#include "physics/blend.h"
#include "physics/day_task.h"
#include "tables.h"
#include "target.h"

#include <math.h>

static const struct library *library(void) {
    static struct library lib;
    if (!lib.directories)
        tables_open(&lib, TABLE_COMPONENTS | TABLE_BOTTLES);
    return &lib;
}

static void check_task(const struct day_task *task, const char *text, size_t length) {
    LAW(task->from_h >= 0 && task->from_h < task->to_h && task->to_h <= 24);
    LAW(task->method >= METHOD_SWAB && task->method <= METHOD_GEL);
    LAW(task->use_ml_h > 0 && isfinite(task->use_ml_h));
    LAW(isnan(task->wet_cm2) || (task->wet_cm2 > 0 && isfinite(task->wet_cm2)));
    if (!task->blend)
        return;
    LAW(task->blend > text && task->blend < text + length && *task->blend && *task->blend != ' ');
    struct blend blend;
    struct error err = {0};
    LAW(blend_parse(library(), task->blend, &blend, NULL, &err) == STATUS_OK || err.text[0]);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    char *text = input_text(bytes, length);
    struct day_task task;
    struct error err = {0};
    enum status status = day_task_parse(text, &task, &err);
    LAW(status == STATUS_OK || (status == STATUS_USAGE && err.text[0]));
    if (status == STATUS_OK)
        check_task(&task, text, length);
    double time_h = -1;
    LAW(!day_time_read((const char *)bytes, length, &time_h) == (time_h == -1) && time_h <= 24);
    free(text);
    return 0;
}
