// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/completion.h"

#include <string.h>

const char *const completion_shell_names[] = {"bash", "zsh", "fish", NULL};

// What stands after an option whose value may be left out is as well the next word.
static bool needs_value(const struct option *option) {
    return option->argument && option->argument[0] != '[';
}

static void add_escaped(struct text *out, const char *text, const char *special, const char *escape) {
    for (; *text; text++) {
        if (strchr(special, *text))
            text_add(out, escape);
        text_add_n(out, text, 1);
    }
}

// --- bash ---

static const char bash_head[] =
    "# bash completion of mildsolve. Written by `mildsolve --completion bash` from its tables of commands.\n"
    "\n"
    "# Names from the tables, of the case and the directories on the command line too.\n"
    "_mildsolve_names() {\n"
    "    local i more=()\n"
    "    for ((i = 1; i + 1 < ${#COMP_WORDS[@]} && i + 1 < COMP_CWORD; i++)); do\n"
    "        case ${COMP_WORDS[i]} in\n"
    "        --case | --data) more+=(\"${COMP_WORDS[i]}\" \"${COMP_WORDS[i + 1]}\") ;;\n"
    "        esac\n"
    "    done\n"
    "    \"${COMP_WORDS[0]}\" --names \"$1\" \"${more[@]}\" 2>/dev/null\n"
    "}\n"
    "\n"
    "# _mildsolve_offer HEAD WORD CANDIDATES: those lines of CANDIDATES that begin with WORD, behind HEAD.\n"
    "_mildsolve_offer() {\n"
    "    local line\n"
    "    while IFS= read -r line; do\n"
    "        if [[ -n $line && $line == \"$2\"* ]]; then COMPREPLY+=(\"$1$line\"); fi\n"
    "    done <<<\"$3\"\n"
    "}\n"
    "\n"
    "# The last of several names: what stands before it, up to one of the separators and the spaces after it, is "
    "kept.\n"
    "_mildsolve_last() { # _mildsolve_last WORD SEPARATOR KIND\n"
    "    local last=${1##*[\"$2\"]} head\n"
    "    last=${last##*( )}\n"
    "    head=${1%\"$last\"}\n"
    "    _mildsolve_offer \"$head\" \"$last\" \"$(_mildsolve_names \"$3\")\"\n"
    "    compopt -o nospace\n"
    "}\n"
    "\n"
    "_mildsolve_files() {\n"
    "    compopt -o filenames\n"
    "    mapfile -t COMPREPLY < <(compgen \"$1\" -- \"$2\")\n"
    "}\n"
    "\n"
    "# What may stand after an option, or as an argument: _mildsolve_value KIND WORDS WORD\n"
    "_mildsolve_value() {\n"
    "    local word=${3#[\\\"\\']}\n"
    "    case $1 in\n"
    "    file) _mildsolve_files -f \"$word\" ;;\n"
    "    directory) _mildsolve_files -d \"$word\" ;;\n"
    "    words)\n"
    "        compopt -o filenames # quotes what has spaces\n"
    "        _mildsolve_offer '' \"$word\" \"${2//|/$'\\n'}\" ;;\n"
    "    name) _mildsolve_offer '' \"$word\" \"$(_mildsolve_names \"$2\")\" ;;\n"
    "    list) _mildsolve_last \"$word\" , \"$2\" ;;\n"
    "    blend) _mildsolve_last \"$word\" + \"$2\" ;;\n"
    "    esac\n"
    "}\n"
    "\n"
    "_mildsolve() {\n"
    "    local word=${COMP_WORDS[COMP_CWORD]} before=${COMP_WORDS[COMP_CWORD - 1]} options= value= words=\n"
    "    local extglob=$(shopt -p extglob)\n"
    "    shopt -s extglob\n"
    "    COMPREPLY=()\n"
    "    if ((COMP_CWORD == 1)); then\n"
    "        mapfile -t COMPREPLY < <(compgen -W \"$_mildsolve_commands --help --version\" -- \"$word\")\n"
    "    else\n"
    "        _mildsolve_command \"${COMP_WORDS[1]}\" \"$before\"\n"
    "        if [[ $value != option: && $value == option:* ]]; then\n"
    "            _mildsolve_value \"${value#option:}\" \"$words\" \"$word\"\n"
    "        elif [[ $value != option:* && $word == -* ]]; then\n"
    "            mapfile -t COMPREPLY < <(compgen -W \"$options\" -- \"$word\")\n"
    "        elif [[ $value != option:* ]]; then\n"
    "            _mildsolve_value \"$value\" \"$words\" \"$word\"\n"
    "        fi\n"
    "    fi\n"
    "    eval \"$extglob\"\n"
    "}\n";

