// SPDX-License-Identifier: GPL-3.0-or-later
// Vapour in the air of a room over a day: one well-mixed room, and near field / far field around the person.
//
// Both are compartments with constant input between two events of the day, so everything here is closed form: sums of
// exponentials, their integrals and their extremes. No time step, no quadrature; only the position of the worst
// 15-minute window between two events is searched for.
//
// Neglected: that vapour is heavier than air and may lie on the floor, draughts, sinks other than the first-order loss,
// people and doors. One evaluation found two-zone means within 0 to 1.6 times the measured ones (Plisko, evaluation of
// near-field/far-field models, from memory).
#ifndef MILDSOLVE_PHYSICS_ROOM_H
#define MILDSOLVE_PHYSICS_ROOM_H

#include "base/error.h"

#include <stdbool.h>
#include <stddef.h>

// Air between near and far field in still indoor air: 5 m3/min (common practice, no source; Keil, Simmons and Anthony,
// Mathematical Models for Estimating Occupational Exposure to Chemicals, AIHA, use figures of this size, from memory).
#define NEAR_FLOW_M3_H 300.0

// Hemisphere around the work that also holds the face of a person at arm's length (common practice, no source).
#define NEAR_RADIUS_M 0.8

struct room {
    double volume_m3;         // whole room, > 0
    double air_changes_per_h; // fresh air, >= 0; 0 = sealed, the vapour rises without bound
    double mixing_factor;     // share of the fresh air that really dilutes, > 0 and <= 1
    double loss_per_h;        // first-order loss other than by ventilation, >= 0
    double near_flow_m3_h;    // air between near and far field (beta); 0 = one well-mixed room only
    double near_volume_m3;    // > 0 and < volume_m3 when near_flow_m3_h > 0
};

// Perfect mixing of the fresh air, no loss, near field with the two figures above.
struct room room_usual(double volume_m3, double air_changes_per_h);

// V = 2/3 pi r^3, m3.
double hemisphere_volume_m3(double radius_m);

// beta = FSA s / 2 with FSA = 2 pi r^2, the free surface of a hemisphere, and s the random air speed (Nicas, Am. Ind.
// Hyg. Assoc. J. 57 (1996) 542), m3/h. At the same air speed a face at 0.5 m instead of 0.8 m has 0.39 of the flow and
// 2.6 times the near-field excess.
double near_flow_m3_h(double radius_m, double air_speed_m_h);

// Q = mixing factor * air changes * volume, m3/h.
double room_fresh_air_m3_h(const struct room *room);

// What a well-mixed room heads for: C = G / (Q + k V), mg/m3; INFINITY when nothing removes the vapour, and 0 for G =
// 0.
double room_steady_mg_m3(const struct room *room, double generation_mg_h);

// Hours without a source until a well-mixed room falls from one concentration to a lower one,
// t = ln(C1/C2) / (Q/V + k); INFINITY when nothing removes the vapour. 0 < to <= from.
double room_purge_h(const struct room *room, double from_mg_m3, double to_mg_m3);

// mL/h of a liquid as mg/h of vapour: all that is used evaporates.
double generation_mg_h(double use_ml_h, double density_g_cm3);

// A task makes three events: its beginning, its end, and the end of its vapour.
enum { AIR_TASKS_MAX = 12, AIR_SEGMENTS_MAX = 3 * AIR_TASKS_MAX + 1, AIR_MODES = 3 };

// Hours in a day: tasks must fit into it.
#define AIR_DAY_H 24.0

struct air_task {
    double start_h; // from the beginning of the working day, >= 0
    double length_h;
    double generation_mg_h; // of one component; tasks that overlap add
    double release_h;       // how long it gives off vapour, when that is longer than the work; else 0
};

// One component's sources over one day.
struct air_day {
    struct room room;
    double initial_mg_m3; // everywhere at hour 0
    double shift_h;       // the person's presence; the curve ends there or with the last task, whichever is later
    size_t task_count;
    struct air_task tasks[AIR_TASKS_MAX];
};

// Where the air is taken.
enum air_place {
    AIR_ROOM,  // one well-mixed room
    AIR_NEAR,  // near field, also between the tasks
    AIR_FAR,   // far field
    AIR_PERSON // near field while a task runs, far field otherwise
};

// What is breathed. Without a near field (near_flow_m3_h = 0) all places are the well-mixed room.
struct air_view {
    enum air_place place;
    bool leaves; // only the hours in which a task runs count: the person leaves the room with the task
};

// A stretch of the day with constant sources. start and source are in the coordinates in which the compartments
// decouple: dz/dt = source - lambda z; concentration = sum of weight * z.
struct air_segment {
    double start_h, end_h;
    bool working;
    double start[AIR_MODES];
    double source[AIR_MODES];
};

// The day solved. Mode 0 is the well-mixed room, modes 1 and 2 the two-zone model.
struct air_curve {
    double end_h;
    double lambda_per_h[AIR_MODES];
    double room_weight[AIR_MODES];
    double near_weight[AIR_MODES];
    double far_weight[AIR_MODES];
    size_t count;
    struct air_segment segments[AIR_SEGMENTS_MAX];
};

// Solves a day. Room: dC/dt = G/V - (Q/V + k) C. Two zones (Nicas 1996):
//   V_N dC_N/dt = G + beta (C_F - C_N) - k V_N C_N
//   V_F dC_F/dt = beta (C_N - C_F) - Q C_F - k V_F C_F,   V_F = V - V_N.
// STATUS_RANGE names the figure that is out of range (room, negative or non-finite task, a day over 24 h).
enum status air_curve_make(const struct air_day *day, struct air_curve *ret, struct error *err);

// Concentration at an hour of the day (0 to end_h), mg/m3. At an event the value just before it, at hour 0 just after.
double air_at(const struct air_curve *curve, struct air_view view, double hour);

// Integral of the concentration over time, mg h/m3; hours outside the day count nothing.
double air_dose(const struct air_curve *curve, struct air_view view, double from_h, double to_h);

// Highest concentration reached, mg/m3; *ret_hour (may be NULL) when.
double air_highest(const struct air_curve *curve, struct air_view view, double *ret_hour);

// Highest mean over any window of this length, mg/m3; *ret_start_h (may be NULL) where it begins. A window longer than
// the day counts the rest as clean air. Between two events at most two windows are extreme; they are looked for on a
// grid that is finest just after the events and refined to 1e-9 h. The value is that of a real window, so never too
// high.
double air_highest_mean(const struct air_curve *curve, struct air_view view, double window_h, double *ret_start_h);

#endif
