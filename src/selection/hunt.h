// SPDX-License-Identifier: GPL-3.0-or-later
// The search by distance under way: what pairing.c plans and heads.c carries out.
#ifndef MILDSOLVE_SELECTION_HUNT_H
#define MILDSOLVE_SELECTION_HUNT_H

#include "selection/pairing.h"
#include "selection/sieve.h"

#include <time.h>

struct progress {
    double before; // heads of the rounds that are over
    double here;   // heads of this one
    double all;
    unsigned units; // bottles that begin a head, in this round
    atomic_uint units_done;
    struct timespec last;
};

struct hunt {
    const struct pairing *pairing;
    const struct goal *goal;
    struct space space;
    struct best_list *best;
    struct tails tails;
    struct sieve sieve;
    struct progress progress;
    double evaluated;
};

// Which of the heads a round takes.
enum heads { HEADS_ALL, HEADS_SAMPLE, HEADS_REST };

// One size of blends and one sum of the head's shares.
struct round {
    struct hunt *hunt;
    int size; // bottles of a blend
    int head_sum;
    int share_most; // of a bottle in the head
    enum heads heads;
    struct region region;
    double lo[3], hi[3]; // where a head must lie
    int pieces;
    struct piece *piece;
};

struct piece {
    struct round *round;
    struct best_list best;
    struct region region; // tightened as the list fills
    double evaluated;
    int bottles[GOAL_COMPONENTS_MAX]; // the head being looked up
    int steps[GOAL_COMPONENTS_MAX];
};

enum { HEADS_SAMPLED = 16 }; // one in so many heads is in the sample

// Scores a composition, of bottles as the space numbers them, and offers it to the piece's list.
void hunt_score(struct piece *piece, const int *bottles, const int *steps, int count);

// A crew_work on a struct round: walks the heads of one piece and scores what they make with the tails that they find.
void hunt_heads(void *context, int number, bool leader);

#endif
