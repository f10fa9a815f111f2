// SPDX-License-Identifier: GPL-3.0-or-later
// What follows from the statements for the label: signal word, pictograms, precautions, names of components.
#include "base/language.h"
#include "physics/classification_parts.h"

#include <string.h>

// --- statements that another one covers ---

// Annex III, order of precedence for labelling.
static void leave_off(struct classification *ret, const char *code, const char *covered_by, const char *why) {
    if (!classification_has(ret, covered_by))
        return;
    for (size_t i = 0; i < ret->count; i++)
        if (strcmp(ret->statements[i].code, code) == 0)
            ret->statements[i].left_off = say(why);
}

// --- pictograms ---

static bool has_class(const struct classification *ret, enum hazard_class class, int pictogram) {
    for (size_t i = 0; i < ret->count; i++) {
        const struct hazard_code *kind = ret->statements[i].kind;
        if (kind && kind->class == class && kind->pictogram == pictogram)
            return true;
    }
    return false;
}

static bool is_acute(enum hazard_class class) {
    return class == CLASS_ACUTE_ORAL || class == CLASS_ACUTE_DERMAL || class == CLASS_ACUTE_INHALATION;
}

// Art. 26(1): the skull replaces the exclamation mark altogether (HCS C.2.1.2: for acute toxicity); corrosion replaces
// it for skin and eye irritation; the health hazard of a respiratory sensitiser for skin allergy and irritation.
static bool mark_stands(const struct classification *ret, const struct hazard_code *kind, bool skull) {
    bool contact = kind->class == CLASS_SKIN || kind->class == CLASS_EYE;
    bool corrosive = has_class(ret, CLASS_SKIN, 5) || has_class(ret, CLASS_EYE, 5);
    bool airways = has_class(ret, CLASS_RESPIRATORY_SENSITISER, 8);
    if (skull && (ret->rules == RULES_EU_CLP || is_acute(kind->class)))
        return false;
    if (contact && (corrosive || airways))
        return false;
    return !(kind->class == CLASS_SKIN_SENSITISER && airways);
}

static void choose_pictograms(struct classification *ret) {
    for (size_t i = 0; i < ret->count; i++)
        if (ret->statements[i].kind && ret->statements[i].kind->pictogram != 7)
            ret->pictograms[ret->statements[i].kind->pictogram] = true;
    ret->pictograms[0] = false; // codes without a pictogram
    for (size_t i = 0; i < ret->count; i++) {
        const struct hazard_code *kind = ret->statements[i].kind;
        if (kind && kind->pictogram == 7 && mark_stands(ret, kind, ret->pictograms[6]))
            ret->pictograms[7] = true;
    }
}

static void choose_signal(struct classification *ret) {
    for (size_t i = 0; i < ret->count; i++)
        if (ret->statements[i].kind && ret->statements[i].kind->signal > ret->signal)
            ret->signal = ret->statements[i].kind->signal;
}

// --- precautions ---

// At most six (Art. 28(3)). Own rule of choice: the list below from the top, first what prevents the gravest accident
// at the easel (fire, swallowing, breathing, skin and eyes), then first aid, then water, storage and waste. Each is one
// that Annex IV (HCS App. C) gives for one of the codes named behind it. Of two on the same matter the stricter stands.
struct precaution {
    const char *code;
    const char *codes;   // of the statements that call for it, by four figures
    const char *instead; // not together with this one, or NULL
};