static const char *const kind_words[] = {"", "file", "directory", "words", "name", "list", "blend"};

static bool same_hint(const struct value_hint *a, const struct value_hint *b) {
    return a->kind == b->kind && (a->words == b->words || (a->words && b->words && strcmp(a->words, b->words) == 0));
}

// Options with the same hint share a branch; that of the first of them is written.
static void bash_branch(const struct command *command, size_t first, struct text *out) {
    struct value_hint hint = value_hint_of_option(command, command_option(command, first));
    for (size_t i = 0; i < first; i++) {
        struct value_hint before = value_hint_of_option(command, command_option(command, i));
        if (needs_value(command_option(command, i)) && same_hint(&hint, &before))
            return;
    }
    const char *between = "        ";
    for (size_t i = first; i < command_option_count(command); i++) {
        struct value_hint other = value_hint_of_option(command, command_option(command, i));
        if (!needs_value(command_option(command, i)) || !same_hint(&hint, &other))
            continue;
        text_printf(out, "%s%s", between, command_option(command, i)->name);
        between = " | ";
    }
    text_printf(out, ") value=option:%s", kind_words[hint.kind]);
    if (hint.words)
        text_printf(out, " words='%s'", hint.words);
    text_add(out, " ;;\n");
}

static void bash_command(const struct command *command, struct text *out) {
    struct value_hint hint = value_hint_of_arguments(command);
    text_printf(out, "    %s)\n        options='", command->name);
    for (size_t i = 0; i < command_option_count(command); i++)
        text_printf(out, "%s%s", i ? " " : "", command_option(command, i)->name);
    text_printf(out, "'\n        value='%s' words='%s'\n        case $2 in\n", kind_words[hint.kind],
                hint.words ? hint.words : "");
    for (size_t i = 0; i < command_option_count(command); i++)
        if (needs_value(command_option(command, i)))
            bash_branch(command, i, out);
    text_add(out, "        esac\n        ;;\n");
}

static void write_bash(struct text *out) {
    text_add(out, bash_head);
    text_add(out, "\n_mildsolve_commands='");
    for (size_t i = 0; i < command_count; i++)
        text_printf(out, "%s%s", i ? " " : "", commands[i]->name);
    text_add(out, "'\n\n# _mildsolve_command COMMAND WORD-BEFORE: sets options, value and words of _mildsolve.\n"
                  "_mildsolve_command() {\n    case $1 in\n");
    for (size_t i = 0; i < command_count; i++)
        bash_command(commands[i], out);
    text_add(out, "    esac\n}\n\ncomplete -F _mildsolve mildsolve\n");
}

// --- zsh ---

static const char zsh_head[] =
    "#compdef mildsolve\n"
    "# zsh completion of mildsolve. Written by `mildsolve --completion zsh` from its tables of commands.\n"
    "\n"
    "# Names from the tables, of the case and the directories on the command line too.\n"
    "_mildsolve_names() {\n"
    "    local -a more\n"
    "    local i\n"
    "    for ((i = 1; i < CURRENT - 1; i++)); do\n"
    "        case $words[i] in\n"
    "        --case | --data) more+=($words[i] ${(Q)words[i + 1]}) ;;\n"
    "        esac\n"
    "    done\n"
    "    mildsolve_names=(${(f)\"$(_call_program names mildsolve --names $1 $more 2>/dev/null)\"})\n"
    "}\n"
    "\n"
    "_mildsolve_name() { # one name: OPTIONS-OF-COMPADD KIND\n"
    "    local -a mildsolve_names\n"
    "    _mildsolve_names $@[-1]\n"
    "    compadd \"${@[1,-2]}\" -a mildsolve_names\n"
    "}\n"
    "\n"
    "_mildsolve_last() { # the last of several names: PATTERN-BEFORE OPTIONS-OF-COMPADD KIND\n"
    "    local -a mildsolve_names\n"
    "    _mildsolve_names $@[-1]\n"
    "    compset -P $1\n"
    "    compadd \"${@[2,-2]}\" -S '' -a mildsolve_names\n"
    "}\n"
    "\n"
    "_mildsolve_list() { _mildsolve_last '*,[[:space:]]#' \"$@\" }\n"
    "_mildsolve_blend() { _mildsolve_last '*+[[:space:]]#' \"$@\" }\n"
    "\n";

