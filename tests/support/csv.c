// SPDX-License-Identifier: GPL-3.0-or-later
#include "csv.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void stop(const char *path, const char *what) {
    fprintf(stderr, "%s: %s\n", path, what);
    exit(2);
}

static char *read_all(const char *path) {
    FILE *file = fopen(path, "rb");
    if (!file)
        stop(path, "cannot be opened");
    fseek(file, 0, SEEK_END);
    long size = ftell(file);
    rewind(file);
    char *bytes = malloc((size_t)size + 1);
    if (!bytes || fread(bytes, 1, (size_t)size, file) != (size_t)size)
        stop(path, "cannot be read");
    bytes[size] = '\0';
    fclose(file);
    return bytes;
}

// Cuts one field in place and returns what ended it: ',', '\n' or 0.
static char cut_field(char **cursor, char **ret_field) {
    char *in = *cursor, *out = *cursor;
    *ret_field = out;
    int quoted = 0;
    for (; *in; in++) {
        if (*in == '"' && quoted && in[1] == '"')
            *out++ = *in++;
        else if (*in == '"')
            quoted = !quoted;
        else if (!quoted && (*in == ',' || *in == '\n'))
            break;
        else if (*in != '\r')
            *out++ = *in;
    }
    char end = *in;
    *cursor = end ? in + 1 : in;
    *out = '\0';
    return end;
}

void csv_read(const char *path, struct csv *ret) {
    *ret = (struct csv){.bytes = read_all(path)};
    size_t lines = 1;
    for (const char *at = ret->bytes; *at; at++)
        lines += *at == '\n';
    char *cursor = ret->bytes, *header[CSV_COLUMNS_MAX];
    char end = ',';
    while (end == ',' && ret->columns < CSV_COLUMNS_MAX)
        end = cut_field(&cursor, &header[ret->columns++]);
    ret->fields = calloc(lines * ret->columns, sizeof *ret->fields);
    if (!ret->fields)
        stop(path, "out of memory");
    memcpy(ret->fields, header, ret->columns * sizeof *header);
    while (*cursor) {
        char **row = ret->fields + (ret->rows + 1) * ret->columns;
        size_t column = 0;
        end = ',';
        while (end == ',' && column < ret->columns)
            end = cut_field(&cursor, &row[column++]);
        if (column != ret->columns || end == ',')
            stop(path, "a row has another number of fields than the header");
        ret->rows++;
    }
}

void csv_release(struct csv *csv) {
    free(csv->fields);
    free(csv->bytes);
    *csv = (struct csv){0};
}

const char *csv_text(const struct csv *csv, size_t row, const char *column) {
    for (size_t i = 0; i < csv->columns; i++)
        if (strcmp(csv->fields[i], column) == 0)
            return csv->fields[(row + 1) * csv->columns + i];
    stop(column, "no such column");
    return NULL;
}

double csv_number(const struct csv *csv, size_t row, const char *column) {
    const char *text = csv_text(csv, row, column);
    if (!*text)
        return NAN;
    char *end = NULL;
    double value = strtod(text, &end);
    if (*end)
        stop(text, "not a number");
    return value;
}
