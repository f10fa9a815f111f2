// SPDX-License-Identifier: GPL-3.0-or-later
#include "present/chart/graph_axis.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double level_gap = 14;      // pt between numbers side by side
static const double line_distance = 2.6; // of numbers above each other, in sizes

enum { TICKS_MAX = 200, LABEL_SIZE = 48 };

bool graph_value_drawable(enum graph_scale scale, double value) {
    if (scale == GRAPH_LOG)
        return value >= GRAPH_VALUE_MIN && value <= GRAPH_VALUE_MAX;
    return fabs(value) <= GRAPH_VALUE_MAX; // false for NAN
}

double graph_position(const struct graph_range *range, double value) {
    if (range->scale == GRAPH_LOG)
        return (log10(value) - log10(range->low)) / (log10(range->high) - log10(range->low));
    return (value - range->low) / (range->high - range->low);
}

// --- steps ---

static const double hour_steps[] = {1.0 / 12, 0.25, 0.5, 1, 2, 3, 4, 6, 12, 24};
enum { HOUR_STEPS = sizeof hour_steps / sizeof hour_steps[0], ROUND_STEPS = 3 };
static const double round_steps[ROUND_STEPS] = {1, 2, 5};

// The number-th step, ascending; `first` is the power of ten of number 0.
static double step_at(enum graph_scale scale, int first, int number) {
    bool hours = scale == GRAPH_HOURS || scale == GRAPH_CLOCK;
    if (hours && number < HOUR_STEPS)
        return hour_steps[number];
    if (hours)
        return 24 * pow(2, number - HOUR_STEPS + 1);
    int decades = number / ROUND_STEPS;
    return round_steps[number % ROUND_STEPS] * pow(10, first + decades);
}

// --- labels ---

const char *graph_power_text(struct arena *arena, int power) {
    static const char *const raised[] = {"\u2070", "\u00B9", "\u00B2", "\u00B3", "\u2074",
                                         "\u2075", "\u2076", "\u2077", "\u2078", "\u2079"};
    char digits[16];
    snprintf(digits, sizeof digits, "%d", abs(power));
    char text[64] = "10";
    if (power < 0)
        strcat(text, "\u207B");
    for (const char *d = digits; *d; d++)
        strcat(text, raised[*d - '0']);
    return arena_text(arena, text);
}

static const char *number_text(struct arena *arena, double value, int decimals, char decimal_mark) {
    char text[LABEL_SIZE];
    snprintf(text, sizeof text, "%.*f", decimals, value == 0 ? 0.0 : value);
    char *dot = strchr(text, '.');
    if (dot)
        *dot = decimal_mark;
    char *minus = strchr(text, '-');
    return arena_printf(arena, "%s%s", minus ? "\u2212" : "", minus ? minus + 1 : text);
}

static const char *clock_text(struct arena *arena, double hours) {
    long minutes = lround(hours * 60);
    return arena_printf(arena, "%ld:%02ld", ((minutes / 60) % 24 + 24) % 24, (minutes % 60 + 60) % 60);
}

static int decimals_of(double step) {
    int decimals = (int)ceil(-log10(step) - 1e-9);
    return decimals > 0 ? decimals : 0;
}

// Numbers of six figures and thousandths would fill the margin: their thousands go into the axis name.
static int power_of(double low, double high) {
    double largest = fmax(fabs(low), fabs(high));
    if (largest < 1e-3 || largest >= 1e5)
        return 3 * (int)floor(log10(largest) / 3 + 1e-9);
    return 0;
}

// --- linear axes and hours ---

static bool room_enough(const struct graph_tick_style *style, const struct graph_range *range, double step) {
    double apart = style->length * step / (range->high - range->low);
    if (!style->level)
        return apart >= line_distance * style->size;
    double widest = 0;
    for (size_t i = 0; i < range->tick_count; i++)
        widest = fmax(widest, metric_width(style->metric, range->ticks[i].label, style->size, false));
    return apart >= widest + level_gap;
}

static const char *label_of(struct arena *arena, const struct graph_tick_style *style, const struct graph_range *range,
                            double value, double step) {
    if (range->scale == GRAPH_CLOCK)
        return clock_text(arena, value);
    double unit = pow(10, range->power);
    int decimals = decimals_of(step / unit);
    if (range->scale == GRAPH_HOURS && step == 0.25)
        decimals = 2;
    return number_text(arena, value / unit, decimals, style->decimal_mark);
}

