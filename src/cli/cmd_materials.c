// SPDX-License-Identifier: GPL-3.0-or-later
// materials [NAME ...]: varnishes, resins, paints and waxes with their regions, sources and doubt.
#include "base/language.h"
#include "cli/values.h"

#include <math.h>
#include <stdio.h>

static void write_list(const struct library *lib, struct text *out) {
    page_paragraph(out, 0, 0,
                   "Spheres in Hansen space, MPa^0.5 (no mark: checked; m: from memory; e: estimate; y: yours; '-': no "
                   "region is published). `mildsolve materials NAME` shows sources, Teas areas and behaviour.");
    text_add(out, "\n");
    struct sheet sheet = {0};
    sheet_column(&sheet, "id", false);
    sheet_column(&sheet, "dD", true);
    sheet_column(&sheet, "dP", true);
    sheet_column(&sheet, "dH", true);
    sheet_column(&sheet, "R0", true);
    sheet_column(&sheet, "", false);
    sheet_column(&sheet, "name", false);
    for (size_t i = 0; i < lib->material_count; i++) {
        const struct material *material = &lib->materials[i];
        const struct sphere_values *s = &material->sphere;
        bool known = !isnan(s->r0);
        sheet_cell(&sheet, "%s", material->id);
        sheet_cell(&sheet, known ? "%.1f" : "-", s->delta_d);
        sheet_cell(&sheet, known ? "%.1f" : "-", s->delta_p);
        sheet_cell(&sheet, known ? "%.1f" : "-", s->delta_h);
        sheet_cell(&sheet, known ? "%.1f" : "-", s->r0);
        sheet_cell(&sheet, "%s", known ? doubt_mark(&s->from) : "");
        sheet_cell(&sheet, "%s", say(material->name));
    }
    sheet_write(&sheet, out);
}

static void write_areas(const struct material *material, struct cited *cited, struct text *out) {
    const struct teas_region *areas = material->regions.items;
    for (size_t i = 0; i < material->regions.count; i++) {
        struct text corners = {0};
        struct text refs = {0};
        for (size_t j = 0; j < areas[i].vertices.count; j++) {
            const double *corner = areas[i].vertices.items + 3 * j;
            text_printf(&corners, "%s%.0f/%.0f/%.0f", j ? ", " : "", corner[0], corner[1], corner[2]);
        }
        write_refs(&refs, &areas[i].from);
        cited_add(cited, &areas[i].from);
        page_paragraph_f(out, 2, 4, "Teas area %s (fd/fp/fh): %s. Means: %s. Confidence %s, %s %s", areas[i].id,
                         text_bytes(&corners), say(areas[i].meaning), say(confidence_words[areas[i].confidence]),
                         doubt_words(&areas[i].from), text_bytes(&refs));
        values_notes(out, "note", &areas[i].from);
        text_release(&corners);
        text_release(&refs);
    }
}

static void write_material(struct invocation *inv, const struct material *material, struct text *out) {
    struct cited cited = {0};
    char title[300];
    snprintf(title, sizeof title, "%s: %s", material->id, say(material->name));
    page_heading(out, title);
    page_paragraph_f(
        out, 2, 4, "%s, %s, %s%s", say(material_kind_words[material->kind]), say(material_age_words[material->age]),
        material->film == FILM_DISSOLVES ? say("can dissolve") : say("cross-linked: swells, does not dissolve"),
        material->user ? say(", yours") : "");
    if (material->behaviour)
        page_paragraph(out, 2, 4, material->behaviour);
    if (material->not_proposed)
        page_paragraph_f(out, 2, 4, "not proposed as a new layer: %s", say(material->not_proposed));
    if (isnan(material->sphere.r0)) {
        page_paragraph_f(out, 2, 4, "no region: %s%s%s%s",
                         material->no_region ? say(material->no_region) : say("not known"),
                         material->substitute ? say(" Careful stand-in: ") : "",
                         material->substitute ? material->substitute : "", material->substitute ? "." : "");
    } else {
        struct sheet sheet;
        values_begin(&sheet);
        const struct sphere_values *s = &material->sphere;
        values_row(&sheet, &cited, "delta_d", s->delta_d, "MPa^0.5", &s->from);
        values_row(&sheet, &cited, "delta_p", s->delta_p, "MPa^0.5", &s->from);
        values_row(&sheet, &cited, "delta_h", s->delta_h, "MPa^0.5", &s->from);
        values_row(&sheet, &cited, "r0", s->r0, "MPa^0.5", &s->from);
        values_row(&sheet, &cited, N_("uncertainty of centre"), s->uncertainty, "MPa^0.5", &s->from);
        sheet_write(&sheet, out);
        values_notes(out, "sphere", &s->from);
    }
    write_areas(material, &cited, out);
    if (cited.count)
        write_cited(inv, &cited, out);
}

