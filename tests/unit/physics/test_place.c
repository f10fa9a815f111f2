// SPDX-License-Identifier: GPL-3.0-or-later
// Places in solubility space against published worked examples and handbook figures; blend notation; recipes.
#include "physics/place.h"
#include "physics/recipe.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct library lib;

static void open_tables(void) {
    tables_open(&lib, TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_PROPERTIES);
}

static void close_tables(void) {
    library_release(&lib);
}

static struct blend blend_of(const char *notation) {
    struct blend blend;
    struct error err = {0};
    ck_assert_msg(blend_parse(&lib, notation, &blend, NULL, &err) == STATUS_OK, "%s: %s", notation, err.text);
    return blend;
}

static void refuse(const char *notation, enum status status, const char *words) {
    struct blend blend;
    struct error err = {0};
    ck_assert_int_eq(blend_parse(&lib, notation, &blend, NULL, &err), status);
    ck_assert_msg(strstr(err.text, words) != NULL, "'%s' says: %s", notation, err.text);
}

static void assert_near(double got, double expected, double within) {
    ck_assert_msg(fabs(got - expected) <= within, "got %.6f, expected %.6f within %g", got, expected, within);
}

static void assert_teas(struct teas got, double fd, double fp, double fh, double within) {
    assert_near(got.fd, fd, within);
    assert_near(got.fp, fp, within);
    assert_near(got.fh, fh, within);
}

static struct teas by_fractions(const char *notation) {
    struct blend blend = blend_of(notation);
    struct teas point;
    ck_assert_int_eq(teas_of_blend(&blend, TEAS_MEAN_OF_FRACTIONS, &point, NULL, NULL), STATUS_OK);
    return point;
}

static struct hansen place_of(const char *notation) {
    struct blend blend = blend_of(notation);
    struct hansen place;
    ck_assert_int_eq(hansen_of_blend(&blend, &place, NULL), STATUS_OK);
    return place;
}

// Total parameters as printed on a table page of solubility parameters (Hansen columns; checked): within 0.1.
START_TEST(totals_as_printed) {
    assert_near(hansen_total((struct hansen){15.6, 16.0, 42.3}), 47.8, 0.1);
    assert_near(hansen_total((struct hansen){18.0, 1.4, 2.0}), 18.2, 0.1);
    assert_near(hansen_total((struct hansen){15.5, 10.4, 7.0}), 20.0, 0.1);
}
END_TEST

// Burke, AIC Book and Paper Group Annual 3 (1984) 13 (from memory): fractions printed beside 100 delta/sum, within 1.
START_TEST(fractions_from_hansen_as_printed) {
    static const struct {
        const char *id;
        double fd, fp, fh;
    } printed[] = {
        {"acetone", 47, 32, 21},           {"butanone", 53, 30, 17},           {"tetrahydrofuran", 55, 19, 26},
        {"dimethylformamide", 41, 32, 27}, {"dimethyl-sulfoxide", 41, 36, 23}, {"butan-1-ol", 43, 15, 42},
        {"methoxyethanol", 39, 22, 39},    {"morpholine", 57, 15, 28}};
    for (size_t i = 0; i < sizeof printed / sizeof printed[0]; i++)
        assert_teas(teas_of_hansen(hansen_of_component(tables_component(&lib, printed[i].id))), printed[i].fd,
                    printed[i].fp, printed[i].fh, 1);
}
END_TEST

// Volume average of fractions: method of Burke 1984 (from memory), inputs the published fractions; arithmetic.
START_TEST(fractions_of_a_blend_by_volume) {
    assert_teas(by_fractions("toluene 75 + acetone 25"), 71.75, 13.25, 15.00, 1e-9);
    assert_teas(by_fractions("toluene 50 + acetone 50"), 63.5, 19.5, 17.0, 1e-9);
    assert_teas(by_fractions("white-spirit 50 + acetone 30 + ethanol 20"), 66.3, 15.2, 18.5, 1e-9);
}
END_TEST

