// SPDX-License-Identifier: GPL-3.0-or-later
// The report: the chosen blend, where it stands, and what else would do.
#include "base/language.h"
#include "cli/overdue.h"
#include "cli/people_bar.h"
#include "cli/report.h"
#include "physics/film_band.h"

#include <math.h>

// --- at a glance ---

void report_add_overdue(struct report *report, struct document_section *section) {
    struct text overdue = {0};
    overdue_add_names(report->inv, &report->blend, &overdue);
    if (overdue.length)
        document_paragraph(section, PARAGRAPH_CAUTION,
                           "Test for peroxides before use, or do not use: %s (the reason stands with the bottles).",
                           document_take(report->document, &overdue));
    text_release(&overdue);
}

// The first test that stands and found original colour with the chosen blend; NULL = none.
static const struct case_test *test_that_stopped(const struct report *report) {
    const struct case_test *tests = report->file->tests.items;
    for (size_t i = 0; i < report->file->tests.count; i++)
        if (case_test_stops(&tests[i]) && report_same_blend(&tests[i].mix, &report->blend))
            return &tests[i];
    return NULL;
}

bool report_add_ban(struct report *report, struct document_section *section) {
    if (!report->notation)
        return false;
    const struct case_test *stopped = test_that_stopped(report);
    bool every = case_every_passage_stopped(report->file);
    struct text bar = {0};
    add_people_bar(report->file, &report->blend, &bar);
    bool barred = bar.length > 0;
    if (stopped)
        document_paragraph(section, PARAGRAPH_CAUTION,
                           "Not to be used before the STOP is decided: test %s with this blend found colour that is "
                           "original or may be.",
                           stopped->id);
    else if (every)
        document_paragraph(section, PARAGRAPH_CAUTION, "Not to be used before the STOP is decided.");
    if (barred)
        document_paragraph(section, PARAGRAPH_CAUTION, "Not to be used %s.", document_take(report->document, &bar));
    else
        text_release(&bar);
    return stopped || every || barred;
}

static bool add_choice(struct report *report, struct document_section *section) {
    struct document *document = report->document;
    char day[DATE_BYTES];
    if (!report->notation)
        document_paragraph(section, PARAGRAPH_STRONG, "No blend is chosen or tested yet.");
    else if (report->decided)
        document_paragraph(section, PARAGRAPH_STRONG, "Working blend: %s, decided on %s by %s.", report->notation,
                           date_write(report->decided->date, day),
                           document_name(document, report->decided->by ? report->decided->by : "?"));
    else if (report->tested)
        document_paragraph(section, PARAGRAPH_STRONG,
                           "Working blend: %s, of the last test that stands (%s); no decision names a blend.",
                           report->notation, report->tested->id);
    bool banned = report_add_ban(report, section);
    report_add_overdue(report, section);
    return banned;
}

static void add_test_count(struct report *report, struct document_section *section) {
    size_t stand = case_tests_standing(report->file);
    if (stand == 0)
        document_paragraph(section, PARAGRAPH_ITEM, "No swab test is noted yet.");
    else
        document_paragraph(section, PARAGRAPH_ITEM, "Swab tests that stand: %zu, of %zu noted.", stand,
                           report->file->tests.count);
}

void report_add_summary(struct report *report) {
    struct document_section *section = document_section(report->document, "summary", "At a glance");
    report_add_stops(report, section); // before anything that could be taken for a recommendation
    add_choice(report, section);
    add_test_count(report, section);
    if (report->notation) {
        document_paragraph(section, report_air_style(report, PARAGRAPH_ITEM), "%s", report_verdict(report));
        report_add_people_warning(report, section);
    }
    report_add_first(report, section);
}

// --- the blend ---

void report_add_recipe(struct report *report, struct document_section *section) {
    const struct recipe *recipe = &report->recipe;
    if (!report->has_recipe.there) {
        document_paragraph(section, PARAGRAPH_PLAIN, "No recipe: %s.", report->has_recipe.why.text);
        return;
    }
    struct document_table *table = document_table(section, "recipe", "Recipe of a batch");
    table_column(table, "bottle", "Bottle", NULL, false);
    table_column(table, "add_ml", "Volume", "mL", true);
    table_column(table, "add_g", "Mass", "g", true);
    table_column(table, "asked_percent", "Asked", "vol%", true);
    table_column(table, "reached_percent", "Reached", "vol%", true);
    for (size_t i = 0; i < recipe->count; i++) {
        table_words(table, bottle_ref_id(&recipe->lines[i].bottle));
        table_decimals(table, recipe->lines[i].add_ml, 0);
        table_decimals(table, bottle_grams(&report->inv->library, &recipe->lines[i].bottle, recipe->lines[i].add_ml),
                       1);
        table_decimals(table, recipe->lines[i].asked_percent, 1);
        table_decimals(table, recipe->lines[i].reached_percent, 1);
    }
    document_paragraph(
        section, PARAGRAPH_SMALL,
        "Parts are volumes before mixing; alcohol with water shrinks on mixing. Look whether the blend is "
        "clear before you use it.");
}

