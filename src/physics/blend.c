// SPDX-License-Identifier: GPL-3.0-or-later
#include "physics/blend.h"

#include "base/language.h"
#include "base/print_words.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

enum { NAME_BYTES = 160 };

// --- from bottles to components ---

size_t bottle_composition(const struct library *lib, const struct bottle_ref *bottle,
                          const struct component *ret_components[BLEND_COMPONENTS_MAX],
                          double ret_fractions[BLEND_COMPONENTS_MAX]) {
    if (bottle->component) {
        ret_components[0] = bottle->component;
        ret_fractions[0] = 1;
        return 1;
    }
    const struct bottle_part *parts = bottle->bottle->composition.items;
    size_t count = bottle->bottle->composition.count;
    if (count > BLEND_COMPONENTS_MAX)
        count = BLEND_COMPONENTS_MAX;
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += parts[i].percent;
    size_t found = 0;
    for (size_t i = 0; i < count; i++) {
        enum status status = library_component(lib, parts[i].component, &ret_components[found], NULL);
        if (status == STATUS_OK)
            ret_fractions[found++] = parts[i].percent / sum;
    }
    return found;
}

static size_t component_slot(struct blend *blend, const struct component *component) {
    for (size_t i = 0; i < blend->count; i++)
        if (blend->components[i] == component)
            return i;
    return blend->count;
}

static enum status add_bottle(const struct library *lib, struct blend *blend, const struct blend_part *part,
                              double share, struct error *err) {
    const struct component *components[BLEND_COMPONENTS_MAX];
    double fractions[BLEND_COMPONENTS_MAX];
    size_t count = bottle_composition(lib, &part->bottle, components, fractions);
    for (size_t i = 0; i < count; i++) {
        size_t slot = component_slot(blend, components[i]);
        if (slot == BLEND_COMPONENTS_MAX)
            return error_set(err, STATUS_INPUT, "more than %d different components in one blend", BLEND_COMPONENTS_MAX);
        if (slot == blend->count) {
            blend->components[slot] = components[i];
            blend->volume_fractions[slot] = 0;
            blend->count++;
        }
        blend->volume_fractions[slot] += share * fractions[i];
    }
    return STATUS_OK;
}

static enum status check_parts(const struct blend_part *parts, size_t count, struct error *err) {
    if (count == 0)
        return error_set(err, STATUS_INPUT, "a blend of nothing; write for example \"propan-2-ol 30 + isooctane 70\"");
    if (count > BLEND_BOTTLES_MAX)
        return error_set(err, STATUS_INPUT, "more than %d bottles in one blend", BLEND_BOTTLES_MAX);
    for (size_t i = 0; i < count; i++) {
        if (!(parts[i].parts > 0) || !isfinite(parts[i].parts))
            return error_set(err, STATUS_INPUT, "%g parts of %s; parts by volume are positive numbers", parts[i].parts,
                             bottle_ref_id(&parts[i].bottle));
        for (size_t j = 0; j < i; j++)
            if (bottle_ref_same(&parts[i].bottle, &parts[j].bottle))
                return error_set(err, STATUS_INPUT, "%s stands twice in the blend; add its parts together",
                                 bottle_ref_id(&parts[i].bottle));
    }
    return STATUS_OK;
}

enum status blend_make(const struct library *lib, const struct blend_part *parts, size_t count, struct blend *ret,
                       struct error *err) {
    enum status status = check_parts(parts, count, err);
    if (status != STATUS_OK)
        return status;
    struct blend blend = {.part_count = count};
    double sum = 0;
    for (size_t i = 0; i < count; i++)
        sum += parts[i].parts;
    if (!isfinite(sum))
        return error_set(err, STATUS_INPUT,
                         "the parts add up to more than a number can hold; use parts such as 30 and 70");
    for (size_t i = 0; i < count; i++) {
        blend.parts[i] = parts[i];
        status = add_bottle(lib, &blend, &parts[i], parts[i].parts / sum, err);
        if (status != STATUS_OK)
            return status;
    }
    *ret = blend;
    return STATUS_OK;
}

// --- notation ---

struct token {
    char name[NAME_BYTES];
    char number[NAME_BYTES];
};