static void zsh_action(const struct value_hint *hint, struct text *out) {
    static const char *const functions[] = {
        [VALUE_NAME] = "_mildsolve_name", [VALUE_LIST] = "_mildsolve_list", [VALUE_BLEND] = "_mildsolve_blend"};
    if (hint->kind == VALUE_FILE) {
        text_add(out, "_files");
    } else if (hint->kind == VALUE_DIRECTORY) {
        text_add(out, "_files -/");
    } else if (hint->kind == VALUE_WORDS) {
        text_add(out, "(");
        const char *at = hint->words, *word;
        for (size_t length, i = 0; (length = value_hint_word(&at, &word)) > 0; i++) {
            text_add(out, i ? " " : "");
            for (size_t k = 0; k < length; k++)
                text_printf(out, word[k] == ' ' ? "\\\\%c" : "%c", word[k]);
        }
        text_add(out, ")");
    } else if (hint->kind != VALUE_UNKNOWN) {
        text_printf(out, "%s %s", functions[hint->kind], hint->words);
    }
}

// A description within '...[...]' or '...:...'.
static void zsh_described(struct text *out, const char *text) {
    for (; *text; text++)
        if (*text == '\'')
            text_add(out, "'\\''");
        else
            add_escaped(out, (const char[]){*text, '\0'}, "[]:\\", "\\");
}

static void zsh_command(const struct command *command, struct text *out) {
    struct value_hint arguments = value_hint_of_arguments(command);
    text_printf(out, "        %s)\n            _arguments -s", command->name);
    for (size_t i = 0; i < command_option_count(command); i++) {
        const struct option *option = command_option(command, i);
        text_printf(out, " \\\n                '%s%s[", option->repeats ? "*" : "", option->name);
        zsh_described(out, option->help);
        text_add(out, "]");
        if (needs_value(option)) {
            struct value_hint hint = value_hint_of_option(command, option);
            text_printf(out, ":%s:", option->argument);
            zsh_action(&hint, out);
        }
        text_add(out, "'");
    }
    if (arguments.kind != VALUE_UNKNOWN) {
        text_printf(out, " \\\n                '%s:%s:", command->arguments_most > 1 ? "*" : "", arguments.option);
        zsh_action(&arguments, out);
        text_add(out, "'");
    }
    text_add(out, "\n            ;;\n");
}

static void write_zsh(struct text *out) {
    text_add(out, zsh_head);
    text_add(out, "_mildsolve() {\n    local context state state_descr line\n    typeset -A opt_args\n"
                  "    _arguments -C '1:command:->command' '*::argument:->rest'\n    case $state in\n    command)\n"
                  "        local -a commands=(\n");
    for (size_t i = 0; i < command_count; i++) {
        text_printf(out, "            '%s:", commands[i]->name);
        zsh_described(out, commands[i]->summary);
        text_add(out, "'\n");
    }
    text_add(out, "            '--help:this text'\n            '--version:the version'\n        )\n"
                  "        _describe command commands\n        ;;\n    rest)\n        case $words[1] in\n");
    for (size_t i = 0; i < command_count; i++)
        zsh_command(commands[i], out);
    text_add(out, "        esac\n        ;;\n    esac\n}\n\n_mildsolve \"$@\"\n");
}

// --- fish ---

