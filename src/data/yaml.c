// SPDX-License-Identifier: GPL-3.0-or-later
#include "data/yaml.h"

#include "base/file_read.h"
#include "base/language.h"
#include "base/memory.h"
#include "base/text.h"

#include <stdint.h>
#include <string.h>
#include <yaml.h>

const struct yaml_limits yaml_default_limits = {.file_bytes = 4u * 1024 * 1024, .depth = 12, .nodes = 400000};

struct open_collection {
    struct yaml_node *node;
    const struct yaml_node *pending_key;
    size_t first; // of its children among those of all open collections
};

// Looking for a key said twice costs the square of the keys; no record of ours has more than 40.
enum { DEPTH_CAP = 64, KEY_CAP = 256, FIRST_CHILDREN = 256 };

struct reader {
    yaml_parser_t parser;
    struct arena *arena;
    const char *name;
    const struct yaml_limits *limits;
    struct error *err;
    const char *bytes;
    size_t length;
    size_t mark_length;     // of the byte order mark in front, which counts as no character
    size_t seen_characters; // the place up to which characters were counted,
    size_t seen_bytes;      // and the same place in bytes
    size_t nodes;
    size_t depth;
    struct open_collection open[DEPTH_CAP];
    struct yaml_pair *children; // of the open collections, one after the other; key NULL in a list
    size_t child_count;
    size_t child_room;
    const struct yaml_node *root;
};

static enum status out_of_memory(const char *name, struct error *err) {
    memory_lacked(); // where it was libyaml that ran out
    return error_set(err, STATUS_MEMORY, "%s: out of memory while reading", name);
}

// --- before parsing: the bytes themselves ---

// Bytes at the start that are plain ASCII text, told eight at a time.
static size_t plain_run(const char *bytes, size_t length) {
    const uint64_t ones = 0x0101010101010101u;
    size_t at = 0;
    for (; at + 8 <= length; at += 8) {
        uint64_t word;
        memcpy(&word, bytes + at, 8);
        uint64_t delete = word ^ (0x7F * ones);
        // The top bit of a byte is set, or borrowed: the byte is above 0x7F, below 0x20, or 0x7F. A borrow may also
        // come from such a byte beside it, never out of eight bytes of text.
        if ((word | (word - 0x20 * ones) | (delete - ones)) & (0x80 * ones))
            break;
    }
    while (at < length && bytes[at] >= 0x20 && bytes[at] < 0x7F)
        at++;
    return at;
}

static enum status check_bytes(const char *name, const char *bytes, size_t length, struct error *err) {
    int line = 1;
    int column = 1;
    size_t at = 0;
    while (at < length) {
        size_t run = plain_run(bytes + at, length - at);
        column += (int)run;
        at += run;
        if (at == length)
            break;
        unsigned char byte = (unsigned char)bytes[at];
        if (byte == '\n') {
            at++;
            line++;
            column = 1;
            continue;
        }
        unsigned code;
        size_t step = utf8_sequence((const unsigned char *)bytes + at, length - at, &code);
        if (step == 0)
            return error_set(err, STATUS_INPUT, "%s:%d:%d: byte 0x%02X is not valid UTF-8; save the file as UTF-8 text",
                             name, line, column, byte);
        bool allowed = code == '\t' || code == '\r' || code == 0x85 || code >= 0xA0;
        if (!allowed)
            return error_set(err, STATUS_INPUT,
                             "%s:%d:%d: control character U+%04X; only printable text, tab and line ends "
                             "may stand in a data file",
                             name, line, column, code);
        at += step;
        column++;
    }
    return STATUS_OK;
}

// --- while parsing ---

static int line_of(yaml_mark_t mark) {
    return (int)(mark.line < INT32_MAX ? mark.line + 1 : INT32_MAX);
}

static int column_of(yaml_mark_t mark) {
    return (int)(mark.column < INT32_MAX ? mark.column + 1 : INT32_MAX);
}

