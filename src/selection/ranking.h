// SPDX-License-Identifier: GPL-3.0-or-later
// The list by film: search, doubt, ties, filters, folded to a few rows of different kinds, each with the figures that
// are kept apart (paint, residue, fire, phases) and never merged into one score.
#ifndef MILDSOLVE_SELECTION_RANKING_H
#define MILDSOLVE_SELECTION_RANKING_H

#include "physics/flash.h"
#include "physics/harm.h"
#include "physics/miscibility.h"
#include "selection/doubt.h"
#include "selection/film_search.h"
#include "selection/published.h"
#include "selection/split_films.h"

// What comes first when not the paint does: the figures stay apart, only the order changes.
enum preference { PREFER_PAINT, PREFER_RESIDUE, PREFER_HEALTH, PREFER_FIRE, PREFER_WEAK };
extern const char *const preference_words[]; // paint residue health fire weak

// How much the order is doubted: not at all, or by so many samples of every assumption.
enum doubt_effort { DOUBT_EFFORT_NONE, DOUBT_EFFORT_QUICK, DOUBT_EFFORT_FULL };
enum { DOUBT_QUICK_SAMPLES = 64, DOUBT_FULL_SAMPLES = 256, RANKING_SHOWN_MAX = 64, RANKING_CANDIDATES = 480 };

// Where the stages of a ranking end, for its progress: about as long as they take.
#define RANKING_STAGE_NOMINAL 0.15
#define RANKING_STAGE_CAUTIOUS 0.3
#define RANKING_STAGE_ENDS 0.7

struct ranking_request {
    const struct goal *goal;
    const struct library
        *lib; // components, bottles, materials, properties, hazards, groups, miscibility, uncertainties
    const struct unifac_table *table;
    double temp_k;
    double flash_least_c;             // of the blend; NAN = any
    enum retention_word residue_most; // RETENTION_VERY_LONG = any
    enum doubt_effort effort;
    enum preference prefer;
    unsigned long seed;       // of the samples
    double least_probability; // that a blend works
    size_t show;              // 1 to RANKING_SHOWN_MAX
    bool fold;                // sets that bring nothing new share a row
    int threads;
    struct watch watch; // zero = neither progress nor cancelling
};

// The weakest blend of the same strong liquids as a row's that works with the probability asked for; `blend.count` 0 =
// none weaker than the row itself.
struct weakest_blend {
    struct composition composition;
    struct blend blend;
    enum phase_verdict phase;
    struct doubt_row doubt;
    double swelling;  // nominal
    double published; // least swelling by a published class, 0 = none
    double flash_c;   // NAN = not known
};

struct ranked_row {
    struct film_row row; // composition, nominal swelling, span of the set
    struct blend blend;
    bool doubted; // `doubt` holds figures
    struct doubt_row doubt;
    struct published published; // of the spared material with the highest class; outranks a milder figure
    size_t tie;                 // rows with the same number cannot be told apart; 0 = not doubted
    struct weakest_blend weakest;
    bool apart; // holds a liquid beyond the model, allowed by name: not ranked on swelling
    bool edge;  // works, but not by much: slow, more rolling, longer contact
    struct phase_judgement phase;
    struct split_films split; // where the model has two liquids although the row is listed (may separate)
    struct flash flash;
    enum ghs_flammable flammable;
    struct retention retention;
    int health;       // health_burden
    size_t beaten_by; // number (from 1) of a row that is at least as good in every respect and better in one; 0 = none
    size_t similar;   // sets of bottles folded into this row
    struct composition like[3];
    size_t like_count;
};

enum { RANKING_DOUBTFUL_MOST = 3 };
#define RANKING_DOUBTFUL 0.4 // ours: with the error of 64 samples still about even

struct ranking {
    struct ranked_row *rows;
    size_t count;
    struct film_search_result search; // nominal; its rows are those of the search
    size_t candidates;                // blends that were doubted
    size_t too_unlikely;              // of those, below the probability asked for
    size_t too_flammable;             // flash point below the one asked for
    size_t too_slow;                  // residue longer than asked for
    size_t split;                     // verdict "two", left out
    // Weak blends of different strong bottles that fall short of the probability asked for, yet not of
    // RANKING_DOUBTFUL: a test may well find that they work.
    struct composition doubtful[RANKING_DOUBTFUL_MOST];
    double doubtful_p[RANKING_DOUBTFUL_MOST];
    size_t doubtful_count;
    double best_probability; // that any candidate works, and which
    struct composition likeliest;
    size_t samples; // 0 = no doubt asked for
    unsigned long seed;
    double sampling_error;
    // Of DOUBT_EFFORT_FULL: searches at the ends of the assumptions, their grid and the bottles in a blend; 0 = none.
    size_t ends_cases;
    double ends_step_percent;
    int ends_components;
    bool complete;
};

// Order: what is preferred, if not the paint (word of the residue, step of health, flash point below 23 degC, strong
// share); then class of the median swelling of what is to be spared (film_class), then fewer strong bottles, then the
// smaller share of strong liquids. Rows of one class, or whose order is wrong in more than one of five samples, are
// ties. With `fold`, a set of bottles whose strong bottles include all those of a row above brings nothing new and is
// counted there: so the list names each combination of strong liquids once, with the weak hydrocarbon that suits best.
// STATUS_INTERRUPTED with the best so far.
enum status ranking_make(const struct ranking_request *request, struct ranking *ret, struct error *err);
// What the row is ranked by: the median of the samples or the nominal swelling, never below the published class.
double ranked_swelling(const struct ranked_row *row);
double ranked_weakest_swelling(const struct ranked_row *row);

void ranking_release(struct ranking *ranking); // NULL-safe

#endif
