// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/section_chart.h"

#include "base/language.h"
#include "present/chart/chart_file.h"
#include "present/chart/layout_draw.h"

#include <assert.h>
#include <math.h>

static const double column_gap = 16, title_size = 9.5, name_size = 8, note_size = 8, legend_size = 7.5;
static const double box_share = 0.5;   // of the column's width; the rest is for what stands beside
static const double layer_least = 22;  // pt
static const double layer_most = 46;   // pt
static const double spot_gap = 0.18;   // of the width, between the spots of a layer that covers spots only
static const double ground_margin = 2; // round the words in a box
enum { SPOTS = 3, LEGEND_LINES = 4, NAME_LINES = 2 };

const struct section_chart_words *section_chart_words_english(void) {
    static const struct section_chart_words words = {
        .page = CHART_PAGE_WORDS_ENGLISH,
        .heading = "Section through the layers, not to scale; beside each layer what the new ones do to it",
        .models = "Computed with carrier and resin while each coat is wet; a published threshold outranks the models.",
        .note = "Heavy outline: still to be put on. Layers with gaps cover spots only.",
        .purpose = "This drawing plans, does not prove safety; try a corner first.",
    };
    return &words;
}

struct laying {
    const struct section_chart_input *input;
    const struct text_metric *metric;
    struct section_layout *layout;
    double top, bottom; // of what is between header and caption
    double width;       // of a column
};

static bool add_text(struct laying *laying, const char *text, double x, double y, double size, bool bold,
                     double width) {
    struct layout_column column = {&laying->layout->texts, x, width, y};
    return layout_paragraph(&laying->layout->arena, laying->metric, &column, text, size, bold, 1);
}

// --- legend ---

// Returns the height it takes; NAN when memory ran out. `place` false: only measured.
static double legend(struct laying *laying, const struct section_column *column, double x, double y, bool place) {
    struct layout_texts unused = {0};
    struct layout_column text = {place ? &laying->layout->texts : &unused, x, laying->width - column_gap, y};
    for (size_t i = column->count; i-- > 0;)
        if (!layout_paragraph(&laying->layout->arena, laying->metric, &text, column->layers[i].legend, legend_size,
                              false, LEGEND_LINES))
            return NAN;
    return text.y - y;
}

// --- one layer ---

static bool add_box(struct laying *laying, const struct section_layer *layer, struct box box) {
    struct section_box *placed = &laying->layout->boxes[laying->layout->box_count++];
    struct spot corners[] = {{box.x, box.y},
                             {box.x + box.width, box.y},
                             {box.x + box.width, box.y + box.height},
                             {box.x, box.y + box.height}};
    *placed = (struct section_box){.box = box, .style = layer->style, .planned = layer->planned};
    return area_hatch(&laying->layout->arena, layer->style, corners, 4, INFINITY, &placed->hatch);
}

static bool add_boxes(struct laying *laying, const struct section_layer *layer, struct box box) {
    if (!layer->spots)
        return add_box(laying, layer, box);
    double gap = box.width * spot_gap, width = (box.width - (SPOTS - 1) * gap) / SPOTS;
    for (int i = 0; i < SPOTS; i++)
        if (!add_box(laying, layer, (struct box){box.x + i * (width + gap), box.y, width, box.height}))
            return false;
    return true;
}

static bool add_name(struct laying *laying, const struct section_layer *layer, struct box box) {
    struct section_layout *layout = laying->layout;
    size_t first = layout->texts.count;
    struct layout_column column = {&layout->texts, box.x + 6, box.width - 12, box.y};
    if (!layout_paragraph(&layout->arena, laying->metric, &column, layer->name, name_size, true, NAME_LINES))
        return false;
    for (size_t i = first; i < layout->texts.count; i++) {
        struct layout_text *line = &layout->texts.items[i];
        line->y += (box.height - (column.y - box.y)) / 2;
        struct box words = layout_text_box(line);
        layout->grounds[layout->ground_count++] =
            (struct box){words.x - ground_margin, words.y - ground_margin, words.width + 2 * ground_margin,
                         words.height + 2 * ground_margin};
    }
    return true;
}

static bool add_notes(struct laying *laying, const struct section_layer *layer, struct box box, double width) {
    double step = note_size * LINE_STEP;
    double y = box.y + (box.height - step * (double)layer->note_count) / 2;
    for (size_t i = 0; i < layer->note_count; i++)
        if (!add_text(laying, layer->notes[i], box.x + box.width + 6, y + step * (double)i, note_size,
                      layer->note_strong[i], width - 6))
            return false;
    return true;
}

// --- a column ---

static bool add_column(struct laying *laying, size_t number, double legend_top) {
    const struct section_column *column = &laying->input->columns[number];
    double x = page_sizes_of(laying->input->page.sheet)->margin + (double)number * laying->width;
    double y = laying->top;
    double inner = laying->width - column_gap, wide = inner * box_share;
    if (column->title) {
        if (!add_text(laying, column->title, x, y, title_size, true, inner))
            return false;
        y += title_size * LINE_STEP + 3;
    }
    double height = fmin((legend_top - 8 - y) / (double)column->count, layer_most);
    double foot = y + height * (double)column->count;
    for (size_t i = 0; i < column->count; i++) {
        struct box box = {x, foot - height * (double)(i + 1), wide, height};
        if (!add_boxes(laying, &column->layers[i], box) || !add_name(laying, &column->layers[i], box) ||
            !add_notes(laying, &column->layers[i], box, inner - wide))
            return false;
    }
    return !isnan(legend(laying, column, x, foot + 8, true));
}