// The ticks of one step. Values are multiples of the step, so that no error adds up.
static bool fill_ticks(struct arena *arena, const struct graph_tick_style *style, double step,
                       struct graph_range *range) {
    static const double slack = 1e-9; // of a step
    range->tick_count = 0;
    for (double n = ceil(range->low / step - slack); n <= range->high / step + slack; n += 1) {
        if (range->tick_count == TICKS_MAX)
            break;
        const char *label = label_of(arena, style, range, n * step, step);
        if (!label)
            return false;
        range->ticks[range->tick_count++] = (struct graph_tick){n * step, label};
    }
    return true;
}

static void widen(double step, bool low_open, bool high_open, struct graph_range *range) {
    static const double slack = 1e-9;
    if (low_open)
        range->low = step * floor(range->low / step + slack);
    if (high_open)
        range->high = step * ceil(range->high / step - slack);
}

// Ends with numbers, unless much of the axis would lie empty.
static bool set_ends(struct arena *arena, const struct graph_axis *axis, const struct graph_tick_style *style,
                     double step, const struct graph_range *bare, struct graph_range *range) {
    static const double emptiest = 0.3;
    static const double parts = 5; // of a step, to end at
    const double ends[] = {step / parts, step};
    *range = *bare;
    widen(step, isnan(axis->low), isnan(axis->high), range);
    bool wasteful = bare->high - bare->low < (1 - emptiest) * (range->high - range->low);
    for (size_t i = wasteful ? 0 : 1; i < 2; i++) {
        struct graph_tick *ticks = range->ticks;
        *range = *bare;
        range->ticks = ticks;
        widen(ends[i], isnan(axis->low), isnan(axis->high), range);
        range->power = power_of(range->low, range->high);
        if (!fill_ticks(arena, style, step, range))
            return false;
        if (range->tick_count >= 2)
            break;
    }
    return true;
}

// The finest step whose numbers have room. A widened range may need a coarser one than the data did.
static bool choose_linear(struct arena *arena, const struct graph_axis *axis, const struct graph_tick_style *style,
                          struct graph_range *range) {
    enum { STEPS = 40 };
    const struct graph_range bare = *range;
    int first = (int)floor(log10((range->high - range->low) / TICKS_MAX)) + 1;
    for (int i = 0; i < STEPS; i++) {
        double step = step_at(axis->scale, first, i);
        if (!((bare.high - bare.low) / step < TICKS_MAX - 2))
            continue;
        *range = bare;
        bool round = axis->scale == GRAPH_LINEAR;
        if (round ? !set_ends(arena, axis, style, step, &bare, range) : !fill_ticks(arena, style, step, range))
            return false;
        if (room_enough(style, range, step))
            return true;
    }
    return true;
}

// --- logarithmic axes ---

// Powers, where one of the numbers would be long.
static const char *log_label(struct arena *arena, const struct graph_tick_style *style, double value, bool powers) {
    int power = (int)floor(log10(value) + 1e-9);
    if (powers)
        return graph_power_text(arena, power);
    return number_text(arena, value, power < 0 ? -power : 0, style->decimal_mark);
}

// Ticks at 1, 2, 5 of each decade; of them every `each`-th decade has a number, and with `all` 2 and 5 too.
static bool fill_log_ticks(struct arena *arena, const struct graph_tick_style *style, int each, bool all,
                           struct graph_range *range) {
    range->tick_count = 0;
    int from = (int)floor(log10(range->low) - 1e-9);
    int to = (int)ceil(log10(range->high) + 1e-9);
    bool powers = range->low < 0.9e-3 || range->high > 5.1e4;
    for (int power = from; power <= to; power++) {
        for (int k = 0; k < ROUND_STEPS; k++) {
            double value = round_steps[k] * pow(10, power);
            if (value < range->low * (1 - 1e-9) || value > range->high * (1 + 1e-9) || range->tick_count == TICKS_MAX)
                continue;
            bool labelled = k == 0 ? (power % each + each) % each == 0 : all && !powers;
            const char *label = labelled ? log_label(arena, style, value, powers) : NULL;
            if (labelled && !label)
                return false;
            range->ticks[range->tick_count++] = (struct graph_tick){value, label};
        }
    }
    return true;
}

static size_t labelled_ticks(const struct graph_range *range) {
    size_t count = 0;
    for (size_t i = 0; i < range->tick_count; i++)
        count += range->ticks[i].label != NULL;
    return count;
}

