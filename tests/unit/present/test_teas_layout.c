// SPDX-License-Identifier: GPL-3.0-or-later
// The Teas chart as numbers: nothing on anything, nothing off the page, nothing too small, nothing left unsaid.
#include "chart_asserts.h"
#include "charts.h"
#include "suite.h"

#include <check.h>
#include <math.h>
#include <string.h>

static struct chart_case chart;
static struct teas_layout layout;
static struct text_metric metric;
static struct error err;

static void begin(void) {
    metric = metric_fixed();
    error_clear(&err);
}

static void end(void) {
    teas_layout_release(&layout);
}

static enum status lay_out(void) {
    return teas_layout_make(&chart.input, &metric, &layout, &err);
}

static void make(void) {
    ck_assert_msg(lay_out() == STATUS_OK, "%s", err.text);
}

// --- rules every layout obeys ---

static void assert_text_on_page(const struct layout_text *text) {
    ck_assert_double_ge(text->size, TEXT_SMALLEST);
    double up = 0.76 * text->size;
    double down = TEXT_DESCENT * text->size;
    for (int end_of_line = 0; end_of_line < 2; end_of_line++) {
        double x = text->x + end_of_line * text->unit_x * text->width;
        double y = text->y + end_of_line * text->unit_y * text->width;
        double corners[2][2] = {{x + text->unit_y * up, y - text->unit_x * up},
                                {x - text->unit_y * down, y + text->unit_x * down}};
        for (int k = 0; k < 2; k++) {
            ck_assert_msg(corners[k][0] >= 0 && corners[k][0] <= layout.page.width && corners[k][1] >= 0 &&
                              corners[k][1] <= layout.page.height,
                          "'%s' leaves the page at %.1f %.1f", text->text, corners[k][0], corners[k][1]);
        }
    }
}

static void assert_texts_on_page(const struct layout_texts *texts) {
    for (size_t i = 0; i < texts->count; i++)
        assert_text_on_page(&texts->items[i]);
}

static struct box text_box(const struct layout_text *text) {
    return (struct box){text->x, text->y - 0.74 * text->size, text->width, 0.76 * text->size};
}

static struct disc mark_disc(const struct layout_mark *mark) {
    return (struct disc){mark->at, mark->style.radius};
}

// A label's box, its leader, its letters: everything that may not lie on anything else.
static void assert_clear(struct box box, const char *name) {
    ck_assert(box.x >= 0 && box.y >= 0 && box.x + box.width <= layout.page.width &&
              box.y + box.height <= layout.page.height);
    for (size_t i = 0; i < layout.mark_count; i++)
        ck_assert_msg(!box_meets_disc(box, mark_disc(&layout.marks[i])), "label %s lies on mark %zu", name,
                      layout.marks[i].number);
    for (size_t i = 0; i < layout.scale.count; i++)
        ck_assert_msg(!boxes_overlap(box, text_box(&layout.scale.items[i])), "label %s lies on the scale", name);
    ck_assert_msg(!boxes_overlap(box, layout.legend), "label %s lies on the legend", name);
    ck_assert_double_lt(box.y + box.height, layout.page.caption_rule.from.y);
    for (size_t i = 0; i < layout.page.header.count; i++)
        ck_assert(!boxes_overlap(box, text_box(&layout.page.header.items[i])));
}

static void assert_leader_clear(struct segment leader, const char *name, struct spot own) {
    for (size_t i = 0; i < layout.mark_count; i++) {
        struct disc mark = mark_disc(&layout.marks[i]);
        bool touches_own = hypot(mark.centre.x - own.x, mark.centre.y - own.y) < 12;
        ck_assert_msg(touches_own || segment_distance(leader, mark.centre) >= mark.radius,
                      "the leader of %s crosses mark %zu", name, layout.marks[i].number);
    }
}

struct drawn_label {
    struct box box;
    bool has_leader;
    struct segment leader;
    const char *name;
};

static size_t all_labels(struct drawn_label *ret) {
    size_t count = 0;
    for (size_t i = 0; i < layout.label_count; i++) {
        const struct layout_label *label = &layout.labels[i];
        if (label->placed)
            ret[count++] = (struct drawn_label){label->box, label->has_leader, label->leader, label->number.text};
    }
    for (size_t i = 0; i < layout.area_count; i++) {
        const struct layout_area *area = &layout.areas[i];
        if (area->lettered)
            ret[count++] = (struct drawn_label){area->box, area->has_leader, area->leader, area->letter.text};
    }
    return count;
}

