// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/label_picture.h"

#include "base/language.h"
#include "base/text.h"
#include "present/chart/canvas.h"
#include "present/chart/layout_draw.h"
#include "present/chart/pictogram.h"

#include <stdio.h>

static const struct pen cut_pen = {.width = HAIRLINE, .ink = INK_BLACK};
static const double cut_gap_mm = 1, cut_length_mm = 4; // from the outermost labels

static void draw_label(struct picture *picture, const struct label_layout *layout, double x, double y) {
    for (size_t i = 0; i < layout->pictogram_count; i++)
        pictogram_draw(picture, layout->pictograms[i].number, x + layout->pictograms[i].x, y + layout->pictograms[i].y,
                       layout->pictogram_side);
    for (size_t i = 0; i < layout->texts.count; i++) {
        struct layout_text text = layout->texts.items[i];
        text.x += x;
        text.y += y;
        draw_text(picture, &text);
    }
}

// Along every line to be cut, at both ends, outside the labels.
static void draw_cut_marks(struct picture *picture, const struct label_sheet *sheet,
                           const struct label_layout *layout) {
    double near = points_from_mm(cut_gap_mm), far = near + points_from_mm(cut_length_mm);
    double right = sheet->left + (double)sheet->columns * layout->width;
    double bottom = sheet->top + (double)sheet->rows * layout->height;
    for (size_t i = 0; i <= sheet->columns; i++) {
        double x = sheet->left + (double)i * layout->width;
        struct segment marks[] = {{{x, sheet->top - far}, {x, sheet->top - near}},
                                  {{x, bottom + near}, {x, bottom + far}}};
        picture_segments(picture, marks, 2, &cut_pen);
    }
    for (size_t i = 0; i <= sheet->rows; i++) {
        double y = sheet->top + (double)i * layout->height;
        struct segment marks[] = {{{sheet->left - far, y}, {sheet->left - near, y}},
                                  {{right + near, y}, {right + far, y}}};
        picture_segments(picture, marks, 2, &cut_pen);
    }
}

// Everything on the label as one paragraph, for people who cannot see pictures.
static void describe(struct picture *picture, const struct label_layout *layout, const struct label_content *content,
                     const struct label_page *page) {
    struct text words = {0};
    for (size_t i = 0; i < layout->texts.count; i++)
        text_printf(&words, "%s%s", i ? " " : "", layout->texts.items[i].text);
    for (size_t i = 0; i < layout->pictogram_count; i++)
        text_printf(&words, "%s%s", i ? ", " : say(" Pictograms: "), say(pictogram_name(layout->pictograms[i].number)));
    picture->title = text_printable(&picture->arena, content->name);
    picture->description = arena_text(&picture->arena, text_bytes(&words));
    picture->date = arena_text(&picture->arena, page->date ? page->date : "");
    if (words.failed || !picture->title || !picture->description || !picture->date)
        picture->failed = true;
    text_release(&words);
}

enum status label_picture(const struct label_layout *layout, const struct label_content *content,
                          const struct label_page *page, struct picture *ret, struct error *err) {
    struct label_sheet sheet = {layout->width, layout->height, 1, 1, 0, 0};
    if (page->sheet)
        sheet = label_sheet_plan(page->bottle);
    struct picture picture = {
        .width = sheet.width, .height = sheet.height, .dpi = page->dpi, .black_and_white = page->black_and_white};
    describe(&picture, layout, content, page);
    for (size_t row = 0; row < sheet.rows; row++)
        for (size_t column = 0; column < sheet.columns; column++)
            draw_label(&picture, layout, sheet.left + (double)column * layout->width,
                       sheet.top + (double)row * layout->height);
    if (page->sheet)
        draw_cut_marks(&picture, &sheet, layout);
    return picture_end(&picture, ret, err);
}

static void report(const struct label_layout *layout, const struct label_page *page, struct label_result *result) {
    struct label_sheet sheet = label_sheet_plan(page->bottle);
    *result = (struct label_result){.copies = page->sheet ? sheet.columns * sheet.rows : 1,
                                    .text_size = layout->text_size,
                                    .precaution_count = layout->precaution_count};
    if (layout->pictogram_count)
        result->pictogram_side_mm = mm_from_points(layout->pictogram_side);
    snprintf(result->left_out, sizeof result->left_out, "%s", layout->left_out);
}

static enum status write_layout(const struct canvas *canvas, const struct label_layout *layout,
                                const struct label_content *content, const struct label_page *page, const char *path,
                                struct error *err) {
    struct picture picture;
    enum status status = label_picture(layout, content, page, &picture, err);
    if (status != STATUS_OK)
        return status;
    status = canvas_write(canvas, &picture, path, err);
    picture_release(&picture);
    return status;
}

enum status label_write(const struct label_content *content, const struct label_page *page, const char *path,
                        struct label_result *ret_result, struct error *err) {
    struct canvas canvas;
    struct label_layout layout;
    enum status status = canvas_check_suffix(path, err);
    if (status == STATUS_OK)
        status = canvas_open(&canvas, NULL, err);
    if (status != STATUS_OK)
        return status;
    struct text_metric metric = canvas_metric(&canvas);
    status = label_layout_make(content, page->bottle, &metric, &layout, err);
    if (status == STATUS_OK) {
        status = write_layout(&canvas, &layout, content, page, path, err);
        if (status == STATUS_OK && ret_result)
            report(&layout, page, ret_result);
        label_layout_release(&layout);
    }
    canvas_close(&canvas);
    return status;
}
