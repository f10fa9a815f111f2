// SPDX-License-Identifier: GPL-3.0-or-later
// learn --fit: a sphere from a list of liquids that dissolve a material or do not.
#include "base/file_read.h"
#include "cli/explain.h"
#include "cli/learn.h"
#include "data/csv.h"
#include "physics/sphere_fit.h"

#include <stdint.h>
#include <string.h>

enum { LIST_BYTES_MAX = 1 << 20 };

struct fitting {
    struct invocation *inv;
    const char *path;
    struct sphere_liquid liquids[SPHERE_LIQUIDS_MAX];
    const char *names[SPHERE_LIQUIDS_MAX]; // as in the list
    size_t count;
    double radius_most;
    struct sphere_fit fit;
};

// --- the list ---

struct columns {
    size_t solvent, score, polymer; // SIZE_MAX = the table has none
};

static size_t column_of(const struct csv_row *heading, const char *const *names) {
    for (size_t i = 0; i < heading->count; i++)
        for (size_t k = 0; names[k]; k++)
            if (strcmp(heading->cells[i].text, names[k]) == 0)
                return i;
    return SIZE_MAX;
}

static enum status find_columns(const struct fitting *fitting, const struct csv_row *heading, struct columns *ret,
                                struct error *err) {
    static const char *const solvents[] = {"solvent", "solvent_id", "blend", NULL};
    static const char *const scores[] = {"score", "dissolves", NULL};
    static const char *const polymers[] = {"polymer", "material", NULL};
    *ret = (struct columns){column_of(heading, solvents), column_of(heading, scores), column_of(heading, polymers)};
    if (ret->solvent != SIZE_MAX && ret->score != SIZE_MAX)
        return STATUS_OK;
    return error_set(err, STATUS_INPUT,
                     "%s:1:1: the first row must name the columns solvent and score (1 = dissolves, 0 = does not); a "
                     "column polymer may stand beside them",
                     fitting->path);
}

static enum status read_score(const struct fitting *fitting, const struct csv_cell *cell, bool *ret,
                              struct error *err) {
    if (strcmp(cell->text, "1") == 0 || strcmp(cell->text, "yes") == 0)
        *ret = true;
    else if (strcmp(cell->text, "0") == 0 || strcmp(cell->text, "no") == 0)
        *ret = false;
    else
        return error_set(err, STATUS_INPUT, "%s:%d:%d: '%.40s' is no score; 1 or yes = dissolves, 0 or no = does not",
                         fitting->path, cell->line, cell->column, cell->text);
    return STATUS_OK;
}

static enum status add_row(struct fitting *fitting, const struct columns *columns, const struct csv_row *row,
                           struct error *err) {
    const struct csv_cell *name = &row->cells[columns->solvent];
    struct blend blend;
    if (fitting->count == SPHERE_LIQUIDS_MAX)
        return error_set(err, STATUS_INPUT, "%s:%d:1: more than %d liquids", fitting->path, name->line,
                         SPHERE_LIQUIDS_MAX);
    struct sphere_liquid *liquid = &fitting->liquids[fitting->count];
    enum status status = read_score(fitting, &row->cells[columns->score], &liquid->dissolves, err);
    if (status == STATUS_OK) {
        status = blend_parse(&fitting->inv->library, name->text, &blend, NULL, err);
        if (status == STATUS_OK)
            status = hansen_of_blend(&blend, &liquid->place, err);
        if (status != STATUS_OK)
            error_wrap(err, status, "%s:%d:%d", fitting->path, name->line, name->column);
    }
    if (status == STATUS_OK)
        fitting->names[fitting->count++] = name->text;
    return status;
}

// With a column of polymers only one of them is fitted.
static enum status check_polymer(const struct fitting *fitting, const struct columns *columns,
                                 const struct csv_table *table, struct error *err) {
    const char *wanted = option_value(fitting->inv, "--polymer");
    if (wanted && columns->polymer == SIZE_MAX)
        return error_set(err, STATUS_INPUT, "%s:1:1: --polymer %s: the table has no column polymer", fitting->path,
                         wanted);
    for (size_t i = 2; !wanted && columns->polymer != SIZE_MAX && i < table->count; i++) {
        const char *first = table->rows[1].cells[columns->polymer].text;
        const struct csv_cell *other = &table->rows[i].cells[columns->polymer];
        if (strcmp(first, other->text) != 0)
            return error_set(err, STATUS_USAGE,
                             "%s:%d:%d: the table holds more than one polymer; say which: --polymer \"%s\"",
                             fitting->path, other->line, other->column, first);
    }
    return STATUS_OK;
}

static enum status read_list(struct fitting *fitting, struct error *err) {
    struct text bytes = {0};
    struct csv_table table = {0};
    struct columns columns = {0};
    const char *wanted = option_value(fitting->inv, "--polymer");
    enum status status = file_read(fitting->path, LIST_BYTES_MAX, &bytes, err);
    if (status == STATUS_OK)
        status = csv_parse(fitting->inv->arena, fitting->path, text_bytes(&bytes), bytes.length, &table, err);
    text_release(&bytes);
    if (status == STATUS_OK && table.count == 0)
        status = error_set(err, STATUS_INPUT, "%s:1:1: the table is empty", fitting->path);
    if (status == STATUS_OK)
        status = find_columns(fitting, &table.rows[0], &columns, err);
    if (status == STATUS_OK)
        status = check_polymer(fitting, &columns, &table, err);
    for (size_t i = 1; i < table.count && status == STATUS_OK; i++)
        if (!wanted || strcmp(table.rows[i].cells[columns.polymer].text, wanted) == 0)
            status = add_row(fitting, &columns, &table.rows[i], err);
    if (status == STATUS_OK && fitting->count == 0)
        status = error_set(err, STATUS_INPUT, "%s: no row is about '%s'", fitting->path, wanted ? wanted : "");
    return status;
}

