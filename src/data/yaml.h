// SPDX-License-Identifier: GPL-3.0-or-later
// A YAML file as a tree in which every node knows its line and column. The subset: one document, block
// and flow mappings and sequences, scalars; no anchors, aliases, tags or duplicate keys.
#ifndef MILDSOLVE_DATA_YAML_H
#define MILDSOLVE_DATA_YAML_H

#include "base/arena.h"
#include "base/error.h"

#include <stddef.h>

enum yaml_kind { YAML_SCALAR, YAML_LIST, YAML_MAP };

struct yaml_pair;

struct yaml_node {
    enum yaml_kind kind;
    int line;   // from 1
    int column; // from 1, in characters
    bool quoted;
    bool flow;        // list or map written in brackets
    size_t begin;     // bytes from the start of the file
    size_t end;       // one past its last byte; of a list or map in lines: the end of its last entry
    const char *text; // scalar: NUL-terminated, without NUL inside
    const struct yaml_node *const *items; // list
    const struct yaml_pair *pairs;        // map, in the order of the file
    size_t count;                         // items or pairs
};

struct yaml_pair {
    const struct yaml_node *key; // a scalar
    const struct yaml_node *value;
};

// What a file may cost; checked before parsing (size, UTF-8, control characters) or while parsing (depth,
// nodes), so that a hostile file is refused early.
struct yaml_limits {
    size_t file_bytes;
    size_t depth;
    size_t nodes;
};
extern const struct yaml_limits yaml_default_limits; // 4 MiB, depth 12, 400,000 nodes

// Reads and parses a file. The tree lives in `arena`. Faults: STATUS_NOT_FOUND, STATUS_SYSTEM (cannot read),
// STATUS_INPUT with "file:line:column: what is wrong; what would be right", STATUS_MEMORY.
enum status yaml_read_file(struct arena *arena, const char *path, const struct yaml_limits *limits,
                           const struct yaml_node **ret_root, struct error *err);

// The same from memory; `name` stands in messages where a path would.
enum status yaml_read_memory(struct arena *arena, const char *name, const char *bytes, size_t length,
                             const struct yaml_limits *limits, const struct yaml_node **ret_root, struct error *err);

// Value under `key`, or NULL. `map` must be a map.
const struct yaml_node *yaml_find(const struct yaml_node *map, const char *key);

#endif
