// SPDX-License-Identifier: GPL-3.0-or-later
// The lists of a library by their tables.
#include "data/library.h"
#include "data/library_tables.h"

#define LIST(bit, file_name, key, rec, array, number, ...)                                                             \
    {                                                                                                                  \
        .table = bit, .file = file_name, .list_key = key, .record = &rec,                                              \
        .rows_offset = offsetof(struct library, array), .count_offset = offsetof(struct library, number),              \
        .key_fields = {                                                                                                \
            __VA_ARGS__                                                                                                \
        }                                                                                                              \
    }

// Which interactions are wanted is known from groups and assignments, which therefore stand before them.
const struct table_list library_lists[] = {
    LIST(TABLE_REFERENCES, "references.yaml", "references", reference_record, references, reference_count, "id"),
    LIST(TABLE_COMPONENTS, "components.yaml", "components", component_record, components, component_count, "id"),
    LIST(TABLE_PROPERTIES, "properties.yaml", "properties", properties_record, properties, properties_count, "id"),
    LIST(TABLE_HAZARDS, "hazards.yaml", "hazards", hazard_record, hazards, hazard_count, "id"),
    LIST(TABLE_STATEMENTS, "statements.yaml", "statements", statement_record, statements, statement_count, "code"),
    LIST(TABLE_LIMITS, "limits.yaml", "authorities", authority_record, authorities, authority_count, "id"),
    LIST(TABLE_LIMITS, "limits.yaml", "limits", limit_record, limits, limit_count, "component", "authority", "kind",
         "period_min"),
    LIST(TABLE_MATERIALS, "materials.yaml", "materials", material_record, materials, material_count, "id"),
    LIST(TABLE_BOTTLES, "bottles.yaml", "bottles", bottle_record, bottles, bottle_count, "id"),
    LIST(TABLE_BOTTLES, "bottles.yaml", "shelves", shelf_record, shelves, shelf_count, "id"),
    LIST(TABLE_UNIFAC, "unifac-groups.yaml", "groups", unifac_group_record, unifac_groups, unifac_group_count, "model",
         "subgroup"),
    LIST(TABLE_UNIFAC, "unifac-assignments.yaml", "assignments", unifac_assignment_record, unifac_assignments,
         unifac_assignment_count, "model", "component"),
    LIST(TABLE_UNIFAC, "unifac-interactions.yaml", "interactions", unifac_interaction_record, unifac_interactions,
         unifac_interaction_count, "model", "m", "n"),
    LIST(TABLE_MISCIBILITY, "miscibility.yaml", "pairs", miscible_pair_record, miscible_pairs, miscible_pair_count,
         "first", "second"),
    LIST(TABLE_SENSITIVITIES, "sensitivities.yaml", "sensitivities", sensitivity_record, sensitivities,
         sensitivity_count, "id"),
    LIST(TABLE_AGEING, "ageing.yaml", "states", ageing_state_record, ageing_states, ageing_state_count, "material"),
    LIST(TABLE_AGEING, "ageing.yaml", "thresholds", lifting_threshold_record, lifting_thresholds,
         lifting_threshold_count, "material", "family"),
    LIST(TABLE_AGEING, "ageing.yaml", "removals", published_removal_record, published_removals, published_removal_count,
         "material", "blend", "state"),
    LIST(TABLE_AGEING, "ageing.yaml", "retained", retained_carrier_record, retained_carriers, retained_carrier_count,
         "material", "days"),
    LIST(TABLE_AGEING, "ageing.yaml", "shares", family_share_record, family_shares, family_share_count, "component",
         "family"),
    LIST(TABLE_UNCERTAINTY, "uncertainty.yaml", "uncertainties", uncertainty_record, uncertainties, uncertainty_count,
         "quantity", "sure"),
};

const size_t library_list_count = sizeof library_lists / sizeof library_lists[0];

size_t table_count(const struct library *lib, const struct table_list *list) {
    return *(const size_t *)(const void *)((const char *)lib + list->count_offset);
}

void *table_rows(const struct library *lib, const struct table_list *list) {
    return *(void *const *)(const void *)((const char *)lib + list->rows_offset);
}
