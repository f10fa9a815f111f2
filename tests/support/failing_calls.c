// SPDX-License-Identifier: GPL-3.0-or-later
// Loaded in front of the C library (LD_PRELOAD): makes a call of the system fail as a full or broken disk would, or
// ends the process at it as a power cut would. File modes can't do that: they do not bind root.
//   FAIL_CALL=rename:1:EIO   the first rename fails with EIO; calls: create flock write fsync fchmod rename unlink
//   KILL_AT=7                SIGKILL at the 7th of these calls; a write is two steps: before it, and half-way through
//   COUNT_CALLS=FILE         writes the number of steps there when the process ends
#undef _FILE_OFFSET_BITS // both names of open are wanted, not one for the other
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>

int flock(int descriptor, int operation); // as in <sys/file.h>, without its attributes

static long steps;

static void step(void) {
    const char *at = getenv("KILL_AT");
    steps++;
    if (at && atol(at) == steps)
        kill(getpid(), SIGKILL);
}

__attribute__((destructor)) static void tell(void) {
    const char *path = getenv("COUNT_CALLS");
    FILE *file = path ? fopen(path, "w") : NULL;
    if (!file)
        return;
    fprintf(file, "%ld\n", steps);
    fclose(file);
}

static int code_of(const char *name) {
    static const struct {
        const char *name;
        int code;
    } codes[] = {{"EIO", EIO}, {"ENOSPC", ENOSPC}, {"EROFS", EROFS}, {"EACCES", EACCES}, {"EDQUOT", EDQUOT}};
    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++)
        if (strcmp(codes[i].name, name) == 0)
            return codes[i].code;
    abort();
}

// Counts the calls of each name; true when this one is to fail, with errno set.
static int fails(const char *call, long *count) {
    const char *wanted = getenv("FAIL_CALL");
    size_t length = strlen(call);
    step();
    ++*count;
    if (!wanted || strncmp(wanted, call, length) != 0 || wanted[length] != ':')
        return 0;
    const char *code = strchr(wanted + length + 1, ':');
    if (!code || atol(wanted + length + 1) != *count)
        return 0;
    errno = code_of(code + 1);
    return 1;
}

static void *next(const char *name) {
    void *function = dlsym(RTLD_NEXT, name);
    if (!function)
        abort();
    return function;
}

static int open_with(const char *symbol, const char *path, int flags, mode_t mode) {
    static long count;
    int (*real)(const char *, int, ...) = (int (*)(const char *, int, ...))next(symbol);
    if ((flags & O_CREAT) && fails("create", &count))
        return -1;
    return real(path, flags, mode);
}

#define OPEN(name)                                                                                                     \
    int name(const char *path, int flags, ...);                                                                        \
    int name(const char *path, int flags, ...) {                                                                       \
        va_list arguments;                                                                                             \
        va_start(arguments, flags);                                                                                    \
        mode_t mode = (flags & O_CREAT) ? va_arg(arguments, mode_t) : 0;                                               \
        va_end(arguments);                                                                                             \
        return open_with(#name, path, flags, mode);                                                                    \
    }
OPEN(open)
OPEN(open64)

int flock(int descriptor, int operation) {
    static long count;
    int (*real)(int, int) = (int (*)(int, int))next("flock");
    return fails("flock", &count) ? -1 : real(descriptor, operation);
}

ssize_t write(int descriptor, const void *bytes, size_t size) {
    static long count;
    ssize_t (*real)(int, const void *, size_t) = (ssize_t(*)(int, const void *, size_t))next("write");
    if (fails("write", &count))
        return -1;
    const char *at = getenv("KILL_AT");
    if (at && atol(at) == steps + 1 && real(descriptor, bytes, size / 2) < 0)
        abort();
    step();
    return real(descriptor, bytes, size);
}

int fsync(int descriptor) {
    static long count;
    int (*real)(int) = (int (*)(int))next("fsync");
    return fails("fsync", &count) ? -1 : real(descriptor);
}

int fchmod(int descriptor, mode_t mode) {
    static long count;
    int (*real)(int, mode_t) = (int (*)(int, mode_t))next("fchmod");
    return fails("fchmod", &count) ? -1 : real(descriptor, mode);
}

int rename(const char *from, const char *to) {
    static long count;
    int (*real)(const char *, const char *) = (int (*)(const char *, const char *))next("rename");
    return fails("rename", &count) ? -1 : real(from, to);
}

int unlink(const char *path) {
    static long count;
    int (*real)(const char *) = (int (*)(const char *))next("unlink");
    return fails("unlink", &count) ? -1 : real(path);
}
