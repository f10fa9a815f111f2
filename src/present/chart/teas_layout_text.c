// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/layout_print.h"
#include "present/chart/teas_layout.h"

static void add_area(struct text *out, const struct layout_area *area) {
    text_printf(out, "area %zu\n", area->style);
    for (size_t i = 0; i < area->corner_count; i++) {
        text_add(out, "  corner");
        print_spot(out, area->corners[i]);
        text_add(out, "\n");
    }
    print_hatch(out, &area->hatch);
    if (!area->lettered)
        return;
    print_box(out, "  box", area->box);
    print_text(out, "  letter", &area->letter);
    if (area->has_leader)
        print_segment(out, "  leader", area->leader);
}

static void add_triangle(struct text *out, const struct teas_layout *layout) {
    text_add(out, "triangle");
    print_spot(out, layout->dispersion);
    print_spot(out, layout->polar);
    print_spot(out, layout->hydrogen_bonding);
    text_add(out, "\n");
    for (size_t i = 0; i < 3; i++) {
        print_text(out, "axis", &layout->axes[i].name);
        print_segment(out, "  arrow", layout->axes[i].arrow);
    }
    print_texts(out, "scale", &layout->scale);
    print_segments(out, "tick", &layout->ticks);
    print_segments(out, "grid", &layout->grid);
}

static void print_path(struct text *out, const struct layout_path *path) {
    text_printf(out, "path %zu\n", path->style);
    for (size_t i = 0; i < path->spot_count; i++) {
        text_add(out, "  spot");
        print_spot(out, path->spots[i]);
        text_add(out, "\n");
    }
    if (path->has_head)
        print_segment(out, "  head", path->head);
}

void teas_layout_text(const struct teas_layout *layout, struct text *out) {
    print_page_head(out, &layout->page);
    add_triangle(out, layout);
    for (size_t i = 0; i < layout->area_count; i++)
        add_area(out, &layout->areas[i]);
    print_segments(out, "link", &layout->links);
    for (size_t i = 0; i < layout->path_count; i++)
        print_path(out, &layout->paths[i]);
    for (size_t i = 0; i < layout->mark_count; i++) {
        text_printf(out, "mark %zu %s", layout->marks[i].number, shape_word(layout->marks[i].style.shape));
        print_spot(out, layout->marks[i].at);
        text_add(out, "\n");
    }
    for (size_t i = 0; i < layout->label_count; i++)
        print_label(out, &layout->labels[i]);
    if (layout->room.width > 0)
        print_box(out, "room", layout->room);
    print_legend(out, layout->legend, layout->entries, layout->entry_count);
    print_page_foot(out, &layout->page);
}
