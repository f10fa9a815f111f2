// SPDX-License-Identifier: GPL-3.0-or-later
// Picks the command, writes its answer, turns its status into the exit status.
#include "base/language.h"
#include "base/memory.h"
#include "base/text.h"
#include "casefile/casefile.h"
#include "cli/case_option.h"
#include "cli/command.h"
#include "cli/completion.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static int complain(struct error *err, enum status status) {
    err->text[text_neutralise(err->text, strlen(err->text))] = '\0';
    fprintf(stderr, "mildsolve: %s\n", err->text[0] ? err->text : status_name(status));
    return status_exit(status);
}

static enum status write_out(int descriptor, const struct text *text, struct error *err) {
    if (text->failed)
        return error_set(err, STATUS_MEMORY, "out of memory while writing the answer");
    for (size_t at = 0; at < text->length;) {
        ssize_t written = write(descriptor, text->bytes + at, text->length - at);
        if (written < 0 && errno != EINTR)
            return error_set(err, STATUS_SYSTEM, "cannot write the answer: %s", strerror(errno));
        at += written < 0 ? 0 : (size_t)written;
    }
    return STATUS_OK;
}

static enum status run_with_tables(struct invocation *inv, struct error *err) {
    const char *const *extra = NULL;
    size_t extra_count = option_values(inv, "--data", &extra);
    unsigned tables = inv->command->tables | (option_given(inv, "--case") ? CASE_TABLES : 0);
    enum status status = locate_data(inv->arena, extra, extra_count, &inv->directories, err);
    if (status == STATUS_OK && tables) // check, which reads none so, lists what is wrong there
        status = locate_check_own(extra, extra_count, err);
    if (status == STATUS_OK && tables)
        status = library_open(&inv->library, inv->directories.items, inv->directories.count, tables, err);
    if (status == STATUS_OK && option_given(inv, "--case") && !inv->command->own_case)
        status = case_option_apply(inv, err);
    if (status == STATUS_OK)
        status = options_complete(inv, err);
    if (status != STATUS_OK)
        return status;
    status = inv->command->run(inv, err);
    assert(status != STATUS_OK || !(inv->command->row_tables & ~inv->library.loaded));
    return status;
}

// What programs read stays English.
static enum status choose_language(const struct invocation *inv, struct error *err) {
    const char *code = option_value(inv, "--language");
    if (!code || (inv->json && word_index(code, language_codes) >= 0))
        return STATUS_OK;
    return language_choose(code, locate_catalogues(inv->arena), err);
}

// An answer may be complete although its status says "no" (1) or "interrupted" (130): it is printed all the same.
static bool has_answer(enum status status) {
    return status == STATUS_OK || status == STATUS_NEGATIVE || status == STATUS_INTERRUPTED;
}

static enum status answer(struct invocation *inv, int argc, char **argv, struct error *err) {
    bool help = false;
    enum status status = options_parse(inv, argc, argv, &help, err);
    if (status == STATUS_OK)
        status = choose_language(inv, err);
    if (status == STATUS_OK && help)
        help_command(inv->out, inv->command);
    else if (status == STATUS_OK)
        status = run_with_tables(inv, err);
    if (memory_ran_out()) // a part of the answer, or of the reason why there is none, may be lacking
        return error_set(err, STATUS_MEMORY, "out of memory; half an answer is not printed");
    struct error ignored;
    inv->talk->length = text_neutralise(inv->talk->bytes, inv->talk->length);
    write_out(STDERR_FILENO, inv->talk, &ignored);
    if (!has_answer(status))
        return status;
    enum status written = write_out(STDOUT_FILENO, inv->out, err);
    if (written != STATUS_OK && inv->done) {
        struct error why = *err;
        return error_set(err, written, "%s; %s", why.text, inv->done);
    }
    return written == STATUS_OK ? status : written;
}

static int run_command(const struct command *command, int argc, char **argv) {
    struct arena arena = {0};
    struct text out = {0};
    struct text talk = {0};
    static struct invocation inv; // too large for the stack of a small machine
    inv = (struct invocation){.command = command, .arena = &arena, .out = &out, .talk = &talk};
    struct error err = {0};
    enum status status = answer(&inv, argc, argv, &err);
    int exit_status = status_exit(status);
    if (err.text[0] || !has_answer(status))
        exit_status = complain(&err, status);
    library_release(&inv.library);
    text_release(&out);
    text_release(&talk);
    arena_release(&arena);
    return exit_status;
}

static int print_whole(void (*writer)(struct text *)) {
    struct text out = {0};
    struct error err = {0};
    writer(&out);
    enum status status = write_out(STDOUT_FILENO, &out, &err);
    text_release(&out);
    return status == STATUS_OK ? 0 : complain(&err, status);
}

