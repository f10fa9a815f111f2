// SPDX-License-Identifier: GPL-3.0-or-later
// A piece of work as it is written down: "9:00-11:30 swab 20 mL/h of toluene 1 + acetone 1".
//
//   FROM-TO METHOD AMOUNT [on N cm2] [of BLEND]
//
// FROM and TO are times of one day (TO up to 24:00), METHOD one of swab, brush, spray, gel, AMOUNT so many mL/h, or so
// many mL in the whole task; "on N cm2" is the surface that is wet at a time, work and swabs together, which only
// the rate by the model needs.
#ifndef MILDSOLVE_PHYSICS_DAY_TASK_H
#define MILDSOLVE_PHYSICS_DAY_TASK_H

#include "base/error.h"

#include <stdbool.h>
#include <stddef.h>

enum day_method { METHOD_SWAB, METHOD_BRUSH, METHOD_SPRAY, METHOD_GEL };
extern const char *const day_method_words[]; // swab brush spray gel NULL

struct day_task {
    double from_h, to_h; // of the clock, 0 to 24
    enum day_method method;
    double use_ml_h;   // > 0
    double wet_cm2;    // NAN = not stated
    const char *blend; // what stands behind "of", inside the text that was read; NULL = not stated
};

// A time of day as hours and two digits of minutes, "9:30" or "09:30", in the first `length` bytes; true when it is one
// up to 24:00, false leaves *ret_h as it is.
bool day_time_read(const char *words, size_t length, double *ret_h);

// STATUS_USAGE says what is wrong and what would be right.
enum status day_task_parse(const char *words, struct day_task *ret, struct error *err);

#endif
