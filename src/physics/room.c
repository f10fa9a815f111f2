// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/room.h"

#include "base/units.h"

#include <assert.h>
#include <math.h>

static const double PI = 3.14159265358979324;

double hemisphere_volume_m3(double radius_m) {
    return 2.0 / 3.0 * PI * radius_m * radius_m * radius_m;
}

double near_flow_m3_h(double radius_m, double air_speed_m_h) {
    double free_surface_m2 = 2 * PI * radius_m * radius_m;
    return 0.5 * free_surface_m2 * air_speed_m_h;
}

struct room room_usual(double volume_m3, double air_changes_per_h) {
    return (struct room){.volume_m3 = volume_m3,
                         .air_changes_per_h = air_changes_per_h,
                         .mixing_factor = 1,
                         .near_flow_m3_h = NEAR_FLOW_M3_H,
                         .near_volume_m3 = hemisphere_volume_m3(NEAR_RADIUS_M)};
}

// Also false for NAN and infinities.
static bool within(double value, double least, double most) {
    return isfinite(value) && value >= least && value <= most;
}

// Larger than any hall, faster than any fan: beyond these a unit was mistaken.
#define LARGEST_ROOM_M3 1e6
#define MOST_AIR_CHANGES 1e4

static enum status check_room(const struct room *room, struct error *err) {
    if (!(room->volume_m3 > 0) || !within(room->volume_m3, 0, LARGEST_ROOM_M3))
        return error_set(err, STATUS_RANGE, "a room of %g m3; the volume must be above 0 and at most %g m3",
                         room->volume_m3, LARGEST_ROOM_M3);
    if (!within(room->air_changes_per_h, 0, MOST_AIR_CHANGES))
        return error_set(err, STATUS_RANGE, "%g air changes per hour; they must be from 0 (sealed) to %g",
                         room->air_changes_per_h, MOST_AIR_CHANGES);
    if (!(room->mixing_factor > 0) || !within(room->mixing_factor, 0, 1))
        return error_set(err, STATUS_RANGE, "mixing factor %g; it must be above 0 and at most 1 (perfect mixing)",
                         room->mixing_factor);
    if (!within(room->loss_per_h, 0, MOST_AIR_CHANGES))
        return error_set(err, STATUS_RANGE, "a loss of %g per hour; it must be from 0 to %g", room->loss_per_h,
                         MOST_AIR_CHANGES);
    if (!(room->near_flow_m3_h >= 0) || !isfinite(room->near_flow_m3_h))
        return error_set(err, STATUS_RANGE, "an air flow of %g m3/h through the near field; it must be 0 or more",
                         room->near_flow_m3_h);
    if (room->near_flow_m3_h > 0 && (!(room->near_volume_m3 > 0) || !(room->near_volume_m3 < room->volume_m3)))
        return error_set(err, STATUS_RANGE,
                         "a near field of %.3g m3 in a room of %g m3; it must be above 0 and smaller than the room",
                         room->near_volume_m3, room->volume_m3);
    return STATUS_OK;
}

double room_fresh_air_m3_h(const struct room *room) {
    return room->mixing_factor * room->air_changes_per_h * room->volume_m3;
}

double room_steady_mg_m3(const struct room *room, double generation_mg_h) {
    double removed_m3_h = room_fresh_air_m3_h(room) + room->loss_per_h * room->volume_m3;
    if (generation_mg_h == 0)
        return 0;
    return removed_m3_h > 0 ? generation_mg_h / removed_m3_h : INFINITY;
}

double room_purge_h(const struct room *room, double from_mg_m3, double to_mg_m3) {
    assert(to_mg_m3 > 0 && to_mg_m3 <= from_mg_m3);
    double rate_per_h = room_fresh_air_m3_h(room) / room->volume_m3 + room->loss_per_h;
    return rate_per_h > 0 ? log(from_mg_m3 / to_mg_m3) / rate_per_h : INFINITY;
}

double generation_mg_h(double use_ml_h, double density_g_cm3) {
    return use_ml_h * density_g_cm3 * 1000; // g to mg
}

// --- one mode: dz/dt = source - lambda z ---