// libyaml counts characters; marks come nearly in the order of the file, so each step is short.
static size_t byte_of(struct reader *reader, yaml_mark_t mark) {
    if (mark.index < reader->seen_characters) {
        reader->seen_characters = 0;
        reader->seen_bytes = reader->mark_length;
    }
    size_t left = mark.index - reader->seen_characters, at = reader->seen_bytes;
    for (; left && at < reader->length; left--) {
        unsigned char lead = (unsigned char)reader->bytes[at]; // of a sequence that check_bytes has seen whole
        at += lead < 0x80 ? 1 : lead < 0xE0 ? 2 : lead < 0xF0 ? 3 : 4;
    }
    reader->seen_characters = mark.index - left;
    return reader->seen_bytes = at;
}

static enum status fault(struct reader *reader, yaml_mark_t mark, const char *sentence) {
    return error_set(reader->err, STATUS_INPUT, "%s:%d:%d: %s", reader->name, line_of(mark), column_of(mark),
                     say(sentence));
}

// What people most often did, where the parser's words don't say it.
static const char *parser_hint(struct reader *reader) {
    const yaml_parser_t *parser = &reader->parser;
    size_t at = byte_of(reader, parser->problem_mark);
    if (at < reader->length && reader->bytes[at] == '\t')
        return N_(" (a tab stands here: indent with spaces)");
    if (parser->problem && strstr(parser->problem, "mapping values are not allowed"))
        return N_(" (a text that holds ': ' needs quotation marks; keys of one map begin in the same column)");
    return NULL;
}

static enum status parser_fault(struct reader *reader) {
    const yaml_parser_t *parser = &reader->parser;
    if (parser->error == YAML_MEMORY_ERROR)
        return out_of_memory(reader->name, reader->err);
    const char *hint = parser_hint(reader);
    return error_set(reader->err, STATUS_INPUT, "%s:%d:%d: not valid YAML: %s%s%s%s", reader->name,
                     line_of(parser->problem_mark), column_of(parser->problem_mark),
                     parser->problem ? parser->problem : "unreadable", parser->context ? " " : "",
                     parser->context ? parser->context : "", hint ? say(hint) : "");
}

// With `more` bytes behind it.
static struct yaml_node *new_node(struct reader *reader, enum yaml_kind kind, yaml_mark_t mark, size_t more) {
    struct yaml_node *node = arena_new(reader->arena, 1, sizeof *node + more);
    if (!node)
        return NULL;
    node->kind = kind;
    node->line = line_of(mark);
    node->column = column_of(mark);
    node->begin = byte_of(reader, mark);
    node->end = node->begin;
    reader->nodes++;
    return node;
}

static bool has_key(const struct reader *reader, const struct open_collection *open, const char *key, int *ret_line) {
    for (size_t i = open->first; i < reader->child_count; i++) {
        const struct yaml_node *other = reader->children[i].key;
        if (other->text[0] == key[0] && strcmp(other->text, key) == 0) {
            *ret_line = other->line;
            return true;
        }
    }
    return false;
}

static enum status take_key(struct reader *reader, struct open_collection *open, const struct yaml_node *node,
                            yaml_mark_t mark) {
    if (node->kind != YAML_SCALAR)
        return fault(reader, mark, "a key must be a plain word, not a list or a map");
    if (open->node->count >= KEY_CAP)
        return fault(reader, mark, "more than 256 keys in one map; no record of this program has so many");
    int line;
    if (has_key(reader, open, node->text, &line))
        return error_set(reader->err, STATUS_INPUT,
                         "%s:%d:%d: key '%.80s' stands here for the second time (first in line %d); "
                         "keep one of the two",
                         reader->name, node->line, node->column, node->text, line);
    open->pending_key = node;
    return STATUS_OK;
}

static bool grow_children(struct reader *reader) {
    size_t room = reader->child_room ? 2 * reader->child_room : FIRST_CHILDREN;
    struct yaml_pair *more = memory_resize(reader->children, room, sizeof *more);
    if (!more)
        return false;
    reader->children = more;
    reader->child_room = room;
    return true;
}

