// SPDX-License-Identifier: GPL-3.0-or-later
// The page round every chart: paper, header, caption.
#ifndef MILDSOLVE_PRESENT_CHART_CHART_PAGE_H
#define MILDSOLVE_PRESENT_CHART_CHART_PAGE_H

#include "present/chart/layout.h"

enum paper { PAPER_A4, PAPER_LETTER };

// The full sheet stands upright. The half sheet is the upper half of it, so it lies: two fit on one page.
enum sheet_size { SHEET_FULL, SHEET_HALF };

struct chart_page {
    const char *title;        // over the chart; NULL or "" = none
    const char *object;       // number or name of the object
    const char *date;         // as the user gave it; YYYY-MM-DD also dates the PDF file
    const char *data_version; // of the tables
    enum paper paper;
    enum sheet_size sheet;
    int dpi;                     // of PNG files, CHART_DPI_MIN to CHART_DPI_MAX; 0 = CHART_DPI_DEFAULT
    bool black_and_white;        // no colour at all; the colours carry nothing that shapes and lines do not
    const char *const *captions; // further lines, printed before the last one
    size_t caption_count;
};

enum { CHART_CAPTIONS_MAX = 12, CHART_DPI_DEFAULT = 300, CHART_DPI_MIN = 72, CHART_DPI_MAX = 1200 };

// NULL fields are not allowed.
struct chart_page_words {
    const char *object, *date, *data; // before the values in the caption
    const char *not_given;            // in place of an object, date or version nobody gave
};
#define CHART_PAGE_WORDS_ENGLISH                                                                                       \
    { .object = "Object", .date = "Date", .data = "Data", .not_given = "not given" }

struct page_layout {
    double width, height; // of the page
    int dpi;
    bool black_and_white;
    const char *title; // for the file's own description
    const char *date;  // "" when none was given
    struct layout_texts header;
    struct segment caption_rule;
    struct layout_texts caption;
};

// Sizes of text and margins, pt; one set per sheet.
struct page_sizes {
    double margin, title, heading, caption;
};
const struct page_sizes *page_sizes_of(enum sheet_size sheet);

struct page_work {
    const struct chart_page *page;
    const struct chart_page_words *words;
    const struct text_metric *metric;
    const struct page_sizes *sizes;
    struct arena *arena;
    struct page_layout *layout;
    double header_bottom; // after page_header
    double caption_top;   // after page_caption
};

// STATUS_RANGE: resolution or number of captions.
enum status chart_page_check(const struct chart_page *page, struct error *err);

// Size of the page, resolution, colour. Nothing else is set yet.
void page_layout_begin(const struct chart_page *page, struct page_layout *layout);

// Title, and under it `heading` (what kind of chart this is), from the upper left margin, `width` pt wide. May be
// called again with another width. False when memory is exhausted.
bool page_header(struct page_work *work, const char *heading, double width);

// Onto the lower margin: object, date and data version; `models`; the page's own captions; `note`; in bold what the
// chart is not. An empty text has no line. May be called again. False when memory is exhausted or a text is NULL.
bool page_caption(struct page_work *work, const char *models, const char *note, const char *purpose);

// `text`, or `otherwise` when it is NULL or empty.
const char *given_or(const char *text, const char *otherwise);

#endif
