// SPDX-License-Identifier: GPL-3.0-or-later
// record --case FILE: notes one swab test at the end of the case, adds to one, withdraws the last, or exchanges all of
// them as a table.
#include "base/file.h"
#include "base/file_read.h"
#include "base/language.h"
#include "casefile/case_csv.h"
#include "casefile/case_records.h"
#include "casefile/case_store.h"
#include "cli/common.h"
#include "cli/record_row.h"
#include "data/yaml.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum deed { DEED_NOTE, DEED_AMEND, DEED_UNDO, DEED_IMPORT, DEED_EXPORT };

enum { ID_BYTES = 24 };

static const double WINDOW_MM = 5; // a swab test is about so wide (common practice)

struct recording {
    struct invocation *inv;
    const char *path;
    enum deed deed;
    struct date today;
    struct date date;      // of the test or the withdrawal
    const char *rows_from; // what stands in messages where a path would
    struct test_row *rows;
    size_t row_count;
    struct casefile after; // the case as written
    const char **ids;      // of the tests noted, added to or withdrawn
};

// --- what is asked ---

static enum status read_dates(struct recording *recording, struct error *err) {
    char today[DATE_BYTES];
    enum status status = date_today(&recording->today, err);
    if (status == STATUS_OK)
        status = option_date(recording->inv, "--date", recording->today, &recording->date, err);
    if (status == STATUS_OK && date_compare(recording->date, recording->today) > 0)
        return error_set(err, STATUS_INPUT, "--date %s lies in the future: today is %s by this computer's clock",
                         option_value(recording->inv, "--date"), date_write(recording->today, today));
    return status;
}

static enum status need(const struct recording *recording, const char *option, const char *question,
                        struct error *err) {
    if (option_given(recording->inv, option))
        return STATUS_OK;
    return error_set(err, STATUS_USAGE, "%s is missing: %s For example: %s", option, say(question),
                     recording->inv->command->example);
}

// `otherwise`: what messages say was not done.
static enum status make_row(struct recording *recording, const char *otherwise, struct error *err) {
    recording->rows = arena_new(recording->inv->arena, 1, sizeof *recording->rows);
    if (!recording->rows)
        return error_set(err, STATUS_MEMORY, "out of memory");
    recording->row_count = 1;
    recording->rows_from = otherwise;
    return STATUS_OK;
}

static enum status read_row(struct recording *recording, struct error *err) {
    enum status status = make_row(recording, say("nothing was noted"), err);
    return status == STATUS_OK ? record_row_read(recording->inv, recording->rows, err) : status;
}

static enum status set_day(struct recording *recording, const char *key, struct error *err) {
    char day[DATE_BYTES];
    const char *copy = arena_text(recording->inv->arena, date_write(recording->date, day));
    if (!copy)
        return error_set(err, STATUS_MEMORY, "out of memory");
    test_row_set(recording->rows, key, copy);
    return STATUS_OK;
}

static enum status read_note(struct recording *recording, struct error *err) {
    struct invocation *inv = recording->inv;
    enum status status = need(recording, "--blend", "what was on the swab?", err);
    if (status == STATUS_OK)
        status = need(recording, "--result", "none, gloss change, softened, partly removed or removed?", err);
    if (status == STATUS_OK && !option_given(inv, "--passage"))
        status = need(recording, "--site", "where was it? Give --site X,Y or --passage ID.", err);
    if (status == STATUS_OK)
        status = read_row(recording, err);
    if (status == STATUS_OK)
        status = set_day(recording, "date", err);
    if (status == STATUS_OK)
        test_row_set(recording->rows, "by", option_value(inv, "--by"));
    return status;
}

static enum status read_amendment(struct recording *recording, struct error *err) {
    static const char *const fixed[] = {"--id", "--date", "--by"};
    for (size_t i = 0; i < sizeof fixed / sizeof fixed[0]; i++)
        if (option_given(recording->inv, fixed[i]))
            return error_set(err, STATUS_USAGE, "--amend and %s exclude each other: what was written is kept",
                             fixed[i]);
    if (!record_row_given(recording->inv))
        return error_set(err, STATUS_USAGE,
                         "--amend needs what is to be added, for example --next-day \"no change\" or --photo 17");
    return read_row(recording, err);
}

