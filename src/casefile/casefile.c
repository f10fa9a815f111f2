// SPDX-License-Identifier: GPL-3.0-or-later
#include "casefile/casefile.h"

#include "base/file_read.h"
#include "base/text.h"
#include "casefile/case_parts.h"

#include <stddef.h>
#include <math.h>
#include <string.h>

static const char version_key[] = "mildsolve_case";

// --- reading ---

bool casefile_is(const struct yaml_node *root) {
    return root->kind == YAML_MAP && yaml_find(root, version_key) != NULL;
}

static enum status no_memory(const struct case_reading *reading, const char *name) {
    return error_set(reading->err, STATUS_MEMORY, "%s: out of memory while reading", name);
}

// Before anything else is said about the file: what a newer program wrote is not for this one to judge.
static enum status check_version(const char *name, const struct yaml_node *root, struct error *err) {
    if (!casefile_is(root))
        return error_set(err, STATUS_INPUT,
                         "%s:%d:%d: no key '%s' at the top; a case file begins with '%s: %d' and `man 5 "
                         "mildsolve-case` describes the rest",
                         name, root->line, root->column, version_key, version_key, CASE_VERSION);
    const struct yaml_node *version = yaml_find(root, version_key);
    double number = 0;
    if (version->kind == YAML_SCALAR && schema_number(version->text, &number) && number > CASE_VERSION)
        return error_set(err, STATUS_INPUT,
                         "%s:%d:%d: this case was written for a newer mildsolve (case version %.12s; this program "
                         "knows version %d); nothing was changed. Open it with a newer mildsolve",
                         name, version->line, version->column, version->text, CASE_VERSION);
    return STATUS_OK;
}

// Escapes of YAML ("\e") can smuggle in what the reader refuses as bytes; on a terminal such text is a command.
// The reader bounds the depth of a tree (yaml_default_limits), and with it this recursion.
static void check_all_characters(const struct case_reading *reading, const char *name, const struct yaml_node *node) {
    if (node->kind == YAML_SCALAR)
        case_check_characters(reading->faults, name, node, NULL);
    for (size_t i = 0; i < node->count; i++) {
        if (node->kind == YAML_MAP)
            case_check_characters(reading->faults, name, node->pairs[i].key, NULL);
        check_all_characters(reading, name, node->kind == YAML_MAP ? node->pairs[i].value : node->items[i]);
    }
}

static enum status read_records(struct case_reading *reading, const char *name, const struct yaml_node *root) {
    struct schema_reader reader = {.arena = reading->arena, .file = name, .user = true, .faults = reading->faults};
    if (schema_read(&reader, &case_record, root, "", reading->file) != STATUS_OK)
        return no_memory(reading, name);
    return STATUS_OK;
}

// A test with a place but without a passage belongs to the smallest passage that holds the place, so that a stop in it
// is a stop there.
static void find_passages(struct casefile *file) {
    struct case_test *tests = file->tests.items;
    const struct case_passage *passages = file->passages.items;
    for (size_t i = 0; i < file->tests.count; i++) {
        double least = INFINITY;
        if (tests[i].passage)
            continue;
        for (size_t k = 0; k < file->passages.count; k++) {
            double area = passages[k].place.width_mm * passages[k].place.height_mm;
            if (case_place_holds(&passages[k].place, tests[i].x_mm, tests[i].y_mm) && area < least) {
                least = area;
                tests[i].passage = passages[k].id;
            }
        }
    }
}

enum status casefile_parse(struct arena *arena, const char *name, const char *bytes, size_t length,
                           const struct library *lib, struct date as_of, struct casefile *ret,
                           struct fault_list *faults, struct error *err) {
    const struct yaml_node *root = NULL;
    enum status status = yaml_read_memory(arena, name, bytes, length, &yaml_default_limits, &root, err);
    if (status == STATUS_OK)
        status = check_version(name, root, err);
    if (status != STATUS_OK)
        return status;
    struct casefile *file = arena_new(arena, 1, sizeof *file);
    struct case_reading reading = {
        .arena = arena, .lib = lib, .file = file, .as_of = as_of, .faults = faults, .err = err};
    if (!file)
        return no_memory(&reading, name);
    size_t before = faults->count;
    check_all_characters(&reading, name, root);
    if (faults->count == before)
        status = read_records(&reading, name, root);
    file->path = name;
    file->bytes = bytes;
    file->length = length;
    file->root = root;
    file->library = *lib;
    file->library.arena = (struct arena){0}; // borrowed: not to be released twice
    if (status == STATUS_OK && faults->count == before)
        status = case_read_bottles(&reading);
    if (status == STATUS_OK && faults->count == before)
        status = case_check(&reading);
    if (status == STATUS_OK && faults->count == before)
        find_passages(file);
    if (status == STATUS_OK)
        *ret = *file;
    return status;
}

