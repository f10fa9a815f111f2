// SPDX-License-Identifier: GPL-3.0-or-later
// Films with three components per core: from a neighbour's film (warm) and from the dry film (cold), over the whole 5 %
// grid of compositions, each beside its neighbour. Both include the proof that the root is the first one. Beside the
// times stand the evaluations of the equations per film, and the time in units of one evaluation of the activity model
// with derivatives, which doesn't depend on the machine.
#include "films.h"
#include "stopwatch.h"

#include <math.h>
#include <stdbool.h>
#include <stdio.h>
#include <string.h>

enum { STEPS = 20, BLENDS = (STEPS + 1) * (STEPS + 2) / 2, ROUNDS = 5, REPEATS = 40 };

// Goals, microseconds a film.
static const double goal_warm_us = 5, goal_cold_us = 60;

static const char *const sets[] = {"ethanol 1 + toluene 1 + isooctane 1", "propan-2-ol 1 + acetone 1 + white-spirit 1",
                                   "ethyl-acetate 1 + ethanol 1 + water 1"};
static const char *const materials[] = {"linseed-oil-film-young", "dammar-aged"};

struct course {
    struct films_liquid liquid;
    struct film film;
    double x[BLENDS][3];
    double ln_activity[BLENDS][BLEND_COMPONENTS_MAX];
};

struct lap {
    double us;          // a film, best of the rounds
    double evaluations; // a film
    size_t films;
};

// Forth and back, so that each blend is one step from the last.
static void fill_course(struct course *course) {
    size_t n = 0;
    for (int a = 0; a <= STEPS; a++)
        for (int k = 0; k <= STEPS - a; k++, n++) {
            int b = a % 2 ? STEPS - a - k : k;
            const double volume[3] = {a, b, STEPS - a - b};
            for (size_t i = 0; i < 3; i++)
                course->x[n][i] = volume[i] / course->film.volume[i];
            film_liquid_activities(&course->liquid.activity, course->x[n], course->ln_activity[n]);
        }
}

// One way along the course; only the films of the wanted kind are timed and counted.
static void walk(const struct course *course, bool warm, struct lap *lap, double *seconds_spent) {
    struct film_state state = {.known = false};
    for (size_t n = 0; n < BLENDS; n++) {
        struct film_state before = state;
        struct film_effort effort;
        if (!warm)
            state.known = false;
        film_solve(&course->film, course->ln_activity[n], &state, &effort);
        if (effort.cold == warm)
            continue;
        double start = seconds(CLOCK_PROCESS_CPUTIME_ID);
        for (int k = 0; k < REPEATS; k++) {
            struct film_state again = before;
            again.known = warm && before.known;
            film_solve(&course->film, course->ln_activity[n], &again, NULL);
        }
        *seconds_spent += seconds(CLOCK_PROCESS_CPUTIME_ID) - start;
        lap->films++;
        lap->evaluations += effort.evaluations;
    }
}

static struct lap time_lap(const struct course *course, bool warm) {
    struct lap best = {.us = INFINITY};
    for (int round = 0; round < ROUNDS; round++) {
        struct lap lap = {0};
        double spent = 0;
        walk(course, warm, &lap, &spent);
        lap.us = 1e6 * spent / ((double)lap.films * REPEATS);
        lap.evaluations /= (double)lap.films;
        if (lap.us < best.us)
            best = lap;
    }
    return best;
}

static double activity_us(const struct course *course) {
    double best = INFINITY, sum = 0;
    for (int round = 0; round < ROUNDS; round++) {
        double start = seconds(CLOCK_PROCESS_CPUTIME_ID);
        for (int k = 0; k < REPEATS; k++)
            for (size_t n = 0; n < BLENDS; n++) {
                double ln_gamma[3], derivatives[9];
                activity_derivatives(&course->liquid.activity, course->x[n], ln_gamma, derivatives);
                sum += derivatives[0];
            }
        best = fmin(best, 1e6 * (seconds(CLOCK_PROCESS_CPUTIME_ID) - start) / (REPEATS * BLENDS));
    }
    return isnan(sum) ? NAN : best;
}

static void print_lap(const char *name, const struct lap *lap, double unit_us) {
    if (lap->films == 0)
        printf("  %s none", name);
    else
        printf("  %s %5.2f us (%4.1f evaluations, %4.1f units, %3zu films)", name, lap->us, lap->evaluations,
               lap->us / unit_us, lap->films);
}

static bool run(struct films *films, struct course *course, const char *set, const char *material) {
    struct film_parameters parameters = films_parameters(films, material);
    films_liquid(films, set, &course->liquid);
    course->film = films_prepare(&parameters, &course->liquid);
    fill_course(course);
    struct lap warm = time_lap(course, true), cold = time_lap(course, false);
    double unit = activity_us(course);
    printf("%-43s %-23s", set, material);
    print_lap("warm", &warm, unit);
    print_lap("cold", &cold, unit);
    printf("  unit %.2f us\n", unit);
    return (warm.films == 0 || warm.us <= goal_warm_us) && cold.us <= goal_cold_us;
}

// `--count`: one cold walk over each course, for an instruction counter (valgrind --tool=callgrind).
static void count(struct films *films, struct course *course, const char *set) {
    struct film_parameters parameters = films_parameters(films, materials[0]);
    films_liquid(films, set, &course->liquid);
    course->film = films_prepare(&parameters, &course->liquid);
    fill_course(course);
    for (size_t n = 0; n < BLENDS; n++) {
        struct film_state state = {.known = false};
        film_solve(&course->film, course->ln_activity[n], &state, NULL);
    }
    printf("%s: %d films\n", set, BLENDS);
}

int main(int argc, char **argv) {
    static struct films films;
    static struct course course;
    bool counting = argc > 1 && strcmp(argv[1], "--count") == 0, reached = true;
    films_open(&films);
    for (size_t s = 0; s < sizeof sets / sizeof *sets; s++) {
        if (counting)
            count(&films, &course, sets[s]);
        for (size_t m = 0; m < sizeof materials / sizeof *materials && !counting; m++)
            reached = run(&films, &course, sets[s], materials[m]) && reached;
    }
    if (!counting)
        printf("goals (warm %.0f us, cold %.0f us): %s\n", goal_warm_us, goal_cold_us, reached ? "reached" : "missed");
    films_release(&films);
    return reached ? 0 : 1;
}
