// SPDX-License-Identifier: GPL-3.0-or-later
// Prints what the film models of data/materials.yaml rest on: the calibration of the aged resin on its published
// anchor, the fits of the other resins with the hits of film model and sphere side by side, and for every graded series
// the first step that dissolves the aged resin, with its range. Run it after a change of the model or of the lists.
#include "csv.h"
#include "physics/film_fit.h"
#include "physics/film_series.h"
#include "tables.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double temp_k = 293.15;

struct desk {
    struct library lib;
    struct unifac_table table;
    struct error err;
};

static struct blend liquid(struct desk *desk, const char *notation) {
    return tables_blend(&desk->lib, notation);
}

static struct film_parameters parameters_of(struct desk *desk, const char *id) {
    struct film_parameters parameters = {0};
    stop_unless(film_parameters_of_material(tables_material(&desk->lib, id), &parameters, &desk->err), &desk->err);
    return parameters;
}

// --- the anchor ---

static double chain_at(struct desk *desk, const struct film_parameters *parameters, double acetone_percent) {
    struct blend toluene = liquid(desk, "toluene"), acetone = liquid(desk, "acetone");
    struct film_series series;
    struct film film;
    double ln_activity[BLEND_COMPONENTS_MAX];
    stop_unless(film_series_prepare(&desk->table, &toluene, &acetone, temp_k, &series, &desk->err), &desk->err);
    stop_unless(film_prepare(parameters, &series.activity, &film, &desk->err), &desk->err);
    film_series_activities(&series, acetone_percent, ln_activity);
    return film_critical_chain(&film, ln_activity);
}

static void print_anchor(struct desk *desk) {
    struct film_parameters base = parameters_of(desk, "dammar-aged");
    struct blend toluene = liquid(desk, "toluene"), acetone = liquid(desk, "acetone");
    double share = NAN;
    stop_unless(film_critical_share(&desk->table, &toluene, &acetone, &base, temp_k, &share, &desk->err), &desk->err);
    printf("Calibration of aged dammar and mastic: toluene-acetone 40:60 dissolves, 60:40 doesn't.\n"
           "V_p %.0f cm3/mol with alpha 0.6 and entropic part 0.34 dissolves from %.1f %% acetone.\n"
           "alpha  entropic  V_p from  V_p to  V_p of the same share\n",
           base.molar_volume_cm3_mol, share);
    const double pairs[3][2] = {{0.6, 0}, {0.6, 0.34}, {1.0, 0.34}};
    for (int k = 0; k < 3; k++) {
        base.alpha = pairs[k][0];
        base.chi_entropic = pairs[k][1];
        printf("%5.1f  %8.2f  %8.0f  %6.0f  %21.0f\n", base.alpha, base.chi_entropic, chain_at(desk, &base, 40),
               chain_at(desk, &base, 60), chain_at(desk, &base, share));
    }
}

// --- the fits ---

static size_t cases_of(struct desk *desk, const struct csv *csv, const char *id, struct film_case *ret) {
    size_t count = 0;
    for (size_t i = 0; i < csv->rows; i++)
        if (strcmp(csv_text(csv, i, "polymer"), id) == 0)
            ret[count++] = (struct film_case){tables_component(&desk->lib, csv_text(csv, i, "solvent_id")),
                                              csv_number(csv, i, "score") > 0.5};
    return count;
}

static void print_misses(struct desk *desk, const struct film_parameters *fitted, const struct film_case *cases,
                         size_t count) {
    for (size_t i = 0; i < count; i++) {
        bool dissolves = false;
        if (film_dissolves_in(fitted, cases[i].component, temp_k, &dissolves, &desk->err) == STATUS_OK &&
            dissolves != cases[i].dissolves)
            printf(" %s%s", dissolves ? "not-" : "", cases[i].component->id);
    }
    printf("\n");
}

