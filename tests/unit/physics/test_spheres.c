// SPDX-License-Identifier: GPL-3.0-or-later
// The shipped spheres and fractions against what was published about real polymers, resins and liquids. Misses are
// listed by name: a change of any table that moves one of them over the edge is seen.
#include "csv.h"
#include "physics/hansen.h"
#include "physics/teas.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;
static struct csv solubility;

static void open_tables(void) {
    tables_open(&lib, TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS);
    csv_read(reference_path("polymer-solubility.csv"), &solubility);
}

static void close_tables(void) {
    csv_release(&solubility);
    library_release(&lib);
}

static const struct material *material(const char *id) {
    return tables_material(&lib, id);
}

static double red_of(const char *blend_notation, const char *material_id) {
    struct blend blend = tables_blend(&lib, blend_notation);
    struct hansen place;
    struct error err = {0};
    ck_assert_msg(hansen_of_blend(&blend, &place, &err) == STATUS_OK, "%s", err.text);
    return hansen_red(place, &material(material_id)->sphere);
}

// --- what dissolves (1) and what does not (0), row by row of tests/reference/polymer-solubility.csv ---

enum { MISSES_MAX = 8 };

struct expected {
    const char *polymer;
    int rows, right;
    const char *misses[MISSES_MAX]; // in the order of the file
};

static void compare(const struct expected *expected) {
    const struct sphere_values *sphere = &material(expected->polymer)->sphere;
    int rows = 0;
    int missed = 0;
    for (size_t row = 0; row < solubility.rows; row++) {
        if (strcmp(csv_text(&solubility, row, "polymer"), expected->polymer) != 0)
            continue;
        rows++;
        const char *id = csv_text(&solubility, row, "solvent_id");
        double red = hansen_red(hansen_of_component(tables_component(&lib, id)), sphere);
        ck_assert_msg(isfinite(red), "%s has no place", id);
        bool dissolves = csv_number(&solubility, row, "score") > 0.5;
        if ((red < 1) == dissolves)
            continue;
        bool known = missed < MISSES_MAX && expected->misses[missed] && strcmp(expected->misses[missed], id) == 0;
        ck_assert_msg(known, "%s in %s: RED %.3f, published: %s", id, expected->polymer, red,
                      dissolves ? "dissolves" : "does not");
        missed++;
    }
    ck_assert_int_eq(rows, expected->rows);
    ck_assert_int_eq(rows - missed, expected->right);
    ck_assert_msg(missed == MISSES_MAX || !expected->misses[missed], "%s: %s is no miss any more", expected->polymer,
                  missed == MISSES_MAX ? "" : expected->misses[missed]);
}

// Spheres as published (Hansen, J. Paint Technol. 1967 and polymer table of 1971, from memory; the copolymer borrows
// poly(ethyl methacrylate)) against solvents and non-solvents from other sources: measured interaction parameters
// (Orwoll & Arnold 2007, read) and the Polymer Handbook, 4th ed. 1999 (from memory), named in each row of the file.
// Why the misses: cyclohexane lies below the theta temperature of polystyrene (34 degC) at 20 degC; acids and aromatics
// do dissolve PMMA, which the published sphere does not show; PVAc is bounded by few non-solvents.
START_TEST(published_spheres) {
    static const struct expected all[] = {
        {"polystyrene", 36, 35, {"cyclohexane"}},
        {"pmma", 32, 26, {"benzene", "toluene", "dioxane-14", "n-butyl-acetate", "acetic-acid", "formic-acid"}},
        {"pvac",
         36,
         28,
         {"benzene", "toluene", "methanol", "acetic-acid", "xylenes", "propan-1-ol", "butan-1-ol", "cyclohexanol"}},
        {"ema-copolymer", 30, 29, {"cyclohexane"}},
        {"cellulose-nitrate", 28, 27, {"dichloromethane"}},
    };
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        compare(&all[i]);
}
END_TEST

// Spheres fitted to rows of this file (own work), so agreement is consistency, no proof. The misses of dammar and
// sandarac lie on the edge (RED 1.001 to 1.003): the shipped spheres are rounded to 0.1.
START_TEST(own_spheres_keep_to_their_rows) {
    static const struct expected all[] = {
        {"dammar-fresh", 28, 26, {"tetralin", "tetrachloroethylene"}},
        {"colophony", 22, 22, {NULL}},
        {"shellac-fresh", 31, 30, {"ethyl-acetate"}},
        {"sandarac", 10, 8, {"diethyl-ether", "methanol"}},
    };
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++)
        compare(&all[i]);
    ck_assert_double_lt(red_of("tetralin", "dammar-fresh"), 1.005);
    ck_assert_double_lt(red_of("tetrachloroethylene", "dammar-fresh"), 1.005);
    ck_assert_double_lt(red_of("diethyl-ether", "sandarac"), 1.005);
    ck_assert_double_lt(red_of("methanol", "sandarac"), 1.005);
}
END_TEST

