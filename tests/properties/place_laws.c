// SPDX-License-Identifier: GPL-3.0-or-later
// Where a blend sits.
#include "base/units.h"
#include "draw.h"
#include "physics/place.h"
#include "physics/recipe.h"

#include <float.h>
#include <string.h>

// The mean as one works it out by hand, from bottles and their content.
static bool plain_mean(const struct library *lib, const struct blend *blend, struct hansen *ret) {
    double parts = 0, d = 0, p = 0, h = 0;
    for (size_t i = 0; i < blend->part_count; i++) {
        const struct bottle_ref *bottle = &blend->parts[i].bottle;
        size_t count = bottle->bottle ? bottle->bottle->composition.count : 1;
        const struct bottle_part *inside = bottle->bottle ? bottle->bottle->composition.items : NULL;
        double percent = 0;
        for (size_t j = 0; j < count; j++)
            percent += inside ? inside[j].percent : 100;
        for (size_t j = 0; j < count; j++) {
            const struct component *component = inside ? tables_component(lib, inside[j].component) : bottle->component;
            double share = blend->parts[i].parts * (inside ? inside[j].percent / percent : 1);
            d += share * component->hansen.delta_d;
            p += share * component->hansen.delta_p;
            h += share * component->hansen.delta_h;
        }
        parts += blend->parts[i].parts;
    }
    *ret = (struct hansen){d / parts, p / parts, h / parts};
    return hansen_known(*ret);
}

static bool same_place(struct hansen a, struct hansen b) {
    return alike(a.delta_d, b.delta_d, 1e-12, 1e-12) && alike(a.delta_p, b.delta_p, 1e-12, 1e-12) &&
           alike(a.delta_h, b.delta_h, 1e-12, 1e-12);
}

static bool same_point(struct teas a, struct teas b) {
    return alike(a.fd, b.fd, 1e-12, 1e-10) && alike(a.fp, b.fp, 1e-12, 1e-10) && alike(a.fh, b.fh, 1e-12, 1e-10);
}

static enum outcome mean_is_the_sum(struct trial *trial) {
    struct blend blend = draw_blend(trial, 6);
    struct hansen plain, mean;
    if (!plain_mean(trial->lib, &blend, &plain))
        return NOT_COVERED;
    REQUIRE(hansen_of_blend(&blend, &mean, NULL) == STATUS_OK, "no place, but the parts have theirs");
    REQUIRE(same_place(plain, mean), "delta_h %.17g, by hand %.17g", mean.delta_h, plain.delta_h);
    double sum = 0;
    for (size_t i = 0; i < blend.count; i++) {
        REQUIRE(blend.volume_fractions[i] > 0 && blend.volume_fractions[i] <= 1, "a share outside 0 to 1");
        sum += blend.volume_fractions[i];
    }
    REQUIRE(fabs(sum - 1) < 1e-12, "shares sum to %.17g", sum);
    return HELD;
}

static enum outcome place_is_of_the_liquid(struct trial *trial) {
    struct blend blend = draw_blend(trial, 5);
    struct rewritten other;
    struct hansen place, again;
    struct teas point, point_again;
    if (!rewrite_blend(trial, &blend, &other) || hansen_of_blend(&blend, &place, NULL) != STATUS_OK)
        return NOT_COVERED;
    REQUIRE(hansen_of_blend(&other.blend, &again, NULL) == STATUS_OK && same_place(place, again), "another place");
    for (int rule = TEAS_MEAN_OF_FRACTIONS; rule <= TEAS_OF_MEAN_HANSEN; rule++) {
        if (teas_of_blend(&blend, (enum teas_rule)rule, &point, NULL, NULL) != STATUS_OK)
            continue;
        REQUIRE(teas_of_blend(&other.blend, (enum teas_rule)rule, &point_again, NULL, NULL) == STATUS_OK &&
                    same_point(point, point_again),
                "another point by rule %d", rule);
        // Published fractions are printed in whole percent and need not sum to 100; computed ones do.
        double sum = point.fd + point.fp + point.fh;
        REQUIRE(fabs(sum - 100) < (rule == TEAS_OF_MEAN_HANSEN ? 1e-9 : 2.5), "fractions sum to %.17g", sum);
        REQUIRE(point.fd >= 0 && point.fp >= 0 && point.fh >= 0, "a fraction below 0");
    }
    return HELD;
}

static struct hansen draw_place(struct random *random) {
    double d = 12 + 10 * random_uniform(random), p = 25 * random_uniform(random);
    return (struct hansen){d, p, 45 * random_uniform(random)};
}

