// SPDX-License-Identifier: GPL-3.0-or-later
// A whole file as bytes.
#ifndef MILDSOLVE_BASE_FILE_READ_H
#define MILDSOLVE_BASE_FILE_READ_H

#include "base/error.h"
#include "base/text.h"

#include <stddef.h>

// Adds the bytes of a file to *ret_bytes; one of more than `limit` bytes is refused without being read to its end.
// STATUS_NOT_FOUND, STATUS_SYSTEM (cannot open or read), STATUS_INPUT (too long), STATUS_MEMORY; the caller releases
// the text in every case.
enum status file_read(const char *path, size_t limit, struct text *ret_bytes, struct error *err);

#endif
