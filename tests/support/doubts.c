// SPDX-License-Identifier: GPL-3.0-or-later
#include "doubts.h"

#include "tables.h"

#include <stdio.h>
#include <stdlib.h>

void doubts_open(struct doubts *doubts) {
    tables_open_unifac(&doubts->lib, TABLE_ALL, &doubts->table);
    doubts->goal = (struct goal){.remove_count = 1, .spare_count = 1};
    doubts->goal.remove[0] = tables_material(&doubts->lib, "dammar-aged");
    doubts->goal.spare[0] = tables_material(&doubts->lib, "linseed-oil-film-young");
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
    tables_close_unifac(&doubts->lib, &doubts->table);
}

void doubts_add(struct doubts *doubts, const char *notation) {
    if (doubts->request.count == DOUBT_BLENDS_MAX)
        exit(2);
    doubts->blends[doubts->request.count++] = tables_blend(&doubts->lib, notation);
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
