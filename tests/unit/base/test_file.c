// SPDX-License-Identifier: GPL-3.0-or-later
// Files are replaced whole or not at all.
#include "base/file.h"
#include "base/memory.h"
#include "suite.h"
#include "workplace.h"

#include <check.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <unistd.h>

static struct error err;

// The test runner may be root, for whom nothing is write-protected.
static void enter(void) {
    if (geteuid() == 0)
        ck_assert_int_eq(setuid(65534), 0);
    workplace_enter();
    error_clear(&err);
}

static void assert_holds(const char *path, const char *text) {
    char bytes[256] = {0};
    FILE *file = fopen(path, "r");
    ck_assert_ptr_nonnull(file);
    ck_assert_uint_lt(fread(bytes, 1, sizeof bytes - 1, file), sizeof bytes - 1);
    fclose(file);
    ck_assert_str_eq(bytes, text);
}

static void assert_refused(const char *path, const char *words) {
    enum status status = file_replace(path, "new", 3, &err);
    ck_assert_int_eq(status, STATUS_SYSTEM);
    ck_assert_msg(strstr(err.text, words) != NULL, "'%s' lacks '%s'", err.text, words);
    ck_assert_msg(path[0] == '\0' || strstr(err.text, path) != NULL, "'%s' does not name '%s'", err.text, path);
}

START_TEST(a_new_file_appears_and_an_old_one_is_replaced) {
    ck_assert_int_eq(file_replace("chart.png", "first", 5, &err), STATUS_OK);
    assert_holds("chart.png", "first");
    ck_assert_int_eq(file_replace("./chart.png", "second", 6, &err), STATUS_OK);
    assert_holds("chart.png", "second");
    ck_assert_uint_eq(entries(), 1);
}
END_TEST

START_TEST(permissions_of_the_old_file_stay) {
    put("chart.png", "old");
    ck_assert_int_eq(chmod("chart.png", 0640), 0);
    ck_assert_int_eq(file_replace("chart.png", "new", 3, &err), STATUS_OK);
    struct stat info;
    ck_assert_int_eq(stat("chart.png", &info), 0);
    ck_assert_uint_eq(info.st_mode & 0777, 0640);
}
END_TEST

START_TEST(a_new_file_obeys_the_umask) {
    umask(027);
    ck_assert_int_eq(file_replace("chart.png", "new", 3, &err), STATUS_OK);
    struct stat info;
    ck_assert_int_eq(stat("chart.png", &info), 0);
    ck_assert_uint_eq(info.st_mode & 0777, 0640);
}
END_TEST

START_TEST(a_link_stays_and_the_file_it_names_is_replaced) {
    ck_assert_int_eq(mkdir("share", 0777), 0);
    put("share/real.png", "old");
    ck_assert_int_eq(symlink("share/real.png", "link.png"), 0);
    ck_assert_int_eq(symlink("link.png", "second.png"), 0);
    ck_assert_int_eq(file_replace("second.png", "new", 3, &err), STATUS_OK);
    assert_holds("share/real.png", "new");
    struct stat info;
    ck_assert_int_eq(lstat("link.png", &info), 0);
    ck_assert(S_ISLNK(info.st_mode));
    ck_assert_int_eq(lstat("second.png", &info), 0);
    ck_assert(S_ISLNK(info.st_mode));
}
END_TEST

START_TEST(a_link_to_nothing_makes_the_file_it_names) {
    ck_assert_int_eq(mkdir("share", 0777), 0);
    ck_assert_int_eq(symlink("share/new.png", "link.png"), 0);
    ck_assert_int_eq(file_replace("link.png", "new", 3, &err), STATUS_OK);
    assert_holds("share/new.png", "new");
    ck_assert_int_eq(symlink("nowhere/new.png", "lost.png"), 0);
    assert_refused("lost.png", "the directory does not exist");
}
END_TEST

START_TEST(what_cannot_be_written_is_refused_in_words) {
    assert_refused("", "empty");
    assert_refused("missing/chart.png", "the directory does not exist");
    ck_assert_int_eq(mkdir("folder", 0777), 0);
    assert_refused("folder", "it is a directory");
    assert_refused("new/", "it names a directory");
    put("plain", "x");
    assert_refused("plain/chart.png", "not a directory");
    ck_assert_int_eq(mkfifo("pipe.png", 0666), 0);
    assert_refused("pipe.png", "not an ordinary file");
    ck_assert_int_eq(symlink("b.png", "a.png"), 0);
    ck_assert_int_eq(symlink("a.png", "b.png"), 0);
    assert_refused("a.png", "circle");
    char name[400];
    memset(name, 'n', sizeof name - 1);
    name[sizeof name - 1] = '\0';
    assert_refused(name, "too long");
}
END_TEST

START_TEST(protected_files_and_directories_stay_as_they_are) {
    put("kept.png", "old");
    ck_assert_int_eq(chmod("kept.png", 0444), 0);
    assert_refused("kept.png", "write-protected");
    assert_holds("kept.png", "old");
    ck_assert_int_eq(mkdir("closed", 0555), 0);
    assert_refused("closed/new.png", "permission denied");
}
END_TEST

