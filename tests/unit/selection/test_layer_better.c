// SPDX-License-Identifier: GPL-3.0-or-later
// What would be better: another carrier, another resin, another order.
#include "selection/layer_better.h"

#include "suite.h"
#include "tables.h"

#include <check.h>
#include <string.h>

static struct library lib;
static struct unifac_table table;
static struct arena arena;

static void open_all(void) {
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &table);
}

static void close_all(void) {
    arena_release(&arena);
    tables_close_unifac(&lib, &table);
}

static struct stack_layer layer(const char *notation) {
    struct stack_layer parsed;
    struct error err = {0};
    stop_unless(stack_layer_parse(&arena, &lib, notation, &parsed, NULL, &err), &err);
    return parsed;
}

static struct goal shelf_of(const char *bottles) {
    struct goal shelf = {.components_most = 1, .steps = 10, .margin = 0.1};
    struct error err = {0};
    stop_unless(bottle_list_parse(&lib, bottles, shelf.bottles, GOAL_BOTTLES_MAX, &shelf.bottle_count, &err), &err);
    return shelf;
}

static struct better_request request_with(const struct goal *shelf) {
    return (struct better_request){.pairs = {.lib = &lib, .table = &table, .temp_c = 20, .samples = 64, .threads = 1},
                                   .removals = {.lib = &lib,
                                                .table = &table,
                                                .shelf = shelf,
                                                .temp_c = 20,
                                                .least_probability = 0.5,
                                                .show = 1,
                                                .threads = 1}};
}

// A carrier with aromatics over urea-aldehyde retouching: the same resin without aromatics is among what is proposed
// (practice: low-polarity resin above polar-soluble retouching; Piena 2001: the resin needs no aromatics).
START_TEST(a_milder_carrier_is_proposed) {
    struct goal shelf = shelf_of("xylenes, isoparaffin-c9-c12, ethanol");
    struct stack stack = {.count = 2};
    struct better_list list;
    struct error err = {0};
    enum touch worst[STACK_LAYERS_MAX] = {TOUCH_LEAVES, TOUCH_LIFTS};
    stack.layers[0] = layer("retouching: urea-aldehyde-resin in propan-2-ol, 60 d, done");
    stack.layers[1] = layer("varnish: hydrogenated-hydrocarbon-resin 20 in xylenes, spray");
    struct better_request request = request_with(&shelf);
    ck_assert_msg(better_find(&request, &stack, worst, TOUCH_SOFTENS, &list, &err) == STATUS_OK, "%s", err.text);
    bool found = false;
    for (size_t i = 0; i < list.count; i++) {
        ck_assert_int_lt(list.items[i].worst, TOUCH_LIFTS);
        found |= list.items[i].kind == BETTER_CARRIER && list.items[i].worst <= TOUCH_SWELLS &&
                 strcmp(list.items[i].carrier.components[0]->id, "isoparaffin-c9-c12") == 0;
    }
    ck_assert(found);
}
END_TEST

// Aromatics over polar retouching lift it, alcohol over a hydrocarbon resin does not: the other order is proposed, each
// place keeping its role (low-polarity resin and polar one, as above; Piena 2001).
START_TEST(another_order_is_proposed) {
    struct goal shelf = shelf_of("xylenes");
    struct stack stack = {.count = 2};
    struct better_list list;
    struct error err = {0};
    enum touch worst[STACK_LAYERS_MAX] = {TOUCH_LIFTS, TOUCH_LIFTS};
    stack.layers[0] = layer("isolating varnish: urea-aldehyde-resin in propan-2-ol, 60 d");
    stack.layers[1] = layer("varnish: hydrogenated-hydrocarbon-resin 20 in xylenes, spray");
    struct better_request request = request_with(&shelf);
    ck_assert_msg(better_find(&request, &stack, worst, TOUCH_SOFTENS, &list, &err) == STATUS_OK, "%s", err.text);
    const struct better *order = NULL;
    for (size_t i = 0; i < list.count; i++)
        if (list.items[i].kind == BETTER_ORDER)
            order = &list.items[i];
    ck_assert_ptr_nonnull(order);
    ck_assert_uint_eq(order->layer, 1);
    ck_assert_uint_eq(order->other, 0);
    ck_assert_str_eq(order->material->id, "urea-aldehyde-resin");
    ck_assert_str_eq(order->carrier.components[0]->id, "propan-2-ol");
    ck_assert_int_lt(order->worst, TOUCH_LIFTS);
    // What is done already does not change places.
    stack.layers[0] = layer("isolating varnish: urea-aldehyde-resin in propan-2-ol, 60 d, done");
    ck_assert_int_eq(better_find(&request, &stack, worst, TOUCH_SOFTENS, &list, &err), STATUS_OK);
    for (size_t i = 0; i < list.count; i++)
        ck_assert_int_ne(list.items[i].kind, BETTER_ORDER);
}
END_TEST

