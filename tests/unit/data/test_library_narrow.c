// SPDX-License-Identifier: GPL-3.0-or-later
// Tables of which only the rows of some components are read: these rows are the same as when everything is read.
#include "base/memory.h"
#include "data/library.h"
#include "data/records.h"
#include "folder.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <string.h>

enum { WANTED_MAX = 12 };

static const unsigned narrow_tables =
    TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_LIMITS | TABLE_UNIFAC | TABLE_MISCIBILITY;

static struct library whole, some;
static struct folder own;
static struct data_directory directories[2];

static void make_folder(void) {
    tables_with_folder(&own, directories);
}

static void remove_folder(void) {
    library_release(&whole);
    library_release(&some);
    folder_remove(&own);
}

static void open_whole(void) {
    struct error err = {0};
    library_release(&whole);
    ck_assert_msg(library_open(&whole, directories, 2, TABLE_ALL, &err) == STATUS_OK, "%s", err.text);
}

static void open_some(const char *const *names, size_t count) {
    const struct component *wanted[WANTED_MAX];
    struct error err = {0};
    library_release(&some);
    ck_assert_msg(library_open(&some, directories, 2, TABLE_COMPONENTS | TABLE_BOTTLES, &err) == STATUS_OK, "%s",
                  err.text);
    for (size_t i = 0; i < count; i++)
        wanted[i] = tables_component(&some, names[i]);
    ck_assert_msg(library_add(&some, narrow_tables | TABLE_STATEMENTS, wanted, count, &err) == STATUS_OK, "%s",
                  err.text);
}

// --- rows that are the same, field by field ---

static void same_text(const char *a, const char *b) {
    ck_assert(!a == !b);
    if (a)
        ck_assert_str_eq(a, b);
}

static void same_bytes(const void *a, const void *b, size_t size) {
    ck_assert(size == 0 || memcmp(a, b, size) == 0);
}

static void same_source(const struct provenance *a, const struct provenance *b) {
    ck_assert(a->sure == b->sure && a->user == b->user && a->ref_count == b->ref_count);
    same_bytes(a->refs, b->refs, a->ref_count * sizeof *a->refs);
    same_text(a->note, b->note);
}

static void same_quantity(const struct quantity *a, const struct quantity *b) {
    same_bytes(&a->value, &b->value, sizeof a->value);
    same_bytes(&a->uncertainty, &b->uncertainty, sizeof a->uncertainty);
    same_text(a->cup, b->cup);
    same_source(&a->from, &b->from);
}

static void same_texts(const struct text_list *a, const struct text_list *b) {
    ck_assert_uint_eq(a->count, b->count);
    for (size_t i = 0; i < a->count; i++)
        ck_assert_str_eq(a->items[i], b->items[i]);
}

static void same_numbers(const struct number_list *a, const struct number_list *b, size_t width) {
    ck_assert_uint_eq(a->count, b->count);
    same_bytes(a->items, b->items, a->count * width * sizeof *a->items);
}

static void same_row(const struct record *record, const void *a, const void *b);

static void same_records(const struct record *record, const struct record_list *a, const struct record_list *b) {
    ck_assert_uint_eq(a->count, b->count);
    for (size_t i = 0; i < a->count; i++)
        same_row(record, (const char *)a->items + i * record->size, (const char *)b->items + i * record->size);
}

static void same_field(const struct field *field, const void *a, const void *b) {
    switch (field->kind) {
    case FIELD_TEXT:
    case FIELD_ID:
        same_text(*(const char *const *)a, *(const char *const *)b);
        break;
    case FIELD_WORD:
    case FIELD_INTEGER:
        same_bytes(a, b, sizeof(int));
        break;
    case FIELD_NUMBER:
        same_bytes(a, b, sizeof(double));
        break;
    case FIELD_YES_NO:
        same_bytes(a, b, sizeof(bool));
        break;
    case FIELD_TEXT_LIST:
        same_texts(a, b);
        break;
    case FIELD_NUMBER_LIST:
    case FIELD_TUPLES:
        same_numbers(a, b, field->kind == FIELD_TUPLES ? field->tuple : 1);
        break;
    case FIELD_GROUP:
        same_row(field->record, a, b);
        break;
    case FIELD_RECORDS:
        same_records(field->record, a, b);
        break;
    case FIELD_QUANTITY:
        same_quantity(a, b);
        break;
    case FIELD_REFS:
        same_source(a, b);
        break;
    case FIELD_UNIT: // no storage
    case FIELD_SURE: // with the references
    case FIELD_NOTE:
        break;
    default:
        ck_abort_msg("a kind of field that this test does not compare: %s", field->key);
    }
}

