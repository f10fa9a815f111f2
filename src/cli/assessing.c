// SPDX-License-Identifier: GPL-3.0-or-later
// exposure: the answer, from the options of a call to what every set of limits says of each day.
#include "base/language.h"
#include "cli/assessing.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const struct exposure_flag_name exposure_flag_names[EXPOSURE_FLAGS] = {
    {EXPOSURE_SKIN, "skin", N_("taken up through the skin")},
    {EXPOSURE_CARCINOGEN, "carcinogen", N_("carcinogen (known or suspected)")},
    {EXPOSURE_MUTAGEN, "mutagen", N_("mutagen (known or suspected)")},
    {EXPOSURE_REPRODUCTIVE, "reproductive", N_("toxic to reproduction (known or suspected)")},
    {EXPOSURE_SENSITISER, "sensitiser", N_("sensitiser")},
};

const struct exposure_judgement *deciding(const struct assessing *assessing, const struct assessed_day *day) {
    return assessing->strictest ? &day->all.sets[day->all.tightest] : day->judged;
}

double allowed_ml_h(const struct assessing *assessing) {
    const struct assessed_day *day = assessing->day;
    if (!day->judged->complete || !deciding(assessing, day)->complete)
        return NAN;
    return deciding(assessing, day)->allowed_factor * day->plan.tasks[0].use_ml_h;
}

static bool same_notation(const struct blend *a, const struct blend *b) {
    struct text first = {0}, second = {0};
    blend_write(a, &first);
    blend_write(b, &second);
    bool same = strcmp(text_bytes(&first), text_bytes(&second)) == 0;
    text_release(&first);
    text_release(&second);
    return same;
}

bool first_with_blend(const struct assessing *assessing, size_t task) {
    for (size_t i = 0; i < task; i++)
        if (same_notation(&assessing->blends[i], &assessing->blends[task]))
            return false;
    return true;
}

const char *clock_write(double hour, char buffer[CLOCK_BYTES]) {
    int minutes = (int)lround(60 * hour);
    snprintf(buffer, CLOCK_BYTES, "%d:%02d", minutes / 60, minutes % 60);
    return buffer;
}

static void add_one_task(const struct assessing *assessing, struct text *out) {
    const struct exposure_plan *plan = &assessing->day->plan;
    struct text blend = {0};
    blend_write(&assessing->blends[0], &blend);
    text_say(out,
             plan->room.air_changes_per_h > 0
                 ? N_("%s: %g mL/h for %g h in %g m3 with %g air changes per hour; ")
                 : N_("%s: %g mL/h for %g h in %g m3 with %g air changes per hour (sealed); "),
             text_bytes(&blend), plan->tasks[0].use_ml_h, plan->tasks[0].length_h, plan->room.volume_m3,
             plan->room.air_changes_per_h);
    out->failed |= blend.failed;
    text_release(&blend);
}

static void add_day_of_tasks(const struct assessing *assessing, struct text *out) {
    const struct exposure_plan *plan = &assessing->day->plan;
    double last_h = 0;
    char from[CLOCK_BYTES], to[CLOCK_BYTES];
    for (size_t i = 0; i < assessing->task_count; i++)
        last_h = fmax(last_h, assessing->tasks[i].to_h);
    clock_write(assessing->first_h, from);
    clock_write(last_h, to);
    if (assessing->task_count == 1)
        text_say(out, "one task from %s to %s in %g m3 with %g air changes per hour; ", from, to, plan->room.volume_m3,
                 plan->room.air_changes_per_h);
    else
        text_say(out, "%zu tasks from %s to %s in %g m3 with %g air changes per hour; ", assessing->task_count, from,
                 to, plan->room.volume_m3, plan->room.air_changes_per_h);
}

void add_question(const struct assessing *assessing, struct text *out) {
    if (assessing->timed)
        add_day_of_tasks(assessing, out);
    else
        add_one_task(assessing, out);
    if (assessing->day->plan.leaves && assessing->task_count > 1)
        text_say(out, "the person is in the room only while a task runs.");
    else if (assessing->day->plan.leaves)
        text_say(out, "the person leaves the room with the task.");
    else
        text_say(out, "the person stays in the room to the end of the %g h.", assessing->day->air.shift_h);
}

void add_set(const struct assessing *assessing, struct text *out) {
    const struct authority *authority = assessing->day->judged->authority;
    const char *edition = authority->edition ? authority->edition : say("edition not stated");
    bool no_limit = !assessing->day->judged->complete && !(assessing->day->judged->worst > 0);
    text_say(out,
             !assessing->strictest ? N_("%s: %s, %s")
             : no_limit            ? N_("%s: %s, %s (no set has a limit for any of it)")
                                   : N_("%s: %s, %s (the strictest: largest index of any one set)"),
             authority->id, authority->name, edition);
}

static void choose_set(const struct assessing *assessing, struct assessed_day *day) {
    day->judged = &day->all.sets[day->all.strictest];
    for (size_t i = 0; !assessing->strictest && i < day->all.count; i++)
        if (day->all.sets[i].authority == assessing->authority)
            day->judged = &day->all.sets[i];
}

static enum status assess_day(struct assessing *assessing, enum rate rate, struct error *err) {
    struct assessed_day *day = &assessing->days[rate];
    enum status status = exposure_air(&day->plan, &day->air, err);
    if (status == STATUS_OK)
        status = exposure_judge_all(&assessing->inv->library, &day->plan, &day->air, &day->all, err);
    if (status == STATUS_OK)
        choose_set(assessing, day);
    return status;
}

static void choose_day(struct assessing *assessing) {
    struct assessed_day *all = &assessing->days[RATE_ALL], *model = &assessing->days[RATE_MODEL];
    assessing->day = all;
    if (assessing->rate == RATE_ALL)
        return;
    // What allows less is the larger of the two, whether a limit, an IDLH or the alarm of flammable vapour says so.
    bool larger = deciding(assessing, model)->allowed_factor < deciding(assessing, all)->allowed_factor;
    assessing->day = larger ? model : all;
    assessing->other = larger ? all : model;
}

static enum status find_help(struct assessing *assessing, struct error *err) {
    const struct library *lib = &assessing->inv->library;
    const struct exposure_plan *plan = &assessing->day->plan;
    const struct authority *authority = deciding(assessing, assessing->day)->authority;
    enum status status = exposure_air_changes_needed(lib, plan, authority, &assessing->air_changes.need,
                                                     &assessing->air_changes.value, err);
    if (status == STATUS_OK)
        status = exposure_pause_needed(lib, plan, authority, &assessing->pause.need, &assessing->pause.value, err);
    if (status == STATUS_OK)
        status = exposure_hours_possible(lib, plan, authority, &assessing->hours.need, &assessing->hours.value, err);
    return status;
}

static enum status assess(struct assessing *assessing, struct error *err) {
    enum status status = assess_day(assessing, RATE_ALL, err);
    if (status == STATUS_OK && assessing->rate == RATE_MODEL)
        status = assess_day(assessing, RATE_MODEL, err);
    if (status != STATUS_OK)
        return status;
    choose_day(assessing);
    assessing->verdict = assessing->strictest ? assessing->day->all.verdict : assessing->day->judged->verdict;
    return find_help(assessing, err);
}

enum status assessing_make(struct invocation *inv, struct assessing *ret, struct error *err) {
    ret->inv = inv;
    enum status status = read_day(ret, err);
    return status == STATUS_OK ? assess(ret, err) : status;
}

void assessing_release(struct assessing *assessing) {
    for (int i = RATE_ALL; i <= RATE_MODEL; i++)
        exposure_judgements_release(&assessing->days[i].all);
}
