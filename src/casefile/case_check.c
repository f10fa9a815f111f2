// SPDX-License-Identifier: GPL-3.0-or-later
// What the records of a case alone cannot show: names that must exist, places inside the picture, days that have been.
#include "base/language.h"
#include "casefile/case_parts.h"
#include "physics/day_task.h"
#include "physics/room.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

const char *case_nearest(const char *name, const char *const *names, size_t count, char buffer[NEAREST_BYTES]) {
    struct near_name near = near_name_begin(name);
    for (size_t i = 0; i < count; i++)
        near_name_try(&near, names[i]);
    buffer[0] = '\0';
    if (near.best)
        snprintf(buffer, NEAREST_BYTES, say("; nearest: '%.*s'"), (int)text_prefix(near.best, 80), near.best);
    return buffer;
}

void case_check_characters(struct fault_list *faults, const char *name, const struct yaml_node *node, const char *key) {
    const char *before = key ? key : "";
    const char *colon = key ? ": " : "";
    for (const char *at = node->text; *at;) {
        unsigned code = 0;
        size_t length = utf8_sequence((const unsigned char *)at, strnlen(at, 4), &code);
        if (length == 0) {
            faults_add(faults, name, node, "%s%sbyte 0x%02X is not valid UTF-8", before, colon, (unsigned char)*at);
            return;
        }
        if ((code < 0x20 && code != '\n' && code != '\t') || (code >= 0x7F && code < 0xA0)) {
            faults_add(faults, name, node,
                       "%s%scontrol character U+%04X; only printable text, tab and line ends may stand in a case",
                       before, colon, code);
            return;
        }
        at += length;
    }
}

// --- one place for the words around a fault ---

struct entry {
    const struct case_reading *reading;
    const char *name; // of the file
    const struct yaml_node *node;
    const char *kind; // "test"
    const char *id;
};

__attribute__((format(printf, 3, 4))) static void wrong(const struct entry *entry, const char *key, const char *format,
                                                        ...) {
    char sentence[ERROR_TEXT_SIZE];
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(sentence, sizeof sentence, say(format), arguments);
    va_end(arguments);
    faults_add(entry->reading->faults, entry->name, case_key_node(entry->node, key), "%s%s%.*s%s, %s: %s", entry->kind,
               entry->id ? " '" : "", entry->id ? (int)text_prefix(entry->id, 60) : 0, entry->id ? entry->id : "",
               entry->id ? "'" : "", key, sentence);
}

static struct entry entry_of(const struct case_reading *reading, const char *list, size_t i, const char *kind,
                             const char *id) {
    return (struct entry){reading, reading->file->path, case_entry_node(reading->file, list, i), kind, id};
}

// A group at the top of the file.
static struct entry group_of(const struct case_reading *reading, const char *key) {
    return (struct entry){reading, reading->file->path, yaml_find(reading->file->root, key), key, NULL};
}

// --- words in lists ---

static size_t word_count(const char *const *words) {
    size_t count = 0;
    while (words[count])
        count++;
    return count;
}

static void check_words(const struct entry *entry, const char *key, const struct text_list *list,
                        const char *const *words) {
    char near[NEAREST_BYTES];
    for (size_t i = 0; i < list->count; i++) {
        if (word_index(list->items[i], words) >= 0)
            continue;
        struct text known = {0};
        for (size_t w = 0; words[w]; w++)
            text_printf(&known, "%s%s", w ? ", " : "", words[w]);
        wrong(entry, key, "'%.*s' is not known%s; one of these is expected: %s", (int)text_prefix(list->items[i], 60),
              list->items[i], case_nearest(list->items[i], words, word_count(words), near), text_bytes(&known));
        text_release(&known);
    }
}

// --- names inside the case ---

enum { NAMES_MAX = 64, BOTTLES_MAX = 150, TESTS_MAX = 5000 };

// `size` of one of the records.
static void check_id(const struct entry *entry, const char *key, const char *id, const char *what,
                     const struct record_list *records, size_t size) {
    const char *ids[NAMES_MAX];
    size_t count = records->count < NAMES_MAX ? records->count : NAMES_MAX;
    for (size_t i = 0; i < count; i++) {
        ids[i] = case_entry_id(records, size, i);
        if (strcmp(ids[i], id) == 0)
            return;
    }
    char near[NEAREST_BYTES];
    wrong(entry, key, "this case has no %s '%.*s'%s", what, (int)text_prefix(id, 60), id,
          case_nearest(id, ids, count, near));
}

