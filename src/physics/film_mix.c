// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/film_mix.h"

#include <math.h>

enum status film_common_activities(const struct activity_model *activity, const double *x, double *ret_ln_activity,
                                   bool *ret_split, struct error *err) {
    struct stability stability;
    struct phase_split split;
    enum status status = stability_test(activity, x, &stability, err);
    if (status != STATUS_OK)
        return status;
    if (!stability.stable) {
        status = phase_split_find(activity, x, &stability, &split, err);
        if (status != STATUS_OK && status != STATUS_NO_ROOT) // at the boundary one phase is as good as two
            return status;
    }
    bool two = !stability.stable && status == STATUS_OK;
    film_liquid_activities(activity, two ? split.x[0] : x, ret_ln_activity);
    // A third liquid, of which the two found know nothing, would hold every activity below that of the neat liquid.
    for (size_t i = 0; two && i < activity->count; i++)
        ret_ln_activity[i] = fmin(ret_ln_activity[i], 0);
    if (ret_split)
        *ret_split = two;
    return STATUS_OK;
}
