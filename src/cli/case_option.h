// SPDX-License-Identifier: GPL-3.0-or-later
// --case FILE: what the user doesn't say is taken from the case.
#ifndef MILDSOLVE_CLI_CASE_OPTION_H
#define MILDSOLVE_CLI_CASE_OPTION_H

#include "casefile/casefile.h"
#include "cli/common.h"

// A command that lists this among its options takes its defaults from the case; nothing else needs to be done. main
// loads CASE_TABLES besides the command's own and applies the case before `run`.
#define CASE_OPTION                                                                                                    \
    { .name = "--case", .argument = "FILE", .help = "a case file; what isn't given is taken from it" }

// Opens the file of --case, puts its bottles in front of inv->library (so every blend may name them), sets
// inv->casefile, and fills the options that the command has and the user didn't give:
//   --bottles      bottles of the case that are not finished (unless --shelf or --whole-table is given)
//   --remove       materials of goals.remove
//   --spare        materials of goals.spare and goals.unsure
//   --without      adds reproductive, carcinogen, mutagen and toxic when a pregnancy or breastfeeding is announced,
//                  sensitiser when somebody is sensitised, what component_not_for_young says when somebody is under 18
//   --room --air-changes --temperature      the room
//   --task         the tasks of day, unless --use, --hours or --start is given
//   --use --hours  delivery: load_ml_per_h, hours_per_day, when there are no tasks
//   --limits       studio.limits
//   --material     materials of all three goals (places, charts)
//   --blend        the working blend (charts): of the last decision that names one, else of the last test that stands
//   --object       number, or else title; then --date is the day of the last test or decision, unless
//                  the command is dated
//   BLEND          a missing first argument of that name: the working blend
// A material without a region is replaced by the careful stand-in of the tables, with a note, where a region is needed.
// What was filled is told on standard error. No clock: the same case gives the same answer on every day.
enum status case_option_apply(struct invocation *inv, struct error *err);

// The same with a case that is open already.
enum status case_option_fill(struct invocation *inv, const struct casefile *file, struct error *err);

// Bottles of the case that have stood too long for their peroxides on the day of --date (default: today) are told on
// standard error, whatever the answer is; with `blend` only those that are in it. Nothing without a case. The day
// becomes inv->as_of, for the marks of overdue.h. STATUS_USAGE when --date is no day.
enum status case_option_warn_peroxides(struct invocation *inv, const struct blend *blend, struct error *err);

// Of the last test or decision; not set when there is neither.
struct date case_last_day(const struct casefile *file);

#endif
