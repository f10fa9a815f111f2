// SPDX-License-Identifier: GPL-3.0-or-later
// Loaded in front of the C library (LD_PRELOAD): makes a call of the system fail as a full or broken disk would, or
// ends the process at it as a power cut would. File modes can't do that: they do not bind root. Only calls of the
// program and of its module for drawing count, not those of the libraries that they use, and not the files in which
// a build for coverage counts lines.
//   FAIL_CALL=rename:1:EIO    the first rename fails with EIO
//   FAIL_CALL=write:odd:EINTR every second one, from the first on, is interrupted
//   FAIL_CALL=read:all:SHORT  each reads or writes a few bytes only
//   FAIL_CALL=close:2:EIO     closes and fails, as the system does
//                             calls: create open read close flock write fsync fchmod rename unlink
//   KILL_AT=7                 SIGKILL at the 7th of these calls; a write is two steps: before it, and half-way through
//   KILL_WITH=15              this signal instead, after which the call goes on
//   COUNT_CALLS=FILE          writes there when the process ends: the number of steps, then the calls by name
#undef _FILE_OFFSET_BITS // both names of open are wanted, not one for the other
#define _GNU_SOURCE
#include <dlfcn.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdarg.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/types.h>
#include <unistd.h>

int flock(int descriptor, int operation); // as in <sys/file.h>, without its attributes

enum { A_FEW_BYTES = 7, SHORT = -1 };

enum call { CREATE, OPEN, READ, CLOSE, FLOCK, WRITE, FSYNC, FCHMOD, RENAME, UNLINK, CALLS };

static const char *const call_names[CALLS] = {"create", "open",  "read",   "close",  "flock",
                                              "write",  "fsync", "fchmod", "rename", "unlink"};
static long counts[CALLS];
static long steps;

static void *next(const char *name) {
    void *function = dlsym(RTLD_NEXT, name);
    if (!function)
        abort();
    return function;
}

__attribute__((destructor)) static void tell(void) {
    const char *path = getenv("COUNT_CALLS");
    if (!path)
        return;
    FILE *file = fopen(path, "w");
    if (!file)
        return;
    fprintf(file, "%ld\n", steps);
    for (int i = 0; i < CALLS; i++)
        fprintf(file, "%s %ld\n", call_names[i], counts[i]);
    fclose(file);
}

// The program's own code, or that of its module; the names are those of the build.
static bool is_ours(const void *caller) {
    Dl_info info;
    if (!dladdr(caller, &info) || !info.dli_fname)
        return false;
    const char *slash = strrchr(info.dli_fname, '/');
    return strncmp(slash ? slash + 1 : info.dli_fname, "mildsolve", strlen("mildsolve")) == 0;
}

static bool kills_at(long number) {
    const char *at = getenv("KILL_AT");
    return at && atol(at) == number;
}

static void step(void) {
    const char *with = getenv("KILL_WITH");
    steps++;
    if (kills_at(steps))
        kill(getpid(), with ? atoi(with) : SIGKILL);
}

static int code_of(const char *name) {
    static const struct {
        const char *name;
        int code;
    } codes[] = {{"EIO", EIO},       {"ENOSPC", ENOSPC}, {"EROFS", EROFS},   {"EACCES", EACCES},
                 {"EDQUOT", EDQUOT}, {"EINTR", EINTR},   {"EMFILE", EMFILE}, {"ENOMEM", ENOMEM},
                 {"EPIPE", EPIPE},   {"EBADF", EBADF},   {"ENOLCK", ENOLCK}, {"SHORT", SHORT}};
    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++)
        if (strcmp(codes[i].name, name) == 0)
            return codes[i].code;
    abort();
}

static bool chosen(const char *which, long number) {
    if (strncmp(which, "all:", 4) == 0)
        return true;
    if (strncmp(which, "odd:", 4) == 0)
        return number % 2 == 1;
    return atol(which) == number;
}