// (1 - e^-x)/x; 1 at x = 0, where the room is sealed and the vapour rises in a straight line.
static double growth(double x) {
    return x > 0 ? -expm1(-x) / x : 1;
}

// (x - 1 + e^-x)/x^2, the same integrated; 1/2 at x = 0. The difference cancels below 1, so a series there.
static double growth_integral(double x) {
    if (x > 1)
        return (1 - growth(x)) / x;
    double term = 0.5, sum = term;
    for (int n = 3; fabs(term) > 1e-18; n++) {
        term *= -x / n;
        sum += term;
    }
    return sum;
}

static double mode_after(double start, double source, double lambda_per_h, double hours) {
    double x = lambda_per_h * hours;
    return start * exp(-x) + source * hours * growth(x);
}

static double mode_integral(double start, double source, double lambda_per_h, double hours) {
    double x = lambda_per_h * hours;
    return start * hours * growth(x) + source * hours * hours * growth_integral(x);
}

// --- the compartments taken apart ---

// A source of 1 mg/h in each mode, and 1 mg/m3 everywhere in each mode.
struct mode_units {
    double source[AIR_MODES];
    double filled[AIR_MODES];
};

// With y = sqrt(V) C the two-zone matrix is symmetric,
//   dy/dt = -M y + (G/sqrt(V_N), 0),  M = [a -b; -b d] + k,
//   a = beta/V_N, b = beta/sqrt(V_N V_F), d = (beta + Q)/V_F,
// so its modes are orthogonal and nothing is lost to the stiffness. The slow eigenvalue comes from the determinant
// beta Q/(V_N V_F), because the difference of the usual formula would cancel.
static void two_zone_modes(const struct room *room, struct air_curve *curve, struct mode_units *units) {
    double near_root = sqrt(room->near_volume_m3);
    double far_root = sqrt(room->volume_m3 - room->near_volume_m3);
    double fresh_m3_h = room_fresh_air_m3_h(room);
    double a = room->near_flow_m3_h / (near_root * near_root);
    double b = room->near_flow_m3_h / (near_root * far_root);
    double d = (room->near_flow_m3_h + fresh_m3_h) / (far_root * far_root);
    double half_difference = (a - d) / 2;
    double radius = hypot(half_difference, b);
    double fast = (a + d) / 2 + radius;
    double slow = a / fast * (fresh_m3_h / (far_root * far_root));
    // Fast eigenvector (f, -b) normalised, f = fast - d; the slow one is (b, f).
    double f = half_difference >= 0 ? half_difference + radius : b * b / (radius - half_difference);
    double norm = hypot(f, b);
    double cosine = f / norm, sine = b / norm;
    curve->lambda_per_h[1] = slow + room->loss_per_h;
    curve->lambda_per_h[2] = fast + room->loss_per_h;
    curve->near_weight[1] = sine / near_root;
    curve->near_weight[2] = cosine / near_root;
    curve->far_weight[1] = cosine / far_root;
    curve->far_weight[2] = -sine / far_root;
    units->source[1] = sine / near_root;
    units->source[2] = cosine / near_root;
    units->filled[1] = sine * near_root + cosine * far_root;
    units->filled[2] = cosine * near_root - sine * far_root;
}

static void find_modes(const struct room *room, struct air_curve *curve, struct mode_units *units) {
    curve->lambda_per_h[0] = room_fresh_air_m3_h(room) / room->volume_m3 + room->loss_per_h;
    curve->room_weight[0] = 1;
    units->source[0] = 1 / room->volume_m3;
    units->filled[0] = 1;
    if (room->near_flow_m3_h > 0) {
        two_zone_modes(room, curve, units);
    } else {
        curve->near_weight[0] = 1;
        curve->far_weight[0] = 1;
    }
}

// --- the day in stretches ---

