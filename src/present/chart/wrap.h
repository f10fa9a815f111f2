// SPDX-License-Identifier: GPL-3.0-or-later
// How wide a text is, and how it breaks into lines.
#ifndef MILDSOLVE_PRESENT_CHART_WRAP_H
#define MILDSOLVE_PRESENT_CHART_WRAP_H

#include "base/arena.h"

#include <stdbool.h>
#include <stddef.h>

// Asks the drawing library, or in tests a plain rule, so that layouts can be computed without either.
struct text_metric {
    double (*width)(void *data, const char *utf8, double size, bool bold); // pt; size in pt
    void *data;
};

double metric_width(const struct text_metric *metric, const char *utf8, double size, bool bold);

// The same on every machine: half the size for each column of the text, a tenth more in bold.
struct text_metric metric_fixed(void);

// Distance of baselines and the reach of letters over and under the baseline, as parts of the size (DejaVu Sans:
// ascent 0.928, descent 0.236 of the em, from the font's own tables; letters without accents stay below the first).
#define LINE_STEP 1.17
#define LINE_ASCENT 0.93
#define TEXT_ASCENT 0.80
#define TEXT_DESCENT 0.24
#define CAPITAL_HEIGHT 0.73 // of capitals and figures

struct text_lines {
    const char **items; // in the arena
    double *widths;     // pt
    size_t count;
    bool shortened; // the last line ends in an ellipsis
};

// Printable copy: control characters and line breaks become spaces (runs of them one), invalid UTF-8 the replacement
// character. NULL when memory is exhausted. `text` may be NULL (gives "").
char *text_printable(struct arena *arena, const char *text);

// Breaks a printable text at spaces (before a number, % or + only if need be), and inside a word only where it is wider
// than the line (behind a hyphen where there is one, never before a combining mark). At most `most` >= 1 lines of
// `width` pt; what does not fit is cut and ends in an ellipsis. An empty text is one empty line. False when memory is
// exhausted.
bool text_wrap(struct arena *arena, const struct text_metric *metric, const char *text, double size, bool bold,
               double width, size_t most, struct text_lines *ret);

#endif
