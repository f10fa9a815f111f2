// SPDX-License-Identifier: GPL-3.0-or-later
// Numbers and names of points, letters of areas.
#include "present/chart/teas_layout_parts.h"

#include <math.h>
#include <string.h>

enum {
    CROWD = 30,       // with more points than that, the numbers are as small as may be
    NAME_WIDTH = 110, // pt; a longer name would hide the chart
    AXIS_BOXES = 10   // small boxes that stand for a slanted axis name, and for its arrow
};

static const double weight_of_link = 8;
static const double weight_of_outline = 2;
static const double weight_of_side = 24;
static const double weight_of_outside = 9; // among the numbers of the scales

// --- what labels must keep clear of ---

// A chain of small squares along a slanted stretch.
static void cover_stretch(struct spot from, struct spot to, double half, struct box *boxes, size_t count) {
    for (size_t i = 0; i < count; i++) {
        double share = ((double)i + 0.5) / (double)count;
        double x = from.x + (to.x - from.x) * share;
        double y = from.y + (to.y - from.y) * share;
        boxes[i] = (struct box){x - half, y - half, 2 * half, 2 * half};
    }
}

static void cover_axis(const struct layout_axis *axis, struct box *boxes) {
    const struct layout_text *name = &axis->name;
    double up = 0.3 * name->size;
    struct spot from = {name->x + name->unit_y * up, name->y - name->unit_x * up};
    struct spot to = {from.x + name->unit_x * name->width, from.y + name->unit_y * name->width};
    cover_stretch(from, to, 0.7 * name->size, boxes, AXIS_BOXES);
    cover_stretch(axis->arrow.from, axis->arrow.to, 0.4 * name->size, boxes + AXIS_BOXES, AXIS_BOXES);
}

static bool fill_taken(struct teas_work *work, struct label_field *field) {
    const struct teas_layout *layout = work->layout;
    size_t count = layout->scale.count + 3 * 2 * AXIS_BOXES;
    struct box *boxes = arena_new(work->arena, count, sizeof *boxes);
    struct disc *marks = mark_discs(work->arena, layout->marks, layout->mark_count);
    if (!boxes || !marks)
        return false;
    for (size_t i = 0; i < layout->scale.count; i++)
        boxes[i] = layout_text_box(&layout->scale.items[i]);
    for (size_t i = 0; i < 3; i++)
        cover_axis(&layout->axes[i], boxes + layout->scale.count + i * 2 * AXIS_BOXES);
    static const size_t corners = 3;
    struct spot *ground = arena_new(work->arena, corners, sizeof *ground);
    if (!ground)
        return false;
    ground[0] = layout->dispersion;
    ground[1] = layout->polar;
    ground[2] = layout->hydrogen_bonding;
    field->ground = ground;
    field->ground_count = corners;
    field->outside_cost = weight_of_outside;
    field->bounds = work->plot;
    field->taken = boxes;
    field->taken_count = count;
    field->marks = marks;
    field->mark_count = layout->mark_count;
    return true;
}

static bool fill_lines(struct teas_work *work, struct label_field *field) {
    const struct teas_layout *layout = work->layout;
    size_t count = layout->links.count + 3;
    for (size_t i = 0; i < layout->path_count; i++)
        count += layout->paths[i].spot_count;
    for (size_t i = 0; i < layout->area_count; i++)
        count += layout->areas[i].corner_count;
    struct soft_line *lines = arena_new(work->arena, count, sizeof *lines);
    if (!lines)
        return false;
    size_t n = 0;
    for (size_t i = 0; i < layout->links.count; i++)
        lines[n++] = (struct soft_line){layout->links.items[i], weight_of_link};
    for (size_t i = 0; i < layout->path_count; i++)
        for (size_t k = 1; k < layout->paths[i].spot_count; k++)
            lines[n++] = (struct soft_line){{layout->paths[i].spots[k - 1], layout->paths[i].spots[k]}, weight_of_link};
    for (size_t i = 0; i < layout->area_count; i++) {
        const struct layout_area *area = &layout->areas[i];
        for (size_t c = 0; c < area->corner_count; c++)
            lines[n++] =
                (struct soft_line){{area->corners[c], area->corners[(c + 1) % area->corner_count]}, weight_of_outline};
    }
    lines[n++] = (struct soft_line){{layout->dispersion, layout->polar}, weight_of_side};
    lines[n++] = (struct soft_line){{layout->polar, layout->hydrogen_bonding}, weight_of_side};
    lines[n++] = (struct soft_line){{layout->hydrogen_bonding, layout->dispersion}, weight_of_side};
    field->lines = lines;
    field->line_count = n;
    return true;
}

