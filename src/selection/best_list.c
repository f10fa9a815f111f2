// SPDX-License-Identifier: GPL-3.0-or-later
#include "selection/best_list.h"

#include "base/memory.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { ROOM_LEAST = 256 }; // offers between two sortings, at least

void hit_pack(const struct composition *c, double key, struct hit *ret) {
    *ret = (struct hit){.key = key, .count = (uint8_t)c->count, .fresh = 1};
    for (int i = 0; i < c->count; i++) {
        ret->bottles[i] = (uint8_t)c->bottles[i];
        ret->steps[i] = (uint8_t)c->steps[i];
    }
}

void hit_unpack(const struct hit *hit, struct composition *ret) {
    *ret = (struct composition){.count = hit->count};
    for (int i = 0; i < hit->count; i++) {
        ret->bottles[i] = hit->bottles[i];
        ret->steps[i] = hit->steps[i];
    }
}

enum status best_list_init(struct best_list *list, size_t wanted, const struct recipe_order *order, struct error *err) {
    assert(wanted >= 1);
    *list = (struct best_list){.order = order, .wanted = wanted, .threshold = -INFINITY};
    list->capacity = wanted + (wanted > ROOM_LEAST ? wanted : ROOM_LEAST);
    list->seen_size = 16;
    while (list->seen_size < 2 * wanted)
        list->seen_size *= 2;
    list->hits = memory_new(list->capacity, sizeof *list->hits);
    list->spare = memory_new(list->capacity, sizeof *list->spare);
    list->seen = memory_new(list->seen_size, sizeof *list->seen);
    if (list->hits && list->spare && list->seen)
        return STATUS_OK;
    best_list_release(list);
    return error_set(err, STATUS_MEMORY, "out of memory");
}

void best_list_release(struct best_list *list) {
    if (!list)
        return;
    memory_free(list->hits);
    memory_free(list->spare);
    memory_free(list->seen);
    *list = (struct best_list){0};
}

void best_list_copy(struct best_list *list, const struct best_list *from) {
    assert(list->wanted == from->wanted && from->count == from->sorted);
    memcpy(list->hits, from->hits, from->count * sizeof *list->hits);
    for (size_t i = 0; i < from->count; i++)
        list->hits[i].fresh = 0;
    list->count = list->sorted = from->count;
    list->threshold = from->threshold;
}

// As recipe_compare, on packed compositions.
static int compare_recipes(const struct recipe_order *order, const struct hit *a, const struct hit *b) {
    struct composition ca, cb;
    hit_unpack(a, &ca);
    hit_unpack(b, &cb);
    return recipe_compare(order, &ca, &cb);
}

static bool before(const struct recipe_order *order, const struct hit *a, const struct hit *b) {
    if (a->key != b->key)
        return a->key > b->key;
    return compare_recipes(order, a, b) < 0;
}

void best_list_offer(struct best_list *list, const struct hit *hit) {
    assert(!isnan(hit->key));
    if (list->sorted == list->wanted && !before(list->order, hit, &list->hits[list->sorted - 1]))
        return;
    if (list->count == list->capacity)
        best_list_settle(list);
    list->hits[list->count++] = *hit;
}

void best_list_merge(struct best_list *list, struct best_list *from) {
    best_list_settle(from);
    for (size_t i = 0; i < from->count; i++)
        if (from->hits[i].fresh)
            best_list_offer(list, &from->hits[i]);
}

// --- bringing in order ---

static void merge_runs(const struct recipe_order *order, const struct hit *a, size_t a_count, const struct hit *b,
                       size_t b_count, struct hit *out) {
    size_t i = 0;
    size_t j = 0;
    while (i < a_count || j < b_count) {
        bool take_b = i == a_count || (j < b_count && before(order, &b[j], &a[i]));
        *out++ = take_b ? b[j++] : a[i++];
    }
}

// Merge sort from the bottom up, without recursion; `scratch` is as large as the run.
static void sort_hits(const struct recipe_order *order, struct hit *hits, size_t count, struct hit *scratch) {
    for (size_t width = 1; width < count; width *= 2) {
        for (size_t at = 0; at < count; at += 2 * width) {
            size_t left = width < count - at ? width : count - at;
            size_t right = left + width < count - at ? width : count - at - left;
            merge_runs(order, hits + at, left, hits + at + left, right, scratch + at);
        }
        memcpy(hits, scratch, count * sizeof *hits);
    }
}

static uint64_t set_of(const struct hit *hit) {
    uint64_t set = hit->count; // never 0
    for (int i = 0; i < hit->count; i++)
        set = set << 8 | hit->bottles[i];
    return set;
}

// True when the set was not yet in the table. (Hash by multiplication: Knuth, The Art of Computer Programming 3, 6.4.)
static bool first_of_its_set(struct best_list *list, const struct hit *hit) {
    uint64_t set = set_of(hit);
    size_t at = (size_t)((set * 0x9E3779B97F4A7C15u) >> 20) & (list->seen_size - 1);
    while (list->seen[at] != 0 && list->seen[at] != set)
        at = (at + 1) & (list->seen_size - 1);
    if (list->seen[at] == set)
        return false;
    list->seen[at] = set;
    return true;
}

void best_list_settle(struct best_list *list) {
    if (list->sorted < list->count) {
        size_t fresh = list->count - list->sorted;
        sort_hits(list->order, list->hits + list->sorted, fresh, list->spare);
        merge_runs(list->order, list->hits, list->sorted, list->hits + list->sorted, fresh, list->spare);
        memset(list->seen, 0, list->seen_size * sizeof *list->seen);
        size_t kept = 0;
        for (size_t i = 0; i < list->count && kept < list->wanted; i++)
            if (first_of_its_set(list, &list->spare[i]))
                list->hits[kept++] = list->spare[i];
        list->count = list->sorted = kept;
    }
    if (list->sorted == list->wanted)
        list->threshold = list->hits[list->wanted - 1].key;
}
