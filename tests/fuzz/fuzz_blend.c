// SPDX-License-Identifier: GPL-3.0-or-later
// Any text as blend notation and as lists of bottles and materials. What is read as a blend, written again, is the same
// blend.
#include "physics/blend.h"
#include "tables.h"
#include "target.h"

#include <math.h>

static const struct library *library(void) {
    static struct library lib;
    if (!lib.directories)
        tables_open(&lib, TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_PROPERTIES);
    return &lib;
}

static void check_blend(const struct blend *blend) {
    double sum = 0;
    LAW(blend->part_count >= 1 && blend->count >= 1);
    for (size_t i = 0; i < blend->count; i++) {
        LAW(blend->volume_fractions[i] > 0 && blend->volume_fractions[i] <= 1 + 1e-12);
        sum += blend->volume_fractions[i];
    }
    LAW(fabs(sum - 1) < 1e-9);
}

static void write_and_read_again(const struct blend *blend) {
    struct text notation = {0};
    struct blend again;
    struct error err = {0};
    blend_write(blend, &notation);
    LAW(blend_parse(library(), text_bytes(&notation), &again, NULL, &err) == STATUS_OK);
    LAW(again.part_count == blend->part_count && again.count == blend->count);
    text_release(&notation);
}

int LLVMFuzzerTestOneInput(const uint8_t *bytes, size_t length) {
    char *text = input_text(bytes, length);
    struct blend blend;
    struct error err = {0};
    char note[BLEND_NOTE_SIZE];
    if (blend_parse(library(), text, &blend, note, &err) == STATUS_OK) {
        check_blend(&blend);
        write_and_read_again(&blend);
    } else {
        LAW(err.text[0]);
    }
    struct bottle_ref bottles[16];
    const struct material *materials[8];
    size_t count = 0;
    LAW(bottle_list_parse(library(), text, bottles, 16, &count, &err) != STATUS_OK || count <= 16);
    count = 0;
    LAW(material_list_parse(library(), text, materials, 8, &count, &err) != STATUS_OK || count <= 8);
    free(text);
    return 0;
}