// Feller's graded series, fd printed rounded (Feller in Brommelle & Smith 1976, from memory). He starts from fd 96 for
// cyclohexane where the table of fractions has 94, so that series is checked with his own starting value.
START_TEST(feller_graded_series) {
    static const struct {
        const char *blend;
        double fd;
    } printed[] = {{"toluene 75 + acetone 25", 72}, {"toluene 50 + acetone 50", 64}, {"toluene 25 + acetone 75", 55},
                   {"toluene 75 + ethanol 25", 69}, {"toluene 50 + ethanol 50", 58}, {"toluene 25 + ethanol 75", 47}};
    for (size_t i = 0; i < sizeof printed / sizeof printed[0]; i++)
        assert_near(by_fractions(printed[i].blend).fd, printed[i].fd, 0.5);
    struct component cyclohexane = *tables_component(&lib, "cyclohexane");
    cyclohexane.teas = (struct teas_values){.fd = 96, .fp = 2, .fh = 2};
    static const double toluene_parts[] = {25, 50, 75};
    static const double fd[] = {92, 88, 84};
    for (size_t i = 0; i < 3; i++) {
        struct blend_part parts[] = {{{.component = &cyclohexane}, 100 - toluene_parts[i]},
                                     {{.component = tables_component(&lib, "toluene")}, toluene_parts[i]}};
        struct blend blend;
        struct teas point;
        ck_assert_int_eq(blend_make(&lib, parts, 2, &blend, NULL), STATUS_OK);
        ck_assert_int_eq(teas_of_blend(&blend, TEAS_MEAN_OF_FRACTIONS, &point, NULL, NULL), STATUS_OK);
        assert_near(point.fd, fd[i], 0.5);
    }
}
END_TEST

// Blends published as stand-ins for another solvent. Xylene by ethyl acetate-cyclohexane 26:74: proportions from
// Boelsums, Figueiredo Junior & Souza, Imagem Brasileira (abstract); position by arithmetic on the published fractions.
// Butyl acetate by ethanol-acetone-isooctane 51:11:38: Ricci et al., Coatings 10 (2020) 466 (abstract).
START_TEST(published_stand_ins) {
    struct teas xylene = by_fractions("ethyl-acetate 26 + cyclohexane 74");
    assert_teas(xylene, 82.82, 6.16, 11.02, 0.005);
    assert_teas(xylene, 83, 5, 12, 1.2);
    assert_teas(by_fractions("ethanol 51 + acetone 11 + isooctane 38"), 61.53, 12.70, 25.77, 0.005);
    // The same point of the triangle is another liquid: Ra 5.0 between the two in Hansen space.
    assert_near(hansen_distance(place_of("ethanol 51 + acetone 11 + isooctane 38"), place_of("n-butyl-acetate")), 5.0,
                0.05);
}
END_TEST

// Hansen's distance and RED for polystyrene 18.6/6.0/4.5, R0 12.7 (inputs from a printed course exercise; arithmetic).
START_TEST(distance_and_red_of_polystyrene) {
    struct sphere_values polystyrene = {.delta_d = 18.6, .delta_p = 6.0, .delta_h = 4.5, .r0 = 12.7};
    static const struct {
        struct hansen liquid;
        double ra, red;
    } expected[] = {{{15.5, 10.4, 7.0}, 8.003, 0.630},
                    {{18.3, 5.6, 5.5}, 1.233, 0.097},
                    {{17.0, 11.0, 26.0}, 22.304, 1.756},
                    {{17.0, 7.3, 7.1}, 4.323, 0.340}};
    for (size_t i = 0; i < sizeof expected / sizeof expected[0]; i++) {
        assert_near(hansen_distance(expected[i].liquid, hansen_of_sphere(&polystyrene)), expected[i].ra, 0.0005);
        assert_near(hansen_red(expected[i].liquid, &polystyrene), expected[i].red, 0.0005);
    }
}
END_TEST

// Two non-solvents of PMMA that dissolve it together (polymer: Barton 1991, from memory; arithmetic).
START_TEST(two_non_solvents_of_pmma) {
    struct sphere_values pmma = {.delta_d = 18.6, .delta_p = 10.5, .delta_h = 7.5, .r0 = 8.6};
    assert_near(hansen_red(place_of("toluene"), &pmma), 1.244, 0.001);
    assert_near(hansen_red(place_of("ethanol"), &pmma), 1.542, 0.001);
    assert_near(hansen_red(place_of("toluene 50 + ethanol 50"), &pmma), 0.830, 0.001);
    assert_near(hansen_distance(place_of("acetone"), place_of("toluene")), 11.446, 0.0005);
}
END_TEST

