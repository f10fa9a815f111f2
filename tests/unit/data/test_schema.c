// SPDX-License-Identifier: GPL-3.0-or-later
// Every fault of a data file says file:line:column, what it is about, the value and the rule.
#include "data/library.h"
#include "data/schema.h"
#include "folder.h"
#include "random.h"
#include "suite.h"
#include "tables.h"

#include <check.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static struct folder own;
static struct data_directory directories[2];

static void make_folder(void) {
    tables_with_folder(&own, directories);
}

static void remove_folder(void) {
    folder_remove(&own);
}

// Checks the shipped tables with the written files on top; the lines without the name of the folder.
static size_t faults_of_folder(char *lines, size_t size) {
    struct fault_list faults = {0};
    struct error err = {0};
    ck_assert_msg(library_check(directories, 2, &faults, &err) == STATUS_OK, "%s", err.text);
    size_t at = 0;
    size_t prefix = strlen(own.path) + 1;
    for (const char *line = text_bytes(&faults.lines); *line;) {
        size_t length = strcspn(line, "\n");
        ck_assert_msg(strncmp(line, own.path, prefix - 1) == 0, "not about the user's file: %s", line);
        at += (size_t)snprintf(lines + at, size - at, "%.*s\n", (int)(length - prefix), line + prefix);
        line += length + 1;
    }
    lines[at] = '\0';
    size_t count = faults.count;
    faults_release(&faults);
    return count;
}

static void expect_lines(const char *file, const char *bytes, const char *expected) {
    static char lines[16384];
    folder_write(&own, file, bytes);
    faults_of_folder(lines, sizeof lines);
    ck_assert_msg(strcmp(lines, expected) == 0, "%s\n--- got\n%s--- expected\n%s", bytes, lines, expected);
    folder_remove(&own);
    folder_make(&own);
    directories[1].path = own.path;
}

// One row of components.yaml; the fault expected without the words that are always the same.
static void expect_component(const char *row, const char *expected) {
    char bytes[2048];
    char line[2048];
    snprintf(bytes, sizeof bytes, "table: components\ncomponents:\n  - {id: my-ester, name: mine, family: ester, %s}\n",
             row);
    snprintf(line, sizeof line, "components.yaml:3:%s\n", expected);
    expect_lines("components.yaml", bytes, line);
}

// --- one value ---

START_TEST(keys) {
    expect_component("famly: ester",
                     "47: component 'my-ester': key 'famly' is not known in a component; did you mean 'family'?");
    expect_component(
        "wingspan: 3",
        "47: component 'my-ester': key 'wingspan' is not known in a component; known are: id, name, cas, family, "
        "synonyms, surrogate, hansen, teas, hildebrand, molar_volume, conflicts, grade, set_apart");
    expect_component("hansen: {delta_d: 15, delta_p: 3, unit: MPa^0.5}",
                     "55: component 'my-ester', hansen: key 'delta_h' is missing");
    expect_lines("components.yaml", "table: components\ncomponents:\n  - {name: nobody, family: ester}\n",
                 "components.yaml:3:5: components[1]: key 'id' is missing\n");
    expect_lines("components.yaml", "table: components\ncomponent: []\n",
                 "components.yaml:2:1: key 'component' is not known at the top of components.yaml\n");
}
END_TEST

