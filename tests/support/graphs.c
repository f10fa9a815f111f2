// SPDX-License-Identifier: GPL-3.0-or-later
#include "graphs.h"

#include "charts.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static char fault[512];

__attribute__((format(printf, 1, 2))) static bool fails(const char *format, ...) {
    va_list args;
    va_start(args, format);
    vsnprintf(fault, sizeof fault, format, args);
    va_end(args);
    return false;
}

// Room of the letters, upright or turned by a quarter.
static struct box room_of(const struct layout_text *text) {
    if (text->unit_y == -1)
        return (struct box){text->x - 0.76 * text->size, text->y - text->width, 0.78 * text->size, text->width};
    return (struct box){text->x, text->y - 0.74 * text->size, text->width, 0.76 * text->size};
}

static bool on_page(const struct layout_text *text, const struct page_layout *page) {
    struct box box = room_of(text);
    if (text->size < TEXT_SMALLEST)
        return fails("'%s' has a size of %.1f pt", text->text, text->size);
    if (!box_inside(box, (struct box){0, 0, page->width, page->height}))
        return fails("'%s' leaves the page at %.1f %.1f", text->text, box.x, box.y);
    return true;
}

static bool all_on_page(const struct layout_texts *texts, const struct page_layout *page) {
    for (size_t i = 0; i < texts->count; i++)
        if (!on_page(&texts->items[i], page))
            return false;
    return true;
}

static bool texts_apart(const struct layout_texts *a, const struct layout_texts *b) {
    for (size_t i = 0; i < a->count; i++)
        for (size_t j = 0; j < b->count; j++)
            if (&a->items[i] != &b->items[j] && boxes_overlap(room_of(&a->items[i]), room_of(&b->items[j])))
                return fails("'%s' lies on '%s'", a->items[i].text, b->items[j].text);
    return true;
}

static bool clear_of_plot(const struct layout_texts *texts, struct box plot) {
    for (size_t i = 0; i < texts->count; i++)
        if (boxes_overlap(room_of(&texts->items[i]), plot))
            return fails("'%s' lies in the plot", texts->items[i].text);
    return true;
}

static bool frame_sound(const struct panel_layout *p, const struct page_layout *page) {
    const struct layout_texts *texts[] = {&p->heading, &p->x_name, &p->y_name, &p->scale, &p->zone_names};
    enum { TEXTS = sizeof texts / sizeof texts[0] };
    for (size_t i = 0; i < TEXTS; i++) {
        if (!all_on_page(texts[i], page))
            return false;
        for (size_t j = i; j < TEXTS; j++)
            if (!texts_apart(texts[i], texts[j]))
                return false;
        if (i < 4 && !clear_of_plot(texts[i], p->plot))
            return false;
    }
    return p->plot.width > 30 && p->plot.height > 30 ? true
                                                     : fails("a plot of %.0f x %.0f", p->plot.width, p->plot.height);
}

// --- lines and their names ---

static bool in_plot(const struct panel_layout *p, struct spot at) {
    static const double slack = 0.01;
    return at.x >= p->plot.x - slack && at.x <= p->plot.x + p->plot.width + slack && at.y >= p->plot.y - slack &&
           at.y <= p->plot.y + p->plot.height + slack;
}

static bool lines_sound(const struct panel_layout *p) {
    for (size_t i = 0; i < p->run_count; i++)
        for (size_t k = 0; k < p->runs[i].count; k++)
            if (!in_plot(p, p->runs[i].spots[k]))
                return fails("spot %zu of run %zu is outside", k, i);
    for (size_t i = 0; i < p->line_mark_count; i++)
        if (!in_plot(p, p->line_marks[i].at))
            return fails("a mark on a line is outside");
    for (size_t i = 0; i < p->band_count; i++)
        for (size_t k = 0; k < p->bands[i].corner_count; k++)
            if (!in_plot(p, p->bands[i].corners[k]))
                return fails("a band is outside");
    return true;
}

