// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/case_option.h"

#include "cli/page_options.h"
#include "selection/goal.h"

#include <math.h>
#include <string.h>

enum { MATERIALS_MAX = 16 };

struct filling {
    struct invocation *inv;
    const struct casefile *file;
    struct text told; // what was taken, for the note
    bool failed;
    bool no_place; // for a class to leave out
};

static void tell(struct filling *filling, const char *name, const char *value) {
    text_printf(&filling->told, "%s%s %s", filling->told.length ? "; " : "", name, value);
}

// Of no use to this call: about a chart that isn't drawn, or areas beside points of the other rule.
static bool idle(const struct invocation *inv, const char *name) {
    const char *rule = option_value(inv, "--rule");
    bool other_rule = strcmp(name, "--material") == 0 && rule && strcmp(rule, "hansen") == 0;
    return other_rule || (page_option(name) && option_known(inv, "--chart") && !picture_asked(inv));
}

// Copies into the arena of the call, where options live.
static void fill(struct filling *filling, const char *name, const char *value) {
    if (idle(filling->inv, name))
        return;
    const char *copy = value ? arena_text(filling->inv->arena, value) : NULL;
    if (value && !copy)
        filling->failed = true;
    else if (copy && option_fill(filling->inv, name, copy))
        tell(filling, name, copy);
}

static void fill_number(struct filling *filling, const char *name, double value) {
    if (isnan(value))
        return;
    const char *text = arena_printf(filling->inv->arena, "%.10g", value);
    if (!text)
        filling->failed = true;
    else
        fill(filling, name, text);
}

static void fill_bottles(struct filling *filling) {
    const struct case_bottle *bottles = filling->file->bottles.items;
    struct text list = {0};
    for (size_t i = 0; i < filling->file->bottles.count; i++)
        if (!date_is_set(bottles[i].finished))
            text_printf(&list, "%s%s", list.length ? ", " : "", bottles[i].id);
    if (list.length && !option_given(filling->inv, "--shelf") && !option_given(filling->inv, "--whole-table"))
        fill(filling, "--bottles", text_bytes(&list));
    filling->failed |= list.failed;
    text_release(&list);
}

// --- materials ---

static const struct material *with_region(struct filling *filling, const struct material *material) {
    const struct material *stand_in;
    if (!isnan(material->sphere.r0) || !material->substitute ||
        library_material(&filling->inv->library, material->substitute, &stand_in, NULL) != STATUS_OK)
        return material;
    page_paragraph_f(filling->inv->talk, 0, 2,
                     "note: no region is published for %s; its careful stand-in %s is taken in its place", material->id,
                     stand_in->id);
    return stand_in;
}

static void write_materials(struct filling *filling, const struct material *const *materials, size_t count,
                            bool needs_region, struct text *list) {
    const struct material *written[MATERIALS_MAX];
    for (size_t i = 0; i < count; i++) {
        written[i] = needs_region ? with_region(filling, materials[i]) : materials[i];
        bool again = false;
        for (size_t j = 0; j < i; j++)
            again |= written[j] == written[i];
        if (!again)
            text_printf(list, "%s%s", list->length ? ", " : "", written[i]->id);
    }
    filling->failed |= list->failed;
}

static bool wants(const struct filling *filling, const char *name) {
    return option_known(filling->inv, name) && !option_given(filling->inv, name) && !idle(filling->inv, name);
}

static enum status fill_materials(struct filling *filling, const char *name, const struct text_list *const goals[],
                                  size_t goal_count, bool needs_region, struct error *err) {
    const struct material *materials[MATERIALS_MAX];
    size_t count = 0;
    if (!wants(filling, name))
        return STATUS_OK;
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < goal_count; i++)
        status = case_goal_materials(filling->file, goals[i], materials, MATERIALS_MAX, &count, err);
    if (status != STATUS_OK || count == 0)
        return status;
    struct text list = {0};
    write_materials(filling, materials, count, needs_region, &list);
    fill(filling, name, text_bytes(&list));
    text_release(&list);
    return STATUS_OK;
}

static enum status fill_goals(struct filling *filling, struct error *err) {
    const struct case_goals *goals = &filling->file->goals;
    const struct text_list *const all[] = {&goals->remove, &goals->spare, &goals->unsure};
    enum status status = fill_materials(filling, "--remove", all, 1, true, err);
    if (status == STATUS_OK)
        status = fill_materials(filling, "--spare", all + 1, 2, true, err);
    if (status == STATUS_OK)
        status = fill_materials(filling, "--material", all, 3, option_known(filling->inv, "--object"), err);
    return status;
}

// --- people, room, record ---