static void assert_labels_apart(void) {
    static struct drawn_label labels[CHART_POINTS + CHART_AREAS];
    size_t count = all_labels(labels);
    for (size_t i = 0; i < count; i++) {
        assert_clear(labels[i].box, labels[i].name);
        if (labels[i].has_leader)
            assert_leader_clear(labels[i].leader, labels[i].name, labels[i].leader.from);
        for (size_t j = 0; j < count; j++) {
            if (i == j)
                continue;
            ck_assert_msg(!boxes_overlap(labels[i].box, labels[j].box), "%s lies on %s", labels[i].name,
                          labels[j].name);
            ck_assert_msg(!labels[i].has_leader || !box_meets_segment(labels[j].box, labels[i].leader),
                          "the leader of %s crosses %s", labels[i].name, labels[j].name);
            ck_assert_msg(!labels[i].has_leader || !labels[j].has_leader ||
                              !segments_cross(labels[i].leader, labels[j].leader),
                          "the leaders of %s and %s cross", labels[i].name, labels[j].name);
        }
    }
}

// The letters of a label stay inside its box.
static void assert_label_texts_in_boxes(void) {
    for (size_t i = 0; i < layout.label_count; i++) {
        const struct layout_label *label = &layout.labels[i];
        if (!label->placed)
            continue;
        ck_assert(box_inside(text_box(&label->number),
                             (struct box){label->box.x, label->box.y - 0.5, label->box.width, label->box.height + 1}));
        if (label->has_name)
            ck_assert(label->name.x >= label->number.x + label->number.width &&
                      label->name.x + label->name.width <= label->box.x + label->box.width + 1e-9);
        assert_text_on_page(&label->number);
    }
}

static void assert_legend_in_columns(void) {
    struct box page = {0, 0, layout.page.width, layout.page.caption_rule.from.y};
    for (size_t i = 0; i < layout.entry_count; i++) {
        const struct legend_entry *entry = &layout.entries[i];
        assert_texts_on_page(&entry->lines);
        for (size_t line = 0; line < entry->lines.count; line++) {
            struct box box = text_box(&entry->lines.items[line]);
            ck_assert(box_inside(box, page));
            for (size_t j = 0; j < layout.entry_count; j++)
                for (size_t k = 0; k < layout.entries[j].lines.count; k++)
                    ck_assert_msg(
                        (i == j && line == k) || !boxes_overlap(box, text_box(&layout.entries[j].lines.items[k])),
                        "'%s' lies on '%s'", entry->lines.items[line].text, layout.entries[j].lines.items[k].text);
        }
    }
}

static bool caption_says(const char *words) {
    struct text all = {0};
    for (size_t i = 0; i < layout.page.caption.count; i++)
        text_printf(&all, "%s%s", i ? " " : "", layout.page.caption.items[i].text);
    bool found = strstr(text_bytes(&all), words) != NULL;
    text_release(&all);
    return found;
}

// Every point and area is either labelled or named in the caption; all of them stand in the legend.
static void assert_nothing_unsaid(void) {
    size_t labelled = 0;
    for (size_t i = 0; i < layout.label_count; i++)
        labelled += layout.labels[i].placed ? layout.labels[i].number_count : 0;
    for (size_t i = 0; i < layout.area_count; i++)
        labelled += layout.areas[i].lettered;
    ck_assert_uint_eq(labelled + layout.unlabelled_count, chart.input.point_count + chart.input.area_count);
    ck_assert_int_eq(layout.unlabelled_count > 0, caption_says("In the legend only"));
    size_t entries = 0;
    for (size_t i = 0; i < layout.entry_count; i++)
        entries += layout.entries[i].symbol != LEGEND_HEADING;
    ck_assert_uint_eq(entries, chart.input.point_count + chart.input.area_count);
    ck_assert(caption_says(", does not prove safety"));
}

static void assert_sound(void) {
    assert_texts_on_page(&layout.page.header);
    assert_texts_on_page(&layout.scale);
    assert_texts_on_page(&layout.page.caption);
    for (size_t i = 0; i < 3; i++)
        assert_text_on_page(&layout.axes[i].name);
    assert_labels_apart();
    assert_label_texts_in_boxes();
    assert_legend_in_columns();
    assert_nothing_unsaid();
}

