// SPDX-License-Identifier: GPL-3.0-or-later
// Inside of the command layers: what was asked, what was found, who writes it.
#ifndef MILDSOLVE_CLI_LAYERS_H
#define MILDSOLVE_CLI_LAYERS_H

#include "cli/goal_options.h"
#include "selection/layer_better.h"
#include "selection/layer_pair.h"
#include "selection/layer_removal.h"

enum { PAIRS_MAX = STACK_LAYERS_MAX * (STACK_LAYERS_MAX - 1) / 2, REMOVALS_MAX = 2 * STACK_LAYERS_MAX };

// One stack and everything that was found about it.
struct stack_answer {
    struct stack stack;
    struct planned_coat *coats[STACK_LAYERS_MAX]; // NULL where the layer stands already
    struct layer_pair pairs[PAIRS_MAX];           // lower ones first, per upper layer
    size_t pair_count;
    struct layer_removal removals[REMOVALS_MAX];
    size_t removal_count;
    enum touch worst_of[STACK_LAYERS_MAX]; // of the pairs that touch and hold the layer
    bool better_sought;
    struct better_list better;
    enum touch worst; // of the pairs that touch
};

struct layers_answer {
    struct invocation *inv;
    struct stack_answer *stacks;
    size_t stack_count;
    struct goal shelf; // bottles and grid
    struct filter_report filters;
    struct unifac_table groups;
    double temp_c;
    double least_probability;
    int show, effort, threads;
    bool later; // removal later is searched
};

// Everything but drawing and writing, from the options of the call; *ret zeroed before, and to be released whatever the
// outcome. STATUS_USAGE, STATUS_INPUT, STATUS_MEMORY; STATUS_INTERRUPTED with what was found so far.
enum status layers_answer_make(struct invocation *inv, struct layers_answer *ret, struct error *err);
void layers_answer_release(struct layers_answer *answer);
bool layers_any_holds(const struct layers_answer *answer); // one stack at least lifts nothing

// From --layer and --instead, or the layers planned in the case.
enum status read_stacks(struct layers_answer *answer, struct error *err);

const struct layer_pair *pair_of(const struct stack_answer *answer, size_t upper, size_t lower); // NULL

// What the command and the report say, each sentence whole and in the chosen language.
enum { LAYER_SENTENCES_MAX = 64 };
struct layer_sentences {
    struct arena *arena; // where they live
    const char *items[LAYER_SENTENCES_MAX];
    size_t count;
    bool failed; // out of memory
};
void layers_tell(struct layer_sentences *told, const char *sentence); // NULL: memory ran out
void layers_tell_pair(const struct stack_answer *answer, const struct layer_pair *pair, struct layer_sentences *told);
void layers_tell_removal(const struct layers_answer *answer, const struct stack_answer *stack,
                         const struct layer_removal *removal, bool blends, struct layer_sentences *told);
void layers_tell_better(const struct stack_answer *answer, const struct better *better, struct layer_sentences *told);
const char *layers_conclusion(const struct stack_answer *answer, size_t upper, struct arena *arena); // NULL: no memory

bool layers_pair_told(const struct layer_pair *pair); // is it worth its reasons
// A pair of the same upper layer, further up, on the same material with the same answer; NULL = none.
const struct layer_pair *layers_told_before(const struct stack_answer *answer, const struct layer_pair *pair);
// Fresh and aged have the same answer: it is said once.
bool layers_same_search(const struct layer_removal *fresh, const struct layer_removal *aged);

void layers_write_told(const struct layer_sentences *told, size_t rest, struct text *out);
void write_pairs(const struct stack_answer *answer, struct arena *arena, struct text *out);
void write_removals(const struct layers_answer *answer, const struct stack_answer *stack, struct text *out);
void write_better(const struct stack_answer *answer, struct arena *arena, struct text *out);
void write_layers_text(const struct layers_answer *answer, struct text *out);
void write_layers_json(const struct layers_answer *answer, struct text *out);

#endif
