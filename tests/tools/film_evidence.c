// SPDX-License-Identifier: GPL-3.0-or-later
// Prints how the film models stand against what is published of them, as the manual quotes it; the limits that these
// figures must keep are in tests/unit/physics/test_film_order.c.
#include "csv.h"
#include "films.h"
#include "tables.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { LIQUIDS_MAX = 64 };

static double neat_swelling(const struct film_parameters *parameters, const struct component *liquid) {
    struct film film;
    struct film_result result;
    struct error err = {0};
    stop_unless(film_prepare_single(parameters, hansen_of_component(liquid), liquid->molar_volume.value, FILMS_TEMP_K,
                                    &film, &err),
                &err);
    film_of_liquid(&film, (const double[]){1}, NULL, &result);
    return result.outcome == FILM_WITHOUT_LIMIT ? INFINITY : result.swelling;
}

// --- measured chi (Orwoll & Arnold 2007, tests/reference/measured-chi.csv) ---

static void print_chi(struct films *films, const char *polymer) {
    struct csv csv;
    csv_read(reference_path("measured-chi.csv"), &csv);
    struct hansen centre = hansen_of_sphere(&tables_material(&films->lib, polymer)->sphere);
    struct film_parameters parameters = {.centre = centre, .alpha = FILM_ALPHA, .chi_entropic = FILM_CHI_ENTROPIC};
    double measured[LIQUIDS_MAX], ours[LIQUIDS_MAX], distance[LIQUIDS_MAX], level = 0;
    size_t count = 0;
    for (size_t i = 0; i < csv.rows; i++) {
        if (strcmp(csv_text(&csv, i, "polymer"), polymer) != 0)
            continue;
        const struct component *liquid = tables_component(&films->lib, csv_text(&csv, i, "solvent_id"));
        measured[count] = csv_number(&csv, i, "chi");
        ours[count] = film_chi(&parameters, hansen_of_component(liquid), liquid->molar_volume.value,
                               csv_number(&csv, i, "temp_c") + 273.15);
        distance[count] = hansen_distance(hansen_of_component(liquid), centre);
        level += ours[count] - measured[count];
        count++;
    }
    level /= (double)count;
    printf("%-12s  %7zu  %8.2f  %14.2f  %+10.2f  %+13.2f\n", polymer, count, films_spearman(ours, measured, count),
           films_spearman(distance, measured, count), level, level - FILM_CHI_ENTROPIC);
    csv_release(&csv);
}

// --- neat liquids named inside or outside in the note of aged dammar (tests/reference/resins.csv) ---

static void print_side(struct films *films, const char *side, const char *const *ids, size_t count, bool should) {
    struct film_parameters resin = films_parameters(films, "dammar-aged");
    size_t dissolve = 0;
    char odd[400] = "";
    for (size_t i = 0; i < count; i++) {
        bool dissolves = isinf(neat_swelling(&resin, tables_component(&films->lib, ids[i])));
        dissolve += dissolves;
        if (dissolves != should)
            snprintf(odd + strlen(odd), sizeof odd - strlen(odd), " %s", ids[i]);
    }
    printf("%-8s  %9zu  %8zu %s%s\n", side, dissolve, count - dissolve, odd[0] ? "  against the note:" : "", odd);
}

static void print_confusion(struct films *films) {
    static const char *const inside[] = {
        "acetone",           "butanone",        "ethanol",       "methanol",          "propan-2-ol",
        "diacetone-alcohol", "methoxypropanol", "ethoxyethanol", "dimethylformamide", "n-methylpyrrolidone",
        "benzyl-alcohol",    "pyridine"};
    static const char *const outside[] = {
        "n-heptane", "isooctane",       "cyclohexane",      "white-spirit",  "white-spirit-dearomatised",
        "toluene",   "xylenes",         "turpentine",       "diethyl-ether", "n-butyl-acetate",
        "water",     "ethylene-glycol", "propylene-glycol", "glycerol"};
    printf("\nAged dammar, neat liquids that its note names (practice, from memory)\n"
           "note      dissolves  does not\n");
    print_side(films, "inside", inside, sizeof inside / sizeof *inside, true);
    print_side(films, "outside", outside, sizeof outside / sizeof *outside, false);
}

// --- swelling classes (tests/reference/paint-swelling.csv, film 16) ---