static void same_row(const struct record *record, const void *a, const void *b) {
    for (size_t i = 0; i < record->field_count; i++) {
        size_t offset = record->fields[i].offset;
        same_field(&record->fields[i], (const char *)a + offset, (const char *)b + offset);
    }
}

// --- which rows ---

static const char *const *wanted_names;
static size_t wanted_count;

static bool is_wanted(const char *id) {
    for (size_t i = 0; i < wanted_count; i++)
        if (strcmp(wanted_names[i], id) == 0)
            return true;
    return false;
}

static bool limit_is_wanted(const void *row) {
    return is_wanted(((const struct limit *)row)->component);
}

static bool assignment_is_wanted(const void *row) {
    return is_wanted(((const struct unifac_assignment *)row)->component);
}

static bool pair_is_wanted(const void *row) {
    const struct miscible_pair *pair = row;
    return is_wanted(pair->first) && is_wanted(pair->second);
}

static bool any(const void *row) {
    return row != NULL;
}

// The wanted rows of the whole table are those of the other one, in the same order, and nothing else is.
static void same_rows(const struct record *record, bool (*wanted)(const void *row), const void *all, size_t all_count,
                      const void *few, size_t few_count) {
    size_t at = 0;
    for (size_t i = 0; i < all_count; i++) {
        const char *row = (const char *)all + i * record->size;
        if (!wanted(row))
            continue;
        ck_assert_msg(at < few_count, "%s: a wanted row is missing", record->name);
        same_row(record, row, (const char *)few + at++ * record->size);
    }
    ck_assert_msg(at == few_count, "%s: %zu rows, expected %zu", record->name, few_count, at);
}

static bool has_group(int model, int main_group) {
    for (size_t i = 0; i < whole.unifac_assignment_count; i++) {
        const struct unifac_assignment *row = &whole.unifac_assignments[i];
        if (row->model != model || !is_wanted(row->component))
            continue;
        for (size_t k = 0; k < row->groups.count; k++)
            for (size_t g = 0; g < whole.unifac_group_count; g++)
                if (whole.unifac_groups[g].model == model && whole.unifac_groups[g].main_group == main_group &&
                    whole.unifac_groups[g].subgroup == row->groups.items[2 * k])
                    return true;
    }
    return false;
}

// At least the interactions between groups of the wanted components are there; returns their number.
static size_t interactions_are_there(void) {
    size_t needed = 0;
    for (size_t i = 0; i < whole.unifac_interaction_count; i++) {
        const struct unifac_interaction *row = &whole.unifac_interactions[i], *found = NULL;
        if (!has_group(row->model, row->m) || !has_group(row->model, row->n))
            continue;
        for (size_t k = 0; k < some.unifac_interaction_count; k++) {
            const struct unifac_interaction *other = &some.unifac_interactions[k];
            if (other->model == row->model && other->m == row->m && other->n == row->n)
                found = other;
        }
        ck_assert_msg(found != NULL, "no interaction %d-%d", row->m, row->n);
        same_row(&unifac_interaction_record, row, found);
        needed++;
    }
    return needed;
}

static void same_as_whole(const char *const *names, size_t count) {
    wanted_names = names;
    wanted_count = count;
    open_some(names, count);
    ck_assert_uint_eq(some.loaded, narrow_tables | TABLE_STATEMENTS | TABLE_COMPONENTS | TABLE_BOTTLES);
    ck_assert_uint_eq(some.narrowed, narrow_tables);
    for (size_t i = 0; i < whole.component_count; i++) {
        const struct component *all = &whole.components[i], *few = &some.components[i];
        ck_assert_str_eq(few->id, all->id);
        ck_assert(is_wanted(all->id) == (few->properties != NULL) && is_wanted(all->id) == (few->hazard != NULL));
        if (few->properties)
            same_row(&properties_record, all->properties, few->properties);
        if (few->hazard)
            same_row(&hazard_record, all->hazard, few->hazard);
    }
    same_rows(&limit_record, limit_is_wanted, whole.limits, whole.limit_count, some.limits, some.limit_count);
    same_rows(&unifac_assignment_record, assignment_is_wanted, whole.unifac_assignments, whole.unifac_assignment_count,
              some.unifac_assignments, some.unifac_assignment_count);
    same_rows(&miscible_pair_record, pair_is_wanted, whole.miscible_pairs, whole.miscible_pair_count,
              some.miscible_pairs, some.miscible_pair_count);
    same_rows(&unifac_group_record, any, whole.unifac_groups, whole.unifac_group_count, some.unifac_groups,
              some.unifac_group_count);
    same_rows(&authority_record, any, whole.authorities, whole.authority_count, some.authorities, some.authority_count);
    same_rows(&statement_record, any, whole.statements, whole.statement_count, some.statements, some.statement_count);
}