static void leave_out(struct filling *filling, bool announced, const char *classes) {
    if (!announced || !option_known(filling->inv, "--without"))
        return;
    if (option_add(filling->inv, "--without", classes))
        tell(filling, "--without", classes);
    else
        filling->no_place = true;
}

// By name, what no class of --without names.
static void leave_out_for_young(struct filling *filling) {
    const struct library *lib = &filling->inv->library;
    struct text names = {0};
    text_add(&names, "reproductive, carcinogen, mutagen, toxic, corrosive, sensitiser");
    for (size_t i = 0; i < lib->component_count; i++)
        if (component_may_damage_organs(&lib->components[i]))
            text_printf(&names, ", %s", lib->components[i].id);
    const char *copy = names.failed ? NULL : arena_text(filling->inv->arena, text_bytes(&names));
    text_release(&names);
    filling->failed |= !copy;
    if (copy)
        leave_out(filling, true, copy);
    page_paragraph(filling->inv->talk, 0, 2,
                   "note: people under 18 must not work with what is left out for them, nor with liquids that catch "
                   "fire easily (H224, H225), which are not left out: only where their training needs it, and under "
                   "the eyes of a competent person (Directive 94/33/EC, from memory)");
}

// Council Directive 92/85/EEC, Annex I, as amended by 2014/27/EU (from memory): for pregnant and breastfeeding workers
// every mutagen, carcinogen and reproductive toxicant, category 2 as well, and H370, H371; acute toxicity 1 to 3 by the
// German act on maternity protection, par. 11 (from memory).
static void fill_people(struct filling *filling) {
    const struct casefile *file = filling->file;
    bool expecting = case_has_flag(file, "pregnancy announced") || case_has_flag(file, "breastfeeding");
    bool sensitised = case_has_flag(file, "sensitised");
    leave_out(filling, expecting, "reproductive, carcinogen, mutagen, toxic");
    leave_out(filling, sensitised, "sensitiser");
    bool young = case_has_flag(file, "under 18") && option_known(filling->inv, "--without");
    if (young)
        leave_out_for_young(filling);
    if ((expecting || sensitised || young) && option_known(filling->inv, "--without"))
        page_paragraph(
            filling->inv->talk, 0, 2,
            "note: the case says who works there (pregnancy, breastfeeding, under 18 or sensitised), and what is "
            "classified against it is left out. What is not left out is not thereby harmless: ask the "
            "occupational physician about each liquid");
}

// The tasks of the case's day, unless the user says what is done. True when --use and --hours may still be filled.
static bool fill_day(struct filling *filling) {
    const struct text_list *day = &filling->file->day;
    struct invocation *inv = filling->inv;
    bool other = option_given(inv, "--use") || option_given(inv, "--hours") || option_given(inv, "--start");
    if (!option_known(inv, "--task") || option_given(inv, "--task"))
        return !option_given(inv, "--task");
    if (other || day->count == 0)
        return true;
    for (size_t i = 0; i < day->count; i++)
        if (option_add(inv, "--task", day->items[i]))
            tell(filling, "--task", day->items[i]);
    return false;
}

static void fill_air(struct filling *filling) {
    const struct casefile *file = filling->file;
    fill_number(filling, "--room", file->room.volume_m3);
    fill_number(filling, "--air-changes", file->room.air_changes_per_h);
    fill_number(filling, "--temperature", file->room.temperature_c);
    if (fill_day(filling)) {
        fill_number(filling, "--use", file->delivery.load_ml_per_h);
        fill_number(filling, "--hours", file->delivery.hours_per_day);
    }
    fill(filling, "--limits", file->studio.limits);
}

struct date case_last_day(const struct casefile *file) {
    struct date last = {0};
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++)
        last = date_compare(tests[i].date, last) > 0 ? tests[i].date : last;
    const struct case_decision *decisions = file->decisions.items;
    for (size_t i = 0; i < file->decisions.count; i++)
        last = date_compare(decisions[i].date, last) > 0 ? decisions[i].date : last;
    return last;
}

static void fill_caption(struct filling *filling) {
    const struct case_object *object = &filling->file->object;
    char day[DATE_BYTES];
    struct date last = date_is_set(filling->inv->as_of) ? filling->inv->as_of : case_last_day(filling->file);
    if (!option_known(filling->inv, "--object"))
        return;
    fill(filling, "--object", object->number ? object->number : object->title);
    if (date_is_set(last) && !filling->inv->command->dated)
        fill(filling, "--date", date_write(last, day));
}

static bool takes_blend_first(const struct command *command) {
    return strncmp(command->arguments, "BLEND", strlen("BLEND")) == 0 ||
           strncmp(command->arguments, "[BLEND]", strlen("[BLEND]")) == 0;
}

