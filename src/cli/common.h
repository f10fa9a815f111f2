// SPDX-License-Identifier: GPL-3.0-or-later
// What several commands share: reading the blend they are asked about, marks of doubt, the closing caution.
#ifndef MILDSOLVE_CLI_COMMON_H
#define MILDSOLVE_CLI_COMMON_H

#include "cli/command.h"
#include "physics/blend.h"
#include "physics/teas.h"
#include "present/json.h"
#include "present/page.h"

// Reads a blend; remarks go to the talk.
enum status read_blend(struct invocation *inv, const char *notation, struct blend *ret, struct error *err);

// Argument `i` as a blend.
enum status argument_blend(struct invocation *inv, size_t i, struct blend *ret, struct error *err);

// "a, b" by their ids.
void add_material_names(const struct material *const *materials, size_t count, struct text *out);

// The blend as it is written, in the arena; NULL when memory ran out.
const char *blend_notation(struct arena *arena, const struct blend *blend);

// Mass of a volume out of a bottle at 20 degC, g; NAN when a density is not known.
double bottle_grams(const struct library *lib, const struct bottle_ref *bottle, double volume_ml);

// Reads the command's row_tables: the rows of the components of the blends, and of the reference liquids that models
// compare with. To be called as soon as the blends are known, before anything is asked of a model.
enum status read_rows_of_blends(struct invocation *inv, const struct blend *const *blends, size_t count,
                                struct error *err);

// "checked", "from memory", "estimate", with ", yours" when the value is the user's.
const char *doubt_words(const struct provenance *from);

// One letter for a narrow column: nothing when checked, "m" from memory, "e" estimate, "y" yours.
const char *doubt_mark(const struct provenance *from);

// Numbers of the sources: "[3, 7]"; empty when there are none.
void write_refs(struct text *out, const struct provenance *from);

// JSON objects with "sure", "refs", "note", "yours".
void json_provenance(struct json *json, const char *key, const struct provenance *from);

// The blend: "blend" (notation) and "composition" (component -> volume percent).
void json_blend(struct json *json, const struct blend *blend);

// A point of the triangle: "fd", "fp", "fh" in percent.
void json_teas(struct json *json, const char *key, const struct teas *point);

// The caution that ends every answer about what a blend does.
void write_caution(struct text *out);
extern const char caution_words[];

#endif
