// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as the list of liquids of `learn --fit`. A sphere that is found lies within its bounds.
#include "calling.h"
#include "folder.h"
#include "target.h"

extern const struct command cmd_learn;

static char *path_of_list(void) {
    static struct folder folder;
    static char path[FOLDER_PATH_BYTES + 16];
    if (!path[0]) {
        folder_make(&folder);
        snprintf(path, sizeof path, "%s/list.csv", folder.path);
    }
    return path;
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    static struct call call;
    static char fit[] = "--fit", json[] = "--json", polymer[] = "--polymer", name[] = "resin";
    char *words[] = {fit, path_of_list(), json, polymer, name};
    bool one_polymer = length && bytes[0] == 'p'; // a heading that begins with the polymer
    write_input(words[1], bytes, length);
    enum status status = call_begin(&call, &cmd_learn, words, one_polymer ? 5 : 3);
    LAW(status == STATUS_OK);
    status = call_answer(&call);
    LAW(status != STATUS_OK || strstr(text_bytes(&call.out), "\"r0\": "));
    LAW(!strstr(text_bytes(&call.out), "\"r0\": null"));
    call_end(&call, status);
    remove(words[1]);
    return 0;
}