static void write_version(struct text *out) {
    text_add(out, "mildsolve " MILDSOLVE_VERSION "\n");
}

static void write_completion_bash(struct text *out) {
    completion_write(SHELL_BASH, out);
}

static void write_completion_zsh(struct text *out) {
    completion_write(SHELL_ZSH, out);
}

static void write_completion_fish(struct text *out) {
    completion_write(SHELL_FISH, out);
}

static int print_completion(const char *shell) {
    static void (*const writers[])(struct text *) = {write_completion_bash, write_completion_zsh,
                                                     write_completion_fish};
    for (size_t i = 0; shell && completion_shell_names[i]; i++)
        if (strcmp(shell, completion_shell_names[i]) == 0)
            return print_whole(writers[i]);
    struct error err;
    error_set(&err, STATUS_USAGE, "--completion needs the name of a shell: bash, zsh or fish");
    return complain(&err, STATUS_USAGE);
}

static int unknown_command(const char *name) {
    struct near_name near = near_name_begin(name);
    for (size_t i = 0; i < command_count; i++)
        near_name_try(&near, commands[i]->name);
    struct error err;
    if (near.best)
        error_set(&err, STATUS_USAGE, "no command is called '%.60s'; did you mean '%s'? `mildsolve --help` lists them",
                  name, near.best);
    else
        error_set(&err, STATUS_USAGE, "no command is called '%.60s'; `mildsolve --help` lists them", name);
    return complain(&err, STATUS_USAGE);
}

// For the tests that make every allocation fail in turn.
static void fail_as_asked(void) {
    const char *number = getenv("MILDSOLVE_FAIL_ALLOCATION");
    if (number)
        memory_fail_at(strtoul(number, NULL, 10));
}

static enum status choose_language_of_help(const char *code, struct error *err) {
    struct arena arena = {0};
    enum status status = code ? language_choose(code, locate_catalogues(&arena), err) : STATUS_OK;
    arena_release(&arena);
    return status;
}

// What follows --help: perhaps a command, perhaps --language CODE.
static int help(int count, char **words) {
    static char help_word[] = "--help";
    const char *name = NULL, *code = NULL;
    struct error err = {0};
    for (int i = 0; i < count; i++) {
        if (strncmp(words[i], "--language=", strlen("--language=")) == 0)
            code = words[i] + strlen("--language=");
        else if (strcmp(words[i], "--language") == 0 && i + 1 < count)
            code = words[++i];
        else
            name = name ? name : words[i];
    }
    enum status status = choose_language_of_help(code, &err);
    if (status != STATUS_OK)
        return complain(&err, status);
    const struct command *asked = name ? command_named(name) : NULL;
    if (name && !asked)
        return unknown_command(name);
    return asked ? run_command(asked, 1, (char *[]){help_word}) : print_whole(help_all);
}

// --language before the command is moved behind it, where options are read.
static void move_language_back(int argc, char **argv) {
    int taken = strcmp(argv[1], "--language") == 0 ? 2 : strncmp(argv[1], "--language=", strlen("--language=")) == 0;
    if (taken == 0 || argc < taken + 2)
        return;
    char *command = argv[taken + 1];
    memmove(argv + 2, argv + 1, (size_t)taken * sizeof argv[0]);
    argv[1] = command;
}

// A file opened in the place of a closed standard descriptor would receive what is meant for people. What stands there
// now refuses it, as the closed one would.
static void keep_standard_descriptors(void) {
    for (int descriptor = STDIN_FILENO; descriptor <= STDERR_FILENO; descriptor++)
        if (fcntl(descriptor, F_GETFD) < 0)
            open("/dev/null", descriptor == STDIN_FILENO ? O_WRONLY : O_RDONLY); // takes the lowest number free
}

int main(int argc, char **argv) {
    keep_standard_descriptors();
    fail_as_asked();
    setlocale(LC_CTYPE, ""); // numbers stay in the C locale, so that the same input gives the same bytes
    if (argc < 2) {
        print_whole(help_all);
        return status_exit(STATUS_USAGE);
    }
    move_language_back(argc, argv);
    if (strcmp(argv[1], "--help") == 0 || strcmp(argv[1], "-h") == 0 || strcmp(argv[1], "help") == 0)
        return help(argc - 2, argv + 2);
    if (strcmp(argv[1], "--version") == 0)
        return print_whole(write_version);
    if (strcmp(argv[1], "--completion") == 0)
        return print_completion(argc > 2 ? argv[2] : NULL);
    if (strcmp(argv[1], cmd_names.name) == 0)
        return run_command(&cmd_names, argc - 2, argv + 2);
    const struct command *command = command_named(argv[1]);
    return command ? run_command(command, argc - 2, argv + 2) : unknown_command(argv[1]);
}
