// SPDX-License-Identifier: GPL-3.0-or-later
// What the film model is worth: its order against measured chi, against swelling classes and published solubility, and
// how far that order hangs on the assumptions. Sizes are not tested here: they are not claimed.
#include "films.h"

#include "csv.h"
#include "physics/film_mix.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct films films;
static struct film_parameters paint, resin;

static void setup(void) {
    films_open(&films);
    paint = films_parameters(&films, "linseed-oil-film-young");
    resin = films_parameters(&films, "dammar-aged");
}

static void teardown(void) {
    films_release(&films);
}

static const struct material *material(const char *id) {
    return tables_material(&films.lib, id);
}

// --- measured chi (tests/reference/measured-chi.csv, Orwoll & Arnold 2007) ---

struct chi_check {
    size_t count;
    double rank_chi, rank_distance; // Spearman with the measured
    double level, level_without;    // mean of ours minus measured, with and without the entropic part
};

static struct chi_check check_chi(const char *polymer) {
    struct csv csv;
    csv_read(reference_path("measured-chi.csv"), &csv);
    struct hansen centre = hansen_of_sphere(&material(polymer)->sphere);
    struct film_parameters parameters = {.centre = centre, .alpha = FILM_ALPHA, .chi_entropic = FILM_CHI_ENTROPIC};
    struct chi_check check = {0};
    double measured[64], ours[64], distance[64];
    for (size_t i = 0; i < csv.rows; i++) {
        if (strcmp(csv_text(&csv, i, "polymer"), polymer) != 0)
            continue;
        const struct component *liquid = tables_component(&films.lib, csv_text(&csv, i, "solvent_id"));
        double temp_k = csv_number(&csv, i, "temp_c") + 273.15;
        measured[check.count] = csv_number(&csv, i, "chi");
        ours[check.count] = film_chi(&parameters, hansen_of_component(liquid), liquid->molar_volume.value, temp_k);
        distance[check.count] = hansen_distance(hansen_of_component(liquid), centre);
        check.level += ours[check.count] - measured[check.count];
        check.count++;
    }
    check.level /= (double)check.count;
    check.level_without = check.level - FILM_CHI_ENTROPIC;
    check.rank_chi = films_spearman(ours, measured, check.count);
    check.rank_distance = films_spearman(distance, measured, check.count);
    printf("chi of %s, %zu liquids: Spearman %.2f (plain distance %.2f), level %+.2f, %+.2f without 0.34\n", polymer,
           check.count, check.rank_chi, check.rank_distance, check.level, check.level_without);
    csv_release(&csv);
    return check;
}

// Worked out before, outside this project, from the same values: polystyrene at 40 C 0.75 (plain distance 0.82), level
// 0.40 too high, 0.06 without the entropic part; poly(vinyl acetate) at 100 C 0.92 (0.93), 0.65 and 0.31. Plain
// distance ranks no worse: the model's merit is not here. Two decimals were printed.
START_TEST(measured_chi_is_ranked_but_its_level_is_not_met) {
    struct chi_check ps = check_chi("polystyrene");
    ck_assert_uint_eq(ps.count, 15);
    ck_assert_double_eq_tol(ps.rank_chi, 0.75, 0.006);
    ck_assert_double_eq_tol(ps.rank_distance, 0.82, 0.006);
    ck_assert_double_eq_tol(ps.level, 0.40, 0.006);
    ck_assert_double_eq_tol(ps.level_without, 0.06, 0.006);
    struct chi_check pvac = check_chi("pvac");
    ck_assert_uint_eq(pvac.count, 23);
    ck_assert_double_eq_tol(pvac.rank_chi, 0.92, 0.006);
    ck_assert_double_eq_tol(pvac.rank_distance, 0.93, 0.006);
    ck_assert_double_eq_tol(pvac.level, 0.65, 0.006);
    ck_assert_double_eq_tol(pvac.level_without, 0.31, 0.006);
}
END_TEST

// --- swelling classes (tests/reference/paint-swelling.csv) ---

enum { LIQUIDS_MAX = 64 };

struct swollen {
    const struct component *liquid;
    double class; // 0 low, 1 low-moderate, 2 moderate, 3 high
    double swelling;
    double nearness; // -Ra to the film's centre
};