static enum outcome distance_is_a_distance(struct trial *trial) {
    struct random *random = &trial->random;
    struct hansen a = draw_place(random), b = draw_place(random), c = draw_place(random);
    double ab = hansen_distance(a, b), bc = hansen_distance(b, c), ac = hansen_distance(a, c);
    REQUIRE(ab >= 0 && hansen_distance(a, a) == 0 && ab == hansen_distance(b, a), "not symmetric or below 0");
    REQUIRE(at_least(ab + bc, ac, 1e-12), "a detour of %.17g + %.17g is shorter than %.17g", ab, bc, ac);
    REQUIRE(alike(hansen_exchange_energy(a, b), ab * ab / 4, 1e-12, 0), "energy of exchange");
    // Away from the centre along a straight line: Ra and RED grow with the way.
    struct sphere_values sphere = {.delta_d = a.delta_d, .delta_p = a.delta_p, .delta_h = a.delta_h, .r0 = 5};
    double last = -1;
    for (int step = 0; step <= 4; step++) {
        double t = step / 4.0;
        struct hansen at = {a.delta_d + t * (b.delta_d - a.delta_d), a.delta_p + t * (b.delta_p - a.delta_p),
                            a.delta_h + t * (b.delta_h - a.delta_h)};
        double red = hansen_red(at, &sphere);
        REQUIRE(alike(red, t * ab / 5, 1e-9, 1e-12) && red > last, "RED %.17g at %g of the way", red, t);
        last = red;
    }
    struct teas p = teas_of_hansen(a), q = teas_of_hansen(b);
    double px, py, qx, qy;
    teas_xy(p, &px, &py);
    teas_xy(q, &qx, &qy);
    REQUIRE(alike(teas_distance(p, q), 100 * hypot(px - qx, py - qy), 1e-9, 1e-9), "triangle and drawing differ");
    return HELD;
}

// Against every material of the tables: the same figures for the same liquid; inside and distance agree.
static enum outcome regions_agree(struct trial *trial) {
    struct blend blend = draw_blend(trial, 4);
    struct hansen place;
    struct teas point;
    if (hansen_of_blend(&blend, &place, NULL) != STATUS_OK ||
        teas_of_blend(&blend, TEAS_MEAN_OF_FRACTIONS, &point, NULL, NULL) != STATUS_OK)
        return NOT_COVERED;
    const struct material *material = &trial->lib->materials[random_below(&trial->random, trial->lib->material_count)];
    struct material_place found;
    place_against(material, &place, &point, &found);
    note(trial, "%s: ", material->id);
    if (isfinite(material->sphere.r0)) {
        double ra = hansen_distance(place, hansen_of_sphere(&material->sphere));
        REQUIRE(alike(found.ra_mpa05, ra, 1e-12, 0) && alike(found.red * material->sphere.r0, ra, 1e-12, 0),
                "Ra %g, RED %g", found.ra_mpa05, found.red);
    } else {
        REQUIRE(isnan(found.red), "RED %g without a sphere", found.red);
    }
    REQUIRE((found.area == NULL) == isnan(found.teas_distance), "a distance without an area, or none with one");
    if (found.area)
        REQUIRE(found.teas_distance >= 0 && found.inside_area == teas_inside(point, found.area),
                "distance %g to an area", found.teas_distance);
    return HELD;
}

static enum outcome ppm_both_ways(struct trial *trial) {
    struct random *random = &trial->random;
    double mass = random_between(random, 16, 500), ppm = random_between(random, 1e-3, 1e6);
    double volume = gas_molar_volume_l_mol(kelvin_from_celsius(-20 + 80 * random_uniform(random)), ATMOSPHERE_KPA);
    double mg_m3 = mg_m3_from_ppm(ppm, mass, volume);
    note(trial, "M %g, %g ppm, Vm %g: ", mass, ppm, volume);
    // ppm = mL/m3: so many mL of vapour hold mL/Vm mmol, of M mg each.
    REQUIRE(alike(mg_m3, ppm / volume * mass, 1e-12, 0), "%g mg/m3", mg_m3);
    REQUIRE(alike(ppm_from_mg_m3(mg_m3, mass, volume), ppm, 8 * DBL_EPSILON, 0), "does not come back");
    return HELD;
}

// A batch keeps its volume and comes as near to the shares as its steps allow.
static enum outcome batches_add_up(struct trial *trial) {
    struct blend blend = draw_blend(trial, 4);
    struct recipe recipe;
    double step = random_uniform(&trial->random) < 0.7 ? 1 : 0.5;
    double volume = step * (double)(1 + random_below(&trial->random, 400)), sum = 0, percent = 0;
    if (recipe_make(trial->lib, &blend, volume, step, &recipe, NULL) != STATUS_OK)
        return NOT_COVERED; // a share would round to nothing
    for (size_t i = 0; i < recipe.count; i++) {
        const struct recipe_line *line = &recipe.lines[i];
        double steps = line->add_ml / step;
        REQUIRE(line->add_ml > 0 && fabs(steps - round(steps)) < 1e-9, "%g mL", line->add_ml);
        REQUIRE(fabs(line->add_ml - volume * line->asked_percent / 100) < step * (1 + 1e-9), "%g mL for %g %% of %g mL",
                line->add_ml, line->asked_percent, volume);
        sum += line->add_ml;
        percent += line->reached_percent;
    }
    REQUIRE(alike(sum, volume, 1e-12, 0) && alike(recipe.total_ml, volume, 1e-12, 0), "%g mL of %g", sum, volume);
    REQUIRE(fabs(percent - 100) < 1e-9 && recipe.shift_percent >= 0, "shares of %g %% together", percent);
    return HELD;
}