static enum status attach(struct reader *reader, const struct yaml_node *node, yaml_mark_t mark) {
    if (reader->depth == 0) {
        reader->root = node;
        return STATUS_OK;
    }
    struct open_collection *open = &reader->open[reader->depth - 1];
    if (open->node->kind == YAML_MAP && !open->pending_key)
        return take_key(reader, open, node, mark);
    if (reader->child_count == reader->child_room && !grow_children(reader))
        return out_of_memory(reader->name, reader->err);
    reader->children[reader->child_count++] = (struct yaml_pair){.key = open->pending_key, .value = node};
    open->pending_key = NULL;
    open->node->count++;
    return STATUS_OK;
}

static enum status begin_collection(struct reader *reader, enum yaml_kind kind, bool flow, yaml_mark_t mark) {
    if (reader->depth >= reader->limits->depth || reader->depth >= DEPTH_CAP)
        return error_set(reader->err, STATUS_INPUT,
                         "%s:%d:%d: nested deeper than %zu levels; no table of this program is", reader->name,
                         line_of(mark), column_of(mark), reader->limits->depth);
    struct yaml_node *node = new_node(reader, kind, mark, 0);
    if (!node)
        return out_of_memory(reader->name, reader->err);
    node->flow = flow;
    enum status status = attach(reader, node, mark);
    if (status != STATUS_OK)
        return status;
    reader->open[reader->depth++] = (struct open_collection){.node = node, .first = reader->child_count};
    return STATUS_OK;
}

static bool keep_pairs(struct reader *reader, struct yaml_node *map, const struct yaml_pair *children) {
    struct yaml_pair *pairs = arena_new(reader->arena, map->count, sizeof *pairs);
    if (pairs && map->count)
        memcpy(pairs, children, map->count * sizeof *pairs);
    map->pairs = pairs;
    return pairs != NULL;
}

static bool keep_items(struct reader *reader, struct yaml_node *list, const struct yaml_pair *children) {
    const struct yaml_node **items = arena_new(reader->arena, list->count, sizeof *items);
    for (size_t i = 0; items && i < list->count; i++)
        items[i] = children[i].value;
    list->items = items;
    return items != NULL;
}

static enum status end_collection(struct reader *reader, yaml_mark_t end) {
    const struct open_collection *open = &reader->open[--reader->depth];
    struct yaml_node *node = open->node;
    if (node->flow)
        node->end = byte_of(reader, end);
    else if (node->count)
        node->end = reader->children[reader->child_count - 1].value->end;
    const struct yaml_pair *children = node->count ? reader->children + open->first : NULL;
    bool kept = node->kind == YAML_MAP ? keep_pairs(reader, node, children) : keep_items(reader, node, children);
    reader->child_count = open->first;
    return kept ? STATUS_OK : out_of_memory(reader->name, reader->err);
}

static enum status take_scalar(struct reader *reader, const yaml_event_t *event) {
    if (event->data.scalar.tag)
        return fault(reader, event->start_mark, "a tag ('!...') is not used in these files; remove it");
    const char *value = (const char *)event->data.scalar.value;
    size_t length = event->data.scalar.length;
    if (memchr(value, '\0', length))
        return fault(reader, event->start_mark, "a NUL character ('\\0') cannot stand in a value");
    struct yaml_node *node = new_node(reader, YAML_SCALAR, event->start_mark, length + 1);
    if (!node)
        return out_of_memory(reader->name, reader->err);
    node->text = memcpy(node + 1, value, length); // the byte behind it is zero
    node->end = byte_of(reader, event->end_mark);
    node->quoted = event->data.scalar.style != YAML_PLAIN_SCALAR_STYLE;
    return attach(reader, node, event->start_mark);
}

static bool has_anchor(const yaml_event_t *event) {
    switch (event->type) {
    case YAML_SCALAR_EVENT:
        return event->data.scalar.anchor != NULL;
    case YAML_SEQUENCE_START_EVENT:
        return event->data.sequence_start.anchor != NULL;
    case YAML_MAPPING_START_EVENT:
        return event->data.mapping_start.anchor != NULL;
    default:
        return event->type == YAML_ALIAS_EVENT;
    }
}

