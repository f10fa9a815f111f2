// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/label_layout.h"

#include "base/text.h"
#include "present/chart/pictogram.h"

#include <assert.h>
#include <math.h>
#include <string.h>

// Sizes (own choice; bottles estimated from usual round glass): the label leaves a gap on the bottle and ends below its
// shoulder. Annex I table 1.3 asks for 52 x 74 mm "if possible" up to 3 L (from memory).
//   30 mL: 33 mm across (104 mm round), 47 mm straight; 52 x 74 is not possible.
//   100 mL: 48 mm across (151 mm round), 65 mm straight.
//   500 mL: 76 mm across (239 mm round), 105 mm straight.
// All three fill a sheet of A4.
const struct label_bottle label_bottles[LABEL_BOTTLES] = {{30, 88, 45, 7}, {100, 95, 56, 8.5}, {500, 140, 95, 10}};

static const double margin_mm = 2;
// Sides of the square: annex I table 1.3, 16 mm if possible, never below 10 mm (from memory).
static const double sides_mm[] = {16, 13, 10};
enum { SIDES = sizeof sides_mm / sizeof sides_mm[0], LINES_MAX = 200 };
static const double text_step = 0.25;      // pt
static const double narrowest_beside = 62; // pt; narrower text would stand below the pictograms
static const double gap = 4;               // pt, between pictograms and text
static const double spread = 1.05;         // of staggered squares, so that their frames stay apart
static const double name_factor = 1.4, signal_factor = 1.4, proportions_factor = 1.1;

double points_from_mm(double mm) {
    return mm / 25.4 * 72;
}

double mm_from_points(double points) {
    return points / 72 * 25.4;
}

// --- one try ---

// How pictograms stand together; squares on their points fit into each other's corners.
enum arrangement_kind { STAGGERED, IN_A_ROW, IN_A_COLUMN, STAGGERED_DOWN, ARRANGEMENTS };
// Under the name, or beside it from the top of the label.
enum pictogram_place { UNDER_THE_NAME, FROM_THE_TOP, PICTOGRAM_PLACES };

struct attempt {
    const struct label_content *content;
    const struct label_bottle *bottle;
    const struct text_metric *metric;
    double size; // of the statements
    double side; // of a pictogram
    enum arrangement_kind arrangement;
    enum pictogram_place place;
    size_t precaution_count;
    bool codes_only;
};

struct setting {
    const struct attempt *attempt;
    struct label_layout *layout;
    double y;                          // top of the next line
    double beside_left, beside_bottom; // right end and bottom of the pictograms
    bool failed;                       // memory
    bool full;
};

static bool given(const char *text) {
    return text && *text;
}

static void add_line(struct setting *set, const char *text, double left, double size, bool bold) {
    struct layout_text line = layout_text_make(set->attempt->metric, text, size, bold);
    line.x = left;
    line.y = set->y + size * LINE_ASCENT;
    set->y += size * LINE_STEP;
    if (set->y > set->layout->height - set->layout->margin)
        set->full = true;
    if (!layout_texts_add(&set->layout->arena, &set->layout->texts, line))
        set->failed = true;
}

// Lines that begin beside the pictograms, of those still to come; 0 = none.
static size_t lines_beside(const struct setting *set, double step) {
    return set->y < set->beside_bottom ? (size_t)ceil((set->beside_bottom - set->y) / step) : 0;
}

// Adds as much of the text as has the same width; returns the rest.
static const char *add_lines(struct setting *set, const char *text, double size, bool bold) {
    struct label_layout *layout = set->layout;
    size_t beside = lines_beside(set, size * LINE_STEP);
    double left = beside ? set->beside_left : layout->margin;
    struct text_lines lines;
    if (!text_wrap(&layout->arena, set->attempt->metric, text, size, bold, layout->width - layout->margin - left,
                   beside ? beside + 1 : LINES_MAX, &lines)) {
        set->failed = true;
        return text;
    }
    set->full = set->full || (!beside && lines.shortened);
    for (size_t i = 0; i < lines.count && (!beside || i < beside) && !set->full; i++) {
        add_line(set, lines.items[i], left, size, bold);
        text += strlen(lines.items[i]);
        text += strspn(text, " ");
    }
    return text;
}

static void flow(struct setting *set, const char *text, double size, bool bold) {
    if (!given(text) || set->failed)
        return;
    const char *rest = text_printable(&set->layout->arena, text);
    if (!rest)
        set->failed = true;
    while (!set->failed && !set->full && *rest)
        rest = add_lines(set, rest, size, bold);
}

// --- pictograms ---

static void place_pictogram(struct setting *set, size_t i, double column, double row) {
    double width = pictogram_width(set->attempt->side);
    struct label_layout *layout = set->layout;
    layout->pictograms[i] = (struct label_pictogram){set->attempt->content->pictograms[i],
                                                     layout->margin + column * width, set->y + row * width};
    set->beside_left = fmax(set->beside_left, layout->pictograms[i].x + width + gap);
    set->beside_bottom = fmax(set->beside_bottom, layout->pictograms[i].y + width);
}