static void json_areas(const struct material *material, struct cited *cited, struct json *json) {
    const struct teas_region *areas = material->regions.items;
    json_list(json, "teas_areas");
    for (size_t i = 0; i < material->regions.count; i++) {
        json_object(json, NULL);
        json_text(json, "id", areas[i].id);
        json_text(json, "meaning", say(areas[i].meaning));
        json_text(json, "confidence", say(confidence_words[areas[i].confidence]));
        json_list(json, "vertices_percent");
        for (size_t j = 0; j < areas[i].vertices.count; j++) {
            json_list(json, NULL);
            for (size_t k = 0; k < 3; k++)
                json_number(json, NULL, areas[i].vertices.items[3 * j + k]);
            json_close_list(json);
        }
        json_close_list(json);
        json_provenance(json, "source", &areas[i].from);
        cited_add(cited, &areas[i].from);
        json_close_object(json);
    }
    json_close_list(json);
}

static void json_material(const struct material *material, struct cited *cited, struct json *json) {
    const struct sphere_values *s = &material->sphere;
    json_object(json, NULL);
    json_text(json, "id", material->id);
    json_text(json, "name", material->name);
    json_text(json, "kind", say(material_kind_words[material->kind]));
    json_text(json, "age", say(material_age_words[material->age]));
    json_text(json, "film", material_film_words[material->film]);
    json_flag(json, "yours", material->user);
    json_synonyms(json, &material->synonyms);
    json_object(json, "sphere");
    json_number(json, "delta_d", s->delta_d);
    json_number(json, "delta_p", s->delta_p);
    json_number(json, "delta_h", s->delta_h);
    json_number(json, "r0", s->r0);
    json_text(json, "unit", "MPa^0.5");
    json_number(json, "uncertainty", s->uncertainty);
    json_provenance(json, "source", &s->from);
    json_close_object(json);
    cited_add(cited, &s->from);
    json_text(json, "no_region", material->no_region);
    json_text(json, "substitute", material->substitute);
    json_text(json, "behaviour", material->behaviour);
    json_text(json, "not_proposed", material->not_proposed);
    json_areas(material, cited, json);
    json_close_object(json);
}

static enum status run(struct invocation *inv, struct error *err) {
    const struct material *asked[ARGUMENTS_MAX];
    for (size_t i = 0; i < inv->argument_count; i++) {
        enum status status = library_material(&inv->library, inv->arguments[i], &asked[i], err);
        if (status != STATUS_OK)
            return status;
    }
    size_t count = inv->argument_count ? inv->argument_count : inv->library.material_count;
    if (!inv->json && inv->argument_count == 0)
        write_list(&inv->library, inv->out);
    for (size_t i = 0; !inv->json && i < inv->argument_count; i++)
        write_material(inv, asked[i], inv->out);
    if (!inv->json)
        return STATUS_OK;
    struct json json;
    struct cited cited = {0};
    json_begin(&json, inv->out);
    json_list(&json, "materials");
    for (size_t i = 0; i < count; i++)
        json_material(inv->argument_count ? asked[i] : &inv->library.materials[i], &cited, &json);
    json_close_list(&json);
    json_cited(inv, &cited, &json);
    json_end(&json);
    return STATUS_OK;
}

const struct command cmd_materials = {
    .name = "materials",
    .arguments = "[NAME ...]",
    .arguments_least = 0,
    .arguments_most = ARGUMENTS_MAX,
    .summary = "The table of varnishes, resins, paints and waxes; with a NAME its region, sources and behaviour",
    .tables = TABLE_REFERENCES | TABLE_MATERIALS,
    .example = "mildsolve materials dammar-aged",
    .run = run,
};