START_TEST(numbers) {
    static const char *const no_numbers[] = {".nan", "nan",     "inf",   "-.inf", "1e999", "0x10",
                                             "1_8",  "1.000,8", "1,8,2", "8 kJ",  "--1"};
    for (size_t i = 0; i < sizeof no_numbers / sizeof no_numbers[0]; i++) {
        char row[200], expected[300];
        snprintf(row, sizeof row, "hildebrand: {value: \"%s\", unit: MPa^0.5}", no_numbers[i]);
        snprintf(expected, sizeof expected,
                 "67: component 'my-ester', hildebrand.value: '%s': a number is expected (decimal point, no unit, not "
                 "NaN or infinite)",
                 no_numbers[i]);
        expect_component(row, expected);
    }
    expect_component(
        "hildebrand: {value: \"18,5\", unit: MPa^0.5}",
        "67: component 'my-ester', hildebrand.value: '18,5': a number is expected, with a decimal point: 18.5");
    expect_component(
        "hildebrand: {value: 18,5, unit: MPa^0.5}", // for YAML two keys
        "70: component 'my-ester', hildebrand: a number with a comma, which ends it here before '5': write "
        "the decimal point, as in 12.5");
    expect_component("hildebrand: {value: 61, unit: MPa^0.5}", "67: component 'my-ester', hildebrand.value: '61': is "
                                                               "outside the valid range 5 to 60 MPa^0.5");
    expect_component("hildebrand: {value: [18], unit: MPa^0.5}",
                     "67: component 'my-ester', hildebrand.value: '[a list]': a number is expected (decimal point, no "
                     "unit, not NaN or infinite)");
    expect_lines(
        "limits.yaml",
        "table: limits\nlimits:\n  - {component: acetone, authority: eu, kind: twa-8h, ppm: 2, year: 2020.5}\n",
        "limits.yaml:3:69: limits[1].year: '2020.5': a whole number is expected\n");
}
END_TEST

START_TEST(units_words_texts_lists) {
    expect_component("hildebrand: {value: 18, unit: cal}",
                     "77: component 'my-ester', hildebrand.unit: 'cal': the unit of this value is 'MPa^0.5'");
    expect_component("hildebrand: {value: 18, unit: MPa^0.5, sure: very}",
                     "92: component 'my-ester', hildebrand.sure: 'very': one of these is expected: unstated, checked, "
                     "memory, estimate");
    expect_component("hildebrand: {value: 18, unit: MPa^0.5, refs: 7}",
                     "92: component 'my-ester', hildebrand.refs: '7': a list of reference numbers is expected: [3, 7]");
    expect_component("hildebrand: {value: 18, unit: MPa^0.5, refs: [0]}",
                     "93: component 'my-ester', hildebrand.refs: '0': is outside the valid range 1 to 9999");
    expect_component("cas: \"\"",
                     "52: component 'my-ester', cas: '': is empty; leave the key out when nothing is known");
    expect_component("cas: [1]", "52: component 'my-ester', cas: '[a list]': a text is expected");
    expect_component("hildebrand: 18",
                     "59: component 'my-ester', hildebrand: a hildebrand is a map of 'key: value' pairs");
    expect_component("conflicts: none",
                     "58: component 'my-ester', conflicts: 'none': a list of texts is expected: [one, two]");
    expect_lines("components.yaml", "table: components\ncomponents:\n  - {id: My Ester, name: m, family: ester}\n",
                 "components.yaml:3:10: component 'My Ester', id: 'My Ester': an id has only letters a-z, digits and "
                 "'-'\n");
    expect_lines("hazards.yaml", "table: hazards\nhazards:\n  - {id: acetone, restricted: maybe}\n",
                 "hazards.yaml:3:31: hazard row 'acetone', restricted: 'maybe': one of these is expected: no, yes\n");
    expect_lines("components.yaml", "table: components\ncomponents:\n  - acetone\n",
                 "components.yaml:3:5: components[1]: a component is a map of 'key: value' pairs\n");
    expect_lines("components.yaml", "table: components\ncomponents: none\n",
                 "components.yaml:2:13: components: a list of entries ('- key: value') is expected\n");
    expect_lines("components.yaml", "- 3\n",
                 "components.yaml:1:1: a table file is a map with the keys table, version and its list\n");
}
END_TEST