static const struct {
    enum paper paper;
    enum sheet_size sheet;
    double width, height; // pt
} sheets[] = {
    {PAPER_A4, SHEET_FULL, 595.276, 841.890}, // ISO 216: 210 mm x 297 mm
    {PAPER_A4, SHEET_HALF, 595.276, 420.945},
    {PAPER_LETTER, SHEET_FULL, 612, 792}, // ANSI/ASME Y14.1 size A: 8.5 in x 11 in
    {PAPER_LETTER, SHEET_HALF, 612, 396},
};
enum { SHEETS = sizeof sheets / sizeof sheets[0] };

START_TEST(every_chart_is_sound_on_every_sheet) {
    typedef void fill_case(struct chart_case *, enum paper, enum sheet_size);
    static fill_case *const cases[] = {chart_empty, chart_small, chart_shelf, chart_many_areas, chart_scripts};
    for (size_t i = 0; i < sizeof cases / sizeof cases[0]; i++) {
        cases[i](&chart, sheets[_i].paper, sheets[_i].sheet);
        make();
        ck_assert_double_eq_tol(layout.page.width, sheets[_i].width, 0.001);
        ck_assert_double_eq_tol(layout.page.height, sheets[_i].height, 0.001);
        ck_assert_int_eq(layout.page.dpi, 300);
        assert_sound();
        teas_layout_release(&layout);
    }
}
END_TEST

START_TEST(crowds_are_sound_on_every_sheet) {
    for (int long_names = 0; long_names < 2; long_names++) {
        chart_crowd(&chart, sheets[_i].paper, sheets[_i].sheet, 60, long_names);
        make();
        assert_sound();
        // Most marks keep their number even so.
        ck_assert_uint_le(layout.unlabelled_count, sheets[_i].sheet == SHEET_FULL ? 6 : 20);
        teas_layout_release(&layout);
    }
}
END_TEST

START_TEST(too_much_for_the_sheet_is_refused_in_words) {
    chart_crowd(&chart, PAPER_A4, SHEET_HALF, 120, true);
    layout = (struct teas_layout){.page = {.width = 1}};
    ck_assert_int_eq(lay_out(), STATUS_RANGE);
    ck_assert_ptr_nonnull(strstr(err.text, "take the full sheet"));
    ck_assert_double_eq(layout.page.width, 1); // untouched
    chart.input.page.sheet = SHEET_FULL;
    make();
    assert_sound();
    teas_layout_release(&layout);
    chart_crowd(&chart, PAPER_A4, SHEET_FULL, 200, true);
    ck_assert_int_eq(lay_out(), STATUS_RANGE);
    ck_assert_ptr_nonnull(strstr(err.text, "two charts"));
}
END_TEST

// --- geometry ---

START_TEST(corners_and_centre_lie_where_the_axes_say) {
    chart_small(&chart, PAPER_A4, SHEET_HALF);
    make();
    double side = layout.polar.x - layout.dispersion.x;
    ck_assert_double_eq_tol(layout.dispersion.y, layout.polar.y, 1e-9);
    ck_assert_double_eq_tol(layout.hydrogen_bonding.x, (layout.dispersion.x + layout.polar.x) / 2, 1e-9);
    ck_assert_double_eq_tol(layout.dispersion.y - layout.hydrogen_bonding.y, side * sqrt(3) / 2, 1e-9);
    for (size_t i = 0; i < layout.mark_count; i++) { // pure dispersion is the lower left corner
        if (layout.marks[i].number == 1) {
            ck_assert_double_eq_tol(layout.marks[i].at.x, layout.dispersion.x, 1e-9);
            ck_assert_double_eq_tol(layout.marks[i].at.y, layout.dispersion.y, 1e-9);
        }
    }
    // Distances on paper are distances of fractions: one percent is a hundredth of the side.
    const struct spot *a = &layout.areas[0].corners[0];
    const struct spot *b = &layout.areas[0].corners[3];
    double expected = teas_distance((struct teas){57, 15, 28}, (struct teas){36, 18, 46}) / 100 * side;
    ck_assert_double_eq_tol(hypot(a->x - b->x, a->y - b->y), expected, 1e-9);
}
END_TEST

START_TEST(the_blend_lies_on_the_line_between_its_bottles) {
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    make();
    ck_assert_uint_eq(layout.links.count, 1);
    for (size_t i = 0; i < layout.mark_count; i++)
        if (layout.marks[i].kind == TEAS_POINT_BLEND)
            ck_assert_double_lt(segment_distance(layout.links.items[0], layout.marks[i].at), 0.01);
}
END_TEST

