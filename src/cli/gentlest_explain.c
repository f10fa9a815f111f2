// SPDX-License-Identifier: GPL-3.0-or-later
// gentlest --explain N: every number of a row, with its equation and sources, so that it can be followed by hand.
#include "base/language.h"
#include "base/print_words.h"
#include "cli/gentlest.h"
#include "cli/values.h"
#include "physics/film_band.h"
#include "physics/film_mix.h"

#include <math.h>
#include <stdio.h>

struct explaining {
    const struct film_answer *answer;
    const struct ranked_row *row;
    struct activity_model *activity;
    double x[BLEND_COMPONENTS_MAX];
    double ln_activity[BLEND_COMPONENTS_MAX];
    struct cited cited;
};

static void write_liquid(struct explaining *e, struct text *out) {
    page_heading(out, "1  the liquid");
    page_paragraph(
        out, 2, 4,
        "x_i = (phi_i/V_i)/sum(phi_j/V_j); activity a_i = x_i gamma_i, gamma_i by the model named below (Weidlich and "
        "Gmehling, Ind. Eng. Chem. Res. 26 (1987) 1372).");
    struct sheet sheet = {.indent = 2};
    sheet_column(&sheet, "component", false);
    sheet_column(&sheet, "phi", true);
    sheet_column(&sheet, "V cm3/mol", true);
    sheet_column(&sheet, "x", true);
    sheet_column(&sheet, "gamma", true);
    sheet_column(&sheet, "a", true);
    for (size_t i = 0; i < e->row->blend.count; i++) {
        const struct component *c = e->row->blend.components[i];
        double a = exp(e->ln_activity[i]);
        cited_add(&e->cited, &c->molar_volume.from);
        sheet_cell(&sheet, "%s", c->id);
        sheet_cell(&sheet, "%.4f", e->row->blend.volume_fractions[i]);
        sheet_cell(&sheet, "%.1f", c->molar_volume.value);
        sheet_cell(&sheet, "%.4f", e->x[i]);
        sheet_cell(&sheet, "%.3f", e->x[i] > 0 ? a / e->x[i] : NAN);
        sheet_cell(&sheet, "%.4f", a);
    }
    sheet_write(&sheet, out);
    page_paragraph(out, 2, 4, e->activity->coverage.sentence);
    page_paragraph_f(out, 2, 4, "phases: %s; %s", phase_verdict_word(e->row->phase.verdict), e->row->phase.sentence);
}

static void write_red(struct explaining *e, const struct material *material, struct text *out) {
    struct hansen mean;
    if (isnan(material->sphere.r0) || hansen_of_blend(&e->row->blend, &mean, NULL) != STATUS_OK)
        return;
    cited_add(&e->cited, &material->sphere.from);
    struct hansen centre = hansen_of_sphere(&material->sphere);
    page_paragraph_f(out, 4, 6,
                     "classical view: delta_k = sum phi_i delta_k,i = %.2f/%.2f/%.2f; Ra^2 = 4 dD^2 + dP^2 + dH^2 to "
                     "%.1f/%.1f/%.1f: "
                     "Ra %.2f; RED = Ra/R0 = %.2f/%.2f = %.2f",
                     mean.delta_d, mean.delta_p, mean.delta_h, centre.delta_d, centre.delta_p, centre.delta_h,
                     hansen_distance(mean, centre), hansen_distance(mean, centre), material->sphere.r0,
                     hansen_red(mean, &material->sphere));
}

static void write_film(struct explaining *e, const struct material *material, struct text *out) {
    struct film_parameters p;
    struct film film;
    struct film_result result;
    page_paragraph_f(out, 2, 4, "%s", material->id);
    if (film_parameters_of_material(material, &p, NULL) != STATUS_OK ||
        film_prepare(&p, e->activity, &film, NULL) != STATUS_OK) {
        page_paragraph(out, 4, 6, "no film model");
        write_red(e, material, out);
        return;
    }
    cited_add(&e->cited, &material->film_model.from);
    film_of_activities(&film, e->ln_activity, NULL, &result);
    page_paragraph_f(out, 4, 6, "centre %.2f/%.2f/%.2f MPa^0.5, alpha %g, entropic part %.4g, %s %.6g %s, pigment %g",
                     p.centre.delta_d, p.centre.delta_p, p.centre.delta_h, p.alpha, p.chi_entropic + p.chi_shift,
                     p.network_mol_m3 > 0 ? say("network") : say("chains"),
                     p.network_mol_m3 > 0 ? p.network_mol_m3 : p.molar_volume_cm3_mol,
                     p.network_mol_m3 > 0 ? "mol/m3" : "cm3/mol", p.pigment);
    struct text words = {0};
    for (size_t i = 0; i < e->row->blend.count; i++)
        text_say(&words, "%s%s chi %.3f", i ? ", " : "", e->row->blend.components[i]->id, film.chi[i]);
    if (result.outcome == FILM_BOUNDED) {
        text_say(&words, "; inside the film");
        for (size_t i = 0; i < e->row->blend.count; i++)
            text_say(&words, "%s %s %.2f", i ? "," : "", e->row->blend.components[i]->id, result.inside[i]);
        text_say(&words, " by volume; swelling %.3g per dry volume (%s)", result.swelling,
                 film_band_words(film_band(result.swelling)));
    } else {
        text_printf(&words, "; %s",
                    result.outcome == FILM_WITHOUT_LIMIT
                        ? say("no stable film before a polymer fraction of 0.005: taken up without limit")
                        : film_outcome_word(result.outcome));
    }
    page_paragraph(out, 4, 6, text_bytes(&words));
    text_release(&words);
    write_red(e, material, out);
}

