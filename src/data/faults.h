// SPDX-License-Identifier: GPL-3.0-or-later
// What is wrong in a file, collected for the person who wrote it.
#ifndef MILDSOLVE_DATA_FAULTS_H
#define MILDSOLVE_DATA_FAULTS_H

#include "base/error.h"
#include "base/text.h"
#include "data/yaml.h"

#include <stddef.h>

// Every fault found in a file, one line each: "file:line:column: path: value: rule", without line and column where the
// node has none (line 0: made by the program, not read). Control characters are shown as '?'.
struct fault_list {
    struct text lines;
    size_t count;
    size_t most; // stop counting in words beyond this many; 0 = no limit
};

void faults_add(struct fault_list *faults, const char *file, const struct yaml_node *at, const char *format, ...)
    __attribute__((format(printf, 4, 5)));

// A line that already says where it belongs ("file:line:column: what is wrong"), without its line end.
void faults_add_line(struct fault_list *faults, const char *line);
void faults_release(struct fault_list *faults);

// For whoever needs a file without fault: STATUS_INPUT with the first line and, if there are more, their number and the
// command that lists them; STATUS_MEMORY when the lines are not whole. `path` NULL = the tables. There must be a fault.
enum status faults_error(const struct fault_list *faults, const char *path, struct error *err);

#endif
