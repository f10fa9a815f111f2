// SPDX-License-Identifier: GPL-3.0-or-later
#include "casefile/case_edit.h"

#include "casefile/case_parts.h"

#include <assert.h>
#include <stdint.h>
#include <string.h>

// --- lines of the file ---

// Bytes of the line end at `at`, 0 when there is none. YAML 1.1 ends lines with CR LF, LF, CR, U+0085, U+2028, U+2029.
static size_t break_length(const struct casefile *file, size_t at) {
    const char *bytes = file->bytes + at;
    size_t left = file->length - at;
    if (left >= 2 && memcmp(bytes, "\r\n", 2) == 0)
        return 2;
    if (left >= 1 && (bytes[0] == '\n' || bytes[0] == '\r'))
        return 1;
    if (left >= 2 && memcmp(bytes, "\xC2\x85", 2) == 0)
        return 2;
    if (left >= 3 && (memcmp(bytes, "\xE2\x80\xA8", 3) == 0 || memcmp(bytes, "\xE2\x80\xA9", 3) == 0))
        return 3;
    return 0;
}

static bool begins_line(const struct casefile *file, size_t at) {
    if (at == 0)
        return true;
    for (size_t back = 1; back <= 3 && back <= at; back++)
        if (break_length(file, at - back) == back)
            return true;
    return false;
}

static size_t next_line(const struct casefile *file, size_t at) {
    while (at < file->length && break_length(file, at) == 0)
        at++;
    return at + (at < file->length ? break_length(file, at) : 0);
}

// The place behind the line that holds `at`; `at` itself when a line begins there (the end of a block of text).
static size_t after_line(const struct casefile *file, size_t at) {
    return begins_line(file, at) ? at : next_line(file, at);
}

// Comments that are indented by at least `indent` spaces belong to what stands above them.
static size_t after_comments(const struct casefile *file, size_t at, size_t indent) {
    size_t end = at;
    while (at < file->length) {
        size_t spaces = 0;
        while (at + spaces < file->length && file->bytes[at + spaces] == ' ')
            spaces++;
        size_t word = at + spaces;
        bool blank = word == file->length || break_length(file, word) > 0;
        bool comment = word < file->length && file->bytes[word] == '#' && spaces >= indent;
        if (!blank && !comment)
            break;
        at = next_line(file, at);
        if (comment)
            end = at;
    }
    return end;
}

static const char *line_end_at(const struct casefile *file, size_t at) {
    if (file->bytes[at] == '\n')
        return at > 0 && file->bytes[at - 1] == '\r' ? "\r\n" : "\n";
    return at + 1 < file->length && file->bytes[at + 1] == '\n' ? "\r\n" : "\r";
}

// The line end that the file uses just before `at`; after it when there is none before; else LF.
static const char *line_end_near(const struct casefile *file, size_t at) {
    for (size_t i = at; i-- > 0;)
        if (file->bytes[i] == '\n' || file->bytes[i] == '\r')
            return line_end_at(file, i);
    for (size_t i = at; i < file->length; i++)
        if (file->bytes[i] == '\n' || file->bytes[i] == '\r')
            return line_end_at(file, i);
    return "\n";
}

// --- rows ---

void test_row_set(struct test_row *row, const char *key, const char *text) {
    size_t i = case_test_field(key);
    assert(i < TEST_CELLS_MAX);
    row->cells[i] = (struct test_cell){.text = text};
}

const char *test_row_text(const struct test_row *row, const char *key) {
    size_t i = case_test_field(key);
    assert(i < TEST_CELLS_MAX);
    return row->cells[i].text;
}

static bool same_word(const char *typed, const char *word) {
    for (; *typed && *word; typed++, word++) {
        char letter = *typed == '-' || *typed == '_' ? ' ' : *typed;
        if (letter >= 'A' && letter <= 'Z')
            letter = (char)(letter + 'a' - 'A');
        if (letter != *word)
            return false;
    }
    return *typed == *word;
}

void test_row_words(struct test_row *row) {
    for (size_t i = 0; i < case_test_record.field_count; i++) {
        const char *const *words = case_test_record.fields[i].words;
        for (size_t w = 0; words && row->cells[i].text && words[w]; w++)
            if (same_word(row->cells[i].text, words[w])) {
                row->cells[i].text = words[w];
                break;
            }
    }
}

static size_t cell_values(const struct test_row *row) {
    size_t count = 0; // key and value
    for (size_t i = 0; i < case_test_record.field_count; i++)
        count += row->cells[i].text ? 2 : 0;
    return count;
}

