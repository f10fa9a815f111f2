// SPDX-License-Identifier: GPL-3.0-or-later
// Descriptions of the rows of every table, for the reader and for `check`.
#ifndef MILDSOLVE_DATA_RECORDS_H
#define MILDSOLVE_DATA_RECORDS_H

#include "data/schema.h"
#include "data/tables.h"

extern const struct record reference_record, component_record, properties_record, hazard_record, statement_record,
    authority_record, limit_record, film_record, material_record, bottle_record, shelf_record, unifac_group_record,
    unifac_interaction_record, unifac_assignment_record, miscible_pair_record, uncertainty_record, sensitivity_record,
    ageing_state_record, lifting_threshold_record, published_removal_record, retained_carrier_record,
    family_share_record;

#endif
