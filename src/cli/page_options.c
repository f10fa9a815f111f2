// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page_options.h"

#include <string.h>

static const struct option chart_options[] = {
    PAGE_OPTIONS, {.name = "--start"}, {.name = "--material"}, {.name = "--rule"}};
enum { CHART_OPTIONS = sizeof chart_options / sizeof chart_options[0] };

bool page_option(const char *name) {
    for (size_t i = 0; i < CHART_OPTIONS; i++)
        if (strcmp(chart_options[i].name, name) == 0)
            return true;
    return false;
}

bool picture_asked(const struct invocation *inv) {
    return option_given(inv, "--chart") || (option_known(inv, "--section") && option_given(inv, "--section"));
}

enum status page_options_check(const struct invocation *inv, struct error *err) {
    if (picture_asked(inv))
        return STATUS_OK;
    for (size_t i = 0; i < CHART_OPTIONS; i++)
        if (option_given(inv, chart_options[i].name) &&
            !(inv->command->dated && strcmp(chart_options[i].name, "--date") == 0))
            return error_set(err, STATUS_USAGE, "%s is about a chart; ask for one with --chart FILE",
                             chart_options[i].name);
    return STATUS_OK;
}

static enum status read_day(const struct invocation *inv, const char **ret, struct error *err) {
    struct date day;
    char written[DATE_BYTES];
    enum status status = option_date(inv, "--date", inv->as_of, &day, err);
    if (status != STATUS_OK || !date_is_set(day))
        return status;
    const char *kept = arena_text(inv->arena, date_write(day, written));
    if (!kept)
        return error_set(err, STATUS_MEMORY, "out of memory");
    *ret = kept;
    return STATUS_OK;
}

enum status page_options(const struct invocation *inv, enum sheet_size fallback, struct chart_page *ret,
                         struct error *err) {
    static const char *const papers[] = {"a4", "letter", NULL}; // in the order of enum paper
    static const char *const sizes[] = {"full", "half", NULL};  // of enum sheet_size
    int paper = 0;
    int size = 0;
    int dpi = 0;
    const char *date = NULL;
    enum status status = option_word(inv, "--paper", papers, PAPER_A4, &paper, err);
    if (status == STATUS_OK)
        status = option_word(inv, "--size", sizes, (int)fallback, &size, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--dpi", CHART_DPI_MIN, CHART_DPI_MAX, CHART_DPI_DEFAULT, &dpi, err);
    if (status == STATUS_OK)
        status = read_day(inv, &date, err);
    if (status != STATUS_OK)
        return status;
    *ret = (struct chart_page){.title = option_value(inv, "--title"),
                               .object = option_value(inv, "--object"),
                               .date = date,
                               .data_version = inv->library.version,
                               .paper = (enum paper)paper,
                               .sheet = (enum sheet_size)size,
                               .dpi = dpi,
                               .black_and_white = option_given(inv, "--grey")};
    return STATUS_OK;
}
