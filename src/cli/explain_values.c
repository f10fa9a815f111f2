// SPDX-License-Identifier: GPL-3.0-or-later
// --explain: the values of the tables that went into an answer, each once.
#include "cli/explaining.h"

#include "base/language.h"

#include <math.h>
#include <string.h>

static void list(struct explaining *explaining, const struct listed_value *value) {
    struct listed_value *copy = arena_new(explaining->inv->arena, 1, sizeof *copy);
    if (!copy)
        return;
    *copy = *value;
    gather(explaining, &explaining->values, copy);
}

static void list_number(struct explaining *explaining, const char *of, const char *key, double value, const char *unit,
                        const struct provenance *from) {
    if (isfinite(value))
        list(explaining, &(struct listed_value){of, key, value, NULL, unit, from});
}

// Takes the words out of a text, which is released.
static void list_words(struct explaining *explaining, const char *of, const char *key, struct text *words,
                       const char *unit, const struct provenance *from) {
    const char *copy = words->length ? arena_text(explaining->inv->arena, text_bytes(words)) : NULL;
    text_release(words);
    if (copy)
        list(explaining, &(struct listed_value){of, key, NAN, copy, unit, from});
}

static void list_antoine(struct explaining *explaining, const struct component *component) {
    const struct properties *properties = component->properties;
    if (!properties || isnan(properties->antoine.a))
        return;
    const struct antoine_values *curve = &properties->antoine;
    struct text words = {0};
    text_say(&words, "log10(p/kPa) = %.7g - %.7g/(t/degC + %.7g), %g to %g degC, %s", curve->a, curve->b, curve->c,
             curve->t_min, curve->t_max, antoine_kind_words[curve->kind]);
    list_words(explaining, component->id, N_("vapour pressure curve"), &words, NULL, &curve->from);
}

static void list_formula(struct explaining *explaining, const struct component *component) {
    static const char *const atoms[] = {"C", "H", "N", "O", "S", "Cl", "Si"};
    if (!component->properties || component->properties->formula.c + component->properties->formula.h == 0)
        return;
    const struct formula_values *f = &component->properties->formula;
    const int counts[] = {f->c, f->h, f->n, f->o, f->s, f->cl, f->si};
    struct text words = {0};
    for (size_t i = 0; i < sizeof counts / sizeof counts[0]; i++)
        if (counts[i])
            text_printf(&words, counts[i] > 1 ? "%s%d" : "%s", atoms[i], counts[i]);
    list_words(explaining, component->id, N_("formula"), &words, NULL, &f->from);
}

static void list_hazards(struct explaining *explaining, const struct component *component) {
    const struct hazard *hazard = component->hazard;
    if (!hazard)
        return;
    struct text words = {0};
    text_add_joined(&words, ", ", hazard->h_statements.items, hazard->h_statements.count);
    list_words(explaining, component->id, N_("hazard statements"), &words, NULL, &hazard->from);
}

// --- groups of the molecules ---

static const struct unifac_group *group_of(const struct library *lib, int model, int subgroup) {
    for (size_t i = 0; i < lib->unifac_group_count; i++)
        if (lib->unifac_groups[i].model == model && lib->unifac_groups[i].subgroup == subgroup)
            return &lib->unifac_groups[i];
    return NULL;
}

static const char *main_name(const struct library *lib, int model, int main_group) {
    for (size_t i = 0; i < lib->unifac_group_count; i++)
        if (lib->unifac_groups[i].model == model && lib->unifac_groups[i].main_group == main_group)
            return lib->unifac_groups[i].main_name;
    return "?";
}

// The row of the preferred model that has groups.
static const struct unifac_assignment *assignment_of(const struct library *lib, const struct component *component) {
    const struct unifac_assignment *best = NULL;
    for (size_t i = 0; i < lib->unifac_assignment_count; i++) {
        const struct unifac_assignment *row = &lib->unifac_assignments[i];
        if (strcmp(row->component, component->id) == 0 && row->groups.count && (!best || row->model < best->model))
            best = row;
    }
    return best;
}

static void list_groups(struct explaining *explaining, const struct component *component) {
    const struct library *lib = &explaining->inv->library;
    const struct unifac_assignment *row = assignment_of(lib, component);
    if (!row)
        return;
    struct text words = {0};
    text_printf(&words, "%s:", unifac_model_words[row->model]);
    for (size_t i = 0; i < row->groups.count; i++) {
        const struct unifac_group *group = group_of(lib, row->model, (int)row->groups.items[2 * i]);
        if (group)
            text_say(&words, "%s %g %s (R %.5g, Q %.5g)", i ? "," : "", row->groups.items[2 * i + 1], group->name,
                     group->r, group->q);
    }
    text_printf(&words, "; %s", assignment_status_words[row->status]);
    list_words(explaining, component->id, N_("UNIFAC groups"), &words, NULL, &row->from);
}

