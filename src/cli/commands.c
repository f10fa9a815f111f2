// SPDX-License-Identifier: GPL-3.0-or-later
// The list of commands, in the order of the job.
#include "cli/command.h"

extern const struct command cmd_chart, cmd_check, cmd_drying, cmd_exposure, cmd_gentlest, cmd_label, cmd_layers,
    cmd_ladder, cmd_learn, cmd_limits, cmd_materials, cmd_place, cmd_recipe, cmd_record, cmd_replace, cmd_report,
    cmd_solvents;

const struct command *const commands[] = {
    &cmd_gentlest, &cmd_replace,  &cmd_place,     &cmd_chart,  &cmd_drying, &cmd_exposure,
    &cmd_recipe,   &cmd_ladder,   &cmd_layers,    &cmd_record, &cmd_learn,  &cmd_report,
    &cmd_label,    &cmd_solvents, &cmd_materials, &cmd_limits, &cmd_check,
};
const size_t command_count = sizeof commands / sizeof commands[0];
