// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/language.h"
#include "present/chart/teas_layout_parts.h"

#include <math.h>
#include <stdio.h>

#define HALF 0.5 // cos 60 degrees

static const double tick_length = 4;
static const double number_distance = 6.5; // from the side to the nearest part of a number's box, along the tick
static const double axis_distance = 25;    // of an axis name's baseline from its side
static const double arrow_length = 34;
static const double arrow_gap = 6;

enum { value_step = 10 }; // percent

struct spot teas_layout_spot(const struct teas_layout *layout, struct teas place) {
    double x;
    double y;
    teas_xy(place, &x, &y);
    double side = layout->polar.x - layout->dispersion.x;
    return (struct spot){layout->dispersion.x + side * x, layout->dispersion.y - side * y};
}

// One scale: its side runs from value 0 to value 100; ticks and grid lines leave it in the direction of lines of equal
// value, the ticks outwards.
struct scale {
    const char *name;
    struct spot from, to;
    double inward_x, inward_y;   // unit vector of the grid lines
    double reading_x, reading_y; // direction of the name, always from left to right
    bool ascending;              // reading direction is that of larger values
    double outside;              // +1: the name's letters point away from the triangle, -1: towards it
};

static void make_scales(const struct teas_work *work, struct scale scales[3]) {
    const struct teas_layout *layout = work->layout;
    const struct teas_chart_words *words = work->words;
    scales[0] = (struct scale){say(words->dispersion),
                               layout->hydrogen_bonding,
                               layout->dispersion,
                               HALF,
                               TRIANGLE_RISE,
                               HALF,
                               -TRIANGLE_RISE,
                               false,
                               1};
    scales[1] =
        (struct scale){say(words->polar), layout->dispersion, layout->polar, HALF, -TRIANGLE_RISE, 1, 0, true, -1};
    scales[2] = (struct scale){
        say(words->hydrogen_bonding), layout->polar, layout->hydrogen_bonding, -1, 0, HALF, TRIANGLE_RISE, false, 1};
}

static struct spot on_side(const struct scale *scale, double share) {
    return (struct spot){scale->from.x + (scale->to.x - scale->from.x) * share,
                         scale->from.y + (scale->to.y - scale->from.y) * share};
}

// A number beyond its tick, its box pushed out until it clears the side.
static bool add_number(struct teas_work *work, const struct scale *scale, struct spot foot, int value) {
    const char *text = arena_printf(work->arena, "%d", value);
    if (!text)
        return false;
    struct layout_text number = layout_text_make(work->metric, text, work->sizes->scale, false);
    double cap = number.size * CAPITAL_HEIGHT;
    double x = foot.x - scale->inward_x * number_distance;
    double y = foot.y - scale->inward_y * number_distance;
    bool left = scale->inward_x > 0; // the number hangs to the left of its tick
    number.x = left ? x - number.width + (scale->inward_y != 0 ? number.width * 0.3 : 0) : x;
    number.y = scale->inward_y == 0 ? y + cap / 2 : scale->inward_y > 0 ? y : y + cap;
    return layout_texts_add(work->arena, &work->layout->scale, number);
}

static bool add_ticks(struct teas_work *work, const struct scale *scale) {
    struct teas_layout *layout = work->layout;
    for (int value = 0; value <= 100; value += value_step) {
        struct spot foot = on_side(scale, value / 100.0);
        struct spot out = {foot.x - scale->inward_x * tick_length, foot.y - scale->inward_y * tick_length};
        double inside = work->side * (1 - value / 100.0);
        struct spot far = {foot.x + scale->inward_x * inside, foot.y + scale->inward_y * inside};
        if (!segment_list_add(work->arena, &layout->ticks, (struct segment){foot, out}))
            return false;
        if (value > 0 && value < 100 && !segment_list_add(work->arena, &layout->grid, (struct segment){foot, far}))
            return false;
        if (!add_number(work, scale, foot, value))
            return false;
    }
    return true;
}

// The name stands centred along its side together with the arrow at its end of larger values.
static bool add_name(struct teas_work *work, const struct scale *scale, struct layout_axis *axis) {
    const char *name = text_printable(work->arena, scale->name);
    if (!name)
        return false;
    axis->name = layout_text_make(work->metric, name, work->sizes->axis, false);
    struct spot middle = on_side(scale, 0.5);
    double out_x = scale->outside * scale->reading_y; // unit vector away from the triangle
    double out_y = scale->outside * -scale->reading_x;
    double reach = scale->outside > 0 ? axis_distance : axis_distance + axis->name.size * TEXT_ASCENT;
    struct spot base = {middle.x + out_x * reach, middle.y + out_y * reach};
    double length = axis->name.width + arrow_gap + arrow_length;
    double start = -length / 2 + (scale->ascending ? 0 : arrow_length + arrow_gap);
    axis->name.x = base.x + scale->reading_x * start;
    axis->name.y = base.y + scale->reading_y * start;
    axis->name.unit_x = scale->reading_x;
    axis->name.unit_y = scale->reading_y;
    double from = scale->ascending ? start + axis->name.width + arrow_gap : start - arrow_gap;
    double to = scale->ascending ? from + arrow_length : from - arrow_length;
    double lift = axis->name.size * 0.28; // arrows run at half the height of small letters
    double up_x = scale->reading_y * lift;
    double up_y = -scale->reading_x * lift;
    axis->arrow.from = (struct spot){base.x + scale->reading_x * from + up_x, base.y + scale->reading_y * from + up_y};
    axis->arrow.to = (struct spot){base.x + scale->reading_x * to + up_x, base.y + scale->reading_y * to + up_y};
    return true;
}

enum status teas_layout_scale(struct teas_work *work, struct error *err) {
    struct scale scales[3];
    make_scales(work, scales);
    for (size_t i = 0; i < 3; i++)
        if (!add_ticks(work, &scales[i]) || !add_name(work, &scales[i], &work->layout->axes[i]))
            return layout_no_memory(err);
    return STATUS_OK;
}
