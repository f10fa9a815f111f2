// SPDX-License-Identifier: GPL-3.0-or-later
// The table of ln swelling of one liquid in one film over chi of its components. A node is computed when it is asked
// for the first time, with the rest of its row above it: what was learnt asks for a part of what the prior could reach,
// and the nodes that it leaves out, where the film dissolves, cost most. What a node holds does not depend on when it
// is asked for.
#ifndef MILDSOLVE_SELECTION_BELIEF_TABLE_H
#define MILDSOLVE_SELECTION_BELIEF_TABLE_H

#include "selection/belief_parts.h"

// Makes the table of a liquid whose components and activities are known; both must live as long as the form.
// STATUS_NO_DATA, STATUS_MEMORY.
enum status belief_form_make(const struct belief_item *item, const struct activity_model *activity,
                             const double *ln_activity, const double *volume_fractions, struct belief_form *ret,
                             struct error *err);
void belief_form_release(struct belief_form *form);

// ln of the swelling at a node, averaged over the unevenness; `row` counts over the axes after the first. Not from two
// threads at once.
double belief_table_at(const struct belief_form *form, size_t row, size_t node);

#endif
