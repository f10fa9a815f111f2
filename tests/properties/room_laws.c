// SPDX-License-Identifier: GPL-3.0-or-later
// Vapour in a room over a day.
#include "draw.h"
#include "physics/room.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_odeiv2.h>

static const struct air_view ROOM = {AIR_ROOM, false}, NEAR = {AIR_NEAR, false}, FAR = {AIR_FAR, false};

// A day of one component: tasks that may overlap and go on giving off vapour, or none; sometimes air that is not clean.
static struct air_day draw_day(struct trial *trial) {
    struct random *random = &trial->random;
    struct air_day day = {.room = draw_room(trial), .shift_h = 0.5 + 11.5 * random_uniform(random)};
    if (random_uniform(random) < 0.3)
        day.initial_mg_m3 = random_between(random, 0.1, 1000);
    day.task_count = 1 + random_below(random, 5);
    for (size_t i = 0; i < day.task_count; i++) {
        struct air_task *task = &day.tasks[i];
        *task = (struct air_task){.start_h = 8 * random_uniform(random),
                                  .length_h = random_between(random, 0.01, 5),
                                  .generation_mg_h = random_between(random, 1, 1e6)};
        if (random_uniform(random) < 0.3)
            task->release_h = task->length_h * (1 + 3 * random_uniform(random));
    }
    note(trial,
         "%.9g m3, %.9g changes, mixing %.9g, loss %.9g, exchange %.9g into %.9g m3, %zu tasks: ", day.room.volume_m3,
         day.room.air_changes_per_h, day.room.mixing_factor, day.room.loss_per_h, day.room.near_flow_m3_h,
         day.room.near_volume_m3, day.task_count);
    return day;
}

static double vapour_ends_h(const struct air_task *task) {
    return task->start_h + fmax(task->length_h, task->release_h);
}

static bool make_curve(const struct air_day *day, struct air_curve *ret) {
    return air_curve_make(day, ret, NULL) == STATUS_OK; // not when a day's vapour goes on for more than a day
}

// Given off + there at the start = carried away + lost + left, for the well-mixed room and for the two zones.
static enum outcome given_off_is_carried_away(struct trial *trial) {
    struct air_day day = draw_day(trial);
    struct air_curve curve;
    if (!make_curve(&day, &curve))
        return NOT_COVERED;
    double end_h = curve.end_h, volume = day.room.volume_m3, near = day.room.near_volume_m3, far = volume - near;
    double given = day.initial_mg_m3 * volume, flow = room_fresh_air_m3_h(&day.room), loss = day.room.loss_per_h;
    for (size_t i = 0; i < day.task_count; i++)
        given +=
            day.tasks[i].generation_mg_h * fmax(0, fmin(end_h, vapour_ends_h(&day.tasks[i])) - day.tasks[i].start_h);
    double one = (flow + loss * volume) * air_dose(&curve, ROOM, 0, end_h) + volume * air_at(&curve, ROOM, end_h);
    double away =
        (flow + loss * far) * air_dose(&curve, FAR, 0, end_h) + loss * near * air_dose(&curve, NEAR, 0, end_h);
    double two = away + far * air_at(&curve, FAR, end_h) + near * air_at(&curve, NEAR, end_h);
    REQUIRE(alike(one, given, 1e-9, 0), "well mixed: %.12g mg of %.12g", one, given);
    REQUIRE(alike(two, given, 1e-8, 0), "two zones: %.12g mg of %.12g", two, given);
    return HELD;
}

// --- closed form against an integrator ---

struct zones {
    const struct air_day *day;
    double at_h; // inside the stretch without events that is being integrated
};

static double source_mg_h(const struct zones *zones) {
    double sum = 0;
    for (size_t i = 0; i < zones->day->task_count; i++) {
        const struct air_task *task = &zones->day->tasks[i];
        sum += task->start_h <= zones->at_h && zones->at_h < vapour_ends_h(task) ? task->generation_mg_h : 0;
    }
    return sum;
}