START_TEST(shapes) {
    expect_lines(
        "components.yaml", "table: components\ncomponents:\n  - {id: [x], name: m, family: ester}\n",
        "components.yaml:3:10: components[1].id: '[a list]': an id is expected: letters a-z, digits and '-'\n");
    expect_lines("components.yaml", "table: components\ncomponents:\n  - {id: x, name: m, family: [ester]}\n",
                 "components.yaml:3:30: component 'x', family: '[a list]': one of these is expected: alkane, "
                 "cycloalkane, petroleum-cut, siloxane, aromatic, terpene, chlorinated, ketone, ester, carbonate, "
                 "lactone, alcohol, glycol, glycol-ether, glycol-ether-ester, ether, nitrile, amide, sulfoxide, amine, "
                 "acid, water\n");
    expect_lines("materials.yaml", "table: materials\nmaterials:\n  - {id: dammar-fresh, regions: none}\n",
                 "materials.yaml:3:33: material 'dammar-fresh', regions: 'none': a list of entries ('- key: value') is "
                 "expected\n");
    expect_lines(
        "materials.yaml",
        "table: materials\nmaterials:\n  - id: dammar-fresh\n    regions: [{id: a, meaning: m, confidence: low, "
        "vertices: 3}]\n",
        "materials.yaml:4:62: Teas area 'a', vertices: '3': a list of lists of numbers is expected\n");
    expect_lines(
        "materials.yaml",
        "table: materials\nmaterials:\n  - id: dammar-fresh\n    regions: [{id: a, meaning: m, confidence: low, "
        "vertices: [[80, 10, x]]}]\n",
        "materials.yaml:4:72: Teas area 'a', vertices: 'x': a number is expected (decimal point, no unit, not "
        "NaN or infinite)\n");
}
END_TEST

START_TEST(corners_of_areas) {
    static const char start[] = "table: materials\nmaterials:\n  - id: dammar-fresh\n    regions:\n      - {id: mine, "
                                "meaning: m, confidence: low, vertices: ";
    char bytes[1024];
    snprintf(bytes, sizeof bytes, "%s[[80, 10, 10], [70, 20], [60, 20, 20]]}\n", start);
    expect_lines(
        "materials.yaml", bytes,
        "materials.yaml:5:74: Teas area 'mine', vertices: '[a list]': three numbers are expected: [1, 2, 3]\n");
    snprintf(bytes, sizeof bytes, "%s[[80, 10, 10], [70, 20, 20], [60, 20, 20]]}\n", start);
    expect_lines(
        "materials.yaml", bytes,
        "materials.yaml:5:7: material 'dammar-fresh', regions: 'mine': a corner of this Teas area does not add "
        "up to 100\n");
    snprintf(bytes, sizeof bytes, "%s[[80, 10, 10], [60, 20, 20]]}\n", start);
    expect_lines("materials.yaml", bytes,
                 "materials.yaml:5:7: material 'dammar-fresh', regions: 'mine': a Teas area needs at least three "
                 "corners\n");
}
END_TEST

// --- between values and rows ---

START_TEST(rows_twice) {
    expect_lines("components.yaml",
                 "table: components\ncomponents:\n  - {id: acetone, name: one}\n  - {id: acetone, name: two}\n",
                 "components.yaml:4:5: component 'acetone' stands here for the second time (first in line 3)\n");
    expect_lines("references.yaml", "table: references\nreferences:\n  - {id: 1, cite: mine, seen: own}\n",
                 "references.yaml:3:5: reference '1': belongs to the shipped list; number your own sources from 5000 "
                 "on\n");
}
END_TEST

// CAS numbers: check digit of water 7732-18-5 and acetone 67-64-1 as registered; the rest breaks a rule each.
START_TEST(cas_numbers) {
    static const char *const wrong[] = {"67-64-2",       "67641",    "67-6-41", "1-18-5",
                                        "77321888-18-5", "67-64-1-", "6a-64-1"};
    for (size_t i = 0; i < sizeof wrong / sizeof wrong[0]; i++) {
        char row[80], expected[200];
        snprintf(row, sizeof row, "cas: \"%s\"", wrong[i]);
        snprintf(expected, sizeof expected,
                 "52: component 'my-ester', cas: '%s': not a CAS number: digits-2 digits-check digit, and the check "
                 "digit must fit",
                 wrong[i]);
        expect_component(row, expected);
    }
    expect_lines("components.yaml",
                 "table: components\ncomponents:\n  - {id: w, name: w, family: water, cas: 7732-18-5}\n", "");
}
END_TEST

