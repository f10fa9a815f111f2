// SPDX-License-Identifier: GPL-3.0-or-later
// Whole processes of the commands, from start to exit, against /bin/true in the same run: wall time and processor time
// (own and the system's for it), the best of many rounds that take turns. The goal of `place` is judged by processor
// time: there is nothing to wait for, and other programs stretch only the wall time.
// Usage: bench_start PROGRAM
#include "stopwatch.h"

#include <fcntl.h>
#include <spawn.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>

enum { ROUNDS = 60, WORDS_MAX = 16 };

static const double goal_ms = 15; // of the first command

// The path of the program is put in front.
static const char *commands[][WORDS_MAX] = {
    {NULL, "place", "toluene 75 + acetone 25"},
    {NULL, "place", "toluene 75 + acetone 25", "--json"},
    {NULL, "drying", "ethanol 30 + toluene 70"},
    {NULL, "exposure", "toluene 1 + acetone 1", "--use", "20", "--hours", "5", "--room", "85", "--air-changes", "3",
     "--limits", "eu"},
    {NULL, "label", "toluene 75 + acetone 25"},
    {NULL, "recipe", "propan-2-ol 30 + isooctane 70", "--volume", "40"},
    {NULL, "limits", "toluene"},
    {NULL, "solvents", "acetone"},
    {NULL, "solvents"},
    {NULL, "materials"},
    {NULL, "check"},
    {NULL, "--version"},
};
enum { COMMANDS = sizeof commands / sizeof commands[0] };

struct cost {
    double wall_ms, processor_ms;
};

static void stop(const char *what) {
    fprintf(stderr, "bench_start: %s\n", what);
    exit(2);
}

static double wall_ms(void) {
    return 1e3 * seconds(CLOCK_MONOTONIC);
}

static double children_ms(void) {
    struct rusage used;
    getrusage(RUSAGE_CHILDREN, &used);
    return 1e3 * (double)(used.ru_utime.tv_sec + used.ru_stime.tv_sec) +
           1e-3 * (double)(used.ru_utime.tv_usec + used.ru_stime.tv_usec);
}

static void keep_best(struct cost *best, double wall, double processor) {
    best->wall_ms = wall < best->wall_ms ? wall : best->wall_ms;
    best->processor_ms = processor < best->processor_ms ? processor : best->processor_ms;
}

// Runs a program with its answer thrown away; tables of whoever runs this stay out.
static void run_once(const char *const words[WORDS_MAX], struct cost *best) {
    static char path[] = "PATH=/usr/bin:/bin", tables[] = "XDG_DATA_HOME=/nonexistent";
    char *environment[] = {path, tables, NULL}, *arguments[WORDS_MAX];
    posix_spawn_file_actions_t actions;
    pid_t process;
    int status;
    memcpy(arguments, words, sizeof arguments);
    posix_spawn_file_actions_init(&actions);
    posix_spawn_file_actions_addopen(&actions, 1, "/dev/null", O_WRONLY, 0);
    double start = wall_ms(), before = children_ms();
    if (posix_spawn(&process, words[0], &actions, NULL, arguments, environment) != 0)
        stop(words[0]);
    if (waitpid(process, &status, 0) != process || !WIFEXITED(status) || WEXITSTATUS(status) != 0)
        stop("a command failed");
    keep_best(best, wall_ms() - start, children_ms() - before);
    posix_spawn_file_actions_destroy(&actions);
}

static void print(const char *const *words, struct cost cost, struct cost least) {
    printf("%8.2f %8.2f %7.1f ", cost.wall_ms, cost.processor_ms, cost.processor_ms / least.processor_ms);
    for (size_t i = 1; words[i]; i++)
        printf(" %s", words[i]);
    printf("\n");
}

int main(int argc, char **argv) {
    static const char *const nothing[WORDS_MAX] = {"/bin/true"};
    struct cost least = {1e9, 1e9}, costs[COMMANDS];
    if (argc != 2)
        stop("needs the path of the program");
    for (size_t i = 0; i < COMMANDS; i++) {
        commands[i][0] = argv[1];
        costs[i] = (struct cost){1e9, 1e9};
    }
    for (int round = 0; round < ROUNDS; round++) {
        run_once(nothing, &least);
        for (size_t i = 0; i < COMMANDS; i++)
            run_once(commands[i], &costs[i]);
    }
    printf(" wall ms   cpu ms  ratio  (best of %d; ratio of processor time to /bin/true)\n", ROUNDS);
    printf("%8.2f %8.2f %7.1f  /bin/true\n", least.wall_ms, least.processor_ms, 1.0);
    for (size_t i = 0; i < COMMANDS; i++)
        print(commands[i], costs[i], least);
    bool reached = costs[0].processor_ms <= goal_ms;
    printf("goal (`place` in %.0f ms): %s\n", goal_ms, reached ? "reached" : "missed");
    return reached ? 0 : 1;
}