// d/dt of (well mixed, near, far) by the equations of Nicas as they are printed.
static void matrix_of(const struct room *room, double m[9]) {
    double q = room_fresh_air_m3_h(room), k = room->loss_per_h, beta = room->near_flow_m3_h;
    double near = room->near_volume_m3, far = room->volume_m3 - near;
    const double values[9] = {-(q / room->volume_m3 + k), 0, 0, 0, -(beta / near + k), beta / near, 0, beta / far,
                              -((beta + q) / far + k)};
    for (int i = 0; i < 9; i++)
        m[i] = values[i];
}

static int zones_rates(double t, const double *c, double *ret_dc, void *context) {
    const struct zones *zones = context;
    double m[9], g = source_mg_h(zones);
    (void)t;
    matrix_of(&zones->day->room, m);
    for (int i = 0; i < 3; i++)
        ret_dc[i] = m[3 * i] * c[0] + m[3 * i + 1] * c[1] + m[3 * i + 2] * c[2];
    ret_dc[0] += g / zones->day->room.volume_m3;
    ret_dc[1] += g / zones->day->room.near_volume_m3;
    return GSL_SUCCESS;
}

static double next_event_h(const struct air_day *day, double after_h, double end_h) {
    double next = end_h;
    for (size_t i = 0; i < day->task_count; i++) {
        double start = day->tasks[i].start_h, end = vapour_ends_h(&day->tasks[i]);
        next = start > after_h ? fmin(next, start) : next;
        next = end > after_h ? fmin(next, end) : next;
    }
    return next;
}

static enum outcome closed_form_is_integrated(struct trial *trial) {
    struct air_day day = draw_day(trial);
    struct air_curve curve;
    // An explicit method goes through a small near field in as small steps.
    if (!make_curve(&day, &curve) || day.room.near_flow_m3_h > 3000 * day.room.near_volume_m3)
        return NOT_COVERED;
    struct zones zones = {.day = &day};
    gsl_odeiv2_system system = {zones_rates, NULL, 3, &zones};
    double c[3] = {day.initial_mg_m3, day.initial_mg_m3, day.initial_mg_m3};
    double highest = air_highest(&curve, NEAR, NULL), until_h = curve.end_h * random_uniform(&trial->random);
    enum outcome outcome = HELD;
    for (double t = 0; t < until_h && outcome == HELD;) {
        double stop_h = next_event_h(&day, t, until_h);
        zones.at_h = 0.5 * (t + stop_h);
        gsl_odeiv2_driver *driver =
            gsl_odeiv2_driver_alloc_y_new(&system, gsl_odeiv2_step_rk8pd, 1e-6 * (stop_h - t), 1e-10 * highest, 1e-9);
        if (gsl_odeiv2_driver_apply(driver, &t, stop_h, c) != GSL_SUCCESS)
            outcome = broken(trial, "the integrator gave up at %g h", t);
        gsl_odeiv2_driver_free(driver);
        double exact[] = {air_at(&curve, ROOM, t), air_at(&curve, NEAR, t), air_at(&curve, FAR, t)};
        for (int i = 0; i < 3 && outcome == HELD; i++)
            if (!alike(c[i], exact[i], 1e-6, 1e-8 * highest))
                outcome = broken(trial, "place %d at %.9g h: %.12g, integrated %.12g", i, t, exact[i], c[i]);
    }
    return outcome;
}

// --- which way it goes ---

// At every hour no lower in `more` than in `less`.
static enum outcome never_lower(struct trial *trial, const struct air_curve *more, const struct air_curve *less,
                                struct air_view view, const char *why) {
    double end_h = fmin(more->end_h, less->end_h), top = air_highest(more, view, NULL);
    for (int i = 0; i <= 12; i++) {
        double hour = i < 12 ? end_h * random_uniform(&trial->random) : end_h;
        double a = air_at(more, view, hour), b = air_at(less, view, hour);
        REQUIRE(b >= 0 && isfinite(a), "%g mg/m3 at %g h", b, hour);
        REQUIRE(a >= b - 1e-9 * fmax(a, b) - 1e-12 * top, "%s: place %d at %.9g h %.12g, should not be below %.12g",
                why, (int)view.place, hour, a, b);
    }
    REQUIRE(at_least(air_dose(more, view, 0, end_h), air_dose(less, view, 0, end_h), 1e-9), "%s: dose", why);
    return HELD;
}