START_TEST(sums_and_order) {
    expect_component("teas: {fd: 80, fp: 7, fh: 20, unit: percent}",
                     "53: component 'my-ester', teas: '107': the sum of fd, fp and fh must be 100");
    expect_lines("bottles.yaml",
                 "table: bottles\nbottles:\n  - id: mine\n    name: m\n    composition: [{component: acetone, percent: "
                 "60}, {component: water, percent: 30}]\n",
                 "bottles.yaml:5:18: bottle 'mine', composition: '90': the parts must add up to 100 percent\n");
    expect_lines("properties.yaml",
                 "table: properties\nproperties:\n  - id: acetone\n    antoine: {a: 6, b: 1200, c: 220, unit: \"kPa, "
                 "degC\", t_min: 30, t_max: 10, kind: published}\n    upper_flammable_limit: {value: 2, unit: vol%}\n",
                 "properties.yaml:4:75: property row 'acetone', antoine.t_max: the curve ends (t_max) before it begins "
                 "(t_min)\n"
                 "properties.yaml:5:36: property row 'acetone', upper_flammable_limit.value: is not above the lower "
                 "flammable limit\n");
    expect_lines("limits.yaml",
                 "table: limits\nlimits:\n  - {component: acetone, authority: eu, kind: ceiling, period_min: 15}\n",
                 "limits.yaml:3:5: limit 'acetone, eu, ceiling, 15': a limit needs ppm or mg_m3\n");
    expect_lines("materials.yaml", "table: materials\nmaterials:\n  - {id: x, name: x, kind: wax, film: dissolves}\n",
                 "materials.yaml:3:5: material 'x': give a sphere, or no_region with the reason why there is none\n");
    expect_lines("materials.yaml",
                 "table: materials\nmaterials:\n  - {id: x, name: x, kind: wax, film: dissolves, no_region: n, sphere: "
                 "{delta_d: 17, delta_p: 1, delta_h: 2, r0: 5, unit: MPa^0.5}}\n",
                 "materials.yaml:3:61: material 'x', no_region: has a sphere as well; keep one of the two\n");
}
END_TEST

START_TEST(ids_that_do_not_exist) {
    expect_lines("properties.yaml", "table: properties\nproperties:\n  - {id: aceton}\n",
                 "properties.yaml:3:10: property row 'aceton', id: 'aceton': an id is expected here; the id of this "
                 "component is 'acetone'\n");
    expect_lines("hazards.yaml", "table: hazards\nhazards:\n  - {id: acetonne}\n",
                 "hazards.yaml:3:10: hazard row 'acetonne', id: 'acetonne': no solvent is called 'acetonne'; nearest: "
                 "acetone\n");
    expect_lines("limits.yaml",
                 "table: limits\nlimits:\n  - {component: acetone, authority: fr, kind: twa-8h, ppm: 1}\n",
                 "limits.yaml:3:37: limit 'acetone, fr, twa-8h', authority: 'fr': no authority has this id\n");
    expect_lines("materials.yaml", "table: materials\nmaterials:\n  - {id: hard-copal, substitute: amber}\n",
                 "materials.yaml:3:34: material 'hard-copal', substitute: 'amber': no material has this id\n");
    expect_lines("bottles.yaml",
                 "table: bottles\nbottles:\n  - {id: acetone, name: a, composition: [{component: acetone, percent: "
                 "100}]}\nshelves:\n  - {id: s, name: s, bottles: [acetone, xylem]}\n",
                 "bottles.yaml:3:10: bottle 'acetone', id: 'acetone': a component has the same id; a bottle needs its "
                 "own\n"
                 "bottles.yaml:5:31: shelf 's', bottles: 'xylem': no solvent is called 'xylem'; nearest: xylenes\n");
    expect_lines("unifac-assignments.yaml",
                 "table: unifac-assignments\nassignments:\n  - {component: zz, model: dortmund, status: none}\n",
                 "unifac-assignments.yaml:3:17: group assignment 'dortmund, zz', component: 'zz': no solvent is called "
                 "'zz'; `mildsolve solvents` lists them\n");
    expect_lines("sensitivities.yaml",
                 "table: sensitivities\nsensitivities:\n  - {id: s, name: s, families: [alcohol, alcool], "
                 "least_percent: 1, warning: w}\n",
                 "sensitivities.yaml:3:32: sensitivity 's', families: 'alcool': no family of components has this "
                 "name\n");
}
END_TEST

