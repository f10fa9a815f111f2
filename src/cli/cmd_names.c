// SPDX-License-Identifier: GPL-3.0-or-later
// --names KIND: names one a line, for the scripts that complete what is typed.
#include "cli/case_option.h"
#include "cli/completion.h"
#include "selection/goal.h"

#include <string.h>

typedef void name_writer(const struct invocation *inv, struct text *out);

static void line(struct text *out, const char *name) {
    if (name)
        text_printf(out, "%s\n", name);
}

static void write_bottles(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; i < inv->library.bottle_count; i++)
        line(out, inv->library.bottles[i].id);
    for (size_t i = 0; i < inv->library.component_count; i++)
        line(out, inv->library.components[i].id);
}

static void write_left_out(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; hazard_class_words[i]; i++)
        line(out, hazard_class_words[i]);
    write_bottles(inv, out);
}

static void write_materials(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; i < inv->library.material_count; i++)
        line(out, inv->library.materials[i].id);
}

static void write_shelves(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; i < inv->library.shelf_count; i++)
        line(out, inv->library.shelves[i].id);
}

static void write_limits(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; i < inv->library.authority_count; i++)
        line(out, inv->library.authorities[i].id);
    line(out, "strictest");
}

static void write_sensitivities(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; i < inv->library.sensitivity_count; i++)
        line(out, inv->library.sensitivities[i].id);
}

static void write_passages(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; inv->casefile && i < inv->casefile->passages.count; i++)
        line(out, ((const struct case_passage *)inv->casefile->passages.items)[i].id);
}

static void write_layers(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; inv->casefile && i < inv->casefile->layers.count; i++)
        line(out, ((const struct case_layer *)inv->casefile->layers.items)[i].id);
}

static void write_tests(const struct invocation *inv, struct text *out) {
    for (size_t i = 0; inv->casefile && i < inv->casefile->tests.count; i++)
        line(out, ((const struct case_test *)inv->casefile->tests.items)[i].id);
}

static const struct {
    const char *kind;
    name_writer *write;
} kinds[] = {
    {"bottles", write_bottles},   {"left-out", write_left_out}, {"materials", write_materials},
    {"shelves", write_shelves},   {"limits", write_limits},     {"sensitivities", write_sensitivities},
    {"passages", write_passages}, {"layers", write_layers},     {"tests", write_tests},
};

static enum status run(struct invocation *inv, struct error *err) {
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++)
        if (strcmp(kinds[i].kind, inv->arguments[0]) == 0) {
            kinds[i].write(inv, inv->out);
            return STATUS_OK;
        }
    return error_set(err, STATUS_USAGE, "--names knows nothing of the kind '%.40s'", inv->arguments[0]);
}

static const struct option options[] = {CASE_OPTION};

const struct command cmd_names = {
    .name = "--names",
    .arguments = "KIND",
    .arguments_least = 1,
    .arguments_most = 1,
    .summary = "names one a line",
    .options = options,
    .option_count = sizeof options / sizeof options[0],
    .tables = TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_LIMITS | TABLE_SENSITIVITIES,
    .example = "mildsolve --names bottles",
    .run = run,
};