static enum status take_event(struct reader *reader, const yaml_event_t *event) {
    if (has_anchor(event))
        return fault(reader, event->start_mark,
                     "anchors ('&name') and aliases ('*name') are not used in these files; write the "
                     "value out, or quote it if it is meant as text");
    if (reader->nodes >= reader->limits->nodes)
        return fault(reader, event->start_mark, "more values than any table of this program holds");
    switch (event->type) {
    case YAML_SCALAR_EVENT:
        return take_scalar(reader, event);
    case YAML_SEQUENCE_START_EVENT:
        return begin_collection(reader, YAML_LIST, event->data.sequence_start.style == YAML_FLOW_SEQUENCE_STYLE,
                                event->start_mark);
    case YAML_MAPPING_START_EVENT:
        return begin_collection(reader, YAML_MAP, event->data.mapping_start.style == YAML_FLOW_MAPPING_STYLE,
                                event->start_mark);
    case YAML_SEQUENCE_END_EVENT:
    case YAML_MAPPING_END_EVENT:
        return end_collection(reader, event->end_mark);
    case YAML_DOCUMENT_START_EVENT:
        if (reader->root)
            return fault(reader, event->start_mark, "a second document ('---') begins; one file is one table");
        return STATUS_OK;
    default:
        return STATUS_OK;
    }
}

static enum status read_events(struct reader *reader) {
    for (;;) {
        yaml_event_t event;
        if (!yaml_parser_parse(&reader->parser, &event))
            return parser_fault(reader);
        yaml_event_type_t type = event.type;
        enum status status = take_event(reader, &event);
        yaml_event_delete(&event);
        if (status != STATUS_OK)
            return status;
        if (type == YAML_STREAM_END_EVENT)
            return STATUS_OK;
    }
}

enum status yaml_read_memory(struct arena *arena, const char *name, const char *bytes, size_t length,
                             const struct yaml_limits *limits, const struct yaml_node **ret_root, struct error *err) {
    if (length > limits->file_bytes)
        return error_set(err, STATUS_INPUT, "%s:1:1: %zu bytes; a data file may have at most %zu", name, length,
                         limits->file_bytes);
    // Some editors put a byte order mark in front; libyaml would indent the first line by it.
    size_t mark_length = length >= 3 && memcmp(bytes, "\xEF\xBB\xBF", 3) == 0 ? 3 : 0;
    enum status status = check_bytes(name, bytes + mark_length, length - mark_length, err);
    if (status != STATUS_OK)
        return status;
    struct reader *reader = memory_new(1, sizeof *reader);
    if (!reader || !yaml_parser_initialize(&reader->parser)) {
        memory_free(reader);
        return out_of_memory(name, err);
    }
    reader->arena = arena;
    reader->name = name;
    reader->limits = limits;
    reader->err = err;
    reader->bytes = bytes;
    reader->length = length;
    reader->mark_length = mark_length;
    reader->seen_bytes = mark_length;
    yaml_parser_set_encoding(&reader->parser, YAML_UTF8_ENCODING);
    yaml_parser_set_input_string(&reader->parser, (const unsigned char *)bytes + mark_length, length - mark_length);
    status = read_events(reader);
    if (status == STATUS_OK && !reader->root)
        status = error_set(err, STATUS_INPUT, "%s:1:1: the file is empty; a table was expected", name);
    if (status == STATUS_OK)
        *ret_root = reader->root;
    yaml_parser_delete(&reader->parser);
    memory_free(reader->children);
    memory_free(reader);
    return status;
}

enum status yaml_read_file(struct arena *arena, const char *path, const struct yaml_limits *limits,
                           const struct yaml_node **ret_root, struct error *err) {
    struct text bytes = {0};
    enum status status = file_read(path, limits->file_bytes, &bytes, err);
    if (status == STATUS_OK)
        status = yaml_read_memory(arena, path, text_bytes(&bytes), bytes.length, limits, ret_root, err);
    text_release(&bytes);
    return status;
}

const struct yaml_node *yaml_find(const struct yaml_node *map, const char *key) {
    for (size_t i = 0; i < map->count; i++)
        if (strcmp(map->pairs[i].key->text, key) == 0)
            return map->pairs[i].value;
    return NULL;
}