static const char *film_words(const struct report_material *material) {
    const struct film_result *film = &material->film;
    if (film->outcome == FILM_WITHOUT_LIMIT)
        return material->material->film == FILM_DISSOLVES ? say("dissolves") : say("swells without limit");
    if (film->outcome == FILM_BOUNDED && material->material->film == FILM_DISSOLVES)
        return say(film_softening_words(film->swelling));
    if (film->outcome == FILM_BOUNDED)
        return say(film_band_words(film_band(film->swelling)));
    return film->outcome == FILM_NO_REGION ? say("no film model") : say("not covered");
}

static void add_places(struct report *report, struct document_section *section) {
    if (report->material_count == 0)
        return;
    struct document_table *table = document_table(section, "places", "Against the materials of the goals");
    table_column(table, "material", "Material", NULL, false);
    table_column(table, "goal", "Goal", NULL, false);
    table_column(table, "film", "By the film model", NULL, false);
    table_column(table, "red", "RED", NULL, true);
    table_column(table, "ra_mpa05", "Ra", "MPa^0.5", true);
    table_column(table, "sure", "Region", NULL, false);
    for (size_t i = 0; i < report->material_count; i++) {
        const struct report_material *material = &report->materials[i];
        table_words(table, material->material->id);
        table_words(table, material->remove ? say("remove") : say("spare"));
        table_words(table, film_words(material));
        table_decimals(table, material->place.red, 2);
        table_decimals(table, material->place.ra_mpa05, 1);
        table_words(table, isnan(material->material->sphere.r0) ? say("none")
                                                                : say(doubt_words(&material->material->sphere.from)));
        cited_add(&report->cited, &material->material->sphere.from);
        cited_add(&report->cited, &material->material->film_model.from);
    }
    document_paragraph(section, PARAGRAPH_SMALL,
                       "The film model asks for the activities in the liquid; RED is the classical view of the mean, "
                       "inside the region below 1. Where they disagree, a swab decides.");
}

static void add_blend_facts(struct report *report, struct document_section *section) {
    struct document_facts *facts = document_facts(section, "blend");
    fact_words(facts, "blend", "Blend, parts by volume", report->notation);
    fact_number(facts, "delta_d", "Hansen dispersion part", report->hansen.delta_d, 3, "MPa^0.5");
    fact_number(facts, "delta_p", "Hansen polar part", report->hansen.delta_p, 3, "MPa^0.5");
    fact_number(facts, "delta_h", "Hansen hydrogen bonding part", report->hansen.delta_h, 3, "MPa^0.5");
    fact_number(facts, "teas_fd", "Teas fd, mean of published fractions", report->teas.fd, 2, "%");
    fact_number(facts, "teas_fp", "Teas fp, mean of published fractions", report->teas.fp, 2, "%");
    fact_number(facts, "teas_fh", "Teas fh, mean of published fractions", report->teas.fh, 2, "%");
    if (report->has_phase.there)
        fact_words(facts, "phases", "Phases", report->phase.sentence);
    fact_number(facts, "flash_point_c", "Flash point", report_flash_c(report), 2, "\u00B0C");
}

void report_add_blend(struct report *report) {
    struct document *document = report->document;
    struct document_section *section = document_section(document, "blend", "The chosen blend");
    bool banned = add_choice(report, section);
    if (!report->notation)
        return;
    if (report->decided && report->decided->because)
        document_paragraph(section, PARAGRAPH_PLAIN, "Because: %s", document_name(document, report->decided->because));
    if (report->tested)
        document_paragraph(section, PARAGRAPH_PLAIN, "Tested with it: %s, result: %s.", report->tested->id,
                           say(result_words[report->tested->result]));
    if (!banned)
        report_add_recipe(report, section);
    add_blend_facts(report, section);
    add_places(report, section);
    report_add_rank(report, section);
}
