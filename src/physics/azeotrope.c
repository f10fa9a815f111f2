// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/azeotrope.h"

#include "physics/solve.h"

#include <math.h>

const char *azeotrope_kind_word(enum azeotrope_kind kind) {
    static const char *const words[] = {"minimum", "maximum", "heterogeneous"};
    return words[kind];
}

// Compositions are given as ln(x1/x2), so that the grid and the root are as fine near one neat liquid as near the
// other.
static const double logit_most = 13.8; // x1 from 1e-6 to 1 - 1e-6
enum { GRID_INTERVALS = 120 };

struct azeotrope_problem {
    struct vapour_liquid *liquid;
    double p_kpa; // NAN: the temperature is fixed
    bool two;     // what the last evaluation saw
    double total_kpa;
    struct error why;
};

static double fraction_of_logit(double logit) {
    return logit < 0 ? exp(logit) / (1 + exp(logit)) : 1 / (1 + exp(-logit));
}

// ln(y1/x1) - ln(y2/x2): the logarithm of the relative volatility over all liquid that is there; NAN where there is
// none.
static double ln_relative_volatility(double logit, void *context) {
    struct azeotrope_problem *problem = context;
    const double x[2] = {fraction_of_logit(logit), fraction_of_logit(-logit)};
    double p[2], temp_k;
    if (!isnan(problem->p_kpa) &&
        bubble_temperature(problem->liquid, x, problem->p_kpa, &temp_k, &problem->why) != STATUS_OK)
        return NAN;
    if (vapour_pressures(problem->liquid, x, p, &problem->two, &problem->why) != STATUS_OK)
        return NAN;
    problem->total_kpa = p[0] + p[1];
    return log(p[0] / x[0]) - log(p[1] / x[1]);
}

static double mass_fraction(const struct vapour_liquid *liquid, double x1) {
    const struct properties *first = liquid->activity.components[0]->properties;
    const struct properties *second = liquid->activity.components[1]->properties;
    double m1 = first ? first->molar_mass.value : NAN, m2 = second ? second->molar_mass.value : NAN;
    return x1 * m1 / (x1 * m1 + (1 - x1) * m2);
}

// Where the first component is the more volatile one below the azeotrope and the less volatile one above it, both are
// driven towards it in the vapour: lowest boiling.
static void describe(struct azeotrope_problem *problem, double logit, double below, struct azeotrope *ret) {
    ln_relative_volatility(logit, problem);
    double x1 = fraction_of_logit(logit);
    *ret = (struct azeotrope){.kind = problem->two ? AZEOTROPE_HETEROGENEOUS
                                      : below > 0  ? AZEOTROPE_MINIMUM
                                                   : AZEOTROPE_MAXIMUM,
                              .temp_k = problem->liquid->activity.temp_k,
                              .p_kpa = problem->total_kpa,
                              .x1 = x1,
                              .w1 = mass_fraction(problem->liquid, x1)};
}

static enum status search(struct azeotrope_problem *problem, struct azeotrope ret[AZEOTROPES_MAX], size_t *ret_count,
                          struct error *err) {
    static const struct solve_stop stop = {.absolute = 1e-9, .most = 200};
    struct azeotrope found[AZEOTROPES_MAX];
    size_t count = 0;
    double before = NAN, logit_before = NAN;
    for (int i = 0; i <= GRID_INTERVALS && count < AZEOTROPES_MAX; i++) {
        double logit = logit_most * (2.0 * i / GRID_INTERVALS - 1);
        double here = ln_relative_volatility(logit, problem);
        if (isnan(here))
            return error_set(err, problem->why.status, "%s", problem->why.text);
        if (i > 0 && (here > 0) != (before > 0)) {
            double root;
            enum status status = solve_root(ln_relative_volatility, problem, logit_before, logit, &stop, &root, err);
            if (status != STATUS_OK)
                return status;
            describe(problem, root, before, &found[count++]);
        }
        before = here;
        logit_before = logit;
    }
    for (size_t i = 0; i < count; i++)
        ret[i] = found[i];
    *ret_count = count;
    return STATUS_OK;
}

static enum status check(const struct vapour_liquid *liquid, struct error *err) {
    if (liquid->activity.count != 2)
        return error_set(err, STATUS_RANGE, "azeotropes are looked for between two components, not %zu",
                         liquid->activity.count);
    return vapour_liquid_complete(liquid, err);
}

enum status azeotropes_at_temperature(struct vapour_liquid *liquid, double temp_k, struct azeotrope ret[AZEOTROPES_MAX],
                                      size_t *ret_count, struct error *err) {
    enum status status = check(liquid, err);
    if (status == STATUS_OK)
        status = vapour_liquid_set_temperature(liquid, temp_k, err);
    if (status != STATUS_OK)
        return status;
    struct azeotrope_problem problem = {.liquid = liquid, .p_kpa = NAN};
    return search(&problem, ret, ret_count, err);
}

enum status azeotropes_at_pressure(struct vapour_liquid *liquid, double p_kpa, struct azeotrope ret[AZEOTROPES_MAX],
                                   size_t *ret_count, struct error *err) {
    enum status status = check(liquid, err);
    if (status != STATUS_OK)
        return status;
    struct azeotrope_problem problem = {.liquid = liquid, .p_kpa = p_kpa};
    return search(&problem, ret, ret_count, err);
}