START_TEST(sources_that_do_not_exist) {
    expect_component("hildebrand: {value: 18, unit: MPa^0.5, refs: [777]}",
                     "92: component 'my-ester', hildebrand.refs: '777': no entry of references.yaml has this number");
    expect_lines("hazards.yaml", "table: hazards\nhazards:\n  - {id: acetone, refs: [778]}\n",
                 "hazards.yaml:3:25: hazard row 'acetone', refs: '778': no entry of references.yaml has this number\n");
    expect_component("hansen: {delta_d: 15, delta_p: 3, delta_h: 4, unit: MPa^0.5, refs: [779]}",
                     "114: component 'my-ester', hansen.refs: '779': no entry of references.yaml has this number");
}
END_TEST

// Our own tables have a source at every value; a directory that isn't the user's is held to that.
START_TEST(our_own_values_need_a_source) {
    directories[1].user = false;
    expect_lines("components.yaml",
                 "table: components\ncomponents:\n  - {id: acetone, hildebrand: {value: 19, unit: MPa^0.5, sure: "
                 "checked}}\n",
                 "components.yaml:3:31: component 'acetone', hildebrand.refs: no source is given\n");
    expect_lines("properties.yaml", "table: properties\nproperties:\n  - {id: acetone, formula: {c: 3, h: 6, o: 1}}\n",
                 "properties.yaml:3:28: property row 'acetone', formula.refs: no source is given\n");
    directories[1].user = true;
}
END_TEST

START_TEST(bottles_of_too_many_parts) {
    char bytes[2048] = "table: bottles\nbottles:\n  - id: mine\n    name: m\n    composition:\n";
    size_t at = strlen(bytes);
    for (int i = 0; i < 25; i++)
        at += (size_t)snprintf(bytes + at, sizeof bytes - at, "      - {component: acetone, percent: 4}\n");
    expect_lines("bottles.yaml", bytes,
                 "bottles.yaml:6:7: bottle 'mine', composition: more components than a bottle may have (24)\n");
}
END_TEST

START_TEST(films_and_limits_of_classification) {
    static const struct {
        const char *row, *fault;
    } films[] = {
        {"network_mol_m3: 300, molar_volume_cm3_mol: 900",
         "has a network and chains of a molar volume; keep one of the "
         "two"},
        {"pigment: 0.3", "needs network_mol_m3 or molar_volume_cm3_mol"},
        {"network_mol_m3: 300", "disagrees with 'film': a cross-linked film has a network, the others have chains"},
        {"molar_volume_cm3_mol: 900, delta_d: 17", "give all of delta_d, delta_p and delta_h, or none"},
        {"molar_volume_cm3_mol: 900, tested: 3, hits_film: 4", "has more hits than it was tested on"},
    };
    for (size_t i = 0; i < sizeof films / sizeof films[0]; i++) {
        char bytes[400], expected[300];
        snprintf(bytes, sizeof bytes,
                 "table: materials\nmaterials:\n  - id: dammar-fresh\n    film_model: {%s, rank_by: red}\n",
                 films[i].row);
        snprintf(expected, sizeof expected, "materials.yaml:4:17: material 'dammar-fresh', film_model: %s\n",
                 films[i].fault);
        expect_lines("materials.yaml", bytes, expected);
    }
    expect_lines("hazards.yaml",
                 "table: hazards\nhazards:\n  - {id: acetone, specific_limits: [{code: H319, from_percent: 10, "
                 "below_percent: 5}]}\n",
                 "hazards.yaml:3:36: hazard row 'acetone', specific_limits: 'H319': below_percent must lie above "
                 "from_percent\n");
}
END_TEST