START_TEST(three_bottles_make_a_triangle_and_four_a_star) {
    static const size_t three[] = {0, 1, 2}, four[] = {0, 1, 2, 4};
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    chart.points[3].parts = three;
    chart.points[3].part_count = 3;
    make();
    ck_assert_uint_eq(layout.links.count, 3);
    teas_layout_release(&layout);
    chart.points[4] = chart.points[0];
    chart.input.point_count = 5;
    chart.points[3].parts = four;
    chart.points[3].part_count = 4;
    make();
    ck_assert_uint_eq(layout.links.count, 3); // bottles 1 and 5 coincide: one line serves both
    teas_layout_release(&layout);
}
END_TEST

START_TEST(grid_lines_join_equal_values) {
    chart_empty(&chart, PAPER_A4, SHEET_FULL);
    make();
    ck_assert_uint_eq(layout.grid.count, 3 * 9);
    ck_assert_uint_eq(layout.ticks.count, 3 * 11);
    ck_assert_uint_eq(layout.scale.count, 3 * 11);
    double side = layout.polar.x - layout.dispersion.x;
    for (size_t i = 0; i < 9; i++) { // first scale: dispersion, 10 to 90
        struct segment line = layout.grid.items[i];
        double fd = 10 * (double)(i + 1);
        double length = hypot(line.to.x - line.from.x, line.to.y - line.from.y);
        ck_assert_double_eq_tol(length, side * (100 - fd) / 100, 1e-9);
        double from_right = segment_distance((struct segment){layout.polar, layout.hydrogen_bonding}, line.from);
        ck_assert_double_eq_tol(from_right, side * sqrt(3) / 2 * fd / 100, 1e-9);
    }
}
END_TEST

START_TEST(axes_are_named_in_words_and_arrows_point_to_larger_values) {
    chart_empty(&chart, PAPER_LETTER, SHEET_HALF);
    make();
    const struct spot larger[] = {layout.dispersion, layout.polar, layout.hydrogen_bonding};
    const char *const words[] = {"dispersion", "polar", "hydrogen bonding"};
    for (size_t i = 0; i < 3; i++) {
        const struct layout_axis *axis = &layout.axes[i];
        ck_assert_ptr_nonnull(strstr(axis->name.text, words[i]));
        double before = hypot(axis->arrow.from.x - larger[i].x, axis->arrow.from.y - larger[i].y);
        double after = hypot(axis->arrow.to.x - larger[i].x, axis->arrow.to.y - larger[i].y);
        ck_assert_double_lt(after, before);
        ck_assert_double_ge(axis->name.unit_x, 0.4); // read from left to right
    }
}
END_TEST

// --- labels ---

START_TEST(coincident_bottles_share_one_label) {
    chart_shelf(&chart, PAPER_A4, SHEET_FULL);
    make();
    bool found = false;
    for (size_t i = 0; i < layout.label_count; i++)
        found = found || strcmp(layout.labels[i].number.text, "1\u20133") == 0; // three alkanes at (100, 0, 0)
    ck_assert(found);
    ck_assert_uint_eq(layout.unlabelled_count, 0);
    ck_assert_uint_eq(layout.mark_count, 25);
}
END_TEST

START_TEST(numbers_run_through_the_kinds) {
    chart_shelf(&chart, PAPER_A4, SHEET_FULL);
    struct teas_chart_point blend = chart.points[20]; // given first, numbered after the bottles all the same
    static const size_t parts[] = {1, 15, 9};
    memmove(chart.points + 1, chart.points, 20 * sizeof *chart.points);
    chart.points[0] = blend;
    chart.points[0].parts = parts;
    make();
    for (size_t i = 0; i < layout.mark_count; i++)
        if (layout.marks[i].kind == TEAS_POINT_BLEND)
            ck_assert_uint_eq(layout.marks[i].number, 21);
    ck_assert_str_eq(layout.entries[6].number.text, "1");
    ck_assert_str_eq(layout.entries[6].lines.items[0].text, "isooctane\u00A0*");
}
END_TEST

START_TEST(few_points_carry_their_names) {
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    make();
    size_t named = 0;
    for (size_t i = 0; i < layout.label_count; i++)
        named += layout.labels[i].has_name;
    ck_assert_uint_ge(named, 2);
}
END_TEST