static const struct precaution precautions[] = {
    {"P210", "H224 H225 H226 H227", NULL},
    {"P301+P310", "H300 H301 H304", NULL},
    {"P331", "H304", NULL},
    {"P301+P330+P331", "H314", "P331"},
    {"P260", "H314 H330 H370 H371 H372 H373", NULL},
    {"P261", "H331 H332 H334 H317 H335 H336", "P260"},
    {"P280", "H224 H225 H226 H227 H310 H311 H312 H314 H315 H317 H318 H319 H340 H341 H350 H351 H360 H361", NULL},
    {"P305+P351+P338", "H314 H318 H319 H320", NULL},
    {"P201", "H340 H341 H350 H351 H360 H361 H362", NULL},
    {"P308+P311", "H370 H371", NULL},
    {"P308+P313", "H340 H341 H350 H351 H360 H361 H362", "P308+P311"},
    {"P304+P340", "H314 H330 H331 H332 H334 H335 H336", NULL},
    {"P303+P361+P353", "H224 H225 H226 H314", NULL},
    {"P302+P352", "H310 H311 H312 H315 H317", "P303+P361+P353"},
    {"P271", "H330 H331 H332 H335 H336", NULL},
    {"P273", "H400 H410 H411 H412 H413", NULL},
    {"P391", "H400 H410 H411", NULL},
    {"P270", "H300 H301 H302 H310 H370 H371 H372", NULL},
    {"P264", "H300 H301 H302 H310 H314 H315 H318 H319 H370 H371 H372", NULL},
    {"P403+P235", "H224 H225 H226 H227", NULL},
    {"P403+P233", "H330 H331 H335 H336", "P403+P235"},
    {"P370+P378", "H224 H225 H226 H227", NULL},
    {"P405", "H300 H301 H304 H310 H311 H314 H330 H331 H340 H341 H350 H351 H360 H361 H370 H371", NULL},
    {"P501",
     "H224 H225 H226 H227 H300 H301 H302 H304 H310 H311 H312 H314 H317 H330 H331 H340 H341 H350 H351 H360 H361 "
     "H370 H371 H372 H373 H400 H410 H411 H412 H413",
     NULL},
    {"P502", "H420", NULL},
};

static bool is_called_for(const struct classification *ret, const struct precaution *precaution) {
    for (size_t i = 0; i < ret->count; i++)
        if (ret->statements[i].kind && strstr(precaution->codes, ret->statements[i].kind->code))
            return true;
    return false;
}

static bool is_chosen(const struct classification *ret, const char *code) {
    for (size_t i = 0; code && i < ret->precaution_count; i++)
        if (strcmp(ret->precautions[i], code) == 0)
            return true;
    for (size_t i = 0; code && i < ret->precaution_more_count; i++)
        if (strcmp(ret->precautions_more[i], code) == 0)
            return true;
    return false;
}

static void choose_precautions(struct classification *ret) {
    for (size_t i = 0; i < sizeof precautions / sizeof precautions[0]; i++) {
        if (!is_called_for(ret, &precautions[i]) || is_chosen(ret, precautions[i].instead))
            continue;
        if (ret->precaution_count < PRECAUTIONS_MAX)
            ret->precautions[ret->precaution_count++] = precautions[i].code;
        else
            ret->precautions_more[ret->precaution_more_count++] = precautions[i].code;
    }
}

// --- names ---

// Art. 18(3)(b): what leads to acute toxicity, corrosion or eye damage, effects on genes, cancer, reproduction,
// allergy, target organs or aspiration; four names as a rule suffice. The gravest first, then the larger share.
static const char *const named_for[] = {
    "H300", "H310", "H330", "H301", "H311", "H331", "H350", "H340",   "H360", "H370", "H372", "H314", "H334", "H318",
    "H304", "H351", "H341", "H361", "H371", "H373", "H317", "EUH208", "H302", "H312", "H332", "H335", "H336", "H362"};

static bool is_named(const struct classification *ret, size_t i) {
    for (size_t k = 0; k < ret->named_count; k++)
        if (ret->named[k] == i)
            return true;
    return false;
}

static void name_largest_first(struct mixing *mix, uint32_t from) {
    struct classification *ret = mix->ret;
    for (;;) {
        size_t best = mix->input->count;
        for (size_t i = 0; i < mix->input->count; i++)
            if (from & UINT32_C(1) << i && !is_named(ret, i) &&
                (best == mix->input->count || mix->input->mass_fractions[i] > mix->input->mass_fractions[best]))
                best = i;
        if (best == mix->input->count || ret->named_count == NAMED_MAX)
            return;
        ret->named[ret->named_count++] = best;
    }
}

static void choose_names(struct mixing *mix) {
    for (size_t k = 0; k < sizeof named_for / sizeof named_for[0]; k++)
        for (size_t i = 0; i < mix->ret->count; i++)
            if (mix->ret->statements[i].kind && strcmp(mix->ret->statements[i].kind->code, named_for[k]) == 0)
                name_largest_first(mix, mix->ret->statements[i].from);
}

void choose_label(struct mixing *mix) {
    struct classification *ret = mix->ret;
    leave_off(ret, "H400", "H410", "covered by H410 (Annex III)");
    leave_off(ret, "H318", "H314", "covered by H314 (Annex III)");
    choose_signal(ret);
    choose_pictograms(ret);
    choose_precautions(ret);
    choose_names(mix);
}
