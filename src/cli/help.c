// SPDX-License-Identifier: GPL-3.0-or-later
// Help is written from the same tables that the parser reads.
#include "cli/command.h"

#include "base/language.h"
#include "present/page.h"

#include <string.h>

const struct command *command_named(const char *name) {
    for (size_t i = 0; i < command_count; i++)
        if (strcmp(commands[i]->name, name) == 0)
            return commands[i];
    return NULL;
}

static void option_row(struct sheet *sheet, const struct option *option) {
    sheet_cell(sheet, "%s%s%s", option->name, option->argument ? " " : "", option->argument ? option->argument : "");
    sheet_cell(sheet, option->repeats ? say("%s (may be repeated)") : "%s", say(option->help));
}

// The end of the word at `start`; a space in quotation marks belongs to the word.
static const char *word_end(const char *start) {
    bool quoted = false;
    const char *at = start;
    for (; *at && (quoted || *at != ' '); at++)
        quoted ^= *at == '"';
    return at;
}

// A command line that can be pasted whole: long ones go on with a backslash at the end of a line.
static void write_example(const char *example, struct text *out) {
    size_t columns = 0;
    for (const char *start = example; *start;) {
        const char *end = word_end(start);
        size_t length = (size_t)(end - start);
        bool option = length > 1 && start[0] == '-' && *end; // stays with its value
        const char *pair = option ? word_end(end + 1) : end;
        if (columns && columns + 1 + (size_t)(pair - start) + 2 > PAGE_COLUMNS) {
            text_add(out, " \\\n");
            columns = 0;
        }
        text_add(out, columns ? " " : start == example ? "  " : "    ");
        columns += columns ? 1 : start == example ? 2 : 4;
        text_add_n(out, start, length);
        columns += length;
        start = *end ? end + 1 : end;
    }
    text_add(out, "\n");
}

void help_command(struct text *out, const struct command *command) {
    text_say(out, "mildsolve %s%s%s [OPTION ...]\n\n", command->name, command->arguments[0] ? " " : "",
             command->arguments);
    page_paragraph_f(out, 0, 0, "%s.%s%s", say(command->summary), command->details ? " " : "",
                     command->details ? say(command->details) : "");
    text_add(out, "\n");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "option", false);
    sheet_column(&sheet, "meaning", false);
    for (size_t i = 0; i < command_option_count(command); i++)
        option_row(&sheet, command_option(command, i));
    sheet_write(&sheet, out);
    page_heading(out, "example");
    write_example(command->example, out);
}

void help_all(struct text *out) {
    text_say(out, "mildsolve COMMAND [ARGUMENT ...] [OPTION ...]\n\n");
    page_paragraph(
        out, 0, 0,
        "Finds the mildest solvent blends that take off an aged varnish with least risk to the paint below, and "
        "checks what they do to the air. It proposes tests; the conservator decides.");
    text_add(out, "\n");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "command", false);
    sheet_column(&sheet, "answers", false);
    for (size_t i = 0; i < command_count; i++) {
        sheet_cell(&sheet, "%s", commands[i]->name);
        sheet_cell(&sheet, "%s", say(commands[i]->summary));
    }
    sheet_write(&sheet, out);
    page_heading(out, "first steps");
    text_say(out, "  mildsolve gentlest --remove dammar-aged --spare linseed-oil-film-young\n"
                  "  mildsolve ladder --remove dammar-aged --spare linseed-oil-film-young\n"
                  "  mildsolve place \"propan-2-ol 30 + isooctane 70\"\n"
                  "  mildsolve COMMAND --help\n\n");
    page_paragraph(
        out, 0, 0,
        "Exit status: 0 answered; 1 answered, and the answer is no or cannot be judged; 2 bad command line or "
        "input; 3 the system failed; 130 interrupted.");
}
