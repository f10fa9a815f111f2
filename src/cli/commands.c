// SPDX-License-Identifier: GPL-3.0-or-later
// The list of commands, in the order of the job.
#include "cli/command.h"

extern const struct command cmd_gentlest, cmd_place;

const struct command *const commands[] = {
    &cmd_gentlest,
    &cmd_place,
};
const size_t command_count = sizeof commands / sizeof commands[0];
