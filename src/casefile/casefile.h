// SPDX-License-Identifier: GPL-3.0-or-later
// The case: the treatment file of one object, a YAML text that people write by hand and `record` adds to. Field names
// are the keys of the file; what is not stated is NULL, NAN, 0 or an empty list. Lengths in mm, volumes in mL, times
// in seconds unless the key says otherwise.
#ifndef MILDSOLVE_CASEFILE_CASEFILE_H
#define MILDSOLVE_CASEFILE_CASEFILE_H

#include "base/date.h"
#include "data/library.h"
#include "physics/blend.h"

enum { CASE_VERSION = 1 }; // of the format that this program writes and reads

// Tables that a case is checked against.
enum { CASE_TABLES = TABLE_COMPONENTS | TABLE_BOTTLES | TABLE_MATERIALS | TABLE_HAZARDS | TABLE_LIMITS };

// --- words; the index is the value of the int field ---

enum corner { CORNER_NOT_STATED, CORNER_LOWER_LEFT, CORNER_LOWER_RIGHT, CORNER_UPPER_LEFT, CORNER_UPPER_RIGHT };
extern const char *const corner_words[];

enum layer_kind {
    LAYER_OTHER,
    LAYER_DIRT,
    LAYER_VARNISH,
    LAYER_OVERPAINT,
    LAYER_RETOUCHING,
    LAYER_FILL,
    LAYER_GLAZE,
    LAYER_PAINT,
    LAYER_GROUND,
    LAYER_SIZE,
    LAYER_SUPPORT,
    LAYER_LINING
};
extern const char *const layer_kind_words[];

extern const char *const tone_words[];        // not stated, light, middle, dark
extern const char *const body_words[];        // not stated, thin, middle, thick
extern const char *const sensitivity_words[]; // what makes a passage need a test of its own
extern const char *const person_flag_words[]; // what the people at work have announced

enum how_known { KNOWN_NOT_STATED, KNOWN_GUESSED, KNOWN_ESTIMATED, KNOWN_MEASURED };
extern const char *const how_known_words[];

enum arm { ARM_NONE, ARM_NOT_MEASURED, ARM_MEASURED };
extern const char *const arm_words[];

enum delivery_method { DELIVERY_NOT_STATED, DELIVERY_SWAB, DELIVERY_TISSUE, DELIVERY_GEL, DELIVERY_MICROFIBRE };
extern const char *const delivery_words[]; // not stated, swab, swab through tissue, gel, microfibre

enum result { RESULT_NONE, RESULT_GLOSS_CHANGE, RESULT_SOFTENED, RESULT_PARTLY_REMOVED, RESULT_REMOVED };
extern const char *const result_words[]; // none, gloss change, softened, partly removed, removed

enum colour { COLOUR_NOT_LOOKED, COLOUR_NONE, COLOUR_VARNISH_TINT, COLOUR_OVERPAINT, COLOUR_ORIGINAL, COLOUR_UNSURE };
extern const char *const colour_words[]; // not looked, none, varnish tint, overpaint, original, unsure

enum blanching { BLANCHING_NOT_LOOKED, BLANCHING_NONE, BLANCHING_WET, BLANCHING_DRY };
extern const char *const blanching_words[]; // not looked, none, wet only, after drying

enum planned_role { ROLE_LAYER, ROLE_PAINT, ROLE_ISOLATING, ROLE_FILL, ROLE_RETOUCHING, ROLE_VARNISH };
extern const char *const planned_role_words[]; // layer, paint, isolating varnish, fill, retouching, varnish

enum coat_method { COAT_BRUSH, COAT_SPRAY };
extern const char *const coat_method_words[]; // brush spray

// --- what the file holds ---

struct case_object {
    const char *title;
    const char *number;
    const char *maker;
    const char *date; // in words: "about 1880"
    const char *technique;
    double width_mm, height_mm;
    int measured_from; // enum corner, for every place in the file
    const char *note;
};

struct case_studio {
    const char *name;
    const char *country;
    const char *limits; // a limit set, or "strictest"
    const char *note;
};

// From the top down.
struct case_layer {
    const char *id;
    const char *name;
    int kind;                      // enum layer_kind
    const char *material;          // of the table of materials
    struct text_list alternatives; // what it may be instead
    const char *evidence;
    int confidence; // index into confidence_words; low when not stated
    double thickness_um;
    const char *date; // in words
    const char *note;
};

