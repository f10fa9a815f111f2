// SPDX-License-Identifier: GPL-3.0-or-later
// Sampling what cannot be judged, what is absurd, what is stopped half-way or short of memory.
#include "selection/doubt.h"

#include "base/memory.h"
#include "doubts.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static struct doubts doubts;

static void setup(void) {
    doubts_open(&doubts);
}

static void teardown(void) {
    doubts_release(&doubts);
}

static const char *const shelf[] = {"isooctane", "ethanol", "acetone", "propan-2-ol", "toluene", "ethyl-acetate"};
enum { SHELF = sizeof shelf / sizeof *shelf };

// --- what goes wrong ---

START_TEST(what_is_not_covered_is_not_judged) {
    doubts_add(&doubts, "ethanol 20 + isooctane 80");
    doubts_add(&doubts, "ethanol 20 + decamethylcyclopentasiloxane 80"); // no Hansen split is published
    doubts.request.samples = 16;
    for (int red = 0; red < 2; red++) {
        struct doubt doubt;
        doubts.request.by_red = red;
        doubts_sample(&doubts, &doubt);
        ck_assert(doubt.rows[0].judged && doubt.rows[0].candidate);
        ck_assert(!doubt.rows[1].judged && !doubt.rows[1].candidate);
        ck_assert(isnan(doubt.rows[1].p_dissolves) && isnan(doubt.rows[1].p_works));
        ck_assert(isnan(doubt.rows[1].swelling_median) && isnan(doubt.rows[1].rank_median));
        ck_assert(isnan(doubt_milder(&doubt, 0, 1)));
        size_t places[2] = {1, 0}, ties[2];
        doubt_order(&doubt, places, 2, ties);
        ck_assert_uint_eq(places[0], 0);
        ck_assert_uint_eq(ties[1], 2);
        doubt_release(&doubt);
    }
}
END_TEST

static void expect_refused(enum status wanted, const char *word) {
    struct doubt doubt = {.count = 77};
    struct error err = {0};
    ck_assert_int_eq(doubt_sample(&doubts.request, &doubt, &err), wanted);
    ck_assert_msg(strstr(err.text, word) != NULL, "%s", err.text);
    ck_assert_uint_eq(doubt.count, 77);
}

START_TEST(absurd_requests_are_refused) {
    doubts_add(&doubts, "ethanol 20 + isooctane 80");
    struct doubt_request good = doubts.request;
    doubts.request.samples = 0;
    expect_refused(STATUS_RANGE, "samples");
    doubts.request.samples = DOUBT_SAMPLES_MAX + 1;
    expect_refused(STATUS_RANGE, "4096");
    doubts.request = good;
    doubts.request.count = 0;
    expect_refused(STATUS_RANGE, "blends");
    doubts.request.count = DOUBT_BLENDS_MAX + 1;
    expect_refused(STATUS_RANGE, "1024");
    doubts.request = good;
    doubts.request.least_probability = -0.1;
    expect_refused(STATUS_RANGE, "probability");
    doubts.request.least_probability = NAN;
    expect_refused(STATUS_RANGE, "probability");
    doubts.request = good;
    doubts.request.temp_k = 10;
    expect_refused(STATUS_RANGE, "");
    doubts.request = good;
    doubts.goal.remove_count = 0;
    expect_refused(STATUS_RANGE, "remove");
    doubts.goal.remove_count = 1;
    doubts.goal.remove[0] = tables_material(&doubts.lib, "animal-glue");
    expect_refused(STATUS_NO_DATA, "animal-glue");
    doubts.goal.remove[0] = tables_material(&doubts.lib, "dammar-aged");
    doubts.goal.spare[0] = tables_material(&doubts.lib, "shellac-aged");
    expect_refused(STATUS_NO_DATA, "shellac-aged");
}
END_TEST

// The same liquid under many identities, as many as one list cannot hold.
START_TEST(too_many_components_are_refused) {
    enum { MANY = 130 };
    static struct component copies[MANY];
    doubts_add(&doubts, "ethanol");
    for (size_t i = 0; i < MANY; i++) {
        copies[i] = *doubts.blends[0].components[0];
        doubts.blends[i] = doubts.blends[0];
        doubts.blends[i].components[0] = &copies[i];
    }
    doubts.request.count = MANY;
    expect_refused(STATUS_RANGE, "128 different components");
}
END_TEST

// --- stopping ---

struct stopping {
    atomic_bool cancel;
    double at, last;
    int calls;
};

static void watch_and_stop(void *context, double done) {
    struct stopping *stopping = context;
    ck_assert(done > stopping->last && done <= 1);
    stopping->last = done;
    stopping->calls++;
    if (done >= stopping->at)
        atomic_store(&stopping->cancel, true);
}

