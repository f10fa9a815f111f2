// SPDX-License-Identifier: GPL-3.0-or-later
// `exposure`: everything between the options and the answer, with its readers and writers.
#ifndef MILDSOLVE_CLI_ASSESSING_H
#define MILDSOLVE_CLI_ASSESSING_H

#include "cli/common.h"
#include "physics/day_task.h"
#include "physics/exposure_help.h"

// How the rate of evaporation is chosen (--rate).
enum rate { RATE_ALL, RATE_MODEL };
extern const char *const rate_words[]; // all model NULL

// One reading of the day: what is in the air, and every set's judgement of it.
struct assessed_day {
    struct exposure_plan plan;
    struct exposure_air air;
    struct exposure_judgements all;
    const struct exposure_judgement *judged; // the set asked for, or the strictest
};

struct assessing {
    struct invocation *inv;
    // Tasks as written; with --use and --hours one, whose times are not known.
    bool timed; // the tasks have times of the clock
    struct day_task tasks[AIR_TASKS_MAX];
    struct blend blends[AIR_TASKS_MAX]; // of the tasks
    size_t task_count;
    double first_h; // of the clock, at which the first task begins; NAN unless timed
    enum rate rate;
    double wet_cm2;                                        // --wet, NAN = not given
    double most_mg_h[AIR_TASKS_MAX][BLEND_COMPONENTS_MAX]; // by the model
    const char *capture_measured;                          // how, NULL = no extraction counts
    const struct authority *authority;                     // the set asked for, NULL with `strictest`
    bool strictest;
    struct assessed_day days[2];      // by rate; the second only with --rate model
    const struct assessed_day *day;   // the one that decides: the larger of the two
    const struct assessed_day *other; // NULL unless --rate model
    enum exposure_verdict verdict;
    struct {
        enum exposure_need need;
        double value; // air changes per hour, hours
    } air_changes, pause, hours;
};

// Everything but the writing; *ret zeroed before, and to be released whatever the outcome.
enum status assessing_make(struct invocation *inv, struct assessing *ret, struct error *err);
void assessing_release(struct assessing *assessing);

// --- reading (assessing_plan.c) ---

// Tasks, room, limits: what is wrong comes before what is missing. Fills days[RATE_ALL].plan and, with --rate model,
// days[RATE_MODEL].plan.
enum status read_day(struct assessing *assessing, struct error *err);

// --- what writers ask ---

// The set that decides how much may be used: with `strictest` the one whose worst index is largest.
const struct exposure_judgement *deciding(const struct assessing *assessing, const struct assessed_day *day);

// mL/h of the first task up to which the plan stays within, all tasks changed alike; NAN when a component has no limit:
// what is left out could be what decides. INFINITY when nothing needs a limit.
double allowed_ml_h(const struct assessing *assessing);

// Is this the first task with its blend?
bool first_with_blend(const struct assessing *assessing, size_t task);

// "9:05"; minutes rounded.
enum { CLOCK_BYTES = 16 };
const char *clock_write(double hour, char buffer[CLOCK_BYTES]);

// The question in words, and the set it is judged by.
void add_question(const struct assessing *assessing, struct text *out);
void add_set(const struct assessing *assessing, struct text *out);

// "8 h", "ceiling", "ceiling, 10 min".
const char *limit_kind_say(const struct limit_value *limit, char words[CELL_BYTES]);

// --- the people who work there (assessing_people.c) ---

enum people_judgement {
    PEOPLE_NOT_ASKED,       // the case announces nobody (case_announces_people)
    PEOPLE_NOTHING_AGAINST, // nothing in the blends is classified against them, which clears nothing
    PEOPLE_NOT_JUDGED,      // the hazards of a component are not known
    PEOPLE_EXCLUDED         // a component is classified against one of them
};
enum people_judgement judge_people(const struct assessing *assessing);

// The answer as a whole. What is not for the people comes before all else, since no other amount mends it; then what is
// over. Not judged: a component without a limit, or people and a component of unknown hazards.
enum exposure_answer { ANSWER_WITHIN, ANSWER_OVER, ANSWER_NOT_JUDGED, ANSWER_NOT_FOR_PEOPLE };
enum exposure_answer assessing_answer(const struct assessing *assessing);

// ANSWER_NOT_FOR_PEOPLE or ANSWER_NOT_JUDGED where the limits by themselves are kept; in English.
const char *answer_for_people_words(enum exposure_answer answer);

// Who works there, by the case, against what is in the blends, and whose hazards are not known at all (told without a
// case, too): a sentence for each, else nothing.
void add_people_warning(const struct assessing *assessing, struct text *out);

struct exposure_flag_name {
    unsigned flag;
    const char *key, *words;
};
enum { EXPOSURE_FLAGS = 5 };
extern const struct exposure_flag_name exposure_flag_names[EXPOSURE_FLAGS];

// --- writing ---

void write_exposure_text(const struct assessing *assessing, struct text *out);   // assessing_text.c
void write_exposure_advice(const struct assessing *assessing, struct text *out); // assessing_advice.c
void write_exposure_json(const struct assessing *assessing, struct text *out);   // assessing_json.c
void json_exposure_advice(const struct assessing *assessing, struct json *json); // assessing_advice.c

#endif
