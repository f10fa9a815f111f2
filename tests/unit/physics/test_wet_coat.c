// SPDX-License-Identifier: GPL-3.0-or-later
// A coat while it is wet: amounts, times and activities worked out by hand, and what lies below judged point by point.
#include "physics/wet_coat.h"

#include "base/units.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>

static struct library lib;
static struct unifac_table table;
static struct wet_coat coat;

static void open_tables(void) {
    tables_open_unifac(&lib, TABLE_ALL & ~(unsigned)TABLE_LIMITS, &table);
}

static void close_tables(void) {
    tables_close_unifac(&lib, &table);
}

static void follow(const char *carrier, const char *resin, double percent_w_v, bool sprayed) {
    struct blend blend = tables_blend(&lib, carrier);
    struct wet_coat_request request = {.lib = &lib,
                                       .table = &table,
                                       .carrier = &blend,
                                       .resin = tables_material(&lib, resin),
                                       .percent_w_v = percent_w_v,
                                       .sprayed = sprayed,
                                       .temp_c = 20};
    struct error err = {0};
    ck_assert_msg(wet_coat_follow(&request, &coat, &err) == STATUS_OK, "%s", err.text);
}

static const struct evaporation_point *path_at(size_t point) {
    return &coat.path.points[coat.points[point].path];
}

// 22 g in 100 mL at 1.1 g/cm3 are 20 mL of resin and 80 mL of carrier: half resin when 20 mL of carrier are left.
START_TEST(resin_is_a_fifth_and_sets_at_a_quarter_of_the_carrier) {
    follow("acetone 50 + n-butyl-acetate 50", "dammar-fresh", 22, false);
    ck_assert_double_eq_tol(coat.points[0].resin_fraction, 0.2, 1e-12);
    for (size_t k = 0; k < coat.count; k++) {
        double carrier = 0.8 * path_at(k)->volume_left;
        ck_assert_double_eq_tol(coat.points[k].resin_fraction, 0.2 / (0.2 + carrier), 1e-12);
        ck_assert_uint_eq(coat.points[k].path, k);
    }
    ck_assert_double_ge(path_at(coat.count - 1)->volume_left, 0.25);
    ck_assert_double_lt(coat.path.points[coat.count].volume_left, 0.25);
}
END_TEST

// n-Butyl acetate alone leaves evenly: with the usual 15 g in 100 mL (v = 15/110) the coat sets at V = v/(1 - v) =
// 0.158, so at 0.16 on the grid, after 0.84 of the time that the wet coat takes to dry. A brushed coat of 30 to 100 um
// holds (1 - v) of that as carrier; each um takes 470/0.9/110 s on the filter paper (ASTM D3539, from memory), three
// times as long in still air. A spray of 10 to 40 um arrives half dry or as it was mixed.
START_TEST(times_of_a_coat_in_butyl_acetate) {
    double um_s = 470 / 0.9 / 110, carrier = 1 - 15.0 / 110;
    follow("n-butyl-acetate", "dammar-fresh", NAN, false);
    ck_assert_double_eq_tol(coat.seconds_least, 30 * carrier * 0.84 * um_s, 1e-6);
    ck_assert_double_eq_tol(coat.seconds_most, 100 * carrier * 0.84 * um_s * 3, 1e-6);
    ck_assert_double_eq_tol(coat.seconds_least, 103.3, 0.05);
    follow("n-butyl-acetate", "dammar-fresh", 15, true);
    ck_assert_double_eq_tol(coat.seconds_least, 10 * carrier * (0.84 - 0.5) * um_s, 10 * carrier * 0.0101 * um_s);
    ck_assert_double_eq_tol(coat.seconds_most, 40 * carrier * 0.84 * um_s * 3, 1e-6);
}
END_TEST