static struct yaml_node *cell_node(struct arena *arena, const char *text, const struct test_cell *cell) {
    struct yaml_node *node = arena_new(arena, 1, sizeof *node);
    if (node)
        *node = (struct yaml_node){
            .kind = YAML_SCALAR, .line = cell->line, .column = cell->column, .quoted = true, .text = text};
    return node;
}

// A row as the reader would have seen it in a file.
static const struct yaml_node *row_node(struct arena *arena, const struct test_row *row) {
    struct yaml_node *map = arena_new(arena, 1, sizeof *map);
    struct yaml_pair *pairs = arena_new(arena, case_test_record.field_count, sizeof *pairs);
    if (!map || !pairs)
        return NULL;
    size_t count = 0;
    for (size_t i = 0; i < case_test_record.field_count; i++) {
        const struct test_cell *cell = &row->cells[i];
        if (!cell->text)
            continue;
        pairs[count].key = cell_node(arena, case_test_record.fields[i].key, cell);
        pairs[count].value = cell_node(arena, cell->text, cell);
        if (!pairs[count].key || !pairs[count].value)
            return NULL;
        count++;
    }
    *map = (struct yaml_node){
        .kind = YAML_MAP, .line = row->line, .column = row->line > 0, .pairs = pairs, .count = count};
    return map;
}

enum status test_row_check(struct arena *arena, const struct casefile *file, struct date as_of, const char *name,
                           const struct test_row *row, struct case_test *ret, struct fault_list *faults,
                           struct error *err) {
    assert(case_test_record.field_count <= TEST_CELLS_MAX);
    const struct yaml_node *node = row_node(arena, row);
    if (!node)
        return error_set(err, STATUS_MEMORY, "out of memory");
    size_t before = faults->count;
    for (size_t i = 0; i < node->count; i++)
        case_check_characters(faults, name, node->pairs[i].value, node->pairs[i].key->text);
    if (faults->count > before)
        return STATUS_OK;
    struct schema_reader reader = {.arena = arena, .file = name, .user = true, .faults = faults};
    struct case_test test;
    if (schema_read(&reader, &case_test_record, node, "", &test) != STATUS_OK)
        return error_set(err, STATUS_MEMORY, "out of memory");
    struct casefile whole = *file;
    struct case_reading reading = {
        .arena = arena, .lib = &file->library, .file = &whole, .as_of = as_of, .faults = faults, .err = err};
    if (faults->count == before)
        case_check_test(&reading, name, node, &test);
    if (faults->count == before)
        *ret = test;
    return STATUS_OK;
}

// --- writing YAML ---

// Escapes of double-quoted YAML scalars (YAML 1.1, 5.6): everything that the reader would fold, drop or refuse.
static void write_quoted(struct text *out, const char *text) {
    text_add(out, "\"");
    while (*text) {
        unsigned code = 0;
        size_t length = utf8_sequence((const unsigned char *)text, strnlen(text, 4), &code);
        assert(length > 0); // checked before
        if (code == '"' || code == '\\')
            text_printf(out, "\\%c", (int)code);
        else if (code == '\n')
            text_add(out, "\\n");
        else if (code == '\t')
            text_add(out, "\\t");
        else if (code == 0x2028 || code == 0x2029 || code == 0xFEFF || code == 0xFFFE || code == 0xFFFF)
            text_printf(out, "\\u%04X", code);
        else
            text_add_n(out, text, length);
        text += length;
    }
    text_add(out, "\"");
}

// Words that other YAML readers take for a truth value or nothing.
static bool means_something_else(const char *text) {
    static const char *const words[] = {"y", "n", "yes", "no", "true", "false", "on", "off", "null", "nan", "inf"};
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++)
        if (name_compare(words[i], text) == 0)
            return true;
    return false;
}

static bool is_plain_name(const char *text) {
    bool letter = (text[0] >= 'a' && text[0] <= 'z') || (text[0] >= 'A' && text[0] <= 'Z');
    for (const char *at = text; *at; at++)
        if (!((*at >= 'a' && *at <= 'z') || (*at >= 'A' && *at <= 'Z') || (*at >= '0' && *at <= '9') || *at == '-'))
            return false;
    return letter && !means_something_else(text);
}

// Words, numbers and days were checked against their kind and hold nothing special.
static void write_value(struct text *out, const struct field *field, const char *text) {
    bool plain = field->kind == FIELD_TEXT || field->kind == FIELD_ID ? is_plain_name(text) : true;
    if (plain)
        text_add(out, text);
    else
        write_quoted(out, text);
}