struct case_place {
    double x_mm, y_mm;          // a point, or the corner of an area that is nearest to the origin
    double width_mm, height_mm; // away from the origin; NAN for a point
};

struct case_passage {
    const char *id;
    const char *name;
    struct case_place place;
    int tone; // index into tone_words
    int body; // index into body_words
    struct text_list colours;
    struct text_list sensitive; // of sensitivity_words
    struct text_list layers;    // ids; empty = all layers
    const char *note;
};

struct case_denaturant {
    const char *component;
    double percent; // by volume of the whole bottle
};

struct case_bottle {
    const char *id;
    const char *name;
    const char *content; // a bottle or component of the tables, or a blend of them; the id when not stated
    const char *grade;
    double water_percent;           // by volume, all of the water in the bottle as it stands
    struct record_list denaturants; // of struct case_denaturant
    const char *supplier;
    const char *batch;
    double volume_ml;
    struct date received;        // these three may be months
    struct date opened;          // not set = not opened
    struct date peroxide_tested; // last test for peroxides that found none
    struct date finished;        // empty or thrown away: no longer on the shelf
    const char *note;
    struct bottle_ref ref; // what it stands for; set by the reading
};

struct case_room {
    const char *name;
    double volume_m3;
    double air_changes_per_h;
    int air_changes_are; // enum how_known
    int arm;             // enum arm
    double arm_capture_percent;
    double temperature_c;
    const char *note;
};

// Flags stand for all who work in the room, so that nobody's health is written beside a name.
struct case_people {
    int at_work;
    struct text_list flags; // of person_flag_words
    const char *note;
};

// Ids of layers of the case, or names of materials.
struct case_goals {
    struct text_list remove;
    struct text_list spare;
    struct text_list unsure; // counts as to be spared until decided
    const char *note;
};

struct case_delivery {
    int method; // enum delivery_method
    double load_ml_per_h;
    double hours_per_day;
    double days;
    double contact_s;
    const char *note;
};

struct case_test {
    const char *id;
    struct date date;
    const char *by;      // initials
    const char *passage; // id; where not stated, the smallest passage that holds the place, set by the reading
    double x_mm, y_mm;
    const char *layer; // id of the layer aimed at
    const char *blend; // notation, as mixed
    int delivery;      // enum delivery_method
    double load_ml;
    double contact_s;
    int rolls;          // 0 = not stated
    int result;         // enum result
    int colour_on_swab; // enum colour
    int blanching;      // enum blanching
    const char *clearing;
    const char *note_wet, *note_dry, *note_next_day, *note_uv;
    const char *photo;
    bool withdrawn; // undone: kept, but no longer evidence
    struct date withdrawn_on;
    const char *withdrawn_by;
    const char *withdrawn_because;
    struct blend mix; // of `blend`; set by the reading
};

// What is to be put back, from the bottom up.
struct case_planned {
    const char *id;
    const char *option;   // name of the variant that this layer belongs to; not stated = to all of them
    int role;             // enum planned_role
    const char *material; // of the table of materials
    const char *carrier;  // notation; not stated = stands already
    double percent_w_v;   // g of resin in 100 mL
    int method;           // enum coat_method
    double drying_days;   // before the next layer
    bool done;            // put on already
    const char *note;
};

// What something else is to be found for.
struct case_replacement {
    const char *blend;        // notation
    struct text_list without; // bottles, components or hazard classes that shall go
    const char *bottle;       // replaced alone, the rest stays; NULL = the whole blend
    const char *note;
};

struct case_decision {
    struct date date;
    const char *by;
    const char *decision;
    const char *because;
    const char *blend; // notation, when a blend was chosen
};

struct casefile {
    int version;
    struct case_object object;
    struct case_studio studio;
    struct record_list layers;   // of struct case_layer
    struct record_list passages; // of struct case_passage
    struct record_list bottles;  // of struct case_bottle
    struct case_room room;
    struct case_people people;
    struct case_goals goals;
    struct case_delivery delivery;
    struct text_list day;            // tasks of a usual day, as physics/day_task.h reads them
    struct record_list planned;      // of struct case_planned
    struct record_list replacements; // of struct case_replacement
    struct record_list decisions;    // of struct case_decision
    struct record_list tests;        // of struct case_test
    const char *note;
    // set by the reading:
    const char *path;
    const char *bytes; // as read
    size_t length;
    const struct yaml_node *root;
    struct library library; // the tables with the case's own bottles in front; borrows the tables it was read with
};

