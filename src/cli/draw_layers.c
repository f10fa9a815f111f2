// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/draw_layers.h"

#include "base/language.h"
#include "cli/page_options.h"
#include "physics/teas_hull.h"

#include <math.h>
#include <string.h>

enum { DRAWN_MAX = STACKS_MAX * STACK_LAYERS_MAX };

// --- the section ---

struct styles {
    const struct material *materials[AREA_STYLES];
    size_t count;
};

static size_t style_of(struct styles *styles, const struct material *material) {
    for (size_t i = 0; i < styles->count; i++)
        if (styles->materials[i] == material)
            return i;
    if (styles->count == AREA_STYLES)
        return AREA_STYLES - 1;
    styles->materials[styles->count] = material;
    return styles->count++;
}

static const char *legend_of(struct arena *arena, const struct stack_layer *layer, size_t number) {
    if (!layer->carrier_words)
        return arena_printf(arena, "%zu  %s", number, layer->material->id);
    const char *method = layer->method == COAT_SPRAY ? say("spray") : say("brush");
    if (isnan(layer->percent_w_v))
        return arena_say(arena, "%zu  %s in %s, %s", number, layer->material->id, layer->carrier_words, method);
    return arena_say(arena, "%zu  %s %g %% w/v in %s, %s", number, layer->material->id, layer->percent_w_v,
                     layer->carrier_words, method);
}

static bool fill_notes(struct arena *arena, const struct stack_answer *answer, size_t lower,
                       struct section_layer *drawn) {
    for (size_t upper = lower + 1; upper < answer->stack.count && drawn->note_count < SECTION_NOTES_MAX; upper++) {
        const struct layer_pair *pair = pair_of(answer, upper, lower);
        if (!pair || !pair->touches)
            continue;
        const char *words = arena_printf(arena, "%zu: %s", upper + 1, say(touch_words[pair->touch]));
        if (!words)
            return false;
        drawn->note_strong[drawn->note_count] = pair->touch >= TOUCH_MAY_LIFT;
        drawn->notes[drawn->note_count++] = words;
    }
    return true;
}

static bool fill_column(struct arena *arena, const struct stack_answer *answer, struct styles *styles,
                        struct section_column *column) {
    column->title = answer->stack.option;
    column->count = answer->stack.count;
    for (size_t i = 0; i < column->count; i++) {
        const struct stack_layer *layer = &answer->stack.layers[i];
        struct section_layer *drawn = &column->layers[i];
        *drawn =
            (struct section_layer){.name = arena_printf(arena, "%zu  %s", i + 1, say(planned_role_words[layer->role])),
                                   .legend = legend_of(arena, layer, i + 1),
                                   .style = style_of(styles, layer->material),
                                   .spots = layer_covers_spots_only(layer),
                                   .planned = layer->planned};
        if (!drawn->name || !drawn->legend || !fill_notes(arena, answer, i, drawn))
            return false;
    }
    return true;
}

enum status layers_section_of(const struct layers_answer *answer, struct section_chart_input *ret, struct error *err) {
    struct arena *arena = answer->inv->arena;
    struct section_column *columns = arena_new(arena, SECTION_COLUMNS_MAX, sizeof *columns);
    struct styles styles = {0};
    if (!columns)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (answer->stack_count > SECTION_COLUMNS_MAX)
        return error_set(err, STATUS_INPUT, "--section: %zu stacks are too many for one drawing, which holds %d",
                         answer->stack_count, SECTION_COLUMNS_MAX);
    for (size_t i = 0; i < answer->stack_count; i++)
        if (!fill_column(arena, &answer->stacks[i], &styles, &columns[i]))
            return error_set(err, STATUS_MEMORY, "out of memory");
    *ret = (struct section_chart_input){.columns = columns, .column_count = answer->stack_count};
    return page_options(answer->inv, SHEET_HALF, &ret->page, err);
}

// --- the windows ---

struct windows {
    const struct layers_answer *answer;
    const struct material *materials[DRAWN_MAX];
    size_t material_count;
    struct teas_chart_area areas[AREA_STYLES];
    size_t area_count;
    struct teas_chart_point points[DRAWN_MAX];
    size_t point_count;
    const char *notes[CHART_CAPTIONS_MAX];
    size_t note_count;
};

static void add_material(struct windows *windows, const struct material *material) {
    for (size_t i = 0; i < windows->material_count; i++)
        if (windows->materials[i] == material)
            return;
    if (material && windows->material_count < DRAWN_MAX)
        windows->materials[windows->material_count++] = material;
}

// Every material of the stacks, as it is put on and as it is later.
static void collect_materials(struct windows *windows) {
    const struct library *lib = &windows->answer->inv->library;
    for (size_t i = 0; i < windows->answer->stack_count; i++) {
        const struct stack *stack = &windows->answer->stacks[i].stack;
        for (size_t k = 0; k < stack->count; k++) {
            const struct material *later = material_when_aged(lib, stack->layers[k].material);
            add_material(windows, material_with_region(lib, stack->layers[k].material));
            add_material(windows, later ? material_with_region(lib, later) : NULL);
        }
    }
}

static bool add_area(struct windows *windows, const char *name, const double *corners, size_t count, int confidence) {
    if (windows->area_count == AREA_STYLES || count > TEAS_CORNERS_MAX)
        return true;
    windows->areas[windows->area_count++] =
        (struct teas_chart_area){.name = name, .corners = corners, .corner_count = count, .confidence = confidence};
    return name != NULL;
}

