// SPDX-License-Identifier: GPL-3.0-or-later
// All tables behind one door: opened on demand, ours first, then the user's on top, cross-checked, names found.
#ifndef MILDSOLVE_DATA_LIBRARY_H
#define MILDSOLVE_DATA_LIBRARY_H

#include "base/arena.h"
#include "base/error.h"
#include "data/tables.h"

enum table {
    TABLE_REFERENCES = 1 << 0,
    TABLE_COMPONENTS = 1 << 1,
    TABLE_PROPERTIES = 1 << 2,
    TABLE_HAZARDS = 1 << 3,
    TABLE_STATEMENTS = 1 << 4,
    TABLE_LIMITS = 1 << 5,
    TABLE_MATERIALS = 1 << 6,
    TABLE_BOTTLES = 1 << 7,
    TABLE_UNIFAC = 1 << 8,
    TABLE_UNCERTAINTY = 1 << 9,
    TABLE_MISCIBILITY = 1 << 10,
    TABLE_SENSITIVITIES = 1 << 11,
    TABLE_AGEING = 1 << 12,
    TABLE_ALL = (1 << 13) - 1
};

struct data_directory;
struct table_index;

struct library {
    struct arena arena;
    unsigned loaded;     // bits of enum table
    unsigned narrowed;   // of these, tables that hold only the rows library_add was asked for
    const char *version; // of components.yaml, for captions
    struct reference *references;
    size_t reference_count;
    struct component *components;
    size_t component_count;
    struct properties *properties;
    size_t properties_count;
    struct hazard *hazards;
    size_t hazard_count;
    struct statement *statements;
    size_t statement_count;
    struct authority *authorities;
    size_t authority_count;
    struct limit *limits;
    size_t limit_count;
    struct material *materials;
    size_t material_count;
    struct bottle *bottles; // bottles of the table only; a component is its own neat bottle
    size_t bottle_count;
    struct shelf *shelves;
    size_t shelf_count;
    struct unifac_group *unifac_groups;
    size_t unifac_group_count;
    struct unifac_interaction *unifac_interactions;
    size_t unifac_interaction_count;
    struct unifac_assignment *unifac_assignments;
    size_t unifac_assignment_count;
    struct miscible_pair *miscible_pairs;
    size_t miscible_pair_count;
    struct sensitivity *sensitivities;
    size_t sensitivity_count;
    struct ageing_state *ageing_states;
    size_t ageing_state_count;
    struct lifting_threshold *lifting_thresholds;
    size_t lifting_threshold_count;
    struct published_removal *published_removals;
    size_t published_removal_count;
    struct retained_carrier *retained_carriers;
    size_t retained_carrier_count;
    struct family_share *family_shares;
    size_t family_share_count;
    struct default_uncertainty *uncertainties;
    size_t uncertainty_count;
    const struct data_directory *directories; // for reading further tables
    size_t directory_count;
    struct table_index *index; // the library's own
};

// Users number their own sources from here on; lower numbers belong to the shipped list.
enum { USERS_FIRST_REFERENCE = 5000 };

// Directories read in order; a later one adds rows or overrides values of an earlier one: a quantity, or a group with a
// source, is replaced whole, and so is a row that is one value (a limit, a UNIFAC parameter). The first must hold every
// table; in the others any file may be missing. `user` of each directory marks its values.
struct data_directory {
    const char *path;
    bool user;
};

// Opens the tables named by the bits of `tables`. On failure *lib is left empty. Faults in a file: STATUS_INPUT
// with the first fault's line and, if there are more, their number.
enum status library_open(struct library *lib, const struct data_directory *directories, size_t count, unsigned tables,
                         struct error *err);
void library_release(struct library *lib);

// Reads further tables for an answer about a few components of `lib`, which must hold components. Of properties,
// hazards, limits, miscibility and the UNIFAC tables only the rows that speak of these components are sure to be there
// (the pairs among them, the interactions between their groups): `wanted` must name every component that the answer
// looks at, reference liquids too; NULL = every row. Other tables are read whole, and so is a table that a directory of
// the user's has as well. Tables loaded before stay as they are; asking again for one of which only some rows were read
// is a programmer's fault. Rows of `lib` keep their addresses. Errors as library_open, which leave *lib empty.
enum status library_add(struct library *lib, unsigned tables, const struct component *const *wanted, size_t count,
                        struct error *err);

// Checks one file or (all tables of) the directories and collects every fault. STATUS_OK even with faults.
enum status library_check(const struct data_directory *directories, size_t count, struct fault_list *faults,
                          struct error *err);

// Checks one data file by its `table:` key, against the tables of the directories and those beside the file, which its
// rows may name; their faults are reported too.
enum status library_check_file(const char *path, const struct data_directory *directories, size_t count,
                               struct fault_list *faults, struct error *err);

// Finds a name: id, name, synonym of any language, or CAS number; case-insensitive. STATUS_UNKNOWN_NAME names the
// nearest ones, STATUS_INPUT when a name stands for several rows.
enum status library_component(const struct library *lib, const char *name, const struct component **ret,
                              struct error *err);
enum status library_material(const struct library *lib, const char *name, const struct material **ret,
                             struct error *err);
enum status library_sensitivity(const struct library *lib, const char *name, const struct sensitivity **ret,
                                struct error *err);
enum status library_authority(const struct library *lib, const char *name, const struct authority **ret,
                              struct error *err);
enum status library_shelf(const struct library *lib, const char *name, const struct shelf **ret, struct error *err);

// A bottle by name: a row of bottles.yaml, or a component as its own neat bottle. Exactly one of the two
// pointers is set.
struct bottle_ref {
    const struct bottle *bottle;
    const struct component *component;
};
enum status library_bottle(const struct library *lib, const char *name, struct bottle_ref *ret, struct error *err);
bool bottle_ref_same(const struct bottle_ref *a, const struct bottle_ref *b);
const char *bottle_ref_id(const struct bottle_ref *ref);
const char *bottle_ref_name(const struct bottle_ref *ref);

// True when `name` is known as a bottle or component (for lists in which a comma may be part of a name).
bool library_knows_bottle(const struct library *lib, const char *name);
bool library_knows_material(const struct library *lib, const char *name);

const struct reference *library_reference(const struct library *lib, int id);
const struct statement *library_statement(const struct library *lib, const char *code);

// The uncertainty of a value: its own, or the stated default of its quantity and sureness (NAN when there is neither).
double library_uncertainty(const struct library *lib, const char *quantity, enum sureness sure, double own,
                           double value);

#endif
