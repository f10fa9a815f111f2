// SPDX-License-Identifier: GPL-3.0-or-later
#include "plain_unifac.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void stop(const char *what, const char *id) {
    fprintf(stderr, "plain UNIFAC: %s %s\n", what, id);
    exit(2);
}

static size_t add_group(const struct library *lib, int model, int subgroup, int *subgroups, struct plain_unifac *ret) {
    for (size_t k = 0; k < ret->groups; k++)
        if (subgroups[k] == subgroup)
            return k;
    for (size_t i = 0; i < lib->unifac_group_count; i++) {
        const struct unifac_group *row = &lib->unifac_groups[i];
        if (row->model != model || row->subgroup != subgroup)
            continue;
        if (ret->groups == PLAIN_GROUPS_MAX)
            stop("too many groups", row->name);
        subgroups[ret->groups] = subgroup;
        ret->group[ret->groups] = (struct plain_group){.volume = row->r, .surface = row->q, .main = row->main_group};
        return ret->groups++;
    }
    stop("no such subgroup", "");
    return 0;
}

static void add_pair(const struct library *lib, int model, struct plain_unifac *ret, size_t k, size_t l) {
    if (ret->group[k].main == ret->group[l].main)
        return;
    for (size_t i = 0; i < lib->unifac_interaction_count; i++) {
        const struct unifac_interaction *row = &lib->unifac_interactions[i];
        if (row->model != model || row->m != ret->group[k].main || row->n != ret->group[l].main)
            continue;
        ret->a[k][l] = row->a;
        ret->b[k][l] = row->b;
        ret->c[k][l] = row->c;
        return;
    }
    stop("no interaction between two groups", "");
}

void plain_unifac_make(const struct library *lib, int model, const char *const *ids, size_t count,
                       struct plain_unifac *ret) {
    int subgroups[PLAIN_GROUPS_MAX];
    memset(ret, 0, sizeof *ret);
    ret->power = model == UNIFAC_DORTMUND ? 0.75 : 1;
    ret->components = count;
    for (size_t i = 0; i < count; i++) {
        const struct unifac_assignment *found = NULL;
        for (size_t j = 0; j < lib->unifac_assignment_count; j++)
            if (lib->unifac_assignments[j].model == model && strcmp(lib->unifac_assignments[j].component, ids[i]) == 0)
                found = &lib->unifac_assignments[j];
        if (!found)
            stop("no groups for", ids[i]);
        for (size_t g = 0; g < found->groups.count; g++) {
            size_t k = add_group(lib, model, (int)found->groups.items[2 * g], subgroups, ret);
            ret->number[i][k] += found->groups.items[2 * g + 1];
        }
    }
    for (size_t k = 0; k < ret->groups; k++)
        for (size_t l = 0; l < ret->groups; l++)
            add_pair(lib, model, ret, k, l);
}

static void fill_psi(const struct plain_unifac *plain, double t, struct plain_psi *ret) {
    for (size_t m = 0; m < plain->groups; m++)
        for (size_t n = 0; n < plain->groups; n++)
            ret->at[m][n] = exp(-(plain->a[m][n] + plain->b[m][n] * t + plain->c[m][n] * t * t) / t);
}

// ln Gamma_k of a liquid with group amounts given.
static void group_ln_gamma(const struct plain_unifac *plain, const struct plain_psi *psi, const double *amount,
                           double *ret) {
    size_t groups = plain->groups;
    double theta[PLAIN_GROUPS_MAX], below[PLAIN_GROUPS_MAX], all = 0;
    for (size_t m = 0; m < groups; m++)
        all += plain->group[m].surface * amount[m];
    for (size_t m = 0; m < groups; m++)
        theta[m] = plain->group[m].surface * amount[m] / all;
    for (size_t m = 0; m < groups; m++) {
        below[m] = 0;
        for (size_t n = 0; n < groups; n++)
            below[m] += theta[n] * psi->at[n][m];
    }
    for (size_t k = 0; k < groups; k++) {
        double sum = 0;
        for (size_t m = 0; m < groups; m++)
            sum += theta[m] * psi->at[k][m] / below[m];
        ret[k] = plain->group[k].surface * (1 - log(below[k]) - sum);
    }
}

static void combinatorial(const struct plain_unifac *plain, const double *x, double *ret) {
    double r[PLAIN_COMPONENTS_MAX], q[PLAIN_COMPONENTS_MAX], sum_r = 0, sum_q = 0, sum_power = 0;
    for (size_t i = 0; i < plain->components; i++) {
        r[i] = q[i] = 0;
        for (size_t k = 0; k < plain->groups; k++) {
            r[i] += plain->number[i][k] * plain->group[k].volume;
            q[i] += plain->number[i][k] * plain->group[k].surface;
        }
        sum_r += x[i] * r[i];
        sum_q += x[i] * q[i];
        sum_power += x[i] * pow(r[i], plain->power);
    }
    for (size_t i = 0; i < plain->components; i++) {
        double v = r[i] / sum_r, f = q[i] / sum_q, v_power = pow(r[i], plain->power) / sum_power;
        ret[i] = 1 - v_power + log(v_power) - 5 * q[i] * (1 - v / f + log(v / f));
    }
}

static void mixture_groups(const struct plain_unifac *plain, const double *x, double *ret) {
    for (size_t k = 0; k < plain->groups; k++) {
        ret[k] = 0;
        for (size_t i = 0; i < plain->components; i++)
            ret[k] += x[i] * plain->number[i][k];
    }
}

static void add_residual(const struct plain_unifac *plain, size_t i, const double *mixed, const double *pure,
                         double *ret_ln_gamma) {
    for (size_t k = 0; k < plain->groups; k++)
        ret_ln_gamma[i] += plain->number[i][k] * (mixed[k] - pure[k]);
}

void plain_unifac_ln_gamma(const struct plain_unifac *plain, double temp_k, const double *x, double *ret_ln_gamma) {
    struct plain_psi psi;
    double amount[PLAIN_GROUPS_MAX];
    double mixed[PLAIN_GROUPS_MAX], pure[PLAIN_GROUPS_MAX];
    fill_psi(plain, temp_k, &psi);
    mixture_groups(plain, x, amount);
    group_ln_gamma(plain, &psi, amount, mixed);
    combinatorial(plain, x, ret_ln_gamma);
    for (size_t i = 0; i < plain->components; i++) {
        group_ln_gamma(plain, &psi, plain->number[i], pure);
        add_residual(plain, i, mixed, pure, ret_ln_gamma);
    }
}

void plain_unifac_prepare(const struct plain_unifac *plain, double temp_k, struct plain_prepared *ret) {
    fill_psi(plain, temp_k, &ret->psi);
    for (size_t i = 0; i < plain->components; i++)
        group_ln_gamma(plain, &ret->psi, plain->number[i], ret->pure[i]);
}

void plain_unifac_ln_gamma_prepared(const struct plain_unifac *plain, const struct plain_prepared *prepared,
                                    const double *x, double *ret_ln_gamma) {
    double amount[PLAIN_GROUPS_MAX], mixed[PLAIN_GROUPS_MAX];
    mixture_groups(plain, x, amount);
    group_ln_gamma(plain, &prepared->psi, amount, mixed);
    combinatorial(plain, x, ret_ln_gamma);
    for (size_t i = 0; i < plain->components; i++)
        add_residual(plain, i, mixed, prepared->pure[i], ret_ln_gamma);
}
