// SPDX-License-Identifier: GPL-3.0-or-later
// Pressures, boiling points, azeotropes.
#include "errors.h"

#include "base/units.h"
#include "csv.h"
#include "physics/azeotrope.h"
#include "physics/vapour.h"
#include "tables.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

// Liquids are large; one at a time is enough here.
static struct vapour_liquid liquid;

static bool prepare_pair(const struct error_tables *tables, const struct csv *csv, size_t row, double temp_c) {
    const struct component *pair[2] = {tables_component(&tables->lib, csv_text(csv, row, "comp1")),
                                       tables_component(&tables->lib, csv_text(csv, row, "comp2"))};
    return vapour_liquid_prepare(&tables->unifac, pair, 2, kelvin_from_celsius(temp_c), &liquid, NULL) == STATUS_OK &&
           vapour_liquid_complete(&liquid, NULL) == STATUS_OK;
}

static double total_pressure(const double *x) {
    double p[2];
    return vapour_pressures(&liquid, x, p, NULL, NULL) == STATUS_OK ? p[0] + p[1] : NAN;
}

void errors_isothermal(const struct error_tables *tables, struct errors *ret_set, struct errors *ret_own) {
    struct csv csv;
    csv_read(reference_path("evaporation-checks.csv"), &csv);
    for (size_t row = 0; row < csv.rows; row++) {
        double x1 = csv_number(&csv, row, "x1"), expected = csv_number(&csv, row, "p_kpa");
        if (strcmp(csv_text(&csv, row, "kind"), "isothermal-px") != 0 || x1 == 0 || x1 == 1)
            continue;
        const char *set = csv_text(&csv, row, "set_id");
        if (!prepare_pair(tables, &csv, row, csv_number(&csv, row, "t_c"))) {
            errors_leave_out(ret_set, "%s", set);
            continue;
        }
        const double x[2] = {x1, 1 - x1};
        double own = total_pressure(x);
        errors_add(ret_own, expected, own, own / expected - 1, "%s x1 = %.4f", set, x1);
        liquid.psat_kpa[0] = csv_number(&csv, row, "psat1_kpa");
        liquid.psat_kpa[1] = csv_number(&csv, row, "psat2_kpa");
        double got = total_pressure(x);
        errors_add(ret_set, expected, got, got / expected - 1, "%s x1 = %.4f", set, x1);
    }
    csv_release(&csv);
}

double errors_of_set(const struct errors *errors, const char *set) {
    double sum = 0;
    size_t count = 0;
    for (size_t i = 0; i < errors->count; i++)
        if (strncmp(errors->entries[i].name, set, strlen(set)) == 0) {
            sum += fabs(errors->entries[i].error);
            count++;
        }
    return sum / (double)count;
}

void errors_isobaric(const struct error_tables *tables, struct errors *ret_temperature, struct errors *ret_vapour) {
    struct csv csv;
    csv_read(reference_path("evaporation-checks.csv"), &csv);
    for (size_t row = 0; row < csv.rows; row++) {
        double x1 = csv_number(&csv, row, "x1"), temp_c = csv_number(&csv, row, "t_c");
        if (strcmp(csv_text(&csv, row, "kind"), "isobaric-txy") != 0 || x1 == 0 || x1 == 1)
            continue;
        const char *set = csv_text(&csv, row, "set_id");
        const double x[2] = {x1, 1 - x1};
        double temp_k, p[2];
        if (!prepare_pair(tables, &csv, row, temp_c) ||
            bubble_temperature(&liquid, x, csv_number(&csv, row, "p_kpa"), &temp_k, NULL) != STATUS_OK ||
            vapour_pressures(&liquid, x, p, NULL, NULL) != STATUS_OK) {
            errors_leave_out(ret_temperature, "%s", set);
            continue;
        }
        double got_c = celsius_from_kelvin(temp_k), y1 = csv_number(&csv, row, "y1"), got_y1 = p[0] / (p[0] + p[1]);
        const char *doubt = liquid.activity.coverage.weak ? " (called weak)" : "";
        errors_add(ret_temperature, temp_c, got_c, got_c - temp_c, "%s x1 = %.3f%s", set, x1, doubt);
        errors_add(ret_vapour, y1, got_y1, got_y1 - y1, "%s x1 = %.3f%s", set, x1, doubt);
    }
    csv_release(&csv);
}

// The one nearest in composition, where there are several.
static const struct azeotrope *nearest(const struct azeotrope *found, size_t count, double w1) {
    const struct azeotrope *best = NULL;
    for (size_t i = 0; i < count; i++)
        if (!best || fabs(found[i].w1 - w1) < fabs(best->w1 - w1))
            best = &found[i];
    return best;
}

void errors_azeotropes(const struct error_tables *tables, struct errors *ret_temperature, struct errors *ret_mass,
                       struct errors *ret_missed) {
    struct csv csv;
    csv_read(reference_path("azeotropes.csv"), &csv);
    for (size_t row = 0; row < csv.rows; row++) {
        const char *first = csv_text(&csv, row, "comp1"), *second = csv_text(&csv, row, "comp2");
        if (*csv_text(&csv, row, "comp3"))
            continue;
        double temp_c = csv_number(&csv, row, "t_c"), w1_pct = csv_number(&csv, row, "w1_pct");
        struct azeotrope found[AZEOTROPES_MAX];
        size_t count = 0;
        if (!prepare_pair(tables, &csv, row, temp_c) ||
            azeotropes_at_pressure(&liquid, csv_number(&csv, row, "p_kpa"), found, &count, NULL) != STATUS_OK) {
            errors_leave_out(ret_temperature, "%s + %s", first, second);
            continue;
        }
        const struct azeotrope *best = nearest(found, count, w1_pct / 100);
        if (!best) {
            errors_add(ret_missed, temp_c, NAN, NAN, "%s + %s", first, second);
            continue;
        }
        double got_c = celsius_from_kelvin(best->temp_k);
        errors_add(ret_temperature, temp_c, got_c, got_c - temp_c, "%s + %s", first, second);
        errors_add(ret_mass, w1_pct, 100 * best->w1, 100 * best->w1 - w1_pct, "%s + %s", first, second);
    }
    csv_release(&csv);
}
