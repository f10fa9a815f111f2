// SPDX-License-Identifier: GPL-3.0-or-later
#include "errors.h"

#include "tables.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void stop(const char *what) {
    fprintf(stderr, "%s\n", what);
    exit(2);
}

void errors_add(struct errors *errors, double expected, double got, double error, const char *format, ...) {
    if (errors->count == ERRORS_MAX)
        stop("too many rows for the table of errors");
    struct error_entry *entry = &errors->entries[errors->count++];
    *entry = (struct error_entry){.expected = expected, .got = got, .error = error};
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(entry->name, sizeof entry->name, format, arguments);
    va_end(arguments);
}

void errors_leave_out(struct errors *errors, const char *format, ...) {
    size_t used = strlen(errors->left_out_names);
    errors->left_out++;
    used +=
        (size_t)snprintf(errors->left_out_names + used, sizeof errors->left_out_names - used, "%s", used ? ", " : "");
    if (used >= sizeof errors->left_out_names)
        return;
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(errors->left_out_names + used, sizeof errors->left_out_names - used, format, arguments);
    va_end(arguments);
}

double errors_mean_abs(const struct errors *errors) {
    double sum = 0;
    for (size_t i = 0; i < errors->count; i++)
        sum += fabs(errors->entries[i].error);
    return sum / (double)errors->count;
}

static int compare_numbers(const void *a, const void *b) {
    double first = *(const double *)a, second = *(const double *)b;
    return (first > second) - (first < second);
}

static double median(const struct errors *errors, double (*of)(double)) {
    double sorted[ERRORS_MAX];
    for (size_t i = 0; i < errors->count; i++)
        sorted[i] = of(errors->entries[i].error);
    qsort(sorted, errors->count, sizeof *sorted, compare_numbers);
    size_t middle = errors->count / 2;
    return errors->count % 2 ? sorted[middle] : (sorted[middle - 1] + sorted[middle]) / 2;
}

static double itself(double value) {
    return value;
}

double errors_median_abs(const struct errors *errors) {
    return median(errors, fabs);
}

double errors_median(const struct errors *errors) {
    return median(errors, itself);
}

const struct error_entry *errors_worst(const struct errors *errors) {
    const struct error_entry *worst = &errors->entries[0];
    for (size_t i = 1; i < errors->count; i++)
        if (fabs(errors->entries[i].error) > fabs(worst->error))
            worst = &errors->entries[i];
    return worst;
}

static double rank_of(const struct errors *errors, size_t i, bool expected) {
    double own = expected ? errors->entries[i].expected : errors->entries[i].got;
    double below = 0, same = 0;
    for (size_t j = 0; j < errors->count; j++) {
        double other = expected ? errors->entries[j].expected : errors->entries[j].got;
        below += other < own;
        same += other == own;
    }
    return below + (same - 1) / 2;
}

double errors_rank_correlation(const struct errors *errors) {
    double mean = ((double)errors->count - 1) / 2, both = 0, first = 0, second = 0;
    for (size_t i = 0; i < errors->count; i++) {
        double a = rank_of(errors, i, true) - mean, b = rank_of(errors, i, false) - mean;
        both += a * b;
        first += a * a;
        second += b * b;
    }
    return both / sqrt(first * second);
}

void error_tables_open(struct error_tables *ret) {
    tables_open_unifac(&ret->lib, TABLE_COMPONENTS | TABLE_PROPERTIES | TABLE_BOTTLES | TABLE_MISCIBILITY,
                       &ret->unifac);
}

void error_tables_close(struct error_tables *tables) {
    tables_close_unifac(&tables->lib, &tables->unifac);
}