START_TEST(rows_of_some_are_those_of_all) {
    struct random random = {.state = 2025};
    size_t pairs = 0, interactions = 0;
    open_whole();
    for (int round = 0; round < 60; round++) {
        const char *names[WANTED_MAX];
        size_t count = random_below(&random, WANTED_MAX + 1);
        for (size_t i = 0; i < count; i++)
            names[i] = whole.components[random_below(&random, whole.component_count)].id;
        same_as_whole(names, count);
        interactions += interactions_are_there();
        pairs += some.miscible_pair_count;
        ck_assert_uint_lt(some.unifac_interaction_count, whole.unifac_interaction_count);
    }
    ck_assert_uint_gt(pairs, 0);
    ck_assert_uint_gt(interactions, 0);
}
END_TEST

START_TEST(every_component_alone) {
    open_whole();
    for (size_t i = 0; i < whole.component_count; i++) {
        const char *name = whole.components[i].id;
        same_as_whole(&name, 1);
    }
}
END_TEST

START_TEST(without_a_list_every_row_is_read) {
    struct error err = {0};
    open_whole();
    ck_assert_int_eq(library_open(&some, directories, 1, TABLE_COMPONENTS, &err), STATUS_OK);
    const struct component *first = &some.components[0];
    ck_assert_int_eq(library_add(&some, TABLE_PROPERTIES | TABLE_LIMITS, NULL, 0, &err), STATUS_OK);
    ck_assert_uint_eq(some.narrowed, 0);
    ck_assert_uint_eq(some.properties_count, whole.properties_count);
    ck_assert_uint_eq(some.limit_count, whole.limit_count);
    ck_assert_ptr_eq(first, &some.components[0]); // a blend that points to it stays good
    ck_assert_str_eq(first->properties->id, first->id);
    // What is there is not read again.
    ck_assert_int_eq(library_add(&some, TABLE_PROPERTIES | TABLE_COMPONENTS, &first, 1, &err), STATUS_OK);
    ck_assert_uint_eq(some.properties_count, whole.properties_count);
    ck_assert_uint_eq(some.narrowed, 0);
}
END_TEST

// --- the user's own on top ---

START_TEST(a_table_that_the_user_has_too_is_read_whole) {
    folder_write(&own, "properties.yaml",
                 "table: properties\n"
                 "properties:\n"
                 "  - {id: toluene, flash_point: {value: 5, unit: degC, sure: checked}}\n"
                 "  - {id: my-cut, density_20c: {value: 0.7, unit: g/cm3}}\n");
    folder_write(&own, "components.yaml",
                 "table: components\ncomponents:\n  - {id: my-cut, name: light cut, family: petroleum-cut}\n");
    folder_write(&own, "hazards.yaml", "table: hazards\nhazards:\n  - {id: hexanol, h_statements: [H226]}\n");
    struct error err = {0};
    ck_assert_int_eq(library_open(&some, directories, 2, TABLE_COMPONENTS, &err), STATUS_OK);
    const struct component *acetone = tables_component(&some, "acetone");
    // The user's file is checked as a whole, rows that nobody asked for too.
    ck_assert_int_eq(library_add(&some, TABLE_PROPERTIES | TABLE_HAZARDS, &acetone, 1, &err), STATUS_INPUT);
    ck_assert_msg(strstr(err.text, "hazards.yaml:3:") && strstr(err.text, "hexanol"), "%s", err.text);
    ck_assert_uint_eq(some.component_count, 0);
    folder_write(&own, "hazards.yaml", "table: hazards\nhazards: []\n");
    ck_assert_int_eq(library_open(&some, directories, 2, TABLE_COMPONENTS, &err), STATUS_OK);
    acetone = tables_component(&some, "acetone");
    ck_assert_int_eq(library_add(&some, TABLE_PROPERTIES | TABLE_HAZARDS | TABLE_LIMITS, &acetone, 1, &err), STATUS_OK);
    const struct properties *toluene = tables_component(&some, "toluene")->properties;
    ck_assert_double_eq(toluene->flash_point.value, 5);
    ck_assert(toluene->flash_point.from.user && !toluene->density_20c.from.user);
    ck_assert_double_eq(tables_component(&some, "my-cut")->properties->density_20c.value, 0.7);
    ck_assert_uint_eq(some.properties_count, 89);
    ck_assert_uint_eq(some.hazard_count, 88);
    open_whole();
    ck_assert_uint_lt(some.limit_count, whole.limit_count);
}
END_TEST