static enum status check_day(const struct air_day *day, struct error *err) {
    enum status status = check_room(&day->room, err);
    if (status != STATUS_OK)
        return status;
    if (day->task_count > AIR_TASKS_MAX)
        return error_set(err, STATUS_RANGE, "%zu tasks in one day; at most %d can be planned", day->task_count,
                         AIR_TASKS_MAX);
    if (!within(day->initial_mg_m3, 0, INFINITY))
        return error_set(err, STATUS_RANGE, "%g mg/m3 at the beginning; it must be 0 or more", day->initial_mg_m3);
    for (size_t i = 0; i < day->task_count; i++) {
        const struct air_task *task = &day->tasks[i];
        if (!within(task->start_h, 0, AIR_DAY_H) || !within(task->length_h, 0, AIR_DAY_H) || !(task->length_h > 0))
            return error_set(err, STATUS_RANGE, "task %zu begins at %g h and takes %g h; a day has %g h", i + 1,
                             task->start_h, task->length_h, AIR_DAY_H);
        if (task->start_h + task->length_h > AIR_DAY_H)
            return error_set(err, STATUS_RANGE, "task %zu ends %g h after the beginning of the day; a day has %g h",
                             i + 1, task->start_h + task->length_h, AIR_DAY_H);
        if (!within(task->generation_mg_h, 0, INFINITY))
            return error_set(err, STATUS_RANGE, "task %zu gives off %g mg/h; it must be 0 or more", i + 1,
                             task->generation_mg_h);
        if (!within(task->release_h, 0, INFINITY))
            return error_set(err, STATUS_RANGE, "task %zu gives off vapour for %g h; it must be 0 or more", i + 1,
                             task->release_h);
    }
    if (!within(day->shift_h, 0, AIR_DAY_H))
        return error_set(err, STATUS_RANGE, "a shift of %g h; it must be from 0 to %g h", day->shift_h, AIR_DAY_H);
    return STATUS_OK;
}

static void insert_sorted(double *list, size_t *count, double value) {
    size_t at = *count;
    while (at > 0 && list[at - 1] >= value)
        at--;
    if (at < *count && list[at] == value)
        return;
    for (size_t i = *count; i > at; i--)
        list[i] = list[i - 1];
    list[at] = value;
    (*count)++;
}

static double work_end_h(const struct air_task *task) {
    return task->start_h + task->length_h;
}

static double release_end_h(const struct air_task *task) {
    return task->start_h + fmax(task->length_h, task->release_h);
}

// Beginnings and ends of tasks and of their vapour, 0 and the end of the day, in order, each once. Vapour that comes
// after the day's end is not followed.
static size_t day_events(const struct air_day *day, double events[AIR_SEGMENTS_MAX + 1]) {
    size_t count = 0;
    double end_h = day->shift_h;
    insert_sorted(events, &count, 0);
    for (size_t i = 0; i < day->task_count; i++) {
        insert_sorted(events, &count, day->tasks[i].start_h);
        insert_sorted(events, &count, work_end_h(&day->tasks[i]));
        end_h = fmax(end_h, work_end_h(&day->tasks[i]));
    }
    for (size_t i = 0; i < day->task_count; i++)
        if (release_end_h(&day->tasks[i]) < end_h)
            insert_sorted(events, &count, release_end_h(&day->tasks[i]));
    if (end_h > events[count - 1])
        insert_sorted(events, &count, end_h);
    return count;
}

static double sources_between(const struct air_day *day, double from_h, double to_h, bool *ret_working) {
    double sum = 0;
    *ret_working = false;
    for (size_t i = 0; i < day->task_count; i++) {
        const struct air_task *task = &day->tasks[i];
        if (task->start_h <= from_h && release_end_h(task) >= to_h)
            sum += task->generation_mg_h;
        if (task->start_h <= from_h && work_end_h(task) >= to_h)
            *ret_working = true;
    }
    return sum;
}

