// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as a file of a user's tables: checked as `check FILE` does, and put on top of the shipped tables as --data
// does. A file without faults opens.
#include "tables.h"
#include "target.h"

#include <unistd.h>

static const char *const names[] = {"components", "properties",    "hazards",     "limits",
                                    "materials",  "bottles",       "miscibility", "references",
                                    "statements", "sensitivities", "uncertainty", "unifac-assignments"};

// The table that the first line names, else bottles.
static const char *table_of(const uint8_t *bytes, size_t length) {
    char line[64] = "";
    size_t most = length < sizeof line - 1 ? length : sizeof line - 1;
    memcpy(line, bytes, most);
    line[strcspn(line, "\n")] = '\0';
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++)
        if (strstr(line, names[i]))
            return names[i];
    return "bottles";
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    static struct folder own;
    static struct data_directory directories[2];
    if (!directories[0].path)
        tables_with_folder(&own, directories);
    char path[4096];
    snprintf(path, sizeof path, "%s/%s.yaml", directories[1].path, table_of(bytes, length));
    write_input(path, bytes, length);
    struct error err = {0};
    struct fault_list faults = {0};
    enum status status = library_check_file(path, directories, 1, &faults, &err);
    LAW(status == STATUS_OK || err.text[0]);
    faults_release(&faults);
    struct library lib = {0};
    status =
        library_open(&lib, directories, 2, TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_PROPERTIES, &err);
    LAW(status == STATUS_OK || (status == STATUS_INPUT && err.text[0]));
    library_release(&lib);
    unlink(path);
    return 0;
}
