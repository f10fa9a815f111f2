// SPDX-License-Identifier: GPL-3.0-or-later
// Lines as a command line: the first word picks the command, one word a line. Commands that only answer are run; of the
// others only the options are read. No word may name a file, so that nothing of the machine is read or written.
#include "cli/command.h"
#include "tables.h"
#include "target.h"

#include <string.h>

enum { WORDS_MAX = 24 };
static const char *const answering[] = {"place",    "drying",    "exposure", "recipe",
                                        "solvents", "materials", "limits",   NULL};
static const char *const file_options[] = {"--data", "--case",   "--chart",  "--output",
                                           "-o",     "--import", "--export", NULL};

static size_t split(char *text, char *words[WORDS_MAX]) {
    size_t count = 0;
    for (char *word = strtok(text, "\n"); word && count < WORDS_MAX; word = strtok(NULL, "\n"))
        words[count++] = word;
    return count;
}

static bool names_a_file(char *const *words, size_t count) {
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; file_options[k]; k++)
            if (strncmp(words[i], file_options[k], strlen(file_options[k])) == 0)
                return true;
    return false;
}

static void run(const struct command *command, char **words, size_t count) {
    static struct invocation inv;
    struct arena arena = {0};
    struct text out = {0}, talk = {0};
    struct error err = {0};
    struct data_directory directory = {.path = tables_directory()};
    bool help = false;
    inv = (struct invocation){.command = command, .arena = &arena, .out = &out, .talk = &talk};
    enum status status = options_parse(&inv, (int)count, words, &help, &err);
    if (status == STATUS_OK && help)
        help_command(&out, command);
    else if (status == STATUS_OK && word_index(command->name, answering) >= 0) {
        status = library_open(&inv.library, &directory, 1, command->tables, &err);
        if (status == STATUS_OK)
            status = options_complete(&inv, &err);
        if (status == STATUS_OK)
            status = command->run(&inv, &err);
    }
    LAW(status == STATUS_OK || status == STATUS_NEGATIVE || err.text[0]);
    LAW(status != STATUS_SYSTEM && status != STATUS_MEMORY);
    LAW(!strstr(text_bytes(&out), "nan") || inv.json == false || !strstr(text_bytes(&out), ": nan"));
    library_release(&inv.library);
    text_release(&out);
    text_release(&talk);
    arena_release(&arena);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    char *text = malloc(length + 1);
    LAW(text);
    memcpy(text, bytes, length);
    text[length] = '\0';
    char *words[WORDS_MAX];
    size_t count = split(text, words);
    const struct command *command = count ? command_named(words[0]) : NULL;
    if (command && !names_a_file(words + 1, count - 1))
        run(command, words + 1, count - 1);
    free(text);
    return 0;
}
