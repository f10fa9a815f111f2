// SPDX-License-Identifier: GPL-3.0-or-later
// Where the tables are: in the source tree of an uninstalled build, or under the prefix of an installed one, and the
// user's own directories on top.
#ifndef MILDSOLVE_DATA_LOCATE_H
#define MILDSOLVE_DATA_LOCATE_H

#include "base/arena.h"
#include "base/error.h"
#include "data/library.h"

enum { DATA_DIRECTORIES_MAX = 8 };

struct data_directories {
    struct data_directory items[DATA_DIRECTORIES_MAX];
    size_t count;
};

// First the shipped tables (found from the running program's own place: a file "uninstalled-data" beside it holds the
// path of the source tree's data/; otherwise ../share/mildsolve), then $XDG_DATA_HOME/mildsolve (or
// ~/.local/share/mildsolve) when it exists, then `extra` in order. STATUS_NOT_FOUND names what was looked for.
enum status locate_data(struct arena *arena, const char *const *extra, size_t extra_count, struct data_directories *ret,
                        struct error *err);

// STATUS_INPUT when one of the user's directories holds no table under a name that is read: its owner believes that it
// counts.
enum status locate_check_own(const char *const *extra, size_t extra_count, struct error *err);

// The folder of the catalogues of other languages: data/po of an uninstalled build, ../share/locale of an installed
// one. NULL when there is neither.
const char *locate_catalogues(struct arena *arena);

#endif
