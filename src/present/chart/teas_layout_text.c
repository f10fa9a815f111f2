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

static void add_label(struct text *out, const struct layout_label *label) {
    if (!label->placed) {
        text_printf(out, "no room for '%s'\n", label->number.text);
        return;
    }
    print_box(out, "label", label->box);
    print_text(out, "  number", &label->number);
    if (label->has_name)
        print_text(out, "  name", &label->name);
    if (label->has_leader)
        print_segment(out, "  leader", label->leader);
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

void teas_layout_text(const struct teas_layout *layout, struct text *out) {
    print_page_head(out, &layout->page);
    add_triangle(out, layout);
    for (size_t i = 0; i < layout->area_count; i++)
        add_area(out, &layout->areas[i]);
    print_segments(out, "link", &layout->links);
    for (size_t i = 0; i < layout->mark_count; i++) {
        text_printf(out, "mark %zu %s", layout->marks[i].number,
                    shape_word(teas_mark_style(layout->marks[i].kind).shape));
        print_spot(out, layout->marks[i].at);
        text_add(out, "\n");
    }
    for (size_t i = 0; i < layout->label_count; i++)
        add_label(out, &layout->labels[i]);
    print_legend(out, layout->legend, layout->entries, layout->entry_count);
    print_page_foot(out, &layout->page);
}