// The worst word of the pairs that touch and hold a layer, asked for one by one.
static enum touch worst_word(const struct pair_request *request, const struct stack *stack, size_t layer) {
    static struct planned_coat coat;
    struct error err = {0};
    enum touch worst = TOUCH_LEAVES;
    for (size_t upper = 0; upper < stack->count; upper++)
        for (size_t lower = 0; lower < upper; lower++) {
            struct layer_pair judged;
            if (!stack->layers[upper].planned || (upper != layer && lower != layer) ||
                !stack_touches(stack, upper, lower))
                continue;
            ck_assert_int_eq(planned_coat_make(request, &stack->layers[upper], &coat, &err), STATUS_OK);
            ck_assert_int_eq(layer_pair_judge(request, stack, upper, lower, &coat, &judged, &err), STATUS_OK);
            worst = judged.touch > worst ? judged.touch : worst;
        }
    return worst;
}

// No other resin of unknown ageing, then nothing worse than swelling, then known ageing, then what comes off later,
// then the milder word.
static int place_of(const struct better *item) {
    return 1000 * (item->kind == BETTER_RESIN && !item->ageing_known) + 100 * (item->worst > TOUCH_SWELLS) +
           10 * !item->ageing_known + 5 * (item->later != REMOVAL_FOUND) + (int)item->worst;
}

// Each proposal put into the stack and judged anew gives the word that it is listed with, and is milder than what was
// planned; two of a kind for each layer at most; the best first.
START_TEST(proposals_hold_when_judged_anew) {
    struct goal shelf = shelf_of("xylenes, isoparaffin-c9-c12, ethanol, propan-2-ol");
    struct stack stack = {.count = 3};
    struct better_list list;
    struct error err = {0};
    stack.layers[0] = layer("paint: linseed-oil-film-aged");
    stack.layers[1] = layer("varnish: hydrogenated-hydrocarbon-resin 20 in xylenes");
    stack.layers[2] = layer("varnish: dammar-fresh 20 in xylenes");
    struct better_request request = request_with(&shelf);
    enum touch worst[STACK_LAYERS_MAX] = {TOUCH_LEAVES};
    worst[2] = worst_word(&request.pairs, &stack, 2);
    ck_assert_int_ge(worst[2], TOUCH_MAY_LIFT); // the same carrier below
    ck_assert_int_eq(better_find(&request, &stack, worst, TOUCH_SOFTENS, &list, &err), STATUS_OK);
    ck_assert_uint_gt(list.count, 0);
    for (size_t i = 0; i < list.count; i++) {
        const struct better *item = &list.items[i];
        struct stack changed = stack;
        size_t alike = 0;
        if (item->kind == BETTER_ORDER) {
            changed.layers[item->layer] = stack.layers[item->other];
            changed.layers[item->other] = stack.layers[item->layer];
        }
        changed.layers[item->layer].material = item->material;
        changed.layers[item->layer].carrier = item->carrier;
        ck_assert_uint_eq(item->layer, 2);
        ck_assert_int_eq(worst_word(&request.pairs, &changed, item->layer), item->worst);
        ck_assert_int_lt(item->worst, worst[2]);
        ck_assert(item->kind != BETTER_CARRIER || item->material == stack.layers[2].material);
        ck_assert(item->kind != BETTER_RESIN || !materials_alike(&lib, item->material, stack.layers[1].material));
        for (size_t k = 0; k < list.count; k++)
            alike += list.items[k].kind == item->kind;
        ck_assert_uint_le(alike, 2);
        ck_assert(i == 0 || place_of(&list.items[i - 1]) <= place_of(item));
    }
    worst[2] = TOUCH_SWELLS; // nothing to mend
    ck_assert_int_eq(better_find(&request, &stack, worst, TOUCH_SOFTENS, &list, &err), STATUS_OK);
    ck_assert_uint_eq(list.count, 0);
}
END_TEST