START_TEST(a_page_full_of_marks_says_which_have_no_number) {
    chart_empty(&chart, PAPER_A4, SHEET_HALF);
    for (size_t i = 0; i < 70; i++) // a carpet of neighbouring spots
        chart.points[i] = (struct teas_chart_point){
            TEAS_POINT_BOTTLE,
            "x",
            {60 - (double)(i % 8) - (double)(i / 8), 20 + (double)(i % 8), 20 + (double)(i / 8)},
            false,
            NULL,
            0};
    chart.input.point_count = 70;
    make();
    ck_assert_uint_gt(layout.unlabelled_count, 0);
    ck_assert(caption_says("In the legend only, no room in the chart: "));
    assert_sound();
}
END_TEST

// --- caption ---

START_TEST(the_caption_says_what_the_chart_is) {
    static const char *const more[] = {"Estimated regions are drawn with low confidence.", ""};
    chart_small(&chart, PAPER_A4, SHEET_HALF);
    chart.input.page.captions = more;
    chart.input.page.caption_count = 1;
    make();
    ck_assert(caption_says("Object: Fishing Boats at Slack Water, 1881"));
    ck_assert(caption_says("Date: 2024-05-17"));
    ck_assert(caption_says("Data: tables 0.1.0"));
    ck_assert(caption_says("Mixing rule: volume mean of published fractions"));
    ck_assert(caption_says("* computed from Hansen parameters, no published fractions"));
    ck_assert(caption_says(more[0]));
    ck_assert(caption_says("shows where liquids lie, does not prove safety"));
}
END_TEST

START_TEST(what_nobody_gave_is_said_to_be_missing) {
    chart_empty(&chart, PAPER_A4, SHEET_HALF);
    chart.input.page.title = NULL;
    chart.input.page.object = NULL;
    chart.input.page.date = "";
    make();
    ck_assert(caption_says("Object: not given"));
    ck_assert(caption_says("Date: not given"));
    ck_assert(!caption_says("computed from Hansen"));
    assert_sound();
}
END_TEST

START_TEST(words_of_another_language_are_used) {
    struct teas_chart_words german = *teas_chart_words_english();
    german.dispersion = "Dispersionskr\u00E4fte, %";
    german.bottles = "Flaschen";
    german.purpose = "Diese Karte zeigt Proben, sie beweist keine Sicherheit.";
    german.purpose_untested = "Diese Karte zeigt Orte, sie beweist keine Sicherheit.";
    chart_small(&chart, PAPER_A4, SHEET_HALF);
    chart.input.words = &german;
    make();
    ck_assert_str_eq(layout.axes[0].name.text, german.dispersion);
    ck_assert_str_eq(layout.entries[2].lines.items[0].text, "Flaschen");
    ck_assert(caption_says(german.purpose_untested)); // bottles and a blend; no test is plotted
    ck_assert(!caption_says(german.purpose));
    teas_layout_release(&layout);
    chart.points[0].kind = TEAS_POINT_TEST_NONE;
    make();
    ck_assert(caption_says(german.purpose));
    ck_assert(!caption_says(german.purpose_untested));
}
END_TEST

// --- refusals ---

static void assert_refused(const char *words) {
    assert_layout_refused(lay_out, &err, words);
}

START_TEST(points_outside_the_triangle_are_refused) {
    static const struct teas wrong[] = {{60, 20, 30}, {-5, 55, 50}, {NAN, 50, 50}, {INFINITY, 0, 0}, {0, 0, 0}};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        chart_small(&chart, PAPER_A4, SHEET_FULL);
        chart.points[1].place = wrong[i];
        assert_refused("'propan-2-ol'");
    }
    static const double outside[] = {57, 15, 28, 53, 30, 17, 90, 32, 21};
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    chart.areas[0].corners = outside;
    chart.areas[0].corner_count = 3;
    assert_refused("corner 3");
    chart.areas[0].corner_count = 2;
    assert_refused("2 corners");
}
END_TEST

START_TEST(rounded_fractions_are_taken) {
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    chart.points[1].place = (struct teas){33.3, 33.3, 33.3};
    make();
    teas_layout_release(&layout);
    chart.points[1].place = (struct teas){34, 34, 33};
    make();
}
END_TEST

