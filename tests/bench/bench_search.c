// SPDX-License-Identifier: GPL-3.0-or-later
// The search by distance beside brute force: a loop in C compiled alike, a vectorised one in NumPy, and ours, in one
// run on one machine, each in a process of its own on one core. Times are of the processor, so that other work on the
// machine counts little. Brute force looks at the blends of exactly k bottles and keeps the best one; ours looks at
// those of up to k bottles and keeps the ten best sets with a proof. Where brute force would take minutes it does a
// part, and the whole is reckoned from it (marked ~).
//
// Usage: bench_search PYTHON SCRIPT, where SCRIPT is brute_numpy.py; without them NumPy is left out.
#define _DEFAULT_SOURCE // wait4
#include "shelf.h"
#include "stopwatch.h"
#include "tables.h"

#include "selection/search.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

enum { ROWS = 10, STEPS = 20, REPEATS = 15 };

// What must be reached.
static const double ratio_four_of_60 = 30, ratio_three_of_60 = 8, growth_60_to_200 = 5, memory_mb = 1024;

static const double brute_most = 3e9;   // blends that the loop in C does at most
static const double numpy_seconds = 10; // after which NumPy stops

struct figures {
    double blends; // looked at, or on the grid
    double seconds;
    double evaluated;
    double best; // largest Ra to the spared material
    double memory_mb;
    bool proved;
};

static struct invented invented;
static struct library lib;
static bool failed;

// --- shelves ---

// Spread over the table, which is ordered by family; beyond it, bottles of two liquids in a random proportion.
static void fill_shelf(size_t bottles) {
    const struct component *liquids[INVENTED_MOST];
    size_t count = 0;
    for (size_t i = 0; i < lib.component_count; i++)
        if (!isnan(lib.components[i].hansen.delta_d))
            liquids[count++] = &lib.components[i];
    struct random random = {20};
    for (size_t i = 0; i < bottles && i < count; i++) {
        size_t at = bottles < count ? i * count / bottles : i;
        invented.goal.bottles[invented.goal.bottle_count++].component = liquids[at];
    }
    while (invented.goal.bottle_count < bottles) {
        struct hansen one = hansen_of_component(liquids[random_below(&random, count)]);
        struct hansen other = hansen_of_component(liquids[random_below(&random, count)]);
        double share = 0.05 + 0.9 * random_uniform(&random);
        char id[16];
        snprintf(id, sizeof id, "two-%zu", invented.goal.bottle_count);
        invented_bottle(&invented, id,
                        (struct hansen){share * one.delta_d + (1 - share) * other.delta_d,
                                        share * one.delta_p + (1 - share) * other.delta_p,
                                        share * one.delta_h + (1 - share) * other.delta_h});
    }
}

static void make_goal(size_t bottles, int components, const char *remove, const char *spare) {
    invented_start(&invented, components, STEPS, 0.1);
    fill_shelf(bottles);
    invented.goal.remove[invented.goal.remove_count++] = tables_material(&lib, remove);
    invented.goal.spare[invented.goal.spare_count++] = tables_material(&lib, spare);
}

// --- ours ---

static int by_seconds(const void *a, const void *b) {
    double x = *(const double *)a, y = *(const double *)b;
    return x < y ? -1 : x > y;
}

static struct figures ours(void) {
    struct figures figures = {0};
    double laps[REPEATS];
    for (int i = 0; i < REPEATS; i++) {
        struct search_request request = {.goal = &invented.goal, .lib = &lib, .rows_most = ROWS, .threads = 1};
        struct search_result result;
        double begun = seconds(CLOCK_PROCESS_CPUTIME_ID);
        if (search_by_distance(&request, &result, NULL) != STATUS_OK)
            return figures;
        laps[i] = seconds(CLOCK_PROCESS_CPUTIME_ID) - begun;
        figures = (struct figures){.blends = result.blends, .evaluated = result.evaluated, .proved = result.proved};
        figures.best = result.row_count ? result.rows[0].score.ra_spare : 0;
        search_result_release(&result);
    }
    qsort(laps, REPEATS, sizeof laps[0], by_seconds);
    figures.seconds = laps[REPEATS / 2];
    return figures;
}