static void place_pictograms(struct setting *set) {
    size_t count = set->attempt->content->pictogram_count;
    for (size_t i = 0; i < count; i++) {
        double n = (double)i, half = spread * n / 2, odd = spread * (double)(i % 2) / 2;
        switch (set->attempt->arrangement) {
        case STAGGERED:
            place_pictogram(set, i, half, odd);
            break;
        case STAGGERED_DOWN:
            place_pictogram(set, i, odd, half);
            break;
        case IN_A_ROW:
            place_pictogram(set, i, n, 0);
            break;
        default:
            place_pictogram(set, i, 0, n);
            break;
        }
    }
    struct label_layout *layout = set->layout;
    layout->pictogram_count = count;
    layout->pictogram_side = set->attempt->side;
    if (set->beside_left > layout->width - layout->margin + gap || set->beside_bottom > layout->height - layout->margin)
        set->full = true;
    if (layout->width - layout->margin - set->beside_left < narrowest_beside) {
        set->y = set->beside_bottom;
        set->beside_bottom = 0;
    }
}

// --- statements ---

static bool is_code_only(const struct attempt *attempt, const struct label_statement *statement) {
    return attempt->codes_only && statement->code_may_do && given(statement->code);
}

static void flow_statements(struct setting *set, const struct label_statement *statements, size_t count) {
    struct text words = {0};
    for (size_t i = 0; i < count; i++) {
        bool code_only = is_code_only(set->attempt, &statements[i]);
        text_printf(&words, "%s%s%s%s%s", i ? " " : "", statements[i].code,
                    given(statements[i].code) && !code_only ? " " : "", code_only ? "" : statements[i].text,
                    code_only ? "." : "");
    }
    set->failed = set->failed || words.failed;
    flow(set, text_bytes(&words), set->attempt->size, false);
    text_release(&words);
}

// "P273, P391; wording of H225, H319".
static void list_left_out(struct setting *set) {
    const struct label_content *content = set->attempt->content;
    struct text words = {0};
    for (size_t i = set->attempt->precaution_count; i < content->precaution_count; i++)
        text_printf(&words, "%s%s", words.length ? ", " : "", content->precautions[i].code);
    bool first = true;
    for (size_t i = 0; i < content->hazard_count; i++) {
        if (!is_code_only(set->attempt, &content->hazards[i]))
            continue;
        text_printf(&words, "%s%s%s", first ? (words.length ? "; " : "") : ", ", first ? content->wording : "",
                    content->hazards[i].code);
        first = false;
    }
    set->layout->left_out = arena_text(&set->layout->arena, text_bytes(&words));
    set->failed = set->failed || words.failed || !set->layout->left_out;
    text_release(&words);
}

static void flow_left_out(struct setting *set) {
    if (set->failed || !*set->layout->left_out)
        return;
    const char *line =
        arena_printf(&set->layout->arena, "%s %s.", set->attempt->content->left_out, set->layout->left_out);
    if (!line)
        set->failed = true;
    flow(set, line, set->attempt->size, false);
}

static void set_all(struct setting *set) {
    const struct attempt *attempt = set->attempt;
    const struct label_content *content = attempt->content;
    double size = attempt->size;
    if (content->pictogram_count && attempt->place == FROM_THE_TOP)
        place_pictograms(set);
    flow(set, content->name, size * name_factor, true);
    flow(set, content->proportions, size * proportions_factor, false);
    flow(set, content->made, size, false);
    if (content->pictogram_count && attempt->place == UNDER_THE_NAME) {
        set->y += gap / 2;
        place_pictograms(set);
    }
    flow(set, content->signal, size * signal_factor, true);
    flow(set, content->warning, size, true);
    flow(set, content->contains, size, false);
    flow_statements(set, content->hazards, content->hazard_count);
    flow_statements(set, content->precautions, attempt->precaution_count);
    list_left_out(set);
    flow_left_out(set);
    flow(set, content->closing, size, false);
}

// STATUS_RANGE when it does not fit; *ret is set only when it does.
static enum status try_one(const struct attempt *attempt, struct label_layout *ret, struct error *err) {
    struct label_layout layout = {.width = points_from_mm(attempt->bottle->width_mm),
                                  .height = points_from_mm(attempt->bottle->height_mm),
                                  .margin = points_from_mm(margin_mm),
                                  .text_size = attempt->size,
                                  .precaution_count = attempt->precaution_count,
                                  .codes_only = attempt->codes_only,
                                  .left_out = ""};
    struct setting set = {.attempt = attempt, .layout = &layout, .y = layout.margin};
    set_all(&set);
    if (!set.failed && !set.full) {
        *ret = layout;
        return STATUS_OK;
    }
    label_layout_release(&layout);
    return set.failed ? layout_no_memory(err) : STATUS_RANGE;
}

static enum status try_arrangements(struct attempt attempt, struct label_layout *ret, struct error *err) {
    enum status status = STATUS_RANGE;
    int count = attempt.content->pictogram_count > 1 ? ARRANGEMENTS : 1;
    for (int place = 0; place < PICTOGRAM_PLACES; place++)
        for (int i = 0; status == STATUS_RANGE && i < count; i++) {
            attempt.place = (enum pictogram_place)place;
            attempt.arrangement = (enum arrangement_kind)i;
            status = try_one(&attempt, ret, err);
        }
    return status;
}