static bool log_room_enough(const struct graph_tick_style *style, const struct graph_range *range) {
    double free_from = -INFINITY;
    for (size_t i = 0; i < range->tick_count; i++) {
        const char *label = range->ticks[i].label;
        if (!label)
            continue;
        double at = style->length * graph_position(range, range->ticks[i].value);
        double width = style->level ? metric_width(style->metric, label, style->size, false) : style->size;
        double need = style->level ? level_gap : (line_distance - 1) * style->size;
        if (at - width / 2 < free_from)
            return false;
        free_from = at + width / 2 + need;
    }
    return true;
}

// Ends at 1, 2 or 5 times a power of ten.
static double round_down(double value) {
    double unit = pow(10, floor(log10(value) + 1e-12));
    double part = value / unit * (1 + 1e-9);
    return unit * (part >= 5 ? 5 : part >= 2 ? 2 : 1);
}

static double round_up(double value) {
    double unit = pow(10, floor(log10(value) + 1e-12));
    double part = value / unit * (1 - 1e-9);
    return unit * (part <= 1 ? 1 : part <= 2 ? 2 : part <= 5 ? 5 : 10);
}

static bool choose_log(struct arena *arena, const struct graph_axis *axis, const struct graph_tick_style *style,
                       struct graph_range *range) {
    static const struct {
        int each;
        bool all;
    } ways[] = {{1, true}, {1, false}, {2, false}, {3, false}, {5, false}, {10, false}, {20, false}};
    if (isnan(axis->low))
        range->low = round_down(range->low);
    if (isnan(axis->high))
        range->high = round_up(range->high);
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        if (!fill_log_ticks(arena, style, ways[i].each, ways[i].all, range))
            return false;
        if (log_room_enough(style, range))
            break;
    }
    if (labelled_ticks(range) >= 2)
        return true;
    // A short stretch of a decade: round steps serve better.
    struct graph_axis linear = *axis;
    linear.scale = GRAPH_LINEAR;
    linear.low = range->low;
    linear.high = range->high;
    return choose_linear(arena, &linear, style, range);
}

// --- the range ---

// Something to draw on when there are no data, or all are alike.
static void open_up(const struct graph_axis *axis, double *low, double *high) {
    enum graph_scale scale = axis->scale;
    if (isnan(*low) || isnan(*high)) {
        *low = scale == GRAPH_LOG ? 1 : 0;
        *high = scale == GRAPH_LOG ? 10 : 1;
    }
    double largest = fmax(fabs(*low), fabs(*high));
    if (scale == GRAPH_LOG) {
        if (*high < *low * (1 + 1e-9)) {
            *low /= 2;
            *high *= 2;
        }
    } else if (largest < GRAPH_VALUE_MIN) {
        *low = axis->from_zero ? 0 : -1;
        *high = 1;
    } else if (*high - *low < 1e-9 * largest) {
        double half = 0.1 * largest;
        *low -= half;
        *high += half;
    }
}

bool graph_range_make(struct arena *arena, const struct graph_axis *axis, double data_low, double data_high,
                      const struct graph_tick_style *style, struct graph_range *ret) {
    assert(isnan(axis->low) || isnan(axis->high) || axis->low < axis->high);
    assert(axis->scale != GRAPH_LOG || !(axis->low <= 0));
    struct graph_range range = {.scale = axis->scale};
    range.low = axis->from_zero && axis->scale != GRAPH_LOG ? fmin(0, data_low) : data_low;
    range.high = axis->from_zero && axis->scale != GRAPH_LOG ? fmax(0, data_high) : data_high;
    if (!isnan(axis->low))
        range.low = axis->low;
    if (!isnan(axis->high))
        range.high = axis->high;
    if (isnan(axis->low) && isnan(axis->high))
        open_up(axis, &range.low, &range.high);
    else if (!(range.low < range.high)) { // the data lie beyond the end that is given
        if (isnan(axis->high))
            range.high = axis->scale == GRAPH_LOG ? range.low * 10 : range.low + fmax(1, fabs(range.low));
        else
            range.low = axis->scale == GRAPH_LOG ? range.high / 10 : range.high - fmax(1, fabs(range.high));
    }
    range.ticks = arena_new(arena, TICKS_MAX, sizeof *range.ticks);
    if (!range.ticks)
        return false;
    bool done =
        axis->scale == GRAPH_LOG ? choose_log(arena, axis, style, &range) : choose_linear(arena, axis, style, &range);
    *ret = range;
    return done;
}
