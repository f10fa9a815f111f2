// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/graph_layout.h"

#include "base/language.h"
#include "present/chart/layout_draw.h"
#include "present/chart/layout_print.h"

#include <assert.h>
#include <math.h>

static const double header_gap = 8;
static const double caption_gap = 8;
static const double legend_gap = 12; // between panels and legend
static const double panel_gap = 16;  // between panels
// Height of a panel by its width at most: a single one does not fill a whole sheet.
static const double tallest_alone = 0.85;
static const double tallest_in_row = 1.15;

struct graph_work {
    struct page_work page;
    const struct graph_input *input;
    const struct text_metric *metric;
    struct arena *arena;
    struct graph_layout *layout;
    const char *note;
};

struct panel_sizes panel_sizes_of(enum sheet_size sheet) {
    if (sheet == SHEET_FULL)
        return (struct panel_sizes){.heading = 9, .axis = 8.5, .scale = 8, .label = 8};
    return (struct panel_sizes){.heading = 8.5, .axis = 8, .scale = 7.5, .label = 7.5};
}

// --- the room of the panels ---

// Rows and columns of equal panels.
struct grid {
    size_t columns, rows;
    double width, height; // of a panel
};

// The shape whose panels are largest, taking one and a half times as wide as high for right; false when none is large
// enough to be read.
static bool choose_grid(size_t count, struct box room, struct grid *ret) {
    double best = 0;
    for (size_t columns = 1; columns <= 3 && columns <= count; columns++) {
        struct grid grid = {.columns = columns, .rows = (count + columns - 1) / columns};
        grid.width = (room.width - (double)(columns - 1) * panel_gap) / (double)columns;
        grid.height = (room.height - (double)(grid.rows - 1) * panel_gap) / (double)grid.rows;
        if (grid.width < PANEL_WIDTH_MIN || grid.height < PANEL_HEIGHT_MIN)
            continue;
        double score = fmin(grid.width / 1.5, grid.height);
        if (score <= best)
            continue;
        best = score;
        *ret = grid;
        ret->height = fmin(grid.height, (columns > 1 ? tallest_in_row : tallest_alone) * grid.width);
    }
    return best > 0;
}

static double grid_height(const struct grid *grid) {
    return (double)grid->rows * grid->height + (double)(grid->rows - 1) * panel_gap;
}

// Whole names come before large panels. `share`: of the room left of the legend that stands beside.
static const struct arrangement below[] = {
    {.columns = 1, .lines = 3, .size = 8.0}, {.columns = 2, .lines = 4, .size = 8.0},
    {.columns = 3, .lines = 4, .size = 8.0}, {.columns = 2, .lines = 3, .size = 7.5},
    {.columns = 3, .lines = 3, .size = 7.5}, {.columns = 3, .lines = 3, .size = 7.0},
    {.columns = 3, .lines = 1, .size = 7.0}, {.columns = 4, .lines = 1, .size = 7.0},
};
static const struct arrangement beside[] = {
    {.columns = 1, .lines = 4, .size = 8.0, .width = 150}, {.columns = 1, .lines = 4, .size = 7.5, .width = 165},
    {.columns = 1, .lines = 3, .size = 7.0, .width = 190}, {.columns = 2, .lines = 3, .size = 7.0, .width = 128},
    {.columns = 2, .lines = 1, .size = 7.0, .width = 140},
};

struct placing {
    struct grid grid;
    struct box room; // of the panels
};

static bool fill_legend(struct graph_work *work, const struct arrangement *how, double most, struct legend *legend,
                        double *ret_height) {
    if (!legend_fill(work->arena, work->metric, work->input->legend, work->input->legend_count, how, legend))
        return false;
    *ret_height = legend_flow(legend, how->columns, most);
    return true;
}

static bool take_legend(struct graph_work *work, struct legend *legend, double width, double height) {
    struct graph_layout *layout = work->layout;
    layout->entries = legend->entries;
    layout->entry_count = legend->count;
    layout->legend = (struct box){legend->left, legend->top, width, height};
    return legend_set(work->arena, legend);
}

