// SPDX-License-Identifier: GPL-3.0-or-later
#include "base/language.h"
#include "cli/command.h"

#include "data/schema.h"

#include <assert.h>
#include <stdio.h>
#include <ctype.h>
#include <string.h>

static const struct option common_options[] = {
    {.name = "--json", .help = "answer as JSON for programs"},
    {.name = "--data", .argument = "DIR", .help = "own tables on top of the shipped ones", .repeats = true},
    {.name = "--language", .argument = "CODE", .help = "en, de, fr, it or es: what people read (never JSON)"},
    {.name = "--help", .help = "this text"},
};
static const size_t common_option_count = sizeof common_options / sizeof common_options[0];

size_t command_option_count(const struct command *command) {
    return command->option_count + common_option_count;
}

const struct option *command_option(const struct command *command, size_t i) {
    return i < command->option_count ? &command->options[i] : &common_options[i - command->option_count];
}

static size_t slot_of(const struct command *command, const char *name, size_t length) {
    for (size_t i = 0; i < command_option_count(command); i++) {
        const struct option *option = command_option(command, i);
        if (strlen(option->name) == length && strncmp(option->name, name, length) == 0)
            return i;
    }
    return OPTIONS_MAX;
}

// An option that speaks of what was meant: "--arm" is no near name of --capture, which is about the arm.
static const char *option_about(const struct command *command, const char *given) {
    const char *word = given + strspn(given, "-");
    size_t length = strlen(word);
    for (size_t i = 0; length >= 3 && i < command_option_count(command); i++) {
        const char *help = command_option(command, i)->help;
        for (const char *at = help; (at = strstr(at, word)) != NULL; at += length)
            if ((at == help || !isalpha((unsigned char)at[-1])) && !isalpha((unsigned char)at[length]))
                return command_option(command, i)->name;
    }
    return NULL;
}

static enum status unknown_option(const struct command *command, const char *given, struct error *err) {
    struct near_name near = near_name_begin(given);
    for (size_t i = 0; i < command_option_count(command); i++)
        near_name_try(&near, command_option(command, i)->name);
    if (near.best)
        return error_set(err, STATUS_USAGE,
                         "option '%.60s' is not known to `mildsolve %s`; did you mean '%s'? See `mildsolve %s --help`",
                         given, command->name, near.best, command->name);
    const char *about = option_about(command, given);
    if (about)
        return error_set(err, STATUS_USAGE,
                         "option '%.60s' is not known to `mildsolve %s`; '%s' is about that. See `mildsolve %s --help`",
                         given, command->name, about, command->name);
    return error_set(err, STATUS_USAGE, "option '%.60s' is not known to `mildsolve %s`; see `mildsolve %s --help`",
                     given, command->name, command->name);
}

static enum status store(struct invocation *inv, size_t slot, const char *value, struct error *err) {
    const struct option *option = command_option(inv->command, slot);
    size_t most = option->repeats ? REPEATS_MAX : 1;
    if (inv->value_counts[slot] == most)
        return option->repeats
                   ? error_set(err, STATUS_USAGE, "option '%s' is given more than %d times", option->name, REPEATS_MAX)
                   : error_set(err, STATUS_USAGE, "option '%s' is given more than once", option->name);
    inv->values[slot][inv->value_counts[slot]++] = value;
    return STATUS_OK;
}

static bool is_whole_number(const char *word) {
    return word[0] && word[strspn(word, "0123456789")] == '\0';
}

static enum status take_option(struct invocation *inv, char **argv, int argc, int *at, struct error *err) {
    const char *given = argv[*at];
    if (strcmp(given, "-h") == 0)
        given = "--help";
    if (strcmp(given, "-o") == 0)
        given = "--output";
    size_t length = strcspn(given, "=");
    size_t slot = slot_of(inv->command, given, length);
    if (slot == OPTIONS_MAX)
        return unknown_option(inv->command, given, err);
    const struct option *option = command_option(inv->command, slot);
    if (!option->argument) {
        if (given[length] == '=')
            return error_set(err, STATUS_USAGE, "option '%s' takes no value", option->name);
        return store(inv, slot, OPTION_SWITCHED_ON, err);
    }
    if (given[length] == '=')
        return store(inv, slot, given + length + 1, err);
    if (option->argument[0] == '[' && (*at + 1 >= argc || !is_whole_number(argv[*at + 1])))
        return store(inv, slot, OPTION_SWITCHED_ON, err);
    if (*at + 1 >= argc)
        return error_set(err, STATUS_USAGE, "option '%s' needs a value: %s %s", option->name, option->name,
                         option->argument);
    return store(inv, slot, argv[++*at], err);
}

enum status options_complete(const struct invocation *inv, struct error *err) {
    const struct command *command = inv->command;
    if ((int)inv->argument_count < command->arguments_least)
        return error_set(err, STATUS_USAGE, "`mildsolve %s` needs %s; for example: %s", command->name,
                         command->arguments, command->example);
    return STATUS_OK;
}

static enum status check_most(const struct invocation *inv, struct error *err) {
    const struct command *command = inv->command;
    if ((int)inv->argument_count > command->arguments_most)
        return error_set(err, STATUS_USAGE,
                         "'%.60s' is one word too many for `mildsolve %s`; a blend or list of several words stands in "
                         "quotation marks, for example: %s",
                         inv->arguments[command->arguments_most], command->name, command->example);
    return STATUS_OK;
}

