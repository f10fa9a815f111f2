// SPDX-License-Identifier: GPL-3.0-or-later
// A stack of layers as planned, from the bottom up: what stands already, and what is to be put on it, each from a
// carrier, by brush or spray, with a time of drying before the next. Written as
//   "[ROLE: ]RESIN [PERCENT] [in CARRIER][, brush | spray][, NUMBER d | h | weeks][, done]"
// PERCENT is grams of resin in 100 mL; CARRIER is blend notation. A layer without a carrier, or one that is done,
// stands already; with a carrier it may still hold some of it.
#ifndef MILDSOLVE_SELECTION_STACK_H
#define MILDSOLVE_SELECTION_STACK_H

#include "casefile/casefile.h"
#include "physics/blend.h"

enum { STACK_LAYERS_MAX = 8, STACKS_MAX = 8 };

struct stack_layer {
    int role;                        // enum planned_role
    const struct material *material; // as it is when it is put on
    bool planned;                    // to be put on
    struct blend carrier;            // count 0 = none given
    const char *carrier_words;       // notation; NULL = none given
    double percent_w_v;              // g in 100 mL; NAN = not stated
    int method;                      // enum coat_method
    double drying_days;              // before the next layer; NAN = not stated
    const char *id;                  // of the case file, or NULL
};

struct stack {
    const char *option; // name of the variant, NULL = the only one
    struct stack_layer layers[STACK_LAYERS_MAX];
    size_t count;
};

// The weakest solution that is called one, and the strongest that still flows; common practice, bounds wide of it.
#define STACK_PERCENT_LEAST 0.1
#define STACK_PERCENT_MOST 80.0

// Reads one layer; texts live in `arena`. STATUS_INPUT, STATUS_UNKNOWN_NAME, STATUS_RANGE. ret_note as blend_parse.
enum status stack_layer_parse(struct arena *arena, const struct library *lib, const char *notation,
                              struct stack_layer *ret, char ret_note[BLEND_NOTE_SIZE], struct error *err);

// The same from a planned layer of a case, whose names were checked.
enum status stack_layer_of_case(const struct library *lib, const struct case_planned *planned, struct stack_layer *ret,
                                struct error *err);

// Is there anything to judge? STATUS_INPUT: no layer, none that is planned, or one that stands already above one that
// is planned.
enum status stack_check(const struct stack *stack, struct error *err);

// Fills and retouching do; everything else covers the whole surface.
bool layer_covers_spots_only(const struct stack_layer *layer);

// Does layer `upper` touch layer `lower`, that is, lie on it, or have nothing between that covers the whole surface?
bool stack_touches(const struct stack *stack, size_t upper, size_t lower);

// The row of the table of ageing; NULL: nothing on its ageing was read.
const struct ageing_state *ageing_state_of(const struct library *lib, const struct material *material);

// What stands for a material later: what its row names, NULL when that has no figures; without a row the material
// itself.
const struct material *material_when_aged(const struct library *lib, const struct material *material);

// The material whose region is used: itself, or its careful stand-in, or NULL.
const struct material *material_with_region(const struct library *lib, const struct material *material);

// Two materials that dissolve alike: the same one, or one the aged state of the other.
bool materials_alike(const struct library *lib, const struct material *a, const struct material *b);

#endif
