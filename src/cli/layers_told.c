// SPDX-License-Identifier: GPL-3.0-or-later
// Sentences about layers, gathered before they are written.
#include "cli/layers.h"

void layers_tell(struct layer_sentences *told, const char *sentence) {
    if (!sentence || told->count == LAYER_SENTENCES_MAX)
        told->failed = true;
    else
        told->items[told->count++] = sentence;
}

void layers_write_told(const struct layer_sentences *told, size_t rest, struct text *out) {
    for (size_t i = 0; i < told->count; i++)
        page_paragraph_f(out, 6, rest, "%s", told->items[i]);
    out->failed |= told->failed;
}