// The two rules differ (arithmetic on handbook Hansen values and published fractions).
START_TEST(the_two_rules_differ) {
    struct blend blend = blend_of("acetone 50 + toluene 50");
    struct teas of_mean, of_fractions;
    size_t computed = 9;
    ck_assert_int_eq(teas_of_blend(&blend, TEAS_OF_MEAN_HANSEN, &of_mean, NULL, NULL), STATUS_OK);
    ck_assert_int_eq(teas_of_blend(&blend, TEAS_MEAN_OF_FRACTIONS, &of_fractions, &computed, NULL), STATUS_OK);
    assert_teas(of_mean, 61.7, 21.7, 16.6, 0.05);
    assert_teas(of_fractions, 63.5, 19.5, 17.0, 1e-9);
    ck_assert_uint_eq(computed, 0);
}
END_TEST

START_TEST(triangle_geometry) {
    struct teas d = {100, 0, 0}, p = {0, 100, 0}, h = {0, 0, 100};
    assert_near(teas_distance(d, p), 100, 1e-12);
    assert_near(teas_distance(p, h), 100, 1e-12);
    double x, y;
    teas_xy(d, &x, &y);
    assert_near(x, 0, 1e-12);
    assert_near(y, 0, 1e-12);
    teas_xy(p, &x, &y);
    assert_near(x, 1, 1e-12);
    assert_near(y, 0, 1e-12);
    teas_xy(h, &x, &y);
    assert_near(x, 0.5, 1e-12);
    assert_near(y, sqrt(3) / 2, 1e-12);
    const double corners[] = {80, 10, 10, 40, 50, 10, 40, 10, 50};
    struct teas_region area = {.vertices = {corners, 3}};
    ck_assert(teas_inside((struct teas){60, 20, 20}, &area));
    ck_assert(!teas_inside((struct teas){90, 5, 5}, &area));
    ck_assert(teas_inside((struct teas){80, 10, 10}, &area)); // a corner belongs to the area
    assert_near(teas_distance_to_region((struct teas){90, 5, 5}, &area),
                teas_distance((struct teas){90, 5, 5}, (struct teas){80, 10, 10}), 1e-9);
    // Distance drawn and distance computed agree for any two points.
    double x2, y2;
    struct teas a = {71, 13, 16}, b = {36, 18, 46};
    teas_xy(a, &x, &y);
    teas_xy(b, &x2, &y2);
    assert_near(100 * hypot(x - x2, y - y2), teas_distance(a, b), 1e-9);
}
END_TEST

START_TEST(a_hull_holds_the_solvents_it_was_built_from) {
    const struct material *dammar = tables_material(&lib, "dammar-fresh");
    struct hansen h = place_of("toluene");
    struct teas point = by_fractions("toluene");
    struct material_place place;
    place_against(dammar, &h, &point, &place);
    ck_assert_ptr_nonnull(place.area);
    ck_assert(place.inside_area);
    point = by_fractions("ethanol");
    place_against(dammar, NULL, &point, &place);
    ck_assert(!place.inside_area);
    ck_assert(isnan(place.red));
    ck_assert_double_gt(place.teas_distance, 5);
}
END_TEST

// --- notation ---

START_TEST(notation_reads_what_people_write) {
    struct blend blend = blend_of("propan-2-ol 30 + isooctane 70");
    ck_assert_uint_eq(blend.count, 2);
    assert_near(blend.volume_fractions[0], 0.3, 1e-15);
    blend = blend_of("  Acetone 30% +toluene 70 %  ");
    assert_near(blend.volume_fractions[1], 0.7, 1e-15);
    blend = blend_of("acetone 10 mL + toluene 30mL");
    assert_near(blend.volume_fractions[0], 0.25, 1e-15);
    blend = blend_of("acetone .5 + toluene 1.5");
    assert_near(blend.volume_fractions[0], 0.25, 1e-15);
    blend = blend_of("2,2,4-trimethylpentane 50 + 67-63-0 50");
    ck_assert_str_eq(blend.components[0]->id, "isooctane");
    ck_assert_str_eq(blend.components[1]->id, "propan-2-ol");
    blend = blend_of("acetone");
    ck_assert_uint_eq(blend.count, 1);
    blend = blend_of("petroleum ether 40-60");
    ck_assert_str_eq(blend.components[0]->id, "petroleum-ether-40-60");
    blend = blend_of("petroleum ether 40-60 30 + white spirit 70");
    ck_assert_str_eq(blend.components[0]->id, "petroleum-ether-40-60");
    assert_near(blend.volume_fractions[0], 0.3, 1e-15);
    struct text out = {0};
    blend = blend_of("acetone 1 + toluene 2");
    blend_write(&blend, &out);
    ck_assert_str_eq(text_bytes(&out), "acetone 1 + toluene 2");
    text_release(&out);
}
END_TEST

