// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ladder_jar.h"

#include <math.h>

static const double met_percent = 0.1;
static const double slack = 1e-9;

struct jar_batch jar_fresh(double percent) {
    struct jar_batch best = {0};
    double least_short = INFINITY;
    for (int total = JAR_FRESH_LEAST_ML; total <= JAR_MOST_ML; total++) {
        int strong = (int)floor(percent / 100 * total + slack);
        double reached = 100.0 * strong / total;
        double lacking = percent - reached;
        if (lacking < least_short - slack) {
            least_short = lacking;
            best = (struct jar_batch){
                .weak_ml = total - strong, .strong_ml = strong, .total_ml = total, .reached_percent = reached};
        }
    }
    return best;
}

static bool better(const struct jar_batch *a, const struct jar_batch *b) {
    int a_new = a->weak_ml + a->strong_ml;
    int b_new = b->weak_ml + b->strong_ml;
    return b->total_ml == 0 || a_new < b_new || (a_new == b_new && a->from_jar_ml > b->from_jar_ml);
}

bool jar_from(double before_percent, int left_ml, double percent, struct jar_batch *ret) {
    struct jar_batch best = {0};
    for (int kept = 1; kept <= left_ml && kept < JAR_MOST_ML; kept++)
        for (int added = 1; added <= kept && kept + added <= JAR_MOST_ML; added++) {
            int total = kept + added;
            double strong_now = before_percent / 100 * kept;
            int strong = (int)floor(percent / 100 * total - strong_now + slack);
            double reached = 100 * (strong_now + strong) / total;
            if (total < JAR_LEAST_ML || strong < 0 || strong > added || percent - reached > met_percent)
                continue;
            struct jar_batch batch = {.from_jar_ml = kept,
                                      .weak_ml = added - strong,
                                      .strong_ml = strong,
                                      .total_ml = total,
                                      .reached_percent = reached};
            if (better(&batch, &best))
                best = batch;
        }
    if (best.total_ml == 0)
        return false;
    *ret = best;
    return true;
}

int jar_left(const struct jar_batch *batch) {
    return batch->total_ml - JAR_USED_ML;
}