START_TEST(pairs_in_both_orders) {
    expect_lines("miscibility.yaml",
                 "table: miscibility\npairs:\n  - {first: acetone, second: water, miscible: yes}\n  - {first: water, "
                 "second: acetone, miscible: yes}\n  - {first: water, second: water, miscible: yes}\n",
                 "miscibility.yaml:3:5: pair 'acetone, water': the same pair stands in the other order as well\n"
                 "miscibility.yaml:5:28: pair 'water, water', second: 'water': a pair is of two different "
                 "components\n");
}
END_TEST

// --- the file as a whole ---

START_TEST(hostile_files_are_one_fault_of_the_file) {
    expect_lines("components.yaml", "a: &x [1]\nb: *x\n",
                 "components.yaml:1:4: anchors ('&name') and aliases ('*name') are not used in these files; write the "
                 "value out, or quote it if it is meant as text\n");
    expect_lines("components.yaml", "table: components\ncomponents:\n  - {id: \"a\xC3\"}\n",
                 "components.yaml:3:12: byte 0xC3 is not valid UTF-8; save the file as UTF-8 text\n");
    expect_lines("components.yaml", "a: [[[[[[[[[[[[[1]]]]]]]]]]]]]\n",
                 "components.yaml:1:15: nested deeper than 12 levels; no table of this program is\n");
    expect_lines("components.yaml", "table: [\n",
                 "components.yaml:2:1: not valid YAML: did not find expected node content while parsing a flow node\n");
    expect_lines("hazards.yaml", "table: components\nhazards: []\n",
                 "hazards.yaml:1:8: table: the table in hazards.yaml is 'hazards'\n");
}
END_TEST

START_TEST(a_file_that_is_too_long_is_refused) {
    size_t size = yaml_default_limits.file_bytes + 1;
    char *bytes = malloc(size);
    ck_assert_ptr_nonnull(bytes);
    memset(bytes, '#', size);
    folder_write_n(&own, "components.yaml", bytes, size);
    free(bytes);
    char lines[1024];
    ck_assert_uint_eq(faults_of_folder(lines, sizeof lines), 1);
    ck_assert_str_eq(lines, "components.yaml:1:1: longer than 4194304 bytes, the most a data file may have\n");
}
END_TEST

START_TEST(a_table_under_another_name_is_named) {
    folder_write(&own, "shop.yaml", "table: components\ncomponents: []\n");
    folder_write(&own, "case.yaml", "painting: mine\n");
    folder_write(&own, "notes.txt", "table: components\n");
    char lines[1024];
    faults_of_folder(lines, sizeof lines);
    ck_assert_str_eq(lines, "shop.yaml:1:8: table: 'components': this file is never read; the table 'components' is "
                            "read from components.yaml\n");
}
END_TEST

START_TEST(opening_tells_the_first_fault_and_how_many_more) {
    struct library lib;
    struct error err = {0};
    folder_write(&own, "components.yaml", "table: components\ncomponents:\n  - {id: x, nam: y}\n");
    ck_assert_int_eq(library_open(&lib, directories, 2, TABLE_COMPONENTS, &err), STATUS_INPUT);
    ck_assert_msg(strstr(err.text,
                         "components.yaml:3:13: component 'x': key 'nam' is not known in a component; did you "
                         "mean 'name'? (and 2 more; `mildsolve check` lists them)") != NULL,
                  "%s", err.text);
    ck_assert_uint_eq(lib.component_count, 0);
    folder_write(&own, "components.yaml", "table: [\n");
    ck_assert_int_eq(library_open(&lib, directories, 2, TABLE_COMPONENTS, &err), STATUS_INPUT);
    ck_assert_msg(strstr(err.text, "components.yaml:2:1: not valid YAML") != NULL, "%s", err.text);
}
END_TEST