static enum status read_undo(struct recording *recording, struct error *err) {
    struct invocation *inv = recording->inv;
    enum status status = make_row(recording, say("nothing was withdrawn"), err);
    if (status == STATUS_OK)
        status = set_day(recording, "withdrawn_on", err);
    if (status != STATUS_OK)
        return status;
    test_row_set(recording->rows, "withdrawn", "true");
    test_row_set(recording->rows, "withdrawn_by", option_value(inv, "--by"));
    test_row_set(recording->rows, "withdrawn_because", option_value(inv, "--because"));
    return STATUS_OK;
}

static enum status read_import(struct recording *recording, struct error *err) {
    struct invocation *inv = recording->inv;
    struct text bytes = {0};
    recording->rows_from = option_value(inv, "--import");
    enum status status = file_read(recording->rows_from, yaml_default_limits.file_bytes, &bytes, err);
    if (status == STATUS_OK)
        status = case_csv_read(inv->arena, recording->rows_from, text_bytes(&bytes), bytes.length, &recording->rows,
                               &recording->row_count, err);
    text_release(&bytes);
    if (status == STATUS_OK && recording->row_count == 0)
        status = error_set(err, STATUS_INPUT, "%s: a heading but no test below it", recording->rows_from);
    return status;
}

// --- changing the case (under its lock) ---

static unsigned long number_of(const char *id) {
    char *end = NULL;
    if (id[0] != 'T' || id[1] < '0' || id[1] > '9' || strlen(id) > 10)
        return 0;
    unsigned long number = strtoul(id + 1, &end, 10);
    return *end == '\0' ? number : 0;
}

static unsigned long last_number(const struct casefile *file, const struct recording *recording) {
    unsigned long last = 0;
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++)
        last = number_of(tests[i].id) > last ? number_of(tests[i].id) : last;
    for (size_t i = 0; i < recording->row_count; i++) {
        const char *id = test_row_text(&recording->rows[i], "id");
        last = id && number_of(id) > last ? number_of(id) : last;
    }
    return last;
}

static enum status give_ids(struct recording *recording, const struct casefile *file, struct error *err) {
    unsigned long last = last_number(file, recording);
    for (size_t i = 0; i < recording->row_count; i++) {
        struct test_row *row = &recording->rows[i];
        if (!test_row_text(row, "id")) {
            const char *id = arena_printf(recording->inv->arena, "T%lu", ++last);
            if (!id)
                return error_set(err, STATUS_MEMORY, "out of memory");
            test_row_set(row, "id", id);
        }
        recording->ids[i] = test_row_text(row, "id");
    }
    return STATUS_OK;
}

static enum status check_row(const struct recording *recording, const struct casefile *file, const struct test_row *row,
                             struct fault_list *faults, struct error *err) {
    struct case_test test;
    return test_row_check(recording->inv->arena, file, recording->today, recording->rows_from, row, &test, faults, err);
}

// All faults go to the talk when there are several; the sentence then says how many.
static enum status tell_faults(const struct recording *recording, const struct fault_list *faults, struct error *err) {
    if (faults->count == 0)
        return STATUS_OK;
    const char *lines = text_bytes(&faults->lines);
    if (faults->lines.failed)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (faults->count == 1)
        return error_set(err, STATUS_INPUT, "%.*s", (int)strcspn(lines, "\n"), lines);
    text_add(recording->inv->talk, lines);
    return error_set(err, STATUS_INPUT, "%zu faults; %s was not changed", faults->count, recording->path);
}