struct swollen {
    const struct component *liquid;
    int class;
    double class_rank, swelling_rank, swelling;
};

static size_t swollen_liquids(struct films *films, const char *material, struct swollen *ret) {
    const struct material *paint = tables_material(&films->lib, "linseed-oil-film-young");
    struct film_parameters film = films_parameters(films, material);
    const struct published_swelling *classes = paint->swelling_classes.items;
    double class[LIQUIDS_MAX], swelling[LIQUIDS_MAX], nearness[LIQUIDS_MAX], rank[2][LIQUIDS_MAX];
    size_t count = paint->swelling_classes.count;
    for (size_t i = 0; i < count; i++) {
        const struct component *liquid = tables_component(&films->lib, classes[i].component);
        ret[i] =
            (struct swollen){.liquid = liquid, .class = classes[i].class, .swelling = neat_swelling(&film, liquid)};
        class[i] = classes[i].class;
        swelling[i] = ret[i].swelling;
        nearness[i] = -hansen_distance(hansen_of_component(liquid), film.centre);
    }
    films_ranks(class, count, rank[0]);
    films_ranks(swelling, count, rank[1]);
    for (size_t i = 0; i < count; i++) {
        ret[i].class_rank = rank[0][i];
        ret[i].swelling_rank = rank[1][i];
    }
    printf("%-22s  %7zu  %5.2f  %14.2f\n", material, count, films_spearman(swelling, class, count),
           films_spearman(nearness, class, count));
    return count;
}

static int by_misfit(const void *a, const void *b) {
    const struct swollen *x = a, *y = b;
    double p = fabs(x->class_rank - x->swelling_rank), q = fabs(y->class_rank - y->swelling_rank);
    return p != q ? (p < q) - (p > q) : strcmp(x->liquid->id, y->liquid->id);
}

static void print_misfits(struct swollen *liquids, size_t count) {
    qsort(liquids, count, sizeof *liquids, by_misfit);
    printf("five largest misfits, linseed-oil-film-young (rank from the mildest; model ranks from its swelling)\n"
           "liquid              class         rank of class  of model  swelling\n");
    for (size_t i = 0; i < 5 && i < count; i++)
        printf("%-18s  %-12s  %13.1f  %8.1f  %8.2f\n", liquids[i].liquid->id, swelling_class_words[liquids[i].class],
               liquids[i].class_rank, liquids[i].swelling_rank, liquids[i].swelling);
}

// Stolow's films swelled most in liquids of total parameter 18.0 to 22.5 MPa^0.5 (Phenix, WAAC Newsletter 20(3) 1998).
static void print_band(const struct swollen *liquids, size_t count) {
    double sum[2] = {0}, most[2] = {0};
    size_t number[2] = {0};
    for (size_t i = 0; i < count; i++) {
        double total = hansen_total(hansen_of_component(liquids[i].liquid));
        int in = total >= 18.0 && total <= 22.5;
        sum[in] += liquids[i].swelling;
        most[in] = fmax(most[in], liquids[i].swelling);
        number[in]++;
    }
    printf("\nGreatest swelling at a total parameter of 18.0 to 22.5 MPa^0.5 (Stolow, quoted by Phenix 1998)\n"
           "total parameter  liquids  mean swelling  largest\n");
    for (int in = 1; in >= 0; in--)
        printf("%-15s  %7zu  %13.2f  %7.2f\n", in ? "inside" : "outside", number[in], sum[in] / (double)number[in],
               most[in]);
}

int main(void) {
    static struct films films;
    struct swollen liquids[LIQUIDS_MAX];

    films_open(&films);
    printf("Measured chi (Orwoll and Arnold 2007), rank correlation and mean of ours minus measured\n"
           "polymer       liquids  rank chi  rank distance  mean error  without 0.34\n");
    print_chi(&films, "polystyrene");
    print_chi(&films, "pvac");
    print_confusion(&films);
    printf("\nSwelling classes of oil paint (Phenix 2002, most of them recalled), rank correlation\n"
           "centre of the film      liquids  model  distance alone\n");
    size_t count = swollen_liquids(&films, "linseed-oil-film-young", liquids);
    struct swollen others[LIQUIDS_MAX];
    swollen_liquids(&films, "alkyd-long-oil", others);
    print_misfits(liquids, count);
    print_band(liquids, count);
    films_release(&films);
    return 0;
}
