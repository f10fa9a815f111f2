// SPDX-License-Identifier: GPL-3.0-or-later
#include "calling.h"

#include "tables.h"
#include "target.h"

size_t call_words(char *text, char *words[CALL_WORDS_MAX]) {
    size_t count = 0;
    for (char *word = strtok(text, "\n"); word && count < CALL_WORDS_MAX; word = strtok(NULL, "\n"))
        words[count++] = word;
    return count;
}

enum status call_begin(struct call *call, const struct command *command, char **words, size_t count) {
    *call = (struct call){0};
    call->inv = (struct invocation){.command = command, .arena = &call->arena, .out = &call->out, .talk = &call->talk};
    return options_parse(&call->inv, (int)count, words, &call->help, &call->err);
}

// Tables that no call changes.
static const struct library *tables_read_once(unsigned tables) {
    static struct library lib;
    static unsigned held;
    if (held != tables) {
        library_release(&lib);
        tables_open(&lib, tables);
        held = tables;
    }
    return &lib;
}

enum status call_answer(struct call *call) {
    struct invocation *inv = &call->inv;
    struct data_directory directory = {.path = tables_directory()};
    enum status status = STATUS_OK;
    call->owns_library = inv->command->row_tables != 0;
    if (call->owns_library)
        status = library_open(&inv->library, &directory, 1, inv->command->tables, &call->err);
    else
        inv->library = *tables_read_once(inv->command->tables);
    if (status == STATUS_OK)
        status = options_complete(inv, &call->err);
    return status == STATUS_OK ? inv->command->run(inv, &call->err) : status;
}

void call_end(struct call *call, enum status status) {
    LAW(status == STATUS_OK || status == STATUS_NEGATIVE || call->err.text[0]);
    LAW(status != STATUS_SYSTEM && status != STATUS_MEMORY);
    LAW(!call->inv.json || !strstr(text_bytes(&call->out), ": nan"));
    if (call->owns_library)
        library_release(&call->inv.library);
    text_release(&call->out);
    text_release(&call->talk);
    arena_release(&call->arena);
}