// Is the main group one of the liquids that the answer is about?
static bool main_group_used(const struct explaining *explaining, int model, int main_group) {
    const struct library *lib = &explaining->inv->library;
    for (size_t i = 0; i < explaining->components.count; i++) {
        const struct unifac_assignment *row = assignment_of(lib, explaining->components.items[i]);
        for (size_t k = 0; row && row->model == model && k < row->groups.count; k++) {
            const struct unifac_group *group = group_of(lib, model, (int)row->groups.items[2 * k]);
            if (group && group->main_group == main_group)
                return true;
        }
    }
    return false;
}

static void list_interactions(struct explaining *explaining) {
    const struct library *lib = &explaining->inv->library;
    for (size_t i = 0; i < lib->unifac_interaction_count; i++) {
        const struct unifac_interaction *row = &lib->unifac_interactions[i];
        if (row->m == row->n || !main_group_used(explaining, row->model, row->m) ||
            !main_group_used(explaining, row->model, row->n))
            continue;
        struct text words = {0};
        text_say(&words, "%s, a %.6g K, b %.6g, c %.6g 1/K", unifac_model_words[row->model], row->a, row->b, row->c);
        const char *key = arena_printf(explaining->inv->arena, "%s - %s", main_name(lib, row->model, row->m),
                                       main_name(lib, row->model, row->n));
        list_words(explaining, N_("UNIFAC, interaction of main groups"), key ? key : "", &words, NULL, &row->from);
    }
}

static void list_pairs(struct explaining *explaining) {
    const struct library *lib = &explaining->inv->library;
    for (size_t i = 0; i < lib->miscible_pair_count; i++) {
        const struct miscible_pair *pair = &lib->miscible_pairs[i];
        bool first = false, second = false;
        for (size_t k = 0; k < explaining->components.count; k++) {
            const struct component *component = explaining->components.items[k];
            first |= strcmp(component->id, pair->first) == 0;
            second |= strcmp(component->id, pair->second) == 0;
        }
        if (!first || !second)
            continue;
        struct text words = {0};
        text_printf(&words, "%s", miscible_words[pair->miscible]);
        const char *key = arena_printf(explaining->inv->arena, "%s + %s", pair->first, pair->second);
        list_words(explaining, N_("published: do they mix at 25 degC?"), key ? key : "", &words, NULL, &pair->from);
    }
}

// --- limits ---

// The IDLH is the lowest of any set.
static bool authority_asked(const struct explaining *explaining, const struct limit *limit) {
    if (limit->kind == LIMIT_IDLH)
        return true;
    for (size_t i = 0; i < explaining->authorities.count; i++)
        if (strcmp(((const struct authority *)explaining->authorities.items[i])->id, limit->authority) == 0)
            return true;
    return explaining->authorities.count == 0;
}

static void list_limits(struct explaining *explaining, const struct component *component) {
    const struct library *lib = &explaining->inv->library;
    for (size_t i = 0; i < lib->limit_count; i++) {
        const struct limit *limit = &lib->limits[i];
        if (strcmp(limit->component, component->id) != 0 || !authority_asked(explaining, limit))
            continue;
        const char *key =
            arena_printf(explaining->inv->arena, "%s %s", limit->authority, limit_kind_words[limit->kind]);
        if (!key)
            return;
        list_number(explaining, component->id, key, limit->mg_m3, "mg/m3", &limit->from);
        list_number(explaining, component->id, key, limit->ppm, "ppm", &limit->from);
    }
}

static void list_authorities(struct explaining *explaining) {
    const struct library *lib = &explaining->inv->library;
    for (size_t i = 0; i < lib->authority_count; i++) {
        const struct authority *authority = &lib->authorities[i];
        if (explaining->authorities.count && !gathered_has(&explaining->authorities, authority))
            continue;
        list_number(explaining, authority->id, N_("molar volume of air"), authority->molar_volume.value, "L/mol",
                    &authority->molar_volume.from);
    }
}

// --- doubt, thresholds ---

