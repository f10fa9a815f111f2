// SPDX-License-Identifier: GPL-3.0-or-later
// Keys, units and valid ranges of a case file. Ranges are wide enough for a wall painting and a long campaign, narrow
// enough to catch a slipped decimal point.
#include "casefile/case_records.h"

#include "casefile/casefile.h"
#include "data/schema_fields.h"

#include <string.h>

const char *const corner_words[] = {"not stated", "lower left", "lower right", "upper left", "upper right", NULL};
const char *const layer_kind_words[] = {"other", "dirt",   "varnish", "overpaint", "retouching", "fill", "glaze",
                                        "paint", "ground", "size",    "support",   "lining",     NULL};
const char *const tone_words[] = {"not stated", "light", "middle", "dark", NULL};
const char *const body_words[] = {"not stated", "thin", "middle", "thick", NULL};
const char *const sensitivity_words[] = {
    "red-lake glaze", "copper green", "bituminous brown", "resinous glaze", "lean",      "young",
    "zinc white",     "unvarnished",  "water-sensitive",  "flaking",        "signature", "gilding",
    "wax lining",     "glue lining",  "wax in paint",     "natural ground", "other",     NULL};
const char *const person_flag_words[] = {"pregnancy announced", "breastfeeding", "under 18", "asthma",
                                         "skin condition",      "sensitised",    "alone",    NULL};
const char *const how_known_words[] = {"not stated", "guessed", "estimated", "measured", NULL};
const char *const arm_words[] = {"none", "capture not measured", "capture measured", NULL};
const char *const delivery_words[] = {"not stated", "swab", "swab through tissue", "gel", "microfibre", NULL};
const char *const planned_role_words[] = {"layer", "paint", "isolating varnish", "fill", "retouching", "varnish", NULL};
const char *const coat_method_words[] = {"brush", "spray", NULL};
const char *const result_words[] = {"none", "gloss change", "softened", "partly removed", "removed", NULL};
const char *const colour_words[] = {"not looked", "none", "varnish tint", "overpaint", "original", "unsure", NULL};
const char *const blanching_words[] = {"not looked", "none", "wet only", "after drying", NULL};

#define LARGEST_MM 100000 // 100 m: a painted wall

#define ROW struct case_object
static const struct field object_fields[] = {NEEDED_TEXT(title),
                                             TEXT(number),
                                             TEXT(maker),
                                             TEXT(date),
                                             TEXT(technique),
                                             NUMBER(width_mm, "mm", 1, LARGEST_MM),
                                             NUMBER(height_mm, "mm", 1, LARGEST_MM),
                                             WORD(measured_from, corner_words),
                                             TEXT(note)};
static RECORD(object_record, "object", object_fields, NO_ID);
#undef ROW

#define ROW struct case_studio
static const struct field studio_fields[] = {TEXT(name), TEXT(country), TEXT(limits), TEXT(note)};
static RECORD(studio_record, "studio", studio_fields, NO_ID);
#undef ROW

#define ROW struct case_layer
static const struct field layer_fields[] = {NEEDED_ID(id),
                                            TEXT(name),
                                            NEEDED_WORD(kind, layer_kind_words),
                                            TEXT(material),
                                            TEXTS(alternatives),
                                            TEXT(evidence),
                                            WORD(confidence, confidence_words),
                                            NUMBER(thickness_um, "micrometres", 0.1, 100000),
                                            TEXT(date),
                                            TEXT(note)};
