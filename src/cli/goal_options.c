// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/goal_options.h"

#include "physics/film.h"

#include <math.h>
#include <string.h>

enum { NAME_BYTES = 160, NAME_PIECES_MAX = 6 };

const double goal_margin_usual = 0.1; // half a 20 % step inside the sphere; ours
static const char default_spare[] = "linseed-oil-film-young";

static enum status refuse(const char *option, const struct material *material, struct error *err) {
    const char *why = material->no_region ? material->no_region : "";
    if (material->substitute)
        return error_set(err, STATUS_NO_DATA,
                         "%s %s: no region is published for this material. %s The careful stand-in is '%s'.", option,
                         material->id, why, material->substitute);
    return error_set(err, STATUS_NO_DATA,
                     "%s %s: no region is published for this material. %s There is no careful stand-in: test.", option,
                     material->id, why);
}

// `film_will_do`: a film model is enough where there is no sphere.
static enum status materials_of(struct invocation *inv, const char *option, bool film_will_do,
                                const struct material **ret, size_t *count, struct error *err) {
    const char *list = option_value(inv, option);
    if (!list && strcmp(option, "--spare") == 0) {
        list = default_spare;
        page_paragraph_f(inv->talk, 0, 2, "note: no --spare given; %s is taken as the paint to spare", list);
    }
    if (!list)
        return error_set(err, STATUS_USAGE, "%s is missing: which material? For example: %s", option,
                         inv->command->example);
    enum status status = material_list_parse(&inv->library, list, ret, GOAL_MATERIALS_MAX, count, err);
    for (size_t i = 0; status == STATUS_OK && i < *count; i++)
        if (isnan(ret[i]->sphere.r0) && !(film_will_do && material_has_film(ret[i])))
            status = refuse(option, ret[i], err);
    return status;
}

enum status goal_materials_option(struct invocation *inv, const char *option, const struct material **ret,
                                  size_t *count, struct error *err) {
    return materials_of(inv, option, false, ret, count, err);
}

enum status goal_needs_spheres(const struct goal *goal, struct error *err) {
    for (size_t i = 0; i < goal->remove_count; i++)
        if (isnan(goal->remove[i]->sphere.r0))
            return refuse("--remove", goal->remove[i], err);
    for (size_t i = 0; i < goal->spare_count; i++)
        if (isnan(goal->spare[i]->sphere.r0))
            return refuse("--spare", goal->spare[i], err);
    return STATUS_OK;
}

static bool on_shelf(const struct goal *goal, const struct bottle_ref *bottle) {
    for (size_t i = 0; i < goal->bottle_count; i++)
        if (bottle_ref_same(&goal->bottles[i], bottle))
            return true;
    return false;
}

// The same bottle named twice is one bottle.
static void drop_repeats(struct invocation *inv, struct goal *goal) {
    struct goal all = *goal;
    goal->bottle_count = 0;
    for (size_t i = 0; i < all.bottle_count; i++) {
        if (on_shelf(goal, &all.bottles[i]))
            page_paragraph_f(inv->talk, 0, 2, "note: %s is named twice; it counts once",
                             bottle_ref_id(&all.bottles[i]));
        else
            goal->bottles[goal->bottle_count++] = all.bottles[i];
    }
}

static enum status shelf_bottles(struct invocation *inv, struct goal *goal, struct error *err) {
    const char *name = option_value(inv, "--shelf");
    const struct shelf *shelf;
    enum status status = library_shelf(&inv->library, name ? name : "studio", &shelf, err);
    for (size_t i = 0; status == STATUS_OK && i < shelf->bottles.count; i++) {
        if (goal->bottle_count == GOAL_BOTTLES_MAX)
            return error_set(err, STATUS_INPUT, "shelf '%s' has more than %d bottles", shelf->id, GOAL_BOTTLES_MAX);
        status = library_bottle(&inv->library, shelf->bottles.items[i], &goal->bottles[goal->bottle_count++], err);
    }
    if (status == STATUS_OK && !name)
        page_paragraph_f(inv->talk, 0, 2, "note: no --bottles given; the %zu of the shelf '%s' of the tables are taken",
                         shelf->bottles.count, shelf->id);
    return status;
}

enum status goal_bottles_option(struct invocation *inv, struct goal *goal, struct error *err) {
    const char *list = option_value(inv, "--bottles");
    if (list && option_given(inv, "--shelf"))
        return error_set(err, STATUS_USAGE, "--bottles and --shelf exclude each other");
    enum status status =
        list ? bottle_list_parse(&inv->library, list, goal->bottles, GOAL_BOTTLES_MAX, &goal->bottle_count, err)
             : shelf_bottles(inv, goal, err);
    if (status == STATUS_OK)
        drop_repeats(inv, goal);
    return status;
}

