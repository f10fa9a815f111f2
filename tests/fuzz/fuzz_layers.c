// SPDX-License-Identifier: GPL-3.0-or-later
// Lines as layers of a stack, from the bottom up. What is read lies within its bounds, and who touches whom agrees with
// the order.
#include "selection/stack.h"
#include "tables.h"
#include "target.h"

#include <math.h>

static const struct library *library(void) {
    static struct library lib;
    if (!lib.directories)
        tables_open(&lib, TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_PROPERTIES);
    return &lib;
}

static void check_layer(const struct stack_layer *layer) {
    LAW(layer->material && layer->role >= ROLE_LAYER && layer->role <= ROLE_VARNISH);
    LAW(layer->method == COAT_BRUSH || layer->method == COAT_SPRAY);
    LAW(isnan(layer->percent_w_v) ||
        (layer->percent_w_v >= STACK_PERCENT_LEAST && layer->percent_w_v <= STACK_PERCENT_MOST));
    LAW(isnan(layer->drying_days) || layer->drying_days >= 0);
    LAW((layer->carrier_words != NULL) == (layer->carrier.count > 0));
    LAW(layer->carrier_words || (!layer->planned && isnan(layer->percent_w_v)));
}

static void check_stack(const struct stack *stack) {
    struct error err = {0};
    LAW(stack_check(stack, &err) == STATUS_OK || err.text[0]);
    for (size_t upper = 1; upper < stack->count; upper++)
        LAW(stack_touches(stack, upper, upper - 1));
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    char *text = input_text(bytes, length);
    struct arena arena = {0};
    static struct stack stack;
    stack = (struct stack){0};
    for (char *line = strtok(text, "\n"); line && stack.count < STACK_LAYERS_MAX; line = strtok(NULL, "\n")) {
        struct error err = {0};
        char note[BLEND_NOTE_SIZE];
        struct stack_layer *layer = &stack.layers[stack.count];
        enum status status = stack_layer_parse(&arena, library(), line, layer, note, &err);
        LAW(status == STATUS_OK || (status != STATUS_MEMORY && err.text[0]));
        if (status != STATUS_OK)
            continue;
        check_layer(layer);
        stack.count++;
    }
    check_stack(&stack);
    arena_release(&arena);
    free(text);
    return 0;
}