START_TEST(a_cancelled_run_leaves_what_it_has) {
    doubts_fill(&doubts, shelf, SHELF, 6, 20);
    struct doubt whole, part;
    struct error err = {0};
    doubts_sample(&doubts, &whole);
    for (int threads = 1; threads <= 2; threads++) {
        struct stopping stopping = {.at = 0.25};
        doubts.request.threads = threads;
        doubts.request.watch =
            (struct watch){.progress = watch_and_stop, .context = &stopping, .cancel = &stopping.cancel};
        ck_assert_int_eq(doubt_sample(&doubts.request, &part, &err), STATUS_INTERRUPTED);
        ck_assert_ptr_nonnull(strstr(err.text, "256"));
        ck_assert(part.samples >= 64 && part.samples < 256);
        ck_assert_uint_eq(part.asked, 256);
        ck_assert_double_eq_tol(part.error, 0.5 / sqrt((double)part.samples), 1e-15);
        // Its samples are among those of the whole run, in the same order; on one thread they are the first ones.
        size_t at = 0;
        for (size_t k = 0; k < part.samples; k++, at++)
            while (at < whole.samples &&
                   memcmp(part.swelling + k * 20, whole.swelling + at * 20, 20 * sizeof(double)) != 0)
                at++;
        ck_assert_uint_le(at, whole.samples);
        ck_assert(threads > 1 || at == part.samples);
        for (size_t i = 0; i < 20; i++) {
            ck_assert(part.rows[i].p_dissolves >= 0 && part.rows[i].p_dissolves <= 1);
            ck_assert(part.rows[i].rank_median >= 1 && part.rows[i].rank_median <= 20);
        }
        doubt_release(&part);
    }
    doubt_release(&whole);
}
END_TEST

START_TEST(cancelled_before_it_began) {
    doubts_add(&doubts, "ethanol 20 + isooctane 80");
    atomic_bool cancel = true;
    doubts.request.watch = (struct watch){.cancel = &cancel};
    struct doubt doubt;
    struct error err = {0};
    ck_assert_int_eq(doubt_sample(&doubts.request, &doubt, &err), STATUS_INTERRUPTED);
    ck_assert_uint_eq(doubt.samples, 0);
    ck_assert(isnan(doubt.error) && isnan(doubt.rows[0].p_dissolves) && !doubt.rows[0].candidate);
    ck_assert(isnan(doubt_milder(&doubt, 0, 0)));
    doubt_release(&doubt);
}
END_TEST

START_TEST(progress_runs_to_the_end) {
    doubts_add(&doubts, "ethanol 20 + isooctane 80");
    struct stopping stopping = {.at = 2};
    doubts.request.watch = (struct watch){.progress = watch_and_stop, .context = &stopping};
    struct doubt doubt;
    doubts_sample(&doubts, &doubt);
    ck_assert_int_gt(stopping.calls, 10);
    ck_assert_double_gt(stopping.last, 0.9);
    doubt_release(&doubt);
}
END_TEST

START_TEST(memory_faults_are_returned) {
    doubts_fill(&doubts, shelf, SHELF, 5, 10);
    struct material overpaint = *doubts.goal.spare[0];
    doubts.goal.remove[1] = &overpaint;
    doubts.goal.remove_count = 2;
    doubts.request.samples = 4;
    struct doubt doubt = {.count = 77};
    struct error err = {0};
    enum status status = STATUS_MEMORY;
    unsigned long n = 0;
    while (status != STATUS_OK) {
        memory_fail_at(++n);
        status = doubt_sample(&doubts.request, &doubt, &err);
        ck_assert(status == STATUS_OK || (status == STATUS_MEMORY && doubt.count == 77));
        ck_assert_uint_lt(n, 100);
    }
    memory_fail_at(0);
    ck_assert_uint_gt(n, 12);
    for (n = 1, status = STATUS_MEMORY; status != STATUS_OK; n++) {
        memory_fail_at(n);
        status = doubt_rank(&doubt, 0.5, &err);
        ck_assert(status == STATUS_OK || status == STATUS_MEMORY);
    }
    memory_fail_at(0);
    ck_assert_uint_gt(n, 4);
    doubt_release(&doubt);
    doubt_release(&doubt);
    doubt_release(NULL);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("doubt_faults");
    TCase *tests = tcase_create("faults");
    tcase_add_checked_fixture(tests, setup, teardown);
    tcase_set_timeout(tests, 200);
    tcase_add_test(tests, what_is_not_covered_is_not_judged);
    tcase_add_test(tests, absurd_requests_are_refused);
    tcase_add_test(tests, too_many_components_are_refused);
    tcase_add_test(tests, a_cancelled_run_leaves_what_it_has);
    tcase_add_test(tests, cancelled_before_it_began);
    tcase_add_test(tests, progress_runs_to_the_end);
    tcase_add_test(tests, memory_faults_are_returned);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