static double class_number(const char *word) {
    static const char *const words[] = {"low", "low-moderate", "moderate", "high"};
    for (size_t i = 0; i < 4; i++)
        if (strcmp(word, words[i]) == 0)
            return (double)i;
    return NAN;
}

static double neat_swelling(const struct film_parameters *parameters, const struct component *liquid) {
    struct film film;
    struct film_result result;
    struct error err = {0};
    ck_assert_int_eq(film_prepare_single(parameters, hansen_of_component(liquid), liquid->molar_volume.value,
                                         FILMS_TEMP_K, &film, &err),
                     STATUS_OK);
    film_of_liquid(&film, (const double[]){1}, NULL, &result);
    return result.outcome == FILM_WITHOUT_LIMIT ? INFINITY : result.swelling;
}

// Film 16 only (ten years old, kept dark): one class a liquid.
static size_t read_classes(const struct film_parameters *parameters, struct swollen *ret) {
    struct csv csv;
    csv_read(reference_path("paint-swelling.csv"), &csv);
    size_t count = 0;
    for (size_t i = 0; i < csv.rows; i++) {
        double class = class_number(csv_text(&csv, i, "swelling_class"));
        if (isnan(class) || strncmp(csv_text(&csv, i, "film"), "film 16", 7) != 0)
            continue;
        const struct component *liquid = tables_component(&films.lib, csv_text(&csv, i, "solvent_id"));
        ret[count++] = (struct swollen){liquid, class, neat_swelling(parameters, liquid),
                                        -hansen_distance(hansen_of_component(liquid), parameters->centre)};
    }
    csv_release(&csv);
    return count;
}

static double class_correlation(const struct film_parameters *parameters, double *ret_nearness) {
    struct swollen liquids[LIQUIDS_MAX];
    double class[LIQUIDS_MAX], swelling[LIQUIDS_MAX], nearness[LIQUIDS_MAX];
    size_t count = read_classes(parameters, liquids);
    ck_assert_uint_ge(count, 26);
    for (size_t i = 0; i < count; i++) {
        class[i] = liquids[i].class;
        swelling[i] = liquids[i].swelling;
        nearness[i] = liquids[i].nearness;
    }
    *ret_nearness = films_spearman(nearness, class, count);
    return films_spearman(swelling, class, count);
}

// Consistency, no proof: 24 of the 28 classes are recalled, and the model's centre was chosen knowing them. Worked out
// before, outside this project: short-oil alkyd 0.91 (distance alone 0.82), long-oil 0.81 (0.63).
START_TEST(swelling_classes_are_in_order) {
    double nearness = 0;
    double short_oil = class_correlation(&paint, &nearness);
    printf("swelling classes: short-oil alkyd centre %.3f, distance alone %.3f\n", short_oil, nearness);
    ck_assert_double_ge(short_oil, 0.85);
    ck_assert_double_eq_tol(short_oil, 0.91, 0.015);
    ck_assert_double_eq_tol(nearness, 0.82, 0.015);
    struct film_parameters alkyd = films_parameters(&films, "alkyd-long-oil");
    double long_oil = class_correlation(&alkyd, &nearness);
    printf("                  long-oil alkyd centre %.3f, distance alone %.3f\n", long_oil, nearness);
    ck_assert_double_eq_tol(long_oil, 0.81, 0.015);
    ck_assert_double_eq_tol(nearness, 0.63, 0.015);
}
END_TEST

static int by_misfit(const void *a, const void *b) {
    double x = ((const double *)a)[0], y = ((const double *)b)[0];
    return (x < y) - (x > y);
}

