// SPDX-License-Identifier: GPL-3.0-or-later
// Commands called as main calls them, but for what main prints; shared by the targets that do so.
#ifndef MILDSOLVE_TESTS_FUZZ_CALLING_H
#define MILDSOLVE_TESTS_FUZZ_CALLING_H

#include "cli/command.h"

enum { CALL_WORDS_MAX = 24 };

// One word a line, in place; what is beyond CALL_WORDS_MAX is left out. Empty lines are no words.
size_t call_words(char *text, char *words[CALL_WORDS_MAX]);

// One call of a command.
struct call {
    struct invocation inv;
    struct arena arena;
    struct text out, talk;
    struct error err;
    bool help;
    bool owns_library;
};

// The options of `words`, which follow the command's name. The call must be ended, whatever the status.
enum status call_begin(struct call *call, const struct command *command, char **words, size_t count);

// Its answer, with the tables that it needs; those of a command that reads none later (row_tables) are read once.
enum status call_answer(struct call *call);

// Laws of every call: a fault has its words, and none of them is the machine's.
void call_end(struct call *call, enum status status);

#endif
