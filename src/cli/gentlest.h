// SPDX-License-Identifier: GPL-3.0-or-later
// The two views of `gentlest`, each with its writers.
#ifndef MILDSOLVE_CLI_GENTLEST_H
#define MILDSOLVE_CLI_GENTLEST_H

#include "cli/first_test.h"
#include "cli/goal_options.h"
#include "cli/sensitive.h"
#include "selection/ranking.h"

// By film. Everything between the options and the answer.
struct film_answer {
    struct invocation *inv;
    struct goal goal;
    struct filter_report filters;
    struct unifac_table groups;
    struct ranking ranking;
    struct first_test first_test;
    struct sensitive_passages sensitive;
    double temp_c;
    double least_probability;
    double flash_least_c; // NAN = no filter
    int residue_most;     // enum retention_word
    int show;
    int threads;
    double film_age_years; // of the paint to spare; NAN = not given
    double pigment;        // volume share in the paint to spare; NAN = as in the table
    int seed;              // of the samples
    int explain;           // number of a row; 0 = the list
    int effort;            // enum doubt_effort
    int prefer;            // enum preference
};

enum status gentlest_by_film(struct invocation *inv, struct error *err);

// Everything but the writing, for other commands; *answer zeroed before. STATUS_INTERRUPTED with the best so far. To be
// released whatever the outcome.
enum status film_answer_make(struct invocation *inv, struct film_answer *answer, struct error *err);
void film_answer_release(struct film_answer *answer);

void write_film_text(const struct film_answer *answer, struct text *out);
void write_film_json(const struct film_answer *answer, struct text *out);

// Both views: "blends of up to 3 of 20 bottles".
enum { SHELF_WORDS = 80 };
const char *shelf_words(const struct goal *goal, char words[SHELF_WORDS]);

// Both views: what the filters took off the shelf. In JSON the objects of the list that is open.
void write_filter_counts(const struct filter_report *filters, struct text *out);
void json_filter_counts(const struct filter_report *filters, struct json *json);
void json_composition(const struct goal *goal, const struct composition *c, struct json *json, const char *key);

// Does the row's blend touch a passage; `weakest`: does the weakest blend that the row names.
bool row_touches(const struct ranked_row *row, const struct sensitivity *sensitivity, bool weakest);

// One sentence: why the row stands there and what would make it milder.
void add_film_reason(const struct film_answer *answer, const struct ranked_row *row, struct text *out);

// Every number of row `number` (from 1) with its equation and sources. STATUS_RANGE when there is no such row.
enum status write_film_explanation(const struct film_answer *answer, int number, struct text *out, struct error *err);

#endif