// --- one file ---

static void expect_of_file(const char *path, const char *words, size_t count) {
    struct fault_list faults = {0};
    struct error err = {0};
    ck_assert_msg(library_check_file(path, directories, 1, &faults, &err) == STATUS_OK, "%s", err.text);
    ck_assert_msg(strstr(text_bytes(&faults.lines), words) != NULL, "%s", text_bytes(&faults.lines));
    ck_assert_uint_eq(faults.count, count);
    faults_release(&faults);
}

START_TEST(one_file_by_its_table_key) {
    char path[FOLDER_PATH_BYTES + 80];
    folder_write(&own, "shop.yaml", "table: components\ncomponents:\n  - {id: x, name: x, family: estr}\n");
    snprintf(path, sizeof path, "%s", folder_file(&own, "shop.yaml"));
    expect_of_file(path, "shop.yaml:3:30: component 'x', family: 'estr': one of these is expected: alkane", 1);
    folder_write(&own, "shop.yaml", "table: solvents\n");
    expect_of_file(path, "shop.yaml:1:8: table: 'solvents': is not known; one of these is expected: references, comp",
                   1);
    folder_write(&own, "shop.yaml", "components: []\n");
    expect_of_file(path, "shop.yaml:1:1: no key 'table' at the top", 1);
    folder_write_n(&own, "shop.yaml", "\x7F\x45\x4C\x46\x00\x01", 6);
    expect_of_file(path, "shop.yaml:1:1: control character U+007F", 1);
    folder_write(&own, "shop.yaml", "table: components\ncomponents:\n  - {id: x, name: x, family: ester}\n");
    expect_of_file(path, "", 0);
    // The shipped file itself is read in its place, not on top of itself.
    snprintf(path, sizeof path, "%s/references.yaml", tables_directory());
    expect_of_file(path, "", 0);
}
END_TEST

START_TEST(a_missing_file_is_no_fault_of_it) {
    struct fault_list faults = {0};
    struct error err = {0};
    ck_assert_int_eq(library_check_file("/nonexistent.yaml", directories, 1, &faults, &err), STATUS_NOT_FOUND);
    ck_assert_uint_eq(faults.count, 0);
    ck_assert_ptr_nonnull(strstr(err.text, "/nonexistent.yaml: cannot open"));
}
END_TEST

START_TEST(faults_beyond_the_most_are_counted_only) {
    struct fault_list faults = {.most = 2};
    for (int i = 0; i < 5; i++)
        faults_add(&faults, "f", NULL, "fault %d", i);
    faults_add_line(&faults, "f:1:1: one more");
    ck_assert_uint_eq(faults.count, 6);
    ck_assert_str_eq(text_bytes(&faults.lines), "f: fault 0\nf: fault 1\n");
    faults_release(&faults);
}
END_TEST

START_TEST(plain_numbers_only) {
    static const struct {
        const char *text;
        double value;
    } good[] = {{"0", 0}, {"-1.5", -1.5}, {"+2", 2}, {".5", 0.5}, {"5.", 5}, {"1e-3", 0.001}, {"2E2", 200}};
    static const char *const bad[] = {"",      "-",   ".",   "e5",  "1e",    "1e+", " 1",  "1 ",
                                      "1.2.3", "0x1", "inf", "nan", "1e400", "1d5", "1,5", "١"};
    double value = -7;
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        ck_assert_msg(schema_number(good[i].text, &value), "%s", good[i].text);
        ck_assert_double_eq(value, good[i].value);
    }
    value = -7;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++)
        ck_assert_msg(!schema_number(bad[i], &value) && value == -7, "%s", bad[i]);
    char long_number[100];
    memset(long_number, '1', sizeof long_number - 1);
    long_number[sizeof long_number - 1] = '\0';
    ck_assert(!schema_number(long_number, &value));
}
END_TEST

