// SPDX-License-Identifier: GPL-3.0-or-later
// Which layers of a stack touch, what a stack must hold, and what stands for a material later.
#include "selection/stack.h"

#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;
static struct error err;

static void open_tables(void) {
    tables_open(&lib, TABLE_ALL);
}

static void close_tables(void) {
    library_release(&lib);
}

static const struct material *material(const char *id) {
    return tables_material(&lib, id);
}

static struct stack stack_of(size_t count, const int *roles) {
    struct stack stack = {.count = count};
    for (size_t i = 0; i < count; i++)
        stack.layers[i] = (struct stack_layer){.role = roles[i], .material = material("dammar-fresh")};
    return stack;
}

// A varnish over retouching meets the paint between the spots; an isolating varnish keeps them apart.
START_TEST(spots_let_layers_touch) {
    const int roles[] = {ROLE_PAINT, ROLE_FILL, ROLE_RETOUCHING, ROLE_ISOLATING, ROLE_VARNISH};
    struct stack stack = stack_of(5, roles);
    ck_assert(stack_touches(&stack, 1, 0) && stack_touches(&stack, 2, 0) && stack_touches(&stack, 3, 0));
    ck_assert(stack_touches(&stack, 2, 1) && stack_touches(&stack, 4, 3));
    ck_assert(!stack_touches(&stack, 4, 0) && !stack_touches(&stack, 4, 2));
    ck_assert(!stack_touches(&stack, 0, 1) && !stack_touches(&stack, 2, 2));
    for (int role = ROLE_LAYER; role <= ROLE_VARNISH; role++)
        ck_assert(layer_covers_spots_only(&(struct stack_layer){.role = role}) ==
                  (role == ROLE_FILL || role == ROLE_RETOUCHING));
}
END_TEST

START_TEST(a_stack_is_put_on_from_the_bottom) {
    const int roles[] = {ROLE_PAINT, ROLE_RETOUCHING, ROLE_VARNISH};
    struct stack stack = stack_of(3, roles);
    ck_assert_int_eq(stack_check(&stack, &err), STATUS_INPUT); // nothing is put on
    ck_assert_ptr_nonnull(strstr(err.text, "nothing is put on"));
    stack.layers[1].planned = stack.layers[2].planned = true;
    ck_assert_int_eq(stack_check(&stack, &err), STATUS_OK);
    stack.layers[2].planned = false;
    ck_assert_int_eq(stack_check(&stack, &err), STATUS_INPUT);
    ck_assert_ptr_nonnull(strstr(err.text, "layer 3"));
    stack.layers[1].planned = false, stack.layers[2].planned = true;
    ck_assert_int_eq(stack_check(&stack, &err), STATUS_OK);
    stack.count = 0;
    ck_assert_int_eq(stack_check(&stack, &err), STATUS_INPUT);
}
END_TEST

// ageing.yaml: dammar changes strongly, the hydrogenated hydrocarbon resin does not, of poly(n-butyl methacrylate) no
// figures were read; of a wax it says nothing.
START_TEST(what_stands_for_a_material_later) {
    const struct material *fresh = material("dammar-fresh"), *aged = material("dammar-aged");
    const struct material *stable = material("hydrogenated-hydrocarbon-resin");
    ck_assert_ptr_eq(material_when_aged(&lib, fresh), aged);
    ck_assert_str_eq(ageing_state_of(&lib, fresh)->material, "dammar-fresh");
    ck_assert_ptr_eq(material_when_aged(&lib, stable), stable);
    ck_assert_ptr_null(material_when_aged(&lib, material("pnbma")));
    ck_assert_ptr_null(ageing_state_of(&lib, aged));
    ck_assert_ptr_eq(material_when_aged(&lib, aged), aged);
    ck_assert(materials_alike(&lib, fresh, fresh) && materials_alike(&lib, fresh, aged));
    ck_assert(materials_alike(&lib, aged, fresh) && !materials_alike(&lib, fresh, stable));
}
END_TEST

START_TEST(a_material_without_region_has_a_stand_in_or_none) {
    size_t stand_ins = 0;
    for (size_t i = 0; i < lib.material_count; i++) {
        const struct material *one = &lib.materials[i], *used = material_with_region(&lib, one);
        if (!isnan(one->sphere.r0)) {
            ck_assert_ptr_eq(used, one);
            continue;
        }
        ck_assert(!used || (!isnan(used->sphere.r0) && strcmp(used->id, one->substitute) == 0));
        stand_ins += used != NULL;
    }
    ck_assert_uint_gt(stand_ins, 0);
    struct material odd = {.substitute = "no-such-material", .sphere = {.r0 = NAN}};
    ck_assert_ptr_null(material_with_region(&lib, &odd));
}
END_TEST

START_TEST(a_planned_layer_of_a_case) {
    struct case_planned planned = {.id = "v",
                                   .role = ROLE_VARNISH,
                                   .material = "dammar-fresh",
                                   .carrier = "white-spirit",
                                   .percent_w_v = 20,
                                   .method = COAT_SPRAY,
                                   .drying_days = 3};
    struct stack_layer layer;
    ck_assert_int_eq(stack_layer_of_case(&lib, &planned, &layer, &err), STATUS_OK);
    ck_assert(layer.planned && layer.role == ROLE_VARNISH && layer.method == COAT_SPRAY);
    ck_assert_str_eq(layer.material->id, "dammar-fresh");
    ck_assert_str_eq(layer.id, "v");
    ck_assert_uint_eq(layer.carrier.count, 1);
    ck_assert_double_eq(layer.percent_w_v, 20);
    ck_assert_double_eq(layer.drying_days, 3);
    planned.done = true;
    ck_assert_int_eq(stack_layer_of_case(&lib, &planned, &layer, &err), STATUS_OK);
    ck_assert(!layer.planned && layer.carrier.count == 1); // it may still hold some of its carrier
    planned.carrier = NULL;
    ck_assert_int_eq(stack_layer_of_case(&lib, &planned, &layer, &err), STATUS_OK);
    ck_assert(!layer.planned && layer.carrier.count == 0);
    planned.material = "no-such-resin";
    ck_assert_int_eq(stack_layer_of_case(&lib, &planned, &layer, &err), STATUS_UNKNOWN_NAME);
    ck_assert_str_eq(layer.material->id, "dammar-fresh"); // untouched
}
END_TEST

int main(void) {
    Suite *suite = suite_create("stack");
    TCase *tests = tcase_create("stack");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_add_test(tests, spots_let_layers_touch);
    tcase_add_test(tests, a_stack_is_put_on_from_the_bottom);
    tcase_add_test(tests, what_stands_for_a_material_later);
    tcase_add_test(tests, a_material_without_region_has_a_stand_in_or_none);
    tcase_add_test(tests, a_planned_layer_of_a_case);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
