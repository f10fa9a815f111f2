// SPDX-License-Identifier: GPL-3.0-or-later
// Lines as a command line: the first word picks the command, one word a line. Commands that only answer are run; of the
// others only the options are read. No word may name a file, so that nothing of the machine is read or written.
#include "calling.h"
#include "target.h"

static const char *const answering[] = {"place",    "drying",    "exposure", "recipe", "label",
                                        "solvents", "materials", "limits",   NULL};
static const char *const file_options[] = {"--data",   "--case",   "--chart", "--output",  "-o",
                                           "--import", "--export", "--fit",   "--section", NULL};

static bool names_a_file(char *const *words, size_t count) {
    for (size_t i = 0; i < count; i++)
        for (size_t k = 0; file_options[k]; k++)
            if (strncmp(words[i], file_options[k], strlen(file_options[k])) == 0)
                return true;
    return false;
}

// The second word of `label` that is no option is its picture.
static bool draws(const struct call *call) {
    return strcmp(call->inv.command->name, "label") == 0 && call->inv.argument_count > 1;
}

static void run(const struct command *command, char **words, size_t count) {
    static struct call call;
    enum status status = call_begin(&call, command, words, count);
    if (status == STATUS_OK && call.help)
        help_command(&call.out, command);
    else if (status == STATUS_OK && word_index(command->name, answering) >= 0 && !draws(&call))
        status = call_answer(&call);
    call_end(&call, status);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    char *text = input_text(bytes, length);
    char *words[CALL_WORDS_MAX];
    size_t count = call_words(text, words);
    const struct command *command = count ? command_named(words[0]) : NULL;
    if (command && !names_a_file(words + 1, count - 1))
        run(command, words + 1, count - 1);
    free(text);
    return 0;
}
