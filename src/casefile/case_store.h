// SPDX-License-Identifier: GPL-3.0-or-later
// Changing a case on disk: one writer at a time, the old file or the new one whole, never a broken one.
#ifndef MILDSOLVE_CASEFILE_CASE_STORE_H
#define MILDSOLVE_CASEFILE_CASE_STORE_H

#include "casefile/casefile.h"

// Writes the new text of a case, as it stands on disk now, to *ret_bytes, and says how many values of its tree it adds.
typedef enum status case_changer(const struct casefile *file, struct text *ret_bytes, size_t *ret_values, void *context,
                                 struct error *err);

// Locks FILE.lock, reads and checks the case, lets `change` make the new text, checks that text as a case that holds
// all of the old one and just the values added, writes it beside the file, flushes and renames. Whatever fails, the
// file stays as it was. *ret (in `arena`) is the case as written. Errors of casefile_open, of `change`, STATUS_SYSTEM.
enum status case_change(struct arena *arena, const char *path, const struct library *lib, struct date as_of,
                        case_changer *change, void *context, struct casefile *ret, struct error *err);

#endif