static void same_as_the_library_of_c(const char *text) {
    double ours = -7;
    ck_assert_msg(schema_number(text, &ours), "%s", text);
    double theirs = strtod(text, NULL);
    ck_assert_msg(memcmp(&ours, &theirs, sizeof ours) == 0, "%s: %a, not %a", text, ours, theirs);
}

// Short decimals are read without the C library; every bit must be as it gives them, the sign of zero too.
START_TEST(numbers_are_the_nearest_doubles) {
    static const char *const edges[] = {"0",
                                        "-0",
                                        "-0.000",
                                        "0.1",
                                        "-.5",
                                        "7.",
                                        "+3",
                                        "999999999999999",
                                        "9999999999999999",
                                        "9007199254740993",
                                        "0.000000000000000000000123456789",
                                        "0.0000000000000000000001",
                                        "0.00000000000000000000001",
                                        "000000000000000000001.5",
                                        "123456789012345.6",
                                        "1.5e3",
                                        "1e-300",
                                        "100000000000000000000000"};
    for (size_t i = 0; i < sizeof edges / sizeof edges[0]; i++)
        same_as_the_library_of_c(edges[i]);
    struct random random = {.state = 20251};
    for (int n = 0; n < 200000; n++) {
        char text[64];
        size_t length = 1 + random_below(&random, 18), point = random_below(&random, length + 1), at = 0;
        if (random_below(&random, 3) == 0)
            text[at++] = '-';
        for (size_t i = 0; i < length; i++) {
            if (i == point)
                text[at++] = '.';
            text[at++] = (char)('0' + random_below(&random, 10));
        }
        text[at] = '\0';
        same_as_the_library_of_c(text);
    }
}
END_TEST

START_TEST(sureness_has_words) {
    ck_assert_str_eq(sureness_word(SURE_UNSTATED), "unstated");
    ck_assert_str_eq(sureness_word(SURE_ESTIMATE), "estimate");
}
END_TEST

int main(void) {
    Suite *suite = suite_create("schema");
    TCase *tests = tcase_create("faults");
    tcase_set_timeout(tests, 60);
    tcase_add_checked_fixture(tests, make_folder, remove_folder);
    tcase_add_test(tests, keys);
    tcase_add_test(tests, numbers);
    tcase_add_test(tests, units_words_texts_lists);
    tcase_add_test(tests, shapes);
    tcase_add_test(tests, corners_of_areas);
    tcase_add_test(tests, our_own_values_need_a_source);
    tcase_add_test(tests, bottles_of_too_many_parts);
    tcase_add_test(tests, films_and_limits_of_classification);
    tcase_add_test(tests, rows_twice);
    tcase_add_test(tests, cas_numbers);
    tcase_add_test(tests, sums_and_order);
    tcase_add_test(tests, ids_that_do_not_exist);
    tcase_add_test(tests, sources_that_do_not_exist);
    tcase_add_test(tests, pairs_in_both_orders);
    tcase_add_test(tests, hostile_files_are_one_fault_of_the_file);
    tcase_add_test(tests, a_file_that_is_too_long_is_refused);
    tcase_add_test(tests, a_table_under_another_name_is_named);
    tcase_add_test(tests, opening_tells_the_first_fault_and_how_many_more);
    tcase_add_test(tests, one_file_by_its_table_key);
    tcase_add_test(tests, a_missing_file_is_no_fault_of_it);
    tcase_add_test(tests, faults_beyond_the_most_are_counted_only);
    tcase_add_test(tests, plain_numbers_only);
    tcase_add_test(tests, numbers_are_the_nearest_doubles);
    tcase_add_test(tests, sureness_has_words);
    suite_add_tcase(suite, tests);
    return suite_run(suite);
}
