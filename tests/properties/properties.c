// SPDX-License-Identifier: GPL-3.0-or-later
// properties COUNT [--seed N] [--law NAME [--trial N]]
#include "properties.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { SHOWN_MOST = 3, DRAWS_MOST = 40 };

static const struct law_list *const lists[] = {&place_laws,    &liquid_laws, &fire_laws,  &drying_laws, &room_laws,
                                               &exposure_laws, &film_laws,   &label_laws, &search_laws, &case_laws};
enum { LISTS = sizeof lists / sizeof *lists };

struct request {
    double count; // of trials in all
    unsigned long seed;
    const char *law; // NULL = every one
    long trial;      // -1 = every one
};

struct tally {
    size_t held, broken, passed_over;
};

static void add_words(struct trial *trial, const char *format, va_list arguments) {
    size_t used = strlen(trial->words);
    vsnprintf(trial->words + used, sizeof trial->words - used, format, arguments);
}

void note(struct trial *trial, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    add_words(trial, format, arguments);
    va_end(arguments);
}

enum outcome broken(struct trial *trial, const char *format, ...) {
    va_list arguments;
    va_start(arguments, format);
    add_words(trial, format, arguments);
    va_end(arguments);
    return BROKEN;
}

// splitmix64 (Steele, Lea & Flood, OOPSLA 2014), so that neighbouring trials have nothing in common.
static uint64_t mixed(uint64_t z) {
    z += 0x9e3779b97f4a7c15u;
    z = (z ^ z >> 30) * 0xbf58476d1ce4e5b9u;
    z = (z ^ z >> 27) * 0x94d049bb133111ebu;
    return z ^ z >> 31;
}

static uint64_t seed_of(const struct request *request, const struct law *law, size_t number) {
    uint64_t seed = mixed(request->seed);
    for (const char *c = law->name; *c; c++)
        seed = mixed(seed ^ (unsigned char)*c);
    seed = mixed(seed ^ number);
    return seed ? seed : 1;
}

static void tell_broken(const struct law *law, size_t number, const struct trial *trial, size_t before) {
    if (before < SHOWN_MOST)
        printf("BROKEN: %s (--law %s --trial %zu): %s\n", law->says, law->name, number, trial->words);
}

// Draws until something is covered; a draw that never is counts as broken, because then the law is never tried.
static void try_once(struct trial *trial, const struct request *request, const struct law *law, size_t number,
                     struct tally *tally) {
    enum outcome outcome = NOT_COVERED;
    trial->random.state = seed_of(request, law, number);
    for (int draw = 0; outcome == NOT_COVERED && draw < DRAWS_MOST; draw++) {
        trial->words[0] = '\0';
        outcome = law->try(trial);
        tally->passed_over += outcome == NOT_COVERED;
    }
    if (outcome == NOT_COVERED)
        outcome = broken(trial, "nothing that was drawn is covered");
    if (outcome == BROKEN)
        tell_broken(law, number, trial, tally->broken++);
    else
        tally->held++;
}

static struct tally try_law(struct trial *trial, const struct request *request, const struct law *law, size_t count) {
    struct tally tally = {0};
    clock_t begin = clock();
    if (request->trial >= 0)
        try_once(trial, request, law, (size_t)request->trial, &tally);
    else
        for (size_t number = 0; number < count; number++)
            try_once(trial, request, law, number, &tally);
    double seconds = (double)(clock() - begin) / CLOCKS_PER_SEC;
    printf("%-24s %7zu %7zu %7zu %7.1f  %s\n", law->name, tally.held + tally.broken, tally.broken, tally.passed_over,
           seconds, law->says);
    fflush(stdout);
    return tally;
}

static bool wanted(const struct request *request, const struct law *law) {
    return !request->law || strcmp(request->law, law->name) == 0;
}

static double sum_of_shares(const struct request *request) {
    double sum = 0;
    for (size_t i = 0; i < LISTS; i++)
        for (size_t j = 0; j < lists[i]->count; j++)
            sum += wanted(request, &lists[i]->laws[j]) ? lists[i]->laws[j].share : 0;
    return sum;
}

static int try_all(struct trial *trial, const struct request *request) {
    double shares = sum_of_shares(request);
    struct tally all = {0};
    printf("%-24s %7s %7s %7s %7s  law\n", "name", "trials", "broken", "passed", "CPU s");
    for (size_t i = 0; i < LISTS; i++)
        for (size_t j = 0; j < lists[i]->count; j++) {
            const struct law *law = &lists[i]->laws[j];
            if (!wanted(request, law))
                continue;
            struct tally tally = try_law(trial, request, law, (size_t)ceil(request->count * law->share / shares));
            all.held += tally.held;
            all.broken += tally.broken;
            all.passed_over += tally.passed_over;
        }
    printf("%-24s %7zu %7zu %7zu\n", "all", all.held + all.broken, all.broken, all.passed_over);
    if (all.held + all.broken == 0) {
        fprintf(stderr, "no law '%s'\n", request->law);
        return EXIT_FAILURE;
    }
    return all.broken ? EXIT_FAILURE : EXIT_SUCCESS;
}

static bool read_request(int count, char **words, struct request *ret) {
    *ret = (struct request){.seed = 1, .trial = -1};
    for (int i = 1; i < count; i++) {
        bool more = i + 1 < count;
        if (strcmp(words[i], "--seed") == 0 && more)
            ret->seed = strtoul(words[++i], NULL, 10);
        else if (strcmp(words[i], "--law") == 0 && more)
            ret->law = words[++i];
        else if (strcmp(words[i], "--trial") == 0 && more)
            ret->trial = strtol(words[++i], NULL, 10);
        else
            ret->count = strtod(words[i], NULL);
    }
    return ret->count >= 1 && (ret->trial < 0 || ret->law);
}

int main(int count, char **words) {
    struct request request;
    if (!read_request(count, words, &request)) {
        fprintf(stderr, "usage: properties COUNT [--seed N] [--law NAME [--trial N]]\n");
        return EXIT_FAILURE;
    }
    struct library lib;
    struct unifac_table unifac;
    tables_open_unifac(&lib, TABLE_ALL & ~TABLE_REFERENCES, &unifac);
    static struct trial trial;
    trial = (struct trial){.lib = &lib, .unifac = &unifac};
    int status = try_all(&trial, &request);
    tables_close_unifac(&lib, &unifac);
    return status;
}