static bool looks_like_option(const char *word) {
    return strncmp(word, "--", 2) == 0 || strcmp(word, "-h") == 0 || strcmp(word, "-o") == 0;
}

enum status options_parse(struct invocation *inv, int argc, char **argv, bool *ret_help, struct error *err) {
    assert(command_option_count(inv->command) <= OPTIONS_MAX);
    bool only_arguments = false;
    for (int i = 0; i < argc; i++) {
        if (!only_arguments && strcmp(argv[i], "--") == 0) {
            only_arguments = true;
            continue;
        }
        if (!only_arguments && looks_like_option(argv[i])) {
            enum status status = take_option(inv, argv, argc, &i, err);
            if (status != STATUS_OK)
                return status;
            continue;
        }
        if (inv->argument_count == ARGUMENTS_MAX)
            return error_set(err, STATUS_USAGE, "more than %d words for `mildsolve %s`", ARGUMENTS_MAX,
                             inv->command->name);
        inv->arguments[inv->argument_count++] = argv[i];
    }
    *ret_help = option_given(inv, "--help");
    inv->json = option_given(inv, "--json");
    return *ret_help ? STATUS_OK : check_most(inv, err);
}

bool option_fill(struct invocation *inv, const char *name, const char *value) {
    size_t slot = slot_of(inv->command, name, strlen(name));
    if (slot == OPTIONS_MAX || inv->value_counts[slot] > 0)
        return false;
    inv->values[slot][0] = value;
    inv->value_counts[slot] = 1;
    return true;
}

bool option_add(struct invocation *inv, const char *name, const char *value) {
    size_t slot = slot_of(inv->command, name, strlen(name));
    if (slot == OPTIONS_MAX || inv->value_counts[slot] == REPEATS_MAX)
        return false;
    inv->values[slot][inv->value_counts[slot]++] = value;
    return true;
}

bool option_known(const struct invocation *inv, const char *name) {
    return slot_of(inv->command, name, strlen(name)) != OPTIONS_MAX;
}

bool option_given(const struct invocation *inv, const char *name) {
    size_t slot = slot_of(inv->command, name, strlen(name));
    return slot != OPTIONS_MAX && inv->value_counts[slot] > 0;
}

size_t option_values(const struct invocation *inv, const char *name, const char *const **ret_values) {
    size_t slot = slot_of(inv->command, name, strlen(name));
    if (slot == OPTIONS_MAX)
        return 0;
    *ret_values = inv->values[slot];
    return inv->value_counts[slot];
}

const char *option_value(const struct invocation *inv, const char *name) {
    const char *const *values = NULL;
    size_t count = option_values(inv, name, &values);
    return count ? values[count - 1] : NULL;
}

enum status option_number(const struct invocation *inv, const char *name, double min, double max, double fallback,
                          double *ret, struct error *err) {
    const char *text = option_value(inv, name);
    if (!text) {
        *ret = fallback;
        return STATUS_OK;
    }
    double value;
    char typed[SCHEMA_NUMBER_BYTES];
    if (schema_number_with_comma(text, typed))
        return error_set(err, STATUS_USAGE, "%s '%.40s': a number is expected, with a decimal point: %s %s", name, text,
                         name, typed);
    if (!schema_number(text, &value))
        return error_set(err, STATUS_USAGE, "%s '%.40s': a number is expected (no unit behind it)", name, text);
    if (value < min || value > max)
        return error_set(err, STATUS_USAGE, "%s %.40s is outside the range %g to %g", name, text, min, max);
    *ret = value;
    return STATUS_OK;
}

enum status option_integer(const struct invocation *inv, const char *name, int min, int max, int fallback, int *ret,
                           struct error *err) {
    double value;
    enum status status = option_number(inv, name, min, max, fallback, &value, err);
    if (status != STATUS_OK)
        return status;
    if (value != (int)value)
        return error_set(err, STATUS_USAGE, "%s %g: a whole number is expected", name, value);
    *ret = (int)value;
    return STATUS_OK;
}

enum status option_date(const struct invocation *inv, const char *name, struct date fallback, struct date *ret,
                        struct error *err) {
    const char *text = option_value(inv, name);
    *ret = fallback;
    if (text && !date_parse(text, ret))
        return error_set(err, STATUS_USAGE, "%s '%.40s': a date is expected, year-month-day: 2026-03-04", name, text);
    return STATUS_OK;
}

enum status option_word(const struct invocation *inv, const char *name, const char *const *words, int fallback,
                        int *ret, struct error *err) {
    const char *text = option_value(inv, name);
    if (!text) {
        *ret = fallback;
        return STATUS_OK;
    }
    int word = word_index(text, words);
    if (word >= 0) {
        *ret = word;
        return STATUS_OK;
    }
    char known[256] = "";
    size_t at = 0;
    for (int i = 0; words[i] && at < sizeof known; i++)
        at += (size_t)snprintf(known + at, sizeof known - at, "%s%s", i ? ", " : "", words[i]);
    return error_set(err, STATUS_USAGE, "%s '%.40s' is not known; one of these is expected: %s", name, text, known);
}