enum status goal_step_option(struct invocation *inv, struct goal *goal, struct error *err) {
    static const double steps[] = {10, 5, 2.5, 1};
    double percent;
    enum status status = option_number(inv, "--step", 0.1, 100, 5, &percent, err);
    if (status != STATUS_OK)
        return status;
    for (size_t i = 0; i < sizeof steps / sizeof steps[0]; i++)
        if (percent == steps[i]) {
            goal->steps = (int)lround(100 / percent);
            return STATUS_OK;
        }
    return error_set(err, STATUS_USAGE,
                     "--step %g: the grid must divide 100 and be measurable; 10, 5, 2.5 or 1 is expected", percent);
}

// Names of one --without or --allow list, copied apart. Hazard classes hold no comma; solvent names may.
struct name_list {
    const char *names[GOAL_NAMES_MAX];
    size_t count;
};

static enum status add_name(struct invocation *inv, struct name_list *list, const char *start, const char *end,
                            struct error *err) {
    while (start < end && *start == ' ')
        start++;
    while (end > start && end[-1] == ' ')
        end--;
    if (start == end)
        return STATUS_OK;
    if (list->count == GOAL_NAMES_MAX)
        return error_set(err, STATUS_INPUT, "more than %d names to leave out or allow", GOAL_NAMES_MAX);
    const char *name = arena_text_n(inv->arena, start, (size_t)(end - start));
    if (!name)
        return error_set(err, STATUS_MEMORY, "out of memory");
    list->names[list->count++] = name;
    return STATUS_OK;
}

// Where the next name ends: the longest run of a few pieces that is a known name, else the first comma.
static const char *name_end(struct invocation *inv, const char *start) {
    const char *first = start + strcspn(start, ",");
    const char *best = first, *end = first;
    const char *from = start + strspn(start, " ");
    for (int pieces = 0; from < first && pieces < NAME_PIECES_MAX && end - start < NAME_BYTES; pieces++) {
        char name[NAME_BYTES];
        memcpy(name, from, (size_t)(end - from));
        name[end - from] = '\0';
        if (library_knows_bottle(&inv->library, name))
            best = end;
        if (*end == '\0')
            break;
        end = end + 1 + strcspn(end + 1, ",");
    }
    return best;
}

static enum status names_of(struct invocation *inv, const char *option, struct name_list *list, struct error *err) {
    const char *const *values = NULL;
    size_t count = option_values(inv, option, &values);
    for (size_t i = 0; i < count; i++)
        for (const char *start = values[i];;) {
            const char *end = name_end(inv, start);
            enum status status = add_name(inv, list, start, end, err);
            if (status != STATUS_OK)
                return status;
            if (*end == '\0')
                break;
            start = end + 1;
        }
    return STATUS_OK;
}

static enum status allowed_components(struct invocation *inv, const struct name_list *names,
                                      const struct component **ret, struct error *err) {
    for (size_t i = 0; i < names->count; i++) {
        if (hazard_class_named(names->names[i]) >= 0)
            return error_set(err, STATUS_USAGE,
                             "--allow %s: a whole hazard class cannot be allowed; name the component", names->names[i]);
        enum status status = library_component(&inv->library, names->names[i], &ret[i], err);
        if (status != STATUS_OK)
            return status;
    }
    return STATUS_OK;
}

enum status goal_filter_options(struct invocation *inv, struct goal *goal, struct filter_report *report,
                                struct error *err) {
    struct name_list without = {0};
    struct name_list allow = {0};
    const struct component *allowed[GOAL_NAMES_MAX];
    enum status status = names_of(inv, "--without", &without, err);
    if (status == STATUS_OK)
        status = names_of(inv, "--allow", &allow, err);
    if (status == STATUS_OK)
        status = allowed_components(inv, &allow, allowed, err);
    if (status != STATUS_OK)
        return status;
    struct shelf_rules rules = {
        .without = without.names, .without_count = without.count, .allowed = allowed, .allowed_count = allow.count};
    return goal_filter_shelf(goal, &inv->library, &rules, report, err);
}

enum status goal_from_options(struct invocation *inv, struct goal *ret, struct filter_report *report,
                              struct error *err) {
    *ret = (struct goal){0};
    enum status status = materials_of(inv, "--remove", true, ret->remove, &ret->remove_count, err);
    if (status == STATUS_OK)
        status = materials_of(inv, "--spare", true, ret->spare, &ret->spare_count, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--components", 1, GOAL_COMPONENTS_MAX, 3, &ret->components_most, err);
    if (status == STATUS_OK)
        status = goal_step_option(inv, ret, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--margin", 0, 0.9, goal_margin_usual, &ret->margin, err);
    if (status == STATUS_OK)
        status = goal_bottles_option(inv, ret, err);
    if (status == STATUS_OK)
        status = goal_filter_options(inv, ret, report, err);
    return status;
}