// Reads and checks a case. Faults are collected, one line each; the parts of *ret are complete only when none was
// added. `as_of` is the day after which no date of the file may lie; not set = dates are not compared with any day.
// The case lives in `arena` and borrows `lib`, which must hold CASE_TABLES (TABLE_HAZARDS and TABLE_LIMITS may be
// absent: then remarks on peroxides and the check of the limit set are left out). Errors: STATUS_NOT_FOUND,
// STATUS_SYSTEM (cannot read), STATUS_INPUT (no YAML, not a case file, a newer version), STATUS_MEMORY.
enum status casefile_read(struct arena *arena, const char *path, const struct library *lib, struct date as_of,
                          struct casefile *ret, struct fault_list *faults, struct error *err);

// The same from memory, which must live as long as the case; `name` stands where a path would.
enum status casefile_parse(struct arena *arena, const char *name, const char *bytes, size_t length,
                           const struct library *lib, struct date as_of, struct casefile *ret,
                           struct fault_list *faults, struct error *err);

// As casefile_read, but a fault is an error: STATUS_INPUT with the first fault's line and, if there are more, their
// number.
enum status casefile_open(struct arena *arena, const char *path, const struct library *lib, struct date as_of,
                          struct casefile *ret, struct error *err);

// True when a file's tree says that it is a case (has the key mildsolve_case).
bool casefile_is(const struct yaml_node *root);

// What is not wrong but should be known: bottles that form peroxides and have stood too long, opened alcohols, passages
// that are sensitive and untested, tests that found original colour, contradictions. One line each, as faults; those
// that depend on the day are left out when as_of is not set.
void casefile_remarks(const struct casefile *file, struct date as_of, struct fault_list *remarks);

// The two remarks about a bottle alone, as sentences; "" when there is none. Returns the buffer.
enum { CASE_REMARK_BYTES = 512 };
const char *case_bottle_peroxide_remark(const struct casefile *file, const struct case_bottle *bottle,
                                        struct date as_of, char buffer[CASE_REMARK_BYTES]);
// The day until which a bottle of a peroxide former needs no test, counted from the day it was opened, received or last
// tested: false when it holds no such liquid, or has no date (then *ret_until is not set).
bool case_bottle_peroxide_until(const struct casefile *file, const struct case_bottle *bottle, struct date *ret_from,
                                struct date *ret_until);
const char *case_bottle_water_remark(const struct casefile *file, const struct case_bottle *bottle,
                                     char buffer[CASE_REMARK_BYTES]);

// --- questions ---

const struct case_layer *case_layer(const struct casefile *file, const char *id);     // NULL when there is none
const struct case_passage *case_passage(const struct casefile *file, const char *id); // likewise
const struct case_test *case_test(const struct casefile *file, const char *id);       // likewise

// A point in the area of a place, its edge included; a place without an extent holds none.
bool case_place_holds(const struct case_place *place, double x_mm, double y_mm);

// Tests that stand: they are not withdrawn.
size_t case_tests_standing(const struct casefile *file);

// A test that stands, in this passage; and how many they are.
bool case_test_in(const struct case_test *test, const char *passage);
size_t case_tests_in(const struct casefile *file, const char *passage);

// Original colour on the swab, or unsure, which counts as original: no further in this passage.
bool case_test_stops(const struct case_test *test);

// A test in it found such colour. NULL: the tests that name no passage, which count as one.
bool case_passage_stopped(const struct casefile *file, const char *passage);

// Colour was found, and in every passage that the case names.
bool case_every_passage_stopped(const struct casefile *file);

// Does any test stop? `file` may be NULL.
bool case_any_stop(const struct casefile *file);

// The materials a goal names: a layer of the case stands for its material. STATUS_NO_DATA names a layer without one,
// STATUS_INPUT when there are more than `most`. A material named twice counts once.
enum status case_goal_materials(const struct casefile *file, const struct text_list *goal, const struct material **ret,
                                size_t most, size_t *ret_count, struct error *err);

// Is this word of person_flag_words among the flags of the people?
bool case_has_flag(const struct casefile *file, const char *flag);
// Somebody pregnant, breastfeeding, under 18 or sensitised works there; file may be NULL.
bool case_announces_people(const struct casefile *file);

// The blend to work with: of the last decision that names one, else of the last test that stands; NULL when there is
// neither.
const char *case_working_blend(const struct casefile *file);

#endif