static void check_new_id(const struct recording *recording, const struct casefile *file, size_t i,
                         struct fault_list *faults) {
    const struct test_cell *cell = &recording->rows[i].cells[case_test_field("id")];
    struct yaml_node node = {.line = cell->line, .column = cell->column};
    if (case_test(file, cell->text))
        faults_add(faults, recording->rows_from, &node, "test '%s' stands in %s already", cell->text, file->path);
    for (size_t j = 0; j < i; j++)
        if (strcmp(test_row_text(&recording->rows[j], "id"), cell->text) == 0)
            faults_add(faults, recording->rows_from, &node, "test '%s' stands here for the second time", cell->text);
}

static enum status check_rows(const struct recording *recording, const struct casefile *file, struct error *err) {
    struct fault_list faults = {.most = 100};
    enum status status = STATUS_OK;
    for (size_t i = 0; status == STATUS_OK && i < recording->row_count; i++) {
        check_new_id(recording, file, i, &faults);
        status = check_row(recording, file, &recording->rows[i], &faults, err);
    }
    if (status == STATUS_OK)
        status = tell_faults(recording, &faults, err);
    faults_release(&faults);
    return status;
}

static enum status note_tests(const struct casefile *file, struct text *ret_bytes, size_t *ret_values, void *context,
                              struct error *err) {
    struct recording *recording = context;
    if (recording->deed == DEED_NOTE && !test_row_text(recording->rows, "delivery") && file->delivery.method)
        test_row_set(recording->rows, "delivery", delivery_words[file->delivery.method]);
    enum status status = give_ids(recording, file, err);
    for (size_t i = 0; i < recording->row_count; i++)
        test_row_words(&recording->rows[i]);
    if (status == STATUS_OK)
        status = check_rows(recording, file, err);
    if (status == STATUS_OK)
        status = case_append_tests(file, recording->rows, recording->row_count, ret_bytes, ret_values, err);
    return status;
}

// What is added must be right together with what stands there.
static enum status check_amended(const struct recording *recording, const struct casefile *file, size_t test,
                                 struct error *err) {
    const struct yaml_node *node = yaml_find(file->root, "tests")->items[test];
    struct test_row whole = *recording->rows;
    for (size_t i = 0; i < case_test_record.field_count; i++) {
        const struct yaml_node *value = yaml_find(node, case_test_record.fields[i].key);
        if (value && !whole.cells[i].text)
            whole.cells[i].text = value->text;
    }
    struct fault_list faults = {.most = 100};
    enum status status = check_row(recording, file, &whole, &faults, err);
    if (status == STATUS_OK)
        status = tell_faults(recording, &faults, err);
    faults_release(&faults);
    return status;
}

static enum status extend_test(struct recording *recording, const struct casefile *file, const struct case_test *test,
                               struct text *ret_bytes, size_t *ret_values, struct error *err) {
    const struct case_test *tests = file->tests.items;
    size_t at = (size_t)(test - tests);
    recording->ids[0] = arena_text(recording->inv->arena, test->id);
    enum status status = case_extend_test(file, at, recording->rows, ret_bytes, ret_values, err);
    return status == STATUS_OK ? check_amended(recording, file, at, err) : status;
}

static enum status amend_test(const struct casefile *file, struct text *ret_bytes, size_t *ret_values, void *context,
                              struct error *err) {
    struct recording *recording = context;
    const char *id = option_value(recording->inv, "--amend");
    const struct case_test *tests = file->tests.items;
    const struct case_test *test = case_test(file, id);
    if (!test)
        return error_set(err, STATUS_UNKNOWN_NAME, "%s has no test '%.40s'%s%s", file->path, id,
                         file->tests.count ? say("; the last one is ") : say("; it has no tests yet"),
                         file->tests.count ? tests[file->tests.count - 1].id : "");
    test_row_words(recording->rows);
    return extend_test(recording, file, test, ret_bytes, ret_values, err);
}

