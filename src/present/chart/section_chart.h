// SPDX-License-Identifier: GPL-3.0-or-later
// Stacks of layers as a drawing of a section: one column for each stack, layers from the bottom up, each material with
// a hatch of its own; beside every layer what the new ones do to it. Thicknesses are not to scale.
#ifndef MILDSOLVE_PRESENT_CHART_SECTION_CHART_H
#define MILDSOLVE_PRESENT_CHART_SECTION_CHART_H

#include "present/chart/chart_page.h"
#include "present/chart/picture.h"

enum { SECTION_LAYERS_MAX = 8, SECTION_COLUMNS_MAX = 4, SECTION_NOTES_MAX = 8 };

struct section_layer {
    const char *name;                     // in the box: "varnish"
    const char *legend;                   // below the column: resin, strength, carrier
    size_t style;                         // of the hatch, the same for the same material; below AREA_STYLES
    bool spots;                           // covers spots only
    bool planned;                         // still to be put on: heavy outline
    const char *notes[SECTION_NOTES_MAX]; // beside it: "4: may lift it"
    bool note_strong[SECTION_NOTES_MAX];  // in bold
    size_t note_count;
};

struct section_column {
    const char *title; // NULL = none
    struct section_layer layers[SECTION_LAYERS_MAX];
    size_t count; // from the bottom up
};

// Everything the chart says, so that it can speak another language. NULL fields are not allowed.
struct section_chart_words {
    struct chart_page_words page;
    const char *heading;
    const char *models; // how it was computed
    const char *note;   // what heavy outlines and gaps mean
    const char *purpose;
};
const struct section_chart_words *section_chart_words_english(void);

struct section_chart_input {
    struct chart_page page;
    const struct section_column *columns;
    size_t column_count;                     // 1 to SECTION_COLUMNS_MAX
    const struct section_chart_words *words; // NULL = English
};

struct section_box {
    struct box box;
    size_t style;
    bool planned;
    struct segment_list hatch;
};

struct section_layout {
    struct arena arena;
    struct page_layout page;
    struct section_box *boxes;
    size_t box_count;
    struct box *grounds; // white, under the words in the boxes
    size_t ground_count;
    struct layout_texts texts;
};

// STATUS_RANGE: too many columns, or the page has no room for them; STATUS_MEMORY.
enum status section_layout_make(const struct section_chart_input *input, const struct text_metric *metric,
                                struct section_layout *ret, struct error *err);
void section_layout_release(struct section_layout *layout); // NULL-safe

enum status section_picture(const struct section_layout *layout, struct picture *ret, struct error *err);

// Errors: of section_layout_make and chart_file_write.
enum status section_chart_write(const struct section_chart_input *input, const char *path, struct error *err);

#endif
