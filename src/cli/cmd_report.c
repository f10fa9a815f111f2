// SPDX-License-Identifier: GPL-3.0-or-later
// report: the sheets for the treatment file.
#include "base/language.h"
#include "base/memory.h"
#include "cli/case_option.h"
#include "cli/explain.h"
#include "cli/report.h"
#include "present/document/document_write.h"

// --- the document ---

static void add_everything(struct report *report) {
    report_add_summary(report);
    report_add_object(report);
    report_add_layers(report);
    report_add_passages(report);
    report_add_goals(report);
    report_add_bottles(report);
    report_add_tests(report);
    report_add_learnt(report);
    report_add_ladder(report);
    report_add_blend(report);
    report_add_alternatives(report);
    report_add_drying(report);
    report_add_air(report);
    report_add_hazards(report);
    report_add_label(report);
    report_add_replacements(report);
    report_add_planned(report);
    report_add_decisions(report);
    report_add_remarks(report);
    report_add_values(report);
    report_add_sources(report);
    report_add_cautions(report);
}

static const char *title_of(const struct report *report) {
    const struct case_object *object = &report->file->object;
    return object->title ? object->title : object->number ? object->number : say("Object without a title");
}

static enum status build(struct report *report, struct document *document, struct error *err) {
    char day[DATE_BYTES];
    const struct case_object *object = &report->file->object;
    bool sheet = option_given(report->inv, "--sheet");
    const struct document_head head = {.title = title_of(report),
                                       .subtitle = sheet ? say("Solvent cleaning: sheet for the easel")
                                                         : say("Solvent cleaning: tests and choice"),
                                       .object = object->number ? object->number : title_of(report),
                                       .date = date_write(report->as_of, day),
                                       .data_version = report->inv->library.version,
                                       .program = "mildsolve " MILDSOLVE_VERSION,
                                       .language = language_chosen()};
    document_begin(document, &head);
    document->one_page = sheet;
    document->black_and_white = option_given(report->inv, "--grey");
    static const char *const papers[] = {"a4", "letter", NULL};
    int paper = PAPER_A4;
    enum status status = option_word(report->inv, "--paper", papers, PAPER_A4, &paper, err);
    document->paper = (enum paper)paper;
    report->document = document;
    if (status == STATUS_OK)
        (sheet ? report_add_sheet : add_everything)(report);
    if (status == STATUS_OK && document->failed)
        status = error_set(err, STATUS_MEMORY, "out of memory");
    return status;
}

// --- where it goes ---

static void tell_file(const struct report *report, const struct document *document, const char *path,
                      enum document_format format, size_t pages) {
    struct text *out = report->inv->out;
    size_t sections = document_section_count(document);
    size_t figures = document_format_draws(format) ? document_count(document, DOCUMENT_FIGURE) : 0;
    if (report->inv->json) {
        struct json json;
        json_begin(&json, out);
        json_text(&json, "file", path);
        json_text(&json, "format", document_format_words[format]);
        json_integer(&json, "sections", (long long)sections);
        json_integer(&json, "figures", (long long)figures);
        json_integer(&json, "tests", (long long)report->file->tests.count);
        if (pages)
            json_integer(&json, "pages", (long long)pages);
        else
            json_null(&json, "pages");
        json_end(&json);
    } else if (pages) {
        page_paragraph_f(out, 0, 2, "%s: sections %zu, figures %zu, pages %zu", path, sections, figures, pages);
    } else {
        page_paragraph_f(out, 0, 2, "%s: sections %zu, figures %zu", path, sections, figures);
    }
}

static enum status write_out(const struct report *report, const struct document *document, const char *path,
                             enum document_format format, struct error *err) {
    if (memory_ran_out()) // what an answer lacks for want of memory would stand there as not known
        return error_set(err, STATUS_MEMORY, "out of memory; half a report is not written");
    if (!path) {
        if (report->inv->json)
            document_json(document, report->inv->out);
        else
            document_text(document, report->inv->out);
        return report->inv->out->failed ? error_set(err, STATUS_MEMORY, "out of memory") : STATUS_OK;
    }
    size_t pages = 0;
    enum status status = document_file_write(document, format, report->canvas, path, &pages, err);
    if (status == STATUS_OK)
        tell_file(report, document, path, format, pages);
    return status;
}

