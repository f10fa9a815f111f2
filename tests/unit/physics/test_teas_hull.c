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

// The nearest of many points along the sides, for points on either hand of every side of a triangle without a level or
// upright one.
START_TEST(distance_to_a_region_is_to_the_nearest_point_of_its_edge) {
    double corners[] = {70, 20, 10, 30, 60, 10, 40, 10, 50};
    struct teas_region region = {.vertices = {.items = corners, .count = 3}};
    for (int fd = 5; fd <= 90; fd += 17)
        for (int fp = 3; fp <= 95 - fd; fp += 11) {
            double x, y, ax, ay, bx, by, least = INFINITY;
            struct teas point = {fd, fp, 100 - fd - fp};
            teas_xy(point, &x, &y);
            for (size_t side = 0; side < 3; side++) {
                const double *a = corners + 3 * side, *b = corners + 3 * ((side + 1) % 3);
                teas_xy((struct teas){a[0], a[1], a[2]}, &ax, &ay);
                teas_xy((struct teas){b[0], b[1], b[2]}, &bx, &by);
                for (double t = 0; t < 1; t += 1.0 / 2048)
                    least = fmin(least, hypot(x - ax - t * (bx - ax), y - ay - t * (by - ay)));
            }
            ck_assert_double_eq_tol(teas_distance_to_region(point, &region), 100 * least, 0.02); // in percent
        }
}
END_TEST

static Suite *suite(void) {
    Suite *suite = suite_create("teas_hull");
    TCase *all = tcase_create("all");
    tcase_add_unchecked_fixture(all, open_tables, close_tables);
    tcase_add_test(all, the_hull_holds_what_is_inside_the_sphere);
    tcase_add_test(all, no_sphere_no_hull);
    tcase_add_test(all, distance_to_a_region_is_to_the_nearest_point_of_its_edge);
    suite_add_tcase(suite, all);
    return suite;
}

int main(void) {
    return suite_run(suite());
}
