// SPDX-License-Identifier: GPL-3.0-or-later
// A bottle label computed as numbers: what stands where, how large, and what had to be left out.
#ifndef MILDSOLVE_PRESENT_CHART_LABEL_LAYOUT_H
#define MILDSOLVE_PRESENT_CHART_LABEL_LAYOUT_H

#include "present/chart/layout.h"

struct label_bottle {
    int volume_ml;
    double width_mm, height_mm; // of the label
    double largest_text;        // pt
};

enum { LABEL_BOTTLES = 3 };
extern const struct label_bottle label_bottles[LABEL_BOTTLES]; // 30, 100, 500 mL

// No text is smaller.
#define LABEL_TEXT_SMALLEST 5.0
// Below it pictograms rather shrink first: x-height 1.2 mm of DejaVu Sans (0.547 of the size), which Reg. (EU)
// 2024/2865 will ask of packs up to 0.5 L (from memory).
#define LABEL_TEXT_READABLE 6.25

struct label_statement {
    const char *code; // "" = none is printed
    const char *text;
    bool code_may_do; // a pack of this size may leave out the wording
};

enum { LABEL_PICTOGRAMS_MAX = 8 };

// Any text may be NULL or "" (then its line is left out) but name and closing.
struct label_content {
    const char *name;
    const char *proportions;
    const char *made;    // date and initials
    const char *signal;  // signal word
    const char *warning; // in bold
    const char *contains;
    int pictograms[LABEL_PICTOGRAMS_MAX]; // numbers known to pictogram.h
    size_t pictogram_count;
    const struct label_statement *hazards;
    size_t hazard_count;
    const struct label_statement *precautions; // most urgent first: the last are left out first
    size_t precaution_count;
    const char *left_out; // heading of the list of what had to be left out
    const char *wording;  // in that list, before codes without their wording
    const char *closing;
};

struct label_pictogram {
    int number;
    double x, y; // upper left corner of the upright square round it
};

struct label_layout {
    struct arena arena;
    double width, height; // pt
    double margin;
    struct layout_texts texts;
    struct label_pictogram pictograms[LABEL_PICTOGRAMS_MAX];
    size_t pictogram_count;
    double pictogram_side;   // pt, of the square itself
    double text_size;        // pt, of the statements
    size_t precaution_count; // printed
    bool codes_only;         // statements whose code may do stand without their wording
    const char *left_out;    // "P273, P391; wording of H225", "" = nothing
};

// Tries in this order, and takes the first that holds everything: text as large as the bottle allows, with pictograms
// of 16, 13 or 10 mm; text down to 5 pt; without precautions, the last first; without the wording of hazard statements
// where that is allowed. Text is never cut. STATUS_RANGE with a sentence when nothing holds it.
enum status label_layout_make(const struct label_content *content, const struct label_bottle *bottle,
                              const struct text_metric *metric, struct label_layout *ret, struct error *err);
void label_layout_release(struct label_layout *layout);

// How labels stand on a sheet of A4: edge to edge, cut marks in the margin.
struct label_sheet {
    double width, height; // of the paper, pt; lying where that holds more
    size_t columns, rows;
    double left, top; // of the first label
};
struct label_sheet label_sheet_plan(const struct label_bottle *bottle);

double points_from_mm(double mm);
double mm_from_points(double points);

#endif