// --- the loop in C ---

struct brute {
    double place[INVENTED_MOST][3]; // stretched, of one step
    double inside[3], outside[3];
    double limit; // squared
    double best;  // squared
};

static void stretch(struct hansen h, double scale, double ret[3]) {
    ret[0] = 2 * h.delta_d * scale;
    ret[1] = h.delta_p * scale;
    ret[2] = h.delta_h * scale;
}

static struct brute brute_of_goal(void) {
    struct brute brute = {0};
    const struct sphere_values *remove = &invented.goal.remove[0]->sphere;
    for (size_t i = 0; i < invented.goal.bottle_count; i++)
        stretch(hansen_of_component(invented.goal.bottles[i].component), 1.0 / STEPS, brute.place[i]);
    stretch(hansen_of_sphere(remove), 1, brute.inside);
    stretch(hansen_of_sphere(&invented.goal.spare[0]->sphere), 1, brute.outside);
    brute.limit = (1 - invented.goal.margin) * remove->r0 * (1 - invented.goal.margin) * remove->r0;
    return brute;
}

static inline void look(struct brute *brute, const double x[3]) {
    double a = x[0] - brute->inside[0], b = x[1] - brute->inside[1], c = x[2] - brute->inside[2];
    if (a * a + b * b + c * c > brute->limit)
        return;
    a = x[0] - brute->outside[0];
    b = x[1] - brute->outside[1];
    c = x[2] - brute->outside[2];
    double away = a * a + b * b + c * c;
    if (away > brute->best)
        brute->best = away;
}

// Trades a step of the last bottle for one of bottle i.
static inline void trade(double x[3], const double by[3]) {
    x[0] += by[0];
    x[1] += by[1];
    x[2] += by[2];
}

static void differences(const struct brute *brute, const int *bottles, int count, double ret[4][3]) {
    for (int i = 0; i < count - 1; i++)
        for (int axis = 0; axis < 3; axis++)
            ret[i][axis] = brute->place[bottles[i]][axis] - brute->place[bottles[count - 1]][axis];
}

// One line of blends: shares 1 to `most` of one bottle, from a blend without it.
static inline void walk_line(struct brute *brute, const double from[3], const double by[3], int most) {
    double x[3] = {from[0], from[1], from[2]};
    for (int i = 0; i < most; i++) {
        trade(x, by);
        look(brute, x);
    }
}

static void walk_set(struct brute *brute, const int *bottles, int count) {
    double by[4][3];
    differences(brute, bottles, count, by);
    double x[3];
    for (int axis = 0; axis < 3; axis++)
        x[axis] = STEPS * brute->place[bottles[count - 1]][axis];
    if (count == 2) {
        walk_line(brute, x, by[0], STEPS - 1);
    } else if (count == 3) {
        for (int a = 1; a <= STEPS - 2; a++) {
            trade(x, by[0]);
            walk_line(brute, x, by[1], STEPS - a - 1);
        }
    } else {
        for (int a = 1; a <= STEPS - 3; a++) {
            trade(x, by[0]);
            double y[3] = {x[0], x[1], x[2]};
            for (int b = 1; b <= STEPS - a - 2; b++) {
                trade(y, by[1]);
                walk_line(brute, y, by[2], STEPS - a - b - 1);
            }
        }
    }
}

static bool next_set(int *set, int count, int bottles) {
    int i = count - 1;
    while (i >= 0 && set[i] == bottles - count + i)
        i--;
    if (i < 0)
        return false;
    set[i]++;
    for (int j = i + 1; j < count; j++)
        set[j] = set[j - 1] + 1;
    return true;
}

