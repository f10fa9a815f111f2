// SPDX-License-Identifier: GPL-3.0-or-later
// Activity coefficients and phases.
#include "errors.h"

#include "csv.h"
#include "physics/miscibility.h"
#include "tables.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct activity_model model; // large

static bool prepare(const struct error_tables *tables, const char *first, const char *second, double temp_k) {
    const struct component *pair[2] = {tables_component(&tables->lib, first), tables_component(&tables->lib, second)};
    struct error err = {0};
    if (activity_prepare(&tables->unifac, pair, 2, temp_k, &model, &err) != STATUS_OK) {
        fprintf(stderr, "%s + %s: %s\n", first, second, err.text);
        exit(2);
    }
    return activity_covers(&model);
}

void errors_limiting(const struct error_tables *tables, struct errors *ret) {
    struct csv csv;
    csv_read(reference_path("activity-checks.csv"), &csv);
    for (size_t row = 0; row < csv.rows; row++) {
        char solute[128];
        const double at_none[2] = {0, 1};
        double ln_gamma[2], expected = csv_number(&csv, row, "gamma1");
        if (strcmp(csv_text(&csv, row, "kind"), "experimental-limiting") != 0)
            continue;
        snprintf(solute, sizeof solute, "%s", csv_text(&csv, row, "system"));
        char *solvent = strchr(solute, '/');
        *solvent++ = '\0';
        if (!prepare(tables, solute, solvent, csv_number(&csv, row, "T_K"))) {
            errors_leave_out(ret, "%s in %s", solute, solvent);
            continue;
        }
        activity_ln_gamma(&model, at_none, ln_gamma);
        errors_add(ret, expected, exp(ln_gamma[0]), ln_gamma[0] - log(expected), "%s in %s%s", solute, solvent,
                   model.coverage.weak ? " (called weak)" : "");
    }
    csv_release(&csv);
}

enum { SHARES = 19 }; // 5:95 to 95:5 by volume

// The worst verdict on the model's pair over all compositions.
static enum phase_verdict worst_verdict(const struct library *published) {
    enum phase_verdict worst = PHASE_ONE;
    for (int n = 1; n <= SHARES; n++) {
        double phi = n / (SHARES + 1.0);
        const double x[2] = {phi / model.components[0]->molar_volume.value,
                             (1 - phi) / model.components[1]->molar_volume.value};
        struct phase_judgement judgement;
        struct error err = {0};
        if (miscibility_judge(published, &model, x, &judgement, &err) != STATUS_OK) {
            fprintf(stderr, "%s\n", err.text);
            exit(2);
        }
        if (judgement.verdict > worst)
            worst = judgement.verdict;
    }
    return worst;
}

void errors_miscibility(const struct error_tables *tables, bool published, struct phase_errors *ret) {
    struct csv csv;
    *ret = (struct phase_errors){.rows = 0};
    csv_read(reference_path("miscibility.csv"), &csv);
    for (size_t row = 0; row < csv.rows; row++, ret->rows++) {
        const char *first = csv_text(&csv, row, "comp1"), *second = csv_text(&csv, row, "comp2");
        bool splits = strcmp(csv_text(&csv, row, "miscible"), "yes") != 0;
        if (!prepare(tables, first, second, 298.15) && !published) {
            ret->not_covered++;
            continue;
        }
        enum phase_verdict worst = worst_verdict(published ? &tables->lib : NULL);
        ret->open += worst == PHASE_MAY_SEPARATE;
        ret->right += worst == (splits ? PHASE_TWO : PHASE_ONE);
        ret->missed += splits && worst == PHASE_ONE;
        ret->invented += !splits && worst == PHASE_TWO;
        size_t used = strlen(ret->missed_names);
        if (splits && worst == PHASE_ONE)
            snprintf(ret->missed_names + used, sizeof ret->missed_names - used, "%s%s + %s", used ? ", " : "", first,
                     second);
    }
    csv_release(&csv);
}