// From the sphere, where the table has no area.
static bool add_hull(struct windows *windows, const struct material *material) {
    struct arena *arena = windows->answer->inv->arena;
    struct teas hull[TEAS_HULL_MOST];
    size_t count = teas_hull_of_sphere(&windows->answer->inv->library, material, hull);
    double *corners = arena_new(arena, 3 * TEAS_HULL_MOST, sizeof *corners);
    if (!corners)
        return false;
    if (count == 0) {
        const char *note = arena_say(arena, "No Teas area is known for %s.", material->id);
        if (windows->note_count < CHART_CAPTIONS_MAX)
            windows->notes[windows->note_count++] = note;
        return note != NULL;
    }
    for (size_t i = 0; i < count; i++) {
        corners[3 * i] = hull[i].fd;
        corners[3 * i + 1] = hull[i].fp;
        corners[3 * i + 2] = hull[i].fh;
    }
    return add_area(windows, arena_say(arena, "%s: liquids inside its sphere", say(material->name)), corners, count,
                    TEAS_CONFIDENCE_LOW);
}

static bool add_areas(struct windows *windows, const struct material *material) {
    const struct teas_region *regions = material->regions.items;
    for (size_t i = 0; i < material->regions.count; i++) {
        const char *name =
            arena_printf(windows->answer->inv->arena, "%s: %s", say(material->name), say(regions[i].meaning));
        if (!name ||
            !add_area(windows, name, regions[i].vertices.items, regions[i].vertices.count, regions[i].confidence))
            return false;
    }
    return material->regions.count > 0 || add_hull(windows, material);
}

static bool has_point(const struct windows *windows, const char *name) {
    for (size_t i = 0; i < windows->point_count; i++)
        if (strcmp(windows->points[i].name, name) == 0)
            return true;
    return false;
}

// A carrier without published fractions in the triangle is named in the caption instead.
static bool add_carrier(struct windows *windows, const struct stack_layer *layer) {
    struct arena *arena = windows->answer->inv->arena;
    struct teas_chart_point *point = &windows->points[windows->point_count];
    size_t computed = 0;
    const char *name = layer->carrier_words ? blend_notation(arena, &layer->carrier) : NULL;
    if (!layer->carrier_words)
        return true;
    if (!name)
        return false;
    if (windows->point_count == DRAWN_MAX || has_point(windows, name))
        return true;
    *point = (struct teas_chart_point){.kind = TEAS_POINT_BLEND, .name = name};
    if (teas_of_blend(&layer->carrier, TEAS_MEAN_OF_FRACTIONS, &point->place, &computed, NULL) == STATUS_OK) {
        point->computed = computed > 0;
        windows->point_count++;
    } else if (windows->note_count < CHART_CAPTIONS_MAX) {
        windows->notes[windows->note_count++] = arena_say(arena, "No place in the triangle is known for %s.", name);
    }
    return true;
}

static bool fill_windows(struct windows *windows) {
    collect_materials(windows);
    for (size_t i = 0; i < windows->material_count; i++)
        if (!add_areas(windows, windows->materials[i]))
            return false;
    for (size_t i = 0; i < windows->answer->stack_count; i++)
        for (size_t k = 0; k < windows->answer->stacks[i].stack.count; k++)
            if (!add_carrier(windows, &windows->answer->stacks[i].stack.layers[k]))
                return false;
    return true;
}

enum status layers_windows_of(const struct layers_answer *answer, struct teas_chart_input *ret, struct error *err) {
    struct windows *windows = arena_new(answer->inv->arena, 1, sizeof *windows);
    struct teas_chart_words *words = arena_new(answer->inv->arena, 1, sizeof *words);
    if (!windows || !words)
        return error_set(err, STATUS_MEMORY, "out of memory");
    *words = *teas_chart_words_english();
    windows->answer = answer;
    if (!fill_windows(windows))
        return error_set(err, STATUS_MEMORY, "out of memory");
    words->heading = N_("Windows of the layers, fresh and aged, and the carriers, on the Teas chart");
    words->blends = N_("Carriers");
    *ret = (struct teas_chart_input){.rule = teas_rule_words(TEAS_MEAN_OF_FRACTIONS),
                                     .areas = windows->areas,
                                     .area_count = windows->area_count,
                                     .points = windows->points,
                                     .point_count = windows->point_count,
                                     .words = words};
    enum status status = page_options(answer->inv, SHEET_FULL, &ret->page, err);
    ret->page.captions = windows->notes;
    ret->page.caption_count = windows->note_count;
    return status;
}

static enum status draw_section(const struct layers_answer *answer, const char *file, struct error *err) {
    struct section_chart_input input;
    enum status status = layers_section_of(answer, &input, err);
    return status == STATUS_OK ? section_chart_write(&input, file, err) : status;
}

static enum status draw_windows(const struct layers_answer *answer, const char *file, struct error *err) {
    struct teas_chart_input input;
    enum status status = layers_windows_of(answer, &input, err);
    return status == STATUS_OK ? teas_chart_write(&input, file, NULL, err) : status;
}

enum status draw_layers(const struct layers_answer *answer, struct error *err) {
    const char *section = option_value(answer->inv, "--section"), *chart = option_value(answer->inv, "--chart");
    enum status status = section ? draw_section(answer, section, err) : STATUS_OK;
    if (status == STATUS_OK && chart)
        status = draw_windows(answer, chart, err);
    return status;
}