struct style {
    const char *line_end;
    size_t indent;     // spaces before the key
    bool dash;         // the first key stands behind "- "
    bool break_before; // the file ends without a line end: ours goes in front
};

static void begin_line(struct text *out, const struct style *style, bool *first) {
    if (!*first || style->break_before)
        text_add(out, style->line_end);
    *first = false;
}

static void write_block(struct text *out, const struct style *style, const struct test_row *row, bool *first) {
    bool dash = style->dash;
    for (size_t i = 0; i < case_test_record.field_count; i++) {
        const struct field *field = &case_test_record.fields[i];
        if (!row->cells[i].text)
            continue;
        begin_line(out, style, first);
        text_add_repeated(out, " ", style->indent);
        text_add(out, !style->dash ? "" : dash ? "- " : "  ");
        dash = false;
        text_printf(out, "%s: ", field->key);
        write_value(out, field, row->cells[i].text);
    }
}

static void write_flow(struct text *out, const struct test_row *row, const char *before) {
    for (size_t i = 0; i < case_test_record.field_count; i++) {
        if (!row->cells[i].text)
            continue;
        text_printf(out, "%s%s: ", before, case_test_record.fields[i].key);
        write_value(out, &case_test_record.fields[i], row->cells[i].text);
        before = ", ";
    }
}

// --- putting it in ---

static enum status insert(const struct casefile *file, size_t at, const struct text *piece, struct text *ret_bytes,
                          struct error *err) {
    text_add_n(ret_bytes, file->bytes, at);
    text_add_n(ret_bytes, text_bytes(piece), piece->length);
    text_add_n(ret_bytes, file->bytes + at, file->length - at);
    if (ret_bytes->failed || piece->failed)
        return error_set(err, STATUS_MEMORY, "%s: out of memory", file->path);
    return STATUS_OK;
}

static size_t spaces_before(const struct yaml_node *node) {
    return node->column > 0 ? (size_t)node->column - 1 : 0;
}

// Whole lines behind the line that holds `end`, and behind comments indented by `comments` or more.
static enum status insert_lines(const struct casefile *file, size_t end, size_t comments, struct style style,
                                const char *heading, const struct test_row *rows, size_t count, struct text *ret_bytes,
                                struct error *err) {
    size_t at = after_comments(file, after_line(file, end), comments);
    struct text piece = {0};
    bool first = true;
    style.line_end = line_end_near(file, at);
    style.break_before = !begins_line(file, at);
    if (heading) {
        begin_line(&piece, &style, &first);
        text_add_repeated(&piece, " ", style.indent - 2);
        text_add(&piece, heading);
    }
    for (size_t i = 0; i < count; i++)
        write_block(&piece, &style, &rows[i], &first);
    if (!style.break_before)
        text_add(&piece, style.line_end);
    enum status status = insert(file, at, &piece, ret_bytes, err);
    text_release(&piece);
    return status;
}

static void write_flow_rows(struct text *piece, const struct casefile *file, size_t at, const char *separator,
                            const struct test_row *rows, size_t count) {
    const char *line_end = line_end_near(file, at);
    for (size_t i = 0; i < count; i++) {
        text_add(piece, i ? "," : separator);
        text_printf(piece, "%s  {", line_end);
        write_flow(piece, &rows[i], "");
        text_add(piece, "}");
    }
}

static enum status append_in_brackets(const struct casefile *file, const struct yaml_node *list,
                                      const struct test_row *rows, size_t count, struct text *ret_bytes,
                                      struct error *err) {
    size_t at = list->count ? list->items[list->count - 1]->end : list->begin + 1;
    struct text piece = {0};
    write_flow_rows(&piece, file, at, list->count ? "," : "", rows, count);
    enum status status = insert(file, at, &piece, ret_bytes, err);
    text_release(&piece);
    return status;
}

static enum status begin_list_in_braces(const struct casefile *file, const struct test_row *rows, size_t count,
                                        struct text *ret_bytes, struct error *err) {
    size_t at = file->root->pairs[file->root->count - 1].value->end;
    struct text piece = {0};
    text_add(&piece, ", \"tests\": [");
    write_flow_rows(&piece, file, at, "", rows, count);
    text_add(&piece, "]");
    enum status status = insert(file, at, &piece, ret_bytes, err);
    text_release(&piece);
    return status;
}

