// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/common.h"

#include "base/language.h"
#include "physics/evaporation.h"
#include "physics/miscibility.h"

#include <math.h>

const char caution_words[] = "These are calculations from tables, not tests. Try the mildest first on a small hidden "
                             "spot of every passage, watch "
                             "the swab for colour, and let the surface dry between trials. Follow the safety data "
                             "sheets and local rules, and ask "
                             "qualified people where you are in doubt.";

enum status read_blend(struct invocation *inv, const char *notation, struct blend *ret, struct error *err) {
    char note[BLEND_NOTE_SIZE];
    enum status status = blend_parse(&inv->library, notation, ret, note, err);
    if (status == STATUS_OK && note[0])
        page_paragraph_f(inv->talk, 0, 2, "note: %s", note);
    return status;
}

enum status argument_blend(struct invocation *inv, size_t i, struct blend *ret, struct error *err) {
    return read_blend(inv, inv->arguments[i], ret, err);
}

const char *blend_notation(struct arena *arena, const struct blend *blend) {
    struct text words = {0};
    blend_write(blend, &words);
    const char *copy = words.failed ? NULL : arena_text(arena, text_bytes(&words));
    text_release(&words);
    return copy;
}

double bottle_grams(const struct library *lib, const struct bottle_ref *bottle, double volume_ml) {
    struct blend_part part = {.bottle = *bottle, .parts = 1};
    struct blend neat;
    if (blend_make(lib, &part, 1, &neat, NULL) != STATUS_OK)
        return NAN;
    double density = 0;
    for (size_t i = 0; i < neat.count; i++)
        density += neat.volume_fractions[i] *
                   (neat.components[i]->properties ? neat.components[i]->properties->density_20c.value : NAN);
    return density * volume_ml;
}

// Liquids that a model looks up by itself.
static size_t reference_liquids(const struct library *lib, const struct component *ret[2]) {
    const char *const ids[] = {evaporation_reference_id, cloud_water_id};
    size_t count = 0;
    for (size_t i = 0; i < 2; i++)
        if (library_component(lib, ids[i], &ret[count], NULL) == STATUS_OK)
            count++;
    return count;
}

enum status read_rows_of_blends(struct invocation *inv, const struct blend *const *blends, size_t count,
                                struct error *err) {
    const struct component **wanted = arena_new(inv->arena, count * BLEND_COMPONENTS_MAX + 2, sizeof *wanted);
    if (!wanted)
        return error_set(err, STATUS_MEMORY, "out of memory");
    size_t at = reference_liquids(&inv->library, wanted);
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; k < blends[i]->count; k++)
            wanted[at++] = blends[i]->components[k];
    return library_add(&inv->library, inv->command->row_tables, wanted, at, err);
}

const char *doubt_words(const struct provenance *from) {
    static const char *const words[] = {"unstated", "checked", "from memory", "estimate"};
    static const char *const users[] = {N_("yours"), N_("yours, checked"), N_("yours, from memory"),
                                        N_("yours, estimate")};
    return say(from->user ? users[from->sure] : words[from->sure]);
}

const char *doubt_mark(const struct provenance *from) {
    static const char *const marks[] = {"", "", "m", "e"};
    return from->user ? "y" : marks[from->sure];
}

void write_refs(struct text *out, const struct provenance *from) {
    for (size_t i = 0; i < from->ref_count; i++)
        text_printf(out, "%s%d", i ? ", " : "[", from->refs[i]);
    if (from->ref_count)
        text_add(out, "]");
}

void json_provenance(struct json *json, const char *key, const struct provenance *from) {
    json_object(json, key);
    json_text(json, "sure", sureness_word(from->sure));
    json_flag(json, "yours", from->user);
    json_list(json, "refs");
    for (size_t i = 0; i < from->ref_count; i++)
        json_integer(json, NULL, from->refs[i]);
    json_close_list(json);
    json_text(json, "note", from->note);
    json_close_object(json);
}

void json_blend(struct json *json, const struct blend *blend) {
    struct text notation = {0};
    blend_write(blend, &notation);
    json_text(json, "blend", text_bytes(&notation));
    text_release(&notation);
    json_object(json, "composition_volume_percent");
    for (size_t i = 0; i < blend->count; i++)
        json_number(json, blend->components[i]->id, 100 * blend->volume_fractions[i]);
    json_close_object(json);
}

void json_teas(struct json *json, const char *key, const struct teas *point) {
    json_object(json, key);
    json_number(json, "fd", point->fd);
    json_number(json, "fp", point->fp);
    json_number(json, "fh", point->fh);
    json_close_object(json);
}

void write_caution(struct text *out) {
    text_add(out, "\n");
    page_paragraph(out, 0, 0, caution_words);
}

void add_material_names(const struct material *const *materials, size_t count, struct text *out) {
    for (size_t i = 0; i < count; i++)
        text_printf(out, "%s%s", i ? ", " : "", materials[i]->id);
}