// One liquid in a resin, Flory and Huggins (phi the liquid, r the resin): ln a = ln phi + r (1 - V/V_p) + chi r^2.
START_TEST(activity_over_a_solution_of_resin) {
    follow("n-butyl-acetate", "dammar-fresh", 15, false);
    ck_assert(coat.covered && coat.resin_counted);
    struct film_parameters resin;
    const struct component *liquid = tables_component(&lib, "n-butyl-acetate");
    ck_assert_int_eq(film_parameters_of_material(tables_material(&lib, "dammar-fresh"), &resin, NULL), STATUS_OK);
    double volume = liquid->molar_volume.value;
    double chi = film_chi(&resin, hansen_of_component(liquid), volume, kelvin_from_celsius(20));
    for (size_t k = 0; k < coat.count; k++) {
        double r = coat.points[k].resin_fraction;
        double expected = log(1 - r) + r * (1 - volume / resin.molar_volume_cm3_mol) + chi * r * r;
        ck_assert_double_eq_tol(coat.points[k].ln_activity[0], fmin(expected, 0), 1e-9);
    }
    ck_assert_double_lt(coat.points[coat.count - 1].ln_activity[0], -0.05);
}
END_TEST

// Resin without a film of its own lowers nothing: the activities are those of the carrier as it is.
START_TEST(a_resin_without_film_is_not_counted) {
    const struct material *wax = NULL;
    for (size_t i = 0; i < lib.material_count && !wax; i++)
        wax = material_has_film(&lib.materials[i]) ? NULL : &lib.materials[i];
    ck_assert_ptr_nonnull(wax);
    follow("isooctane 60 + propan-2-ol 40", wax->id, 10, false);
    ck_assert(coat.covered && !coat.resin_counted);
    for (size_t k = 0; k < coat.count; k += 7) {
        double expected[BLEND_COMPONENTS_MAX];
        film_liquid_activities(&coat.activity, path_at(k)->x, expected);
        for (size_t i = 0; i < coat.path.blend.count; i++)
            ck_assert_double_eq(coat.points[k].ln_activity[i], expected[i]);
    }
}
END_TEST

// What has gone is absent, not a trace; what is left has an activity of at most 1.
START_TEST(what_has_gone_has_no_activity) {
    follow("acetone 1 + diacetone-alcohol 99", "dammar-fresh", 5, false);
    size_t gone = 0;
    for (size_t k = 0; k < coat.count; k++)
        for (size_t i = 0; i < coat.path.blend.count; i++) {
            bool left = path_at(k)->phi[i] > 1e-9;
            ck_assert(left == (coat.points[k].ln_activity[i] > -INFINITY));
            ck_assert(coat.points[k].ln_activity[i] <= 0);
            gone += !left;
        }
    ck_assert_uint_gt(gone, 0);
}
END_TEST

// The neat carrier at each point of its path, one by one; the coat is judged by the worst.
START_TEST(the_film_below_is_judged_by_the_worst_point) {
    static const char *const carriers[] = {"isooctane 60 + methoxypropanol 40", "acetone 50 + isooctane 50"};
    struct film_parameters oil;
    const struct material *paint = tables_material(&lib, "linseed-oil-film-young");
    ck_assert_int_eq(film_parameters_of_material(paint, &oil, NULL), STATUS_OK);
    for (size_t c = 0; c < 2; c++) {
        follow(carriers[c], "dammar-fresh", 15, false);
        struct film film;
        struct film_result one, neat, with_resin;
        double most = 0;
        ck_assert_int_eq(film_prepare(&oil, &coat.activity, &film, NULL), STATUS_OK);
        for (size_t k = 0; k < coat.count; k++) {
            film_of_liquid(&film, path_at(k)->x, NULL, &one);
            ck_assert_int_eq(one.outcome, FILM_BOUNDED);
            most = fmax(most, one.swelling);
        }
        wet_coat_film(&coat, &oil, true, &neat);
        ck_assert_double_eq_tol(neat.swelling, most, 1e-6 * most);
        wet_coat_film(&coat, &oil, false, &with_resin);
        ck_assert_double_lt(with_resin.swelling, neat.swelling); // the resin holds its carrier back
        ck_assert_double_gt(with_resin.swelling, 0.3 * neat.swelling);
    }
}
END_TEST