// --- labels of points ---

static bool add_labels(struct teas_work *work, const struct label_field *field) {
    struct teas_layout *layout = work->layout;
    bool crowd = work->input->point_count > CROWD;
    struct label_style style = {crowd ? TEXT_SMALLEST : work->sizes->label, NAME_WIDTH};
    return mark_labels_place(work->arena, work->metric, field, layout->marks, layout->mark_count, &style,
                             &layout->labels, &layout->label_count);
}

// --- letters of areas ---

// The field as the letters find it, with room for what is still to be placed.
struct lettering {
    struct teas_work *work;
    struct label_field field;
    struct box *taken;
    double size;
};

enum { LEADER_BOXES = 12 }; // that stand for one leader line

static void take(struct lettering *lettering, struct box box, bool has_leader, struct segment leader) {
    size_t n = lettering->field.taken_count;
    lettering->taken[n++] = box;
    if (has_leader) {
        cover_stretch(leader.from, leader.to, 1, lettering->taken + n, LEADER_BOXES);
        n += LEADER_BOXES;
    }
    lettering->field.taken_count = n;
}

static bool take_labels(struct lettering *lettering) {
    const struct teas_layout *layout = lettering->work->layout;
    size_t before = lettering->field.taken_count;
    size_t most = before + (layout->label_count + layout->area_count) * (1 + LEADER_BOXES);
    lettering->taken = arena_new(lettering->work->arena, most, sizeof *lettering->taken);
    if (!lettering->taken)
        return false;
    memcpy(lettering->taken, lettering->field.taken, before * sizeof *lettering->taken);
    lettering->field.taken = lettering->taken;
    for (size_t i = 0; i < layout->label_count; i++)
        if (layout->labels[i].placed)
            take(lettering, layout->labels[i].box, layout->labels[i].has_leader, layout->labels[i].leader);
    return true;
}

static double clearance(struct box box, struct disc mark) {
    double dx = fmax(0, fabs(box.x + box.width / 2 - mark.centre.x) - box.width / 2);
    double dy = fmax(0, fabs(box.y + box.height / 2 - mark.centre.y) - box.height / 2);
    return sqrt(dx * dx + dy * dy) - mark.radius;
}

// A letter on the outline of its area belongs to it without doubt, unless another outline passes there too; and it is
// no number of a mark, unless it touches one. Higher up is found sooner.
static double letter_cost(const struct lettering *lettering, size_t self, struct box box) {
    static const double wide = 4; // pt from a mark
    const struct teas_layout *layout = lettering->work->layout;
    struct spot middle = {box.x + box.width / 2, box.y + box.height / 2};
    double apart = 2 * box.height;
    double cost = lines_under(&lettering->field, box) + 0.02 * (middle.y - lettering->work->plot.y);
    for (size_t i = 0; i < layout->area_count; i++) {
        if (i == self)
            continue;
        double distance = polygon_distance(layout->areas[i].corners, layout->areas[i].corner_count, middle);
        cost += 4 * fmax(0, apart - distance);
    }
    for (size_t i = 0; i < lettering->field.mark_count; i++)
        cost += fmax(0, wide - clearance(box, lettering->field.marks[i]));
    return cost;
}

static bool letter_on_outline(const struct lettering *lettering, size_t self, double width, double height,
                              struct box *ret) {
    static const double step = 3; // pt between the places tried
    const struct layout_area *area = &lettering->work->layout->areas[self];
    double best = INFINITY;
    for (size_t c = 0; c < area->corner_count; c++) {
        struct spot a = area->corners[c];
        struct spot b = area->corners[(c + 1) % area->corner_count];
        double length = sqrt((b.x - a.x) * (b.x - a.x) + (b.y - a.y) * (b.y - a.y));
        for (double t = step; t < length - step; t += step) {
            double x = a.x + (b.x - a.x) * t / length;
            double y = a.y + (b.y - a.y) * t / length;
            struct box box = {x - width / 2, y - height / 2, width, height};
            if (!label_field_free(&lettering->field, box))
                continue;
            double cost = letter_cost(lettering, self, box);
            if (cost < best) {
                best = cost;
                *ret = box;
            }
        }
    }
    return isfinite(best);
}