enum status casefile_read(struct arena *arena, const char *path, const struct library *lib, struct date as_of,
                          struct casefile *ret, struct fault_list *faults, struct error *err) {
    struct text bytes = {0};
    enum status status = file_read(path, yaml_default_limits.file_bytes, &bytes, err);
    char *copy = status == STATUS_OK ? arena_text_n(arena, text_bytes(&bytes), bytes.length) : NULL;
    if (status == STATUS_OK && !copy)
        status = error_set(err, STATUS_MEMORY, "%s: out of memory while reading", path);
    if (status == STATUS_OK)
        status = casefile_parse(arena, path, copy, bytes.length, lib, as_of, ret, faults, err);
    text_release(&bytes);
    return status;
}

enum status casefile_open(struct arena *arena, const char *path, const struct library *lib, struct date as_of,
                          struct casefile *ret, struct error *err) {
    struct fault_list faults = {.most = 1};
    struct casefile file;
    enum status status = casefile_read(arena, path, lib, as_of, &file, &faults, err);
    if (status == STATUS_OK && faults.count)
        status = faults_error(&faults, path, err);
    if (status == STATUS_OK)
        *ret = file;
    faults_release(&faults);
    return status;
}

// --- questions ---

bool case_place_holds(const struct case_place *place, double x_mm, double y_mm) {
    return x_mm >= place->x_mm && x_mm <= place->x_mm + place->width_mm && y_mm >= place->y_mm &&
           y_mm <= place->y_mm + place->height_mm; // false with a NAN on either side
}

size_t case_tests_standing(const struct casefile *file) {
    const struct case_test *tests = file->tests.items;
    size_t count = 0;
    for (size_t i = 0; i < file->tests.count; i++)
        count += !tests[i].withdrawn;
    return count;
}

bool case_test_in(const struct case_test *test, const char *passage) {
    return !test->withdrawn && test->passage && strcmp(test->passage, passage) == 0;
}

size_t case_tests_in(const struct casefile *file, const char *passage) {
    const struct case_test *tests = file->tests.items;
    size_t count = 0;
    for (size_t i = 0; i < file->tests.count; i++)
        count += case_test_in(&tests[i], passage);
    return count;
}

bool case_test_stops(const struct case_test *test) {
    return !test->withdrawn && (test->colour_on_swab == COLOUR_ORIGINAL || test->colour_on_swab == COLOUR_UNSURE);
}

bool case_passage_stopped(const struct casefile *file, const char *passage) {
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++)
        if (text_same(passage, tests[i].passage) && case_test_stops(&tests[i]))
            return true;
    return false;
}

bool case_any_stop(const struct casefile *file) {
    const struct case_test *tests = file ? file->tests.items : NULL;
    for (size_t i = 0; file && i < file->tests.count; i++)
        if (case_test_stops(&tests[i]))
            return true;
    return false;
}

bool case_every_passage_stopped(const struct casefile *file) {
    const struct case_passage *passages = file->passages.items;
    for (size_t i = 0; i < file->passages.count; i++)
        if (!case_passage_stopped(file, passages[i].id))
            return false;
    return case_any_stop(file);
}

static enum status goal_material(const struct casefile *file, const char *name, const struct material **ret,
                                 struct error *err) {
    const struct case_layer *layer = case_layer(file, name);
    if (layer && !layer->material)
        return error_set(err, STATUS_NO_DATA,
                         "%s: layer '%s' has no material yet; add 'material:' to it, or name one on the command line",
                         file->path, name);
    return library_material(&file->library, layer ? layer->material : name, ret, err);
}

static bool is_among(const struct material *material, const struct material *const *list, size_t count) {
    for (size_t i = 0; i < count; i++)
        if (list[i] == material)
            return true;
    return false;
}

enum status case_goal_materials(const struct casefile *file, const struct text_list *goal, const struct material **ret,
                                size_t most, size_t *ret_count, struct error *err) {
    for (size_t i = 0; i < goal->count; i++) {
        const struct material *material = NULL;
        enum status status = goal_material(file, goal->items[i], &material, err);
        if (status != STATUS_OK)
            return status;
        if (is_among(material, ret, *ret_count))
            continue;
        if (*ret_count == most)
            return error_set(err, STATUS_INPUT, "%s: more than %zu materials in one goal", file->path, most);
        ret[(*ret_count)++] = material;
    }
    return STATUS_OK;
}

bool case_has_flag(const struct casefile *file, const char *flag) {
    for (size_t i = 0; i < file->people.flags.count; i++)
        if (strcmp(file->people.flags.items[i], flag) == 0)
            return true;
    return false;
}

bool case_announces_people(const struct casefile *file) {
    return file && (case_has_flag(file, "pregnancy announced") || case_has_flag(file, "breastfeeding") ||
                    case_has_flag(file, "sensitised") || case_has_flag(file, "under 18"));
}

const char *case_working_blend(const struct casefile *file) {
    const struct case_decision *decisions = file->decisions.items;
    for (size_t i = file->decisions.count; i-- > 0;)
        if (decisions[i].blend)
            return decisions[i].blend;
    const struct case_test *tests = file->tests.items;
    for (size_t i = file->tests.count; i-- > 0;)
        if (!tests[i].withdrawn && !case_test_stops(&tests[i]))
            return tests[i].blend;
    return NULL;
}
