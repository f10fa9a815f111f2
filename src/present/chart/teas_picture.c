// SPDX-License-Identifier: GPL-3.0-or-later
// The Teas chart from numbers to lines and texts; every place is already decided.
#include "present/chart/layout_draw.h"
#include "present/chart/teas_chart.h"

static const struct pen grid_pen = {.width = HAIRLINE, .ink = INK_PALE};
static const struct pen side_pen = {.width = 1.0, .ink = INK_BLACK};
static const struct pen tick_pen = {.width = 0.7, .ink = INK_BLACK};
static const struct pen link_pen = {.width = 0.9, .ink = INK_BLACK};
static const struct pen leader_pen = {.width = 0.5, .ink = INK_BLACK};

static void draw_triangle(struct picture *picture, const struct teas_layout *layout) {
    struct spot corners[] = {layout->dispersion, layout->polar, layout->hydrogen_bonding};
    picture_segments(picture, layout->grid.items, layout->grid.count, &grid_pen);
    picture_segments(picture, layout->ticks.items, layout->ticks.count, &tick_pen);
    picture_path(picture, corners, 3, true, (struct picture_paint){&side_pen, false, INK_BLACK});
    draw_texts(picture, &layout->scale);
    for (size_t i = 0; i < 3; i++) {
        draw_text(picture, &layout->axes[i].name);
        draw_arrow(picture, layout->axes[i].arrow);
    }
}

static void draw_area(struct picture *picture, const struct layout_area *area) {
    struct area_style style = area_style(area->style);
    picture_segments(picture, area->hatch.items, area->hatch.count, &style.hatch.pen);
    picture_path(picture, area->corners, area->corner_count, true,
                 (struct picture_paint){&style.outline, false, INK_BLACK});
}

static void draw_letter(struct picture *picture, const struct layout_area *area) {
    if (!area->lettered)
        return;
    struct pen frame = {.width = 0.7, .ink = area_style(area->style).outline.ink};
    if (area->has_leader)
        picture_segments(picture, &area->leader, 1, &leader_pen);
    picture_box(picture, area->box.x, area->box.y, area->box.width, area->box.height,
                (struct picture_paint){&frame, true, INK_WHITE});
    draw_text(picture, &area->letter);
}

static void draw_path(struct picture *picture, const struct layout_path *path) {
    draw_path_line(picture, path->spots, path->spot_count, path->style);
    if (path->has_head)
        draw_arrow_head(picture, path->head, 7.5, INK_BLACK);
}

void teas_draw(struct picture *picture, const struct teas_layout *layout) {
    draw_triangle(picture, layout);
    for (size_t i = 0; i < layout->area_count; i++)
        draw_area(picture, &layout->areas[i]);
    picture_segments(picture, layout->links.items, layout->links.count, &link_pen);
    for (size_t i = 0; i < layout->path_count; i++)
        draw_path(picture, &layout->paths[i]);
    for (size_t i = 0; i < layout->label_count; i++)
        draw_mark_label(picture, &layout->labels[i]);
    for (size_t i = 0; i < layout->area_count; i++)
        draw_letter(picture, &layout->areas[i]);
    for (size_t i = 0; i < layout->mark_count; i++)
        draw_mark(picture, layout->marks[i].style, layout->marks[i].at);
    draw_legend(picture, layout->entries, layout->entry_count);
}

enum status teas_picture(const struct teas_layout *layout, struct picture *ret, struct error *err) {
    struct picture picture;
    picture_begin(&picture, &layout->page);
    draw_page(&picture, &layout->page);
    teas_draw(&picture, layout);
    return picture_end(&picture, ret, err);
}