// --- the answer ---

static void write_text(const struct fitting *fitting, struct text *out) {
    const struct sphere_fit *fit = &fitting->fit;
    page_paragraph_f(
        out, 0, 2,
        "Sphere: delta D %.1f, delta P %.1f, delta H %.1f, radius %.1f MPa^0.5; %zu of %zu liquids lie where "
        "they belong (data fit %.3f).",
        fit->best.centre.delta_d, fit->best.centre.delta_p, fit->best.centre.delta_h, fit->best.r0, fit->right,
        fitting->count, fit->data_fit);
    for (size_t i = 0; i < fitting->count; i++) {
        const struct sphere_liquid *liquid = &fitting->liquids[i];
        double red = hansen_distance(liquid->place, fit->best.centre) / fit->best.r0;
        if (sphere_right(&fit->best, liquid))
            continue;
        if (liquid->dissolves)
            page_paragraph_f(out, 2, 4, "%s dissolves it, but lies outside (RED %.2f)", fitting->names[i], red);
        else
            page_paragraph_f(out, 2, 4, "%s does not dissolve it, but lies inside (RED %.2f)", fitting->names[i], red);
    }
    page_paragraph_f(
        out, 0, 2,
        "Not the only answer: spheres on the grid that do as well: %zu, with delta D %.1f to %.1f, delta P "
        "%.1f to %.1f, delta H %.1f to %.1f, radius %.1f to %.1f. Above is the one that is furthest from a "
        "mistake for its size.",
        fit->as_good, fit->delta_d.least, fit->delta_d.most, fit->delta_p.least, fit->delta_p.most, fit->delta_h.least,
        fit->delta_h.most, fit->r0.least, fit->r0.most);
    if (fit->radius_bounded)
        page_paragraph_f(out, 0, 2,
                         "Some of them reach the bound of the radius, %g MPa^0.5: the list alone does not close the "
                         "sphere. More liquids that do not dissolve it, on the open side, would.",
                         fitting->radius_most);
}

static void json_range(struct json *json, const char *key, const struct sphere_range *range) {
    json_object(json, key);
    json_number(json, "least", range->least);
    json_number(json, "most", range->most);
    json_close_object(json);
}

static void write_json(const struct fitting *fitting, struct text *out) {
    const struct sphere_fit *fit = &fitting->fit;
    struct json json;
    json_begin(&json, out);
    json_object(&json, "sphere");
    json_number(&json, "delta_d", fit->best.centre.delta_d);
    json_number(&json, "delta_p", fit->best.centre.delta_p);
    json_number(&json, "delta_h", fit->best.centre.delta_h);
    json_number(&json, "r0", fit->best.r0);
    json_close_object(&json);
    json_integer(&json, "liquids", (long long)fitting->count);
    json_integer(&json, "right", (long long)fit->right);
    json_number(&json, "data_fit", fit->data_fit);
    json_list(&json, "misplaced");
    for (size_t i = 0; i < fitting->count; i++) {
        if (sphere_right(&fit->best, &fitting->liquids[i]))
            continue;
        json_object(&json, NULL);
        json_text(&json, "liquid", fitting->names[i]);
        json_flag(&json, "dissolves", fitting->liquids[i].dissolves);
        json_number(&json, "red", hansen_distance(fitting->liquids[i].place, fit->best.centre) / fit->best.r0);
        json_close_object(&json);
    }
    json_close_list(&json);
    json_object(&json, "as_good");
    json_integer(&json, "spheres", (long long)fit->as_good);
    json_range(&json, "delta_d", &fit->delta_d);
    json_range(&json, "delta_p", &fit->delta_p);
    json_range(&json, "delta_h", &fit->delta_h);
    json_range(&json, "r0", &fit->r0);
    json_flag(&json, "radius_bounded", fit->radius_bounded);
    json_close_object(&json);
    json_end(&json);
}

static enum status explain(const struct fitting *fitting, struct error *err) {
    struct text answer = {0};
    struct blend blend;
    struct explaining *explaining = explain_begin(fitting->inv);
    if (!explaining)
        return STATUS_OK;
    for (size_t i = 0; i < fitting->count; i++)
        if (blend_parse(&fitting->inv->library, fitting->names[i], &blend, NULL, NULL) == STATUS_OK)
            explain_blend(explaining, &blend);
    write_json(fitting, &answer);
    return explain_answer(explaining, &answer, err);
}

enum status learn_by_fit(struct invocation *inv, struct error *err) {
    struct fitting *fitting = arena_new(inv->arena, 1, sizeof *fitting);
    if (!fitting)
        return error_set(err, STATUS_MEMORY, "out of memory");
    fitting->inv = inv;
    fitting->path = option_value(inv, "--fit");
    enum status status = option_number(inv, "--radius-most", SPHERE_RADIUS_LEAST + 0.5, 50, SPHERE_RADIUS_MOST,
                                       &fitting->radius_most, err);
    if (status == STATUS_OK)
        status = read_list(fitting, err);
    if (status == STATUS_OK)
        status = sphere_fit(fitting->liquids, fitting->count, fitting->radius_most, &fitting->fit, err);
    if (status != STATUS_OK)
        return status;
    if (inv->json)
        write_json(fitting, inv->out);
    else
        write_text(fitting, inv->out);
    return explain(fitting, err);
}
