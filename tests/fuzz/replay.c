// SPDX-License-Identifier: GPL-3.0-or-later
// Runs stored inputs through a target: replay FILE-OR-FOLDER ...
#include "target.h"

#include <dirent.h>
#include <string.h>
#include <sys/stat.h>

static size_t run;

static void replay_file(const char *path) {
    FILE *file = fopen(path, "rb");
    LAW(file != NULL);
    fseek(file, 0, SEEK_END);
    long size = ftell(file);
    LAW(size >= 0);
    rewind(file);
    // Just as large as the input, so that a read beyond it is seen.
    uint8_t *bytes = malloc(size ? (size_t)size : 1);
    LAW(bytes && fread(bytes, 1, (size_t)size, file) == (size_t)size);
    fclose(file);
    fprintf(stderr, "%s\n", path);
    LLVMFuzzerTestOneInput(bytes, (size_t)size);
    free(bytes);
    run++;
}

static void replay(const char *path) {
    struct stat status;
    LAW(stat(path, &status) == 0);
    if (!S_ISDIR(status.st_mode)) {
        replay_file(path);
        return;
    }
    DIR *folder = opendir(path);
    LAW(folder != NULL);
    for (struct dirent *entry; (entry = readdir(folder));) {
        char inner[4096];
        snprintf(inner, sizeof inner, "%s/%s", path, entry->d_name);
        if (entry->d_name[0] != '.' && stat(inner, &status) == 0 && !S_ISDIR(status.st_mode))
            replay_file(inner);
    }
    closedir(folder);
}

int main(int argc, char **argv) {
    for (int i = 1; i < argc; i++)
        replay(argv[i]);
    printf("%zu inputs\n", run);
    return run ? 0 : 1;
}