// Rank of the class minus rank of the swelling. The model is blind to benzyl alcohol (a slow, strong donor) and, less,
// to dimethylformamide (both set apart in the tables, never ranked); it puts the ketones above their class.
START_TEST(the_five_largest_misfits_are_known_by_name) {
    struct swollen liquids[LIQUIDS_MAX];
    double class[LIQUIDS_MAX], swelling[LIQUIDS_MAX], misfit[LIQUIDS_MAX][2];
    size_t count = read_classes(&paint, liquids);
    for (size_t i = 0; i < count; i++) {
        class[i] = liquids[i].class;
        swelling[i] = liquids[i].swelling;
    }
    double class_rank[LIQUIDS_MAX], swelling_rank[LIQUIDS_MAX];
    films_ranks(class, count, class_rank);
    films_ranks(swelling, count, swelling_rank);
    for (size_t i = 0; i < count; i++) {
        misfit[i][0] = fabs(class_rank[i] - swelling_rank[i]);
        misfit[i][1] = (double)i;
    }
    qsort(misfit, count, sizeof *misfit, by_misfit);
    static const char *const expected[] = {"benzyl-alcohol", "cyclohexane", "acetone", "butanone", "dimethylformamide"};
    for (size_t k = 0; k < 5; k++) {
        const struct swollen *one = &liquids[(size_t)misfit[k][1]];
        printf("misfit %zu: %s, class %.0f, swelling %.3f, %.1f ranks off\n", k + 1, one->liquid->id, one->class,
               one->swelling, misfit[k][0]);
        bool known = false;
        for (size_t j = 0; j < 5; j++)
            known = known || strcmp(one->liquid->id, expected[j]) == 0;
        ck_assert_msg(known, "%s", one->liquid->id);
    }
}
END_TEST

// Stolow's films swelled most in liquids of total parameter 18.0 to 22.5 MPa^0.5 (Phenix, WAAC Newsletter 20(3) 1998).
START_TEST(the_strongest_liquids_lie_in_the_published_band) {
    struct swollen liquids[LIQUIDS_MAX];
    size_t count = read_classes(&paint, liquids), inside = 0, outside = 0;
    double sum_inside = 0, sum_outside = 0, most_outside = 0, most = 0;
    for (size_t i = 0; i < count; i++) {
        double total = hansen_total(hansen_of_component(liquids[i].liquid));
        bool in = total >= 18.0 && total <= 22.5;
        *(in ? &sum_inside : &sum_outside) += liquids[i].swelling;
        *(in ? &inside : &outside) += 1;
        most = fmax(most, liquids[i].swelling);
        if (!in)
            most_outside = fmax(most_outside, liquids[i].swelling);
    }
    double mean_in = sum_inside / (double)inside, mean_out = sum_outside / (double)outside;
    printf("total parameter 18.0 to 22.5: mean swelling %.2f (%zu liquids), outside %.2f (%zu), largest %.2f, outside "
           "%.2f\n",
           mean_in, inside, mean_out, outside, most, most_outside);
    ck_assert_double_gt(most, most_outside);
    ck_assert_double_gt(mean_in, 1.5 * mean_out);
}
END_TEST

// --- the aged resin against the note of its row (resins.csv): practice remembered, one anchor read ---

// Dissolved against the note: butyl acetate, just inside the edge, and the glycols, which are set apart and never
// ranked.
START_TEST(the_aged_resin_against_the_liquids_of_its_note) {
    static const char *const inside[] = {
        "acetone",           "butanone",        "ethanol",       "methanol",          "propan-2-ol",
        "diacetone-alcohol", "methoxypropanol", "ethoxyethanol", "dimethylformamide", "n-methylpyrrolidone",
        "benzyl-alcohol",    "pyridine"};
    static const char *const outside[] = {
        "n-heptane", "isooctane",       "cyclohexane",      "white-spirit",  "white-spirit-dearomatised",
        "toluene",   "xylenes",         "turpentine",       "diethyl-ether", "n-butyl-acetate",
        "water",     "ethylene-glycol", "propylene-glycol", "glycerol"};
    size_t inside_count = sizeof inside / sizeof *inside, outside_count = sizeof outside / sizeof *outside;
    size_t hit = 0, missed = 0, denied = 0, wrong = 0;
    for (size_t i = 0; i < inside_count; i++) {
        bool dissolves = isinf(neat_swelling(&resin, tables_component(&films.lib, inside[i])));
        *(dissolves ? &hit : &missed) += 1;
        if (!dissolves)
            printf("  %s should dissolve\n", inside[i]);
    }
    for (size_t i = 0; i < outside_count; i++) {
        bool dissolves = isinf(neat_swelling(&resin, tables_component(&films.lib, outside[i])));
        *(dissolves ? &wrong : &denied) += 1;
        if (dissolves)
            ck_assert_msg(strcmp(outside[i], "n-butyl-acetate") == 0 || strstr(outside[i], "-glycol"), "%s dissolves",
                          outside[i]);
    }
    printf("aged resin: published inside %zu dissolves %zu doesn't; outside %zu dissolves %zu doesn't\n", hit, missed,
           wrong, denied);
    ck_assert_uint_eq(hit, inside_count);
    ck_assert_uint_eq(wrong, 3);
}
END_TEST

