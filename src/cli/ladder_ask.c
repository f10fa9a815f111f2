// SPDX-License-Identifier: GPL-3.0-or-later
// ladder: the answer, from the options of a call to the rows of the climb.
#include "base/language.h"
#include "base/units.h"
#include "cli/case_option.h"
#include "cli/interrupt.h"
#include "cli/ladder.h"
#include "cli/overdue.h"
#include "cli/tests_so_far.h"

#include <math.h>
#include <string.h>

enum { PARTICLES = 2000, SEED = 1 };

static const double default_touch_most = 0.5; // ours: as likely as not

const struct ladder_direction *ladder_direction_of(const struct ladder_answer *answer, const struct ladder_row *row) {
    return &answer->ladder->directions[row->direction];
}

const struct ladder_rung *ladder_rung_of(const struct ladder_answer *answer, const struct ladder_row *row) {
    return &ladder_direction_of(answer, row)->rungs[row->plan.rung];
}

double ladder_scale_step(const struct ladder_answer *answer, const struct ladder_row *row) {
    if (row->from_rung == LADDER_NONE)
        return NAN;
    return ladder_rung_of(answer, row)->margin - ladder_direction_of(answer, row)->rungs[row->from_rung].margin;
}

bool ladder_weaker_than_worked(const struct ladder_answer *answer, const struct ladder_row *row) {
    return ladder_rung_of(answer, row)->margin < answer->worked_rung.margin; // never of a NAN
}

static double case_contact_s(const struct invocation *inv) {
    return inv->casefile && !isnan(inv->casefile->delivery.contact_s) ? inv->casefile->delivery.contact_s
                                                                      : BELIEF_CONTACT_S;
}