static enum status withdraw_last(const struct casefile *file, struct text *ret_bytes, size_t *ret_values, void *context,
                                 struct error *err) {
    struct recording *recording = context;
    const struct case_test *tests = file->tests.items;
    size_t last = file->tests.count;
    while (last > 0 && tests[last - 1].withdrawn)
        last--;
    if (last == 0)
        return error_set(err, STATUS_NEGATIVE, "%s: no test stands that could be withdrawn; nothing was changed",
                         file->path);
    return extend_test(recording, file, &tests[last - 1], ret_bytes, ret_values, err);
}

// --- the deeds ---

static const struct {
    const char *option; // that asks for it
    const char *key;    // of the JSON
    bool takes_cells;   // options of record_row
    enum status (*read)(struct recording *recording, struct error *err);
    case_changer *change;
} deeds[] = {
    [DEED_NOTE] = {NULL, "noted", true, read_note, note_tests},
    [DEED_AMEND] = {"--amend", "amended", true, read_amendment, amend_test},
    [DEED_UNDO] = {"--undo", "withdrawn", false, read_undo, withdraw_last},
    [DEED_IMPORT] = {"--import", "noted", false, read_import, note_tests},
    [DEED_EXPORT] = {"--export", NULL, false, NULL, NULL},
};

static enum status choose_deed(struct recording *recording, struct error *err) {
    const char *first = NULL;
    for (enum deed deed = DEED_AMEND; deed <= DEED_EXPORT; deed++) {
        if (!option_given(recording->inv, deeds[deed].option))
            continue;
        if (first)
            return error_set(err, STATUS_USAGE, "%s and %s exclude each other", first, deeds[deed].option);
        first = deeds[deed].option;
        recording->deed = deed;
    }
    const char *given = record_row_given(recording->inv);
    if (given && !deeds[recording->deed].takes_cells)
        return error_set(err, STATUS_USAGE, "%s and %s exclude each other", first, given);
    if (option_given(recording->inv, "--because") && recording->deed != DEED_UNDO)
        return error_set(err, STATUS_USAGE, "--because goes with --undo");
    return STATUS_OK;
}

// --- the answer ---

static bool stops(const struct recording *recording) {
    bool stop = false;
    for (size_t i = 0; i < recording->row_count && recording->deed != DEED_UNDO; i++)
        stop |= case_test_stops(case_test(&recording->after, recording->ids[i]));
    return stop;
}

static void write_place(const struct recording *recording, const struct case_test *test, struct text *out) {
    if (test->passage)
        text_printf(out, ", %s", test->passage);
    if (test->x_mm >= 0)
        text_say(out, ", %g/%g mm from the %s corner", test->x_mm, test->y_mm,
                 say(corner_words[recording->after.object.measured_from]));
}

static void write_noted(const struct recording *recording, struct text *out) {
    for (size_t i = 0; i < recording->row_count; i++) {
        const struct case_test *test = case_test(&recording->after, recording->ids[i]);
        char day[DATE_BYTES];
        struct text words = {0};
        text_say(&words, "%s %s in %s: %s", test->id, recording->deed == DEED_AMEND ? say("completed") : say("noted"),
                 recording->path, date_write(test->date, day));
        write_place(recording, test, &words);
        text_printf(&words, ", %s: %s", test->blend, say(result_words[test->result]));
        if (test->colour_on_swab != COLOUR_NOT_LOOKED)
            text_say(&words, "; colour on swab: %s", say(colour_words[test->colour_on_swab]));
        page_paragraph(out, 0, 2, text_bytes(&words));
        text_release(&words);
    }
}

static void write_stop(const struct recording *recording, struct text *out) {
    for (size_t i = 0; i < recording->row_count; i++) {
        const struct case_test *test = case_test(&recording->after, recording->ids[i]);
        if (!case_test_stops(test))
            continue;
        text_add(out, "\n");
        page_paragraph_f(
            out, 0, 2,
            "STOP. %s: %s on the swab%s. Do not go on %s%s with this blend, nor with anything stronger or "
            "longer. Let it dry, look at the spot under the microscope, write down what you decide.",
            test->id, test->colour_on_swab == COLOUR_UNSURE ? say("colour of unsure origin") : say("original colour"),
            test->colour_on_swab == COLOUR_UNSURE ? say(", which counts as original") : "",
            test->passage ? say("in passage ") : say("at this place"), test->passage ? test->passage : "");
    }
}