static bool is_space(char c) {
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

static void trim(const char **start, const char **end) {
    while (*start < *end && is_space(**start))
        (*start)++;
    while (*end > *start && is_space((*end)[-1]))
        (*end)--;
}

static bool looks_like_number(char c) {
    return (c >= '0' && c <= '9') || c == '.' || c == ',' || c == '-' || c == '+' || c == ':' || c == '/';
}

// The last word is the number of parts when it begins like a number: "acetone 30", "acetone 30%", "acetone 30 mL".
static void split_number(const char **start, const char **end, struct token *token) {
    const char *stop = *end;
    static const char *const suffixes[] = {"mL", "ml", "ML", "%", "parts", "part"};
    for (size_t i = 0; i < sizeof suffixes / sizeof suffixes[0]; i++) {
        size_t length = strlen(suffixes[i]);
        if ((size_t)(stop - *start) > length && strncmp(stop - length, suffixes[i], length) == 0) {
            const char *before = stop - length;
            const char *word = before;
            while (word > *start && is_space(word[-1]))
                word--;
            if (word > *start && word[-1] >= '0' && word[-1] <= '9') {
                stop = word;
                break;
            }
        }
    }
    const char *number = stop;
    while (number > *start && !is_space(number[-1]))
        number--;
    if (number == *start || !looks_like_number(*number))
        return;
    snprintf(token->number, sizeof token->number, "%.*s", (int)(stop - number), number);
    *end = number;
    trim(start, end);
}

static enum status read_parts(const char *number, const char *name, double *ret, struct error *err) {
    if (strchr(number, ':') || strchr(number, '/'))
        return error_set(err, STATUS_INPUT,
                         "'%s %s': ratios are written with the parts behind each name: \"toluene 60 + acetone 40\"",
                         name, number);
    char typed[SCHEMA_NUMBER_BYTES];
    if (schema_number_with_comma(number, typed))
        return error_set(err, STATUS_INPUT, "'%s %s': write the decimal point: \"%s %s\"", name, number, name, typed);
    double parts;
    if (!schema_number(number, &parts))
        return error_set(err, STATUS_INPUT, "'%s %s': '%s' is not a number of parts; write for example \"%s 30\"", name,
                         number, number, name);
    if (!(parts > 0))
        return error_set(err, STATUS_INPUT, "'%s %s': parts by volume must be above zero", name, number);
    *ret = parts;
    return STATUS_OK;
}

static enum status ratio_refused(const char *piece, struct error *err) {
    return error_set(err, STATUS_INPUT,
                     "'%.80s': names are joined with '+' and each has its parts behind it: \"toluene 60 + acetone 40\"",
                     piece);
}

// Bytes of a number with a point or comma, where a figure stands behind the comma: not that of "75, acetone".
static size_t figures_at(const char *at) {
    size_t length = strspn(at, "0123456789.");
    if (length && at[length] == ',' && at[length + 1] >= '0' && at[length + 1] <= '9')
        length += 1 + strspn(at + length + 1, "0123456789");
    return length;
}

// "75 toluene": the number stands before a known name.
static bool number_first(const struct library *lib, const char *piece, const char **ret_name,
                         char ret_number[NAME_BYTES]) {
    size_t digits = figures_at(piece);
    const char *name = piece + digits + strspn(piece + digits, "% ");
    if (digits == 0 || *name == '\0' || !library_knows_bottle(lib, name))
        return false;
    *ret_name = name;
    snprintf(ret_number, NAME_BYTES, "%.*s", (int)digits, piece);
    char *comma = strchr(ret_number, ',');
    if (comma)
        *comma = '.';
    return true;
}

// "toluene 75 acetone 25" or "toluene 75, acetone 25": a known name, a number, and more.
static bool lacks_plus(const struct library *lib, const char *piece) {
    for (const char *space = strchr(piece, ' '); space; space = strchr(space + 1, ' ')) {
        const char *number = space + 1;
        char name[NAME_BYTES];
        if (*number < '0' || *number > '9' || space - piece >= NAME_BYTES)
            continue;
        snprintf(name, sizeof name, "%.*s", (int)(space - piece), piece);
        const char *more = number + figures_at(number);
        more += strspn(more, "%");
        more += strspn(more, ", ;&");
        if (library_knows_bottle(lib, name) && *more)
            return true;
    }
    return false;
}

// A name that is not known may be a slip of notation; then the right spelling helps more than the nearest names.
static enum status unknown_piece(const struct library *lib, const char *piece, enum status status, struct error *err) {
    const char *name = NULL;
    char number[NAME_BYTES];
    if (strchr(piece, ':') || lacks_plus(lib, piece))
        return ratio_refused(piece, err);
    if (number_first(lib, piece, &name, number))
        return error_set(err, STATUS_INPUT, "'%.80s': the parts stand behind the name: \"%.80s %.40s\"", piece, name,
                         number);
    return status;
}

// A name that is a bottle's other name with the number read as parts: "ethanol 96" next to the bottle ethanol-96.
static void note_ambiguity(const struct library *lib, const struct token *token, char *ret_note) {
    char joined[2 * NAME_BYTES + 2];
    snprintf(joined, sizeof joined, "%s-%s", token->name, token->number);
    struct bottle_ref ref;
    if (ret_note && token->number[0] && library_bottle(lib, joined, &ref, NULL) == STATUS_OK)
        print_words(ret_note, BLEND_NOTE_SIZE, "'%s %s' is read as %s parts of %s; the bottle %s is written '%s'",
                    token->name, token->number, token->number, token->name, bottle_ref_name(&ref), bottle_ref_id(&ref));
}

static enum status parse_piece(const struct library *lib, const char *start, const char *end, struct blend_part *ret,
                               char *ret_note, struct error *err) {
    struct token token = {0};
    trim(&start, &end);
    if (start == end)
        return error_set(err, STATUS_INPUT,
                         "an empty part in the blend (two '+' or one at an end); write for example "
                         "\"propan-2-ol 30 + isooctane 70\"");
    if (end - start >= NAME_BYTES)
        return error_set(err, STATUS_INPUT, "a name of more than %d bytes in the blend", NAME_BYTES - 1);
    char whole[NAME_BYTES];
    snprintf(whole, sizeof whole, "%.*s", (int)(end - start), start);
    split_number(&start, &end, &token);
    snprintf(token.name, sizeof token.name, "%.*s", (int)(end - start), start);
    double parts = 1;
    // "petroleum ether 40-60" ends like a number but is a name; "ethanol 96" stays 96 parts of ethanol.
    double plain;
    if (token.number[0] && !schema_number(token.number, &plain) && library_knows_bottle(lib, whole)) {
        snprintf(token.name, sizeof token.name, "%s", whole);
        token.number[0] = '\0';
    }
    if (strchr(token.number, ',') && lacks_plus(lib, whole))
        return ratio_refused(whole, err);
    if (token.number[0]) {
        enum status status = read_parts(token.number, token.name, &parts, err);
        if (status != STATUS_OK)
            return status;
    }
    struct bottle_ref bottle;
    enum status status = library_bottle(lib, token.name, &bottle, err);
    if (status != STATUS_OK)
        return unknown_piece(lib, whole, status, err);
    note_ambiguity(lib, &token, ret_note);
    *ret = (struct blend_part){.bottle = bottle, .parts = parts};
    return STATUS_OK;
}

// '+' separates only between spaces or at word ends, so that a name may not hold one; no name of ours does.
enum status blend_parse(const struct library *lib, const char *notation, struct blend *ret,
                        char ret_note[BLEND_NOTE_SIZE], struct error *err) {
    struct blend_part parts[BLEND_BOTTLES_MAX];
    size_t count = 0;
    if (ret_note)
        ret_note[0] = '\0';
    if (notation[strspn(notation, " \t\r\n")] == '\0')
        return error_set(err, STATUS_INPUT, "a blend of nothing; write for example \"propan-2-ol 30 + isooctane 70\"");
    for (const char *start = notation;; count++) {
        const char *end = strchr(start, '+');
        const char *stop = end ? end : start + strlen(start);
        if (count == BLEND_BOTTLES_MAX)
            return error_set(err, STATUS_INPUT, "more than %d bottles in one blend", BLEND_BOTTLES_MAX);
        enum status status = parse_piece(lib, start, stop, &parts[count], ret_note, err);
        if (status != STATUS_OK)
            return status;
        if (!end)
            break;
        start = end + 1;
    }
    count++;
    return blend_make(lib, parts, count, ret, err);
}

double blend_sum_of_parts(const struct blend *blend) {
    double sum = 0;
    for (size_t i = 0; i < blend->part_count; i++)
        sum += blend->parts[i].parts;
    return sum;
}

// Whole percentages where they are whole; otherwise as few digits as give the number back.
// Can all parts times `factor` be written with two decimals?
static bool parts_are_short(const struct blend *blend, double factor) {
    for (size_t i = 0; i < blend->part_count; i++) {
        double hundredths = 100 * factor * blend->parts[i].parts;
        if (fabs(hundredths - round(hundredths)) > 1e-6 * hundredths)
            return false;
    }
    return true;
}

void blend_write(const struct blend *blend, struct text *out) {
    double percent = 100 / blend_sum_of_parts(blend);
    double factor = parts_are_short(blend, percent) || !parts_are_short(blend, 1) ? percent : 1;
    for (size_t i = 0; i < blend->part_count; i++)
        text_printf(out, "%s%s %.6g", i ? " + " : "", bottle_ref_id(&blend->parts[i].bottle),
                    factor * blend->parts[i].parts);
}

// --- other fractions ---

static enum status weighted_fractions(const struct blend *blend, double (*weight)(const struct component *),
                                      bool by_mass, double *ret, struct error *err) {
    double weights[BLEND_COMPONENTS_MAX];
    double sum = 0;
    for (size_t i = 0; i < blend->count; i++) {
        weights[i] = weight(blend->components[i]);
        if (!(weights[i] > 0))
            return error_set(err, STATUS_NO_DATA,
                             by_mass ? N_("no density is known for '%s'; put density_20c into your own properties.yaml")
                                     : N_("no molar volume is known for '%s'; put molar_volume into your own "
                                          "components.yaml"),
                             blend->components[i]->id);
        sum += blend->volume_fractions[i] * weights[i];
    }
    for (size_t i = 0; i < blend->count; i++)
        ret[i] = blend->volume_fractions[i] * weights[i] / sum;
    return STATUS_OK;
}

static double moles_per_cm3(const struct component *component) {
    return 1 / component->molar_volume.value;
}

static double grams_per_cm3(const struct component *component) {
    return component->properties ? component->properties->density_20c.value : NAN;
}

enum status blend_mole_fractions(const struct blend *blend, double ret_x[BLEND_COMPONENTS_MAX], struct error *err) {
    return weighted_fractions(blend, moles_per_cm3, false, ret_x, err);
}

enum status blend_mass_fractions(const struct blend *blend, double ret_w[BLEND_COMPONENTS_MAX], struct error *err) {
    return weighted_fractions(blend, grams_per_cm3, true, ret_w, err);
}