enum status air_curve_make(const struct air_day *day, struct air_curve *ret, struct error *err) {
    enum status status = check_day(day, err);
    if (status != STATUS_OK)
        return status;
    struct air_curve curve = {0};
    struct mode_units units = {0};
    find_modes(&day->room, &curve, &units);
    double events[AIR_SEGMENTS_MAX + 1];
    size_t events_count = day_events(day, events);
    curve.end_h = events[events_count - 1];
    double state[AIR_MODES];
    for (int m = 0; m < AIR_MODES; m++)
        state[m] = day->initial_mg_m3 * units.filled[m];
    for (size_t i = 0; i + 1 < events_count; i++) {
        struct air_segment *segment = &curve.segments[curve.count++];
        segment->start_h = events[i];
        segment->end_h = events[i + 1];
        double generation = sources_between(day, events[i], events[i + 1], &segment->working);
        for (int m = 0; m < AIR_MODES; m++) {
            segment->start[m] = state[m];
            segment->source[m] = generation * units.source[m];
            state[m] = mode_after(state[m], segment->source[m], curve.lambda_per_h[m], events[i + 1] - events[i]);
        }
    }
    *ret = curve;
    return STATUS_OK;
}

// --- reading the curve ---

// Weights with which the modes make the view's concentration; NULL when the person is away.
static const double *view_weights(const struct air_curve *curve, const struct air_segment *segment,
                                  struct air_view view) {
    if (view.leaves && !segment->working)
        return NULL;
    switch (view.place) {
    case AIR_ROOM:
        return curve->room_weight;
    case AIR_NEAR:
        return curve->near_weight;
    case AIR_FAR:
        return curve->far_weight;
    case AIR_PERSON:
        return segment->working ? curve->near_weight : curve->far_weight;
    }
    assert(false && "a place that air_place does not name");
    return NULL;
}

static double segment_at(const struct air_curve *curve, const struct air_segment *segment, struct air_view view,
                         double hour) {
    const double *weights = view_weights(curve, segment, view);
    double sum = 0;
    for (int m = 0; weights && m < AIR_MODES; m++)
        if (weights[m] != 0)
            sum += weights[m] *
                   mode_after(segment->start[m], segment->source[m], curve->lambda_per_h[m], hour - segment->start_h);
    return sum;
}

static double segment_dose(const struct air_curve *curve, const struct air_segment *segment, struct air_view view,
                           double from_h, double to_h) {
    const double *weights = view_weights(curve, segment, view);
    double sum = 0;
    for (int m = 0; weights && m < AIR_MODES; m++) {
        if (weights[m] == 0)
            continue;
        double lambda = curve->lambda_per_h[m];
        double start = mode_after(segment->start[m], segment->source[m], lambda, from_h - segment->start_h);
        sum += weights[m] * mode_integral(start, segment->source[m], lambda, to_h - from_h);
    }
    return sum;
}

double air_at(const struct air_curve *curve, struct air_view view, double hour) {
    for (size_t i = 0; i < curve->count; i++)
        if (hour >= curve->segments[i].start_h && hour <= curve->segments[i].end_h)
            return segment_at(curve, &curve->segments[i], view, hour);
    return 0;
}

double air_dose(const struct air_curve *curve, struct air_view view, double from_h, double to_h) {
    double sum = 0;
    for (size_t i = 0; i < curve->count; i++) {
        const struct air_segment *segment = &curve->segments[i];
        double from = fmax(from_h, segment->start_h), to = fmin(to_h, segment->end_h);
        if (from < to)
            sum += segment_dose(curve, segment, view, from, to);
    }
    return sum;
}

// Two exponentials turn at most once: sum of k e^(-lambda t) = 0 with k = weight * (source - lambda start). Returns the
// hour inside the segment, or the segment's start when the curve does not turn there.
static double turning_hour(const struct air_curve *curve, const struct air_segment *segment, const double *weights) {
    double slope[AIR_MODES] = {0};
    for (int m = 1; m < AIR_MODES; m++)
        slope[m] = weights[m] * (segment->source[m] - curve->lambda_per_h[m] * segment->start[m]);
    double between = curve->lambda_per_h[2] - curve->lambda_per_h[1];
    if (!(slope[1] * slope[2] < 0) || !(between > 0))
        return segment->start_h;
    double hour = segment->start_h + log(-slope[2] / slope[1]) / between;
    return hour > segment->start_h && hour < segment->end_h ? hour : segment->start_h;
}

