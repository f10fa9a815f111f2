// SPDX-License-Identifier: GPL-3.0-or-later
// Prints how sure the film model is: for well-known series the probability that each step dissolves the aged resin and
// the interval of the paint's swelling, then what the doubt comes from, one source at a time. Run it after a change of
// the model, of the tables' uncertainties or of the sampling.
#include "base/memory.h"
#include "selection/doubt.h"
#include "tables.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { SAMPLES = 1024, LISTED = 20 };
static const double temp_k = 293.15;

struct desk {
    struct library lib;
    struct unifac_table table;
    struct goal goal;
    struct blend blends[LISTED];
    size_t count;
    struct error err;
};

static const char *const liquids[] = {"ethanol 10 + isooctane 90",
                                      "ethanol 15 + isooctane 85",
                                      "ethanol 20 + isooctane 80",
                                      "ethanol 30 + isooctane 70",
                                      "propan-2-ol 30 + isooctane 70",
                                      "propan-2-ol 40 + isooctane 60",
                                      "propan-2-ol 50 + isooctane 50",
                                      "toluene 60 + acetone 40",
                                      "toluene 50 + acetone 50",
                                      "toluene 40 + acetone 60",
                                      "acetone 30 + isooctane 70",
                                      "acetone 50 + isooctane 50",
                                      "ethyl-acetate 70 + isooctane 30",
                                      "ethanol 30 + toluene 70",
                                      "isooctane",
                                      "toluene",
                                      "ethanol",
                                      "propan-2-ol",
                                      "acetone",
                                      "butanone"};

static void sample(struct desk *desk, unsigned vary, struct doubt *ret) {
    struct doubt_request request = {.goal = &desk->goal,
                                    .lib = &desk->lib,
                                    .table = &desk->table,
                                    .blends = desk->blends,
                                    .count = desk->count,
                                    .temp_k = temp_k,
                                    .samples = SAMPLES,
                                    .seed = 1,
                                    .vary = vary,
                                    .least_probability = 0,
                                    .threads = crew_processors()};
    stop_unless(doubt_sample(&request, ret, &desk->err), &desk->err);
}

static void print_rows(struct desk *desk) {
    struct doubt nominal, doubt;
    sample(desk, 0, &nominal);
    sample(desk, DOUBT_ALL, &doubt);
    printf("%s, paint %s: %zu samples, %zu dropped, error %.3f\n", desk->goal.remove[0]->id, desk->goal.spare[0]->id,
           doubt.samples, doubt.dropped, doubt.error);
    printf("blend                            film model      P(dissolves)  paint swelling 10 50 90 %%   rank 10 50 90 "
           "%%\n");
    for (size_t i = 0; i < desk->count; i++) {
        const struct doubt_row *row = &doubt.rows[i];
        printf("%-32s %-9s %5.2f  %5.2f        %6.2f %6.2f %6.2f        %5.1f %5.1f %5.1f%s\n", liquids[i],
               nominal.rows[i].p_dissolves > 0.5 ? "dissolves" : "swells", nominal.rows[i].swelling_median,
               row->p_dissolves, row->swelling_least, row->swelling_median, row->swelling_most, row->rank_least,
               row->rank_median, row->rank_most, row->failed ? "  solver failures" : "");
    }
    doubt_release(&doubt);
    doubt_release(&nominal);
}

// Mean over the blends of the variance of ln swelling, from its quantiles (the standard deviation of a normal quantity
// is 1/2.563 of what lies between its 10 and 90 %), and of p (1 - p).
static void spread(struct desk *desk, unsigned vary, double *ret_swelling, double *ret_dissolves) {
    struct doubt doubt;
    sample(desk, vary, &doubt);
    *ret_swelling = *ret_dissolves = 0;
    for (size_t i = 0; i < doubt.count; i++) {
        const struct doubt_row *row = &doubt.rows[i];
        double sd = log(row->swelling_most / row->swelling_least) / 2.563;
        *ret_swelling += sd * sd / (double)doubt.count;
        *ret_dissolves += row->p_dissolves * (1 - row->p_dissolves) / (double)doubt.count;
    }
    doubt_release(&doubt);
}

static void print_sources(struct desk *desk) {
    static const char *const words[] = {"alpha",   "entropic part", "centres",    "chains",
                                        "strands", "radii",         "components", "activities"};
    double all[2], one[2], rest[2];
    spread(desk, DOUBT_ALL, &all[0], &all[1]);
    printf("\nWhat the doubt comes from, mean over the blends above, in percent of all together:\n"
           "source          variance of ln swelling: alone, lost without it   p(1-p) of dissolving: alone, lost "
           "without\n");
    for (unsigned i = 0; i < sizeof words / sizeof *words; i++) {
        spread(desk, 1u << i, &one[0], &one[1]);
        spread(desk, DOUBT_ALL & ~(1u << i), &rest[0], &rest[1]);
        printf("%-15s %17.0f %% %17.0f %%  %26.0f %% %17.0f %%\n", words[i], 100 * one[0] / all[0],
               100 * (1 - rest[0] / all[0]), 100 * one[1] / all[1], 100 * (1 - rest[1] / all[1]));
    }
}

int main(void) {
    static struct desk desk;
    tables_open_unifac(&desk.lib, TABLE_ALL, &desk.table);
    desk.goal = (struct goal){.remove_count = 1, .spare_count = 1};
    desk.goal.remove[0] = tables_material(&desk.lib, "dammar-aged");
    desk.goal.spare[0] = tables_material(&desk.lib, "linseed-oil-film-young");
    desk.count = sizeof liquids / sizeof *liquids;
    for (size_t i = 0; i < desk.count; i++)
        desk.blends[i] = tables_blend(&desk.lib, liquids[i]);
    print_rows(&desk);
    print_sources(&desk);
    tables_close_unifac(&desk.lib, &desk.table);
    return 0;
}