// --- liquids of which the literature says what they did, read after the spheres were drawn ---

START_TEST(liquids_reported_to_dissolve_lie_inside) {
    static const struct {
        const char *blend, *material;
        double red; // as computed when the reports were collected
    } reports[] = {
        // Boon & van Och, ICOM-CC Edinburgh 1996, 197-205 (abstract): took a slightly aged ketone resin off.
        {"isooctane 50 + ethanol 50", "ketone-resin-aged", 0.53},
        // Egyptian J. Chem., article 243938 (abstract): promising on aged dammar.
        {"dimethyl-carbonate", "dammar-aged", 0.82},
        // Soulas, thesis, Ecoles de Conde 2017, p. 168: the best of its series on an oxidised varnish of 1930.
        {"cyclohexane 50 + ethanol 50", "dammar-aged", 0.73},
        // Boelsums, Figueiredo Junior & Souza, Imagem Brasileira (abstract): satisfactory in four varnishes' carriers.
        {"ethyl-acetate 26 + cyclohexane 74", "dammar-fresh", 0.44},
        {"ethyl-acetate 26 + cyclohexane 74", "ketone-resin-fresh", 0.81},
        {"ethyl-acetate 26 + cyclohexane 74", "hydrogenated-hydrocarbon-resin", 0.35},
        {"ethyl-acetate", "ema-copolymer", 0.61},
        // De la Rie, lecture slides, April 2011, part 3: the one needs no aromatics, the other does.
        {"white-spirit-dearomatised", "hydrogenated-hydrocarbon-resin", 0.63},
        {"toluene", "ema-copolymer", 0.80},
    };
    for (size_t i = 0; i < sizeof reports / sizeof reports[0]; i++) {
        double red = red_of(reports[i].blend, reports[i].material);
        ck_assert_msg(red < 1 && fabs(red - reports[i].red) < 0.01, "%s in %s: RED %.3f", reports[i].blend,
                      reports[i].material, red);
    }
}
END_TEST

START_TEST(liquids_reported_to_fail_lie_outside) {
    // De la Rie, lecture slides, April 2011, part 3: needs an aromatic solvent.
    ck_assert_double_gt(red_of("white-spirit-dearomatised", "ema-copolymer"), 1);
    // Gettens & Stout, Painting Materials (1942), p. 34: the greater part stays in petroleum spirit.
    ck_assert_double_gt(red_of("petroleum-naphtha-100-140", "mastic-fresh"), 1);
    // Soulas 2017, p. 168: 10 % ethanol did less than 50 %. (90 % did less too, where the sphere alone says more: a
    // sphere knows nothing of how fast a liquid works; left out.)
    ck_assert_double_gt(red_of("cyclohexane 90 + ethanol 10", "dammar-aged"), 1);
}
END_TEST

// Feller & Curran 1975 in Lomax & Fisher, JAIC 29 (1990) 181: aged dammar and mastic end at toluene-acetone 40:60 of
// the series cyclohexane, toluene, acetone in 20 % steps; 60:40 and weaker leave them. The spheres were drawn with
// their edge through that step, so it lies on the edge within the rounding of the shipped values.
START_TEST(aged_resins_end_at_the_published_step) {
    static const char *const weaker[] = {"cyclohexane", "cyclohexane 60 + toluene 40", "toluene",
                                         "toluene 80 + acetone 20", "toluene 60 + acetone 40"};
    static const char *const resins[] = {"dammar-aged", "mastic-aged"};
    for (size_t k = 0; k < 2; k++) {
        double before = INFINITY;
        for (size_t i = 0; i < sizeof weaker / sizeof weaker[0]; i++) {
            double red = red_of(weaker[i], resins[k]);
            ck_assert_msg(red > 1.1 && red < before, "%s, %s: RED %.3f", resins[k], weaker[i], red);
            before = red;
        }
        ck_assert_double_eq_tol(red_of("toluene 40 + acetone 60", resins[k]), 1, 0.005);
        ck_assert_double_lt(red_of("toluene 20 + acetone 80", resins[k]), 1);
    }
}
END_TEST

