// SPDX-License-Identifier: GPL-3.0-or-later
// A bottle label, or a sheet of equal ones, as a file.
#ifndef MILDSOLVE_PRESENT_CHART_LABEL_PICTURE_H
#define MILDSOLVE_PRESENT_CHART_LABEL_PICTURE_H

#include "present/chart/label_layout.h"
#include "present/chart/picture.h"

struct label_page {
    const struct label_bottle *bottle;
    bool sheet; // a sheet of A4, full of labels with cut marks
    int dpi;    // of PNG files
    bool black_and_white;
    const char *date; // YYYY-MM-DD dates a PDF file; NULL = none
};

// What became of the label, for a remark to the person.
struct label_result {
    size_t copies;
    double text_size;         // pt
    double pictogram_side_mm; // 0 = no pictogram
    size_t precaution_count;  // printed
    char left_out[256];       // "" = nothing
};

// The picture of a layout. STATUS_MEMORY.
enum status label_picture(const struct label_layout *layout, const struct label_content *content,
                          const struct label_page *page, struct picture *ret, struct error *err);

// Writes PNG, SVG or PDF by the suffix of `path`; an existing file is replaced whole or not at all. Errors: of
// label_layout_make, canvas_open and canvas_write. *ret_result may be NULL.
enum status label_write(const struct label_content *content, const struct label_page *page, const char *path,
                        struct label_result *ret_result, struct error *err);

#endif