// --- how far the order hangs on the assumptions ---

static const char *const twelve[] = {"isooctane",
                                     "toluene",
                                     "acetone",
                                     "ethanol",
                                     "propan-2-ol",
                                     "ethyl-acetate",
                                     "ethanol 15 + isooctane 85",
                                     "propan-2-ol 70 + isooctane 30",
                                     "acetone 50 + isooctane 50",
                                     "acetone 50 + toluene 50",
                                     "ethanol 10 + toluene 90",
                                     "ethyl-acetate 60 + isooctane 40"};

static void swellings_of_twelve(const struct film_parameters *parameters, double *ret) {
    for (size_t i = 0; i < 12; i++)
        ret[i] = films_solve(&films, parameters, twelve[i]).swelling;
}

// A trial with another twelve had 0.95 and 0.88 for alpha 0.8 and 1.0, 1.00 and 0.97 for the network, 0.98 for the
// entropic part, 0.98 for the centre of the young oil film, 0.86 for the long-oil alkyd. Ours: 0.99 and 0.96, 1.00 and
// 0.99, 1.00, 0.97, but 0.76: which film is meant matters more than how it is modelled.
START_TEST(the_order_of_twelve_hangs_little_on_the_assumptions) {
    struct hansen own = hansen_of_sphere(&material("linseed-oil-film-young")->sphere);
    struct hansen long_oil = hansen_of_sphere(&material("alkyd-long-oil")->sphere);
    struct film_parameters changed[7];
    static const char *const names[] = {"alpha 0.8",    "alpha 1.0",  "network 500",   "network 4000",
                                        "entropic 0.2", "own centre", "long-oil alkyd"};
    for (size_t k = 0; k < 7; k++)
        changed[k] = paint;
    changed[0].alpha = 0.8;
    changed[1].alpha = 1.0;
    changed[2].network_mol_m3 = 500;
    changed[3].network_mol_m3 = 4000;
    changed[4].chi_entropic = 0.2;
    changed[5].centre = own;
    changed[6].centre = long_oil;
    double base[12], other[12];
    swellings_of_twelve(&paint, base);
    for (size_t k = 0; k < 7; k++) {
        swellings_of_twelve(&changed[k], other);
        double rank = films_spearman(base, other, 12);
        printf("order of twelve, %s: %.3f\n", names[k], rank);
        if (k == 6)
            ck_assert_double_eq_tol(rank, 0.76, 0.02);
        else
            ck_assert_double_ge(rank, k < 2 ? 0.88 : 0.95);
    }
}
END_TEST

// Sizes do hang on them: the network alone moves them by a factor of two and more. So bands, never decimals.
START_TEST(sizes_hang_on_the_network) {
    struct film_parameters soft = paint, stiff = paint;
    soft.network_mol_m3 = material("linseed-oil-film-young")->film_model.network_least;
    stiff.network_mol_m3 = material("linseed-oil-film-young")->film_model.network_most;
    double ratio = films_solve(&films, &soft, "acetone").swelling / films_solve(&films, &stiff, "acetone").swelling;
    ck_assert_double_gt(ratio, 2);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("film order");
    TCase *tests = tcase_create("order");
    tcase_add_unchecked_fixture(tests, setup, teardown);
    tcase_add_test(tests, measured_chi_is_ranked_but_its_level_is_not_met);
    tcase_add_test(tests, swelling_classes_are_in_order);
    tcase_add_test(tests, the_five_largest_misfits_are_known_by_name);
    tcase_add_test(tests, the_strongest_liquids_lie_in_the_published_band);
    tcase_add_test(tests, the_aged_resin_against_the_liquids_of_its_note);
    tcase_add_test(tests, the_order_of_twelve_hangs_little_on_the_assumptions);
    tcase_add_test(tests, sizes_hang_on_the_network);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
