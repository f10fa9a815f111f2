// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/record_row.h"

#include <string.h>

static const struct {
    const char *option;
    const char *key; // NULL: more than one
} cells[] = {
    {"--blend", "blend"},
    {"--result", "result"},
    {"--passage", "passage"},
    {"--site", NULL},
    {"--layer", "layer"},
    {"--delivery", "delivery"},
    {"--load", "load_ml"},
    {"--contact", "contact_s"},
    {"--rolls", "rolls"},
    {"--colour-on-swab", "colour_on_swab"},
    {"--blanching", "blanching"},
    {"--clearing", "clearing"},
    {"--wet", "note_wet"},
    {"--dry", "note_dry"},
    {"--next-day", "note_next_day"},
    {"--uv", "note_uv"},
    {"--photo", "photo"},
    {"--id", "id"},
};

enum { CELLS = sizeof cells / sizeof cells[0] };

static const char *trimmed(struct arena *arena, const char *from, const char *to) {
    while (from < to && *from == ' ')
        from++;
    while (to > from && to[-1] == ' ')
        to--;
    return arena_text_n(arena, from, (size_t)(to - from));
}

// "40,25": two numbers with a decimal point if any, so that exactly one comma may stand here.
static enum status read_site(struct invocation *inv, struct test_row *row, struct error *err) {
    const char *site = option_value(inv, "--site");
    if (!site)
        return STATUS_OK;
    const char *comma = strchr(site, ',');
    if (!comma || strchr(comma + 1, ','))
        return error_set(err, STATUS_USAGE,
                         "--site '%.40s': two numbers are expected, mm along and mm up from the corner that the case "
                         "names, with a decimal point where needed: --site 40,25.5",
                         site);
    const char *x_mm = trimmed(inv->arena, site, comma);
    const char *y_mm = trimmed(inv->arena, comma + 1, comma + strlen(comma));
    if (!x_mm || !y_mm)
        return error_set(err, STATUS_MEMORY, "out of memory");
    test_row_set(row, "x_mm", x_mm);
    test_row_set(row, "y_mm", y_mm);
    return STATUS_OK;
}

enum status record_row_read(struct invocation *inv, struct test_row *ret, struct error *err) {
    struct test_row row = {0};
    for (size_t i = 0; i < CELLS; i++) {
        const char *value = option_value(inv, cells[i].option);
        if (value && cells[i].key)
            test_row_set(&row, cells[i].key, value);
    }
    enum status status = read_site(inv, &row, err);
    if (status == STATUS_OK)
        *ret = row;
    return status;
}

const char *record_row_given(const struct invocation *inv) {
    for (size_t i = 0; i < CELLS; i++)
        if (option_given(inv, cells[i].option))
            return cells[i].option;
    return NULL;
}