START_TEST(bottles_bring_their_components) {
    struct blend blend = blend_of("ethanol-96 50 + ethanol 50");
    ck_assert_uint_eq(blend.count, 2);
    ck_assert_str_eq(blend.components[0]->id, "ethanol");
    assert_near(blend.volume_fractions[0] + blend.volume_fractions[1], 1, 1e-15);
    ck_assert_double_gt(blend.volume_fractions[1], 0.01);
    char note[BLEND_NOTE_SIZE];
    ck_assert_int_eq(blend_parse(&lib, "ethanol 96", &blend, note, NULL), STATUS_OK);
    ck_assert_uint_eq(blend.count, 1);
    ck_assert_ptr_nonnull(strstr(note, "ethanol-96"));
}
END_TEST

START_TEST(notation_refuses_with_the_right_spelling) {
    refuse("", STATUS_INPUT, "a blend of nothing");
    refuse("acetone 30 + ", STATUS_INPUT, "empty part");
    refuse("acetone 0 + toluene 1", STATUS_INPUT, "above zero");
    refuse("acetone -5 + toluene 1", STATUS_INPUT, "above zero");
    refuse("acetone 37,5 + toluene 62,5", STATUS_INPUT, "acetone 37.5");
    refuse("toluene:acetone 60:40", STATUS_INPUT, "toluene 60 + acetone 40");
    refuse("75 toluene + 25 acetone", STATUS_INPUT, "\"toluene 75\"");
    refuse("75% toluene", STATUS_INPUT, "\"toluene 75\"");
    refuse("toluene 75 acetone 25", STATUS_INPUT, "joined with '+'");
    refuse("toluene 75%, acetone 25%", STATUS_INPUT, "joined with '+'");
    refuse("75 zzzzz", STATUS_UNKNOWN_NAME, "no solvent or bottle");
    refuse("acetone nan", STATUS_UNKNOWN_NAME, "no solvent or bottle");
    refuse("aceton3 30", STATUS_UNKNOWN_NAME, "acetone");
    refuse("acetone 1 + acetone 2", STATUS_INPUT, "stands twice");
    refuse("acetone 1e999 + toluene 1", STATUS_INPUT, "not a number");
}
END_TEST

START_TEST(lists_part_at_commas_between_names) {
    struct bottle_ref bottles[8];
    size_t count = 0;
    ck_assert_int_eq(bottle_list_parse(&lib, "isooctane, 2,2,4-trimethylpentane,acetone", bottles, 8, &count, NULL),
                     STATUS_OK);
    ck_assert_uint_eq(count, 3);
    ck_assert_ptr_eq(bottles[0].component, bottles[1].component);
    struct error err = {0};
    count = 0;
    ck_assert_int_eq(bottle_list_parse(&lib, "isooctane,,acetone", bottles, 8, &count, &err), STATUS_INPUT);
    count = 0;
    ck_assert_int_eq(bottle_list_parse(&lib, "acetone,ethanol", bottles, 1, &count, &err), STATUS_INPUT);
}
END_TEST

START_TEST(a_liquid_without_a_split_has_no_place) {
    struct blend blend = blend_of("decamethylcyclopentasiloxane 50 + acetone 50");
    struct hansen place = {-1, -1, -1};
    struct error err = {0};
    ck_assert_int_eq(hansen_of_blend(&blend, &place, &err), STATUS_NO_DATA);
    ck_assert_ptr_nonnull(strstr(err.text, "decamethylcyclopentasiloxane"));
    ck_assert(place.delta_d == -1); // untouched
}
END_TEST

START_TEST(fractions_agree_with_each_other) {
    struct blend blend = blend_of("ethanol 15 + isooctane 85");
    double x[BLEND_COMPONENTS_MAX], w[BLEND_COMPONENTS_MAX];
    ck_assert_int_eq(blend_mole_fractions(&blend, x, NULL), STATUS_OK);
    ck_assert_int_eq(blend_mass_fractions(&blend, w, NULL), STATUS_OK);
    assert_near(x[0] + x[1], 1, 1e-15);
    // x = (phi/V)/sum(phi/V) with V 58.6 and 165.5 cm3/mol
    assert_near(x[0], (0.15 / 58.6) / (0.15 / 58.6 + 0.85 / 165.5), 1e-12);
    ck_assert_double_gt(w[0], 0.15);
}
END_TEST

