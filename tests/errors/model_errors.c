// SPDX-License-Identifier: GPL-3.0-or-later
// Prints how far the models are from published figures, for the manual. Exit status 1 when a goal is missed.
#include "errors.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static struct error_tables tables;

static struct errors first, second, third; // too large for the stack

static void clear(void) {
    memset(&first, 0, sizeof first);
    memset(&second, 0, sizeof second);
    memset(&third, 0, sizeof third);
}

static void print_left_out(const struct errors *errors) {
    if (errors->left_out)
        printf("    left out, no model or no data: %zu (%s)\n", errors->left_out, errors->left_out_names);
}

// `unit` begins with a space where there is one.
static void print_summary(const char *what, const struct errors *errors, double unit_factor, const char *unit) {
    const struct error_entry *worst = errors_worst(errors);
    printf("  %s: %zu compared, mean |error| %.2f%s, median |error| %.2f%s; worst %+.2f%s (%s)\n", what, errors->count,
           unit_factor * errors_mean_abs(errors), unit, unit_factor * errors_median_abs(errors), unit,
           unit_factor * worst->error, unit, worst->name);
    print_left_out(errors);
}

static void print_misfits(const struct errors *errors, double beyond, const char *unit) {
    for (size_t i = 0; i < errors->count; i++)
        if (fabs(errors->entries[i].error) > beyond)
            printf("    %-40s published %8.2f, model %8.2f%s\n", errors->entries[i].name, errors->entries[i].expected,
                   errors->entries[i].got, unit);
}

static size_t goals_missed;

static void print_goal(const char *what, double got, double most, const char *unit) {
    bool met = got <= most;
    goals_missed += !met;
    printf("  goal: %s at most %g%s: %s (%.3g)\n", what, most, unit, met ? "met" : "MISSED", got);
}

static void print_activities(void) {
    clear();
    errors_limiting(&tables, &first);
    printf("Limiting activity coefficients, measured (ln gamma)\n");
    print_summary("ln(model/measured)", &first, 1, "");
    print_goal("mean |ln|", errors_mean_abs(&first), 0.35, "");
    print_misfits(&first, 0.7, "");
    printf("\n");
}

static void print_phases(void) {
    printf("Pairs published as miscible, partly or hardly miscible, 25 degC\n");
    for (int published = 0; published < 2; published++) {
        struct phase_errors phases;
        errors_miscibility(&tables, published, &phases);
        size_t judged = phases.rows - phases.not_covered - phases.open;
        double wrong = 100.0 * (double)(judged - phases.right) / (double)judged;
        printf("  %s: %zu pairs, %zu without a model, %zu \"may separate\", of the others %.1f %% right\n",
               published ? "with the published pairs" : "model alone", phases.rows, phases.not_covered, phases.open,
               100 - wrong);
        printf("    splits called one liquid: %zu%s%s%s; mixing pairs called two: %zu\n", phases.missed,
               phases.missed ? " (" : "", phases.missed_names, phases.missed ? ")" : "", phases.invented);
        print_goal("wrong", wrong, published ? 0 : 12, " %");
    }
    printf("\n");
}

static void print_pressures(void) {
    static const char *const sets[] = {"px01", "px03", "px04", "px05", "px06", "px07", "px08", "px10"};
    clear();
    errors_isothermal(&tables, &first, &second);
    printf("Total pressure over binary liquids, 25 to 40 degC (isothermal sets, inner points)\n");
    print_summary("with the pure pressures of each set", &first, 100, " %");
    print_summary("with our own vapour pressure curves", &second, 100, " %");
    print_goal("mean |error|, pure pressures of each set", 100 * errors_mean_abs(&first), 4, " %");
    printf("    set, mean |error| %%:");
    for (size_t i = 0; i < sizeof sets / sizeof *sets; i++)
        printf(" %s %.1f;", sets[i], 100 * errors_of_set(&first, sets[i]));
    printf("\n\n");
    clear();
    errors_isobaric(&tables, &first, &second);
    printf("Boiling at constant pressure (isobaric sets, inner points)\n");
    print_summary("temperature", &first, 1, " K");
    print_misfits(&first, 2, " degC");
    print_summary("vapour mole fraction", &second, 1, "");
    printf("\n");
}

static void print_azeotropes(void) {
    clear();
    errors_azeotropes(&tables, &first, &second, &third);
    printf("Binary azeotropes at about one atmosphere\n");
    print_summary("temperature", &first, 1, " K");
    print_goal("mean |error|", errors_mean_abs(&first), 1.5, " K");
    print_misfits(&first, 2, " degC");
    print_summary("composition", &second, 1, " % by mass");
    print_goal("mean |error|", errors_mean_abs(&second), 4, " % by mass");
    print_misfits(&second, 8, " % by mass");
    printf("  published, not in the model: %zu\n", third.count);
    for (size_t i = 0; i < third.count; i++)
        printf("    %s\n", third.entries[i].name);
    printf("\n");
}

static void print_fire(void) {
    clear();
    errors_flash_pure(&tables, &first);
    printf("Flash points of single liquids, where the vapour curve reaches the lower flammable limit\n");
    print_summary("temperature", &first, 1, " K");
    print_goal("median |error|", errors_median_abs(&first), 4, " K");
    print_misfits(&first, 8, " degC");
    clear();
    errors_flash_ethanol_water(&tables, &first);
    printf("Flash points of ethanol and water by volume\n");
    print_summary("temperature", &first, 1, " K");
    print_goal("worst |error|", fabs(errors_worst(&first)->error), 4, " K");
    printf("\n");
}

static void print_rates(void) {
    clear();
    errors_rates(&tables, &first);
    printf("Relative rates of evaporation at 25 degC, n-butyl acetate = 1\n");
    printf("  %zu compared, rank correlation %.3f, median ratio model/listed %.2f\n", first.count,
           errors_rank_correlation(&first), errors_median(&first));
    print_left_out(&first);
    printf("  off by more than a factor of 2:\n");
    for (size_t i = 0; i < first.count; i++)
        if (first.entries[i].error > 2 || first.entries[i].error < 0.5)
            printf("    %-40s listed %8.4g, model %8.4g\n", first.entries[i].name, first.entries[i].expected,
                   first.entries[i].got);
    printf("\n");
}

int main(void) {
    error_tables_open(&tables);
    print_activities();
    print_phases();
    print_pressures();
    print_azeotropes();
    print_fire();
    print_rates();
    error_tables_close(&tables);
    return goals_missed ? 1 : 0;
}