// Where the outline is too crowded, a leader from one of the corners.
static bool letter_beside(const struct lettering *lettering, size_t self, double width, double height,
                          struct label_place *ret) {
    const struct layout_area *area = &lettering->work->layout->areas[self];
    for (size_t c = 0; c < area->corner_count && !ret->placed; c++) {
        struct label_wish wish = {.point = area->corners[c], .variants = 1, .sizes = {{width, height}}};
        if (!labels_place(&lettering->field, &wish, 1, ret))
            return false;
    }
    return true;
}

static bool add_letter(struct lettering *lettering, size_t self) {
    static const double margin = 1.5; // pt between letter and frame
    struct teas_work *work = lettering->work;
    struct layout_area *area = &work->layout->areas[self];
    const char *text = arena_printf(work->arena, "%c", 'A' + (char)self);
    if (!text)
        return false;
    area->letter = layout_text_make(work->metric, text, lettering->size, true);
    double width = area->letter.width + 2 * margin;
    double height = lettering->size * CAPITAL_HEIGHT + 2 * margin;
    struct label_place place = {0};
    place.placed = letter_on_outline(lettering, self, width, height, &place.box);
    if (!place.placed && !letter_beside(lettering, self, width, height, &place))
        return false;
    area->lettered = place.placed;
    if (!place.placed)
        return true;
    area->box = place.box;
    area->has_leader = place.has_leader;
    area->leader = place.leader;
    area->letter.x = place.box.x + margin;
    area->letter.y = place.box.y + height - margin;
    take(lettering, place.box, place.has_leader, place.leader);
    return true;
}

static bool add_letters(struct teas_work *work, const struct label_field *field) {
    struct lettering lettering = {.work = work, .field = *field, .size = work->sizes->label + 1};
    bool done = take_labels(&lettering);
    for (size_t i = 0; done && i < work->layout->area_count; i++)
        done = add_letter(&lettering, i);
    return done;
}

enum status teas_layout_labels(struct teas_work *work, struct error *err) {
    struct label_field field = {0};
    bool done =
        fill_taken(work, &field) && fill_lines(work, &field) && add_labels(work, &field) && add_letters(work, &field);
    return done ? STATUS_OK : layout_no_memory(err);
}

// Marks of paths have texts of their own, which are not to be mixed up with numbers of points.
static bool is_of_path(const struct layout_label *label) {
    return label->kind >= TEAS_PATH_KIND;
}

static bool add_missing_numbers(struct teas_work *work, struct text *text) {
    struct teas_layout *layout = work->layout;
    struct layout_label *points = arena_new(work->arena, layout->label_count, sizeof *points);
    size_t count = 0;
    if (!points)
        return false;
    for (size_t i = 0; i < layout->label_count; i++)
        if (!is_of_path(&layout->labels[i]))
            points[count++] = layout->labels[i];
    size_t *numbers = mark_labels_missing(work->arena, points, count, &layout->unlabelled_count);
    if (!numbers)
        return false;
    text_add_numbers(text, numbers, layout->unlabelled_count);
    return true;
}

const char *teas_layout_unlabelled(struct teas_work *work) {
    struct teas_layout *layout = work->layout;
    struct text text = {0};
    if (!add_missing_numbers(work, &text))
        text.failed = true;
    for (size_t i = 0; i < layout->area_count; i++) {
        if (layout->areas[i].lettered)
            continue;
        layout->unlabelled_count++;
        text_printf(&text, "%s%s", text.length ? ", " : "", layout->areas[i].letter.text);
    }
    for (size_t i = 0; i < layout->label_count; i++) {
        if (layout->labels[i].placed || !is_of_path(&layout->labels[i]))
            continue;
        layout->unlabelled_count++;
        text_printf(&text, "%s(%s)", text.length ? ", " : "", layout->labels[i].number.text);
    }
    const char *copy = text.failed ? NULL : arena_text(work->arena, text_bytes(&text));
    text_release(&text);
    return copy;
}
