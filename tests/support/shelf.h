// SPDX-License-Identifier: GPL-3.0-or-later
// Invented shelves for tests and timing: bottles at given or random places, one material to remove, some to spare.
#ifndef MILDSOLVE_TESTS_SHELF_H
#define MILDSOLVE_TESTS_SHELF_H

#include "random.h"
#include "selection/goal.h"

enum { INVENTED_MOST = GOAL_BOTTLES_MAX };

struct invented {
    struct component components[INVENTED_MOST];
    char ids[INVENTED_MOST][16];
    struct material materials[2 * GOAL_MATERIALS_MAX];
    size_t component_count, material_count;
    struct goal goal; // points into this struct: not to be copied
};

// Empties it; the grid and the number of components of a goal.
void invented_start(struct invented *invented, int components_most, int steps, double margin);

void invented_bottle(struct invented *invented, const char *id, struct hansen place);
void invented_remove(struct invented *invented, struct hansen centre, double r0);
void invented_spare(struct invented *invented, struct hansen centre, double r0);

// A place as liquids have them: delta_d 14 to 20, delta_p 0 to 18, delta_h 0 to 26.
struct hansen random_place(struct random *random);

#endif
