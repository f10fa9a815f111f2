// SPDX-License-Identifier: GPL-3.0-or-later
// What may stand after each option. A name that is not here is guessed from the option's argument: FILE, DIR, BLEND.
// The test `completions` asks the program itself whether the words are those it knows.
#include "cli/completion.h"

#include <assert.h>
#include <string.h>

static const struct value_hint hints[] = {
    {NULL, "--remove", VALUE_LIST, "materials"},
    {NULL, "--spare", VALUE_LIST, "materials"},
    {NULL, "--material", VALUE_LIST, "materials"},
    {NULL, "--bottles", VALUE_LIST, "bottles"},
    {NULL, "--allow", VALUE_LIST, "bottles"},
    {NULL, "--without", VALUE_LIST, "left-out"},
    {NULL, "--shelf", VALUE_NAME, "shelves"},
    {NULL, "--toward", VALUE_NAME, "bottles"},
    {"replace", "--bottle", VALUE_NAME, "bottles"},
    {NULL, "--sensitive", VALUE_LIST, "sensitivities"},
    {NULL, "--limits", VALUE_NAME, "limits"},
    {NULL, "--passage", VALUE_NAME, "passages"},
    {"record", "--layer", VALUE_NAME, "layers"},
    {NULL, "--amend", VALUE_NAME, "tests"},
    {NULL, "--import", VALUE_FILE, NULL},
    {NULL, "--export", VALUE_FILE, NULL},
    {NULL, "--by", VALUE_WORDS, "film|red"},
    {"record", "--by", VALUE_UNKNOWN, NULL},
    {NULL, "--doubt", VALUE_WORDS, "none|quick|full"},
    {"report", "--learn", VALUE_WORDS, "none|few|all"},
    {NULL, "--prefer", VALUE_WORDS, "paint|residue|health|fire|weak"},
    {NULL, "--residue-most", VALUE_WORDS, "short|medium|long|any"},
    {NULL, "--step", VALUE_WORDS, "10|5|2.5|1"},
    {NULL, "--size", VALUE_WORDS, "half|full"},
    {NULL, "--paper", VALUE_WORDS, "a4|letter"},
    {NULL, "--rule", VALUE_WORDS, "fractions|hansen"},
    {NULL, "--rate", VALUE_WORDS, "all|model"},
    {"label", "--bottle", VALUE_WORDS, "30|100|500"},
    {NULL, "--rules", VALUE_WORDS, "eu-clp|us-hcs"},
    {NULL, "--language", VALUE_WORDS, "en|de|fr|it|es"},
    {NULL, "--result", VALUE_WORDS, "none|gloss change|softened|partly removed|removed"},
    {NULL, "--delivery", VALUE_WORDS, "swab|swab through tissue|gel|microfibre"},
    {NULL, "--colour-on-swab", VALUE_WORDS, "not looked|none|varnish tint|overpaint|original|unsure"},
    {NULL, "--blanching", VALUE_WORDS, "not looked|none|wet only|after drying"},
    {"materials", "NAME", VALUE_NAME, "materials"},
    {NULL, "NAME", VALUE_NAME, "bottles"},
    {NULL, "BLEND", VALUE_BLEND, "bottles"},
    {NULL, "FILE", VALUE_FILE, NULL},
    {NULL, "DIR", VALUE_DIRECTORY, NULL},
};

// That of the command itself outranks the general one.
static const struct value_hint *find(const struct command *command, const char *name) {
    const struct value_hint *general = NULL;
    for (size_t i = 0; i < sizeof hints / sizeof hints[0]; i++) {
        if (strcmp(hints[i].option, name) != 0)
            continue;
        if (hints[i].command && strcmp(hints[i].command, command->name) == 0)
            return &hints[i];
        if (!hints[i].command)
            general = &hints[i];
    }
    return general;
}

struct value_hint value_hint_of_option(const struct command *command, const struct option *option) {
    const struct value_hint *hint = find(command, option->name);
    // A general word of an argument says what stands there only where it is that of a kind: FILE, DIR, BLEND.
    if (!hint && option->argument && strcmp(option->argument, "NAME") != 0)
        hint = find(command, option->argument);
    return hint ? *hint : (struct value_hint){.kind = VALUE_UNKNOWN};
}

struct value_hint value_hint_of_arguments(const struct command *command) {
    static const char *const words[] = {"BLEND", "NAME", "FILE"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (strstr(command->arguments, words[i])) {
            const struct value_hint *hint = find(command, words[i]);
            assert(hint); // the general words are in the table
            return *hint;
        }
    return (struct value_hint){.kind = VALUE_UNKNOWN};
}

size_t value_hint_word(const char **at, const char **ret_word) {
    size_t length = strcspn(*at, "|");
    *ret_word = *at;
    *at += length + ((*at)[length] == '|');
    return length;
}
