// SPDX-License-Identifier: GPL-3.0-or-later
// Loaded in front of the C library (LD_PRELOAD): makes an allocation inside the libraries fail. Our own allocations are
// made to fail by base/memory.h; not under AddressSanitizer, which has an allocator of its own.
//   FAIL_LIBRARIES=libyaml,libgsl  whose allocations count: beginnings of the names of shared libraries
//   FAIL_ALLOCATION=7              the 7th of them fails
//   COUNT_ALLOCATIONS=FILE         writes their number there when the process ends
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <stdatomic.h>
#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

// The C library's own, under names that stay when malloc itself is replaced.
void *__libc_malloc(size_t size);
void *__libc_calloc(size_t count, size_t size);
void *__libc_realloc(void *block, size_t size);

static const char *libraries; // NULL: none count
static unsigned long fail_at;
static atomic_ulong counted;

__attribute__((constructor)) static void begin(void) {
    const char *number = getenv("FAIL_ALLOCATION");
    fail_at = number ? strtoul(number, NULL, 10) : 0;
    libraries = getenv("FAIL_LIBRARIES");
}

__attribute__((destructor)) static void tell(void) {
    const char *path = getenv("COUNT_ALLOCATIONS");
    libraries = NULL;
    FILE *file = path ? fopen(path, "w") : NULL;
    if (!file)
        return;
    fprintf(file, "%lu\n", atomic_load(&counted));
    fclose(file);
}

static bool is_listed(const char *path) {
    const char *slash = strrchr(path, '/');
    const char *name = slash ? slash + 1 : path;
    for (const char *at = libraries; *at;) {
        size_t length = strcspn(at, ",");
        if (length && strncmp(name, at, length) == 0)
            return true;
        at += length + (at[length] == ',');
    }
    return false;
}

static bool must_fail(const void *caller) {
    static _Thread_local bool asking; // the linker may allocate while it is asked
    Dl_info info;
    if (!libraries || asking)
        return false;
    asking = true;
    bool listed = dladdr(caller, &info) && info.dli_fname && is_listed(info.dli_fname);
    asking = false;
    if (!listed || atomic_fetch_add(&counted, 1) + 1 != fail_at)
        return false;
    errno = ENOMEM;
    return true;
}

void *malloc(size_t size) {
    return must_fail(__builtin_return_address(0)) ? NULL : __libc_malloc(size);
}

void *calloc(size_t count, size_t size) {
    return must_fail(__builtin_return_address(0)) ? NULL : __libc_calloc(count, size);
}

void *realloc(void *block, size_t size) {
    return must_fail(__builtin_return_address(0)) ? NULL : __libc_realloc(block, size);
}

char *strdup(const char *text) {
    size_t size = strlen(text) + 1;
    char *copy = must_fail(__builtin_return_address(0)) ? NULL : __libc_malloc(size);
    return copy ? memcpy(copy, text, size) : NULL;
}