static struct figures loop_in_c(void) {
    int count = invented.goal.components_most;
    struct brute brute = brute_of_goal();
    struct figures figures = {0};
    double each = count == 2 ? STEPS - 1 : count == 3 ? (STEPS - 1) * (STEPS - 2) / 2.0 : 969;
    int set[4] = {0, 1, 2, 3};
    double begun = seconds(CLOCK_PROCESS_CPUTIME_ID);
    do {
        walk_set(&brute, set, count);
        figures.blends += each;
    } while (figures.blends < brute_most && next_set(set, count, (int)invented.goal.bottle_count));
    figures.seconds = seconds(CLOCK_PROCESS_CPUTIME_ID) - begun;
    figures.best = sqrt(brute.best);
    return figures;
}

// --- each in a process of its own ---

// Memory is that of the child, unless it has filled it in itself.
static struct figures apart(struct figures (*work)(void)) {
    int ends[2];
    struct figures figures = {0};
    if (pipe(ends) != 0)
        return figures;
    fflush(stdout);
    pid_t child = fork();
    if (child == 0) {
        figures = work();
        ssize_t written = write(ends[1], &figures, sizeof figures);
        _exit(written == sizeof figures ? 0 : 1);
    }
    close(ends[1]);
    struct rusage usage;
    int status;
    if (child < 0 || read(ends[0], &figures, sizeof figures) != sizeof figures || wait4(child, &status, 0, &usage) < 0)
        failed = true;
    close(ends[0]);
    if (figures.memory_mb == 0)
        figures.memory_mb = (double)usage.ru_maxrss / 1024;
    return figures;
}

static const char *const *python_words;

static void write_places(const char *path) {
    FILE *file = fopen(path, "w");
    struct brute brute = brute_of_goal();
    if (!file)
        return;
    fprintf(file, "remove %.17g %.17g %.17g %.17g\nspare %.17g %.17g %.17g\n", brute.inside[0], brute.inside[1],
            brute.inside[2], sqrt(brute.limit), brute.outside[0], brute.outside[1], brute.outside[2]);
    for (size_t i = 0; i < invented.goal.bottle_count; i++)
        fprintf(file, "%.17g %.17g %.17g\n", STEPS * brute.place[i][0], STEPS * brute.place[i][1],
                STEPS * brute.place[i][2]);
    fclose(file);
}

static struct figures with_numpy(void) {
    struct figures figures = {0};
    char path[] = "/tmp/bench-search-XXXXXX";
    int file = mkstemp(path);
    if (!python_words[0] || !python_words[1] || file < 0)
        return figures;
    close(file);
    write_places(path);
    char command[1024];
    snprintf(command, sizeof command, "%s %s %d %d %g < %s", python_words[0], python_words[1],
             invented.goal.components_most, STEPS, numpy_seconds, path);
    FILE *answer = popen(command, "r");
    if (answer && fscanf(answer, "%lf %lf %lf", &figures.blends, &figures.seconds, &figures.best) != 3)
        figures.seconds = 0;
    if (answer)
        pclose(answer);
    unlink(path);
    struct rusage usage;
    getrusage(RUSAGE_CHILDREN, &usage);
    figures.memory_mb = (double)usage.ru_maxrss / 1024; // read here: this process has no other children
    return figures;
}

// --- the table ---

static void time_cell(double done, const struct figures *figures) {
    if (figures->seconds == 0) {
        printf(" %11s", "-");
        return;
    }
    double whole = figures->seconds * done / figures->blends;
    printf(" %s%*.*f", figures->blends < done ? "~" : " ", 10, whole < 1 ? 4 : 2, whole);
}

static double exactly(size_t bottles, int components) {
    return goal_blend_count(bottles, components, STEPS) - goal_blend_count(bottles, components - 1, STEPS);
}

static void check(bool reached, const char *words) {
    if (!reached)
        printf("MISSED: %s\n", words);
    failed |= !reached;
}

struct line {
    struct figures ours, c;
};