static enum status put_tests(const struct casefile *file, const struct test_row *rows, size_t count,
                             struct text *ret_bytes, struct error *err) {
    const struct yaml_node *root = file->root;
    const struct yaml_node *list = yaml_find(root, "tests");
    size_t margin = spaces_before(root);
    struct style style = {.dash = true, .indent = margin + 2};
    if (!list && root->flow)
        return begin_list_in_braces(file, rows, count, ret_bytes, err);
    if (!list)
        return insert_lines(file, root->end, margin, style, "tests:", rows, count, ret_bytes, err);
    if (list->kind == YAML_LIST && list->flow)
        return append_in_brackets(file, list, rows, count, ret_bytes, err);
    if (list->kind == YAML_LIST) {
        style.indent = spaces_before(list);
        size_t comments = style.indent > margin ? style.indent : margin + 1;
        return insert_lines(file, list->end, comments, style, NULL, rows, count, ret_bytes, err);
    }
    if (root->flow)
        return error_set(err, STATUS_INPUT,
                         "%s:%d:%d: 'tests' has no value inside braces; write 'tests: []' there first", file->path,
                         list->line, list->column);
    return insert_lines(file, list->end, margin + 1, style, NULL, rows, count, ret_bytes, err);
}

enum status case_append_tests(const struct casefile *file, const struct test_row *rows, size_t count,
                              struct text *ret_bytes, size_t *ret_values, struct error *err) {
    size_t values = yaml_find(file->root, "tests") ? 0 : 2; // the key and its list
    for (size_t i = 0; i < count; i++)
        values += 1 + cell_values(&rows[i]);
    enum status status = put_tests(file, rows, count, ret_bytes, err);
    if (status == STATUS_OK)
        *ret_values = values;
    return status;
}

static enum status refuse_present(const struct casefile *file, const struct yaml_node *node,
                                  const struct test_row *more, struct error *err) {
    for (size_t i = 0; i < case_test_record.field_count; i++) {
        const char *key = case_test_record.fields[i].key;
        const struct yaml_node *present = more->cells[i].text ? yaml_find(node, key) : NULL;
        if (present)
            return error_set(err, STATUS_INPUT,
                             "%s:%d:%d: '%s' stands here already, and what was written is kept; correct it by hand, "
                             "or withdraw the test and note it anew",
                             file->path, present->line, present->column, key);
    }
    return STATUS_OK;
}

enum status case_extend_test(const struct casefile *file, size_t test, const struct test_row *more,
                             struct text *ret_bytes, size_t *ret_values, struct error *err) {
    const struct yaml_node *node = case_entry_node(file, "tests", test);
    enum status status = refuse_present(file, node, more, err);
    if (status != STATUS_OK)
        return status;
    *ret_values = cell_values(more);
    if (!node->flow) {
        struct style style = {.indent = spaces_before(node)};
        return insert_lines(file, node->end, style.indent, style, NULL, more, 1, ret_bytes, err);
    }
    struct text piece = {0};
    write_flow(&piece, more, ", ");
    status = insert(file, node->pairs[node->count - 1].value->end, &piece, ret_bytes, err);
    text_release(&piece);
    return status;
}

// --- nothing lost, nothing else added ---

static size_t values_in(const struct yaml_node *node) {
    size_t count = 1;
    for (size_t i = 0; i < node->count; i++)
        count += node->kind == YAML_MAP ? 1 + values_in(node->pairs[i].value) : values_in(node->items[i]);
    return count;
}

// A block of text that ended the file without a line end gets one when something follows it; YAML counts that in.
static bool same_text(const char *earlier, const char *later) {
    size_t length = strlen(earlier);
    return strncmp(earlier, later, length) == 0 && (later[length] == '\0' || strcmp(later + length, "\n") == 0);
}

bool case_extends(const struct yaml_node *earlier, const struct yaml_node *later, size_t *ret_added) {
    bool begun = earlier->kind == YAML_SCALAR && earlier->text[0] == '\0' && later->kind == YAML_LIST;
    if (begun) {
        *ret_added += values_in(later) - 1;
        return true;
    }
    if (earlier->kind != later->kind || earlier->count > later->count)
        return false;
    if (earlier->kind == YAML_SCALAR)
        return same_text(earlier->text, later->text);
    for (size_t i = 0; i < later->count; i++) {
        const struct yaml_node *value = later->kind == YAML_MAP ? later->pairs[i].value : later->items[i];
        if (i >= earlier->count) {
            *ret_added += values_in(value) + (later->kind == YAML_MAP);
            continue;
        }
        if (later->kind == YAML_MAP && strcmp(earlier->pairs[i].key->text, later->pairs[i].key->text) != 0)
            return false;
        if (!case_extends(earlier->kind == YAML_MAP ? earlier->pairs[i].value : earlier->items[i], value, ret_added))
            return false;
    }
    return true;
}
