// SPDX-License-Identifier: GPL-3.0-or-later
// Pictures on disk: the drawing module, the three formats, and what may go wrong.
#include "base/memory.h"
#include "charts.h"
#include "present/chart/canvas.h"
#include "present/chart/teas_chart.h"
#include "suite.h"
#include "workplace.h"

#include <check.h>
#include <math.h>
#include <signal.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <unistd.h>
#include <zlib.h>

static struct chart_case chart;
static struct error err;

static void begin(void) {
    workplace_enter();
    unsetenv("SOURCE_DATE_EPOCH");
    error_clear(&err);
    chart_small(&chart, PAPER_A4, SHEET_HALF);
}

static void write_chart(const char *path) {
    enum status status = teas_chart_write(&chart.input, path, NULL, &err);
    ck_assert_msg(status == STATUS_OK, "%s", err.text);
}

static unsigned char *read_whole(const char *path, size_t *ret_size) {
    FILE *file = fopen(path, "rb");
    ck_assert_msg(file != NULL, "no file %s", path);
    ck_assert_int_eq(fseek(file, 0, SEEK_END), 0);
    long size = ftell(file);
    rewind(file);
    unsigned char *bytes = malloc((size_t)size + 1);
    ck_assert_uint_eq(fread(bytes, 1, (size_t)size, file), (size_t)size);
    fclose(file);
    bytes[size] = '\0';
    *ret_size = (size_t)size;
    return bytes;
}

static bool contains(const unsigned char *bytes, size_t size, const char *words) {
    size_t length = strlen(words);
    for (size_t i = 0; i + length <= size; i++)
        if (memcmp(bytes + i, words, length) == 0)
            return true;
    return false;
}

// --- PNG (W3C Portable Network Graphics, second edition) ---

struct png {
    uint32_t width, height, per_metre;
    int depth, colour_type;
    unsigned char palette[256][3];
    unsigned char *rows; // each with its filter byte
    size_t row_bytes;
    char texts[4096];
};

static uint32_t number_at(const unsigned char *bytes) {
    return (uint32_t)bytes[0] << 24 | (uint32_t)bytes[1] << 16 | (uint32_t)bytes[2] << 8 | bytes[3];
}

static void read_chunk(struct png *png, const unsigned char *chunk, struct text *data) {
    uint32_t length = number_at(chunk);
    const unsigned char *body = chunk + 8;
    ck_assert_uint_eq(number_at(body + length), (uint32_t)crc32(0, chunk + 4, length + 4));
    if (memcmp(chunk + 4, "IHDR", 4) == 0) {
        png->width = number_at(body);
        png->height = number_at(body + 4);
        png->depth = body[8];
        png->colour_type = body[9];
    } else if (memcmp(chunk + 4, "pHYs", 4) == 0) {
        png->per_metre = number_at(body);
        ck_assert_uint_eq(number_at(body + 4), png->per_metre);
        ck_assert_int_eq(body[8], 1);
    } else if (memcmp(chunk + 4, "PLTE", 4) == 0) {
        memcpy(png->palette, body, length);
    } else if (memcmp(chunk + 4, "tEXt", 4) == 0 || memcmp(chunk + 4, "iTXt", 4) == 0) {
        size_t at = strlen(png->texts);
        for (uint32_t i = 0; i < length && at + 1 < sizeof png->texts; i++)
            png->texts[at++] = body[i] ? (char)body[i] : '|';
        png->texts[at] = '\0';
    } else if (memcmp(chunk + 4, "IDAT", 4) == 0) {
        text_add_n(data, (const char *)body, length);
    }
}

