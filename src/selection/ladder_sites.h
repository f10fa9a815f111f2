// SPDX-License-Identifier: GPL-3.0-or-later
// Where to make a test: one light and one dark site at least, and every sensitive passage before any large area.
#ifndef MILDSOLVE_SELECTION_LADDER_SITES_H
#define MILDSOLVE_SELECTION_LADDER_SITES_H

#include "casefile/casefile.h"
#include "selection/ladder.h"

enum { LADDER_SITES_MAX = 32 };

enum site_kind { SITE_LIGHT, SITE_DARK, SITE_SENSITIVE };
const char *site_kind_words(enum site_kind kind); // light dark sensitive

struct ladder_site {
    size_t passage; // index in the case
    enum site_kind kind;
    double done_percent; // strongest share of this direction tested in the passage so far; negative = none
    double next_percent; // what to take there: the rung, or less where the passage must catch up; NAN when even the
                         // weak liquid alone found original colour elsewhere, and this passage was not tested
    double x_mm, y_mm;   // a free spot; NAN when the passage has no place or no free spot
    bool stopped;        // a test in it found original colour: no test there until that is decided
    bool ready;          // the rung itself was tested here already, nothing is left to do
};

// The sites for one rung of a direction, light, dark, then sensitive ones. In a sensitive passage the climb is its own:
// no more than LADDER_RISE_PERCENT above what was tested in that very passage, the base first; once original colour was
// found in the direction, it is so in every passage. Of several light (dark)
// passages the one with most tests is taken, sound ones before sensitive ones. Returns the count; 0 without passages.
size_t ladder_sites(const struct casefile *file, const struct ladder_direction *direction, double percent,
                    struct ladder_site ret[LADDER_SITES_MAX]);

// Spots are this far from tests made (centre to centre) and from the edge of the passage, mm: the window of a swab test
// is some 5 mm wide (common practice).
enum { SITE_APART_MM = 12, SITE_EDGE_MM = 6 };

#endif
