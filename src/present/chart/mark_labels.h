// SPDX-License-Identifier: GPL-3.0-or-later
// Numbered marks and the labels beside them, the same in every chart.
#ifndef MILDSOLVE_PRESENT_CHART_MARK_LABELS_H
#define MILDSOLVE_PRESENT_CHART_MARK_LABELS_H

#include "base/text.h"
#include "present/chart/layout.h"

struct layout_mark {
    int kind; // marks of different kinds never share a label
    struct mark_style style;
    size_t number; // from 1
    struct spot at;
    const char *text; // in place of the number; NULL = the number
    const char *name; // printable, beside the number where there is room; NULL or "" = none
    int priority;     // higher ones choose their place first
};

// One label serves all marks of a kind that lie on the same spot.
struct layout_label {
    int kind;
    const size_t *numbers; // of the marks, ascending
    size_t number_count;
    bool placed;
    struct box box; // white
    struct layout_text number;
    bool has_name;
    struct layout_text name;
    bool has_leader;
    struct segment leader;
};

struct label_style {
    double size;       // of the text, pt
    double name_width; // pt; a longer name would hide the chart and is left out
};

// Places the labels of marks in a field that already holds these marks (in any order) as discs. False when memory is
// exhausted.
bool mark_labels_place(struct arena *arena, const struct text_metric *metric, const struct label_field *field,
                       const struct layout_mark *marks, size_t count, const struct label_style *style,
                       struct layout_label **ret, size_t *ret_count);

// Numbers whose label found no room, ascending. NULL when memory is exhausted.
size_t *mark_labels_missing(struct arena *arena, const struct layout_label *labels, size_t count, size_t *ret_count);

// "1, 4, 7–9": runs of three and more are drawn together. Numbers ascend.
void text_add_numbers(struct text *out, const size_t *numbers, size_t count);

// The marks as discs. NULL when memory is exhausted.
struct disc *mark_discs(struct arena *arena, const struct layout_mark *marks, size_t count);

#endif
