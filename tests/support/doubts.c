// SPDX-License-Identifier: GPL-3.0-or-later
#include "doubts.h"

#include "tables.h"

#include <stdio.h>
#include <stdlib.h>

static void stop_unless(enum status status, const struct error *err) {
    if (status == STATUS_OK)
        return;
    fprintf(stderr, "%s\n", err->text);
    exit(2);
}

const struct material *doubts_material(const struct doubts *doubts, const char *id) {
    struct error err = {0};
    const struct material *material = NULL;
    stop_unless(library_material(&doubts->lib, id, &material, &err), &err);
    return material;
}

void doubts_open(struct doubts *doubts) {
    struct error err = {0};
    tables_open(&doubts->lib, TABLE_ALL);
    stop_unless(unifac_table_make(&doubts->lib, &doubts->table, &err), &err);
    doubts->goal = (struct goal){.remove_count = 1, .spare_count = 1};
    doubts->goal.remove[0] = doubts_material(doubts, "dammar-aged");
    doubts->goal.spare[0] = doubts_material(doubts, "linseed-oil-film-young");
    doubts->request = (struct doubt_request){.goal = &doubts->goal,
                                             .lib = &doubts->lib,
                                             .table = &doubts->table,
                                             .blends = doubts->blends,
                                             .temp_k = 293.15,
                                             .samples = 256,
                                             .seed = 1,
                                             .vary = DOUBT_ALL,
                                             .threads = 1};
}

void doubts_release(struct doubts *doubts) {
    unifac_table_release(&doubts->table);
    library_release(&doubts->lib);
}

void doubts_add(struct doubts *doubts, const char *notation) {
    struct error err = {0};
    if (doubts->request.count == DOUBT_BLENDS_MAX)
        exit(2);
    stop_unless(blend_parse(&doubts->lib, notation, &doubts->blends[doubts->request.count], NULL, &err), &err);
    doubts->request.count++;
}

void doubts_fill(struct doubts *doubts, const char *const *names, size_t name_count, int steps, size_t count) {
    for (size_t a = 0; a < name_count; a++)
        for (size_t b = a + 1; b < name_count; b++)
            for (size_t c = b + 1; c < name_count; c++)
                for (int i = 1; i < steps - 1; i++)
                    for (int j = 1; i + j < steps; j++) {
                        if (doubts->request.count == count)
                            return;
                        char notation[200];
                        snprintf(notation, sizeof notation, "%s %d + %s %d + %s %d", names[a], i, names[b], j, names[c],
                                 steps - i - j);
                        doubts_add(doubts, notation);
                    }
}

void doubts_sample(struct doubts *doubts, struct doubt *ret) {
    struct error err = {0};
    stop_unless(doubt_sample(&doubts->request, ret, &err), &err);
}
