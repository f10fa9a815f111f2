// SPDX-License-Identifier: GPL-3.0-or-later
// The report's classification of the chosen blend. Apart from report.h, because selection/ and physics/ both name
// classes of hazards.
#ifndef MILDSOLVE_CLI_REPORT_LABEL_H
#define MILDSOLVE_CLI_REPORT_LABEL_H

#include "cli/report.h"
#include "physics/classification.h"

struct report_label {
    struct classification_input input;
    const char *flash_words; // where the flash point comes from
    struct classification classification;
};

// STATUS_MEMORY, STATUS_NO_DATA.
enum status report_ask_label(struct report *report, struct error *err);

#endif