static void write_text(const struct recording *recording, struct text *out) {
    char day[DATE_BYTES];
    if (recording->deed == DEED_UNDO) {
        page_paragraph_f(out, 0, 2, "%s in %s is marked as withdrawn on %s: it stays in the file and no longer counts.",
                         recording->ids[0], recording->path, date_write(recording->date, day));
        const struct case_test *test = case_test(&recording->after, recording->ids[0]);
        page_paragraph_f(out, 0, 2, "It was: %s, %s. Another --undo withdraws the test before it.", test->blend,
                         say(result_words[test->result]));
        if (!test->withdrawn_because)
            page_paragraph(out, 0, 2, "No reason is noted; put withdrawn_because beside it in the file.");
        return;
    }
    write_noted(recording, out);
    write_stop(recording, out);
}

static void write_json(const struct recording *recording, struct text *out) {
    struct json json;
    json_begin(&json, out);
    json_text(&json, "case", recording->path);
    json_texts(&json, deeds[recording->deed].key, recording->ids, recording->row_count);
    json_integer(&json, "tests", (long long)recording->after.tests.count);
    json_flag(&json, "stop", stops(recording));
    json_end(&json);
}

// --- remarks on what was just noted ---

static void remark_bottles(const struct recording *recording, const struct case_test *test) {
    const struct case_bottle *bottles = recording->after.bottles.items;
    char sentence[CASE_REMARK_BYTES];
    for (size_t i = 0; i < recording->after.bottles.count; i++)
        for (size_t k = 0; k < test->mix.part_count; k++) {
            const struct bottle_ref *used = &test->mix.parts[k].bottle;
            if (strcmp(bottle_ref_id(used), bottles[i].id) == 0 &&
                case_bottle_peroxide_remark(&recording->after, &bottles[i], test->date, sentence)[0])
                page_paragraph_f(recording->inv->talk, 0, 2, "note: bottle %s %s", bottles[i].id, sentence);
        }
}

static void remark_earlier_stop(const struct recording *recording, const struct case_test *test) {
    const struct case_test *tests = recording->after.tests.items;
    for (size_t i = 0; i < recording->after.tests.count && &tests[i] != test; i++)
        if (case_test_stops(&tests[i]) && test->passage && tests[i].passage &&
            strcmp(tests[i].passage, test->passage) == 0)
            page_paragraph_f(recording->inv->talk, 0, 2, "note: %s had found original colour in passage %s",
                             tests[i].id, test->passage);
}

// On a spot that was tested before, the layer is no longer what it was, and liquid may still be in it.
static void remark_same_spot(const struct recording *recording, const struct case_test *test) {
    const struct case_test *tests = recording->after.tests.items;
    for (size_t i = 0; i < recording->after.tests.count && &tests[i] != test; i++)
        if (!tests[i].withdrawn && hypot(tests[i].x_mm - test->x_mm, tests[i].y_mm - test->y_mm) < WINDOW_MM)
            page_paragraph_f(recording->inv->talk, 0, 2,
                             "note: %s was made on the same spot: the layer there is no longer what the other tests "
                             "met; a fresh spot tells more",
                             tests[i].id);
}

static void remark(const struct recording *recording) {
    if (recording->deed != DEED_NOTE)
        return;
    const struct case_test *test = case_test(&recording->after, recording->ids[0]);
    char note[BLEND_NOTE_SIZE];
    struct blend blend;
    if (blend_parse(&recording->after.library, test->blend, &blend, note, NULL) == STATUS_OK && note[0])
        page_paragraph_f(recording->inv->talk, 0, 2, "note: %s", note);
    remark_bottles(recording, test);
    remark_earlier_stop(recording, test);
    remark_same_spot(recording, test);
}

// --- the command ---

