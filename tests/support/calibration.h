// SPDX-License-Identifier: GPL-3.0-or-later
// Calibration by simulation: synthetic varnishes and paints are tested, the tests learnt, and what was learnt is held
// against the truth.
#ifndef MILDSOLVE_TESTS_CALIBRATION_H
#define MILDSOLVE_TESTS_CALIBRATION_H

#include "selection/belief.h"

enum calibration_truth {
    TRUTH_OF_VIEW,       // drawn from the prior of the view that learns
    TRUTH_OF_OTHER_VIEW, // drawn from that of the other
    TRUTH_MISLABELLED    // of the view, but one result in ten is another word
};
extern const char *const calibration_truth_words[];

struct calibration {
    size_t varnishes;
    double target_covered[BELIEF_PARAMETERS]; // share of them whose truth lies in the middle 90 %
    double paint_covered[BELIEF_PARAMETERS];
    double next_covered;       // share of next results in the smallest 90 % of words (by lot on its edge)
    double brier, brier_prior; // of "at least partly removed" for the next results
    double warned;             // share with any warning of `learn`: each of the three alone
    double warned_model, warned_odd, warned_view;
};

void calibrate(enum belief_view view, enum calibration_truth truth, size_t varnishes, struct calibration *ret);
void calibration_print(enum belief_view view, enum calibration_truth truth, const struct calibration *found);

#endif
