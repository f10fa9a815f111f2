// SPDX-License-Identifier: GPL-3.0-or-later
// What the tests of a case say: its goals and tests as a plan and evidence, learnt.
#ifndef MILDSOLVE_SELECTION_BELIEF_CASE_H
#define MILDSOLVE_SELECTION_BELIEF_CASE_H

#include "casefile/casefile.h"
#include "selection/belief.h"

// Tests in one passage no further apart than this from the next belong to one site. Swab tests are usually set 10 to 15
// mm apart: a row of them is one place of the film (estimate). Tests without a place belong together as well.
#define BELIEF_SITE_MM 15.0

// Of more tests than this that stand only the latest are learnt from: the time grows with their number, and the first
// of hundreds seldom belong to the same work.
enum { BELIEF_CASE_TESTS_MAX = 100 };

// Draws that do for a case: 2000, fewer where many tests make each dear.
size_t belief_case_particles(const struct casefile *file);

// A test that could not be learnt from by this view, and why.
struct belief_left_out {
    const struct case_test *test;
    struct error why;
};

struct belief_case {
    const struct casefile *file;
    struct belief_materials materials;
    struct belief_plan *plan;
    struct belief *prior;           // before the tests
    struct belief *belief;          // after them
    struct belief_liquid **liquids; // of the tests learnt from, each blend once
    size_t liquid_count;
    struct belief_test *tests; // passages are numbered as in the file, from 0
    const struct case_test **sources;
    size_t count;
    struct belief_left_out *left_out; // withdrawn tests are not among them: they are no evidence
    size_t left_out_count;
    size_t older; // tests that stand, before the latest BELIEF_CASE_TESTS_MAX
};

// Materials of the goals: to remove; to spare and unsure. One without a region is replaced by its stand-in.
// STATUS_NO_DATA: no material to remove, or one without region and stand-in.
enum status belief_case_materials(const struct casefile *file, const struct unifac_table *table, double temp_k,
                                  struct belief_materials *ret, struct error *err);

// Tests that stand, as evidence: target, passage and site of each.
enum status belief_case_learn(const struct casefile *file, const struct belief_materials *materials,
                              enum belief_view view, size_t particles, unsigned long seed, const struct watch *watch,
                              struct belief_case *ret, struct error *err);
void belief_case_release(struct belief_case *learnt); // NULL-safe

// Number of a passage of the case in belief_test and belief_forecast; BELIEF_NONE when the file has none of that id.
size_t belief_case_passage(const struct casefile *file, const char *id);

// Sites of the tests of a case, one number for each test (also withdrawn ones); equal numbers are one site.
void belief_case_sites(const struct casefile *file, size_t *ret_sites);

#endif