static bool column_sound(const struct panel_layout *p, const struct page_layout *page) {
    for (size_t i = 0; i < p->column_count; i++) {
        const struct panel_label *a = &p->column[i];
        if (!a->placed)
            continue;
        if (!all_on_page(&a->lines, page) || !clear_of_plot(&a->lines, p->plot))
            return false;
        if (a->has_sample && (a->sample.from.x < p->plot.x + p->plot.width || a->sample.to.x > a->lines.items[0].x))
            return fails("the sample of '%s' lies on something", a->name);
        for (size_t j = i + 1; j < p->column_count; j++)
            if (p->column[j].placed && !texts_apart(&a->lines, &p->column[j].lines))
                return false;
        for (size_t j = 0; j < p->column_count; j++)
            if (j != i && a->has_leader && p->column[j].placed && p->column[j].has_leader &&
                segments_cross(a->leader, p->column[j].leader) && a->leader.from.x > p->plot.x + p->plot.width - 1 &&
                p->column[j].leader.from.x > p->plot.x + p->plot.width - 1)
                return fails("the leaders of '%s' and '%s' cross", a->name, p->column[j].name);
    }
    return true;
}

// --- points and bands ---

static bool labels_sound(const struct panel_layout *p, const struct layout_label *labels, size_t count, bool marks) {
    for (size_t i = 0; i < count; i++) {
        const struct layout_label *a = &labels[i];
        if (!a->placed || !a->number.text[0])
            continue;
        if (!box_inside(a->box, p->plot))
            return fails("label '%s' leaves the plot", a->number.text);
        if (!box_inside(room_of(&a->number), (struct box){a->box.x, a->box.y - 0.5, a->box.width, a->box.height + 1}))
            return fails("'%s' leaves its label", a->number.text);
        for (size_t j = i + 1; j < count; j++)
            if (labels[j].placed && labels[j].number.text[0] && boxes_overlap(a->box, labels[j].box))
                return fails("label '%s' lies on '%s'", a->number.text, labels[j].number.text);
        for (size_t k = 0; marks && k < p->mark_count; k++)
            if (box_meets_disc(a->box, (struct disc){p->marks[k].at, p->marks[k].style.radius}))
                return fails("label '%s' lies on mark %zu", a->number.text, p->marks[k].number);
    }
    return true;
}

static bool points_sound(const struct panel_layout *p) {
    for (size_t i = 0; i < p->mark_count; i++)
        if (!in_plot(p, p->marks[i].at))
            return fails("mark %zu is outside", p->marks[i].number);
    for (size_t i = 0; i < p->bars.count; i++)
        if (p->bars.items[i].from.x < p->plot.x - 3 || p->bars.items[i].to.x > p->plot.x + p->plot.width + 3 ||
            p->bars.items[i].from.y < p->plot.y - 3 || p->bars.items[i].to.y > p->plot.y + p->plot.height + 3)
            return fails("an error bar is outside");
    return labels_sound(p, p->labels, p->label_count, true) &&
           labels_sound(p, p->band_labels, p->band_label_count, false);
}

const char *panel_fault(const struct panel_layout *panel, const struct page_layout *page) {
    bool sound = frame_sound(panel, page) && lines_sound(panel) && column_sound(panel, page) && points_sound(panel);
    return sound ? NULL : fault;
}

// --- the page ---

static bool panel_apart(const struct panel_layout *a, const struct panel_layout *b) {
    const struct layout_texts *own[] = {&a->heading, &a->x_name, &a->y_name, &a->scale};
    const struct layout_texts *other[] = {&b->heading, &b->x_name, &b->y_name, &b->scale};
    if (boxes_overlap(a->plot, b->plot))
        return fails("two plots overlap");
    for (size_t i = 0; i < 4; i++) {
        if (!clear_of_plot(own[i], b->plot))
            return false;
        for (size_t j = 0; j < 4; j++)
            if (!texts_apart(own[i], other[j]))
                return false;
        for (size_t k = 0; k < b->column_count; k++)
            if (b->column[k].placed && !texts_apart(own[i], &b->column[k].lines))
                return false;
    }
    return true;
}