// --- faults of our own files ---

START_TEST(a_fault_in_a_wanted_row_names_its_line) {
    struct folder shipped;
    struct data_directory directory;
    struct error err = {0};
    folder_make(&shipped);
    directory = (struct data_directory){.path = shipped.path};
    folder_write(&shipped, "components.yaml",
                 "table: components\ncomponents:\n  - {id: one, name: one, family: ester}\n"
                 "  - {id: two, name: two, family: ester}\n");
    folder_write(&shipped, "properties.yaml",
                 "table: properties\nproperties:\n  - id: one\n    density_20c: {value: 0.9, unit: kg}\n"
                 "  - id: two\n    density_20c: {value: 0.9, unit: pounds}\n");
    for (int i = 0; i < 2; i++) {
        ck_assert_int_eq(library_open(&some, &directory, 1, TABLE_COMPONENTS, &err), STATUS_OK);
        const struct component *wanted = tables_component(&some, i ? "two" : "one");
        ck_assert_int_eq(library_add(&some, TABLE_PROPERTIES, &wanted, 1, &err), STATUS_INPUT);
        ck_assert_msg(strstr(err.text, i ? "properties.yaml:6:37: property row 'two'" : "properties.yaml:4:37: ") &&
                          !strstr(err.text, "more"),
                      "%s", err.text);
    }
    ck_assert_int_eq(library_open(&some, &directory, 1, TABLE_COMPONENTS, &err), STATUS_OK);
    ck_assert_int_eq(library_add(&some, TABLE_HAZARDS, NULL, 0, &err), STATUS_NOT_FOUND);
    ck_assert_uint_eq(some.component_count, 0);
    folder_remove(&shipped);
}
END_TEST

START_TEST(every_failing_allocation_is_survived) {
    static const char *const names[] = {"toluene", "acetone"};
    folder_write(&own, "limits.yaml", "table: limits\nlimits: []\n");
    const struct component *wanted[2];
    unsigned long needed = 0;
    for (unsigned long n = 0; n == 0 || n <= needed; n++) {
        struct error err = {0};
        ck_assert_int_eq(library_open(&some, directories, 2, TABLE_COMPONENTS, &err), STATUS_OK);
        for (size_t i = 0; i < 2; i++)
            wanted[i] = tables_component(&some, names[i]);
        unsigned long before = memory_count();
        memory_fail_at(n);
        enum status status = library_add(&some, TABLE_PROPERTIES | TABLE_LIMITS | TABLE_UNIFAC, wanted, 2, &err);
        memory_fail_at(0);
        if (n == 0)
            needed = memory_count() - before;
        ck_assert_msg(status == (n ? STATUS_MEMORY : STATUS_OK) && !err.text[0] == !n, "allocation %lu: %s, '%s'", n,
                      status_name(status), err.text);
        ck_assert_uint_eq(some.component_count, n ? 0 : 88);
        library_release(&some);
    }
    ck_assert_uint_gt(needed, 10);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("library, some rows");
    TCase *tests = tcase_create("rows");
    tcase_set_timeout(tests, 120);
    tcase_add_checked_fixture(tests, make_folder, remove_folder);
    tcase_add_test(tests, rows_of_some_are_those_of_all);
    tcase_add_test(tests, every_component_alone);
    tcase_add_test(tests, without_a_list_every_row_is_read);
    tcase_add_test(tests, a_table_that_the_user_has_too_is_read_whole);
    tcase_add_test(tests, a_fault_in_a_wanted_row_names_its_line);
    tcase_add_test(tests, every_failing_allocation_is_survived);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
