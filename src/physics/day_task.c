// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/day_task.h"

#include "base/text.h"
#include "data/schema.h"

#include <math.h>
#include <string.h>

const char *const day_method_words[] = {"swab", "brush", "spray", "gel", NULL};

static const char example[] = "9:00-11:30 swab 20 mL/h of toluene 1 + acetone 1";

// A barrel an hour; beyond it a unit was mistaken.
static const double most_ml_h = 100000;
static const double most_cm2 = 1e6;

enum { WORD_BYTES = 48 };

struct reading {
    const char *words; // all of them, for the error
    const char *at;    // what is not read yet
};

// The next word; "" at the end. Words that are too long come cut, and match nothing.
static void next_word(struct reading *reading, char ret_word[WORD_BYTES]) {
    size_t length = 0;
    while (*reading->at == ' ')
        reading->at++;
    for (; *reading->at && *reading->at != ' '; reading->at++)
        if (length + 1 < WORD_BYTES)
            ret_word[length++] = *reading->at;
    ret_word[length] = '\0';
}

static bool take_word(struct reading *reading, const char *word) {
    struct reading ahead = *reading;
    char next[WORD_BYTES];
    next_word(&ahead, next);
    if (strcmp(next, word) != 0)
        return false;
    *reading = ahead;
    return true;
}

// --- times ---

bool day_time_read(const char *words, size_t length, double *ret_h) {
    int hours = 0, minutes = 0;
    size_t at = 0;
    for (; at < length && at < 2 && words[at] >= '0' && words[at] <= '9'; at++)
        hours = hours * 10 + (words[at] - '0');
    if (at == 0 || length != at + 3 || words[at] != ':')
        return false;
    for (at++; at < length && words[at] >= '0' && words[at] <= '9'; at++)
        minutes = minutes * 10 + (words[at] - '0');
    if (at != length || minutes > 59 || hours * 60 + minutes > 24 * 60)
        return false;
    *ret_h = hours + minutes / 60.0;
    return true;
}

static enum status read_times(struct reading *reading, struct day_task *task, struct error *err) {
    char word[WORD_BYTES];
    next_word(reading, word);
    const char *dash = strchr(word, '-');
    bool right = dash && day_time_read(word, (size_t)(dash - word), &task->from_h) &&
                 day_time_read(dash + 1, strlen(dash + 1), &task->to_h);
    if (!right)
        return error_set(
            err, STATUS_USAGE,
            "task '%.60s': two times of one day stand first, from 0:00 to 24:00 and with no space between them, not "
            "'%s'; for example: %s",
            reading->words, word, example);
    if (!(task->to_h > task->from_h))
        return error_set(err, STATUS_USAGE, "task '%.60s' ends no later than it begins; a task stays within one day",
                         reading->words);
    return STATUS_OK;
}

// --- method and amounts ---

static enum status read_method(struct reading *reading, struct day_task *task, struct error *err) {
    char word[WORD_BYTES];
    next_word(reading, word);
    for (int i = 0; day_method_words[i]; i++)
        if (strcmp(word, day_method_words[i]) == 0) {
            task->method = (enum day_method)i;
            return STATUS_OK;
        }
    return error_set(err, STATUS_USAGE,
                     "task '%.60s': behind the times stands the method, one of swab, brush, spray, gel, not '%s'; for "
                     "example: %s",
                     reading->words, word, example);
}

// "20 mL/h" or "20mL/h": number and unit, the unit in ret_unit.
static bool read_amount(struct reading *reading, double *ret_value, char ret_unit[WORD_BYTES]) {
    char word[WORD_BYTES], digits[WORD_BYTES];
    next_word(reading, word);
    size_t length = strspn(word, "0123456789.");
    memcpy(digits, word, length);
    digits[length] = '\0';
    if (word[length])
        memmove(ret_unit, word + length, strlen(word + length) + 1);
    else
        next_word(reading, ret_unit);
    return schema_number(digits, ret_value);
}

static enum status read_use(struct reading *reading, struct day_task *task, struct error *err) {
    char unit[WORD_BYTES];
    double amount = NAN;
    bool number = read_amount(reading, &amount, unit);
    bool hourly = strcmp(unit, "mL/h") == 0 || strcmp(unit, "ml/h") == 0;
    bool whole = strcmp(unit, "mL") == 0 || strcmp(unit, "ml") == 0;
    if (!number || !(hourly || whole))
        return error_set(err, STATUS_USAGE,
                         "task '%.60s': behind the method stands how much is used, as 20 mL/h or 60 mL (with a decimal "
                         "point); for example: %s",
                         reading->words, example);
    task->use_ml_h = hourly ? amount : amount / (task->to_h - task->from_h);
    if (!(task->use_ml_h > 0) || task->use_ml_h > most_ml_h)
        return error_set(err, STATUS_USAGE, "task '%.60s': %g mL in an hour; above 0 and up to %g is expected",
                         reading->words, task->use_ml_h, most_ml_h);
    return STATUS_OK;
}

static enum status read_surface(struct reading *reading, struct day_task *task, struct error *err) {
    char unit[WORD_BYTES];
    task->wet_cm2 = NAN;
    if (!take_word(reading, "on"))
        return STATUS_OK;
    if (!read_amount(reading, &task->wet_cm2, unit) || strcmp(unit, "cm2") != 0 || !(task->wet_cm2 > 0) ||
        task->wet_cm2 > most_cm2)
        return error_set(err, STATUS_USAGE,
                         "task '%.60s': behind 'on' stands the wet surface, as 200 cm2, above 0 and up to %g",
                         reading->words, most_cm2);
    return STATUS_OK;
}

static enum status read_blend_words(struct reading *reading, struct day_task *task, struct error *err) {
    task->blend = NULL;
    char word[WORD_BYTES];
    struct reading ahead = *reading;
    next_word(&ahead, word);
    if (!word[0])
        return STATUS_OK;
    if (!take_word(reading, "of"))
        return error_set(err, STATUS_USAGE, "task '%.60s': 'of' and a blend, or nothing, is expected at '%s'",
                         reading->words, word);
    while (*reading->at == ' ')
        reading->at++;
    task->blend = reading->at;
    return *reading->at ? STATUS_OK
                        : error_set(err, STATUS_USAGE, "task '%.60s': behind 'of' stands a blend", reading->words);
}

enum status day_task_parse(const char *words, struct day_task *ret, struct error *err) {
    struct reading reading = {words, words};
    struct day_task task = {0};
    enum status status = read_times(&reading, &task, err);
    if (status == STATUS_OK)
        status = read_method(&reading, &task, err);
    if (status == STATUS_OK)
        status = read_use(&reading, &task, err);
    if (status == STATUS_OK)
        status = read_surface(&reading, &task, err);
    if (status == STATUS_OK)
        status = read_blend_words(&reading, &task, err);
    if (status == STATUS_OK)
        *ret = task;
    return status;
}