// The liquids at which the fitted interval ends: the anchors of the sampling.
static void print_ends(struct desk *desk, const struct film_parameters *start, const struct film_fit *fit,
                       const struct film_case *cases, size_t count) {
    for (size_t i = 0; i < count; i++) {
        struct hansen place = hansen_of_component(cases[i].component);
        struct film film;
        const double neat = 0;
        if (film_prepare_single(start, place, cases[i].component->molar_volume.value, temp_k, &film, &desk->err) !=
            STATUS_OK)
            continue;
        double chain = film_critical_chain(&film, &neat);
        if (fabs(chain / fit->least - 1) < 1e-6 || fabs(chain / fit->most - 1) < 1e-6)
            printf(" %s%s", cases[i].dissolves ? "" : "not-", cases[i].component->id);
    }
    printf(";");
}

static void print_fits(struct desk *desk) {
    struct csv csv;
    csv_read(reference_path("polymer-solubility.csv"), &csv);
    printf("\nmaterial            tested  sphere  film  V_p     from    to        ends at; published list against the "
           "film:\n");
    for (size_t m = 0; m < desk->lib.material_count; m++) {
        const struct material *row = &desk->lib.materials[m];
        struct film_case cases[FILM_CASES_MAX];
        size_t count = cases_of(desk, &csv, row->id, cases);
        if (count == 0)
            continue;
        struct film_parameters start = {.centre = hansen_of_sphere(&row->sphere),
                                        .alpha = FILM_ALPHA,
                                        .chi_entropic = FILM_CHI_ENTROPIC,
                                        .molar_volume_cm3_mol = 600};
        struct film_fit fit;
        stop_unless(film_fit_chain(&start, &row->sphere, cases, count, temp_k, &fit, &desk->err), &desk->err);
        printf("%-18s  %6zu  %6zu  %4zu  %-6.0f  %-6.0f  %-8.0f ", row->id, fit.tested, fit.hits_sphere, fit.hits_film,
               fit.molar_volume, fit.least, fit.most);
        print_ends(desk, &start, &fit, cases, count);
        start.molar_volume_cm3_mol = fit.molar_volume;
        print_misses(desk, &start, cases, count);
    }
    csv_release(&csv);
}

// --- the series ---

static void print_share(int share) {
    if (share == FILM_SHARE_NONE)
        printf("   none");
    else
        printf("  %4d%%", share);
}

static void print_series(struct desk *desk, const char *weak, const char *strong) {
    struct blend from = liquid(desk, weak), to = liquid(desk, strong);
    struct film_parameters parameters = parameters_of(desk, "dammar-aged");
    struct film_threshold threshold;
    stop_unless(film_first_dissolving(&desk->table, &from, &to, &parameters, &film_ends_usual, 5, temp_k, &threshold,
                                      &desk->err),
                &desk->err);
    printf("%-27s %-14s", weak, strong);
    print_share(threshold.nominal);
    print_share(threshold.flat_least);
    print_share(threshold.flat_most);
    print_share(threshold.least);
    print_share(threshold.most);
    print_share(threshold.closes);
    printf("\n");
}

static void print_thresholds(struct desk *desk) {
    static const char *const weak[] = {"isooctane", "white-spirit-dearomatised", "petroleum-naphtha-100-140",
                                       "cyclohexane", "toluene"};
    static const char *const strong[] = {"ethanol",  "propan-2-ol",   "acetone",
                                         "butanone", "ethyl-acetate", "n-butyl-acetate"};
    printf("\nFirst step (5 %%) of the strong liquid that dissolves aged dammar; flat: where its activity is within "
           "2.5 %%;\n"
           "range: that, or one assumption at its end; closes: first step that doesn't dissolve any more.\n"
           "weak                        strong          first   flat from, to   range from, to closes\n");
    for (size_t i = 0; i < sizeof weak / sizeof *weak; i++)
        for (size_t j = 0; j < sizeof strong / sizeof *strong; j++)
            print_series(desk, weak[i], strong[j]);
}

int main(void) {
    static struct desk desk;
    tables_open_unifac(&desk.lib, TABLE_ALL, &desk.table);
    print_anchor(&desk);
    print_fits(&desk);
    print_thresholds(&desk);
    tables_close_unifac(&desk.lib, &desk.table);
    return 0;
}