START_TEST(the_carrier_at_a_point_as_a_blend) {
    follow("acetone 50 + n-butyl-acetate 50", "dammar-fresh", 15, false);
    size_t points[] = {0, coat.count / 4, coat.count / 2};
    double before = 1;
    for (size_t k = 0; k < 3; k++) {
        struct blend blend;
        ck_assert_int_eq(wet_coat_blend(&lib, &coat, points[k], &blend, NULL), STATUS_OK);
        ck_assert_uint_eq(blend.count, 2);
        for (size_t i = 0; i < 2; i++)
            ck_assert_double_eq_tol(blend.volume_fractions[i], path_at(points[k])->phi[i], 1e-12);
        ck_assert_double_lt(blend.volume_fractions[0], before); // acetone leaves first
        before = blend.volume_fractions[0];
    }
    follow("acetone 1 + diacetone-alcohol 99", "dammar-fresh", 5, false);
    struct blend blend;
    ck_assert_double_lt(path_at(coat.count - 1)->phi[0], 1e-6);
    ck_assert_int_eq(wet_coat_blend(&lib, &coat, coat.count - 1, &blend, NULL), STATUS_OK);
    ck_assert_uint_eq(blend.count, 1); // the acetone has gone
}
END_TEST

// Toluene is an aromatic; of white spirit 20 % are counted as such (ageing.yaml: 17 to 20 %, the upper end).
START_TEST(share_of_a_family_while_wet) {
    follow("toluene 30 + isooctane 70", "dammar-fresh", 15, false);
    double most = 0;
    for (size_t k = 0; k < coat.count; k++)
        most = fmax(most, path_at(k)->phi[0]);
    ck_assert_double_gt(most, 0.31); // isooctane leaves first
    ck_assert_double_eq_tol(wet_coat_family_share(&lib, &coat, FAMILY_AROMATIC), most, 1e-12);
    ck_assert_double_eq(wet_coat_family_share(&lib, &coat, FAMILY_WATER), 0);
    follow("white-spirit", "dammar-fresh", 15, false);
    ck_assert_double_eq_tol(wet_coat_family_share(&lib, &coat, FAMILY_AROMATIC), 0.2, 1e-12);
}
END_TEST

START_TEST(a_carrier_that_cannot_be_followed_is_refused) {
    struct blend blend = tables_blend(&lib, "n-butyl-acetate");
    struct wet_coat_request request = {.lib = &lib,
                                       .table = &table,
                                       .carrier = &blend,
                                       .resin = tables_material(&lib, "dammar-fresh"),
                                       .percent_w_v = 15,
                                       .temp_c = 900};
    struct error err = {0};
    ck_assert_int_ne(wet_coat_follow(&request, &coat, &err), STATUS_OK);
    ck_assert_str_ne(err.text, "");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("wet coat");
    TCase *tests = tcase_create("while it is wet");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_add_test(tests, resin_is_a_fifth_and_sets_at_a_quarter_of_the_carrier);
    tcase_add_test(tests, times_of_a_coat_in_butyl_acetate);
    tcase_add_test(tests, activity_over_a_solution_of_resin);
    tcase_add_test(tests, a_resin_without_film_is_not_counted);
    tcase_add_test(tests, what_has_gone_has_no_activity);
    tcase_add_test(tests, the_film_below_is_judged_by_the_worst_point);
    tcase_add_test(tests, the_carrier_at_a_point_as_a_blend);
    tcase_add_test(tests, share_of_a_family_while_wet);
    tcase_add_test(tests, a_carrier_that_cannot_be_followed_is_refused);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