// A limit on the size of files stands for a disk that fills up half-way.
START_TEST(a_full_disk_leaves_the_old_file_and_nothing_else) {
    put("chart.png", "old");
    signal(SIGXFSZ, SIG_IGN);
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &(struct rlimit){1000, 1000}), 0);
    static char large[5000];
    ck_assert_int_eq(file_replace("chart.png", large, sizeof large, &err), STATUS_SYSTEM);
    ck_assert_ptr_nonnull(strstr(err.text, "chart.png"));
    assert_holds("chart.png", "old");
    ck_assert_uint_eq(entries(), 1);
}
END_TEST

START_TEST(an_abandoned_file_leaves_nothing) {
    struct file_replacement file;
    ck_assert_int_eq(file_replace_begin(&file, "chart.png", &err), STATUS_OK);
    ck_assert_int_eq(file_replace_write(&file, "half", 4, &err), STATUS_OK);
    ck_assert_uint_eq(entries(), 1);
    file_replace_release(&file);
    file_replace_release(&file);
    file_replace_release(NULL);
    ck_assert_uint_eq(entries(), 0);
}
END_TEST

static volatile sig_atomic_t came;

static void on_signal(int number) {
    (void)number;
    came++;
}

START_TEST(signals_wait_until_the_file_stands) {
    static const int ending[] = {SIGINT, SIGTERM, SIGHUP};
    for (size_t i = 0; i < sizeof ending / sizeof ending[0]; i++) {
        struct file_replacement file;
        struct sigaction action = {.sa_handler = on_signal};
        struct sigaction before;
        sigaction(ending[i], &action, &before);
        came = 0;
        ck_assert_int_eq(file_replace_begin(&file, "a.png", &err), STATUS_OK);
        raise(ending[i]);
        ck_assert_int_eq(came, 0);
        ck_assert_int_eq(file_replace_commit(&file, &err), STATUS_OK);
        ck_assert_int_eq(came, 1);
        ck_assert_int_eq(file_replace_begin(&file, "a.png", &err), STATUS_OK);
        raise(ending[i]);
        file_replace_release(&file);
        ck_assert_int_eq(came, 2);
        ck_assert_int_ne(file_replace_begin(&file, "none/a.png", &err), STATUS_OK);
        raise(ending[i]); // a refusal holds nothing
        ck_assert_int_eq(came, 3);
        sigaction(ending[i], &before, NULL);
    }
    ck_assert_uint_eq(entries(), 1);
}
END_TEST

START_TEST(two_unfinished_files_do_not_meet) {
    struct file_replacement one, two;
    ck_assert_int_eq(file_replace_begin(&one, "chart.png", &err), STATUS_OK);
    ck_assert_int_eq(file_replace_begin(&two, "chart.png", &err), STATUS_OK);
    ck_assert_int_eq(file_replace_write(&one, "one", 3, &err), STATUS_OK);
    ck_assert_int_eq(file_replace_write(&two, "two", 3, &err), STATUS_OK);
    ck_assert_int_eq(file_replace_commit(&two, &err), STATUS_OK);
    assert_holds("chart.png", "two");
    ck_assert_int_eq(file_replace_commit(&one, &err), STATUS_OK);
    assert_holds("chart.png", "one");
    ck_assert_uint_eq(entries(), 1);
}
END_TEST

START_TEST(without_memory_nothing_is_touched) {
    put("real.png", "old");
    ck_assert_int_eq(symlink("real.png", "link.png"), 0);
    unsigned long n = 1;
    for (; n < 50; n++) {
        memory_fail_at(n);
        enum status status = file_replace("link.png", "new", 3, &err);
        memory_fail_at(0);
        if (status == STATUS_OK)
            break;
        ck_assert_int_eq(status, STATUS_MEMORY);
        assert_holds("real.png", "old");
        ck_assert_uint_eq(entries(), 2);
    }
    ck_assert_uint_ge(n, 4); // shown, target, the link's text, the temporary name
    ck_assert_uint_lt(n, 50);
    assert_holds("real.png", "new");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("file");
    TCase *tests = tcase_create("replace");
    tcase_add_checked_fixture(tests, enter, workplace_leave);
    tcase_add_test(tests, a_new_file_appears_and_an_old_one_is_replaced);
    tcase_add_test(tests, permissions_of_the_old_file_stay);
    tcase_add_test(tests, a_new_file_obeys_the_umask);
    tcase_add_test(tests, a_link_stays_and_the_file_it_names_is_replaced);
    tcase_add_test(tests, a_link_to_nothing_makes_the_file_it_names);
    tcase_add_test(tests, what_cannot_be_written_is_refused_in_words);
    tcase_add_test(tests, protected_files_and_directories_stay_as_they_are);
    tcase_add_test(tests, a_full_disk_leaves_the_old_file_and_nothing_else);
    tcase_add_test(tests, an_abandoned_file_leaves_nothing);
    tcase_add_test(tests, signals_wait_until_the_file_stands);
    tcase_add_test(tests, two_unfinished_files_do_not_meet);
    tcase_add_test(tests, without_memory_nothing_is_touched);
    suite_add_tcase(suite, tests);
    return suite_run_in_processes(suite);
}