static struct box free_box(const struct graph_work *work, double width) {
    double top = work->page.header_bottom + header_gap;
    return (struct box){work->page.sizes->margin, top, width, work->page.caption_top - caption_gap - top};
}

// The legend stands under the panels, at least half of the height is theirs. False when memory is exhausted.
static bool try_below(struct graph_work *work, const struct arrangement *how, struct placing *placing, bool *ret_fits) {
    double width = work->layout->page.width - 2 * work->page.sizes->margin;
    if (!page_header(&work->page, work->input->heading, width))
        return false;
    struct box room = free_box(work, width);
    double columns = (double)how->columns;
    struct legend legend = {.left = room.x, .column_width = (width - (columns - 1) * LEGEND_COLUMN_GAP) / columns};
    double height = 0;
    if (!fill_legend(work, how, room.height / 2, &legend, &height))
        return false;
    *ret_fits = false;
    if (!isfinite(height))
        return true;
    room.height -= height + legend_gap;
    if (!choose_grid(work->input->panel_count, room, &placing->grid))
        return true;
    placing->room = room;
    *ret_fits = true;
    legend.top = room.y + grid_height(&placing->grid) + legend_gap;
    legend_flow(&legend, how->columns, height + 1e-6); // now that its top is known
    return take_legend(work, &legend, width, height);
}

// The legend stands to the right of header and panels.
static bool try_beside(struct graph_work *work, const struct arrangement *how, struct placing *placing,
                       bool *ret_fits) {
    double margin = work->page.sizes->margin;
    double columns = (double)how->columns;
    double width = columns * how->width + (columns - 1) * LEGEND_COLUMN_GAP;
    struct legend legend = {
        .column_width = how->width, .left = work->layout->page.width - margin - width, .top = margin};
    double left = legend.left - 1.5 * legend_gap - margin;
    *ret_fits = false;
    if (left < PANEL_WIDTH_MIN)
        return true;
    if (!page_header(&work->page, work->input->heading, left))
        return false;
    placing->room = free_box(work, left);
    double height = 0;
    if (!fill_legend(work, how, work->page.caption_top - caption_gap - margin, &legend, &height))
        return false;
    if (!isfinite(height) || !choose_grid(work->input->panel_count, placing->room, &placing->grid))
        return true;
    *ret_fits = true;
    return take_legend(work, &legend, width, height);
}

static bool try_without(struct graph_work *work, struct placing *placing, bool *ret_fits) {
    double width = work->layout->page.width - 2 * work->page.sizes->margin;
    if (!page_header(&work->page, work->input->heading, width))
        return false;
    placing->room = free_box(work, width);
    *ret_fits = choose_grid(work->input->panel_count, placing->room, &placing->grid);
    return true;
}

// A list of points stands beside a panel on the half sheet; a short key, and everything on the full sheet, below.
static bool try_all(struct graph_work *work, struct placing *placing, bool *ret_fits) {
    enum { SHORT_KEY = 6 };
    size_t count = work->input->legend_count;
    bool side = work->input->page.sheet == SHEET_HALF && count > SHORT_KEY;
    const struct arrangement *ways = side ? beside : below;
    size_t way_count = side ? sizeof beside / sizeof beside[0] : sizeof below / sizeof below[0];
    // A key of n entries in n columns takes one line: the fewest lines come first for short keys.
    size_t first = side ? 0 : count <= 2 ? 1 : count <= SHORT_KEY ? 2 : 1;
    if (count == 0)
        return try_without(work, placing, ret_fits);
    for (size_t i = first; i < way_count && !*ret_fits; i++)
        if (!(side ? try_beside(work, &ways[i], placing, ret_fits) : try_below(work, &ways[i], placing, ret_fits)))
            return false;
    return true;
}

static enum status no_room(const struct graph_work *work, struct error *err) {
    return error_set(err, STATUS_RANGE, "%zu panels, %zu legend entries and the caption do not fit on %s",
                     work->input->panel_count, work->input->legend_count,
                     work->input->page.sheet == SHEET_HALF ? say("half a sheet; take the full sheet")
                                                           : say("one sheet; make two charts"));
}

// --- the steps ---

