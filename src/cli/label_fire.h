// SPDX-License-Identifier: GPL-3.0-or-later
// What the classification of a blend needs to know of fire, by the models.
#ifndef MILDSOLVE_CLI_LABEL_FIRE_H
#define MILDSOLVE_CLI_LABEL_FIRE_H

#include "physics/classification.h"

// Fills flash, flash_c and boiling_c of *input; *ret_words says where the flash point comes from. What the tables don't
// say (a molar volume of the user's own solvent) leaves the flash point unknown. STATUS_MEMORY.
enum status label_fire(const struct library *lib, const struct blend *blend, struct classification_input *input,
                       const char **ret_words, struct error *err);

#endif
