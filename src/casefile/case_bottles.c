// SPDX-License-Identifier: GPL-3.0-or-later
// The bottles of the case as rows of the library, so that every blend notation may name them.
#include "base/language.h"
#include "casefile/case_parts.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double whole_percent = 100;

struct mixing {
    struct case_reading *reading;
    struct case_bottle *bottle;
    const struct yaml_node *node;
    size_t count;
    struct bottle_part parts[BLEND_COMPONENTS_MAX];
    size_t fixed; // the first so many parts are stated by the user: water, denaturants
};

static void wrong(const struct mixing *mixing, const char *key, const char *sentence) {
    faults_add(mixing->reading->faults, mixing->reading->file->path, case_key_node(mixing->node, key),
               "bottle '%s', %s: %s", mixing->bottle->id, key, say(sentence));
}

static struct bottle_part *part_of(struct mixing *mixing, const char *component) {
    for (size_t i = 0; i < mixing->count; i++)
        if (strcmp(mixing->parts[i].component, component) == 0)
            return &mixing->parts[i];
    return NULL;
}

static bool add_fixed(struct mixing *mixing, const char *key, const char *name, double percent) {
    const struct component *component = NULL;
    struct error err;
    if (library_component(mixing->reading->lib, name, &component, &err) != STATUS_OK) {
        wrong(mixing, key, err.text);
        return false;
    }
    if (part_of(mixing, component->id)) {
        wrong(mixing, key, "the same component is stated twice");
        return false;
    }
    if (mixing->count == BLEND_COMPONENTS_MAX) {
        wrong(mixing, key, "too many components");
        return false;
    }
    mixing->parts[mixing->count++] = (struct bottle_part){.component = component->id, .percent = percent};
    return true;
}

static bool add_stated(struct mixing *mixing) {
    const struct case_bottle *bottle = mixing->bottle;
    if (!isnan(bottle->water_percent) && !add_fixed(mixing, "water_percent", "water", bottle->water_percent))
        return false;
    const struct case_denaturant *denaturants = bottle->denaturants.items;
    for (size_t i = 0; i < bottle->denaturants.count; i++)
        if (!add_fixed(mixing, "denaturants", denaturants[i].component, denaturants[i].percent))
            return false;
    mixing->fixed = mixing->count;
    return true;
}

// What is stated holds for the whole bottle; the rest of the content shares what is left, in its own ratio.
static bool add_content(struct mixing *mixing, const struct blend *content) {
    double stated = 0;
    for (size_t i = 0; i < mixing->fixed; i++)
        stated += mixing->parts[i].percent;
    double others = 0;
    for (size_t i = 0; i < content->count; i++)
        if (!part_of(mixing, content->components[i]->id))
            others += content->volume_fractions[i];
    if (stated >= whole_percent || !(others > 0)) {
        wrong(mixing, isnan(mixing->bottle->water_percent) ? "denaturants" : "water_percent",
              "water and denaturants leave nothing for the content");
        return false;
    }
    for (size_t i = 0; i < content->count; i++) {
        const char *id = content->components[i]->id;
        if (part_of(mixing, id))
            continue;
        if (mixing->count == BLEND_COMPONENTS_MAX) {
            wrong(mixing, "content", "too many components");
            return false;
        }
        mixing->parts[mixing->count++] = (struct bottle_part){
            .component = id, .percent = (whole_percent - stated) * content->volume_fractions[i] / others};
    }
    return true;
}

// Shares of zero ("water_percent: 0": known to be dry) are no components.
static void drop_empty_parts(struct mixing *mixing) {
    size_t kept = 0;
    for (size_t i = 0; i < mixing->count; i++)
        if (mixing->parts[i].percent > 0)
            mixing->parts[kept++] = mixing->parts[i];
    mixing->count = kept;
}