// --- published fractions (Teas; Burke 1984 after Gardon & Teas 1976, from memory) against 100 delta / sum ---

static double largest_part(struct teas a, struct teas b) {
    return fmax(fabs(a.fd - b.fd), fmax(fabs(a.fp - b.fp), fabs(a.fh - b.fh)));
}

// The remembered table stands or falls with this agreement: 28 of 56 rows within 1 unit and 46 within 5. Rows beyond 5
// are known disagreements of the sources (older Hansen values behind the published fractions), named here.
START_TEST(published_fractions_against_computed) {
    static const struct {
        const char *id;
        double part; // largest difference of a part
    } known[] = {{"d-limonene", 13.5},
                 {"diethyl-carbonate", 13.3},
                 {"methyl-acetate", 12.2},
                 {"benzene", 12.2},
                 {"turpentine", 9.7},
                 {"white-spirit", 8.1},
                 {"cyclohexanone", 6.4},
                 {"water", 6.3},
                 {"petroleum-naphtha-100-140", 6.0},
                 {"ethyl-acetate", 5.6}};
    enum { KNOWN = sizeof known / sizeof known[0] };
    size_t rows = 0, within_1 = 0, within_5 = 0;
    for (size_t i = 0; i < lib.component_count; i++) {
        const struct component *component = &lib.components[i];
        if (isnan(component->teas.fd) || isnan(component->hansen.delta_d))
            continue;
        struct teas printed = {component->teas.fd, component->teas.fp, component->teas.fh};
        double part = largest_part(printed, teas_of_hansen(hansen_of_component(component)));
        rows++;
        within_1 += part <= 1;
        within_5 += part <= 5;
        double expected = NAN;
        for (size_t k = 0; k < KNOWN; k++)
            if (strcmp(known[k].id, component->id) == 0)
                expected = known[k].part;
        ck_assert_msg(isnan(expected) ? part <= 5 : fabs(part - expected) <= 0.06, "%s: largest part off by %.2f",
                      component->id, part);
    }
    ck_assert_uint_eq(rows, 56);
    ck_assert_uint_eq(within_1, 28);
    ck_assert_uint_eq(within_5, 56 - KNOWN);
}
END_TEST

// --- a law: vectors add to no more than their lengths (Minkowski), so the rule of mixing totals (Burke 1984, from
// memory: 2 toluene + 1 acetone give 18.7, about chloroform) is an upper bound of the total of the mean parameters ---

START_TEST(total_of_a_blend_is_below_the_mean_of_totals) {
    struct hansen toluene = hansen_of_component(tables_component(&lib, "toluene"));
    struct hansen acetone = hansen_of_component(tables_component(&lib, "acetone"));
    struct blend blend = tables_blend(&lib, "toluene 2 + acetone 1");
    struct hansen mean;
    ck_assert_int_eq(hansen_of_blend(&blend, &mean, NULL), STATUS_OK);
    double mixed_totals = (2 * hansen_total(toluene) + hansen_total(acetone)) / 3;
    ck_assert_double_eq_tol(mixed_totals, 18.7, 0.1);
    ck_assert_double_lt(hansen_total(mean), mixed_totals);
    for (size_t i = 0; i < lib.component_count; i++)
        for (size_t j = 0; j < i; j++) {
            struct hansen a = hansen_of_component(&lib.components[i]);
            struct hansen b = hansen_of_component(&lib.components[j]);
            struct hansen half = {(a.delta_d + b.delta_d) / 2, (a.delta_p + b.delta_p) / 2,
                                  (a.delta_h + b.delta_h) / 2};
            ck_assert(!(hansen_total(half) > (hansen_total(a) + hansen_total(b)) / 2 + 1e-12));
        }
}
END_TEST

int main(void) {
    Suite *suite = suite_create("spheres");
    TCase *tests = tcase_create("published solubility");
    tcase_add_checked_fixture(tests, open_tables, close_tables);
    tcase_add_test(tests, published_spheres);
    tcase_add_test(tests, own_spheres_keep_to_their_rows);
    tcase_add_test(tests, liquids_reported_to_dissolve_lie_inside);
    tcase_add_test(tests, liquids_reported_to_fail_lie_outside);
    tcase_add_test(tests, aged_resins_end_at_the_published_step);
    tcase_add_test(tests, published_fractions_against_computed);
    tcase_add_test(tests, total_of_a_blend_is_below_the_mean_of_totals);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
