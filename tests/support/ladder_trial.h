// SPDX-License-Identifier: GPL-3.0-or-later
// The ladder against an even series of 10 % steps: both climb the same pair of bottles from the same start on the same
// synthetic varnishes, and one and the same blend on one varnish gives both the same result.
//
// A series ends when at least part of the varnish comes off, when its strong liquid was tested neat, or (the ladder
// alone) when it gives the pair up. The overshoot is what the paint takes up of the last blend tested, less what it
// takes up of the weakest blend (in steps of 1 %) that takes off part of this varnish more often than not; 0 where the
// series ended below that. The paint is always one of the film model.
#ifndef MILDSOLVE_TESTS_LADDER_TRIAL_H
#define MILDSOLVE_TESTS_LADDER_TRIAL_H

#include "selection/belief.h"

#include <stdio.h>

enum trial_truth {
    TRIAL_PRIOR,   // drawn from the prior of the tool's view
    TRIAL_SHIFTED, // the same with its centre moved by 2 MPa^0.5 in a random direction
    TRIAL_OTHER,   // drawn from the prior of the other view
    TRIAL_TRUTHS
};

struct trial_request {
    enum belief_view view; // of the tool
    enum trial_truth truth;
    size_t varnishes;
    unsigned long seed;
    const char *weak, *strong; // bottles
    const char *remove, *spare;
};

struct trial_series {
    double tests_mean;     // over the varnishes that the pair can take off
    double tests_hopeless; // over the others
    double overshoot_mean, overshoot_95;
    double missed; // share of the former that the series ended without taking anything off
};

struct trial_result {
    size_t workable; // varnishes that some blend of the pair takes off
    struct trial_series even, ladder;
    double fewer, more; // share of the workable ones on which the ladder needed fewer tests, or more
    size_t rule_broken; // steps against the rule, as the trial reads it; 0
};

// Ends the program on any fault of the system.
void trial_run(const struct trial_request *request, struct trial_result *ret);

void trial_heading(FILE *out);
void trial_row(const struct trial_request *request, const struct trial_result *result, FILE *out);

#endif