static bool is_plain(const struct case_bottle *bottle, const struct blend *content) {
    bool dry = isnan(bottle->water_percent) || (bottle->water_percent == 0 && content->parts[0].bottle.component);
    return dry && bottle->denaturants.count == 0 && content->part_count == 1;
}

// The id of a table's row stands for that row and nothing else.
static bool id_is_free(const struct mixing *mixing) {
    struct bottle_ref taken;
    const char *id = mixing->bottle->id;
    if (library_bottle(mixing->reading->lib, id, &taken, NULL) != STATUS_OK || strcmp(bottle_ref_id(&taken), id) != 0)
        return true;
    char sentence[CASE_REMARK_BYTES];
    snprintf(
        sentence, sizeof sentence,
        say("the tables already have '%.60s' (%.80s); a bottle of other content, with water or a denaturant needs an "
            "id of its own, for example '%.60s-mine'"),
        id, bottle_ref_name(&taken), id);
    wrong(mixing, "id", sentence);
    return false;
}

static enum status write_row(const struct mixing *mixing, struct bottle *row) {
    const struct case_bottle *bottle = mixing->bottle;
    struct bottle_part *parts = arena_new(mixing->reading->arena, mixing->count, sizeof *parts);
    if (!parts)
        return error_set(mixing->reading->err, STATUS_MEMORY, "out of memory while reading the bottles");
    memcpy(parts, mixing->parts, mixing->count * sizeof *parts);
    *row = (struct bottle){.id = bottle->id,
                           .name = bottle->name ? bottle->name : bottle->id,
                           .composition = {.items = parts, .count = mixing->count},
                           .from = {.user = true, .note = bottle->note},
                           .user = true};
    return STATUS_OK;
}

// *ret_own tells whether a row was written; a plain bottle under a table's id is that table's row.
static enum status read_bottle(struct mixing *mixing, struct bottle *row, bool *ret_own) {
    struct case_bottle *bottle = mixing->bottle;
    struct blend content;
    struct error err = {0};
    const char *notation = bottle->content ? bottle->content : bottle->id;
    *ret_own = false;
    if (blend_parse(mixing->reading->lib, notation, &content, NULL, &err) != STATUS_OK) {
        char sentence[ERROR_TEXT_SIZE + 64];
        snprintf(sentence, sizeof sentence, "%s%s", err.text,
                 bottle->content ? "" : say("; say with 'content:' what is in it"));
        wrong(mixing, bottle->content ? "content" : "id", sentence);
        return STATUS_OK;
    }
    bool plain = is_plain(bottle, &content);
    if (plain && strcmp(bottle_ref_id(&content.parts[0].bottle), bottle->id) == 0) {
        bottle->ref = content.parts[0].bottle;
        return STATUS_OK;
    }
    if (!id_is_free(mixing) || !add_stated(mixing) || !add_content(mixing, &content))
        return STATUS_OK;
    drop_empty_parts(mixing);
    *ret_own = true;
    bottle->ref = (struct bottle_ref){.bottle = row};
    return write_row(mixing, row);
}

enum status case_read_bottles(struct case_reading *reading) {
    struct casefile *file = reading->file;
    struct library *view = &file->library;
    struct case_bottle *bottles = file->bottles.items;
    struct bottle *rows = arena_new(reading->arena, file->bottles.count + view->bottle_count, sizeof *rows);
    if (!rows)
        return error_set(reading->err, STATUS_MEMORY, "out of memory while reading the bottles");
    size_t count = 0;
    for (size_t i = 0; i < file->bottles.count; i++) {
        struct mixing mixing = {.reading = reading, .bottle = &bottles[i], .node = case_entry_node(file, "bottles", i)};
        bool own = false;
        enum status status = read_bottle(&mixing, &rows[count], &own);
        if (status != STATUS_OK)
            return status;
        count += own;
    }
    if (view->bottle_count)
        memcpy(rows + count, view->bottles, view->bottle_count * sizeof *rows);
    view->bottles = rows;
    view->bottle_count += count;
    return STATUS_OK;
}
