// SPDX-License-Identifier: GPL-3.0-or-later
// The report's figures: the charts of the other commands, drawn into the document instead of a file.
#include "cli/draw_drying.h"
#include "cli/draw_exposure.h"
#include "cli/report_figure.h"
#include "cli/teas_areas.h"
#include "present/chart/teas_chart.h"

#include "base/language.h"

#include <math.h>

extern const struct command cmd_chart, cmd_drying;

void report_set_page(const struct report *report, struct chart_page *page, enum sheet_size sheet) {
    page->paper = report->document->paper;
    page->black_and_white = report->document->black_and_white;
    page->sheet = sheet;
    page->title = NULL; // stands over the figure
}

// A figure that cannot be drawn leaves its reason.
void report_add_figure(struct report *report, struct document_section *section, const char *id, enum status status,
                       const char *caption, const char *alternative, struct picture *picture, const struct error *err) {
    if (status == STATUS_OK)
        document_figure(section, id, caption, alternative, picture);
    else if (status == STATUS_MEMORY)
        report->document->failed = true;
    else
        document_paragraph(section, PARAGRAPH_SMALL, "No figure: %s.", err->text);
}

// The call of a command with a Teas chart: a goal without a material has no area, and that is all.
static struct invocation *call_with_areas(const struct report *report, const struct command *command, bool figure,
                                          enum status *ret_status, struct error *err) {
    struct invocation *call = report_call(report, command, figure, ret_status, err);
    if (call && *ret_status == STATUS_NO_DATA)
        *ret_status = STATUS_OK;
    return call;
}

// --- Teas ---

enum { GROUPS_MAX = 120, NAMED_TESTS = 6 };

// Tests of one blend with one kind of result share a mark.
struct test_group {
    enum teas_point_kind kind;
    const char *blend;
    struct teas place;
    bool computed;
    const struct case_test *tests[NAMED_TESTS];
    size_t count;
};

struct test_chart {
    struct test_group groups[GROUPS_MAX];
    size_t group_count;
    size_t undrawn; // without a place
    bool cut;       // more than GROUPS_MAX groups: the oldest are not among them
    struct teas_chart_point points[GROUPS_MAX + 1];
    struct teas_areas areas;
    struct teas_chart_input input;
};

static void add_to_group(struct test_chart *chart, const struct case_test *test) {
    const enum teas_point_kind kind = teas_kind_of_test(test);
    struct teas place;
    size_t computed = 0;
    if (teas_of_blend(&test->mix, TEAS_MEAN_OF_FRACTIONS, &place, &computed, NULL) != STATUS_OK) {
        chart->undrawn++;
        return;
    }
    for (size_t i = 0; i < chart->group_count; i++) {
        struct test_group *group = &chart->groups[i];
        if (group->kind != kind || teas_distance(group->place, place) > 0.01)
            continue;
        if (group->count < NAMED_TESTS)
            group->tests[group->count] = test;
        group->count++;
        return;
    }
    if (chart->group_count == GROUPS_MAX) {
        chart->cut = true;
        return;
    }
    chart->groups[chart->group_count++] = (struct test_group){kind, test->blend, place, computed > 0, {test}, 1};
}

static const char *group_name(struct report *report, const struct test_group *group) {
    struct text words = {0};
    size_t named = group->count < NAMED_TESTS ? group->count : NAMED_TESTS;
    for (size_t i = named; i-- > 0;) // the latest was found first
        text_printf(&words, "%s%s", i + 1 < named ? ", " : "", group->tests[i]->id);
    if (group->count > named)
        text_say(&words, " and %zu more", group->count - named);
    text_printf(&words, ": %s", group->blend);
    return document_take(report->document, &words);
}

// The latest `most` groups, in the order in which kinds are numbered.
static void fill_points(struct report *report, struct test_chart *chart, size_t most) {
    size_t count = chart->group_count < most ? chart->group_count : most;
    chart->input.points = chart->points;
    chart->input.point_count = 0;
    if (report->notation && isfinite(report->teas.fd))
        chart->points[chart->input.point_count++] =
            (struct teas_chart_point){.kind = TEAS_POINT_BLEND, .name = report->notation, .place = report->teas};
    for (int kind = TEAS_POINT_TEST_NONE; kind <= TEAS_POINT_TEST_STOP; kind++)
        for (size_t i = count; i-- > 0;)
            if ((int)chart->groups[i].kind == kind)
                chart->points[chart->input.point_count++] =
                    (struct teas_chart_point){.kind = chart->groups[i].kind,
                                              .name = group_name(report, &chart->groups[i]),
                                              .place = chart->groups[i].place,
                                              .computed = chart->groups[i].computed};
}

enum status report_teas_picture(const struct report *report, const struct teas_chart_input *input, struct picture *ret,
                                struct error *err) {
    struct text_metric metric = canvas_metric(report->canvas);
    struct teas_layout layout;
    enum status status = teas_layout_make(input, &metric, &layout, err);
    if (status != STATUS_OK)
        return status;
    status = teas_picture(&layout, ret, err);
    teas_layout_release(&layout);
    return status;
}

// The half sheet while its legend holds them, then the whole sheet, then ever fewer of the latest.
static enum status draw_tests(struct report *report, struct test_chart *chart, size_t *ret_shown, struct picture *ret,
                              struct error *err) {
    for (size_t most = chart->group_count;; most /= 2) {
        fill_points(report, chart, most);
        *ret_shown = most;
        for (int sheet = SHEET_HALF; sheet >= SHEET_FULL; sheet--) {
            report_set_page(report, &chart->input.page, (enum sheet_size)sheet);
            enum status status = report_teas_picture(report, &chart->input, ret, err);
            if (status != STATUS_RANGE || (sheet == SHEET_FULL && most == 0))
                return status;
        }
    }
}

