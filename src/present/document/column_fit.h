// SPDX-License-Identifier: GPL-3.0-or-later
// How wide the columns of a table become, in columns of a terminal or in points.
#ifndef MILDSOLVE_PRESENT_DOCUMENT_COLUMN_FIT_H
#define MILDSOLVE_PRESENT_DOCUMENT_COLUMN_FIT_H

#include "present/chart/wrap.h"
#include "present/document/document.h"

struct column_fit {
    double least[DOCUMENT_COLUMNS_MAX];   // widest word, or what a column may not fall below
    double natural[DOCUMENT_COLUMNS_MAX]; // widest cell on one line
    double widths[DOCUMENT_COLUMNS_MAX];
};

struct column_measure {
    const struct text_metric *metric;
    double size;    // of the cells
    bool bold_head; // headings are bold
    double word_most;
};

// Measures headings and cells. A word counts for at most word_most, numbers as they are.
bool column_fit_measure(const struct document_table *table, const struct column_measure *measure, struct arena *arena,
                        struct column_fit *ret);

// Shares `width` out: natural widths when they fit, else the least and of the rest in proportion to what is wanted
// beyond it. False when not even the least fit: they are then reduced in proportion, and words will be broken.
bool column_fit_share(struct column_fit *fit, size_t count, double width);

#endif