// --- all tries ---

static struct attempt smallest(const struct label_content *content, const struct label_bottle *bottle,
                               const struct text_metric *metric) {
    return (struct attempt){.content = content,
                            .bottle = bottle,
                            .metric = metric,
                            .size = LABEL_TEXT_SMALLEST,
                            .side = points_from_mm(sides_mm[SIDES - 1]),
                            .precaution_count = content->precaution_count};
}

// The most that fits in the smallest text with the smallest pictograms.
static enum status find_content(struct attempt *attempt, struct label_layout *ret, struct error *err) {
    for (int codes_only = 0; codes_only < 2; codes_only++)
        for (size_t left_out = 0; left_out <= attempt->content->precaution_count; left_out++) {
            attempt->codes_only = codes_only;
            attempt->precaution_count = attempt->content->precaution_count - left_out;
            enum status status = try_arrangements(*attempt, ret, err);
            if (status != STATUS_RANGE)
                return status;
        }
    return STATUS_RANGE;
}

// The largest text with pictograms of this side; *ret is replaced when one fits. STATUS_RANGE when none does.
static enum status find_size(struct attempt attempt, struct label_layout *ret, struct error *err) {
    enum status found = STATUS_RANGE;
    int low = 0, high = (int)floor((attempt.bottle->largest_text - LABEL_TEXT_SMALLEST) / text_step);
    while (low <= high) {
        int middle = (low + high + 1) / 2;
        struct label_layout layout;
        attempt.size = LABEL_TEXT_SMALLEST + middle * text_step;
        enum status status = try_arrangements(attempt, &layout, err);
        if (status == STATUS_OK) {
            label_layout_release(ret);
            *ret = layout;
            found = STATUS_OK;
            low = middle + 1;
        } else if (status == STATUS_RANGE) {
            high = middle - 1;
        } else {
            return status;
        }
    }
    return found;
}

// The largest pictograms beside which the text stays readable, else the smallest.
static enum status grow(struct attempt attempt, struct label_layout *ret, struct error *err) {
    double readable = fmin(LABEL_TEXT_READABLE, attempt.bottle->largest_text);
    for (size_t i = 0; i < SIDES; i++) {
        attempt.side = points_from_mm(sides_mm[i]);
        enum status status = find_size(attempt, ret, err);
        if (status != STATUS_OK && status != STATUS_RANGE)
            return status;
        if (status == STATUS_OK && ret->text_size >= readable)
            return STATUS_OK;
        if (attempt.content->pictogram_count == 0)
            return STATUS_OK;
    }
    return STATUS_OK;
}

enum status label_layout_make(const struct label_content *content, const struct label_bottle *bottle,
                              const struct text_metric *metric, struct label_layout *ret, struct error *err) {
    assert(content->pictogram_count <= LABEL_PICTOGRAMS_MAX && given(content->name) && given(content->closing));
    struct attempt attempt = smallest(content, bottle, metric);
    struct label_layout layout;
    enum status status = find_content(&attempt, &layout, err);
    if (status == STATUS_RANGE)
        return error_set(err, STATUS_RANGE,
                         "the text does not fit the label of a %d mL bottle (%g x %g mm) even in %g pt and without "
                         "precautions; take the label of a larger bottle or a shorter name",
                         bottle->volume_ml, bottle->width_mm, bottle->height_mm, LABEL_TEXT_SMALLEST);
    if (status != STATUS_OK)
        return status;
    status = grow(attempt, &layout, err);
    if (status != STATUS_OK) {
        label_layout_release(&layout);
        return status;
    }
    *ret = layout;
    return STATUS_OK;
}

void label_layout_release(struct label_layout *layout) {
    if (!layout)
        return;
    arena_release(&layout->arena);
    *layout = (struct label_layout){0};
}

// --- sheets ---

static struct label_sheet plan(const struct label_bottle *bottle, double paper_width_mm, double paper_height_mm) {
    static const double sheet_margin_mm = 8; // what common printers leave white, and room for the cut marks
    double columns = floor((paper_width_mm - 2 * sheet_margin_mm) / bottle->width_mm);
    double rows = floor((paper_height_mm - 2 * sheet_margin_mm) / bottle->height_mm);
    return (struct label_sheet){.width = points_from_mm(paper_width_mm),
                                .height = points_from_mm(paper_height_mm),
                                .columns = (size_t)columns,
                                .rows = (size_t)rows,
                                .left = points_from_mm((paper_width_mm - columns * bottle->width_mm) / 2),
                                .top = points_from_mm((paper_height_mm - rows * bottle->height_mm) / 2)};
}

struct label_sheet label_sheet_plan(const struct label_bottle *bottle) {
    static const double short_mm = 210, long_mm = 297; // A4, ISO 216
    struct label_sheet upright = plan(bottle, short_mm, long_mm), lying = plan(bottle, long_mm, short_mm);
    return lying.columns * lying.rows > upright.columns * upright.rows ? lying : upright;
}