// A leftover of some of the bottles becomes the blend: nothing is taken out of it, one bottle needs no more at the
// least, and every share is met to half a step of each bottle.
static enum outcome leftovers_become_the_blend(struct trial *trial) {
    struct blend blend = draw_blend(trial, 4), leftover;
    struct blend_part parts[BLEND_BOTTLES_MAX];
    struct recipe recipe;
    struct error err = {0};
    size_t count = 1 + random_below(&trial->random, blend.part_count);
    for (size_t i = 0; i < count; i++)
        parts[i] = (struct blend_part){blend.parts[i].bottle, random_between(&trial->random, 0.1, 10)};
    double leftover_ml = random_between(&trial->random, 1, 200), step = random_uniform(&trial->random) < 0.5 ? 1 : 0.5;
    REQUIRE(blend_make(trial->lib, parts, count, &leftover, &err) == STATUS_OK, "%s", err.text);
    note(trial, "%g mL of %zu bottles of it: ", leftover_ml, count);
    if (recipe_correct(trial->lib, &leftover, leftover_ml, &blend, 0, step, &recipe, &err) == STATUS_RANGE) {
        REQUIRE(strstr(err.text, "cannot be measured in steps"), "%s", err.text);
        return NOT_COVERED;
    }
    double have = 0, total = 0, percent = 0, least_added = INFINITY;
    for (size_t i = 0; i < recipe.count; i++) {
        const struct recipe_line *line = &recipe.lines[i];
        double steps = line->add_ml / step;
        REQUIRE(line->add_ml >= 0 && line->have_ml >= 0 && fabs(steps - round(steps)) < 1e-9, "add %g mL to %g",
                line->add_ml, line->have_ml);
        have += line->have_ml;
        total += line->have_ml + line->add_ml;
        percent += line->reached_percent;
        least_added = fmin(least_added, line->add_ml);
    }
    REQUIRE(alike(have, leftover_ml, 1e-9, 0) && alike(recipe.total_ml, total, 1e-9, 0) && fabs(percent - 100) < 1e-9,
            "%g mL of %g, %g in all", have, leftover_ml, total);
    REQUIRE(least_added == 0, "every bottle is added to, %g mL at least", least_added);
    double rounding = 100 * 0.5 * step * (double)recipe.count / total;
    for (size_t i = 0; i < recipe.count; i++)
        REQUIRE(fabs(recipe.lines[i].reached_percent - recipe.lines[i].asked_percent) <= rounding * (1 + 1e-9),
                "%g %% of %g asked for, steps of %g mL", recipe.lines[i].reached_percent, recipe.lines[i].asked_percent,
                step);
    return HELD;
}

// What is read from the written recipe is the recipe; the file rounds shares to six digits.
static enum outcome notation_comes_back(struct trial *trial) {
    struct blend blend = draw_blend(trial, 5), again;
    struct text words = {0};
    struct error err = {0};
    blend_write(&blend, &words);
    enum status status = blend_parse(trial->lib, text_bytes(&words), &again, NULL, &err);
    text_release(&words);
    REQUIRE(status == STATUS_OK, "%s", err.text);
    REQUIRE(again.count == blend.count && again.part_count == blend.part_count, "another number of bottles");
    for (size_t i = 0; i < blend.count; i++)
        REQUIRE(again.components[i] == blend.components[i] &&
                    alike(again.volume_fractions[i], blend.volume_fractions[i], 2e-5, 0),
                "%s: %g of %g", blend.components[i]->id, again.volume_fractions[i], blend.volume_fractions[i]);
    return HELD;
}

static const struct law laws[] = {
    {"hansen-mean", "the Hansen mean is the plain sum over bottles and content", 5, mean_is_the_sum},
    {"place-rewritten", "order, scaling and splitting of bottles leave Hansen and Teas place alone", 5,
     place_is_of_the_liquid},
    {"distance", "Ra is a metric, RED grows with distance, the triangle is as drawn", 4, distance_is_a_distance},
    {"regions", "a blend against a material: Ra, RED, inside and edge agree", 4, regions_agree},
    {"ppm", "ppm to mg/m3 and back", 3, ppm_both_ways},
    {"batch", "a batch keeps its volume and meets its shares to a step", 4, batches_add_up},
    {"leftover", "a leftover becomes the blend with the least addition", 3, leftovers_become_the_blend},
    {"notation", "a written blend is read as the same blend", 4, notation_comes_back},
};
const struct law_list place_laws = LAWS(laws);