static struct png read_png(const char *path) {
    size_t size;
    unsigned char *bytes = read_whole(path, &size);
    struct png png = {0};
    struct text data = {0};
    ck_assert_int_eq(memcmp(bytes, "\x89PNG\r\n\x1A\n", 8), 0);
    for (size_t at = 8; at + 12 <= size; at += 12 + number_at(bytes + at))
        read_chunk(&png, bytes + at, &data);
    ck_assert_int_eq(memcmp(bytes + size - 8, "IEND", 4), 0);
    png.row_bytes = ((size_t)png.width * (size_t)png.depth + 7) / 8 + 1;
    uLongf total = png.row_bytes * png.height;
    png.rows = malloc(total);
    ck_assert_int_eq(uncompress(png.rows, &total, (const Bytef *)data.bytes, data.length), Z_OK);
    ck_assert_uint_eq(total, png.row_bytes * png.height);
    text_release(&data);
    free(bytes);
    return png;
}

// Grey value of the pixel at a place in points, 0 to 255.
static int shade_at(const struct png *png, double x, double y) {
    size_t column = (size_t)lround(x / 72 * 300 - 0.5);
    size_t row = (size_t)lround(y / 72 * 300 - 0.5);
    const unsigned char *line = png->rows + row * png->row_bytes;
    ck_assert_int_eq(line[0], 0); // no filter
    if (png->depth == 4)
        return (line[1 + column / 2] >> (column % 2 ? 0 : 4) & 0xF) * 17;
    const unsigned char *colour = png->palette[line[1 + column]];
    return (colour[0] + colour[1] + colour[2]) / 3;
}

static struct teas_layout layout_of_chart(void) {
    struct canvas canvas;
    struct teas_layout layout;
    ck_assert_int_eq(canvas_open(&canvas, NULL, &err), STATUS_OK);
    struct text_metric metric = canvas_metric(&canvas);
    ck_assert_int_eq(teas_layout_make(&chart.input, &metric, &layout, &err), STATUS_OK);
    canvas_close(&canvas);
    return layout;
}

static void assert_marks_drawn(const struct png *png) {
    struct teas_layout layout = layout_of_chart();
    for (size_t i = 0; i < layout.mark_count; i++) {
        const struct layout_mark *mark = &layout.marks[i];
        double r = mark->style.radius;
        bool bottle = mark->kind == TEAS_POINT_BOTTLE;
        if (bottle)
            ck_assert_int_le(shade_at(png, mark->at.x, mark->at.y), 8);
        else // the outline of the diamond, on the right corner
            ck_assert_int_le(shade_at(png, mark->at.x + r, mark->at.y), 120);
        ck_assert_int_ge(shade_at(png, mark->at.x, mark->at.y - (bottle ? r + 0.5 : r / 2)), 200);
    }
    ck_assert_int_eq(shade_at(png, 2, 2), 255);
    ck_assert_int_eq(shade_at(png, layout.page.width - 2, layout.page.height - 2), 255);
    struct spot middle = {(layout.dispersion.x + layout.polar.x) / 2 + 3, layout.polar.y};
    ck_assert_int_le(shade_at(png, middle.x, middle.y), 60); // the base of the triangle
    teas_layout_release(&layout);
}

START_TEST(a_png_has_size_resolution_caption_and_marks) {
    write_chart("chart.png");
    struct png png = read_png("chart.png");
    ck_assert_uint_eq(png.width, 2480); // 210 mm at 300 dpi
    ck_assert_uint_eq(png.height, 1754);
    ck_assert_uint_eq(png.per_metre, 11811);
    ck_assert_int_eq(png.colour_type, 3);
    ck_assert_ptr_nonnull(strstr(png.texts, "Title|Fishing Boats at Slack Water"));
    ck_assert_ptr_nonnull(strstr(png.texts, "does not prove safety"));
    ck_assert_ptr_nonnull(strstr(png.texts, "Mixing rule: volume mean"));
    assert_marks_drawn(&png);
    free(png.rows);
}
END_TEST

START_TEST(black_and_white_is_grey_only) {
    chart.input.page.black_and_white = true;
    write_chart("chart.png");
    struct png png = read_png("chart.png");
    ck_assert_int_eq(png.colour_type, 0);
    ck_assert_int_eq(png.depth, 4);
    assert_marks_drawn(&png);
    free(png.rows);
}
END_TEST

