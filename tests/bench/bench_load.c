// SPDX-License-Identifier: GPL-3.0-or-later
// Loading all tables with every check against a bare libyaml event loop over the same bytes in the same run: how much
// our tree, field tables and cross-checks cost on top of the parser. The event loop has the bytes in memory already,
// ours opens and reads the files too. Rounds alternate, the best of each counts. `--count` loads once, for callgrind.
#include "data/library.h"
#include "stopwatch.h"
#include "tables.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <yaml.h>

enum { ROUNDS = 40, FILES_MAX = 64, PATH_BYTES = 1024 };

static const double goal_factor = 3;

struct file {
    unsigned char *bytes;
    size_t length;
};

static void stop(const char *what) {
    fprintf(stderr, "bench_load: %s\n", what);
    exit(2);
}

static struct file read_file(const char *path) {
    FILE *stream = fopen(path, "rb");
    if (!stream)
        stop(path);
    fseek(stream, 0, SEEK_END);
    long size = ftell(stream);
    rewind(stream);
    struct file file = {.bytes = malloc((size_t)size + 1), .length = (size_t)size};
    if (size <= 0 || !file.bytes || fread(file.bytes, 1, file.length, stream) != file.length)
        stop(path);
    fclose(stream);
    return file;
}

// Every table of the directory.
static size_t read_files(const char *directory, struct file *files, size_t *ret_bytes) {
    DIR *stream = opendir(directory);
    size_t count = 0;
    if (!stream)
        stop(directory);
    for (struct dirent *entry = readdir(stream); entry; entry = readdir(stream)) {
        const char *dot = strrchr(entry->d_name, '.');
        char path[PATH_BYTES];
        if (!dot || strcmp(dot, ".yaml") != 0 || count == FILES_MAX)
            continue;
        snprintf(path, sizeof path, "%s/%s", directory, entry->d_name);
        files[count] = read_file(path);
        *ret_bytes += files[count++].length;
    }
    closedir(stream);
    return count;
}

static size_t parse_bare(const struct file *file) {
    yaml_parser_t parser;
    yaml_event_t event;
    size_t events = 0;
    if (!yaml_parser_initialize(&parser))
        stop("out of memory");
    yaml_parser_set_input_string(&parser, file->bytes, file->length);
    for (yaml_event_type_t type = YAML_NO_EVENT; type != YAML_STREAM_END_EVENT; events++) {
        if (!yaml_parser_parse(&parser, &event))
            stop("not valid YAML");
        type = event.type;
        yaml_event_delete(&event);
    }
    yaml_parser_delete(&parser);
    return events;
}

static double time_bare(const struct file *files, size_t count, size_t *ret_events) {
    double start = seconds(CLOCK_PROCESS_CPUTIME_ID);
    *ret_events = 0;
    for (size_t i = 0; i < count; i++)
        *ret_events += parse_bare(&files[i]);
    return seconds(CLOCK_PROCESS_CPUTIME_ID) - start;
}

static double time_ours(void) {
    struct library lib;
    double start = seconds(CLOCK_PROCESS_CPUTIME_ID);
    tables_open(&lib, TABLE_ALL);
    double taken = seconds(CLOCK_PROCESS_CPUTIME_ID) - start;
    library_release(&lib);
    return taken;
}

// As `place` reads them for a blend of two components.
static double time_place(void) {
    struct library lib;
    double start = seconds(CLOCK_PROCESS_CPUTIME_ID);
    tables_open(&lib, TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS);
    const struct component *const blend[] = {tables_component(&lib, "toluene"), tables_component(&lib, "acetone")};
    if (library_add(&lib, TABLE_PROPERTIES | TABLE_UNIFAC | TABLE_MISCIBILITY, blend, 2, NULL) != STATUS_OK)
        stop("the tables cannot be read");
    double taken = seconds(CLOCK_PROCESS_CPUTIME_ID) - start;
    library_release(&lib);
    return taken;
}

static double least(double a, double b) {
    return a < b ? a : b;
}

int main(int argc, char **argv) {
    struct file files[FILES_MAX];
    size_t bytes = 0, events = 0;
    if (argc > 1 && strcmp(argv[1], "--count") == 0) {
        time_ours();
        return 0;
    }
    size_t count = read_files(tables_directory(), files, &bytes);
    double bare = 1e9, ours = 1e9, place = 1e9;
    for (int round = 0; round < ROUNDS; round++) {
        bare = least(bare, time_bare(files, count, &events));
        ours = least(ours, time_ours());
        place = least(place, time_place());
    }
    for (size_t i = 0; i < count; i++)
        free(files[i].bytes);
    printf("%zu tables, %zu bytes, %zu events\n", count, bytes, events);
    printf("  libyaml events alone %.2f ms\n", 1e3 * bare);
    printf("  all tables with every check %.2f ms: %.2f times\n", 1e3 * ours, ours / bare);
    printf("  what `place` reads for two components %.2f ms: %.2f times\n", 1e3 * place, place / bare);
    printf("goal (%.0f times): %s\n", goal_factor, ours <= goal_factor * bare ? "reached" : "missed");
    return ours <= goal_factor * bare ? 0 : 1;
}
