// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/region.h"

#include <math.h>

// Slack relative to the magnitude, see the header.
static const double slack_relative = 1e-11;

enum { CELLS_MOST = 128, LEVELS_MOST = 8 }; // how the box around a region is found

static void stretch(struct hansen h, double ret[3]) {
    ret[0] = 2 * h.delta_d;
    ret[1] = h.delta_p;
    ret[2] = h.delta_h;
}

static double dot(const double a[3], const double b[3]) {
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

static double largest_part(const double x[3]) {
    return fmax(fabs(x[0]), fmax(fabs(x[1]), fabs(x[2])));
}

// --- the shelf ---

// The second axis: an axis of stretched space made orthogonal to the first. The third: the cross product.
static void complete_frame(int second, double frame[3][3]) {
    double length = sqrt(1 - frame[0][second] * frame[0][second]);
    for (int axis = 0; axis < 3; axis++)
        frame[1][axis] = ((axis == second) - frame[0][second] * frame[0][axis]) / length;
    for (int axis = 0; axis < 3; axis++) {
        int next = (axis + 1) % 3, last = (axis + 2) % 3;
        frame[2][axis] = frame[0][next] * frame[1][last] - frame[0][last] * frame[1][next];
    }
}

static void make_frame(const struct hansen *forward, int second, double frame[3][3]) {
    double way[3] = {0};
    if (forward)
        stretch(*forward, way);
    double length = sqrt(dot(way, way));
    bool turned = length > 1e-3 && fabs(way[second]) < 0.999 * length; // not along the second axis itself
    for (int axis = 0; axis < 3; axis++)
        for (int part = 0; part < 3; part++)
            frame[axis][part] = axis == part;
    for (int part = 0; part < 3 && turned; part++)
        frame[0][part] = way[part] / length;
    if (turned)
        complete_frame(second, frame);
}

static void place_in(const struct space *space, struct hansen h, double ret[3]) {
    double stretched[3];
    stretch(h, stretched);
    for (int axis = 0; axis < 3; axis++)
        ret[axis] = dot(space->frame[axis], stretched);
}

static double sphere_reach(const struct material *material) {
    double centre[3];
    stretch(hansen_of_sphere(&material->sphere), centre);
    return largest_part(centre) + fabs(material->sphere.r0);
}

static double magnitude_of(const struct goal *goal, const struct hansen *bottle_places) {
    double magnitude = 1;
    for (size_t i = 0; i < goal->bottle_count; i++) {
        double place[3];
        stretch(bottle_places[i], place);
        magnitude = fmax(magnitude, largest_part(place));
    }
    for (size_t i = 0; i < goal->remove_count; i++)
        magnitude = fmax(magnitude, sphere_reach(goal->remove[i]));
    for (size_t i = 0; i < goal->spare_count; i++)
        magnitude = fmax(magnitude, sphere_reach(goal->spare[i]));
    return magnitude;
}

static void set_directions(const struct hansen *forward, int second, struct space *space) {
    make_frame(forward, second, space->frame);
    for (int axis = 0; axis < 3; axis++)
        for (int part = 0; part < 3; part++) {
            space->normal[axis][part] = axis == part;
            space->normal[3 + axis][part] = space->frame[part][axis];
        }
}

// Insertion sort.
static void line_up(const struct hansen *bottle_places, struct space *space) {
    double along[GOAL_BOTTLES_MAX];
    for (int i = 0; i < space->bottles; i++) {
        double whole[3];
        place_in(space, bottle_places[i], whole);
        int at = i;
        for (; at > 0 && along[at - 1] > whole[0]; at--) {
            along[at] = along[at - 1];
            space->bottle[at] = space->bottle[at - 1];
        }
        along[at] = whole[0];
        space->bottle[at] = i;
    }
}

void space_make(const struct goal *goal, const struct hansen *bottle_places, const struct hansen *forward, int second,
                struct space *ret) {
    *ret = (struct space){.bottles = (int)goal->bottle_count, .steps = goal->steps};
    ret->slack = slack_relative * magnitude_of(goal, bottle_places);
    set_directions(forward, second, ret);
    line_up(bottle_places, ret);
    for (int i = 0; i < ret->bottles; i++) {
        double whole[3];
        place_in(ret, bottle_places[ret->bottle[i]], whole);
        for (int d = 0; d < DIRECTIONS; d++) {
            double x = ret->place[i][d] = dot(ret->normal[d], whole) / goal->steps;
            ret->lo[d] = i == 0 ? x : fmin(ret->lo[d], x);
            ret->hi[d] = i == 0 ? x : fmax(ret->hi[d], x);
        }
    }
}

// --- the balls ---

static void set_radius(struct ball *ball, double radius) {
    ball->radius = radius;
    ball->radius_squared = radius < 0 ? -1 : radius * radius;
}

// |x - c|^2 <= r^2 and |x - s|^2 >= t^2, one from the other: 2 (c - s) . x >= t^2 - r^2 + |c|^2 - |s|^2.
static bool make_slab(const struct space *space, const struct ball *inside, const struct ball *outside,
                      struct slab *ret) {
    double away[3], length = 0, level = 0;
    for (int axis = 0; axis < 3; axis++) {
        away[axis] = inside->centre[axis] - outside->centre[axis];
        length += away[axis] * away[axis];
        level += away[axis] * (inside->centre[axis] + outside->centre[axis]);
    }
    length = sqrt(length);
    if (outside->radius < 0 || inside->radius < 0 || length < 1e-3) // concentric: no plane
        return false;
    for (int axis = 0; axis < 3; axis++)
        ret->normal[axis] = away[axis] / length;
    level += outside->radius_squared - inside->radius_squared;
    // Squares of magnitudes over a length of at least 1e-3: a wider slack.
    ret->least = level / (2 * length) - 1e4 * space->slack;
    ret->most = inside->radius + 1e4 * space->slack;
    for (int axis = 0; axis < 3; axis++)
        ret->most += ret->normal[axis] * inside->centre[axis];
    return true;
}

static void set_slabs(const struct space *space, struct region *region) {
    region->slab_count = 0;
    for (int i = 0; i < region->inside_count; i++)
        for (int j = 0; j < region->outside_count; j++)
            region->slab_count +=
                make_slab(space, &region->inside[i], &region->outside[j], &region->slabs[region->slab_count]);
}

static void set_balls(const struct goal *goal, const struct space *space, enum aim aim, double threshold,
                      struct region *region) {
    for (size_t i = 0; i < goal->remove_count; i++) {
        double red_most = aim == AIM_GENTLEST ? 1 - goal->margin : -threshold;
        set_radius(&region->inside[i], red_most * goal->remove[i]->sphere.r0 + space->slack);
    }
    for (size_t i = 0; i < goal->spare_count && aim == AIM_GENTLEST; i++)
        set_radius(&region->outside[i], threshold - space->slack);
    set_slabs(space, region);
}

bool region_may_meet(const struct region *region, const double lo[3], const double hi[3]) {
    for (int i = 0; i < region->inside_count; i++) {
        const struct ball *ball = &region->inside[i];
        double squares = 0; // of the distance to the nearest point of the box
        for (int axis = 0; axis < 3; axis++) {
            double c = ball->centre[axis];
            double away = c < lo[axis] ? lo[axis] - c : c > hi[axis] ? c - hi[axis] : 0;
            squares += away * away;
        }
        if (squares > ball->radius_squared)
            return false;
    }
    for (int i = 0; i < region->outside_count; i++) {
        const struct ball *ball = &region->outside[i];
        double squares = 0; // to the farthest point
        for (int axis = 0; axis < 3; axis++) {
            double below = ball->centre[axis] - lo[axis];
            double above = hi[axis] - ball->centre[axis];
            double away = below > above ? below : above;
            squares += away * away;
        }
        if (squares < ball->radius_squared)
            return false;
    }
    for (int i = 0; i < region->slab_count; i++) {
        const struct slab *slab = &region->slabs[i];
        double most = 0;
        for (int axis = 0; axis < 3; axis++)
            most += slab->normal[axis] * (slab->normal[axis] > 0 ? hi[axis] : lo[axis]);
        if (most < slab->least)
            return false;
    }
    return true;
}

static double square_from(const struct ball *ball, const double base[3], const double step[3], int t) {
    double sum = 0;
    for (int axis = 0; axis < 3; axis++) {
        double away = base[axis] + t * step[axis] - ball->centre[axis];
        sum += away * away;
    }
    return sum;
}

// True when both ends of a piece of a line lie in one outside-ball.
static bool hidden(const struct region *region, const double base[3], const double step[3], int least, int most) {
    for (int i = 0; i < region->outside_count; i++) {
        const struct ball *ball = &region->outside[i];
        if (square_from(ball, base, step, least) < ball->radius_squared &&
            square_from(ball, base, step, most) < ball->radius_squared)
            return true;
    }
    return false;
}

// |base + t step - centre|^2 = r^2 is a t^2 + 2 b t + c = 0. Where the line touches the ball the root is off by the
// root of the rounding, far below the hundredth of a step by which the range is widened.
bool region_chord(const struct region *region, const double base[3], const double step[3], int *least, int *most) {
    double from = *least, to = *most;
    for (int i = 0; i < region->inside_count; i++) {
        const struct ball *ball = &region->inside[i];
        double away[3];
        for (int axis = 0; axis < 3; axis++)
            away[axis] = base[axis] - ball->centre[axis];
        double a = dot(step, step), b = dot(away, step), c = dot(away, away) - ball->radius_squared;
        double square = b * b - a * c;
        if (a < 1e-6) // two bottles at one place
            continue;
        if (square < -1e-9 * b * b)
            return false;
        double half = sqrt(fmax(square, 0)) / a;
        from = fmax(from, -b / a - half - 0.01);
        to = fmin(to, -b / a + half + 0.01);
    }
    if (from > to)
        return false;
    *least = (int)ceil(from);
    *most = (int)floor(to);
    return *least <= *most && !hidden(region, base, step, *least, *most);
}

// --- the box ---

static void cut(struct region *region, int direction, double lo, double hi) {
    region->lo[direction] = fmax(region->lo[direction], lo);
    region->hi[direction] = fmin(region->hi[direction], hi);
    region->empty |= region->lo[direction] > region->hi[direction];
}

// To the part of a ball beyond a plane at distance `height` from its centre: a cap. In a direction it reaches as far as
// the ball where the ball's end lies beyond the plane, else as far as the circle in the plane.
static void cut_to_cap(const struct space *space, const struct ball *ball, const struct slab *slab,
                       struct region *region) {
    double height = slab->least - dot(slab->normal, ball->centre);
    region->empty |= height > ball->radius;
    if (height > ball->radius || height < -ball->radius)
        return;
    double radius = sqrt(fmax(ball->radius_squared - height * height, 0));
    for (int d = 0; d < DIRECTIONS; d++) {
        double along = dot(slab->normal, space->normal[d]);
        double centre = dot(ball->centre, space->normal[d]);
        // Roots of differences near 0: off by the root of the slack.
        double across = radius * sqrt(fmax(1 - along * along, 0)) + sqrt(space->slack);
        double middle = centre + height * along;
        cut(region, d, -along * ball->radius >= height ? centre - ball->radius : middle - across,
            along * ball->radius >= height ? centre + ball->radius : middle + across);
    }
}

static void start_box(const struct space *space, struct region *region) {
    region->empty = space->bottles == 0;
    for (int d = 0; d < DIRECTIONS; d++) {
        region->lo[d] = space->lo[d] * space->steps - space->slack;
        region->hi[d] = space->hi[d] * space->steps + space->slack;
    }
    for (int i = 0; i < region->inside_count; i++) {
        const struct ball *ball = &region->inside[i];
        for (int d = 0; d < DIRECTIONS; d++) {
            double centre = dot(ball->centre, space->normal[d]);
            cut(region, d, centre - ball->radius - space->slack, centre + ball->radius + space->slack);
        }
        for (int j = 0; j < region->slab_count; j++) // of any ball: each holds the region
            cut_to_cap(space, ball, &region->slabs[j], region);
    }
}

struct cell {
    double lo[3], hi[3];
};

static void range_of_cell(const struct cell *cell, const double normal[3], double *ret_lo, double *ret_hi) {
    double lo = 0, hi = 0;
    for (int axis = 0; axis < 3; axis++) {
        lo += normal[axis] * (normal[axis] > 0 ? cell->lo[axis] : cell->hi[axis]);
        hi += normal[axis] * (normal[axis] > 0 ? cell->hi[axis] : cell->lo[axis]);
    }
    *ret_lo = lo;
    *ret_hi = hi;
}

static bool cell_may_meet(const struct space *space, const struct region *region, const struct cell *cell) {
    for (int d = 3; d < DIRECTIONS; d++) {
        double lo, hi;
        range_of_cell(cell, space->normal[d], &lo, &hi);
        if (lo > region->hi[d] + space->slack || hi < region->lo[d] - space->slack)
            return false;
    }
    return region_may_meet(region, cell->lo, cell->hi);
}

// The eighths of a cell that may meet the region; their number.
static int split_cell(const struct space *space, const struct region *region, const struct cell *cell,
                      struct cell ret[8]) {
    int count = 0;
    for (int part = 0; part < 8; part++) {
        struct cell *eighth = &ret[count];
        for (int axis = 0; axis < 3; axis++) {
            double middle = cell->lo[axis] + (cell->hi[axis] - cell->lo[axis]) / 2;
            eighth->lo[axis] = part >> axis & 1 ? middle : cell->lo[axis];
            eighth->hi[axis] = part >> axis & 1 ? cell->hi[axis] : middle;
        }
        count += cell_may_meet(space, region, eighth);
    }
    return count;
}

static void cut_to_cells(const struct space *space, const struct cell *cells, int count, struct region *region) {
    region->empty |= count == 0;
    for (int d = 0; d < DIRECTIONS && count > 0; d++) {
        double least = INFINITY, most = -INFINITY;
        for (int i = 0; i < count; i++) {
            double lo, hi;
            range_of_cell(&cells[i], space->normal[d], &lo, &hi);
            least = fmin(least, lo);
            most = fmax(most, hi);
        }
        cut(region, d, least - space->slack, most + space->slack);
    }
}

// Splits the box into eighths, these again, and so on while they are few, and shrinks it to those that may meet the
// region.
static void shrink_box(const struct space *space, struct region *region) {
    struct cell cells[2][8 * CELLS_MOST];
    int count = 1;
    int now = 0;
    for (int axis = 0; axis < 3; axis++) {
        cells[0][0].lo[axis] = region->lo[axis];
        cells[0][0].hi[axis] = region->hi[axis];
    }
    for (int level = 0; level < LEVELS_MOST && count > 0 && count <= CELLS_MOST; level++) {
        int next = 0;
        for (int i = 0; i < count; i++)
            next += split_cell(space, region, &cells[now][i], &cells[1 - now][next]);
        count = next;
        now = 1 - now;
    }
    cut_to_cells(space, cells[now], count, region);
}

void region_make(const struct goal *goal, const struct space *space, enum aim aim, double threshold,
                 struct region *ret) {
    *ret = (struct region){0};
    bool bounded = aim == AIM_GENTLEST || threshold > -INFINITY;
    ret->inside_count = bounded ? (int)goal->remove_count : 0;
    ret->outside_count = aim == AIM_GENTLEST && threshold > -INFINITY ? (int)goal->spare_count : 0;
    for (size_t i = 0; i < goal->remove_count; i++)
        place_in(space, hansen_of_sphere(&goal->remove[i]->sphere), ret->inside[i].centre);
    for (size_t i = 0; i < goal->spare_count; i++)
        place_in(space, hansen_of_sphere(&goal->spare[i]->sphere), ret->outside[i].centre);
    set_balls(goal, space, aim, threshold, ret);
    start_box(space, ret);
    if (!ret->empty)
        shrink_box(space, ret);
    for (int d = 0; d < DIRECTIONS; d++) {
        ret->lo[d] -= space->slack;
        ret->hi[d] += space->slack;
    }
}

void region_tighten(const struct goal *goal, const struct space *space, enum aim aim, double threshold,
                    struct region *region) {
    region->inside_count = (int)goal->remove_count;
    region->outside_count = aim == AIM_GENTLEST ? (int)goal->spare_count : 0;
    set_balls(goal, space, aim, threshold, region);
}
