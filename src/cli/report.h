// SPDX-License-Identifier: GPL-3.0-or-later
// The report of a case: from the answers of the other commands to one document.
#ifndef MILDSOLVE_CLI_REPORT_H
#define MILDSOLVE_CLI_REPORT_H

#include "casefile/casefile.h"
#include "cli/assessing.h"
#include "cli/sensitive.h"
#include "cli/values.h"
#include "physics/evaporation.h"
#include "physics/film.h"
#include "physics/place.h"
#include "physics/recipe.h"
#include "present/chart/canvas.h"
#include "present/document/document.h"

// An answer that may be lacking, and then why.
struct report_answer {
    bool there;
    struct error why;
};

// One of the replacements that the case asks for.
struct report_replacement {
    const struct case_replacement *asked;
    struct replacing *replacing; // replace.h
    struct report_answer answer;
};

enum { REPORT_MATERIALS_MAX = 16 };

struct report_material {
    const struct material *material;   // the stand-in where the asked one has no region
    const struct material *stands_for; // NULL = itself
    bool remove;
    struct material_place place;
    struct film_result film;
};

struct report {
    struct invocation *inv;
    const struct casefile *file;
    const struct canvas *canvas; // NULL = no pictures
    struct document *document;
    struct date as_of;
    double volume_ml; // of the batch in the recipe
    // The chosen blend, and what the commands say of it.
    const char *notation;                // NULL = there is none
    const struct case_decision *decided; // that named it, NULL = the last test that stands
    const struct case_test *tested;
    struct blend blend;
    struct unifac_table groups;
    struct recipe recipe;
    struct report_answer has_recipe;
    struct hansen hansen;
    struct teas teas; // volume mean of fractions
    struct phase_judgement phase;
    struct report_answer has_phase;
    struct report_material materials[REPORT_MATERIALS_MAX];
    size_t material_count;
    struct evaporation drying;
    struct report_answer has_drying;
    struct assessing *air;                    // of `exposure`
    const struct exposure_judgement *judged;  // the set asked for, or the strictest
    const struct exposure_judgement *decides; // the set that says how much may be used
    struct report_answer has_air;
    struct report_label *label; // report_label.h
    struct report_answer has_label;
    // The list.
    struct film_answer *ranking; // gentlest.h
    struct report_answer has_ranking;
    struct sensitive_passages sensitive;
    struct learning *learning; // learn.h
    struct report_answer has_learning;
    struct ladder_answer *ladder; // ladder.h
    struct report_answer has_ladder;
    struct layers_answer *planned; // layers.h; NULL = nothing is planned
    struct report_answer has_planned;
    struct report_replacement *replacements;
    size_t replacement_count;
    struct cited cited;
};

// Asks everything; what cannot be answered is noted with its reason and ends nothing. STATUS_MEMORY,
// STATUS_INTERRUPTED.
enum status report_ask(struct report *report, struct error *err);
void report_release(struct report *report);

// Another command's invocation with the defaults of the case, its answer and talk thrown away; NULL = out of memory.
// *ret_status: as case_option_fill. `figure`: as if a chart had been asked for.
struct invocation *report_call(const struct report *report, const struct command *command, bool figure,
                               enum status *ret_status, struct error *err);

// The same about another blend than the working one.
struct invocation *report_call_about(const struct report *report, const struct command *command, const char *blend,
                                     bool figure, enum status *ret_status, struct error *err);

// Ends a call that was asked for its answer: what it talked is thrown away, and what the answer lacks is noted.
// STATUS_MEMORY, STATUS_INTERRUPTED; STATUS_USAGE, because the call has options of the report.
enum status report_end_call(struct invocation *call, struct report_answer *answer, enum status status,
                            struct error *err);

// Does the case say what is to be removed and what is to be spared?
bool report_has_goals(const struct report *report, struct error *why);