static struct line one_line(size_t bottles, int components, const char *remove, const char *spare, bool with_python) {
    make_goal(bottles, components, remove, spare);
    struct line line = {.ours = apart(ours), .c = apart(loop_in_c)};
    struct figures numpy = with_python ? apart(with_numpy) : (struct figures){0};
    double blends = exactly(bottles, components);
    double whole = line.c.seconds * blends / line.c.blends;
    printf("%7zu %2d %14.0f", bottles, components, blends);
    time_cell(blends, &line.c);
    time_cell(blends, &numpy);
    printf(" %10.5f %9.0f", line.ours.seconds, whole / line.ours.seconds);
    if (numpy.seconds > 0)
        printf(" %9.0f", numpy.seconds * blends / numpy.blends / line.ours.seconds);
    else
        printf(" %9s", "-");
    printf(" %8.0f %6.1f %6.1f %6.1f\n", line.ours.evaluated, line.ours.memory_mb, line.c.memory_mb, numpy.memory_mb);
    check(line.ours.proved, "every list is proved");
    // Blends of fewer bottles may be better still; those of exactly k can't be better than the best of all.
    check(line.ours.best >= line.c.best - 1e-9, "nothing that brute force found is better");
    return line;
}

static void table(const char *remove, const char *spare, struct line ret[4][5], bool with_python) {
    static const size_t shelves[] = {20, 60, 88, 200};
    printf("\nremove %s, spare %s, margin 0.1, grid 5 %%\n", remove, spare);
    printf("%7s %2s %14s %11s %11s %10s %9s %9s %8s %6s %6s %6s\n", "bottles", "k", "blends of k", "C, s", "NumPy, s",
           "ours, s", "C/ours", "Np/ours", "scored", "MB", "C, MB", "Np, MB");
    for (int shelf = 0; shelf < 4; shelf++)
        for (int components = 2; components <= 4; components++)
            ret[shelf][components] = one_line(shelves[shelf], components, remove, spare, with_python);
    for (int components = 2; components <= 4; components++) {
        double growth = ret[3][components].ours.seconds / ret[1][components].ours.seconds;
        double growth_c = exactly(200, components) / exactly(60, components);
        printf("from 60 to 200 bottles, %d components: ours takes %.1f times as long (bottles^%.1f), brute force %.0f "
               "(bottles^%.1f)\n",
               components, growth, log(growth) / log(200.0 / 60), growth_c, log(growth_c) / log(200.0 / 60));
    }
    printf("from 3 to 4 components, 60 bottles: ours takes %.1f times as long, brute force %.0f\n",
           ret[1][4].ours.seconds / ret[1][3].ours.seconds, exactly(60, 4) / exactly(60, 3));
}

int main(int argc, char **argv) {
    static struct line lines[4][5];
    const char *words[] = {argc > 1 ? argv[1] : NULL, argc > 2 ? argv[2] : NULL};
    python_words = words;
    tables_open(&lib, TABLE_COMPONENTS | TABLE_MATERIALS);
    printf("The search by distance beside brute force; %d best sets, one core, processor time.\n", ROWS);
    table("dammar-aged", "linseed-oil-film-young", lines, true);
    check(lines[1][4].c.seconds / lines[1][4].ours.seconds >= ratio_four_of_60, "60 x 4 at least 30 times faster");
    check(lines[1][3].c.seconds / lines[1][3].ours.seconds >= ratio_three_of_60, "60 x 3 at least 8 times faster");
    check(lines[3][4].ours.seconds / lines[1][4].ours.seconds <= growth_60_to_200,
          "200 x 4 at most 5 times the time of 60 x 4");
    check(lines[3][4].ours.memory_mb < memory_mb, "less than 1 GiB");
    // Goals of other shapes: the best place well within what the shelf can reach, and at its edge.
    table("ketone-resin-aged", "linseed-oil-film-young", lines, false);
    table("dammar-fresh", "alkyd-short-oil", lines, false);
    library_release(&lib);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