START_TEST(counts_and_resolution_have_limits) {
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    chart.input.area_count = CHART_AREAS + 1;
    assert_refused("27 areas");
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    chart.input.point_count = TEAS_POINTS_MAX + 1;
    assert_refused("201 points");
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    chart.input.page.caption_count = CHART_CAPTIONS_MAX + 1;
    assert_refused("13 caption lines");
    chart_small(&chart, PAPER_A4, SHEET_FULL);
    chart.input.page.dpi = 71;
    assert_refused("71 dpi");
    chart.input.page.dpi = 1201;
    assert_refused("1201 dpi");
    chart.input.page.dpi = 1200;
    make();
    ck_assert_int_eq(layout.page.dpi, 1200);
}
END_TEST

START_TEST(a_caption_that_fills_the_sheet_is_refused) {
    static char endless[4000];
    memset(endless, 'x', sizeof endless - 1);
    const char *lines[CHART_CAPTIONS_MAX];
    for (size_t i = 0; i < CHART_CAPTIONS_MAX; i++)
        lines[i] = endless;
    chart_small(&chart, PAPER_LETTER, SHEET_HALF);
    chart.input.page.captions = lines;
    chart.input.page.caption_count = CHART_CAPTIONS_MAX;
    assert_refused("do not fit");
}
END_TEST

START_TEST(every_failed_allocation_is_reported) {
    chart_shelf(&chart, PAPER_A4, SHEET_HALF);
    assert_failed_allocations_reported(lay_out, 10, 5000);
}
END_TEST

// --- the whole as text ---

static void assert_as_text(const char *name) {
    struct text text = {0};
    make();
    teas_layout_text(&layout, &text);
    assert_golden(name, &text);
    text_release(&text);
}

START_TEST(a_small_chart_as_text) {
    chart_small(&chart, PAPER_A4, SHEET_HALF);
    assert_as_text("teas-small-a4-half.txt");
}
END_TEST

START_TEST(a_studio_shelf_as_text) {
    chart_shelf(&chart, PAPER_LETTER, SHEET_FULL);
    chart.input.page.black_and_white = true;
    assert_as_text("teas-shelf-letter-full.txt");
}
END_TEST

START_TEST(the_same_input_gives_the_same_text) {
    struct text first = {0}, second = {0};
    chart_crowd(&chart, PAPER_A4, SHEET_HALF, 60, true);
    make();
    teas_layout_text(&layout, &first);
    teas_layout_release(&layout);
    make();
    teas_layout_text(&layout, &second);
    ck_assert_str_eq(first.bytes, second.bytes);
    text_release(&first);
    text_release(&second);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("teas layout");
    TCase *tests = tcase_create("layout");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_loop_test(tests, every_chart_is_sound_on_every_sheet, 0, SHEETS);
    tcase_add_loop_test(tests, crowds_are_sound_on_every_sheet, 0, SHEETS);
    tcase_add_test(tests, too_much_for_the_sheet_is_refused_in_words);
    tcase_add_test(tests, corners_and_centre_lie_where_the_axes_say);
    tcase_add_test(tests, the_blend_lies_on_the_line_between_its_bottles);
    tcase_add_test(tests, three_bottles_make_a_triangle_and_four_a_star);
    tcase_add_test(tests, grid_lines_join_equal_values);
    tcase_add_test(tests, axes_are_named_in_words_and_arrows_point_to_larger_values);
    tcase_add_test(tests, coincident_bottles_share_one_label);
    tcase_add_test(tests, numbers_run_through_the_kinds);
    tcase_add_test(tests, few_points_carry_their_names);
    tcase_add_test(tests, a_page_full_of_marks_says_which_have_no_number);
    tcase_add_test(tests, the_caption_says_what_the_chart_is);
    tcase_add_test(tests, what_nobody_gave_is_said_to_be_missing);
    tcase_add_test(tests, words_of_another_language_are_used);
    tcase_add_test(tests, points_outside_the_triangle_are_refused);
    tcase_add_test(tests, rounded_fractions_are_taken);
    tcase_add_test(tests, counts_and_resolution_have_limits);
    tcase_add_test(tests, a_caption_that_fills_the_sheet_is_refused);
    tcase_add_test(tests, every_failed_allocation_is_reported);
    tcase_add_test(tests, a_small_chart_as_text);
    tcase_add_test(tests, a_studio_shelf_as_text);
    tcase_add_test(tests, the_same_input_gives_the_same_text);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