static enum status change(struct recording *recording, struct error *err) {
    struct invocation *inv = recording->inv;
    recording->ids = arena_new(inv->arena, recording->row_count, sizeof *recording->ids);
    if (!recording->ids)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = case_change(inv->arena, recording->path, &inv->library, recording->today,
                                     deeds[recording->deed].change, recording, &recording->after, err);
    if (status != STATUS_OK)
        return status;
    remark(recording);
    inv->done = arena_say(inv->arena, "what was to be noted is noted in %s all the same: do not record it again",
                          recording->path);
    if (inv->json)
        write_json(recording, inv->out);
    else
        write_text(recording, inv->out);
    return STATUS_OK;
}

static enum status export_tests(struct recording *recording, struct error *err) {
    struct invocation *inv = recording->inv;
    const char *target = option_value(inv, "--export");
    struct casefile file;
    struct text table = {0};
    enum status status = casefile_open(inv->arena, recording->path, &inv->library, recording->today, &file, err);
    if (status == STATUS_OK)
        case_csv_write(&file, &table);
    if (status == STATUS_OK && table.failed)
        status = error_set(err, STATUS_MEMORY, "out of memory");
    if (status == STATUS_OK && strcmp(target, "-") == 0)
        text_add_n(inv->out, table.bytes, table.length);
    else if (status == STATUS_OK)
        status = file_replace(target, table.bytes, table.length, err);
    if (status == STATUS_OK && strcmp(target, "-") != 0)
        page_paragraph_f(inv->talk, 0, 2, "tests written to %s: %zu", target, file.tests.count);
    text_release(&table);
    return status;
}

static enum status run(struct invocation *inv, struct error *err) {
    struct recording *recording = arena_new(inv->arena, 1, sizeof *recording);
    if (!recording)
        return error_set(err, STATUS_MEMORY, "out of memory");
    recording->inv = inv;
    enum status status = need(recording, "--case", "which case file?", err);
    recording->path = option_value(inv, "--case");
    if (status == STATUS_OK)
        status = choose_deed(recording, err);
    if (status == STATUS_OK)
        status = read_dates(recording, err);
    if (status == STATUS_OK && recording->deed == DEED_EXPORT)
        return export_tests(recording, err);
    if (status == STATUS_OK)
        status = deeds[recording->deed].read(recording, err);
    return status == STATUS_OK ? change(recording, err) : status;
}

static const struct option options[] = {
    {.name = "--case", .argument = "FILE", .help = "the case file (needed)"},
    RECORD_ROW_OPTIONS,
    {.name = "--by", .argument = "INITIALS", .help = "who made the test, or withdrew it"},
    {.name = "--date", .argument = "DATE", .help = "of the test or withdrawal (default today)"},
    {.name = "--amend", .argument = "ID", .help = "add to this test what it lacks, for example --next-day"},
    {.name = "--undo", .help = "mark the last test as withdrawn; it stays in the file"},
    {.name = "--because", .argument = "TEXT", .help = "reason of --undo"},
    {.name = "--import", .argument = "CSV", .help = "note every row of a table, all or none"},
    {.name = "--export", .argument = "CSV", .help = "write the tests as a table ('-' for standard output)"},
};

const struct command cmd_record = {
    .name = "record",
    .arguments = "",
    .arguments_least = 0,
    .arguments_most = 0,
    .summary = "Note a swab test in a case file",
    .details =
        "It is added at the end of the list 'tests:'; not a byte of what stands in the file is changed, and the file "
        "is "
        "replaced whole or not at all. Close the file in your editor first. Original colour on the swab, or colour of "
        "unsure origin, answers with STOP (and exit status 0: the test is noted).",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = CASE_TABLES,
    .own_case = true,
    .example = "mildsolve record --case demo-case.yaml --passage sky --site 212,388 --blend \"propan-2-ol 30 + "
               "isooctane 70\" --contact 20 --rolls 6 --result \"partly removed\" --colour-on-swab none",
    .run = run,
};
