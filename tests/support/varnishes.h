// SPDX-License-Identifier: GPL-3.0-or-later
// Synthetic varnishes: a truth drawn from the prior of a plan, and what tests on it give. A truth of the other view is
// one drawn from a plan of that view.
#ifndef MILDSOLVE_TESTS_VARNISHES_H
#define MILDSOLVE_TESTS_VARNISHES_H

#include "random.h"
#include "selection/belief_parts.h"

enum { VARNISH_PASSAGES = 8, VARNISH_SITES = 64 };

struct varnish {
    const struct belief_plan *plan;
    double z[BELIEF_ITEMS_MAX][COORDINATES];
    double passages[BELIEF_ITEMS_MAX][VARNISH_PASSAGES], sites[BELIEF_ITEMS_MAX][VARNISH_SITES]; // standard normal
};

double random_normal(struct random *random);

void varnish_draw(const struct belief_plan *plan, struct random *random, struct varnish *ret);

// The true parameters of one material.
void varnish_parameters(const struct varnish *varnish, size_t material, double ret[BELIEF_PARAMETERS]);

// Probability of each word of a test on it, as it comes out: a word of the result for a target, no/yes for paint that
// is bare. `liquid` of the varnish's own plan.
void varnish_words(const struct varnish *varnish, size_t material, const struct belief_liquid *liquid, size_t passage,
                   size_t site, double contact_s, int rolls, double ret[BELIEF_WORDS]);

// One test: the result on target `target`, and whether original colour is found on the swab (enum colour): it is held
// against bare paint only in so far as the varnish came off.
void varnish_test(const struct varnish *varnish, size_t target, const struct belief_liquid *liquid, size_t passage,
                  size_t site, double contact_s, int rolls, struct random *random, int *ret_result, int *ret_colour);

#endif
