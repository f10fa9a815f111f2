// SPDX-License-Identifier: GPL-3.0-or-later
// What a person breathes over a day of work with solvents, judged against the limits of one authority at a time.
//
// Three steps: exposure_air (what is in the air, no limits), exposure_judge (one authority's set), exposure_judge_all
// (every set, and which is the strictest); exposure_help.h asks what would help. All that is used evaporates during its
// task, unless the task says how fast a wet surface gives it off; an extraction arm gets no credit.
#ifndef MILDSOLVE_PHYSICS_EXPOSURE_H
#define MILDSOLVE_PHYSICS_EXPOSURE_H

#include "physics/blend.h"
#include "physics/limits.h"
#include "physics/room.h"
#include "physics/vapour_pressure.h"

// Where the alarm of a gas detector is usually set, share of the lower flammable limit (29 CFR 1910.146: above it an
// atmosphere is hazardous).
#define FLAMMABLE_ALARM_SHARE 0.1

// --- the plan ---

struct exposure_task {
    double start_h; // from the beginning of the working day
    double length_h;
    double use_ml_h; // of the blend, > 0
    const struct blend *blend;
    // Most that the wet surface gives off of each of the blend's components, mg/h (release.h); what is slower than the
    // use goes on evaporating after the task until all of it is gone. NULL, or NAN for one: all evaporates during the
    // task.
    const double *most_mg_h;
};

struct exposure_plan {
    struct room room;
    double temp_c;   // of the room
    double shift_h;  // presence; 0 = the longer of 8 h and the end of the last task
    bool leaves;     // the person is in the room only while a task runs; else stays to the end of the shift
    bool long_shift; // reduce 8-hour limits by Brief and Scala when the shift is over 8 h
    double share;    // of every limit that may be used up, > 0, for the answers "how much" and "how much air"
    double captured; // share of the vapour that a measured extraction at the source takes, >= 0 and < 1
    size_t task_count;
    struct exposure_task tasks[AIR_TASKS_MAX];
};

// 20 degC, stays to the end of 8 h, the whole of every limit, no tasks yet.
struct exposure_plan exposure_plan_usual(struct room room);

// --- the air ---

struct exposure_component {
    const struct component *component;
    bool unweighed;          // no density is known, so that nothing below is: all NAN
    double molar_mass_g_mol; // NAN = not known: no ppm, no saturation
    double generation_mg_h;  // highest of the day
    double released_mg;      // over the day
    struct air_curve curve;  // for charts and windows
    // One well-mixed room.
    double room_mg_m3, room_ppm; // highest reached, which for one task is its end; ppm at the room's temperature
    double room_steady_mg_m3;    // what it heads for; INFINITY in a sealed room
    double room_8h_stays_mg_m3;  // dose / 8 h
    double room_8h_leaves_mg_m3;
    double room_8h_mg_m3; // the one of the two that the plan says
    // The person: near field while a task runs, the rest of the room afterwards.
    double near_mg_m3, near_ppm; // highest reached
    double near_15min_mg_m3;     // highest mean over 15 min
    double twa_8h_stays_mg_m3;
    double twa_8h_leaves_mg_m3;
    double twa_8h_mg_m3;
    // What air can hold at all: a higher figure above cannot be reached (the liquid is then not all gone by the end
    // of its task). The figures above are not cut to it.
    double p_kpa; // NAN when there is no vapour pressure
    enum pressure_source p_source;
    double saturated_mg_m3;
    bool above_saturation;
};

struct exposure_air {
    double shift_h;           // with the plan's 0 resolved
    bool rises_without_bound; // nothing removes the vapour: sealed room without loss
    size_t count;
    struct exposure_component components[BLEND_COMPONENTS_MAX];
    // Highest share of the lower flammable limit (Le Chatelier); 0.1 is the usual alarm. A component whose limit is not
    // known is not in the sum and is counted in flammable_unknown (water never).
    double flammable_share_room, flammable_share_near;
    size_t flammable_unknown;
};

// Components of all tasks, each once. STATUS_RANGE for a figure of the plan that is out of range. *ret is large (about
// 100 kB).
enum status exposure_air(const struct exposure_plan *plan, struct exposure_air *ret, struct error *err);

// --- one authority's judgement ---

enum { EXPOSURE_CHECKS_MAX = 2 + LIMIT_CEILINGS_MAX, EXPOSURE_AUTHORITIES_MAX = 12 };

// One limit against what is reached.
struct exposure_check {
    struct limit_value limit;
    double allowed_mg_m3; // limit.mg_m3, reduced for a long shift when the plan asks for it
    double near_mg_m3;    // the person: mean over the limit's time
    double room_mg_m3;    // the same in the well-mixed room
    double fraction;      // near / allowed
    double room_fraction;
    double window_start_h; // where the worst window begins (means over the shift: 0)
};