START_TEST(the_resolution_is_the_one_asked_for) {
    chart.input.page.dpi = 100;
    chart.input.page.sheet = SHEET_FULL;
    chart.input.page.paper = PAPER_LETTER;
    write_chart("chart.PNG");
    struct png png = read_png("chart.PNG");
    ck_assert_uint_eq(png.width, 850);
    ck_assert_uint_eq(png.height, 1100);
    ck_assert_uint_eq(png.per_metre, 3937);
    free(png.rows);
}
END_TEST

// --- all formats ---

static const char *const suffixes[] = {"png", "svg", "pdf"};

START_TEST(the_same_chart_gives_the_same_bytes) {
    chart_shelf(&chart, PAPER_A4, SHEET_HALF);
    char first[16], second[16];
    snprintf(first, sizeof first, "a.%s", suffixes[_i]);
    snprintf(second, sizeof second, "b.%s", suffixes[_i]);
    write_chart(first);
    write_chart(second);
    size_t size_a, size_b;
    unsigned char *a = read_whole(first, &size_a);
    unsigned char *b = read_whole(second, &size_b);
    ck_assert_uint_eq(size_a, size_b);
    ck_assert_int_eq(memcmp(a, b, size_a), 0);
    free(a);
    free(b);
}
END_TEST

START_TEST(every_script_is_drawn) {
    chart_scripts(&chart, PAPER_A4, SHEET_HALF);
    char path[16];
    snprintf(path, sizeof path, "a.%s", suffixes[_i]);
    write_chart(path);
    size_t size;
    unsigned char *bytes = read_whole(path, &size);
    ck_assert_uint_gt(size, 5000);
    free(bytes);
}
END_TEST

START_TEST(an_svg_tells_what_it_shows) {
    chart.input.page.title = "Mill Pond <with> Alders & Sheep";
    write_chart("chart.svg");
    size_t size;
    unsigned char *svg = read_whole("chart.svg", &size);
    ck_assert(contains(svg, size, "<title>Mill Pond &lt;with&gt; Alders &amp; Sheep</title>"));
    ck_assert(contains(svg, size, "<desc>Object: Fishing Boats"));
    ck_assert(contains(svg, size, "</svg>"));
    free(svg);
}
END_TEST

static bool pdf_says(const char *words) {
    write_chart("chart.pdf");
    size_t size;
    unsigned char *pdf = read_whole("chart.pdf", &size);
    ck_assert_int_eq(memcmp(pdf, "%PDF-", 5), 0);
    bool found = contains(pdf, size, words);
    free(pdf);
    return found;
}

START_TEST(a_pdf_is_dated_by_the_user_or_not_by_the_clock) {
    ck_assert(pdf_says("/CreationDate (20240517"));
    ck_assert(pdf_says("Fishing Boats at Slack Water"));
    chart.input.page.date = "May 2024";
    ck_assert(!pdf_says("/CreationDate"));
    setenv("SOURCE_DATE_EPOCH", "1000000000", 1); // 2001-09-09T01:46:40Z
    ck_assert(pdf_says("/CreationDate (20010909014640Z)"));
    setenv("SOURCE_DATE_EPOCH", "soon", 1);
    ck_assert(!pdf_says("/CreationDate"));
}
END_TEST

// --- the module ---

static bool loaded(const char *library) {
    FILE *maps = fopen("/proc/self/maps", "r");
    ck_assert_ptr_nonnull(maps);
    char line[4096];
    bool found = false;
    while (fgets(line, sizeof line, maps))
        found = found || strstr(line, library) != NULL;
    fclose(maps);
    return found;
}

START_TEST(drawing_libraries_are_loaded_on_demand) {
    ck_assert(!loaded("libcairo"));
    ck_assert(!loaded("libpango"));
    write_chart("chart.svg");
    ck_assert(loaded("libcairo"));
    ck_assert(loaded("libpango"));
}
END_TEST

