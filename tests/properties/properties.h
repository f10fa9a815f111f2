// SPDX-License-Identifier: GPL-3.0-or-later
// Laws that hold for every blend, room and case, tried on random ones. One program: so many trials in all, shared out
// among the laws; each trial has a seed of its own, so that one that fails can be repeated alone.
#ifndef MILDSOLVE_TESTS_PROPERTIES_H
#define MILDSOLVE_TESTS_PROPERTIES_H

#include "random.h"
#include "tables.h"

enum outcome {
    HELD,
    BROKEN,
    NOT_COVERED // no model or no figure for what was drawn: drawn again
};

struct trial {
    const struct library *lib;
    const struct unifac_table *unifac;
    struct random random;
    char words[1024]; // what was drawn and how the law is broken
};

struct law {
    const char *name;
    const char *says;
    double share; // of all trials, relative to the other laws: less where a trial takes long
    enum outcome (*try)(struct trial *trial);
};

struct law_list {
    const struct law *laws;
    size_t count;
};
#define LAWS(array)                                                                                                    \
    { array, sizeof(array) / sizeof *(array) }

extern const struct law_list place_laws, liquid_laws, fire_laws, drying_laws, room_laws, exposure_laws, film_laws,
    label_laws, search_laws, case_laws;

// Appends to the words.
void note(struct trial *trial, const char *format, ...) __attribute__((format(printf, 2, 3)));

// Notes what is wrong and returns BROKEN.
enum outcome broken(struct trial *trial, const char *format, ...) __attribute__((format(printf, 2, 3)));

// Leaves the trial unless the condition holds.
#define REQUIRE(condition, ...)                                                                                        \
    do {                                                                                                               \
        if (!(condition))                                                                                              \
            return broken(trial, __VA_ARGS__);                                                                         \
    } while (0)

// Leaves the trial unless the part of a law that `call` tries holds.
#define PART(call)                                                                                                     \
    do {                                                                                                               \
        enum outcome part_outcome = (call);                                                                            \
        if (part_outcome != HELD)                                                                                      \
            return part_outcome;                                                                                       \
    } while (0)

// Both not a number, the same infinity, or within `relative` of the larger and `absolute`.
static inline bool alike(double a, double b, double relative, double absolute) {
    if (isnan(a) || isnan(b))
        return isnan(a) && isnan(b);
    if (isinf(a) || isinf(b))
        return a == b;
    return a == b || fabs(a - b) <= absolute + relative * fmax(fabs(a), fabs(b));
}

// At least b, but for the last digits.
static inline bool at_least(double a, double b, double relative) {
    return a >= b || a >= b - relative * fmax(fabs(a), fabs(b));
}

// Log-uniform.
static inline double random_between(struct random *random, double least, double most) {
    return least * pow(most / least, random_uniform(random));
}

#endif