// A list of one panel behind its heading, where there are several: "toluene: 3, 7; acetone: 12".
static void add_list(const struct graph_work *work, size_t panel, const struct text *list, struct text *out) {
    const char *heading = given_or(work->input->panels[panel].heading, "");
    bool named = work->input->panel_count > 1 && heading[0];
    if (list->length)
        text_printf(out, "%s%s%s%s", out->length ? "; " : "", named ? heading : "", named ? ": " : "",
                    text_bytes(list));
    out->failed = out->failed || list->failed;
}

// "Not drawn ...: 3, 7 · Values left out ...: 12"
static void add_undrawn(const struct graph_work *work, struct text *out) {
    const struct graph_words *words = work->input->words;
    struct text lists = {0};
    size_t skipped = 0;
    for (size_t i = 0; i < work->input->panel_count; i++) {
        const struct panel_layout *panel = &work->layout->panels[i];
        struct text numbers = {0};
        text_add_numbers(&numbers, panel->undrawn, panel->undrawn_count);
        add_list(work, i, &numbers, &lists);
        text_release(&numbers);
        skipped += graph_panel_skipped(&work->input->panels[i]);
    }
    if (lists.length)
        text_printf(out, "%s %s", say(words->undrawn), text_bytes(&lists));
    if (skipped)
        text_printf(out, "%s%s %zu", out->length ? " \u00B7 " : "", say(words->skipped), skipped);
    out->failed = out->failed || lists.failed;
    text_release(&lists);
}

static struct panel_work panel_work_of(struct graph_work *work, size_t i) {
    return (struct panel_work){.panel = &work->input->panels[i],
                               .metric = work->metric,
                               .sizes = panel_sizes_of(work->input->page.sheet),
                               .decimal_mark = language_decimal_mark(),
                               .arena = work->arena};
}

static void add_unlabelled(struct graph_work *work, struct text *out) {
    struct text lists = {0};
    work->layout->unlabelled_count = 0;
    for (size_t i = 0; i < work->input->panel_count; i++) {
        struct panel_work panel = panel_work_of(work, i);
        struct text list = {0};
        work->layout->unlabelled_count += graph_panel_unlabelled(&panel, &work->layout->panels[i], &list);
        add_list(work, i, &list, &lists);
        text_release(&list);
    }
    if (lists.length)
        text_printf(out, "%s%s %s", out->length ? " \u00B7 " : "", say(work->input->words->unlabelled),
                    text_bytes(&lists));
    out->failed = out->failed || lists.failed;
    text_release(&lists);
}

static const char *note_words(struct graph_work *work) {
    struct text text = {0};
    add_undrawn(work, &text);
    add_unlabelled(work, &text);
    const char *copy = text.failed ? NULL : arena_text(work->arena, text_bytes(&text));
    text_release(&text);
    return copy;
}

// The largest insets at the sides of all panels, and above and below of those in the same row.
static void share_insets(const struct graph_layout *layout, size_t columns, struct panel_insets *ret) {
    struct panel_insets all = {0, 0, 0, 0};
    for (size_t i = 0; i < layout->panel_count; i++) {
        all.left = fmax(all.left, layout->panels[i].insets.left);
        all.right = fmax(all.right, layout->panels[i].insets.right);
    }
    for (size_t i = 0; i < layout->panel_count; i++) {
        ret[i] = all;
        for (size_t k = i / columns * columns; k < layout->panel_count && k / columns == i / columns; k++) {
            ret[i].top = fmax(ret[i].top, layout->panels[k].insets.top);
            ret[i].bottom = fmax(ret[i].bottom, layout->panels[k].insets.bottom);
        }
    }
}

static enum status lay_panels(struct graph_work *work, const struct placing *placing, const struct panel_insets *least,
                              bool frame_only, struct error *err) {
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < work->input->panel_count; i++) {
        size_t row = i / placing->grid.columns;
        size_t column = i % placing->grid.columns;
        struct panel_work panel = panel_work_of(work, i);
        panel.room = (struct box){placing->room.x + (double)column * (placing->grid.width + panel_gap),
                                  placing->room.y + (double)row * (placing->grid.height + panel_gap),
                                  placing->grid.width, placing->grid.height};
        panel.least = least[i];
        panel.frame_only = frame_only;
        status = graph_panel_lay(&panel, &work->layout->panels[i], err);
    }
    return status;
}

