// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/candidates.h"

static bool has_candidate(const struct candidates *candidates, const struct composition *c) {
    for (size_t i = 0; i < candidates->count; i++)
        if (composition_compare(&candidates->rows[i].best, c) == 0)
            return true;
    return false;
}

enum status candidates_add(const struct ranking_request *request, const struct film_row *row,
                           const struct composition *c, struct candidates *candidates, struct error *err) {
    if (candidates->count == RANKING_CANDIDATES || has_candidate(candidates, c))
        return STATUS_OK;
    struct blend *blend = &candidates->blends[candidates->count];
    enum status status = composition_blend(request->goal, request->lib, c, blend, err);
    if (status != STATUS_OK)
        return status;
    struct film_search_request one = {
        .goal = request->goal, .lib = request->lib, .table = request->table, .view = &candidates->nominal};
    struct film_row *slot = &candidates->rows[candidates->count];
    *slot = *row;
    status = film_figures_of(&one, c, slot, err);
    if (status == STATUS_OK)
        candidates->count++;
    if (status == STATUS_NO_DATA) {
        error_clear(err);
        status = STATUS_OK; // not a candidate
    }
    return status;
}
