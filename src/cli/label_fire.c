// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/label_fire.h"

#include "base/language.h"
#include "physics/flash.h"

#include <math.h>

static double lowest_boiling_point(const struct blend *blend) {
    double lowest = NAN;
    for (size_t i = 0; i < blend->count; i++)
        if (blend->components[i]->properties && blend->volume_fractions[i] >= FLASH_TRACE_FRACTION)
            lowest = fmin(lowest, blend->components[i]->properties->boiling_point.value);
    return lowest;
}

static const char *take_flash(const struct flash *flash, struct classification_input *input) {
    // In whole degrees, as they are printed: nobody shall read that -12 lies below -12.
    bool by_model = round(flash->model_c) < round(flash->lowest_component_c);
    input->flash_c = flash->display_c;
    // An incomplete flash point decides only where it is low enough for any category but 1.
    if (!isnan(flash->display_c) && (flash->complete || flash->display_c < 23))
        input->flash = FLASH_KNOWN;
    else
        input->flash = flash->flammable || !flash->complete ? FLASH_NOT_KNOWN : FLASH_NONE;
    if (!flash->complete && by_model)
        return N_(N_("by the model, which lacks a component's data"));
    return by_model ? N_(N_("by the model, below that of every component")) : N_(N_("of the lowest component"));
}

static enum status compute(const struct unifac_table *groups, const struct blend *blend,
                           struct classification_input *input, const char **ret_words, struct error *err) {
    struct error own = {0};
    struct flash flash;
    double boiling_c = NAN;
    enum status status = flash_point_of_blend(groups, blend, &flash, &own);
    if (status == STATUS_OK)
        *ret_words = take_flash(&flash, input);
    if (status == STATUS_OK || status == STATUS_NO_DATA)
        status = boiling_point_of_blend(groups, blend, &boiling_c, &own);
    if (status == STATUS_MEMORY)
        return error_set(err, status, "%s", own.text);
    input->boiling_c = status == STATUS_OK ? boiling_c : lowest_boiling_point(blend);
    return STATUS_OK;
}

enum status label_fire(const struct library *lib, const struct blend *blend, struct classification_input *input,
                       const char **ret_words, struct error *err) {
    struct unifac_table groups;
    enum status status = unifac_table_make(lib, &groups, err);
    if (status != STATUS_OK)
        return status;
    status = compute(&groups, blend, input, ret_words, err);
    unifac_table_release(&groups);
    return status;
}
