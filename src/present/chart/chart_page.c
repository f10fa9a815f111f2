// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/chart_page.h"

#include "base/language.h"

enum { TITLE_LINES = 2, HEADING_LINES = 2, CAPTION_LINES = 4 };

const struct page_sizes *page_sizes_of(enum sheet_size sheet) {
    static const struct page_sizes full = {.margin = 42, .title = 13, .heading = 9, .caption = 8};
    static const struct page_sizes half = {.margin = 26, .title = 11, .heading = 8, .caption = 7.5};
    return sheet == SHEET_FULL ? &full : &half;
}

enum status chart_page_check(const struct chart_page *page, struct error *err) {
    if (page->caption_count > CHART_CAPTIONS_MAX)
        return error_set(err, STATUS_RANGE, "%zu caption lines; one chart holds at most %d", page->caption_count,
                         CHART_CAPTIONS_MAX);
    if (page->dpi != 0 && (page->dpi < CHART_DPI_MIN || page->dpi > CHART_DPI_MAX))
        return error_set(err, STATUS_RANGE, "a resolution of %d dpi is out of range; %d to %d are possible", page->dpi,
                         CHART_DPI_MIN, CHART_DPI_MAX);
    return STATUS_OK;
}

void page_layout_begin(const struct chart_page *page, struct page_layout *layout) {
    // ISO 216 A4 is 210 mm x 297 mm, ANSI Letter 8.5 in x 11 in.
    static const double points_per_mm = 72 / 25.4;
    double across = page->paper == PAPER_A4 ? 210 * points_per_mm : 8.5 * 72;
    double upright = page->paper == PAPER_A4 ? 297 * points_per_mm : 11 * 72.0;
    *layout = (struct page_layout){.width = across,
                                   .height = page->sheet == SHEET_FULL ? upright : upright / 2,
                                   .dpi = page->dpi ? page->dpi : CHART_DPI_DEFAULT,
                                   .black_and_white = page->black_and_white};
}

const char *given_or(const char *text, const char *otherwise) {
    return text && text[0] ? text : otherwise;
}

static bool add_paragraph(struct page_work *work, struct layout_column *column, const char *text, double size,
                          bool bold, size_t most) {
    return layout_paragraph(work->arena, work->metric, column, text, size, bold, most);
}

bool page_header(struct page_work *work, const char *heading, double width) {
    struct page_layout *layout = work->layout;
    layout->header.count = 0;
    struct layout_column column = {&layout->header, work->sizes->margin, width, work->sizes->margin};
    layout->title = text_printable(work->arena, work->page->title);
    if (!layout->title)
        return false;
    if (layout->title[0] && !add_paragraph(work, &column, layout->title, work->sizes->title, true, TITLE_LINES))
        return false;
    if (!add_paragraph(work, &column, heading, work->sizes->heading, false, HEADING_LINES))
        return false;
    work->header_bottom = column.y;
    return true;
}

static const char *identity(struct page_work *work) {
    const struct chart_page *page = work->page;
    const struct chart_page_words *words = work->words;
    return arena_printf(work->arena, "%s: %s \u00B7 %s: %s \u00B7 %s: %s", say(words->object),
                        given_or(page->object, say(words->not_given)), say(words->date),
                        given_or(page->date, say(words->not_given)), say(words->data),
                        given_or(page->data_version, say(words->not_given)));
}

static bool add_caption(struct page_work *work, struct layout_column *column, const char *text, bool bold) {
    if (!text)
        return false;
    return !text[0] || add_paragraph(work, column, text, work->sizes->caption, bold, CAPTION_LINES);
}

static bool fill_caption(struct page_work *work, struct layout_column *column, const char *models, const char *note,
                         const char *purpose) {
    if (!add_caption(work, column, identity(work), false) || !add_caption(work, column, models, false))
        return false;
    for (size_t i = 0; i < work->page->caption_count; i++)
        if (!add_caption(work, column, work->page->captions[i], false))
            return false;
    return add_caption(work, column, note, false) && add_caption(work, column, purpose, true);
}

// Set from the top and then moved down onto the margin.
bool page_caption(struct page_work *work, const char *models, const char *note, const char *purpose) {
    struct page_layout *layout = work->layout;
    double margin = work->sizes->margin;
    layout->caption.count = 0;
    struct layout_column column = {&layout->caption, margin, layout->width - 2 * margin, 0};
    if (!fill_caption(work, &column, models, note, purpose))
        return false;
    double down = layout->height - margin - column.y;
    for (size_t i = 0; i < layout->caption.count; i++)
        layout->caption.items[i].y += down;
    work->caption_top = down - 4;
    layout->caption_rule = (struct segment){{margin, work->caption_top}, {layout->width - margin, work->caption_top}};
    layout->date = text_printable(work->arena, work->page->date);
    return layout->date != NULL;
}
