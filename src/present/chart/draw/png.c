// SPDX-License-Identifier: GPL-3.0-or-later
// PNG by bands: a strip of the page is drawn, reduced to few shades and compressed before the next one, so that memory
// does not grow with the resolution.
#include "present/chart/draw/painter.h"

#include <math.h>
#include <png.h>
#include <setjmp.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <zlib.h>

enum {
    BAND_ROWS = 96,
    PALETTE_MAX = 256,
    GREY_STEPS = 64,   // from black to white
    COLOUR_STEPS = 24, // from one ink to white, for the soft edges of its lines
    COLOURS_MAX = 8,
    KEYS = 1 << 15 // 5 bits of red, green and blue
};

static const double inch_per_metre = 1 / 0.0254;

struct shades {
    bool grey; // no coloured ink: 4 bits per pixel, no palette
    png_color palette[PALETTE_MAX];
    int count;
    int16_t nearest[KEYS]; // index into palette, -1 = not yet asked for
};

struct job {
    const struct draw_sink *sink;
    struct error *err;
    enum status status; // of the sink
    const struct picture *picture;
    struct painter *painter;
    png_structp png;
    png_infop info;
    uint32_t width, height; // pixels
    unsigned char *pixels;  // BAND_ROWS rows of 4 bytes each
    unsigned char *row;     // one row as written
    struct shades *shades;
};

// --- shades ---

static unsigned char byte_of(double part) {
    return (unsigned char)lround(part * 255);
}

static bool coloured(struct rgb colour) {
    return byte_of(colour.red) != byte_of(colour.green) || byte_of(colour.green) != byte_of(colour.blue);
}

static bool same_colour(struct rgb a, struct rgb b) {
    return a.red == b.red && a.green == b.green && a.blue == b.blue;
}

static void note_colour(struct rgb colour, struct rgb found[COLOURS_MAX], size_t *count) {
    if (!coloured(colour))
        return;
    for (size_t i = 0; i < *count; i++)
        if (same_colour(found[i], colour))
            return;
    if (*count < COLOURS_MAX)
        found[(*count)++] = colour;
}

static size_t find_colours(const struct picture *picture, struct rgb found[COLOURS_MAX]) {
    size_t count = 0;
    for (size_t i = 0; i < picture->count; i++) {
        note_colour(picture->items[i].fill, found, &count);
        note_colour(picture->items[i].stroke, found, &count);
    }
    return count;
}

static void add_ramp(struct shades *shades, struct rgb from, int steps) {
    for (int i = 0; i < steps && shades->count < PALETTE_MAX; i++) {
        double share = (double)i / (steps - 1);
        shades->palette[shades->count++] =
            (png_color){byte_of(from.red + (1 - from.red) * share), byte_of(from.green + (1 - from.green) * share),
                        byte_of(from.blue + (1 - from.blue) * share)};
    }
}

static void choose_shades(const struct picture *picture, struct shades *shades) {
    struct rgb colours[COLOURS_MAX];
    size_t count = find_colours(picture, colours);
    shades->grey = count == 0;
    shades->count = 0;
    add_ramp(shades, (struct rgb){0, 0, 0}, GREY_STEPS);
    for (size_t i = 0; i < count; i++)
        add_ramp(shades, colours[i], COLOUR_STEPS);
    for (int i = 0; i < KEYS; i++)
        shades->nearest[i] = -1;
}

static int square(int x) {
    return x * x;
}

static int find_nearest(const struct shades *shades, unsigned key) {
    int red = (int)(key >> 10 & 31u) * 255 / 31;
    int green = (int)(key >> 5 & 31u) * 255 / 31;
    int blue = (int)(key & 31u) * 255 / 31;
    int best = 0;
    int best_distance = 4 * 255 * 255;
    for (int i = 0; i < shades->count; i++) {
        const png_color *c = &shades->palette[i];
        int distance = square(c->red - red) + square(c->green - green) + square(c->blue - blue);
        if (distance < best_distance) {
            best_distance = distance;
            best = i;
        }
    }
    return best;
}