static void write_films(struct explaining *e, struct text *out) {
    const struct goal *goal = &e->answer->goal;
    page_heading(out, "2  the films");
    page_paragraph(
        out, 2, 4,
        "chi_i = entropic part + alpha V_i/(RT) [(dD)^2 + (dP)^2/4 + (dH)^2/4]; each component's ln a inside the film "
        "(Flory-Huggins, the same activity model among the liquids, chi with the polymer, elastic term of the network) "
        "equals "
        "ln a in the liquid; the first stable root from the dry film. The full equation stands in physics/film.h.");
    for (size_t i = 0; i < goal->remove_count; i++)
        write_film(e, goal->remove[i], out);
    for (size_t i = 0; i < goal->spare_count; i++)
        write_film(e, goal->spare[i], out);
}

static void write_components(struct explaining *e, struct text *out) {
    page_heading(out, "3  values used");
    struct sheet sheet;
    values_begin(&sheet);
    for (size_t i = 0; i < e->row->blend.count; i++) {
        const struct component *c = e->row->blend.components[i];
        char name[CELL_BYTES];
        snprintf(name, sizeof name, "%s delta_d", c->id);
        values_row(&sheet, &e->cited, name, c->hansen.delta_d, "MPa^0.5", &c->hansen.from);
        snprintf(name, sizeof name, "%s delta_p", c->id);
        values_row(&sheet, &e->cited, name, c->hansen.delta_p, "MPa^0.5", &c->hansen.from);
        snprintf(name, sizeof name, "%s delta_h", c->id);
        values_row(&sheet, &e->cited, name, c->hansen.delta_h, "MPa^0.5", &c->hansen.from);
        if (!c->properties)
            continue;
        print_words(name, sizeof name, "%s vapour pressure", c->id);
        values_row(&sheet, &e->cited, name, c->properties->vapour_pressure_20c.value, "kPa",
                   &c->properties->vapour_pressure_20c.from);
        print_words(name, sizeof name, "%s flash point", c->id);
        values_row(&sheet, &e->cited, name, c->properties->flash_point.value, "degC", &c->properties->flash_point.from);
    }
    sheet_write(&sheet, out);
}

static void write_doubt(const struct explaining *e, struct text *out) {
    const struct doubt_row *d = &e->row->doubt;
    page_heading(out, "4  doubt");
    if (!e->row->doubted) {
        page_paragraph(out, 2, 4, "not sampled");
        return;
    }
    page_paragraph_f(out, 2, 4,
                     "%zu samples: works in %.3f of them; swelling of what is to be spared %.3g, %.3g, %.3g (10, 50, "
                     "90 %%); rank %.0f, "
                     "%.0f, %.0f among the candidates; among the mildest five in %.2f; paint without limit in %.3f; "
                     "solver gave up in %zu.",
                     e->answer->ranking.samples, d->p_works, d->swelling_least, d->swelling_median, d->swelling_most,
                     d->rank_least, d->rank_median, d->rank_most, d->p_mildest_five, d->p_unbounded, d->failed);
    page_paragraph(out, 2, 4, "What is varied, and how, stands in selection/doubt.h.");
}

static void write_fire(const struct explaining *e, struct text *out) {
    page_heading(out, "5  fire and residue");
    page_paragraph_f(
        out, 2, 4,
        "flash point: sum a_i psat_i(T)/psat_i(T_flash,i) = 1 (Liaw et al., J. Loss Prev. Process Ind. 15 (2002) "
        "429). %s",
        e->row->flash.sentence);
    if (e->row->retention.slowest)
        page_paragraph_f(out, 2, 4, "last to leave: %s, %.3g kPa at 20 degC, %.1f cm3/mol, RED to the paint %.2f: %s",
                         e->row->retention.slowest->id, e->row->retention.vapour_pressure_kpa,
                         e->row->retention.molar_volume_cm3_mol, e->row->retention.red_spare,
                         retention_words(e->row->retention.word));
}

enum status write_film_explanation(const struct film_answer *answer, int number, struct text *out, struct error *err) {
    if ((size_t)number > answer->ranking.count)
        return error_set(err, STATUS_RANGE, "--explain %d: the list has %zu rows", number, answer->ranking.count);
    struct explaining *e = arena_new(answer->inv->arena, 1, sizeof *e);
    struct activity_model *activity = arena_new(answer->inv->arena, 1, sizeof *activity);
    if (!e || !activity)
        return error_set(err, STATUS_MEMORY, "out of memory");
    *e = (struct explaining){.answer = answer, .row = &answer->ranking.rows[number - 1], .activity = activity};
    enum status status =
        activity_prepare_blend(&answer->groups, &e->row->blend, 273.15 + answer->temp_c, activity, err);
    if (status == STATUS_OK)
        status = blend_mole_fractions(&e->row->blend, e->x, err);
    if (status != STATUS_OK)
        return status;
    film_liquid_activities(activity, e->x, e->ln_activity);
    struct text recipe = {0};
    composition_recipe(&answer->goal, &e->row->row.best, &recipe);
    page_paragraph_f(out, 0, 2, "Row %d: %s", number, text_bytes(&recipe));
    text_release(&recipe);
    write_liquid(e, out);
    write_films(e, out);
    write_components(e, out);
    write_doubt(e, out);
    write_fire(e, out);
    write_cited(answer->inv, &e->cited, out);
    return STATUS_OK;
}
