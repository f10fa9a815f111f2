// SPDX-License-Identifier: GPL-3.0-or-later
#include "varnishes.h"

#include "casefile/casefile.h"

double random_normal(struct random *random) { // Box & Muller, Ann. Math. Stat. 29 (1958) 610
    double radius = sqrt(-2 * log(1 - random_uniform(random)));
    return radius * cos(6.283185307179586 * random_uniform(random));
}

static void fill(struct random *random, double *ret, size_t count) {
    for (size_t i = 0; i < count; i++)
        ret[i] = random_normal(random);
}

void varnish_draw(const struct belief_plan *plan, struct random *random, struct varnish *ret) {
    *ret = (struct varnish){.plan = plan};
    for (size_t i = 0; i < plan->count; i++) {
        fill(random, ret->z[i], COORDINATES);
        fill(random, ret->passages[i], VARNISH_PASSAGES);
        fill(random, ret->sites[i], VARNISH_SITES);
    }
}

void varnish_parameters(const struct varnish *varnish, size_t material, double ret[BELIEF_PARAMETERS]) {
    belief_parameters(&varnish->plan->items[material], varnish->z[material], ret);
}

void varnish_words(const struct varnish *varnish, size_t material, const struct belief_liquid *liquid, size_t passage,
                   size_t site, double contact_s, int rolls, double ret[BELIEF_WORDS]) {
    const struct belief_item *item = &varnish->plan->items[material];
    double parameters[BELIEF_PARAMETERS];
    varnish_parameters(varnish, material, parameters);
    double e =
        belief_response(&item->response, varnish->z[material], belief_sharpness(&item->response, varnish->z[material]),
                        belief_margin(varnish->plan, liquid, material, parameters), log(contact_s / BELIEF_CONTACT_S),
                        log((double)rolls / BELIEF_ROLLS));
    e += BELIEF_PASSAGE_SD * varnish->passages[material][passage] + BELIEF_SITE_SD * varnish->sites[material][site];
    belief_word_probabilities(&item->response, e, 1, ret);
}

static int drawn(struct random *random, const double *p, int words) {
    double u = random_uniform(random);
    int word = 0;
    for (; word < words - 1 && u >= p[word]; word++)
        u -= p[word];
    return word;
}

// As belief.c has it: how likely the blend reached the paint.
static const double exposed[BELIEF_WORDS] = {0.02, 0.05, 0.25, 0.7, 0.95};

void varnish_test(const struct varnish *varnish, size_t target, const struct belief_liquid *liquid, size_t passage,
                  size_t site, double contact_s, int rolls, struct random *random, int *ret_result, int *ret_colour) {
    double p[BELIEF_WORDS];
    varnish_words(varnish, target, liquid, passage, site, contact_s, rolls, p);
    *ret_result = drawn(random, p, BELIEF_WORDS);
    *ret_colour = COLOUR_NONE;
    for (size_t i = varnish->plan->given.remove_count; i < varnish->plan->count; i++) {
        varnish_words(varnish, i, liquid, passage, site, contact_s, rolls, p);
        if (random_uniform(random) < p[1] * exposed[*ret_result])
            *ret_colour = COLOUR_ORIGINAL;
    }
}
