// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/page_options.h"

enum status page_options(const struct invocation *inv, enum sheet_size fallback, struct chart_page *ret,
                         struct error *err) {
    static const char *const papers[] = {"a4", "letter", NULL}; // in the order of enum paper
    static const char *const sizes[] = {"full", "half", NULL};  // of enum sheet_size
    int paper = 0;
    int size = 0;
    int dpi = 0;
    enum status status = option_word(inv, "--paper", papers, PAPER_A4, &paper, err);
    if (status == STATUS_OK)
        status = option_word(inv, "--size", sizes, (int)fallback, &size, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--dpi", CHART_DPI_MIN, CHART_DPI_MAX, CHART_DPI_DEFAULT, &dpi, err);
    if (status != STATUS_OK)
        return status;
    *ret = (struct chart_page){.title = option_value(inv, "--title"),
                               .object = option_value(inv, "--object"),
                               .date = option_value(inv, "--date"),
                               .data_version = inv->library.version,
                               .paper = (enum paper)paper,
                               .sheet = (enum sheet_size)size,
                               .dpi = dpi,
                               .black_and_white = option_given(inv, "--grey")};
    return STATUS_OK;
}
