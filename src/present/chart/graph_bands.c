// SPDX-License-Identifier: GPL-3.0-or-later
// Names of stacked bands: inside where a band is wide enough, else beside it with a leader to a dot in the band.
#include "present/chart/graph_panel_parts.h"

#include <math.h>

static const double margin = 2;      // white round a name
static const double column_step = 2; // pt between the places looked at
static const double dot = 1.3;

// A band seen in columns: its upper and lower edge, pt.
struct profile {
    double *upper, *lower;
    size_t count;
};

// Level of an edge at x; edges run from left to right.
static double edge_at(const struct spot *spots, size_t count, double x) {
    size_t i = 1;
    while (i + 1 < count && spots[i].x < x)
        i++;
    struct spot a = spots[i - 1];
    struct spot b = spots[i];
    double share = b.x > a.x ? fmin(fmax((x - a.x) / (b.x - a.x), 0), 1) : 1;
    return a.y + share * (b.y - a.y);
}

static double lower_at(const struct panel_band *band, double x) {
    return edge_at(band->corners, band->corner_count / 2, x);
}

static double upper_at(const struct panel_run *edge, double x) {
    return edge_at(edge->spots, edge->count, x);
}

static double left_of(const struct panel_run *edge) {
    return edge->spots[0].x;
}

static bool make_profile(struct panel_state *state, size_t band, struct profile *profile) {
    const struct panel_run *edge = &state->layout->edges[band];
    double width = edge->spots[edge->count - 1].x - left_of(edge);
    profile->count = (size_t)(width / column_step) + 1;
    profile->upper = arena_new(state->arena, profile->count, sizeof *profile->upper);
    profile->lower = arena_new(state->arena, profile->count, sizeof *profile->lower);
    if (!profile->upper || !profile->lower)
        return false;
    for (size_t i = 0; i < profile->count; i++) {
        double x = left_of(edge) + (double)i * column_step;
        profile->upper[i] = upper_at(edge, x);
        profile->lower[i] = lower_at(&state->layout->bands[band], x);
    }
    return true;
}

// The place with most room for a name of this size, and nearest to the middle among equals; its clear height.
static double roomiest(const struct profile *profile, double width, double height, size_t *ret_first, double *ret_y) {
    size_t wide = (size_t)ceil(width / column_step) + 1;
    double best = 0;
    double best_score = -INFINITY;
    for (size_t first = 0; first + wide <= profile->count; first++) {
        double top = -INFINITY;
        double bottom = INFINITY;
        for (size_t i = first; i < first + wide; i++) {
            top = fmax(top, profile->upper[i]);
            bottom = fmin(bottom, profile->lower[i]);
        }
        double clear = bottom - top;
        double off = fabs((double)first + (double)wide / 2 - (double)profile->count / 2) / (double)profile->count;
        double score = fmin(clear / height, 2.5) - 0.5 * off;
        if (score > best_score) {
            best_score = score;
            best = clear;
            *ret_first = first;
            *ret_y = (top + bottom) / 2;
        }
    }
    return best;
}

// The middle of the band where it is thickest.
static struct spot thickest(const struct panel_run *edge, const struct profile *profile) {
    size_t best = 0;
    for (size_t i = 0; i < profile->count; i++)
        if (profile->lower[i] - profile->upper[i] > profile->lower[best] - profile->upper[best] + 1e-9)
            best = i;
    double inset = best == 0 ? 3 : best + 1 == profile->count ? -3 : 0; // not on the frame
    return (struct spot){left_of(edge) + (double)best * column_step + inset,
                         (profile->lower[best] + profile->upper[best]) / 2};
}

static void set_text(struct layout_label *label) {
    double size = label->number.size;
    label->number.x = label->box.x + margin;
    label->number.y = label->box.y + margin + size * CAPITAL_HEIGHT;
}

// Everything known of the names while they are placed.
struct naming {
    struct panel_state *state;
    struct label_wish *wishes; // of the names that found no room inside
    size_t *bands;             // which they are of
    size_t count;
    struct box *taken; // by names inside
    size_t taken_count;
};

static bool name_band(struct naming *naming, size_t band) {
    struct panel_state *state = naming->state;
    struct layout_label *label = &state->layout->band_labels[band];
    const struct panel_run *edge = &state->layout->edges[band];
    const char *name = text_printable(state->arena, state->panel->stack->names[state->layout->bands[band].layer]);
    struct profile profile;
    if (!name || !make_profile(state, band, &profile))
        return false;
    double size = state->work->sizes.label;
    label->kind = (int)state->layout->bands[band].layer;
    label->number = layout_text_make(state->work->metric, name, size, false);
    double width = label->number.width + 2 * margin;
    double height = size * CAPITAL_HEIGHT + 2 * margin;
    size_t first = 0;
    double y = 0;
    if (!name[0]) {
        label->placed = true;
        return true;
    }
    if (roomiest(&profile, width, height, &first, &y) >= height + 2) {
        label->placed = true;
        label->box = (struct box){left_of(edge) + (double)first * column_step, y - height / 2, width, height};
        set_text(label);
        naming->taken[naming->taken_count++] = label->box;
        return true;
    }
    naming->bands[naming->count] = band;
    naming->wishes[naming->count++] = (struct label_wish){
        .point = thickest(edge, &profile), .radius = dot, .variants = 1, .sizes = {{width, height}}};
    return true;
}

static bool name_outside(struct naming *naming) {
    struct panel_state *state = naming->state;
    struct disc *dots = arena_new(state->arena, naming->count, sizeof *dots);
    struct label_place *places = arena_new(state->arena, naming->count, sizeof *places);
    if (!dots || !places)
        return false;
    for (size_t i = 0; i < naming->count; i++)
        dots[i] = (struct disc){naming->wishes[i].point, dot};
    struct label_field field = {.bounds = state->layout->plot,
                                .taken = naming->taken,
                                .taken_count = naming->taken_count,
                                .marks = dots,
                                .mark_count = naming->count};
    if (!labels_place(&field, naming->wishes, naming->count, places))
        return false;
    for (size_t i = 0; i < naming->count; i++) {
        struct layout_label *label = &state->layout->band_labels[naming->bands[i]];
        label->placed = places[i].placed;
        label->box = places[i].box;
        label->has_leader = true;
        label->leader = places[i].has_leader ? places[i].leader
                                             : (struct segment){naming->wishes[i].point, naming->wishes[i].point};
        label->leader.from = naming->wishes[i].point;
        set_text(label);
    }
    return true;
}

bool panel_band_labels(struct panel_state *state) {
    struct panel_layout *layout = state->layout;
    size_t count = layout->band_count;
    struct naming naming = {.state = state,
                            .wishes = arena_new(state->arena, count, sizeof *naming.wishes),
                            .bands = arena_new(state->arena, count, sizeof *naming.bands),
                            .taken = arena_new(state->arena, count, sizeof *naming.taken)};
    layout->band_labels = arena_new(state->arena, count, sizeof *layout->band_labels);
    if (!naming.wishes || !naming.bands || !naming.taken || !layout->band_labels)
        return false;
    layout->band_label_count = count;
    for (size_t i = 0; i < count; i++)
        if (!name_band(&naming, i))
            return false;
    return name_outside(&naming);
}