// Counts a call of ours; 0, or what it is to fail with.
static int judge(enum call call) {
    const char *wanted = getenv("FAIL_CALL");
    size_t length = strlen(call_names[call]);
    step();
    counts[call]++;
    if (!wanted || strncmp(wanted, call_names[call], length) != 0 || wanted[length] != ':')
        return 0;
    const char *which = wanted + length + 1;
    const char *code = strchr(which, ':');
    return code && chosen(which, counts[call]) ? code_of(code + 1) : 0;
}

static int fail(int code) {
    errno = code;
    return -1;
}

static int open_with(const char *symbol, const void *caller, const char *path, int flags, mode_t mode) {
    int (*real)(const char *, int, ...) = (int (*)(const char *, int, ...))next(symbol);
    int code = is_ours(caller) && !strstr(path, ".gcda") ? judge(flags & O_CREAT ? CREATE : OPEN) : 0;
    return code ? fail(code) : real(path, flags, mode);
}

#define OPEN_CALL(name)                                                                                                \
    int name(const char *path, int flags, ...);                                                                        \
    int name(const char *path, int flags, ...) {                                                                       \
        va_list arguments;                                                                                             \
        va_start(arguments, flags);                                                                                    \
        mode_t mode = (flags & O_CREAT) ? va_arg(arguments, mode_t) : 0;                                               \
        va_end(arguments);                                                                                             \
        return open_with(#name, __builtin_return_address(0), path, flags, mode);                                       \
    }
OPEN_CALL(open)
OPEN_CALL(open64)

ssize_t read(int descriptor, void *bytes, size_t size) {
    ssize_t (*real)(int, void *, size_t) = (ssize_t(*)(int, void *, size_t))next("read");
    int code = is_ours(__builtin_return_address(0)) ? judge(READ) : 0;
    if (code == SHORT)
        return real(descriptor, bytes, size < A_FEW_BYTES ? size : A_FEW_BYTES);
    return code ? fail(code) : real(descriptor, bytes, size);
}

ssize_t write(int descriptor, const void *bytes, size_t size) {
    ssize_t (*real)(int, const void *, size_t) = (ssize_t(*)(int, const void *, size_t))next("write");
    if (!is_ours(__builtin_return_address(0)))
        return real(descriptor, bytes, size);
    int code = judge(WRITE);
    if (code == SHORT)
        return real(descriptor, bytes, size < A_FEW_BYTES ? size : A_FEW_BYTES);
    if (code)
        return fail(code);
    ssize_t half = kills_at(steps + 1) ? real(descriptor, bytes, size / 2) : 0;
    step();
    if (half < 0)
        return half;
    ssize_t rest = real(descriptor, (const char *)bytes + half, size - (size_t)half);
    return rest < 0 ? rest : half + rest;
}

int close(int descriptor) {
    int (*real)(int) = (int (*)(int))next("close");
    int code = is_ours(__builtin_return_address(0)) ? judge(CLOSE) : 0;
    int closed = real(descriptor); // one that failed is closed all the same
    return code ? fail(code) : closed;
}

int flock(int descriptor, int operation) {
    int (*real)(int, int) = (int (*)(int, int))next("flock");
    int code = is_ours(__builtin_return_address(0)) ? judge(FLOCK) : 0;
    return code ? fail(code) : real(descriptor, operation);
}

int fsync(int descriptor) {
    int (*real)(int) = (int (*)(int))next("fsync");
    int code = is_ours(__builtin_return_address(0)) ? judge(FSYNC) : 0;
    return code ? fail(code) : real(descriptor);
}

int fchmod(int descriptor, mode_t mode) {
    int (*real)(int, mode_t) = (int (*)(int, mode_t))next("fchmod");
    int code = is_ours(__builtin_return_address(0)) ? judge(FCHMOD) : 0;
    return code ? fail(code) : real(descriptor, mode);
}

int rename(const char *from, const char *to) {
    int (*real)(const char *, const char *) = (int (*)(const char *, const char *))next("rename");
    int code = is_ours(__builtin_return_address(0)) ? judge(RENAME) : 0;
    return code ? fail(code) : real(from, to);
}

int unlink(const char *path) {
    int (*real)(const char *) = (int (*)(const char *))next("unlink");
    int code = is_ours(__builtin_return_address(0)) ? judge(UNLINK) : 0;
    return code ? fail(code) : real(path);
}
