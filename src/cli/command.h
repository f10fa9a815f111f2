// SPDX-License-Identifier: GPL-3.0-or-later
// Commands and options are tables; one file per command.
#ifndef MILDSOLVE_CLI_COMMAND_H
#define MILDSOLVE_CLI_COMMAND_H

#include "base/arena.h"
#include "base/date.h"
#include "base/error.h"
#include "base/text.h"
#include "data/library.h"
#include "data/locate.h"

#include <stdbool.h>

enum { OPTIONS_MAX = 48, ARGUMENTS_MAX = 16, REPEATS_MAX = 12 };

struct option {
    const char *name;     // "--use"
    const char *argument; // "ML"; NULL for a switch; "[N]": a whole number that may be left out
    const char *help;     // one line
    bool repeats;         // may stand more than once
};

struct invocation;
struct casefile;

struct command {
    const char *name;
    const char *arguments; // as in the synopsis: "BLEND", "[NAME ...]", "" for none
    int arguments_least;
    int arguments_most;
    const char *summary; // one line
    const char *details; // a paragraph for --help, may be NULL
    const struct option *options;
    size_t option_count;
    unsigned tables;     // bits of enum table that it needs, read before it runs
    unsigned row_tables; // tables of which it needs only some rows, and which it reads itself (read_rows_of_blends)
    bool dated;          // judges the bottles of a case on the day of --date, which is today where it is not given
    bool own_case;       // reads the file of --case itself; for the others its values become defaults of their options
    const char *example;
    enum status (*run)(struct invocation *inv, struct error *err);
};

// One call of a command: what was asked, the tables, and where the answer goes.
struct invocation {
    const struct command *command;
    const char *arguments[ARGUMENTS_MAX];
    size_t argument_count;
    const char *values[OPTIONS_MAX][REPEATS_MAX];
    size_t value_counts[OPTIONS_MAX];
    bool json;
    struct arena *arena;
    struct data_directories directories;
    struct library library;          // with the bottles of the case in front when --case is given
    const struct casefile *casefile; // of --case; NULL when it isn't given or the command reads it itself
    struct date as_of;               // day on which the bottles of the case are judged; not set = they are not
    const char *done;  // what stands although the answer may not be printed, such as a test noted; or NULL
    struct text *out;  // the answer, written to standard output at the end
    struct text *talk; // remarks, written to standard error
};

// All options of a command: its own, then those that every command has: --json, --data, --language, --help.
size_t command_option_count(const struct command *command);
const struct option *command_option(const struct command *command, size_t i);

extern const struct command *const commands[];
extern const size_t command_count;
const struct command *command_named(const char *name);

// Parses what follows the command's name. *ret_help is set when --help was asked for. That arguments are missing is
// only said by options_complete, because a case may still supply them.
enum status options_parse(struct invocation *inv, int argc, char **argv, bool *ret_help, struct error *err);

enum status options_complete(const struct invocation *inv, struct error *err);

// Gives an option of the command a value that the user didn't: false when the command has no such option or its value
// stands already. option_add adds to the values of an option that repeats.
bool option_fill(struct invocation *inv, const char *name, const char *value);
bool option_add(struct invocation *inv, const char *name, const char *value);

bool option_known(const struct invocation *inv, const char *name); // the command has it
bool option_given(const struct invocation *inv, const char *name);
const char *option_value(const struct invocation *inv, const char *name); // NULL when not given; the last one
size_t option_values(const struct invocation *inv, const char *name, const char *const **ret_values);

// The value of an option that was given without one.
#define OPTION_SWITCHED_ON "yes"

// A number within min..max (inclusive), or `fallback` when the option isn't given.
enum status option_number(const struct invocation *inv, const char *name, double min, double max, double fallback,
                          double *ret, struct error *err);
enum status option_integer(const struct invocation *inv, const char *name, int min, int max, int fallback, int *ret,
                           struct error *err);

// A day written YYYY-MM-DD.
enum status option_date(const struct invocation *inv, const char *name, struct date fallback, struct date *ret,
                        struct error *err);

// One of the NULL-terminated words; index in *ret.
enum status option_word(const struct invocation *inv, const char *name, const char *const *words, int fallback,
                        int *ret, struct error *err);

void help_command(struct text *out, const struct command *command);
void help_all(struct text *out);

#endif
