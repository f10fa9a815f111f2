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

// From --layer and --instead, or the layers planned in the case.
enum status read_stacks(struct layers_answer *answer, struct error *err);

const struct layer_pair *pair_of(const struct stack_answer *answer, size_t upper, size_t lower); // NULL

void write_pairs(const struct stack_answer *answer, struct text *out);
void write_removals(const struct layers_answer *answer, const struct stack_answer *stack, struct text *out);
void write_better(const struct stack_answer *answer, struct text *out);
void write_layers_text(const struct layers_answer *answer, struct text *out);
void write_layers_json(const struct layers_answer *answer, struct text *out);

#endif
