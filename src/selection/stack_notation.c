// SPDX-License-Identifier: GPL-3.0-or-later
// Reading one layer from its notation.
#include "selection/stack.h"

#include <math.h>
#include <string.h>

struct span {
    const char *start, *end;
};

static struct span trimmed(const char *start, const char *end) {
    while (start < end && *start == ' ')
        start++;
    while (end > start && end[-1] == ' ')
        end--;
    return (struct span){start, end};
}

static bool span_is(struct span span, const char *word) {
    size_t length = (size_t)(span.end - span.start);
    return length == strlen(word) && strncmp(span.start, word, length) == 0;
}

static bool span_number(struct span span, double *ret) {
    char number[32];
    size_t length = (size_t)(span.end - span.start);
    if (length == 0 || length >= sizeof number)
        return false;
    memcpy(number, span.start, length);
    number[length] = '\0';
    return schema_number(number, ret);
}

// "21 d", "3 weeks", "12 h" as days; false when it is none.
static bool span_days(struct span span, double *ret_days) {
    static const struct {
        const char *word;
        double days;
    } units[] = {{"d", 1},    {"day", 1},   {"days", 1},   {"h", 1.0 / 24}, {"hour", 1.0 / 24}, {"hours", 1.0 / 24},
                 {"week", 7}, {"weeks", 7}, {"month", 30}, {"months", 30}};
    const char *at = span.start;
    while (at < span.end && (strchr("0123456789.", *at)))
        at++;
    double value;
    if (!span_number((struct span){span.start, at}, &value))
        return false;
    struct span unit = trimmed(at, span.end);
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++)
        if (span_is(unit, units[i].word)) {
            *ret_days = value * units[i].days;
            return true;
        }
    return false;
}

static bool is_figure(char c) {
    return c >= '0' && c <= '9';
}

// Takes the pieces after the last commas that say how it is put on and how long it dries; the rest may hold commas.
// False at "1,5 d", which may be meant as one number; *ret_whole then ends with it.
static bool take_conditions(struct span *ret_whole, struct stack_layer *layer) {
    for (;;) {
        struct span whole = *ret_whole;
        const char *comma = whole.end;
        while (comma > whole.start && comma[-1] != ',')
            comma--;
        if (comma == whole.start)
            return true;
        struct span piece = trimmed(comma, whole.end);
        if (span_is(piece, "brush"))
            layer->method = COAT_BRUSH;
        else if (span_is(piece, "spray"))
            layer->method = COAT_SPRAY;
        else if (span_is(piece, "done"))
            layer->planned = false;
        else if (!span_days(piece, &layer->drying_days))
            return true;
        else if (comma - 1 > whole.start && is_figure(comma[-2]) && is_figure(*comma))
            return false;
        *ret_whole = trimmed(whole.start, comma - 1);
    }
}

static struct span take_role(struct span whole, struct stack_layer *layer) {
    const char *colon = memchr(whole.start, ':', (size_t)(whole.end - whole.start));
    if (!colon)
        return whole;
    struct span word = trimmed(whole.start, colon);
    for (int i = 0; planned_role_words[i]; i++)
        if (span_is(word, planned_role_words[i])) {
            layer->role = i;
            return trimmed(colon + 1, whole.end);
        }
    return whole;
}

// Where the carrier begins: the first " in " after which something stands.
static const char *find_in(struct span whole) {
    for (const char *at = whole.start; at + 4 < whole.end; at++)
        if (strncmp(at, " in ", 4) == 0)
            return at;
    return NULL;
}

// A number at the end is the percentage; "%" and "% w/v" may follow it.
static struct span take_percent(struct span resin, struct stack_layer *layer) {
    static const char *const units[] = {"% w/v", "%", "percent"};
    struct span left = resin;
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        size_t length = strlen(units[i]);
        if ((size_t)(left.end - left.start) > length && strncmp(left.end - length, units[i], length) == 0) {
            left = trimmed(left.start, left.end - length);
            break;
        }
    }
    const char *at = left.end;
    while (at > left.start && at[-1] != ' ')
        at--;
    if (at == left.start || !span_number((struct span){at, left.end}, &layer->percent_w_v))
        return resin;
    return trimmed(left.start, at);
}

static enum status check_numbers(const struct stack_layer *layer, const char *notation, struct error *err) {
    if (!isnan(layer->percent_w_v) &&
        !(layer->percent_w_v >= STACK_PERCENT_LEAST && layer->percent_w_v <= STACK_PERCENT_MOST))
        return error_set(err, STATUS_RANGE,
                         "'%.80s': %g %% is out of range; %g to %g g of resin in 100 mL are expected", notation,
                         layer->percent_w_v, STACK_PERCENT_LEAST, STACK_PERCENT_MOST);
    if (!isnan(layer->drying_days) && !(layer->drying_days >= 0 && layer->drying_days <= 36500))
        return error_set(err, STATUS_RANGE, "'%.80s': %g days of drying are out of range; 0 to 36500 are expected",
                         notation, layer->drying_days);
    if (!layer->carrier_words && !isnan(layer->percent_w_v))
        return error_set(
            err, STATUS_INPUT,
            "'%.80s': a percentage needs a carrier; write '%s %g in CARRIER', or leave the number out for a "
            "layer that stands already",
            notation, layer->material->id, layer->percent_w_v);
    return STATUS_OK;
}

enum status stack_layer_parse(struct arena *arena, const struct library *lib, const char *notation,
                              struct stack_layer *ret, char ret_note[BLEND_NOTE_SIZE], struct error *err) {
    struct stack_layer layer = {.planned = true, .percent_w_v = NAN, .drying_days = NAN};
    if (ret_note)
        ret_note[0] = '\0';
    struct span whole = trimmed(notation, notation + strlen(notation));
    if (whole.start == whole.end)
        return error_set(err, STATUS_INPUT, "a layer is empty; for example: 'dammar-fresh 20 in white-spirit, brush'");
    if (!take_conditions(&whole, &layer))
        return error_set(err, STATUS_INPUT,
                         "layer '%.80s': a number has a decimal point, as 1.5 d; the comma between two pieces has a "
                         "space behind it",
                         notation);
    whole = take_role(whole, &layer);
    const char *in = find_in(whole);
    struct span resin = take_percent(trimmed(whole.start, in ? in : whole.end), &layer);
    const char *name = arena_text_n(arena, resin.start, (size_t)(resin.end - resin.start));
    const char *carrier = in ? arena_text_n(arena, in + 4, (size_t)(whole.end - in - 4)) : NULL;
    if (!name || (in && !carrier))
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = library_material(lib, name, &layer.material, err);
    const char *last = strrchr(name, ' ');
    char typed[SCHEMA_NUMBER_BYTES];
    if (status != STATUS_OK && last && schema_number_with_comma(last + 1, typed))
        return error_set(err, STATUS_INPUT, "layer '%.80s': write the decimal point: %s", notation, typed);
    if (status != STATUS_OK)
        return error_wrap(err, status, "layer '%.80s'", notation);
    layer.planned &= in != NULL;
    layer.carrier_words = carrier;
    if (in)
        status = blend_parse(lib, carrier, &layer.carrier, ret_note, err);
    if (status != STATUS_OK)
        return error_wrap(err, status, "layer '%.80s', carrier", notation);
    status = check_numbers(&layer, notation, err);
    if (status == STATUS_OK)
        *ret = layer;
    return status;
}
