// SPDX-License-Identifier: GPL-3.0-or-later
// Areas from spheres: they hold every liquid inside the sphere, and are convex.
#include "physics/hansen.h"
#include "physics/teas_hull.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;

static void open_tables(void) {
    tables_open(&lib, TABLE_COMPONENTS | TABLE_MATERIALS);
}

static void close_tables(void) {
    library_release(&lib);
}

// On or to the left of every side, going round.
static bool holds(const struct teas *hull, size_t count, struct teas p) {
    for (size_t i = 0; i < count; i++) {
        struct teas a = hull[i], b = hull[(i + 1) % count];
        if ((b.fp - a.fp) * (p.fh - a.fh) - (b.fh - a.fh) * (p.fp - a.fp) < -1e-9)
            return false;
    }
    return true;
}

START_TEST(the_hull_holds_what_is_inside_the_sphere) {
    size_t hulls = 0;
    for (size_t m = 0; m < lib.material_count; m++) {
        struct teas hull[TEAS_HULL_MOST];
        size_t count = teas_hull_of_sphere(&lib, &lib.materials[m], hull);
        ck_assert(count == 0 || count >= 3);
        hulls += count > 0;
        for (size_t i = 0; count && i < lib.component_count; i++) {
            const struct component *component = &lib.components[i];
            struct teas place = {component->teas.fd, component->teas.fp, component->teas.fh};
            if (!isnan(place.fd) && hansen_red(hansen_of_component(component), &lib.materials[m].sphere) < 1)
                ck_assert_msg(holds(hull, count, place), "%s: %s lies outside", lib.materials[m].id, component->id);
        }
        for (size_t i = 0; i < count; i++)
            ck_assert(holds(hull, count, hull[i]));
    }
    ck_assert_uint_ge(hulls, 20);
}
END_TEST

START_TEST(no_sphere_no_hull) {
    struct teas hull[TEAS_HULL_MOST];
    ck_assert_uint_eq(teas_hull_of_sphere(&lib, tables_material(&lib, "animal-glue"), hull), 0);
}
END_TEST

static Suite *suite(void) {
    Suite *suite = suite_create("teas_hull");
    TCase *all = tcase_create("all");
    tcase_add_unchecked_fixture(all, open_tables, close_tables);
    tcase_add_test(all, the_hull_holds_what_is_inside_the_sphere);
    tcase_add_test(all, no_sphere_no_hull);
    suite_add_tcase(suite, all);
    return suite;
}

int main(void) {
    return suite_run(suite());
}