static RECORD(layer_record, "layer", layer_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct case_place
static const struct field place_fields[] = {
    NEEDED_NUMBER(x_mm, "mm", 0, LARGEST_MM), NEEDED_NUMBER(y_mm, "mm", 0, LARGEST_MM),
    NUMBER(width_mm, "mm", 0, LARGEST_MM), NUMBER(height_mm, "mm", 0, LARGEST_MM)};
static RECORD(place_record, "place", place_fields, NO_ID);
#undef ROW

#define ROW struct case_passage
static const struct field passage_fields[] = {NEEDED_ID(id),
                                              TEXT(name),
                                              GROUP(place, place_record),
                                              WORD(tone, tone_words),
                                              WORD(body, body_words),
                                              TEXTS(colours),
                                              TEXTS(sensitive),
                                              TEXTS(layers),
                                              TEXT(note)};
static RECORD(passage_record, "passage", passage_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct case_denaturant
static const struct field denaturant_fields[] = {NEEDED_TEXT(component),
                                                 NEEDED_NUMBER(percent, "percent by volume", 0.001, 50)};
static RECORD(denaturant_record, "denaturant", denaturant_fields, NO_ID);
#undef ROW

#define ROW struct case_bottle
static const struct field bottle_fields[] = {NEEDED_ID(id),
                                             TEXT(name),
                                             TEXT(content),
                                             TEXT(grade),
                                             NUMBER(water_percent, "percent by volume", 0, 99),
                                             RECORDS(denaturants, denaturant_record),
                                             TEXT(supplier),
                                             TEXT(batch),
                                             NUMBER(volume_ml, "mL", 1, 200000),
                                             DATE(received, FIELD_MONTH_WILL_DO),
                                             DATE(opened, FIELD_MONTH_WILL_DO),
                                             DATE(peroxide_tested, FIELD_MONTH_WILL_DO),
                                             DATE(finished, FIELD_MONTH_WILL_DO),
                                             TEXT(note)};
static RECORD(bottle_of_case_record, "bottle", bottle_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct case_room
static const struct field room_fields[] = {TEXT(name),
                                           NUMBER(volume_m3, "m3", 1, 100000),
                                           NUMBER(air_changes_per_h, "per hour", 0, 100),
                                           WORD(air_changes_are, how_known_words),
                                           WORD(arm, arm_words),
                                           NUMBER(arm_capture_percent, "percent", 0, 100),
                                           NUMBER(temperature_c, "degC", -10, 50),
                                           TEXT(note)};
static RECORD(room_record, "room", room_fields, NO_ID);
#undef ROW

#define ROW struct case_people
static const struct field people_fields[] = {INTEGER(at_work, 1, 1000), TEXTS(flags), TEXT(note)};
static RECORD(people_record, "people group", people_fields, NO_ID);
#undef ROW

#define ROW struct case_goals
static const struct field goals_fields[] = {TEXTS(remove), TEXTS(spare), TEXTS(unsure), TEXT(note)};
static RECORD(goals_record, "goals group", goals_fields, NO_ID);
#undef ROW

#define ROW struct case_delivery
static const struct field delivery_fields[] = {WORD(method, delivery_words),
                                               NUMBER(load_ml_per_h, "mL per hour", 0.01, 10000),
                                               NUMBER(hours_per_day, "hours", 0.01, 24),
                                               NUMBER(days, "days", 0.01, 10000),
                                               NUMBER(contact_s, "seconds", 0.1, 1000000),
                                               TEXT(note)};
static RECORD(delivery_record, "delivery group", delivery_fields, NO_ID);
#undef ROW

#define ROW struct case_planned
static const struct field planned_fields[] = {NEEDED_ID(id),
                                              TEXT(option),
                                              WORD(role, planned_role_words),
                                              NEEDED_TEXT(material),
                                              TEXT(carrier),
                                              NUMBER(percent_w_v, "g in 100 mL", 0.1, 80),
                                              WORD(method, coat_method_words),
                                              NUMBER(drying_days, "days", 0, 36500),
                                              {.key = "done", .kind = FIELD_YES_NO, AT(done)},
                                              TEXT(note)};
static RECORD(planned_record, "planned layer", planned_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct case_replacement
static const struct field replacement_fields[] = {NEEDED_TEXT(blend), TEXTS(without), TEXT(bottle), TEXT(note)};
static RECORD(replacement_record, "replacement", replacement_fields, NO_ID);
#undef ROW

#define ROW struct case_decision
static const struct field decision_fields[] = {DATE(date, FIELD_REQUIRED), NEEDED_TEXT(by), NEEDED_TEXT(decision),
                                               TEXT(because), TEXT(blend)};
static RECORD(decision_record, "decision", decision_fields, NO_ID);
#undef ROW

#define ROW struct case_test
static const struct field test_fields[] = {NEEDED_TEXT(id),
                                           DATE(date, FIELD_REQUIRED),
                                           TEXT(by),
                                           {.key = "passage", .kind = FIELD_ID, AT(passage)},
                                           NUMBER(x_mm, "mm", 0, LARGEST_MM),
                                           NUMBER(y_mm, "mm", 0, LARGEST_MM),
                                           {.key = "layer", .kind = FIELD_ID, AT(layer)},
                                           NEEDED_TEXT(blend),
                                           WORD(delivery, delivery_words),
                                           NUMBER(load_ml, "mL", 0.001, 1000),
                                           NUMBER(contact_s, "seconds", 0.1, 1000000),
                                           INTEGER(rolls, 1, 10000),
                                           NEEDED_WORD(result, result_words),
                                           WORD(colour_on_swab, colour_words),
                                           WORD(blanching, blanching_words),
                                           TEXT(clearing),
                                           TEXT(note_wet),
                                           TEXT(note_dry),
                                           TEXT(note_next_day),
                                           TEXT(note_uv),
                                           TEXT(photo),
                                           {.key = "withdrawn", .kind = FIELD_YES_NO, AT(withdrawn)},
                                           DATE(withdrawn_on, 0),
                                           TEXT(withdrawn_by),
                                           TEXT(withdrawn_because)};
RECORD(case_test_record, "test", test_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct casefile
static const struct field case_fields[] = {
    {.key = "mildsolve_case",
     .kind = FIELD_INTEGER,
     AT(version),
     .min = 1,
     .max = CASE_VERSION,
     .flags = FIELD_REQUIRED},
    {.key = "object", .kind = FIELD_GROUP, AT(object), .record = &object_record, .flags = FIELD_REQUIRED},
    GROUP(studio, studio_record),
    RECORDS(layers, layer_record),
    RECORDS(passages, passage_record),
    RECORDS(bottles, bottle_of_case_record),
    GROUP(room, room_record),
    GROUP(people, people_record),
    GROUP(goals, goals_record),
    GROUP(delivery, delivery_record),
    TEXTS(day),
    RECORDS(planned, planned_record),
    RECORDS(replacements, replacement_record),
    RECORDS(decisions, decision_record),
    RECORDS(tests, case_test_record),
    TEXT(note)};
RECORD(case_record, "case", case_fields, NO_ID);
#undef ROW

size_t case_test_field(const char *key) {
    for (size_t i = 0; i < case_test_record.field_count; i++)
        if (strcmp(test_fields[i].key, key) == 0)
            return i;
    return SIZE_MAX;
}