static void list_uncertainties(struct explaining *explaining) {
    const struct library *lib = &explaining->inv->library;
    for (size_t i = 0; i < lib->uncertainty_count; i++) {
        const struct default_uncertainty *row = &lib->uncertainties[i];
        const char *key =
            arena_printf(explaining->inv->arena, "%s, %s", row->quantity, sureness_word((enum sureness)row->sure));
        list_number(explaining, N_("uncertainty of a value that states none"), key ? key : "", row->value,
                    row->relative ? "%" : row->unit, &row->from);
    }
}

static void list_thresholds(struct explaining *explaining, const struct material *material) {
    const struct library *lib = &explaining->inv->library;
    for (size_t i = 0; i < lib->lifting_threshold_count; i++) {
        const struct lifting_threshold *row = &lib->lifting_thresholds[i];
        if (strcmp(row->material, material->id) != 0)
            continue;
        struct text words = {0};
        text_say(&words, "%s %g to %g %% by volume", family_words[row->family], row->from_percent, row->to_percent);
        list_words(explaining, material->id, N_("published threshold"), &words, NULL, &row->from);
    }
}

// --- one liquid, one material, one bottle ---

static void list_component(struct explaining *explaining, const struct component *component) {
    const unsigned uses = explaining->uses;
    struct table_value value;
    for (size_t i = 0; component_value(component, i, &value); i++)
        if (value.kind & uses)
            list_number(explaining, component->id, value.key, value.value, value.unit, value.from);
    if (uses & VALUE_VAPOUR)
        list_antoine(explaining, component);
    if (uses & USES_FORMULA)
        list_formula(explaining, component);
    if (uses & USES_UNIFAC)
        list_groups(explaining, component);
    if (uses & USES_HAZARDS)
        list_hazards(explaining, component);
    if ((uses & USES_ODOUR) && component->hazard)
        list_number(explaining, component->id, N_("odour threshold"), component->hazard->odour_threshold.value, "ppm",
                    &component->hazard->odour_threshold.from);
    if (uses & USES_LIMITS)
        list_limits(explaining, component);
}

static void list_areas(struct explaining *explaining, const struct material *material) {
    const struct teas_region *regions = material->regions.items;
    for (size_t i = 0; i < material->regions.count; i++) {
        struct text words = {0};
        for (size_t k = 0; k < regions[i].vertices.count; k++)
            text_say(&words, "%s%g/%g/%g", k ? ", " : "", regions[i].vertices.items[3 * k],
                     regions[i].vertices.items[3 * k + 1], regions[i].vertices.items[3 * k + 2]);
        const char *key = arena_printf(explaining->inv->arena, "%s fd/fp/fh", regions[i].id);
        list_words(explaining, material->id, key ? key : "", &words, "percent", &regions[i].from);
    }
}

// What the tables say, also where tests or options changed the material: that is a figure of the answer, or was asked
// for.
static void list_material(struct explaining *explaining, const struct material *material) {
    const struct material *row = material;
    struct table_value value;
    library_material(&explaining->inv->library, material->id, &row, NULL);
    for (size_t i = 0; material_value(row, i, &value); i++)
        if (value.kind & explaining->uses)
            list_number(explaining, material->id, value.key, value.value, value.unit, value.from);
    if (explaining->uses & USES_AREAS)
        list_areas(explaining, material);
    if (explaining->uses & USES_AGEING)
        list_thresholds(explaining, material);
}

static void list_bottle(struct explaining *explaining, const struct bottle *bottle) {
    const struct bottle_part *parts = bottle->composition.items;
    struct text words = {0};
    for (size_t i = 0; i < bottle->composition.count; i++)
        text_printf(&words, "%s%s %g", i ? " + " : "", parts[i].component, parts[i].percent);
    list_words(explaining, bottle->id, N_("composition"), &words, "vol%", &bottle->from);
}

void explain_list_values(struct explaining *explaining) {
    for (size_t i = 0; (explaining->uses & USES_BOTTLES) && i < explaining->bottles.count; i++)
        list_bottle(explaining, explaining->bottles.items[i]);
    for (size_t i = 0; i < explaining->components.count; i++)
        list_component(explaining, explaining->components.items[i]);
    for (size_t i = 0; i < explaining->materials.count; i++)
        list_material(explaining, explaining->materials.items[i]);
    if (explaining->uses & USES_UNIFAC)
        list_interactions(explaining);
    if (explaining->uses & USES_PAIRS)
        list_pairs(explaining);
    if (explaining->uses & USES_LIMITS)
        list_authorities(explaining);
    if (explaining->uses & USES_DOUBT)
        list_uncertainties(explaining);
}