static bool lay_caption(struct graph_work *work) {
    const struct graph_input *input = work->input;
    return page_caption(&work->page, input->models, work->note, input->purpose);
}

static enum status lay_out(struct graph_work *work, struct error *err) {
    struct graph_layout fresh = {.arena = work->layout->arena, .panel_count = work->input->panel_count};
    page_layout_begin(&work->input->page, &fresh.page);
    *work->layout = fresh;
    work->layout->panels = arena_new(work->arena, work->input->panel_count, sizeof *work->layout->panels);
    if (!work->layout->panels || !lay_caption(work))
        return layout_no_memory(err);
    struct placing placing;
    bool fits = false;
    if (!try_all(work, &placing, &fits))
        return layout_no_memory(err);
    if (!fits)
        return no_room(work, err);
    struct panel_insets insets[GRAPH_PANELS_MAX] = {{0, 0, 0, 0}};
    enum status status = STATUS_OK;
    if (work->input->panel_count > 1) {
        status = lay_panels(work, &placing, insets, true, err);
        share_insets(work->layout, placing.grid.columns, insets);
    }
    return status == STATUS_OK ? lay_panels(work, &placing, insets, false, err) : status;
}

// The caption says what found no room, which takes room itself: made again until both agree.
static enum status lay_out_with_note(struct graph_work *work, struct error *err) {
    enum { TRIES = 4 };
    work->note = "";
    enum status status = lay_out(work, err);
    for (int i = 0; i < TRIES && status == STATUS_OK; i++) {
        double before = work->page.caption_top;
        work->note = note_words(work);
        if (!work->note || !lay_caption(work))
            return layout_no_memory(err);
        if (work->page.caption_top >= before) // one that shrinks leaves its room empty, else the two might take turns
            return STATUS_OK;
        status = lay_out(work, err);
    }
    return status;
}

enum status graph_layout_make(const struct graph_input *input, const struct text_metric *metric,
                              struct graph_layout *ret, struct error *err) {
    assert(input->panel_count >= 1);
    enum status status = chart_page_check(&input->page, err);
    if (status == STATUS_OK && input->panel_count > GRAPH_PANELS_MAX)
        status = error_set(err, STATUS_RANGE, "%zu panels; one chart holds at most %d", input->panel_count,
                           GRAPH_PANELS_MAX);
    for (size_t i = 0; status == STATUS_OK && i < input->panel_count; i++)
        status = graph_panel_check(&input->panels[i], err);
    if (status != STATUS_OK)
        return status;
    struct graph_layout layout = {0};
    struct graph_work work = {.page = {.page = &input->page,
                                       .words = &input->words->page,
                                       .metric = metric,
                                       .sizes = page_sizes_of(input->page.sheet),
                                       .arena = &layout.arena,
                                       .layout = &layout.page},
                              .input = input,
                              .metric = metric,
                              .arena = &layout.arena,
                              .layout = &layout};
    status = lay_out_with_note(&work, err);
    if (status != STATUS_OK) {
        graph_layout_release(&layout);
        return status;
    }
    *ret = layout;
    return STATUS_OK;
}

void graph_layout_release(struct graph_layout *layout) {
    if (!layout)
        return;
    arena_release(&layout->arena);
    *layout = (struct graph_layout){0};
}

void graph_layout_text(const struct graph_layout *layout, struct text *out) {
    print_page_head(out, &layout->page);
    for (size_t i = 0; i < layout->panel_count; i++)
        graph_panel_print(&layout->panels[i], out);
    if (layout->entry_count)
        print_legend(out, layout->legend, layout->entries, layout->entry_count);
    print_page_foot(out, &layout->page);
}

enum status graph_picture(const struct graph_layout *layout, struct picture *ret, struct error *err) {
    struct picture picture;
    picture_begin(&picture, &layout->page);
    draw_page(&picture, &layout->page);
    for (size_t i = 0; i < layout->panel_count; i++)
        graph_panel_draw(&picture, &layout->panels[i]);
    draw_legend(&picture, layout->entries, layout->entry_count);
    return picture_end(&picture, ret, err);
}
