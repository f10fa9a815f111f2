// SPDX-License-Identifier: GPL-3.0-or-later
// `learn` with its writers.
#ifndef MILDSOLVE_CLI_LEARN_H
#define MILDSOLVE_CLI_LEARN_H

#include "cli/common.h"
#include "selection/belief_case.h"

enum { LEARN_VIEWS = 2, LEARN_BLENDS_MAX = 24, LEARN_WARNINGS_MAX = 2 * BELIEF_TESTS_MAX };

// What one view has learnt.
struct learn_view {
    bool known;
    struct error why; // when not
    struct belief_case learnt;
    struct belief_diagnostics diagnostics[2 * GOAL_MATERIALS_MAX];
    struct belief_conflict conflicts[2 * GOAL_MATERIALS_MAX];
    struct belief_liquid *liquids[LEARN_BLENDS_MAX]; // NULL = the view does not cover it
};

// A blend to look ahead with: each that was tested, the last ones first, each once.
struct learn_blend {
    const struct case_test *test; // the last with it
    const char *notation;
};

enum learn_warning_kind { LEARN_AGAINST_MODEL, LEARN_ODD_TEST, LEARN_OTHER_VIEW, LEARN_POOR_SAMPLE };
extern const char *const learn_warning_words[];

struct learn_warning {
    enum learn_warning_kind kind;
    enum belief_view view;
    size_t material;              // of the plan
    const struct case_test *test; // of an odd test
    double value;                 // p value, surprise, ratio of the evidence, R-hat
};

struct learning {
    struct invocation *inv;
    const struct casefile *file;
    struct unifac_table groups;
    double temp_c;
    int particles, seed;
    struct learn_view views[LEARN_VIEWS]; // enum belief_view
    struct learn_blend blends[LEARN_BLENDS_MAX];
    size_t blend_count;
    struct learn_warning warnings[LEARN_WARNINGS_MAX];
    size_t warning_count;
};

// A test is odd when the others expect a word as far out as its own less often than this.
#define LEARN_ODD 0.02
// The other view explains the tests this many times better.
#define LEARN_OTHER_RATIO 10.0
// Independent runs disagree, or too few draws are effective.
#define LEARN_R_HAT 1.1
#define LEARN_EFFECTIVE 100

// Everything but the writing, from the case of the call; *learning zeroed before, and to be released whatever the
// outcome.
enum status learning_make(struct invocation *inv, struct learning *learning, struct error *err);
void learning_release(struct learning *learning);

// A warning as one sentence or two.
void learn_add_warning(const struct learning *learning, const struct learn_warning *warning, struct text *out);

void write_learn_text(const struct learning *learning, struct text *out);
void write_learn_json(const struct learning *learning, struct text *out);

// The forecast of blend `blend` in a passage, in the words of case and view; false when the view has none.
bool learn_forecast(const struct learning *learning, enum belief_view view, size_t blend, size_t passage,
                    struct belief_forecast *ret);

// Value of a strength parameter as printed: the radius in MPa^0.5 by RED, the shift of chi by film.
double learn_strength(enum belief_view view, double parameter);

// The Teas chart with the tests and the areas of doubt, --chart.
enum status draw_learn(const struct learning *learning, const char *path, struct error *err);

// The classical fit of a sphere to a list, --fit.
enum status learn_by_fit(struct invocation *inv, struct error *err);

#endif