static bool legend_sound(const struct graph_layout *layout) {
    for (size_t i = 0; i < layout->entry_count; i++) {
        const struct legend_entry *entry = &layout->entries[i];
        if (!all_on_page(&entry->lines, &layout->page))
            return false;
        for (size_t j = i + 1; j < layout->entry_count; j++)
            if (!texts_apart(&entry->lines, &layout->entries[j].lines))
                return false;
        for (size_t k = 0; k < layout->panel_count; k++)
            if (!clear_of_plot(&entry->lines, layout->panels[k].plot) ||
                !texts_apart(&entry->lines, &layout->panels[k].x_name))
                return false;
        if (!texts_apart(&entry->lines, &layout->page.caption))
            return false;
    }
    return true;
}

static bool page_sound(const struct graph_layout *layout) {
    const struct page_layout *page = &layout->page;
    if (!all_on_page(&page->header, page) || !all_on_page(&page->caption, page) ||
        !texts_apart(&page->header, &page->header) || !texts_apart(&page->caption, &page->caption))
        return false;
    for (size_t i = 0; i < layout->panel_count; i++) {
        const struct panel_layout *panel = &layout->panels[i];
        if (panel_fault(panel, page))
            return false;
        if (panel->plot.y + panel->plot.height > page->caption_rule.from.y ||
            !texts_apart(&page->header, &panel->heading))
            return fails("panel %zu lies on header or caption", i);
        for (size_t j = i + 1; j < layout->panel_count; j++)
            if (!panel_apart(panel, &layout->panels[j]) || !panel_apart(&layout->panels[j], panel))
                return false;
    }
    return legend_sound(layout);
}

const char *graph_fault(const struct graph_layout *layout) {
    return page_sound(layout) ? NULL : fault;
}

bool caption_has(const struct page_layout *page, const char *words) {
    struct text all = {0};
    for (size_t i = 0; i < page->caption.count; i++)
        text_printf(&all, "%s%s", i ? " " : "", page->caption.items[i].text);
    bool found = strstr(text_bytes(&all), words) != NULL;
    text_release(&all);
    return found;
}

// --- a page to fill ---

void graph_case_empty(struct graph_case *graph, enum paper paper, enum sheet_size sheet) {
    static const struct graph_words words = GRAPH_WORDS_ENGLISH;
    memset(graph, 0, sizeof *graph);
    for (size_t i = 0; i < GRAPH_PANELS_MAX; i++) {
        graph->panels[i].x = (struct graph_axis){.name = "time, h", .low = NAN, .high = NAN};
        graph->panels[i].y = (struct graph_axis){.name = "concentration, mg/m\u00B3", .low = NAN, .high = NAN};
    }
    graph->input = (struct graph_input){.page = chart_page_case(paper, sheet),
                                        .heading = "Graphs of nothing in particular",
                                        .models = "Invented figures.",
                                        .purpose = "Proves nothing.",
                                        .panels = graph->panels,
                                        .panel_count = 1,
                                        .words = &words};
}

void graph_case_lines(struct graph_case *graph, size_t count, bool long_names) {
    for (size_t i = 0; i < count; i++) {
        for (size_t k = 0; k < GRAPH_CASE_SPOTS; k++) {
            graph->xs[i][k] = (double)k / 10;
            graph->ys[i][k] = 20 + 15 * sin((double)i + (double)k / 15) + (double)(i % 5);
        }
        snprintf(graph->names[i], sizeof graph->names[i],
                 long_names ? "line %zu with a name that goes on and on" : "line %zu", i + 1);
        graph->lines[i] = (struct graph_line){graph->names[i], graph->xs[i], graph->ys[i], GRAPH_CASE_SPOTS, i, false};
    }
    graph->panels[0].lines = graph->lines;
    graph->panels[0].line_count = count;
}

void graph_case_points(struct graph_case *graph, size_t count) {
    static const struct mark_style mark = {MARK_DISC, 2.8, INK_BLUE};
    for (size_t i = 0; i < count; i++) {
        double x = (double)(i * 37 % 101);
        double y = (double)(i * 59 % 97);
        graph->points[i] = (struct graph_point){x, y, x - 4, x + 6, y - 9, y + 3, mark, i + 1};
    }
    graph->panels[0].points = graph->points;
    graph->panels[0].point_count = count;
}