static enum status read_options(struct ladder_answer *answer, struct error *err) {
    struct invocation *inv = answer->inv;
    enum status status = goal_from_options(inv, &answer->goal, &answer->filters, err);
    if (status == STATUS_OK)
        status = option_word(inv, "--by", belief_view_words, BELIEF_FILM, &answer->by, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--show", 1, LADDER_SHOWN_MAX, 3, &answer->show, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--touch-most", 0, 1, default_touch_most, &answer->touch_most, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--contact", 0.1, 3600, case_contact_s(inv), &answer->contact_s, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--rolls", 1, 1000, BELIEF_ROLLS, &answer->rolls, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--jar", 0, 1000, -1, &answer->jar_ml, err);
    if (status == STATUS_OK)
        status = option_number(inv, "--temperature", 5, 35, 20, &answer->temp_c, err);
    if (status == STATUS_OK)
        status = option_integer(inv, "--threads", 1, CREW_MAX, crew_processors(), &answer->threads, err);
    answer->even = option_given(inv, "--even");
    return status;
}

static struct belief_materials materials_of(const struct ladder_answer *answer) {
    struct belief_materials materials = {.lib = &answer->inv->library,
                                         .table = &answer->groups,
                                         .remove_count = answer->goal.remove_count,
                                         .spare_count = answer->goal.spare_count,
                                         .temp_k = kelvin_from_celsius(answer->temp_c)};
    memcpy(materials.remove, answer->goal.remove, sizeof materials.remove);
    memcpy(materials.spare, answer->goal.spare, sizeof materials.spare);
    return materials;
}

// Without a case: the tables alone.
static enum status start(const struct ladder_answer *answer, enum belief_view view, struct belief_plan **ret_plan,
                         struct belief **ret_belief, struct error *err) {
    struct belief_materials materials = materials_of(answer);
    enum status status = belief_plan_make(&materials, view, ret_plan, err);
    return status == STATUS_OK ? belief_start(*ret_plan, PARTICLES, SEED, ret_belief, err) : status;
}

static enum status learn(const struct ladder_answer *answer, enum belief_view view, struct belief_case *ret,
                         struct error *err) {
    struct belief_materials materials = materials_of(answer);
    struct watch watch = {.cancel = interrupt_cancel()};
    return belief_case_learn(answer->inv->casefile, &materials, view, PARTICLES, SEED, &watch, ret, err);
}

static enum status believe_tables(struct ladder_answer *answer, struct error *err) {
    enum status status = start(answer, (enum belief_view)answer->by, &answer->own_plan, &answer->own_belief, err);
    answer->plan = answer->own_plan;
    answer->belief = answer->own_belief;
    return status;
}

static enum status believe_case(struct ladder_answer *answer, struct error *err) {
    enum status status = learn(answer, (enum belief_view)answer->by, &answer->learnt, err);
    answer->plan = answer->learnt.plan;
    answer->belief = answer->learnt.belief;
    return status;
}

static struct ladder_judging judging_of(const struct ladder_answer *answer) {
    return (struct ladder_judging){.lib = &answer->inv->library,
                                   .table = &answer->groups,
                                   .plan = answer->plan,
                                   .belief = answer->belief,
                                   .other_plan = answer->other_plan,
                                   .other_belief = answer->other_belief,
                                   .temp_k = kelvin_from_celsius(answer->temp_c),
                                   .contact_s = answer->contact_s,
                                   .rolls = answer->rolls,
                                   .threads = answer->threads,
                                   .watch = {.progress = interrupt_progress, .cancel = interrupt_cancel()}};
}

// What has no film is judged by its sphere, unless the view was asked for.
static enum status believe(struct ladder_answer *answer, struct error *err) {
    enum status status = answer->inv->casefile ? believe_case(answer, err) : believe_tables(answer, err);
    if (status != STATUS_NO_DATA || answer->by != BELIEF_FILM || option_given(answer->inv, "--by"))
        return status;
    page_paragraph_f(answer->inv->talk, 0, 2, "note: %s; judged by distance of the mean (--by red)", err->text);
    answer->by = BELIEF_RED;
    belief_plan_release(answer->own_plan);
    answer->own_plan = NULL;
    return answer->inv->casefile ? believe_case(answer, err) : believe_tables(answer, err);
}

// The other view, which is heard on the paint alone. It may be unable to speak of these materials.
static enum status believe_other(struct ladder_answer *answer, struct error *err) {
    enum belief_view view = answer->by == BELIEF_FILM ? BELIEF_RED : BELIEF_FILM;
    bool from_case = answer->inv->casefile != NULL;
    enum status status = from_case ? learn(answer, view, &answer->other_learnt, err)
                                   : start(answer, view, &answer->other_own_plan, &answer->other_own_belief, err);
    if (status == STATUS_NO_DATA)
        return STATUS_OK;
    answer->other_plan = from_case ? answer->other_learnt.plan : answer->other_own_plan;
    answer->other_belief = from_case ? answer->other_learnt.belief : answer->other_own_belief;
    return status;
}

static int rung_of_percent(double percent) {
    double rung = percent / LADDER_STEP_PERCENT;
    return percent >= 0 && fabs(rung - round(rung)) < 0.1 ? (int)lround(rung) : LADDER_NONE;
}

// What the jar of the last test should still hold.
static int jar_of_last(const struct ladder_answer *answer, double last_percent) {
    if (last_percent < 0)
        return 0;
    struct jar_batch batch = jar_fresh(last_percent);
    return answer->jar_ml >= 0 ? answer->jar_ml : jar_left(&batch);
}

static enum status plan_row(const struct ladder_answer *answer, int d, int rung, const struct ladder_row *before,
                            struct ladder_row *ret, struct error *err) {
    const struct ladder_direction *direction = &answer->ladder->directions[d];
    struct ladder_planning planning = {&answer->inv->library, &answer->groups, answer->temp_c};
    struct ladder_row row = {.direction = d, .from_percent = direction->last_percent};
    int left_ml = jar_of_last(answer, direction->last_percent);
    if (before) {
        row.from_percent = before->plan.rung * (double)LADDER_STEP_PERCENT;
        left_ml = jar_left(before->plan.has_jar ? &before->plan.jar : &before->plan.fresh);
    }
    row.from_rung = rung_of_percent(row.from_percent);
    enum status status = ladder_plan_make(&planning, direction, rung, row.from_percent, left_ml, &row.plan, err);
    if (status == STATUS_OK)
        *ret = row;
    return status;
}

static enum status plan_climb(struct ladder_answer *answer, int d, struct error *err) {
    int rungs[LADDER_SHOWN_MAX];
    struct ladder_judging judging = judging_of(answer);
    enum status status = ladder_judge_climb(&judging, answer->ladder, d, answer->show, answer->even, err);
    if (status != STATUS_OK)
        return status;
    int count = answer->even ? ladder_even_series(&answer->ladder->directions[d], rungs, answer->show)
                             : ladder_climb(answer->ladder, d, rungs, answer->show);
    for (int i = 0; status == STATUS_OK && i < count; i++) {
        status = plan_row(answer, d, rungs[i], i ? &answer->rows[i - 1] : NULL, &answer->rows[i], err);
        answer->row_count += status == STATUS_OK;
    }
    return status;
}

// The neat base is one test for all directions that begin with it.
static bool same_base(const struct ladder_answer *answer, const struct ladder_step *step, int taken) {
    const struct ladder_direction *directions = answer->ladder->directions;
    return step->rung == 0 && bottle_ref_same(&directions[step->direction].weak, &directions[taken].weak);
}

static enum status plan_others(struct ladder_answer *answer, int taken, struct error *err) {
    enum status status = STATUS_OK;
    for (int k = 0; status == STATUS_OK && k < answer->ladder->count && answer->other_count < LADDER_SHOWN_MAX; k++) {
        const struct ladder_step *step = &answer->steps[k];
        if (step->direction == taken || step->rung == LADDER_NONE || same_base(answer, step, taken))
            continue;
        status = plan_row(answer, step->direction, step->rung, NULL, &answer->others[answer->other_count], err);
        answer->other_count += status == STATUS_OK;
    }
    return status;
}

// The direction that was asked for by its strong bottle, else the one the ladder takes.
static enum status direction_to_climb(struct ladder_answer *answer, int *ret, struct error *err) {
    const char *toward = option_value(answer->inv, "--toward");
    *ret = answer->steps[0].direction;
    if (!toward)
        return STATUS_OK;
    struct bottle_ref strong;
    enum status status = library_bottle(&answer->inv->library, toward, &strong, err);
    for (int d = 0; status == STATUS_OK && d < answer->ladder->count; d++)
        if (bottle_ref_same(&answer->ladder->directions[d].strong, &strong)) {
            *ret = d;
            return STATUS_OK;
        }
    return status != STATUS_OK
               ? status
               : error_set(err, STATUS_USAGE,
                           "--toward %s: this is none of the strong bottles at hand, or it was left out", toward);
}

static enum status forecast_sites(struct ladder_answer *answer, const struct ladder_direction *direction,
                                  struct error *err) {
    for (size_t i = 0; i < answer->site_count; i++) {
        struct belief_liquid *liquid;
        answer->site_works[i] = NAN;
        if (isnan(answer->sites[i].next_percent))
            continue;
        int rung = (int)floor(answer->sites[i].next_percent / LADDER_STEP_PERCENT + 1e-9);
        enum status status = ladder_blend(direction, &answer->inv->library, rung, &answer->site_blends[i], err);
        if (status != STATUS_OK)
            return status;
        status = belief_liquid_make(answer->plan, &answer->site_blends[i], &liquid, err);
        if (status == STATUS_MEMORY)
            return status;
        if (status != STATUS_OK)
            continue;
        struct belief_forecast forecast;
        belief_forecast(answer->belief, liquid, BELIEF_NONE, answer->sites[i].passage, answer->contact_s, answer->rolls,
                        &forecast);
        answer->site_works[i] = forecast.p_works;
        belief_liquid_release(liquid);
    }
    return STATUS_OK;
}

// The direction that holds the blend that worked, and its share there: not always the one to climb next, which may have
// changed because this one ends. NULL when the blend is no pair of the bottles at hand.
static const struct ladder_direction *direction_of_worked(const struct ladder_answer *answer, double *ret_percent) {
    for (int k = 0; k < answer->ladder->count; k++) {
        const struct ladder_direction *direction = &answer->ladder->directions[answer->steps[k].direction];
        double share = ladder_share_of(direction, &answer->worked->mix);
        if (isnan(share))
            continue;
        *ret_percent = share;
        return direction;
    }
    return NULL;
}

const char *ladder_worked_ends(const struct ladder_answer *answer) {
    double percent;
    const struct ladder_direction *direction = answer->worked ? direction_of_worked(answer, &percent) : NULL;
    for (int k = 0; direction && k < answer->ladder->count; k++)
        if (&answer->ladder->directions[answer->steps[k].direction] == direction)
            return answer->steps[k].rung == LADDER_NONE ? ladder_end_words(answer->steps[k].end) : NULL;
    return NULL;
}

static enum status judge_worked(struct ladder_answer *answer) {
    struct belief_liquid *liquid;
    if (!answer->worked)
        return STATUS_OK;
    enum status status = belief_liquid_make(answer->plan, &answer->worked->mix, &liquid, NULL);
    if (status != STATUS_OK)
        return status == STATUS_MEMORY ? status : STATUS_OK;
    ladder_judge_rung(answer->belief, liquid, answer->contact_s, answer->rolls, &answer->worked_rung);
    belief_liquid_release(liquid);
    return STATUS_OK;
}

static enum status choose_sites(struct ladder_answer *answer, struct error *err) {
    const struct casefile *file = answer->inv->casefile;
    if (!file)
        return STATUS_OK;
    double percent = NAN;
    const struct ladder_direction *direction = answer->worked ? direction_of_worked(answer, &percent) : NULL;
    answer->sites_of_worked = direction != NULL;
    if (!direction && answer->row_count == 0)
        return STATUS_OK;
    if (!direction) {
        direction = ladder_direction_of(answer, &answer->rows[0]);
        percent = answer->rows[0].plan.rung * (double)LADDER_STEP_PERCENT;
    }
    answer->site_count = ladder_sites(file, direction, percent, answer->sites);
    return forecast_sites(answer, direction, err);
}

static void look_at_tests(struct ladder_answer *answer) {
    const struct casefile *file = answer->inv->casefile;
    answer->stopped = case_any_stop(file);
    answer->worked = test_that_worked(file);
    answer->barred = test_that_worked_barred(file);
}

// Too few bottles are left: which were taken off the shelf, by what, and how to have them all the same.
static enum status check_shelf(const struct ladder_answer *answer, struct error *err) {
    const struct filter_count *items = answer->filters.items;
    if (answer->goal.bottle_count >= 2)
        return STATUS_OK;
    for (size_t i = 0; i < answer->filters.count; i++)
        if (items[i].bottles && i == 0)
            return error_set(err, STATUS_NO_DATA,
                             "a ladder needs at least two bottles, a weak and a strong one, and %s was left out: the "
                             "tool never proposes it of its own accord (category 1 carcinogen, mutagen or reproductive "
                             "toxicant, or a class that no model judges); --allow names one that you want all the same",
                             items[i].names);
        else if (items[i].bottles)
            return error_set(
                err, STATUS_NO_DATA,
                "a ladder needs at least two bottles, a weak and a strong one, and %s was left out by --without",
                items[i].names);
    return STATUS_OK;
}

// What worked at one site only is not passed over at the others.
static void begin_again(struct ladder_answer *answer) {
    for (int d = 0; answer->worked && d < answer->ladder->count; d++) {
        struct ladder_direction *direction = &answer->ladder->directions[d];
        double last_percent = direction->last_percent;
        const struct case_test *further = ladder_begin_again(direction, answer->inv->casefile, answer->worked);
        if (!further)
            continue;
        answer->further = further;
        answer->again = d;
        answer->again_last_percent = last_percent;
        return;
    }
}

static void find_overdue(struct ladder_answer *answer) {
    for (int d = 0; d < answer->ladder->count; d++) {
        struct ladder_direction *direction = &answer->ladder->directions[d];
        direction->overdue =
            overdue_bottle(answer->inv, &direction->weak) || overdue_bottle(answer->inv, &direction->strong);
    }
}

static enum status climb(struct ladder_answer *answer, struct error *err) {
    int taken = 0;
    enum status status = check_shelf(answer, err);
    if (status != STATUS_OK)
        return status;
    status = ladder_pairs(&answer->goal, &answer->inv->library, answer->inv->casefile, answer->ladder, err);
    answer->ladder->touch_most = answer->touch_most;
    begin_again(answer);
    find_overdue(answer);
    struct ladder_judging judging = judging_of(answer);
    if (status == STATUS_OK)
        status = ladder_judge(&judging, answer->ladder, err);
    if (status != STATUS_OK)
        return status;
    ladder_steps(answer->ladder, answer->steps);
    status = judge_worked(answer);
    if (status == STATUS_OK)
        status = direction_to_climb(answer, &taken, err);
    if (status == STATUS_OK)
        status = plan_climb(answer, taken, err);
    if (status == STATUS_OK)
        status = plan_others(answer, taken, err);
    if (status == STATUS_OK)
        status = choose_sites(answer, err);
    return status;
}

static enum status answer_all(struct ladder_answer *answer, struct error *err) {
    enum status status = read_options(answer, err);
    if (status == STATUS_OK)
        status = case_option_warn_peroxides(answer->inv, NULL, err);
    if (status == STATUS_OK)
        status = unifac_table_make(&answer->inv->library, &answer->groups, err);
    if (status == STATUS_OK)
        status = believe(answer, err);
    if (status == STATUS_OK)
        status = believe_other(answer, err);
    look_at_tests(answer);
    return status == STATUS_OK ? climb(answer, err) : status;
}

enum status ladder_answer_make(struct invocation *inv, struct ladder_answer *ret, struct error *err) {
    ret->inv = inv;
    ret->worked_rung.margin = NAN;
    ret->again = LADDER_NONE;
    ret->ladder = arena_new(inv->arena, 1, sizeof *ret->ladder);
    ret->steps = arena_new(inv->arena, LADDER_DIRECTIONS_MAX, sizeof *ret->steps);
    if (!ret->ladder || !ret->steps)
        return error_set(err, STATUS_MEMORY, "out of memory");
    interrupt_watch();
    enum status status = answer_all(ret, err);
    interrupt_done();
    return status;
}

void ladder_answer_release(struct ladder_answer *answer) {
    belief_case_release(&answer->learnt);
    belief_case_release(&answer->other_learnt);
    belief_release(answer->other_own_belief);
    belief_plan_release(answer->other_own_plan);
    belief_release(answer->own_belief);
    belief_plan_release(answer->own_plan);
    unifac_table_release(&answer->groups);
}

const char *ladder_no_next(const struct ladder_answer *answer) {
    const struct casefile *file = answer->inv->casefile;
    if (!file || !case_every_passage_stopped(file))
        return N_("No next test can be proposed from these bottles.");
    if (file->passages.count == 0)
        return N_("No next test: original colour was found, and the case names no passage in which it was not. Decide "
                  "first whether it is original; a test that was read wrongly is taken back with mildsolve record "
                  "--undo.");
    return N_("No next test: original colour was found in every passage. Decide first whether it is original; a test "
              "that was read wrongly is taken back with mildsolve record --undo.");
}

const char *ladder_scale_words(int by) {
    return by == BELIEF_FILM ? N_("ln of the layer's swelling: +0.7 doubles what it takes up, and 10 times its volume "
                                  "counts as dissolved")
                             : N_("-ln RED: 0 on the edge of the layer's sphere, larger inside");
}