// Aromatics over polar retouching lift it, alcohol over dammar does not: but dammar from aromatics, put below, would
// lift the hydrocarbon resin that is on the picture (all three by layer_pair). So that order is no proposal.
START_TEST(an_order_that_lifts_what_lies_below_is_not_proposed) {
    struct goal shelf = shelf_of("xylenes");
    struct stack stack = {.count = 3};
    struct better_list list;
    struct error err = {0};
    stack.layers[0] = layer("varnish: hydrogenated-hydrocarbon-resin in white-spirit-dearomatised, 60 d, done");
    stack.layers[1] = layer("isolating varnish: urea-aldehyde-resin 10 in propan-2-ol, 60 d");
    stack.layers[2] = layer("varnish: dammar-fresh 20 in xylenes");
    struct better_request request = request_with(&shelf);
    enum touch worst[STACK_LAYERS_MAX] = {TOUCH_LEAVES};
    worst[2] = worst_word(&request.pairs, &stack, 2);
    struct stack changed = stack;
    changed.layers[1] = stack.layers[2], changed.layers[2] = stack.layers[1];
    changed.layers[1].role = stack.layers[1].role, changed.layers[2].role = stack.layers[2].role;
    ck_assert_int_eq(worst[2], TOUCH_LIFTS);
    ck_assert_int_eq(worst_word(&request.pairs, &changed, 1), TOUCH_LIFTS);
    ck_assert_int_lt(worst_word(&request.pairs, &changed, 2), TOUCH_LIFTS);
    stop_unless(better_find(&request, &stack, worst, TOUCH_SOFTENS, &list, &err), &err);
    for (size_t i = 0; i < list.count; i++)
        ck_assert_int_ne(list.items[i].kind, BETTER_ORDER);
}
END_TEST

// Two layers to be mended: each has its own proposals, two of a kind at most.
START_TEST(every_layer_has_proposals_of_its_own) {
    struct goal shelf =
        shelf_of("xylenes, isoparaffin-c9-c12, white-spirit-dearomatised, ethanol, propan-2-ol, acetone");
    struct stack stack = {.count = 3};
    struct better_list list;
    struct error err = {0};
    stack.layers[0] = layer("paint: linseed-oil-film-young");
    stack.layers[1] = layer("retouching: ema-copolymer 10 in xylenes, 60 d");
    stack.layers[2] = layer("varnish: hydrogenated-hydrocarbon-resin 20 in xylenes");
    struct better_request request = request_with(&shelf);
    enum touch worst[STACK_LAYERS_MAX] = {TOUCH_LEAVES};
    worst[1] = worst_word(&request.pairs, &stack, 1);
    worst[2] = worst_word(&request.pairs, &stack, 2);
    stop_unless(better_find(&request, &stack, worst, TOUCH_SOFTENS, &list, &err), &err);
    size_t of_layer[3] = {0};
    for (size_t i = 0; i < list.count; i++) {
        const struct better *item = &list.items[i];
        size_t alike = 0;
        for (size_t k = 0; k < list.count; k++)
            alike += list.items[k].kind == item->kind && list.items[k].layer == item->layer;
        ck_assert_uint_le(alike, 2);
        ck_assert_int_lt(item->worst, worst[item->layer]);
        of_layer[item->layer]++;
    }
    ck_assert_uint_eq(of_layer[0], 0); // is there already
    ck_assert_uint_ge(of_layer[1], 1);
    ck_assert_uint_ge(of_layer[2], 3); // carriers and resins
}
END_TEST

int main(void) {
    Suite *suite = suite_create("layer_better");
    TCase *tcase = tcase_create("layer_better");
    tcase_set_timeout(tcase, 120);
    tcase_add_checked_fixture(tcase, open_all, close_all);
    tcase_add_test(tcase, a_milder_carrier_is_proposed);
    tcase_add_test(tcase, another_order_is_proposed);
    tcase_add_test(tcase, an_order_that_lifts_what_lies_below_is_not_proposed);
    tcase_add_test(tcase, proposals_hold_when_judged_anew);
    tcase_add_test(tcase, every_layer_has_proposals_of_its_own);
    suite_add_tcase(suite, tcase);
    return suite_run(suite);
}