// Of what stands in the report; of the few numbers that tell of its file where programs are told those.
static enum status explain(const struct report *report, const struct document *document, bool to_file,
                           struct error *err) {
    struct text answer = {0};
    struct explaining *explaining = explain_begin(report->inv);
    if (!explaining)
        return STATUS_OK;
    if (report->notation)
        explain_blend(explaining, &report->blend);
    for (size_t i = 0; i < report->material_count; i++)
        explain_material(explaining, report->materials[i].material);
    if (to_file && report->inv->json)
        text_add(&answer, text_bytes(report->inv->out));
    else
        document_json(document, &answer);
    return explain_answer(explaining, &answer, err);
}

static enum status answer(struct report *report, const char *path, enum document_format format, struct error *err) {
    struct document *document = arena_new(report->inv->arena, 1, sizeof *document);
    struct canvas canvas = {0};
    if (!document)
        return error_set(err, STATUS_MEMORY, "out of memory");
    enum status status = report_ask(report, err);
    if (status == STATUS_OK && document_format_draws(format))
        status = canvas_open(&canvas, NULL, err);
    if (status == STATUS_OK) {
        report->canvas = canvas.module ? &canvas : NULL;
        status = build(report, document, err);
        if (status == STATUS_OK)
            status = write_out(report, document, path, format, err);
        if (status == STATUS_OK)
            status = explain(report, document, path != NULL, err);
        document_release(document);
    }
    canvas_close(&canvas);
    return status;
}

static enum status run(struct invocation *inv, struct error *err) {
    struct report *report = arena_new(inv->arena, 1, sizeof *report);
    const char *path = option_value(inv, "--output");
    enum document_format format = DOCUMENT_TEXT;
    if (!report)
        return error_set(err, STATUS_MEMORY, "out of memory");
    if (!inv->casefile)
        return error_set(err, STATUS_USAGE, "--case is missing; for example: %s", inv->command->example);
    report->inv = inv;
    report->file = inv->casefile;
    enum status status = path ? document_format_of(path, &format, err) : STATUS_OK;
    if (status == STATUS_OK && path && !inv->json && option_given(inv, "--explain"))
        status = error_set(err, STATUS_USAGE,
                           "--explain stands behind a report on the screen, not in a file: leave out --output (and "
                           "write the screen to a file), or ask with --json");
    if (status == STATUS_OK && path && format == DOCUMENT_JSON)
        status = language_choose("en", NULL, err); // what programs read stays English
    if (status == STATUS_OK)
        status = option_number(inv, "--volume", 1, 100000, 40, &report->volume_ml, err);
    if (status == STATUS_OK)
        status = option_date(inv, "--date", case_last_day(inv->casefile), &report->as_of, err);
    inv->as_of = report->as_of;
    if (status == STATUS_OK)
        status = answer(report, path, format, err);
    report_release(report);
    return status;
}

static const struct option options[] = {
    CASE_OPTION,
    EXPLAIN_OPTION,
    {.name = "--output",
     .argument = "FILE",
     .help = "also -o: .pdf, .html, .txt or .json (default: text to the screen)"},
    {.name = "--sheet", .help = "one page for the easel, in large type"},
    {.name = "--paper", .argument = "PAPER", .help = "a4 (default) or letter"},
    {.name = "--grey", .help = "no colour at all"},
    {.name = "--date", .argument = "DATE", .help = "as of this day (default: that of the last test or decision)"},
    {.name = "--volume", .argument = "ML", .help = "size of the batch in the recipe (default 40)"},
    {.name = "--show", .argument = "N", .help = "rows of the list of blends (default 8)"},
    {.name = "--doubt", .argument = "EFFORT", .help = "none, quick (64 samples, default) or full (256)"},
    {.name = "--learn",
     .argument = "EXTENT",
     .help = "none, few (up to 60 tests, default) or all, which takes minutes"},
};

const struct command cmd_report = {
    .name = "report",
    .arguments = "",
    .arguments_least = 0,
    .arguments_most = 0,
    .summary = "The sheets for the treatment file: everything the case and the models say, with sources",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_ALL,
    .example = "mildsolve report --case examples/demo-case.yaml -o ferry.html",
    .run = run,
};