static void check_layer_id(const struct entry *entry, const char *key, const char *id) {
    check_id(entry, key, id, "layer", &entry->reading->file->layers, sizeof(struct case_layer));
}

static void check_short(const struct case_reading *reading, const char *list, size_t count, size_t most) {
    if (count > most)
        faults_add(reading->faults, reading->file->path, yaml_find(reading->file->root, list),
                   "%s: %zu entries; at most %zu fit into one case", list, count, most);
}

static void check_unique(const struct case_reading *reading, const char *list, const char *kind,
                         const struct record_list *records, size_t size) {
    for (size_t i = 0; i < records->count; i++) {
        const char *id = case_entry_id(records, size, i);
        for (size_t j = 0; j < i; j++) {
            if (strcmp(id, case_entry_id(records, size, j)) != 0)
                continue;
            struct entry entry = entry_of(reading, list, i, kind, id);
            wrong(&entry, "id", "stands here for the second time (first in line %d)",
                  case_entry_node(reading->file, list, j)->line);
            break;
        }
    }
}

// --- days ---

static void check_day(const struct entry *entry, const char *key, struct date date) {
    struct date as_of = entry->reading->as_of;
    char day[DATE_BYTES];
    char today[DATE_BYTES];
    if (date_is_set(date) && date_is_set(as_of) && date_compare(date, as_of) > 0)
        wrong(entry, key, "%s lies in the future: today is %s", date_write(date, day), date_write(as_of, today));
}

// --- places ---

static void check_inside(const struct entry *entry, const char *key, double from_mm, double length_mm, double most_mm,
                         const char *side) {
    double to_mm = isnan(length_mm) ? from_mm : from_mm + length_mm;
    if (isnan(from_mm) || isnan(most_mm) || to_mm <= most_mm)
        return;
    wrong(entry, key, "%g mm is outside the picture, which is %g mm %s", to_mm, most_mm, side);
}

static void check_corner(const struct entry *entry, const char *key, double x_mm) {
    if (!isnan(x_mm) && entry->reading->file->object.measured_from == CORNER_NOT_STATED)
        wrong(entry, key,
              "measured from which corner? Say it once under object, for example 'measured_from: lower "
              "left'");
}

// --- the parts of the file ---

static void check_studio(const struct case_reading *reading) {
    const char *limits = reading->file->studio.limits;
    const struct authority *authority;
    struct error err;
    if (!limits || strcmp(limits, "strictest") == 0 || !(reading->lib->loaded & TABLE_LIMITS) ||
        library_authority(reading->lib, limits, &authority, &err) == STATUS_OK)
        return;
    struct entry entry = group_of(reading, "studio");
    wrong(&entry, "limits", "%s", err.text);
}

static void check_material(const struct entry *entry, const char *key, const char *name) {
    const struct material *material;
    struct error err;
    if (library_material(entry->reading->lib, name, &material, &err) != STATUS_OK)
        wrong(entry, key, "%s", err.text);
}

static void check_layers(const struct case_reading *reading) {
    const struct case_layer *layers = reading->file->layers.items;
    check_short(reading, "layers", reading->file->layers.count, NAMES_MAX);
    check_unique(reading, "layers", "layer", &reading->file->layers, sizeof *layers);
    for (size_t i = 0; i < reading->file->layers.count; i++) {
        struct entry entry = entry_of(reading, "layers", i, "layer", layers[i].id);
        if (layers[i].material)
            check_material(&entry, "material", layers[i].material);
        for (size_t j = 0; j < layers[i].alternatives.count; j++)
            check_material(&entry, "alternatives", layers[i].alternatives.items[j]);
    }
}

static void check_passages(const struct case_reading *reading) {
    const struct case_object *object = &reading->file->object;
    const struct case_passage *passages = reading->file->passages.items;
    check_short(reading, "passages", reading->file->passages.count, NAMES_MAX);
    check_unique(reading, "passages", "passage", &reading->file->passages, sizeof *passages);
    for (size_t i = 0; i < reading->file->passages.count; i++) {
        const struct case_place *place = &passages[i].place;
        struct entry entry = entry_of(reading, "passages", i, "passage", passages[i].id);
        check_corner(&entry, "place", place->x_mm);
        check_inside(&entry, "place", place->x_mm, place->width_mm, object->width_mm, "wide");
        check_inside(&entry, "place", place->y_mm, place->height_mm, object->height_mm, "high");
        check_words(&entry, "sensitive", &passages[i].sensitive, sensitivity_words);
        for (size_t j = 0; j < passages[i].layers.count; j++)
            check_layer_id(&entry, "layers", passages[i].layers.items[j]);
    }
}