// Neighbouring pixels are mostly equal (white), so the last answer is kept.
static void reduce_colour(struct job *job, const uint32_t *pixels) {
    struct shades *shades = job->shades;
    uint32_t last = ~pixels[0];
    unsigned char index = 0;
    for (uint32_t x = 0; x < job->width; x++) {
        uint32_t pixel = pixels[x];
        if (pixel != last) {
            last = pixel;
            unsigned key = (pixel >> 9 & 0x7C00u) | (pixel >> 6 & 0x3E0u) | (pixel >> 3 & 0x1Fu);
            if (shades->nearest[key] < 0)
                shades->nearest[key] = (int16_t)find_nearest(shades, key);
            index = (unsigned char)shades->nearest[key];
        }
        job->row[x] = index;
    }
}

// Two pixels to the byte, the left one in the high bits.
static void reduce_grey(struct job *job, const uint32_t *pixels) {
    memset(job->row, 0, (job->width + 1) / 2);
    for (uint32_t x = 0; x < job->width; x++) {
        unsigned level = pixels[x] >> 4 & 0xFu;
        job->row[x / 2] = (unsigned char)(job->row[x / 2] | level << (x % 2 ? 0 : 4));
    }
}

// --- libpng's calls back ---

static void *png_memory(png_structp png, png_alloc_size_t size) {
    const struct draw_host *host = png_get_mem_ptr(png);
    return host->memory_new(size, 1);
}

static void png_release(png_structp png, void *block) {
    const struct draw_host *host = png_get_mem_ptr(png);
    host->memory_free(block);
}

static void png_bytes(png_structp png, png_bytep bytes, size_t size) {
    struct job *job = png_get_io_ptr(png);
    job->status = job->sink->write(job->sink->data, bytes, size, job->err);
    if (job->status != STATUS_OK)
        png_longjmp(png, 1);
}

static void png_nothing_to_flush(png_structp png) {
    (void)png;
}

static void png_failed(png_structp png, const char *message) {
    struct job *job = png_get_error_ptr(png);
    job->status = error_set(job->err, STATUS_SYSTEM, "cannot write the picture: %s", message);
    png_longjmp(png, 1);
}

static void png_remark(png_structp png, const char *message) {
    (void)png;
    (void)message;
}

// --- the file ---

static bool plain_ascii(const char *text) {
    for (; *text; text++)
        if ((unsigned char)*text >= 0x80)
            return false;
    return true;
}

static void set_texts(struct job *job) {
    const struct picture *picture = job->picture;
    struct {
        const char *key, *text;
    } texts[] = {{"Title", picture->title},
                 {"Description", picture->description},
                 {"Creation Time", picture->date},
                 {"Software", "mildsolve"}};
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        if (!texts[i].text[0])
            continue;
        char key[16];
        snprintf(key, sizeof key, "%s", texts[i].key);
        // tEXt is Latin-1 only; iTXt is UTF-8. libpng copies both and does not write to them.
        bool ascii = plain_ascii(texts[i].text);
        png_text text = {.compression = ascii ? PNG_TEXT_COMPRESSION_NONE : PNG_ITXT_COMPRESSION_NONE,
                         .key = key,
                         .text = (png_charp)texts[i].text};
        png_set_text(job->png, job->info, &text, 1);
    }
}

static void write_head(struct job *job) {
    bool grey = job->shades->grey;
    png_set_IHDR(job->png, job->info, job->width, job->height, grey ? 4 : 8,
                 grey ? PNG_COLOR_TYPE_GRAY : PNG_COLOR_TYPE_PALETTE, PNG_INTERLACE_NONE, PNG_COMPRESSION_TYPE_DEFAULT,
                 PNG_FILTER_TYPE_DEFAULT);
    if (!grey)
        png_set_PLTE(job->png, job->info, job->shades->palette, job->shades->count);
    uint32_t per_metre = (uint32_t)lround(job->picture->dpi * inch_per_metre);
    png_set_pHYs(job->png, job->info, per_metre, per_metre, PNG_RESOLUTION_METER);
    set_texts(job);
    // Long runs of one shade need no filter and no search for repetitions: the fastest settings lose little here.
    png_set_filter(job->png, PNG_FILTER_TYPE_BASE, PNG_FILTER_NONE);
    png_set_compression_level(job->png, 1);
    png_set_compression_strategy(job->png, Z_DEFAULT_STRATEGY);
    png_set_compression_buffer_size(job->png, 64 * 1024);
    png_write_info(job->png, job->info);
}

