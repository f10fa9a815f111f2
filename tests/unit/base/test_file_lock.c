// SPDX-License-Identifier: GPL-3.0-or-later
// One writer at a time, whatever name it uses for the file and however the last one ended.
#include "base/file_lock.h"
#include "base/memory.h"
#include "suite.h"
#include "workplace.h"

#include <check.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

static struct error err;

static void enter(void) {
    workplace_enter();
    put("case.yaml", "x");
    error_clear(&err);
}

static bool exists(const char *path) {
    struct stat info;
    return stat(path, &info) == 0;
}

START_TEST(taken_and_given_back) {
    struct file_lock lock = {0};
    ck_assert_int_eq(file_lock_take(&lock, "case.yaml", 0, &err), STATUS_OK);
    ck_assert(exists("case.yaml.lock"));
    file_lock_release(&lock);
    ck_assert(!exists("case.yaml.lock"));
    file_lock_release(&lock);
    file_lock_release(NULL);
}
END_TEST

// flock is per open file, so a second lock in the same process is another writer.
static volatile sig_atomic_t came;

static void on_signal(int number) {
    (void)number;
    came++;
}

START_TEST(signals_wait_while_it_is_held) {
    struct file_lock lock = {0};
    struct file_lock other = {0};
    void (*before)(int) = signal(SIGTERM, on_signal);
    came = 0;
    ck_assert_int_eq(file_lock_take(&lock, "case.yaml", 0, &err), STATUS_OK);
    raise(SIGTERM);
    ck_assert_int_eq(file_lock_take(&other, "case.yaml", 0, &err), STATUS_SYSTEM); // in vain, and still they wait
    ck_assert_int_eq(came, 0);
    file_lock_release(&lock);
    ck_assert_int_eq(came, 1);
    ck_assert(!exists("case.yaml.lock"));
    signal(SIGTERM, before);
}
END_TEST

START_TEST(a_second_writer_waits_and_gives_up) {
    struct file_lock first = {0};
    struct file_lock second = {0};
    ck_assert_int_eq(symlink("case.yaml", "link.yaml"), 0);
    ck_assert_int_eq(file_lock_take(&first, "case.yaml", 0, &err), STATUS_OK);
    static const char *const names[] = {"case.yaml", "./case.yaml", "link.yaml"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        ck_assert_int_eq(file_lock_take(&second, names[i], 20, &err), STATUS_SYSTEM);
        ck_assert_ptr_nonnull(strstr(err.text, "another program has been writing it"));
        ck_assert(!second.held);
    }
    file_lock_release(&first);
    ck_assert_int_eq(file_lock_take(&second, "link.yaml", 0, &err), STATUS_OK);
    file_lock_release(&second);
}
END_TEST

START_TEST(what_cannot_be_locked) {
    struct file_lock lock = {0};
    ck_assert_int_eq(file_lock_take(&lock, "none.yaml", 0, &err), STATUS_NOT_FOUND);
    ck_assert_ptr_nonnull(strstr(err.text, "none.yaml"));
    ck_assert_int_eq(symlink("elsewhere", "case.yaml.lock"), 0); // a trap: never followed
    ck_assert_int_eq(file_lock_take(&lock, "case.yaml", 0, &err), STATUS_SYSTEM);
    ck_assert_ptr_nonnull(strstr(err.text, "case.yaml.lock"));
    ck_assert(!exists("elsewhere"));
}
END_TEST

START_TEST(the_lock_falls_with_its_holder) {
    int ready[2];
    char byte = 0;
    ck_assert_int_eq(pipe(ready), 0);
    pid_t child = fork();
    ck_assert_int_ge(child, 0);
    if (child == 0) {
        struct file_lock lock = {0};
        byte = file_lock_take(&lock, "case.yaml", 0, NULL) == STATUS_OK ? 'y' : 'n';
        if (write(ready[1], &byte, 1) == 1)
            pause();
        _exit(1);
    }
    ck_assert_int_eq(read(ready[0], &byte, 1), 1);
    ck_assert_int_eq(byte, 'y');
    struct file_lock lock = {0};
    ck_assert_int_eq(file_lock_take(&lock, "case.yaml", 0, &err), STATUS_SYSTEM);
    kill(child, SIGKILL);
    ck_assert_int_eq(waitpid(child, NULL, 0), child);
    ck_assert(exists("case.yaml.lock")); // left behind, and worth nothing
    ck_assert_int_eq(file_lock_take(&lock, "case.yaml", 1000, &err), STATUS_OK);
    file_lock_release(&lock);
    ck_assert(!exists("case.yaml.lock"));
    close(ready[0]);
    close(ready[1]);
}
END_TEST

// Many processes add one to a number in a file, each under the lock: none is lost, although holders remove the side
// file.
START_TEST(nothing_is_lost_between_many_writers) {
    enum { WRITERS = 4, ROUNDS = 100 };
    put("case.yaml", "0");
    pid_t children[WRITERS];
    for (int i = 0; i < WRITERS; i++) {
        children[i] = fork();
        ck_assert_int_ge(children[i], 0);
        if (children[i] > 0)
            continue;
        for (int round = 0; round < ROUNDS; round++) {
            struct file_lock lock = {0};
            int number = -1;
            if (file_lock_take(&lock, "case.yaml", 60000, NULL) != STATUS_OK)
                _exit(1);
            FILE *file = fopen("case.yaml", "r+");
            if (!file || fscanf(file, "%d", &number) != 1)
                _exit(2);
            rewind(file);
            fprintf(file, "%d", number + 1);
            fclose(file);
            file_lock_release(&lock);
        }
        _exit(0);
    }
    for (int i = 0; i < WRITERS; i++) {
        int status = -1;
        ck_assert_int_eq(waitpid(children[i], &status, 0), children[i]);
        ck_assert_int_eq(status, 0);
    }
    FILE *file = fopen("case.yaml", "r");
    int number = 0;
    ck_assert_int_eq(fscanf(file, "%d", &number), 1);
    fclose(file);
    ck_assert_int_eq(number, WRITERS * ROUNDS);
}
END_TEST

START_TEST(without_memory_nothing_is_held) {
    struct file_lock lock = {0};
    memory_fail_at(1);
    ck_assert_int_eq(file_lock_take(&lock, "case.yaml", 0, &err), STATUS_MEMORY);
    memory_fail_at(0);
    ck_assert(!lock.held);
    ck_assert(!exists("case.yaml.lock"));
}
END_TEST

int main(void) {
    Suite *suite = suite_create("file_lock");
    TCase *tests = tcase_create("lock");
    tcase_set_timeout(tests, 120);
    tcase_add_checked_fixture(tests, enter, workplace_leave);
    tcase_add_test(tests, taken_and_given_back);
    tcase_add_test(tests, signals_wait_while_it_is_held);
    tcase_add_test(tests, a_second_writer_waits_and_gives_up);
    tcase_add_test(tests, what_cannot_be_locked);
    tcase_add_test(tests, the_lock_falls_with_its_holder);
    tcase_add_test(tests, nothing_is_lost_between_many_writers);
    tcase_add_test(tests, without_memory_nothing_is_held);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