static enum outcome everywhere(struct trial *trial, const struct air_curve *curve, const struct air_day *less,
                               const char *why) {
    struct air_curve other;
    if (!make_curve(less, &other))
        return HELD;
    PART(never_lower(trial, curve, &other, ROOM, why));
    PART(never_lower(trial, curve, &other, NEAR, why));
    return never_lower(trial, curve, &other, FAR, why);
}

static enum outcome more_means_more(struct trial *trial) {
    struct air_day day = draw_day(trial), less = day;
    struct air_curve curve;
    struct random *random = &trial->random;
    if (!make_curve(&day, &curve))
        return NOT_COVERED;
    double factor = 0.05 + 0.9 * random_uniform(random);
    size_t task = random_below(random, day.task_count);
    less.tasks[task].generation_mg_h *= factor;
    PART(everywhere(trial, &curve, &less, "more use"));
    less = day;
    less.tasks[task].length_h *= factor;
    less.tasks[task].release_h *= factor;
    PART(everywhere(trial, &curve, &less, "longer work"));
    less = day;
    less.room.air_changes_per_h /= factor;
    PART(everywhere(trial, &curve, &less, "less fresh air"));
    less = day;
    less.room.loss_per_h += random_between(random, 0.01, 10);
    PART(everywhere(trial, &curve, &less, "less loss"));
    // A closer exchange thins the near field; it need not thin the rest of the room, which it feeds.
    less = day;
    less.room.near_flow_m3_h /= factor;
    struct air_curve other;
    REQUIRE(make_curve(&less, &other), "a larger exchange is refused");
    PART(never_lower(trial, &curve, &other, NEAR, "weaker exchange"));
    REQUIRE(at_least(air_highest(&curve, NEAR, NULL), air_highest(&curve, FAR, NULL), 1e-9) || day.initial_mg_m3 > 0,
            "the rest of the room is worse than the near field");
    return HELD;
}

// Means of windows: none above the highest value, longer ones no higher, a day's mean is its dose.
static enum outcome windows_are_means(struct trial *trial) {
    struct air_day day = draw_day(trial);
    struct air_curve curve;
    if (!make_curve(&day, &curve))
        return NOT_COVERED;
    const struct air_view views[] = {ROOM, NEAR, FAR, {AIR_PERSON, false}, {AIR_PERSON, true}};
    struct air_view view = views[random_below(&trial->random, 5)];
    double window_h = random_between(&trial->random, 0.01, 4), start_h, peak_h;
    double highest = air_highest(&curve, view, &peak_h), mean = air_highest_mean(&curve, view, window_h, &start_h);
    double longer = air_highest_mean(&curve, view, 2 * window_h, NULL);
    note(trial, "place %d, window %.9g h: ", (int)view.place, window_h);
    REQUIRE(highest >= 0 && mean >= 0 && at_least(highest, mean, 1e-9), "mean %.12g above the highest, %.12g", mean,
            highest);
    REQUIRE(at_least(mean, longer, 1e-6), "%.12g over the window, %.12g over twice the time", mean, longer);
    REQUIRE(alike(mean, air_dose(&curve, view, start_h, start_h + window_h) / window_h, 1e-9, 1e-12 * highest),
            "the window at %.9g h has another mean", start_h);
    double other_h = curve.end_h * random_uniform(&trial->random);
    REQUIRE(at_least(mean, air_dose(&curve, view, other_h, other_h + window_h) / window_h, 1e-6),
            "the window at %.9g h is worse", other_h);
    return HELD;
}

static const struct law laws[] = {
    {"room-balance", "given off = carried away + left, well mixed and two zones", 6, given_off_is_carried_away},
    {"room-integrator", "near and far field in closed form against an integrator", 4, closed_form_is_integrated},
    {"room-monotone", "more use, longer work, less air, less loss, weaker exchange: more vapour", 6, more_means_more},
    {"room-windows", "worst windows: means of real windows, no other is worse", 4, windows_are_means},
};
const struct law_list room_laws = LAWS(laws);