// --- recipes ---

START_TEST(batches_are_measurable_and_add_up) {
    struct blend blend = blend_of("propan-2-ol 30 + isooctane 70");
    struct recipe recipe;
    ck_assert_int_eq(recipe_make(&lib, &blend, 40, 1, &recipe, NULL), STATUS_OK);
    assert_near(recipe.lines[0].add_ml, 12, 1e-12);
    assert_near(recipe.lines[1].add_ml, 28, 1e-12);
    blend = blend_of("acetone 1 + toluene 1 + ethanol 1");
    ck_assert_int_eq(recipe_make(&lib, &blend, 10, 1, &recipe, NULL), STATUS_OK);
    double sum = 0;
    for (size_t i = 0; i < recipe.count; i++) {
        sum += recipe.lines[i].add_ml;
        assert_near(recipe.lines[i].add_ml, round(recipe.lines[i].add_ml), 1e-12);
    }
    assert_near(sum, 10, 1e-12);
    assert_near(recipe.shift_percent, 40 - 100.0 / 3, 1e-9);
    struct error err = {0};
    blend = blend_of("acetone 2 + toluene 98");
    ck_assert_int_eq(recipe_make(&lib, &blend, 10, 1, &recipe, &err), STATUS_RANGE);
    ck_assert_ptr_nonnull(strstr(err.text, "50 mL"));
    ck_assert_int_eq(recipe_make(&lib, &blend, 10.5, 1, &recipe, &err), STATUS_RANGE);
}
END_TEST

// "I have 50:50 left; what do I add for 30:70?" Dilution algebra: 40 mL hold 20 + 20; 20 mL are 30 % of 66.7 mL.
START_TEST(a_leftover_is_corrected_with_the_least_addition) {
    struct blend leftover = blend_of("propan-2-ol 50 + isooctane 50");
    struct blend wanted = blend_of("propan-2-ol 30 + isooctane 70");
    struct recipe recipe;
    ck_assert_int_eq(recipe_correct(&lib, &leftover, 40, &wanted, 0, 1, &recipe, NULL), STATUS_OK);
    assert_near(recipe.lines[0].add_ml, 0, 1e-12);
    assert_near(recipe.lines[1].add_ml, 27, 1e-12); // 26.67 rounded to the cylinder
    ck_assert_double_lt(recipe.shift_percent, 0.2);
    ck_assert_int_eq(recipe_correct(&lib, &leftover, 40, &wanted, 100, 1, &recipe, NULL), STATUS_OK);
    assert_near(recipe.lines[0].add_ml, 10, 1e-12);
    assert_near(recipe.lines[1].add_ml, 50, 1e-12);
    struct error err = {0};
    struct blend other = blend_of("acetone 50 + isooctane 50");
    ck_assert_int_eq(recipe_correct(&lib, &other, 40, &wanted, 0, 1, &recipe, &err), STATUS_RANGE);
    ck_assert_ptr_nonnull(strstr(err.text, "acetone"));
}
END_TEST

int main(void) {
    Suite *suite = suite_create("place");
    TCase *tests = tcase_create("place, notation, recipe");
    tcase_add_unchecked_fixture(tests, open_tables, close_tables);
    tcase_add_test(tests, totals_as_printed);
    tcase_add_test(tests, fractions_from_hansen_as_printed);
    tcase_add_test(tests, fractions_of_a_blend_by_volume);
    tcase_add_test(tests, feller_graded_series);
    tcase_add_test(tests, published_stand_ins);
    tcase_add_test(tests, distance_and_red_of_polystyrene);
    tcase_add_test(tests, two_non_solvents_of_pmma);
    tcase_add_test(tests, the_two_rules_differ);
    tcase_add_test(tests, triangle_geometry);
    tcase_add_test(tests, a_hull_holds_the_solvents_it_was_built_from);
    tcase_add_test(tests, notation_reads_what_people_write);
    tcase_add_test(tests, bottles_bring_their_components);
    tcase_add_test(tests, notation_refuses_with_the_right_spelling);
    tcase_add_test(tests, lists_part_at_commas_between_names);
    tcase_add_test(tests, a_liquid_without_a_split_has_no_place);
    tcase_add_test(tests, fractions_agree_with_each_other);
    tcase_add_test(tests, batches_are_measurable_and_add_up);
    tcase_add_test(tests, a_leftover_is_corrected_with_the_least_addition);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
