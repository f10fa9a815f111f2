// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/document/column_fit.h"

#include <math.h>
#include <string.h>

static double widest_word(const char *text, const struct column_measure *measure, bool bold, char *scratch) {
    double widest = 0;
    while (*text) {
        size_t length = strcspn(text, " ");
        memcpy(scratch, text, length);
        scratch[length] = '\0';
        widest = fmax(widest, metric_width(measure->metric, scratch, measure->size, bold));
        text += length + strspn(text + length, " ");
    }
    return widest;
}

static bool look_at(const char *text, const struct column_measure *measure, bool bold, bool number, struct arena *arena,
                    double *least, double *natural) {
    double width = metric_width(measure->metric, text, measure->size, bold);
    *natural = fmax(*natural, width);
    if (number || width <= *least) {
        *least = fmax(*least, number ? width : 0);
        return true;
    }
    char *scratch = arena_new(arena, strlen(text) + 1, 1);
    if (scratch)
        *least = fmax(*least, fmin(widest_word(text, measure, bold, scratch), measure->word_most));
    return scratch != NULL;
}

bool column_fit_measure(const struct document_table *table, const struct column_measure *measure, struct arena *arena,
                        struct column_fit *ret) {
    *ret = (struct column_fit){0};
    for (size_t i = 0; i < table->column_count; i++) {
        double *least = &ret->least[i];
        double *natural = &ret->natural[i];
        if (!look_at(table->columns[i].heading, measure, measure->bold_head, false, arena, least, natural))
            return false;
        for (size_t row = 0; row < table->row_count; row++) {
            const struct document_value *cell = &table->rows[row].cells[i];
            if (!look_at(cell->text, measure, i == 0 && table->row_named, !isnan(cell->number), arena, least, natural))
                return false;
        }
    }
    return true;
}

bool column_fit_share(struct column_fit *fit, size_t count, double width) {
    double least = 0;
    double natural = 0;
    for (size_t i = 0; i < count; i++) {
        least += fit->least[i];
        natural += fit->natural[i];
    }
    bool fits = least <= width;
    for (size_t i = 0; i < count; i++) {
        if (natural <= width)
            fit->widths[i] = fit->natural[i];
        else if (fits)
            fit->widths[i] =
                fit->least[i] + (width - least) * (fit->natural[i] - fit->least[i]) / fmax(natural - least, 1e-9);
        else
            fit->widths[i] = fit->least[i] * width / least;
    }
    return fits;
}