static const char fish_head[] =
    "# fish completion of mildsolve. Written by `mildsolve --completion fish` from its tables of commands.\n"
    "\n"
    "function __mildsolve_is --description 'the command on the line is one of these; none = there is no command yet'\n"
    "    set -l words (commandline -opc)\n"
    "    if test (count $argv) -eq 0\n"
    "        test (count $words) -eq 1\n"
    "    else\n"
    "        test (count $words) -gt 1; and contains -- $words[2] $argv\n"
    "    end\n"
    "end\n"
    "\n"
    "function __mildsolve_names --description 'names from the tables, of the case and the directories on the line "
    "too'\n"
    "    set -l words (commandline -opc)\n"
    "    set -l more\n"
    "    for i in (seq (math (count $words) - 1))\n"
    "        if contains -- $words[$i] --case --data\n"
    "            set more $more $words[$i] $words[(math $i + 1)]\n"
    "        end\n"
    "    end\n"
    "    command $words[1] --names $argv[1] $more 2>/dev/null\n"
    "end\n"
    "\n"
    "function __mildsolve_last --description 'the last of several names: SEPARATOR KIND'\n"
    "    set -l token (commandline -ct | string trim --left --chars '\"\\'')\n"
    "    set -l head (string match --regex \"^.*[$argv[1]] *\" -- $token)\n"
    "    for name in (__mildsolve_names $argv[2])\n"
    "        echo -- \"$head$name\"\n"
    "    end\n"
    "end\n"
    "\n"
    "complete -c mildsolve -f\n"
    "complete -c mildsolve -n __mildsolve_is -l help -d 'this text'\n"
    "complete -c mildsolve -n __mildsolve_is -l version -d 'the version'\n";

static void fish_text(struct text *out, const char *text) {
    text_add(out, "'");
    add_escaped(out, text, "'\\", "\\");
    text_add(out, "'");
}

// The flags and candidates of `complete` for a value.
static void fish_value(const struct value_hint *hint, bool of_option, struct text *out) {
    const char *exclusive = of_option ? " -x" : " -f";
    if (hint->kind == VALUE_FILE)
        text_add(out, of_option ? " -r -F" : " -F");
    else if (hint->kind == VALUE_DIRECTORY)
        text_printf(out, "%s -a '(__fish_complete_directories)'", exclusive);
    else if (hint->kind == VALUE_NAME)
        text_printf(out, "%s -a '(__mildsolve_names %s)'", exclusive, hint->words);
    else if (hint->kind == VALUE_LIST)
        text_printf(out, "%s -a '(__mildsolve_last , %s)'", exclusive, hint->words);
    else if (hint->kind == VALUE_BLEND)
        text_printf(out, "%s -a '(__mildsolve_last + %s)'", exclusive, hint->words);
    else if (hint->kind == VALUE_WORDS) {
        text_printf(out, "%s -a '", exclusive);
        const char *at = hint->words, *word;
        for (size_t length, i = 0; (length = value_hint_word(&at, &word)) > 0; i++) {
            text_printf(out, i ? " \"" : "\"");
            text_add_n(out, word, length);
            text_add(out, "\"");
        }
        text_add(out, "'");
    } else {
        text_add(out, exclusive);
    }
}

static void fish_command(const struct command *command, struct text *out) {
    struct value_hint arguments = value_hint_of_arguments(command);
    text_printf(out, "\ncomplete -c mildsolve -n __mildsolve_is -a %s -d ", command->name);
    fish_text(out, command->summary);
    text_add(out, "\n");
    for (size_t i = 0; i < command_option_count(command); i++) {
        const struct option *option = command_option(command, i);
        struct value_hint hint = value_hint_of_option(command, option);
        text_printf(out, "complete -c mildsolve -n '__mildsolve_is %s' -l %s", command->name, option->name + 2);
        if (needs_value(option))
            fish_value(&hint, true, out);
        text_add(out, " -d ");
        fish_text(out, option->help);
        text_add(out, "\n");
    }
    if (arguments.kind == VALUE_UNKNOWN)
        return;
    text_printf(out, "complete -c mildsolve -n '__mildsolve_is %s'", command->name);
    fish_value(&arguments, false, out);
    text_add(out, "\n");
}

static void write_fish(struct text *out) {
    text_add(out, fish_head);
    for (size_t i = 0; i < command_count; i++)
        fish_command(commands[i], out);
}

void completion_write(enum completion_shell shell, struct text *out) {
    static void (*const writers[])(struct text *) = {write_bash, write_zsh, write_fish};
    writers[shell](out);
}