static void draw_band(struct job *job, cairo_surface_t *surface, cairo_t *cr, uint32_t first) {
    double scale_x = job->width / job->picture->width;
    double scale_y = job->height / job->picture->height;
    cairo_identity_matrix(cr);
    cairo_set_source_rgb(cr, 1, 1, 1);
    cairo_paint(cr);
    cairo_translate(cr, 0, -(double)first);
    cairo_scale(cr, scale_x, scale_y);
    painter_draw(job->painter, cr, job->picture, first / scale_y, (first + BAND_ROWS) / scale_y);
    cairo_surface_flush(surface);
}

static void write_band(struct job *job, uint32_t first) {
    for (uint32_t y = 0; y < BAND_ROWS && first + y < job->height; y++) {
        const uint32_t *pixels = (const uint32_t *)(const void *)(job->pixels + (size_t)y * job->width * 4);
        if (job->shades->grey)
            reduce_grey(job, pixels);
        else
            reduce_colour(job, pixels);
        png_write_row(job->png, job->row);
    }
}

// Nothing is made between setjmp and a possible longjmp that the caller does not release.
static enum status write_all(struct job *job, cairo_surface_t *surface, cairo_t *cr) {
    if (setjmp(png_jmpbuf(job->png)))
        return job->status;
    write_head(job);
    for (uint32_t first = 0; first < job->height; first += BAND_ROWS) {
        draw_band(job, surface, cr, first);
        write_band(job, first);
    }
    png_write_end(job->png, NULL);
    return STATUS_OK;
}

static enum status no_memory(struct error *err) {
    return error_set(err, STATUS_MEMORY, "out of memory while drawing the picture");
}

static enum status draw_with(struct job *job) {
    cairo_surface_t *surface = cairo_image_surface_create_for_data(job->pixels, CAIRO_FORMAT_RGB24, (int)job->width,
                                                                   BAND_ROWS, (int)job->width * 4);
    cairo_t *cr = cairo_create(surface);
    bool ready = cairo_status(cr) == CAIRO_STATUS_SUCCESS;
    enum status status = ready ? write_all(job, surface, cr) : no_memory(job->err);
    if (status == STATUS_OK && cairo_status(cr) != CAIRO_STATUS_SUCCESS)
        status =
            error_set(job->err, STATUS_SYSTEM, "cannot draw the picture: %s", cairo_status_to_string(cairo_status(cr)));
    cairo_destroy(cr);
    cairo_surface_destroy(surface);
    return status;
}

enum status draw_png(struct draw_session *session, const struct picture *picture, const struct draw_sink *sink,
                     struct error *err) {
    const struct draw_host *host = session->host;
    struct job job = {.sink = sink, .err = err, .picture = picture, .painter = &session->painter};
    job.width = (uint32_t)lround(picture->width * picture->dpi / 72);
    job.height = (uint32_t)lround(picture->height * picture->dpi / 72);
    job.pixels = host->memory_new((size_t)job.width * BAND_ROWS, 4);
    job.row = host->memory_new(job.width, 1);
    job.shades = host->memory_new(1, sizeof *job.shades);
    job.png = png_create_write_struct_2(PNG_LIBPNG_VER_STRING, &job, png_failed, png_remark, (png_voidp)(uintptr_t)host,
                                        png_memory, png_release);
    job.info = job.png ? png_create_info_struct(job.png) : NULL;
    enum status status = STATUS_OK;
    if (!job.pixels || !job.row || !job.shades || !job.info) {
        status = no_memory(err);
    } else {
        png_set_write_fn(job.png, &job, png_bytes, png_nothing_to_flush);
        choose_shades(picture, job.shades);
        status = draw_with(&job);
    }
    png_destroy_write_struct(&job.png, &job.info);
    host->memory_free(job.shades);
    host->memory_free(job.row);
    host->memory_free(job.pixels);
    return status;
}