START_TEST(a_missing_or_foreign_module_is_reported) {
    struct canvas canvas = {0};
    ck_assert_int_eq(canvas_open(&canvas, workplace, &err), STATUS_SYSTEM);
    ck_assert_ptr_nonnull(strstr(err.text, "charts need it"));
    put("mildsolve-draw.so", "no library at all");
    ck_assert_int_eq(canvas_open(&canvas, workplace, &err), STATUS_SYSTEM);
    ck_assert_ptr_nonnull(strstr(err.text, "cannot load the drawing module"));
    canvas_close(&canvas);
    canvas_close(NULL);
}
END_TEST

// --- what may go wrong ---

START_TEST(unknown_suffixes_are_refused_with_the_known_ones) {
    static const char *const paths[] = {"chart", "chart.jpg", "folder.png/chart", "chart.png.txt", "", "chart."};
    for (size_t i = 0; i < sizeof paths / sizeof paths[0]; i++) {
        ck_assert_int_eq(teas_chart_write(&chart.input, paths[i], NULL, &err), STATUS_USAGE);
        ck_assert_ptr_nonnull(strstr(err.text, ".png, .svg or .pdf"));
    }
    ck_assert_uint_eq(entries(), 0);
}
END_TEST

START_TEST(a_missing_directory_is_named) {
    ck_assert_int_eq(teas_chart_write(&chart.input, "missing/chart.png", NULL, &err), STATUS_SYSTEM);
    ck_assert_str_eq(err.text, "cannot write 'missing/chart.png': the directory does not exist");
}
END_TEST

START_TEST(a_full_disk_leaves_nothing_behind) {
    char path[16];
    snprintf(path, sizeof path, "a.%s", suffixes[_i]);
    signal(SIGXFSZ, SIG_IGN);
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &(struct rlimit){8000, 8000}), 0);
    ck_assert_int_eq(teas_chart_write(&chart.input, path, NULL, &err), STATUS_SYSTEM);
    ck_assert_ptr_nonnull(strstr(err.text, path));
    ck_assert_uint_eq(entries(), 0);
}
END_TEST

START_TEST(every_failed_allocation_is_reported) {
    chart.input.page.dpi = 72;
    char path[16];
    snprintf(path, sizeof path, "a.%s", suffixes[_i]);
    unsigned long n = 1;
    for (; n < 2000; n++) {
        memory_fail_at(n);
        enum status status = teas_chart_write(&chart.input, path, NULL, &err);
        memory_fail_at(0);
        if (status == STATUS_OK)
            break;
        ck_assert_msg(status == STATUS_MEMORY || status == STATUS_SYSTEM, "%lu: %s", n, err.text);
        ck_assert_uint_eq(entries(), 0);
    }
    ck_assert_uint_gt(n, 10);
    ck_assert_uint_lt(n, 2000);
}
END_TEST

int main(void) {
    Suite *suite = suite_create("canvas");
    TCase *tests = tcase_create("files");
    tcase_set_timeout(tests, 120);
    tcase_add_checked_fixture(tests, begin, workplace_leave);
    tcase_add_test(tests, drawing_libraries_are_loaded_on_demand);
    tcase_add_test(tests, a_png_has_size_resolution_caption_and_marks);
    tcase_add_test(tests, black_and_white_is_grey_only);
    tcase_add_test(tests, the_resolution_is_the_one_asked_for);
    tcase_add_loop_test(tests, the_same_chart_gives_the_same_bytes, 0, 3);
    tcase_add_loop_test(tests, every_script_is_drawn, 0, 3);
    tcase_add_test(tests, an_svg_tells_what_it_shows);
    tcase_add_test(tests, a_pdf_is_dated_by_the_user_or_not_by_the_clock);
    tcase_add_test(tests, a_missing_or_foreign_module_is_reported);
    tcase_add_test(tests, unknown_suffixes_are_refused_with_the_known_ones);
    tcase_add_test(tests, a_missing_directory_is_named);
    tcase_add_loop_test(tests, a_full_disk_leaves_nothing_behind, 0, 3);
    tcase_add_loop_test(tests, every_failed_allocation_is_reported, 0, 3);
    suite_add_tcase(suite, tests);
    return suite_run_in_processes(suite);
}