static const char *teas_words(struct report *report, const struct test_chart *chart) {
    struct text words = {0};
    text_say(&words, "Triangle with %zu areas of materials and these points: ", chart->areas.count);
    for (size_t i = 0; i < chart->input.point_count; i++)
        text_printf(&words, "%s%zu %s (%s)", i ? "; " : "", i + 1, chart->input.points[i].name,
                    chart->input.points[i].kind == TEAS_POINT_BLEND
                        ? say("working blend")
                        : say(teas_chart_words_english()->results[chart->input.points[i].kind]));
    text_add(&words, ".");
    return document_take(report->document, &words);
}

static enum status read_chart(struct report *report, struct test_chart *chart, struct error *err) {
    enum status status = STATUS_OK;
    struct invocation *call = call_with_areas(report, &cmd_chart, false, &status, err);
    if (status == STATUS_OK)
        status = read_teas_areas(call, TEAS_MEAN_OF_FRACTIONS, &chart->areas, err);
    if (status == STATUS_OK)
        status = page_options(call, SHEET_HALF, &chart->input.page, err);
    text_release(call ? call->talk : NULL);
    chart->input.page.captions = chart->areas.notes;
    chart->input.page.caption_count = chart->areas.note_count;
    chart->input.rule = teas_rule_words(TEAS_MEAN_OF_FRACTIONS);
    chart->input.areas = chart->areas.items;
    chart->input.area_count = chart->areas.count;
    return status;
}

void report_figure_teas(struct report *report, struct document_section *section) {
    struct test_chart *chart = arena_new(report->inv->arena, 1, sizeof *chart);
    struct error err = {0};
    struct picture picture = {0};
    const struct case_test *tests = report->file->tests.items;
    if (!chart) {
        report->document->failed = true;
        return;
    }
    for (size_t i = report->file->tests.count; i-- > 0;) // the latest outrank the others where room is short
        if (!tests[i].withdrawn)
            add_to_group(chart, &tests[i]);
    enum status status = read_chart(report, chart, &err);
    size_t shown = chart->group_count;
    fill_points(report, chart, shown);
    if (status == STATUS_OK && chart->input.point_count + chart->areas.count == 0)
        return;
    if (status == STATUS_OK && report->canvas)
        status = draw_tests(report, chart, &shown, &picture, &err);
    if (shown < chart->group_count || chart->cut)
        document_paragraph(section, PARAGRAPH_SMALL,
                           "The chart has room for the latest %zu different results; the table has all.", shown);
    if (chart->undrawn)
        document_paragraph(section, PARAGRAPH_SMALL, "%zu tests have no place in the chart.", chart->undrawn);
    report_add_figure(report, section, "figure-teas", status,
                      document_say(report->document, "Teas chart of the tests; the shape of a mark tells the result"),
                      teas_words(report, chart), &picture, &err);
}

// --- drying, air ---

void report_figure_drying(struct report *report, struct document_section *section) {
    struct drying_chart_input input;
    struct drying_layout layout;
    struct picture picture = {0};
    struct error err = {0};
    enum status status = STATUS_OK;
    struct invocation *call = call_with_areas(report, &cmd_drying, true, &status, &err);
    if (status == STATUS_OK)
        status = drying_chart_of(call, &report->drying, &input, &err);
    text_release(call ? call->talk : NULL);
    if (status == STATUS_OK && report->canvas) {
        struct text_metric metric = canvas_metric(report->canvas);
        report_set_page(report, &input.page, SHEET_HALF);
        status = drying_layout_make(&input, &metric, &layout, &err);
        if (status == STATUS_OK) {
            status = drying_picture(&layout, &picture, &err);
            drying_layout_release(&layout);
        }
    }
    report_add_figure(
        report, section, "figure-drying", status,
        document_say(report->document, "The path of the drying blend on the Teas chart, and what is left"),
        document_say(report->document,
                     "Left, the path through the triangle from the fresh blend to its last liquid; right, the "
                     "volume shares of what is left. The table above has the figures."),
        &picture, &err);
}

enum status report_graph(enum status made, struct graph_layout *layout, struct picture *ret, struct error *err) {
    if (made != STATUS_OK)
        return made;
    enum status status = graph_picture(layout, ret, err);
    graph_layout_release(layout);
    return status;
}

void report_figure_air(struct report *report, struct document_section *section) {
    struct air_chart_input input;
    struct graph_layout layout;
    struct picture picture = {0};
    struct error err = {0};
    const struct assessing *air = report->air;
    struct text question = {0};
    struct text set = {0};
    add_question(air, &question);
    add_set(air, &set);
    const struct exposure_drawing drawing = {.question = document_take(report->document, &question),
                                             .limit_set = document_take(report->document, &set),
                                             .begins_h = air->first_h,
                                             .capture_measured = air->capture_measured,
                                             .plan = &air->day->plan,
                                             .air = &air->day->air,
                                             .judged = air->day->judged};
    enum status status = air_chart_of(air->inv, &drawing, &input, &err);
    if (status == STATUS_OK && report->canvas) {
        struct text_metric metric = canvas_metric(report->canvas);
        report_set_page(report, &input.page, SHEET_HALF);
        status = report_graph(air_chart_layout(&input, &metric, &layout, &err), &layout, &picture, &err);
    }
    report_add_figure(
        report, section, "figure-air", status,
        document_say(report->document, "Concentration over the day against the limits"),
        document_say(report->document,
                     "One panel for each component: its concentration near the work and in the room over the "
                     "hours, with the limits as level lines. The table above has the figures."),
        &picture, &err);
}