double air_highest(const struct air_curve *curve, struct air_view view, double *ret_hour) {
    double highest = 0, when = 0;
    for (size_t i = 0; i < curve->count; i++) {
        const struct air_segment *segment = &curve->segments[i];
        const double *weights = view_weights(curve, segment, view);
        if (!weights)
            continue;
        double hours[] = {segment->start_h, turning_hour(curve, segment, weights), segment->end_h};
        for (size_t h = 0; h < sizeof hours / sizeof *hours; h++) {
            double value = segment_at(curve, segment, view, hours[h]);
            if (value > highest) {
                highest = value;
                when = hours[h];
            }
        }
    }
    if (ret_hour)
        *ret_hour = when;
    return highest;
}

// --- the worst window ---

enum {
    WINDOW_STEPS = 16,    // even steps of a stretch between two nodes
    WINDOW_HALVINGS = 16, // of the first step, because the near field answers within seconds of an event
    WINDOW_POINTS = 1 + WINDOW_HALVINGS + WINDOW_STEPS,
    WINDOW_NODES_MAX = 2 * (AIR_SEGMENTS_MAX + 1) + 2
};

// Starts of windows at which one of the two ends meets an event: between them the mean is a smooth function.
static size_t window_nodes(const struct air_curve *curve, double window_h, double nodes[WINDOW_NODES_MAX]) {
    double last = curve->end_h - window_h;
    size_t count = 0;
    insert_sorted(nodes, &count, 0);
    insert_sorted(nodes, &count, last);
    for (size_t i = 0; i < curve->count; i++) {
        double event = curve->segments[i].start_h;
        if (event > 0 && event < last)
            insert_sorted(nodes, &count, event);
        if (event - window_h > 0 && event - window_h < last)
            insert_sorted(nodes, &count, event - window_h);
    }
    return count;
}

struct window_search {
    const struct air_curve *curve;
    struct air_view view;
    double window_h;
    double best_dose;
    double best_start_h;
};

static double try_window(struct window_search *search, double start_h) {
    double dose = air_dose(search->curve, search->view, start_h, start_h + search->window_h);
    if (dose > search->best_dose) {
        search->best_dose = dose;
        search->best_start_h = start_h;
    }
    return dose;
}

// Golden section in [low, high] around a grid point that beats its neighbours.
static void refine_window(struct window_search *search, double low, double high) {
    const double golden = 0.61803398874989485; // (sqrt(5) - 1)/2
    while (high - low > 1e-9) {
        double left = high - golden * (high - low), right = low + golden * (high - low);
        if (left <= low || right >= high)
            return;
        if (try_window(search, left) >= try_window(search, right))
            high = right;
        else
            low = left;
    }
}

static void search_between(struct window_search *search, double low, double high) {
    double starts[WINDOW_POINTS], doses[WINDOW_POINTS];
    double step = (high - low) / WINDOW_STEPS;
    for (int i = 0; i < WINDOW_POINTS; i++) {
        if (i == 0)
            starts[i] = low;
        else if (i <= WINDOW_HALVINGS)
            starts[i] = low + ldexp(step, i - 1 - WINDOW_HALVINGS);
        else
            starts[i] = i == WINDOW_POINTS - 1 ? high : low + (i - WINDOW_HALVINGS) * step;
        doses[i] = try_window(search, starts[i]);
    }
    for (int i = 0; i < WINDOW_POINTS; i++) {
        int before = i > 0 ? i - 1 : i, after = i + 1 < WINDOW_POINTS ? i + 1 : i;
        if (doses[i] > 0 && doses[i] >= doses[before] && doses[i] >= doses[after])
            refine_window(search, starts[before], starts[after]);
    }
}

double air_highest_mean(const struct air_curve *curve, struct air_view view, double window_h, double *ret_start_h) {
    assert(window_h > 0);
    struct window_search search = {.curve = curve, .view = view, .window_h = window_h};
    if (window_h >= curve->end_h) {
        try_window(&search, 0);
    } else {
        double nodes[WINDOW_NODES_MAX];
        size_t count = window_nodes(curve, window_h, nodes);
        for (size_t i = 0; i + 1 < count; i++)
            search_between(&search, nodes[i], nodes[i + 1]);
    }
    if (ret_start_h)
        *ret_start_h = search.best_start_h;
    return search.best_dose / window_h;
}