static size_t most_layers(const struct section_chart_input *input) {
    size_t most = 1;
    for (size_t i = 0; i < input->column_count; i++)
        most = input->columns[i].count > most ? input->columns[i].count : most;
    return most;
}

static enum status add_columns(struct laying *laying, struct error *err) {
    double tallest = 0;
    for (size_t i = 0; i < laying->input->column_count; i++) {
        double height = legend(laying, &laying->input->columns[i], 0, 0, false);
        if (isnan(height))
            return layout_no_memory(err);
        tallest = fmax(tallest, height);
    }
    double legend_top = laying->bottom - tallest;
    double needed = layer_least * (double)most_layers(laying->input) + title_size * LINE_STEP + 12;
    if (legend_top - laying->top < needed)
        return error_set(err, STATUS_RANGE,
                         "the page has no room for these layers; ask for --size full or fewer stacks");
    for (size_t i = 0; i < laying->input->column_count; i++)
        if (!add_column(laying, i, legend_top))
            return layout_no_memory(err);
    return STATUS_OK;
}

static bool lay_page(const struct section_chart_input *input, const struct text_metric *metric,
                     const struct section_chart_words *words, struct section_layout *layout, struct laying *laying) {
    struct page_work work = {.page = &input->page,
                             .words = &words->page,
                             .metric = metric,
                             .sizes = page_sizes_of(input->page.sheet),
                             .arena = &layout->arena,
                             .layout = &layout->page};
    page_layout_begin(&input->page, &layout->page);
    double inner = layout->page.width - 2 * work.sizes->margin;
    *laying = (struct laying){.input = input, .metric = metric, .layout = layout};
    if (!page_header(&work, say(words->heading), inner) ||
        !page_caption(&work, say(words->models), say(words->note), say(words->purpose)))
        return false;
    laying->top = work.header_bottom + 8;
    laying->bottom = work.caption_top - 4;
    laying->width = (inner + column_gap) / (double)input->column_count;
    return true;
}

enum status section_layout_make(const struct section_chart_input *input, const struct text_metric *metric,
                                struct section_layout *ret, struct error *err) {
    const struct section_chart_words *words = input->words ? input->words : section_chart_words_english();
    struct section_layout layout = {0};
    struct laying laying;
    enum { BOXES = SECTION_COLUMNS_MAX * SECTION_LAYERS_MAX };
    if (input->column_count < 1 || input->column_count > SECTION_COLUMNS_MAX)
        return error_set(err, STATUS_RANGE, "%zu stacks; one drawing holds 1 to %d", input->column_count,
                         SECTION_COLUMNS_MAX);
    enum status status = chart_page_check(&input->page, err);
    if (status != STATUS_OK)
        return status;
    layout.boxes = arena_new(&layout.arena, (size_t)BOXES * SPOTS, sizeof *layout.boxes);
    layout.grounds = arena_new(&layout.arena, (size_t)BOXES * NAME_LINES, sizeof *layout.grounds);
    if (!layout.boxes || !layout.grounds || !lay_page(input, metric, words, &layout, &laying))
        status = layout_no_memory(err);
    else
        status = add_columns(&laying, err);
    if (status == STATUS_OK)
        *ret = layout;
    else
        section_layout_release(&layout);
    return status;
}

void section_layout_release(struct section_layout *layout) {
    if (layout)
        arena_release(&layout->arena);
}

// --- drawing ---

static void draw_box(struct picture *picture, const struct section_box *box) {
    struct area_style style = area_style(box->style);
    struct pen pen = style.outline;
    pen.width = box->planned ? 2.2 : 0.9;
    pen.dash_count = 0;
    picture_segments(picture, box->hatch.items, box->hatch.count, &style.hatch.pen);
    picture_box(picture, box->box.x, box->box.y, box->box.width, box->box.height,
                (struct picture_paint){&pen, false, INK_BLACK});
}

enum status section_picture(const struct section_layout *layout, struct picture *ret, struct error *err) {
    struct picture picture;
    picture_begin(&picture, &layout->page);
    draw_page(&picture, &layout->page);
    for (size_t i = 0; i < layout->box_count; i++)
        draw_box(&picture, &layout->boxes[i]);
    for (size_t i = 0; i < layout->ground_count; i++)
        draw_white(&picture, layout->grounds[i]);
    draw_texts(&picture, &layout->texts);
    return picture_end(&picture, ret, err);
}

static enum status paint(void *data, const struct text_metric *metric, struct picture *ret, struct error *err) {
    struct section_layout layout;
    enum status status = section_layout_make(data, metric, &layout, err);
    if (status != STATUS_OK)
        return status;
    status = section_picture(&layout, ret, err);
    section_layout_release(&layout);
    return status;
}

enum status section_chart_write(const struct section_chart_input *input, const char *path, struct error *err) {
    struct section_chart_input copy = *input;
    return chart_file_write(path, paint, &copy, err);
}
