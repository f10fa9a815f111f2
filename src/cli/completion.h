// SPDX-License-Identifier: GPL-3.0-or-later
// What shells complete: scripts written from the tables of commands, and the names that they ask for while somebody
// types.
#ifndef MILDSOLVE_CLI_COMPLETION_H
#define MILDSOLVE_CLI_COMPLETION_H

#include "cli/command.h"

enum completion_shell { SHELL_BASH, SHELL_ZSH, SHELL_FISH };
extern const char *const completion_shell_names[]; // bash zsh fish, NULL-terminated

// `mildsolve --completion SHELL`: the script, as it stands in data/completions.
void completion_write(enum completion_shell shell, struct text *out);

// `mildsolve --names KIND [--case FILE] [--data DIR]`: names one a line, of the case's own bottles too. Not in the list
// of commands: it is asked by the scripts.
extern const struct command cmd_names;

// --- what may stand where ---

enum value_kind {
    VALUE_UNKNOWN, // a number or a text that nobody can guess
    VALUE_FILE,
    VALUE_DIRECTORY,
    VALUE_WORDS, // one of `words`
    VALUE_NAME,  // one name of the kind `words`
    VALUE_LIST,  // names of the kind `words`, between commas
    VALUE_BLEND  // bottles with parts, between plus signs
};

struct value_hint {
    const char *command; // NULL = of every command that has the option
    const char *option;  // "--remove"; or the argument in capitals: "BLEND", "NAME"
    enum value_kind kind;
    const char *words; // between bars: "film|red"; or a kind of names: "bottles"
};

// Of an option, or of an argument of the command.
struct value_hint value_hint_of_option(const struct command *command, const struct option *option);
struct value_hint value_hint_of_arguments(const struct command *command);

// The words of a hint one by one: the length of the one that *at begins with, 0 at the end. Moves *at past its bar.
size_t value_hint_word(const char **at, const char **ret_word);

#endif