// Flags that no index can clear.
enum exposure_flag {
    EXPOSURE_SKIN = 1 << 0, // taken up through the skin: air limits don't cover it
    EXPOSURE_CARCINOGEN = 1 << 1,
    EXPOSURE_MUTAGEN = 1 << 2,
    EXPOSURE_REPRODUCTIVE = 1 << 3, // also for the pregnant colleague
    EXPOSURE_SENSITISER = 1 << 4
};

// Why a component cannot be judged.
enum exposure_gap {
    GAP_NONE,
    GAP_NO_LIMIT,      // none in this set, and it would need one
    GAP_NO_DENSITY,    // of the component: the vapour of so many mL cannot be weighed
    GAP_NO_MOLAR_MASS, // of the component, whose limit is given in ppm only
};

struct exposure_component_judgement {
    struct limit_set limits;
    enum exposure_gap gap;
    bool unknown; // there is a gap
    size_t check_count;
    struct exposure_check checks[EXPOSURE_CHECKS_MAX];
    int biting;           // check with the largest fraction, -1 = none
    double mean_fraction; // share in the index of day means
    double room_mean_fraction;
    int peak_check; // check of a limit for short times with the largest fraction, -1 = none
    // The 15-min mean against the set's guide. Above 1: say so; it decides only in the UK's set, where the guide is one
    // of the checks. NAN where there is none.
    double excursion_guide;
    double idlh_fraction;    // near highest / lowest IDLH of any set; NAN when none is published
    struct limit_value idlh; // that IDLH; row NULL when none is published
    const struct authority *idlh_of;
    unsigned flags;             // enum exposure_flag
    double vapour_hazard_ratio; // saturated air / limit (Pitt, IChemE Symp. Ser. 151 (2006)); NAN when unknown
    double odour_ratio;     // limit / odour threshold in ppm; below 1 the limit is reached unsmelt. NAN when unknown
    size_t elsewhere_count; // for an unknown one: the sets that do have a limit
    const struct authority *elsewhere[EXPOSURE_AUTHORITIES_MAX];
};

// What comes first when more and more is used.
enum exposure_cap { CAP_NONE, CAP_LIMITS, CAP_IDLH, CAP_FLAMMABLE };

enum exposure_verdict { EXPOSURE_WITHIN, EXPOSURE_OVER, EXPOSURE_NOT_JUDGED };

struct exposure_judgement {
    const struct authority *authority;
    size_t count; // as in the air
    struct exposure_component_judgement components[BLEND_COMPONENTS_MAX];
    // Additive index at the person. Day means: sum of mean/limit with the long-term limits; a component that has only a
    // short-term or ceiling limit enters with its 8-hour mean over that limit.
    double index;
    double room_index; // the same in the well-mixed room
    // Short times: sum over components of the largest fraction of a 15-minute or ceiling limit; those without such a
    // limit are not in it. Of limits over the same time it is the sum in the worst window that they share, so that
    // peaks of different tasks are not added; only limits over different times are added as if their peaks came
    // together (and all of them where a task gives off its vapour by the model).
    double peak_index;
    double worst; // the larger of index and peak_index: no single fraction is above it
    bool complete;
    size_t unknown_count;
    size_t bites;         // component with the largest single fraction; its check is components[].biting
    size_t replace_first; // component with the largest share in the worse index
    double idlh_worst;    // largest idlh_fraction, 0 = none known
    size_t idlh_bites;    // the component that it belongs to
    bool above_idlh;
    bool above_alarm; // of flammable vapour near the work
    // Over when worst > 1, or an IDLH or the alarm of flammable vapour is passed; else not judged when incomplete.
    enum exposure_verdict verdict;
    // Everything that is in the air grows with the amount used, so: factor on every task's mL/h at which the worst
    // index equals the plan's share, or an IDLH or the alarm of flammable vapour is reached if that comes first (`cap`
    // says which). INFINITY when none of them is known. With unknown components it is an upper bound.
    double allowed_factor;
    enum exposure_cap cap;
    double hydrocarbon_limit_mg_m3; // reciprocal procedure of this authority for the hydrocarbons together, or NAN
    size_t hydrocarbon_count;
};

enum status exposure_judge(const struct library *lib, const struct exposure_plan *plan, const struct exposure_air *air,
                           const struct authority *authority, struct exposure_judgement *ret, struct error *err);

// --- all sets, the strictest ---

// Judged one by one and never summed. `strictest` is the set with the largest index of day means; the verdict is over
// when any single set is over, and not judged when the strictest set lacks a component. `tightest` is the set with the
// largest `worst`: it decides how much may be used (it can differ, when a short-term limit bites).
struct exposure_judgements {
    size_t count;
    struct exposure_judgement *sets; // in the order of the table
    size_t strictest;
    size_t tightest;
    enum exposure_verdict verdict;
};

enum status exposure_judge_all(const struct library *lib, const struct exposure_plan *plan,
                               const struct exposure_air *air, struct exposure_judgements *ret, struct error *err);
void exposure_judgements_release(struct exposure_judgements *judgements); // NULL-safe

#endif
