// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/ladder_sites.h"

#include "base/language.h"

#include "selection/ladder_pairs.h"

#include <math.h>
#include <stdint.h>

enum { TONE_LIGHT = 1, TONE_DARK = 3 }; // places in tone_words

static const double slack = 1e-6;

const char *site_kind_words(enum site_kind kind) {
    static const char *const words[] = {N_("light"), N_("dark"), N_("sensitive")};
    return words[kind];
}

// --- a free spot ---

// Not on another passage that lies in this one, such as a cap in a boat, nor where a test was made.
static bool is_free(const struct casefile *file, const struct case_passage *passage, double x_mm, double y_mm) {
    const struct case_passage *passages = file->passages.items;
    double area = passage->place.width_mm * passage->place.height_mm;
    for (size_t i = 0; i < file->passages.count; i++) {
        const struct case_place *other = &passages[i].place;
        if (&passages[i] != passage && other->width_mm * other->height_mm < area && case_place_holds(other, x_mm, y_mm))
            return false;
    }
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++)
        if (!isnan(tests[i].x_mm) && hypot(tests[i].x_mm - x_mm, tests[i].y_mm - y_mm) < SITE_APART_MM - slack)
            return false;
    return true;
}

// From the passage's last test in rows of spots, so that a series lies side by side; else from its corner.
static void find_spot(const struct casefile *file, const struct case_passage *passage, struct ladder_site *site) {
    const struct case_place *place = &passage->place;
    site->x_mm = site->y_mm = NAN;
    if (isnan(place->x_mm))
        return;
    double width_mm = isnan(place->width_mm) ? 0 : place->width_mm;
    double height_mm = isnan(place->height_mm) ? 0 : place->height_mm;
    double edge_x_mm = fmin(SITE_EDGE_MM, width_mm / 2);
    double edge_y_mm = fmin(SITE_EDGE_MM, height_mm / 2);
    double start_x_mm = place->x_mm + edge_x_mm;
    double start_y_mm = place->y_mm + edge_y_mm;
    const struct case_test *tests = file->tests.items;
    for (size_t i = 0; i < file->tests.count; i++)
        if (case_test_in(&tests[i], passage->id) && case_place_holds(place, tests[i].x_mm, tests[i].y_mm)) {
            start_x_mm = tests[i].x_mm;
            start_y_mm = tests[i].y_mm;
        }
    double end_x_mm = place->x_mm + width_mm - edge_x_mm;
    double end_y_mm = place->y_mm + height_mm - edge_y_mm;
    for (double y_mm = start_y_mm; y_mm <= end_y_mm + slack; y_mm += SITE_APART_MM)
        for (double x_mm = y_mm > start_y_mm ? place->x_mm + edge_x_mm : start_x_mm; x_mm <= end_x_mm + slack;
             x_mm += SITE_APART_MM)
            if (is_free(file, passage, x_mm, y_mm)) {
                site->x_mm = x_mm;
                site->y_mm = y_mm;
                return;
            }
}

// --- one passage ---

static double done_in(const struct casefile *file, const struct ladder_direction *direction,
                      const struct case_passage *passage, bool *ret_stopped) {
    const struct case_test *tests = file->tests.items;
    double done = -1;
    *ret_stopped = false;
    for (size_t i = 0; i < file->tests.count; i++) {
        if (!case_test_in(&tests[i], passage->id))
            continue;
        *ret_stopped |= case_test_stops(&tests[i]);
        double share = ladder_share_of(direction, &tests[i].mix);
        if (!isnan(share))
            done = fmax(done, share);
    }
    return done;
}

static struct ladder_site site_in(const struct casefile *file, const struct ladder_direction *direction, size_t passage,
                                  enum site_kind kind, double percent) {
    const struct case_passage *where = (const struct case_passage *)file->passages.items + passage;
    struct ladder_site site = {.passage = passage, .kind = kind};
    site.done_percent = done_in(file, direction, where, &site.stopped);
    site.next_percent = percent;
    if (where->sensitive.count || direction->colour_percent >= 0)
        site.next_percent = fmin(percent, site.done_percent < 0 ? 0 : site.done_percent + LADDER_RISE_PERCENT);
    if (site.done_percent < 0 && direction->colour_percent >= 0 && direction->colour_percent < slack)
        site.next_percent = NAN;
    site.ready = site.done_percent >= percent - slack;
    find_spot(file, where, &site);
    return site;
}

// The passage of this tone to test in: open ones before stopped ones, sound before sensitive, then the most tested.
static bool choose(const struct casefile *file, const struct ladder_direction *direction, int tone, size_t *ret) {
    const struct case_passage *passages = file->passages.items;
    double best = -INFINITY;
    for (size_t i = 0; i < file->passages.count; i++) {
        bool stopped;
        done_in(file, direction, &passages[i], &stopped);
        double merit = (stopped ? -2e6 : 0) - (passages[i].sensitive.count ? 1e6 : 0) +
                       (double)case_tests_in(file, passages[i].id);
        if (passages[i].tone != tone || merit <= best)
            continue;
        best = merit;
        *ret = i;
    }
    return best > -INFINITY;
}

size_t ladder_sites(const struct casefile *file, const struct ladder_direction *direction, double percent,
                    struct ladder_site ret[LADDER_SITES_MAX]) {
    const struct case_passage *passages = file->passages.items;
    size_t count = 0;
    size_t light = SIZE_MAX;
    size_t dark = SIZE_MAX;
    if (choose(file, direction, TONE_LIGHT, &light))
        ret[count++] = site_in(file, direction, light, SITE_LIGHT, percent);
    if (choose(file, direction, TONE_DARK, &dark))
        ret[count++] = site_in(file, direction, dark, SITE_DARK, percent);
    for (size_t i = 0; i < file->passages.count && count < LADDER_SITES_MAX; i++)
        if (passages[i].sensitive.count && i != light && i != dark)
            ret[count++] = site_in(file, direction, i, SITE_SENSITIVE, percent);
    return count;
}