// The parts. Each adds its sections.
void report_add_summary(struct report *report);
void report_add_object(struct report *report);
void report_add_layers(struct report *report);
void report_add_passages(struct report *report);
void report_add_goals(struct report *report);
void report_add_bottles(struct report *report);
void report_add_tests(struct report *report);
void report_add_learnt(struct report *report);
void report_add_ladder(struct report *report);
void report_add_blend(struct report *report);
void report_add_alternatives(struct report *report);
void report_add_drying(struct report *report);
void report_add_air(struct report *report);
void report_add_hazards(struct report *report);
void report_add_label(struct report *report);
void report_add_planned(struct report *report);
void report_add_replacements(struct report *report);
void report_add_decisions(struct report *report);
void report_add_remarks(struct report *report);
void report_add_values(struct report *report);
void report_add_sources(struct report *report);
void report_add_cautions(struct report *report);

// One page for the easel.
void report_add_sheet(struct report *report);

// What several parts say.
const char *report_hazard_codes(struct report *report);                  // of the label, joined
double report_flash_c(const struct report *report);                      // NAN when it is not known
enum status report_ask_learnt(struct report *report, struct error *err); // and the next tests
void report_release_learnt(struct report *report);
bool report_learns(const struct report *report); // not when --learn or the number of tests forbids it
void report_add_counts(struct report *report, struct document_section *section);
void report_add_next(struct report *report, struct document_section *section); // test, in one paragraph
enum status report_ask_planned(struct report *report, struct error *err);
void report_release_planned(struct report *report);
void report_add_planned_air(struct report *report, struct document_section *section); // where that is judged
void report_add_planned_short(struct report *report, size_t most); // the sheet's section: stacks, and their verdicts
// Carriers of what is still to be put on, by index; NULL behind the last one.
const struct blend *report_planned_carrier(const struct report *report, size_t index);
enum status report_ask_replacements(struct report *report, struct error *err);
void report_release_replacements(struct report *report);
enum status report_ask_list(struct report *report, struct error *err);
void report_release_list(struct report *report);
enum status report_note_answer(struct report_answer *answer, enum status status, struct error *err);
const char *report_notation(struct report *report, const struct blend *blend);    // as it is written
const char *report_joined(struct report *report, const struct text_list *list);   // "a, b"
const char *report_words(struct report *report, const struct text_list *list);    // words of the format, translated
const char *report_layer_name(struct report *report, const char *id);             // of a layer, or the word itself
void report_add_overdue(struct report *report, struct document_section *section); // bottles of the chosen blend
void report_add_people_warning(struct report *report, struct document_section *section); // who works there, if anything
const char *report_verdict(const struct report *report);                                 // of the air, one sentence
double report_allowed_ml_h(const struct report *report);                                 // NAN when it cannot be said
void report_add_stops(struct report *report, struct document_section *section);
// Of one test that stops; names of at most `columns`.
void report_add_stop(struct report *report, struct document_section *section, const struct case_test *test,
                     size_t columns);
// Why the chosen blend is not to be used as things stand: cautions. False when nothing speaks against it.
bool report_add_ban(struct report *report, struct document_section *section);
bool report_same_blend(const struct blend *a, const struct blend *b); // the same components in the same shares
void report_add_precautions(struct report *report, struct document_section *section);
void report_add_first(struct report *report, struct document_section *section); // of the list
void report_add_rank(struct report *report, struct document_section *section);  // of the chosen blend in it
void report_add_recipe(struct report *report, struct document_section *section);
// Of the verdict: a caution, unless the air is within the limits.
enum paragraph_style report_air_style(const struct report *report, enum paragraph_style within);

// The figures; nothing without a canvas.
void report_figure_teas(struct report *report, struct document_section *section);
void report_figure_drying(struct report *report, struct document_section *section);
void report_figure_air(struct report *report, struct document_section *section);
void report_figure_window(struct report *report, struct document_section *section);
void report_figure_label(struct report *report, struct document_section *section);

#endif
