// SPDX-License-Identifier: GPL-3.0-or-later
// learn: the answer, from the options of a call to what both views have learnt.
#include "base/units.h"
#include "cli/interrupt.h"
#include "cli/learn.h"

#include <math.h>
#include <string.h>

enum { PARTICLES_LEAST = 400, PARTICLES_MOST = 200000 };

const char *const learn_warning_words[] = {"against-model", "odd-test", "other-view", "poor-sample", NULL};

double learn_strength(enum belief_view view, double parameter) {
    return view == BELIEF_RED ? exp(parameter) : parameter;
}

bool learn_forecast(const struct learning *learning, enum belief_view view, size_t blend, size_t passage,
                    struct belief_forecast *ret) {
    const struct learn_view *seen = &learning->views[view];
    if (!seen->known || !seen->liquids[blend])
        return false;
    belief_forecast(seen->learnt.belief, seen->liquids[blend], BELIEF_NONE, passage, learning->file->delivery.contact_s,
                    0, ret);
    return true;
}

static enum status collect_blends(struct learning *learning, struct error *err) {
    const struct case_test *tests = learning->file->tests.items;
    for (size_t i = learning->file->tests.count; i-- > 0 && learning->blend_count < LEARN_BLENDS_MAX;) {
        const struct blend *mix = &tests[i].mix;
        const char *notation = NULL;
        if (!tests[i].withdrawn)
            notation =
                mix->part_count == 1 ? bottle_ref_id(&mix->parts[0].bottle) : blend_notation(learning->inv->arena, mix);
        if (!notation && !tests[i].withdrawn)
            return error_set(err, STATUS_MEMORY, "out of memory");
        bool again = !notation;
        for (size_t k = 0; k < learning->blend_count && !again; k++)
            again = strcmp(learning->blends[k].notation, notation) == 0;
        if (!again)
            learning->blends[learning->blend_count++] = (struct learn_blend){&tests[i], notation};
    }
    return STATUS_OK;
}

static enum status judge_view(struct learn_view *view, struct error *err) {
    size_t count = belief_material_count(view->learnt.plan);
    enum status status = STATUS_OK;
    for (size_t i = 0; i < count && status == STATUS_OK; i++) {
        status = belief_diagnose(view->learnt.belief, i, &view->diagnostics[i], err);
        if (status == STATUS_OK)
            status = belief_contradiction(view->learnt.belief, i, &view->conflicts[i], err);
    }
    return status;
}

// A view that cannot speak of the materials is left out with its reason; the other may.
static enum status learn_view(struct learning *learning, const struct belief_materials *materials,
                              enum belief_view number, struct error *err) {
    struct learn_view *view = &learning->views[number];
    struct watch watch = {.progress = interrupt_progress, .cancel = interrupt_cancel()};
    interrupt_watch();
    enum status status = belief_case_learn(learning->file, materials, number, (size_t)learning->particles,
                                           (unsigned long)learning->seed, &watch, &view->learnt, &view->why);
    interrupt_done();
    if (status == STATUS_NO_DATA)
        return STATUS_OK;
    if (status != STATUS_OK)
        return error_set(err, status, "%s", view->why.text);
    view->known = true;
    for (size_t i = 0; i < learning->blend_count; i++) {
        struct error why;
        status = belief_liquid_make(view->learnt.plan, &learning->blends[i].test->mix, &view->liquids[i], &why);
        if (status == STATUS_MEMORY)
            return error_set(err, status, "%s", why.text);
    }
    return judge_view(view, err);
}

static void warn(struct learning *learning, struct learn_warning warning) {
    if (learning->warning_count < LEARN_WARNINGS_MAX)
        learning->warnings[learning->warning_count++] = warning;
}

// Tests as the cloud of a target holds them: those aimed at it, in the order of the file.
static void warn_of_odd_tests(struct learning *learning, enum belief_view number, size_t target) {
    const struct belief_case *learnt = &learning->views[number].learnt;
    size_t of_target = 0;
    for (size_t i = 0; i < learnt->count; i++) {
        if (learnt->tests[i].target != target)
            continue;
        double surprise = belief_surprise(learnt->belief, target, of_target++);
        if (surprise < LEARN_ODD && belief_tests(learnt->belief, target) > 1)
            warn(learning, (struct learn_warning){LEARN_ODD_TEST, number, target, learnt->sources[i], surprise});
    }
}

static void warn_of_view(struct learning *learning, enum belief_view number) {
    const struct learn_view *view = &learning->views[number];
    const struct learn_view *other = &learning->views[number == BELIEF_FILM ? BELIEF_RED : BELIEF_FILM];
    for (size_t i = 0; view->known && i < belief_material_count(view->learnt.plan); i++) {
        const struct belief_diagnostics *found = &view->diagnostics[i];
        if (view->conflicts[i].p_value < BELIEF_CONFLICT)
            warn(learning, (struct learn_warning){LEARN_AGAINST_MODEL, number, i, NULL, view->conflicts[i].p_value});
        double ratio = other->known ? exp(other->diagnostics[i].log_evidence - found->log_evidence) : 0;
        if (ratio > LEARN_OTHER_RATIO)
            warn(learning, (struct learn_warning){LEARN_OTHER_VIEW, number, i, NULL, ratio});
        if (found->r_hat > LEARN_R_HAT || found->effective < LEARN_EFFECTIVE)
            warn(learning, (struct learn_warning){LEARN_POOR_SAMPLE, number, i, NULL, found->r_hat});
        if (i < view->learnt.materials.remove_count)
            warn_of_odd_tests(learning, number, i);
    }
}

enum status learning_make(struct invocation *inv, struct learning *learning, struct error *err) {
    learning->inv = inv;
    learning->file = inv->casefile;
    struct belief_materials materials;
    enum status status = option_integer(inv, "--particles", PARTICLES_LEAST, PARTICLES_MOST,
                                        (int)belief_case_particles(learning->file), &learning->particles, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--seed", 0, 1000000, 1, &learning->seed, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--temperature", 5, 35, 20, &learning->temp_c, err);
    if (status == STATUS_OK)
        status = unifac_table_make(&inv->library, &learning->groups, err);
    if (status == STATUS_OK)
        status = belief_case_materials(learning->file, &learning->groups, kelvin_from_celsius(learning->temp_c),
                                       &materials, err);
    if (status == STATUS_OK)
        status = collect_blends(learning, err);
    for (int view = 0; view < LEARN_VIEWS && status == STATUS_OK; view++)
        status = learn_view(learning, &materials, (enum belief_view)view, err);
    if (status == STATUS_OK && !learning->views[BELIEF_FILM].known && !learning->views[BELIEF_RED].known)
        status = error_set(err, STATUS_NO_DATA, "%s", learning->views[BELIEF_RED].why.text);
    for (int view = 0; view < LEARN_VIEWS && status == STATUS_OK; view++)
        warn_of_view(learning, (enum belief_view)view);
    return status;
}

void learning_release(struct learning *learning) {
    for (int i = 0; i < LEARN_VIEWS; i++) {
        for (size_t k = 0; k < learning->blend_count; k++)
            belief_liquid_release(learning->views[i].liquids[k]);
        if (learning->views[i].known)
            belief_case_release(&learning->views[i].learnt);
    }
    unifac_table_release(&learning->groups);
}
