// SPDX-License-Identifier: GPL-3.0-or-later
// Prints the comparison of the ladder with an even series: ladder_table [VARNISHES [SEED [BOTTLE]]]; 300, 1, and two
// bottles in turn otherwise.
#include "ladder_trial.h"

#include <stdlib.h>

int main(int argc, char **argv) {
    static const char *const strong[] = {"propan-2-ol", "acetone"};
    size_t varnishes = argc > 1 ? (size_t)atol(argv[1]) : 300;
    unsigned long seed = argc > 2 ? (unsigned long)atol(argv[2]) : 1;
    size_t pairs = argc > 3 ? 1 : sizeof strong / sizeof strong[0];
    trial_heading(stdout);
    for (size_t s = 0; s < pairs; s++)
        for (int view = BELIEF_FILM; view <= BELIEF_RED; view++)
            for (int truth = 0; truth < TRIAL_TRUTHS; truth++) {
                struct trial_request request = {.view = (enum belief_view)view,
                                                .truth = (enum trial_truth)truth,
                                                .varnishes = varnishes,
                                                .seed = seed,
                                                .weak = "isooctane",
                                                .strong = argc > 3 ? argv[3] : strong[s],
                                                .remove = "dammar-aged",
                                                .spare = "linseed-oil-film-young"};
                struct trial_result result;
                trial_run(&request, &result);
                trial_row(&request, &result, stdout);
                fflush(stdout);
            }
    return 0;
}