static void check_bottles(const struct case_reading *reading) {
    const struct case_bottle *bottles = reading->file->bottles.items;
    check_short(reading, "bottles", reading->file->bottles.count, BOTTLES_MAX);
    check_unique(reading, "bottles", "bottle", &reading->file->bottles, sizeof *bottles);
    for (size_t i = 0; i < reading->file->bottles.count; i++) {
        const struct case_bottle *bottle = &bottles[i];
        struct entry entry = entry_of(reading, "bottles", i, "bottle", bottle->id);
        check_day(&entry, "received", bottle->received);
        check_day(&entry, "opened", bottle->opened);
        check_day(&entry, "peroxide_tested", bottle->peroxide_tested);
        check_day(&entry, "finished", bottle->finished);
        // A month stands for its first day, so a day of the same month may lie before it.
        if (date_is_set(bottle->received) && date_is_set(bottle->opened) &&
            date_compare(date_add_months(bottle->received, -1), bottle->opened) > 0)
            wrong(&entry, "opened", "the bottle was opened before it was received");
    }
}

static void check_room(const struct case_reading *reading) {
    const struct case_room *room = &reading->file->room;
    struct entry entry = group_of(reading, "room");
    if (room->arm == ARM_MEASURED && isnan(room->arm_capture_percent))
        wrong(&entry, "arm", "'capture measured' needs arm_capture_percent: what was measured?");
    if (room->arm != ARM_MEASURED && !isnan(room->arm_capture_percent))
        wrong(&entry, "arm_capture_percent",
              "counts only with 'arm: capture measured'; an arm that was not measured gets no credit");
}

static void check_people(const struct case_reading *reading) {
    struct entry entry = group_of(reading, "people");
    check_words(&entry, "flags", &reading->file->people.flags, person_flag_words);
}

static void check_goal(const struct entry *entry, const char *key, const struct text_list *goal) {
    for (size_t i = 0; i < goal->count; i++)
        if (!case_layer(entry->reading->file, goal->items[i]))
            check_material(entry, key, goal->items[i]);
}

static void check_goals(const struct case_reading *reading) {
    const struct case_goals *goals = &reading->file->goals;
    struct entry entry = group_of(reading, "goals");
    check_goal(&entry, "remove", &goals->remove);
    check_goal(&entry, "spare", &goals->spare);
    check_goal(&entry, "unsure", &goals->unsure);
    for (size_t i = 0; i < goals->remove.count; i++)
        for (size_t j = 0; j < goals->spare.count; j++)
            if (strcmp(goals->remove.items[i], goals->spare.items[j]) == 0)
                wrong(&entry, "spare", "'%s' stands under remove and under spare", goals->spare.items[j]);
}

static void check_blend(const struct entry *entry, const char *key, const char *notation, struct blend *ret) {
    struct error err;
    struct blend blend;
    if (blend_parse(&entry->reading->file->library, notation, &blend, NULL, &err) != STATUS_OK)
        wrong(entry, key, "%s", err.text);
    else if (ret)
        *ret = blend;
}

static void check_day_plan(const struct case_reading *reading) {
    const struct text_list *day = &reading->file->day;
    for (size_t i = 0; i < day->count; i++) {
        struct entry entry = entry_of(reading, "day", i, "day", NULL);
        struct day_task task;
        struct error err;
        if (i == AIR_TASKS_MAX)
            wrong(&entry, "task", "there are %zu tasks; at most %d make a day", day->count, AIR_TASKS_MAX);
        if (day_task_parse(day->items[i], &task, &err) != STATUS_OK)
            wrong(&entry, "task", "%s", err.text);
        else if (task.blend)
            check_blend(&entry, "task", task.blend, NULL);
    }
}