// What the case seeks a replacement for, where the command line does not say it: the first, of several.
static void fill_replacement(struct filling *filling) {
    struct invocation *inv = filling->inv;
    const struct case_replacement *asked = filling->file->replacements.items;
    size_t count = filling->file->replacements.count;
    if (!option_known(inv, "--whole-table") || inv->argument_count || option_given(inv, "--without") ||
        option_given(inv, "--bottle") || count == 0)
        return;
    inv->arguments[inv->argument_count++] = asked->blend;
    tell(filling, "BLEND", asked->blend);
    for (size_t i = 0; i < asked->without.count; i++)
        leave_out(filling, true, asked->without.items[i]);
    if (asked->bottle)
        fill(filling, "--bottle", asked->bottle);
    if (count > 1)
        page_paragraph_f(inv->talk, 0, 2,
                         "note: the case seeks %zu replacements; this is the first, the report has all", count);
}

static void fill_blend(struct filling *filling) {
    struct invocation *inv = filling->inv;
    const char *blend = case_working_blend(filling->file);
    if (!blend)
        return;
    fill(filling, "--blend", blend);
    if (inv->argument_count == 0 && takes_blend_first(inv->command)) {
        inv->arguments[inv->argument_count++] = blend;
        tell(filling, "BLEND", blend);
    }
}

static void remark_water(struct filling *filling) {
    const struct case_bottle *bottles = filling->file->bottles.items;
    char sentence[CASE_REMARK_BYTES];
    if (!option_known(filling->inv, "--bottles"))
        return;
    for (size_t i = 0; i < filling->file->bottles.count; i++)
        if (isnan(bottles[i].water_percent) && case_bottle_water_remark(filling->file, &bottles[i], sentence)[0])
            page_paragraph_f(filling->inv->talk, 0, 2, "note: bottle %s: %s", bottles[i].id, sentence);
}

static void use_bottles(struct invocation *inv, const struct casefile *file) {
    inv->library.bottles = file->library.bottles; // in the arena of the call, which outlives the library
    inv->library.bottle_count = file->library.bottle_count;
}

enum status case_option_fill(struct invocation *inv, const struct casefile *file, struct error *err) {
    struct filling filling = {.inv = inv, .file = file};
    inv->casefile = file;
    use_bottles(inv, file);
    enum status status = fill_goals(&filling, err);
    fill_bottles(&filling);
    fill_replacement(&filling);
    fill_people(&filling);
    fill_air(&filling);
    fill_caption(&filling);
    fill_blend(&filling);
    remark_water(&filling);
    if (filling.told.length)
        page_paragraph_f(inv->talk, 0, 2, "note: from %s: %s", file->path, text_bytes(&filling.told));
    bool failed = filling.failed || filling.told.failed;
    text_release(&filling.told);
    if (status == STATUS_OK && filling.no_place)
        return error_set(err, STATUS_USAGE,
                         "--without is given %d times, and the case has more to leave out: join the "
                         "names with commas in one of them",
                         REPEATS_MAX);
    return status == STATUS_OK && failed ? error_set(err, STATUS_MEMORY, "out of memory") : status;
}

enum status case_option_apply(struct invocation *inv, struct error *err) {
    struct casefile *file = arena_new(inv->arena, 1, sizeof *file);
    if (!file)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status =
        casefile_open(inv->arena, option_value(inv, "--case"), &inv->library, (struct date){0}, file, err);
    return status == STATUS_OK ? case_option_fill(inv, file, err) : status;
}

static bool is_in(const struct case_bottle *bottle, const struct blend *blend) {
    for (size_t i = 0; i < blend->part_count; i++)
        if (strcmp(bottle_ref_id(&blend->parts[i].bottle), bottle->id) == 0)
            return true;
    return false;
}

enum status case_option_warn_peroxides(struct invocation *inv, const struct blend *blend, struct error *err) {
    struct date as_of = {0};
    enum status status = option_date(inv, "--date", as_of, &as_of, err);
    if (status != STATUS_OK || !inv->casefile)
        return status;
    if (!date_is_set(as_of))
        status = date_today(&as_of, err);
    if (status != STATUS_OK)
        return status;
    inv->as_of = as_of;
    const struct case_bottle *bottles = inv->casefile->bottles.items;
    char sentence[CASE_REMARK_BYTES];
    for (size_t i = 0; i < inv->casefile->bottles.count; i++)
        if ((!blend || is_in(&bottles[i], blend)) &&
            case_bottle_peroxide_remark(inv->casefile, &bottles[i], inv->as_of, sentence)[0])
            page_paragraph_f(inv->talk, 0, 2, "note: bottle %s %s", bottles[i].id, sentence);
    return STATUS_OK;
}
