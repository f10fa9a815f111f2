// SPDX-License-Identifier: GPL-3.0-or-later
// A blend: parts by volume of bottles; physics always sees the components inside.
#ifndef MILDSOLVE_PHYSICS_BLEND_H
#define MILDSOLVE_PHYSICS_BLEND_H

#include "base/error.h"
#include "data/library.h"

enum { BLEND_BOTTLES_MAX = 12, BLEND_COMPONENTS_MAX = BOTTLE_PARTS_MAX };

struct blend_part {
    struct bottle_ref bottle;
    double parts; // as the user gave them, > 0
};

struct blend {
    size_t part_count;
    struct blend_part parts[BLEND_BOTTLES_MAX];
    size_t count; // components, each once, in the order of first appearance
    const struct component *components[BLEND_COMPONENTS_MAX];
    double volume_fractions[BLEND_COMPONENTS_MAX]; // before mixing; sum 1
};

// Reads blend notation: "propan-2-ol 30 + isooctane 70"; parts by volume, any positive numbers, `%` and `mL` after
// a number accepted; a lone name is the neat bottle. Refused with the right spelling: decimal comma, "a:b 1:2",
// empty or negative parts, the same bottle twice. `ret_note` (may be NULL, size NOTE_SIZE) gets a remark such as
// "'ethanol 96' is read as 96 parts of neat ethanol; the bottle of 96 % ethanol is 'ethanol-96'", else "".
enum { BLEND_NOTE_SIZE = 256 };
enum status blend_parse(const struct library *lib, const char *notation, struct blend *ret,
                        char ret_note[BLEND_NOTE_SIZE], struct error *err);

// From bottles and parts.
enum status blend_make(const struct library *lib, const struct blend_part *parts, size_t count, struct blend *ret,
                       struct error *err);

double blend_sum_of_parts(const struct blend *blend);

// The notation of a blend in percent: "propan-2-ol 30 + isooctane 70". Where percentages would have more than two
// decimals the parts stay as they were given: "toluene 2 + acetone 1".
void blend_write(const struct blend *blend, struct text *out);

// Mole fractions from volume fractions and the 25 degC molar volumes; STATUS_NO_DATA names the component without one.
enum status blend_mole_fractions(const struct blend *blend, double ret_x[BLEND_COMPONENTS_MAX], struct error *err);

// Mass fractions from volume fractions and the 20 degC densities; STATUS_NO_DATA as above.
enum status blend_mass_fractions(const struct blend *blend, double ret_w[BLEND_COMPONENTS_MAX], struct error *err);

// A bottle's composition as components and volume fractions (a component is itself). Returns the count.
size_t bottle_composition(const struct library *lib, const struct bottle_ref *bottle,
                          const struct component *ret_components[BLEND_COMPONENTS_MAX],
                          double ret_fractions[BLEND_COMPONENTS_MAX]);

// A list of names in which a comma separates only where the text between commas is a known name and no known name
// spans it ("2,2,4-trimethylpentane"). Appends bottles to ret (capacity `most`).
enum status bottle_list_parse(const struct library *lib, const char *list, struct bottle_ref *ret, size_t most,
                              size_t *ret_count, struct error *err);
enum status material_list_parse(const struct library *lib, const char *list, const struct material **ret, size_t most,
                                size_t *ret_count, struct error *err);

#endif