static void check_planned(const struct case_reading *reading) {
    const struct case_planned *planned = reading->file->planned.items;
    check_short(reading, "planned", reading->file->planned.count, NAMES_MAX);
    check_unique(reading, "planned", "planned layer", &reading->file->planned, sizeof *planned);
    for (size_t i = 0; i < reading->file->planned.count; i++) {
        struct entry entry = entry_of(reading, "planned", i, "planned layer", planned[i].id);
        struct blend carrier;
        struct error err;
        check_material(&entry, "material", planned[i].material);
        if (planned[i].carrier &&
            blend_parse(&reading->file->library, planned[i].carrier, &carrier, NULL, &err) != STATUS_OK)
            wrong(&entry, "carrier", "%s", err.text);
        if (!planned[i].carrier && !isnan(planned[i].percent_w_v))
            wrong(&entry, "percent_w_v", "a percentage needs a carrier: in what is the resin dissolved?");
    }
}

static void check_replacements(const struct case_reading *reading) {
    const struct case_replacement *replacements = reading->file->replacements.items;
    check_short(reading, "replacements", reading->file->replacements.count, NAMES_MAX);
    for (size_t i = 0; i < reading->file->replacements.count; i++) {
        struct entry entry = entry_of(reading, "replacements", i, "replacement", NULL);
        check_blend(&entry, "blend", replacements[i].blend, NULL);
        if (replacements[i].without.count == 0 && !replacements[i].bottle)
            wrong(&entry, "blend", "needs without (bottles, components or hazard classes that shall go) or bottle");
    }
}

static void check_decisions(const struct case_reading *reading) {
    const struct case_decision *decisions = reading->file->decisions.items;
    for (size_t i = 0; i < reading->file->decisions.count; i++) {
        struct entry entry = entry_of(reading, "decisions", i, "decision", NULL);
        check_day(&entry, "date", decisions[i].date);
        if (decisions[i].blend)
            check_blend(&entry, "blend", decisions[i].blend, NULL);
    }
}

static void check_withdrawal(const struct entry *entry, const struct case_test *test) {
    if (test->withdrawn && !date_is_set(test->withdrawn_on))
        wrong(entry, "withdrawn", "a withdrawn test needs withdrawn_on: the day on which it was withdrawn");
    if (!test->withdrawn && date_is_set(test->withdrawn_on))
        wrong(entry, "withdrawn_on", "has a day, but the test is not withdrawn ('withdrawn: true')");
    if (test->withdrawn && date_is_set(test->withdrawn_on) && date_compare(test->withdrawn_on, test->date) < 0)
        wrong(entry, "withdrawn_on", "the test was withdrawn before it was made");
    check_day(entry, "withdrawn_on", test->withdrawn_on);
}

void case_check_test(const struct case_reading *reading, const char *name, const struct yaml_node *node,
                     struct case_test *test) {
    const struct case_object *object = &reading->file->object;
    struct entry entry = {reading, name, node, "test", test->id};
    check_day(&entry, "date", test->date);
    if (test->passage)
        check_id(&entry, "passage", test->passage, "passage", &reading->file->passages, sizeof(struct case_passage));
    if (isnan(test->x_mm) != isnan(test->y_mm))
        wrong(&entry, isnan(test->x_mm) ? "y_mm" : "x_mm", "a site needs both x_mm and y_mm");
    check_corner(&entry, "x_mm", test->x_mm);
    check_inside(&entry, "x_mm", test->x_mm, NAN, object->width_mm, "wide");
    check_inside(&entry, "y_mm", test->y_mm, NAN, object->height_mm, "high");
    if (test->layer)
        check_layer_id(&entry, "layer", test->layer);
    check_blend(&entry, "blend", test->blend, &test->mix);
    check_withdrawal(&entry, test);
}

static void check_tests(const struct case_reading *reading) {
    struct case_test *tests = reading->file->tests.items;
    check_short(reading, "tests", reading->file->tests.count, TESTS_MAX);
    if (reading->file->tests.count > TESTS_MAX)
        return;
    check_unique(reading, "tests", "test", &reading->file->tests, sizeof *tests);
    for (size_t i = 0; i < reading->file->tests.count; i++)
        case_check_test(reading, reading->file->path, case_entry_node(reading->file, "tests", i), &tests[i]);
}

enum status case_check(struct case_reading *reading) {
    check_studio(reading);
    check_layers(reading);
    check_passages(reading);
    check_bottles(reading);
    check_room(reading);
    check_people(reading);
    check_goals(reading);
    check_day_plan(reading);
    check_planned(reading);
    check_replacements(reading);
    check_decisions(reading);
    check_tests(reading);
    if (reading->faults->lines.failed)
        return error_set(reading->err, STATUS_MEMORY, "%s: out of memory while checking", reading->file->path);
    return STATUS_OK;
}
