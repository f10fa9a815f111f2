// SPDX-License-Identifier: GPL-3.0-or-later
// The description of every table: keys, units, valid ranges. Ranges are wider than any liquid we know of, narrow
// enough to catch a slipped decimal point.
#include "data/records.h"
#include "data/schema_fields.h"

const char *const reference_seen_words[] = {"whole", "part", "abstract", "no", "common-practice", "own", NULL};
const char *const family_words[] = {"alkane",
                                    "cycloalkane",
                                    "petroleum-cut",
                                    "siloxane",
                                    "aromatic",
                                    "terpene",
                                    "chlorinated",
                                    "ketone",
                                    "ester",
                                    "carbonate",
                                    "lactone",
                                    "alcohol",
                                    "glycol",
                                    "glycol-ether",
                                    "glycol-ether-ester",
                                    "ether",
                                    "nitrile",
                                    "amide",
                                    "sulfoxide",
                                    "amine",
                                    "acid",
                                    "water",
                                    NULL};
const char *const antoine_kind_words[] = {"published", "refit", "derived", "surrogate", NULL};
const char *const category_words[] = {"none", "1A", "1B", "2", NULL};
const char *const signal_words[] = {"none", "Warning", "Danger", NULL};
const char *const peroxide_words[] = {"no", "slow", "yes", NULL};
const char *const sensitiser_category_words[] = {"1", "1A", "1B", NULL};
const char *const authority_kind_words[] = {"law", "recommendation", NULL};
const char *const limit_kind_words[] = {"twa-8h", "twa-10h", "stel-15min", "ceiling", "idlh", NULL};
const char *const swelling_class_words[] = {"low", "low-moderate", "moderate", "high", NULL};
const char *const rank_by_words[] = {"film", "red", NULL};
const char *const confidence_words[] = {"low", "medium", "high", NULL};
const char *const material_kind_words[] = {"natural-resin", "synthetic-varnish", "oil",     "wax",
                                           "adhesive",      "retouch-binder",    "protein", NULL};
const char *const material_age_words[] = {"not-stated", "fresh", "aged", NULL};
const char *const material_film_words[] = {"dissolves", "cross-linked", NULL};
const char *const unifac_model_words[] = {"dortmund", "original", NULL};
const char *const miscible_words[] = {"no", "partial", "yes", NULL};
const char *const ageing_change_words[] = {"none", "slight", "moderate", "strong", "cross-links", NULL};
const char *const removal_outcome_words[] = {"fails", "gels", "partly", "complete", NULL};
const char *const assignment_status_words[] = {"ok", "unreliable", "provisional", "built", "surrogate", "none", NULL};

// --- references.yaml ---
#define ROW struct reference
static const struct field reference_fields[] = {
    {.key = "id", .kind = FIELD_INTEGER, AT(id), .min = 1, .max = REFERENCE_MAX, .flags = FIELD_REQUIRED},
    NEEDED_TEXT(cite),
    NEEDED_WORD(seen, reference_seen_words),
};
RECORD(reference_record, "reference", reference_fields, 0);
#undef ROW

#define ROW struct synonyms
static const struct field synonym_fields[] = {TEXTS(en), TEXTS(de), TEXTS(fr), TEXTS(it), TEXTS(es)};
static RECORD(synonyms_record, "set of synonyms", synonym_fields, NO_ID);
#undef ROW

// --- components.yaml ---
#define ROW struct hansen_values
static const struct field hansen_fields[] = {
    NEEDED_NUMBER(delta_d, "MPa^0.5", 0, 40),  NEEDED_NUMBER(delta_p, "MPa^0.5", -5, 40),
    NEEDED_NUMBER(delta_h, "MPa^0.5", -5, 60), UNIT("MPa^0.5"),
    NUMBER(uncertainty, "MPa^0.5", 0, 20),     PROVENANCE_FIELDS(ROW, from)};
static RECORD(hansen_record, "Hansen group", hansen_fields, NO_ID);
#undef ROW

#define ROW struct teas_values
static const struct field teas_fields[] = {NEEDED_NUMBER(fd, "percent", 0, 100), NEEDED_NUMBER(fp, "percent", 0, 100),
                                           NEEDED_NUMBER(fh, "percent", 0, 100), UNIT("percent"),
                                           PROVENANCE_FIELDS(ROW, from)};
static RECORD(teas_record, "Teas group", teas_fields, NO_ID);
#undef ROW

#define ROW struct component
static const struct field component_fields[] = {NEEDED_ID(id),
                                                NEEDED_TEXT(name),
                                                TEXT(cas),
                                                NEEDED_WORD(family, family_words),
                                                GROUP(synonyms, synonyms_record),
                                                TEXT(surrogate),
                                                GROUP(hansen, hansen_record),
                                                GROUP(teas, teas_record),
                                                QUANTITY(hildebrand, "MPa^0.5", 5, 60),
                                                QUANTITY(molar_volume, "cm3/mol", 10, 1000),
                                                TEXTS(conflicts),
                                                TEXT(grade),
                                                TEXT(set_apart)};
RECORD(component_record, "component", component_fields, offsetof(ROW, id));
#undef ROW

// --- properties.yaml ---
#define ROW struct antoine_values
static const struct field antoine_fields[] = {NEEDED_NUMBER(a, "", 2, 20),
                                              NEEDED_NUMBER(b, "", 100, 10000),
                                              NEEDED_NUMBER(c, "degC", 0, 400),
                                              UNIT("kPa, degC"),
                                              NEEDED_NUMBER(t_min, "degC", -200, 300),
                                              NEEDED_NUMBER(t_max, "degC", -100, 500),
                                              NEEDED_WORD(kind, antoine_kind_words),
                                              PROVENANCE_FIELDS(ROW, from)};
static RECORD(antoine_record, "vapour pressure curve", antoine_fields, NO_ID);
#undef ROW

#define ROW struct formula_values
static const struct field formula_fields[] = {INTEGER(c, 0, 200), INTEGER(h, 0, 400),    INTEGER(n, 0, 50),
                                              INTEGER(o, 0, 50),  INTEGER(s, 0, 50),     INTEGER(cl, 0, 50),
                                              INTEGER(si, 0, 50), INTEGER(rings, 0, 20), PROVENANCE_FIELDS(ROW, from)};
static RECORD(formula_record, "formula", formula_fields, NO_ID);
#undef ROW

#define ROW struct properties
static const struct field properties_fields[] = {NEEDED_ID(id),
                                                 GROUP(formula, formula_record),
                                                 QUANTITY(molar_mass, "g/mol", 10, 1000),
                                                 QUANTITY(density_20c, "g/cm3", 0.3, 3),
                                                 QUANTITY(boiling_point, "degC", -50, 500),
                                                 QUANTITY(melting_point, "degC", -200, 300),
                                                 GROUP(antoine, antoine_record),
                                                 QUANTITY(vapour_pressure_20c, "kPa", 0, 500),
                                                 QUANTITY(vapour_pressure_25c, "kPa", 0, 500),
                                                 QUANTITY(enthalpy_vaporisation_25c, "kJ/mol", 5, 200),
                                                 QUANTITY(viscosity_25c, "mPa.s", 0.05, 5000),
                                                 QUANTITY(surface_tension_20c, "mN/m", 5, 100),
                                                 QUANTITY(evaporation_rate, "n-BuAc=1", 0, 100),
                                                 QUANTITY(flash_point, "degC", -80, 300),
                                                 QUANTITY(lower_flammable_limit, "vol%", 0.05, 50),
                                                 QUANTITY(upper_flammable_limit, "vol%", 0.5, 100),
                                                 QUANTITY(autoignition, "degC", 50, 900)};
RECORD(properties_record, "property row", properties_fields, offsetof(ROW, id));
#undef ROW

// --- hazards.yaml, statements.yaml ---
#define ROW struct specific_limit
static const struct field specific_limit_fields[] = {
    NEEDED_TEXT(code), NEEDED_NUMBER(from_percent, "percent by mass", 0, 100),
    NUMBER(below_percent, "percent by mass", 0, 100), PROVENANCE_FIELDS(ROW, from)};
static RECORD(specific_limit_record, "specific concentration limit", specific_limit_fields, NO_ID);
#undef ROW

#define ROW struct acute_estimates
static const struct field acute_estimate_fields[] = {
    NUMBER(oral_mg_kg, "mg/kg", 0.01, 1e5), NUMBER(dermal_mg_kg, "mg/kg", 0.01, 1e5),
    NUMBER(vapour_mg_l, "mg/L", 1e-4, 1e4), PROVENANCE_FIELDS(ROW, from)};
static RECORD(acute_estimates_record, "group of acute toxicity estimates", acute_estimate_fields, NO_ID);
#undef ROW

#define ROW struct m_factors
static const struct field m_factor_fields[] = {NUMBER(acute, "", 1, 1e6), NUMBER(chronic, "", 1, 1e6),
                                               PROVENANCE_FIELDS(ROW, from)};
static RECORD(m_factors_record, "group of M-factors", m_factor_fields, NO_ID);
#undef ROW

#define ROW struct hazard
static const struct field hazard_fields[] = {NEEDED_ID(id),
                                             TEXTS(h_statements),
                                             TEXTS(h_unless_low_benzene),
                                             WORD(signal_word, signal_words),
                                             TEXTS(pictograms),
                                             TEXT(iarc_group),
                                             TEXT(reproductive),
                                             WORD(reproductive_category, category_words),
                                             TEXT(carcinogen_mutagen),
                                             WORD(carcinogen_category, category_words),
                                             WORD(mutagen_category, category_words),
                                             TEXT(skin_absorption),
                                             TEXT(sensitiser),
                                             WORD(sensitiser_category, sensitiser_category_words),
                                             RECORDS(specific_limits, specific_limit_record),
                                             GROUP(acute_estimates, acute_estimates_record),
                                             GROUP(m_factors, m_factors_record),
                                             WORD(peroxide_former, peroxide_words),
                                             TEXTS(gloves_resistant),
                                             TEXTS(gloves_unsuitable),
                                             QUANTITY(odour_threshold, "ppm", 0, 1e6),
                                             TEXT(health_note),
                                             TEXT(regulatory),
                                             {.key = "restricted", .kind = FIELD_YES_NO, AT(restricted)},
                                             PROVENANCE_FIELDS(ROW, from)};
RECORD(hazard_record, "hazard row", hazard_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct statement
static const struct field statement_fields[] = {
    NEEDED_TEXT(code), NEEDED_TEXT(en), TEXT(de), TEXT(fr), TEXT(it), TEXT(es), PROVENANCE_FIELDS(ROW, from)};
RECORD(statement_record, "statement", statement_fields, NO_ID);
#undef ROW

// --- limits.yaml ---
#define ROW struct authority
static const struct field authority_fields[] = {NEEDED_ID(id),
                                                NEEDED_TEXT(name),
                                                NEEDED_WORD(kind, authority_kind_words),
                                                TEXT(edition),
                                                QUANTITY(reference_temp, "degC", 0, 40),
                                                QUANTITY(molar_volume, "L/mol", 20, 30),
                                                PROVENANCE_FIELDS(ROW, from)};
RECORD(authority_record, "authority", authority_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct limit
static const struct field limit_fields[] = {
    NEEDED_ID(component),
    NEEDED_ID(authority),
    NEEDED_WORD(kind, limit_kind_words),
    NUMBER(ppm, "ppm", 0, 1e6),
    NUMBER(mg_m3, "mg/m3", 0, 1e7),
    {.key = "period_min", .kind = FIELD_INTEGER, AT(period_min), .unit = "min", .min = 1, .max = 480},
    TEXTS(notations),
    INTEGER(year, 1900, 2100),
    PROVENANCE_FIELDS(ROW, from)};
RECORD(limit_record, "limit", limit_fields, NO_ID);
#undef ROW

// --- materials.yaml ---
#define ROW struct sphere_values
static const struct field sphere_fields[] = {NEEDED_NUMBER(delta_d, "MPa^0.5", 0, 40),
                                             NEEDED_NUMBER(delta_p, "MPa^0.5", -5, 40),
                                             NEEDED_NUMBER(delta_h, "MPa^0.5", -5, 60),
                                             NEEDED_NUMBER(r0, "MPa^0.5", 0.1, 40),
                                             UNIT("MPa^0.5"),
                                             NUMBER(uncertainty, "MPa^0.5", 0, 20),
                                             NUMBER(uncertainty_r0, "MPa^0.5", 0, 20),
                                             PROVENANCE_FIELDS(ROW, from)};
static RECORD(sphere_record, "solubility sphere", sphere_fields, NO_ID);
#undef ROW

#define ROW struct bottle_part
static const struct field part_fields[] = {NEEDED_ID(component),
                                           NEEDED_NUMBER(percent, "percent by volume", 1e-6, 100)};
static RECORD(part_record, "part of a composition", part_fields, NO_ID);
#undef ROW

#define ROW struct film_values
static const struct field film_fields[] = {
    NUMBER(delta_d, "MPa^0.5", 0, 40),
    NUMBER(delta_p, "MPa^0.5", -5, 40),
    NUMBER(delta_h, "MPa^0.5", -5, 60),
    NUMBER(network_mol_m3, "mol/m3", 10, 1e5),
    NUMBER(network_least, "mol/m3", 10, 1e5),
    NUMBER(network_most, "mol/m3", 10, 1e5),
    NUMBER(molar_volume_cm3_mol, "cm3/mol", 50, 1e9),
    NUMBER(molar_volume_least, "cm3/mol", 50, 1e9),
    NUMBER(molar_volume_most, "cm3/mol", 50, 1e9),
    NUMBER(pigment, "volume fraction", 0, 0.9),
    {.key = "calibrations", .kind = FIELD_TUPLES, AT(calibrations), .tuple = 3, .min = 0, .max = 1e9},
    RECORDS(anchor_fails, part_record),
    RECORDS(anchor_dissolves, part_record),
    NEEDED_WORD(rank_by, rank_by_words),
    INTEGER(tested, 1, 9999),
    INTEGER(hits_film, 0, 9999),
    INTEGER(hits_sphere, 0, 9999),
    PROVENANCE_FIELDS(ROW, from)};
RECORD(film_record, "film model", film_fields, NO_ID);
#undef ROW

#define ROW struct teas_region
static const struct field region_fields[] = {NEEDED_ID(id),
                                             NEEDED_TEXT(meaning),
                                             TEXT(legend),
                                             {.key = "vertices",
                                              .kind = FIELD_TUPLES,
                                              AT(vertices),
                                              .tuple = 3,
                                              .unit = "percent",
                                              .min = 0,
                                              .max = 100,
                                              .flags = FIELD_REQUIRED},
                                             NEEDED_WORD(confidence, confidence_words),
                                             PROVENANCE_FIELDS(ROW, from)};
static RECORD(region_record, "Teas area", region_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct published_swelling
static const struct field swelling_fields[] = {NEEDED_ID(component), NEEDED_WORD(class, swelling_class_words),
                                               PROVENANCE_FIELDS(ROW, from)};
static RECORD(swelling_record, "swelling class", swelling_fields, NO_ID);
#undef ROW

#define ROW struct material
static const struct field material_fields[] = {NEEDED_ID(id),
                                               NEEDED_TEXT(name),
                                               NEEDED_WORD(kind, material_kind_words),
                                               WORD(age, material_age_words),
                                               NEEDED_WORD(film, material_film_words),
                                               GROUP(synonyms, synonyms_record),
                                               GROUP(sphere, sphere_record),
                                               GROUP(film_model, film_record),
                                               TEXTS(non_solvents),
                                               RECORDS(swelling_classes, swelling_record),
                                               TEXT(no_region),
                                               TEXT(substitute),
                                               TEXT(behaviour),
                                               TEXT(not_proposed),
                                               {.key = "refs", .kind = FIELD_REFS, AT(from)},
                                               RECORDS(regions, region_record)};
RECORD(material_record, "material", material_fields, offsetof(ROW, id));
#undef ROW

// --- bottles.yaml ---
#define ROW struct bottle
static const struct field bottle_fields[] = {
    NEEDED_ID(id),
    NEEDED_TEXT(name),
    GROUP(synonyms, synonyms_record),
    {.key = "composition", .kind = FIELD_RECORDS, AT(composition), .record = &part_record, .flags = FIELD_REQUIRED},
    PROVENANCE_FIELDS(ROW, from)};
RECORD(bottle_record, "bottle", bottle_fields, offsetof(ROW, id));
#undef ROW

#define ROW struct shelf
static const struct field shelf_fields[] = {NEEDED_ID(id), NEEDED_TEXT(name), NEEDED_TEXTS(bottles), TEXT(note)};
RECORD(shelf_record, "shelf", shelf_fields, offsetof(ROW, id));
#undef ROW

// --- unifac-*.yaml ---
#define ROW struct unifac_group
static const struct field group_fields[] = {
    NEEDED_WORD(model, unifac_model_words),
    {.key = "subgroup", .kind = FIELD_INTEGER, AT(subgroup), .min = 1, .max = 9999, .flags = FIELD_REQUIRED},
    NEEDED_TEXT(name),
    {.key = "main_group", .kind = FIELD_INTEGER, AT(main_group), .min = 1, .max = 9999, .flags = FIELD_REQUIRED},
    NEEDED_TEXT(main_name),
    NEEDED_NUMBER(r, "", 0, 20),
    NEEDED_NUMBER(q, "", 0, 20),
    PROVENANCE_FIELDS(ROW, from)};
RECORD(unifac_group_record, "group", group_fields, NO_ID);
#undef ROW

#define ROW struct unifac_interaction
static const struct field interaction_fields[] = {
    NEEDED_WORD(model, unifac_model_words),
    {.key = "m", .kind = FIELD_INTEGER, AT(m), .min = 1, .max = 9999, .flags = FIELD_REQUIRED},
    {.key = "n", .kind = FIELD_INTEGER, AT(n), .min = 1, .max = 9999, .flags = FIELD_REQUIRED},
    NEEDED_NUMBER(a, "K", -1e5, 1e5),
    NUMBER(b, "", -1e4, 1e4),
    NUMBER(c, "1/K", -1e3, 1e3),
    PROVENANCE_FIELDS(ROW, from)};
RECORD(unifac_interaction_record, "interaction", interaction_fields, NO_ID);
#undef ROW

#define ROW struct unifac_assignment
static const struct field assignment_fields[] = {
    NEEDED_ID(component),
    NEEDED_WORD(model, unifac_model_words),
    NEEDED_WORD(status, assignment_status_words),
    {.key = "groups", .kind = FIELD_TUPLES, AT(groups), .tuple = 2, .min = 0, .max = 9999},
    PROVENANCE_FIELDS(ROW, from)};
RECORD(unifac_assignment_record, "group assignment", assignment_fields, NO_ID);
#undef ROW

// --- miscibility.yaml ---
#define ROW struct miscible_pair
static const struct field pair_fields[] = {NEEDED_ID(first),
                                           NEEDED_ID(second),
                                           NEEDED_WORD(miscible, miscible_words),
                                           NUMBER(ucst, "degC", -200, 400),
                                           NUMBER(lcst, "degC", -200, 400),
                                           PROVENANCE_FIELDS(ROW, from)};
RECORD(miscible_pair_record, "pair", pair_fields, NO_ID);
#undef ROW

// --- sensitivities.yaml ---
#define ROW struct sensitivity
static const struct field sensitivity_fields[] = {NEEDED_ID(id),
                                                  NEEDED_TEXT(name),
                                                  TEXTS(also),
                                                  NEEDED_TEXTS(families),
                                                  NEEDED_NUMBER(least_percent, "percent by volume", 0, 100),
                                                  NEEDED_TEXT(warning),
                                                  PROVENANCE_FIELDS(ROW, from)};
RECORD(sensitivity_record, "sensitivity", sensitivity_fields, offsetof(ROW, id));
#undef ROW

// --- ageing.yaml ---
#define ROW struct ageing_state
static const struct field ageing_fields[] = {NEEDED_ID(material),
                                             {.key = "aged", .kind = FIELD_ID, AT(aged)},
                                             NEEDED_WORD(change, ageing_change_words),
                                             NEEDED_TEXT(words),
                                             PROVENANCE_FIELDS(ROW, from)};
RECORD(ageing_state_record, "state", ageing_fields, NO_ID);
#undef ROW

#define ROW struct lifting_threshold
static const struct field threshold_fields[] = {NEEDED_ID(material),
                                                NEEDED_WORD(family, family_words),
                                                NEEDED_NUMBER(from_percent, "percent by volume", 0, 100),
                                                NEEDED_NUMBER(to_percent, "percent by volume", 0, 100),
                                                NEEDED_TEXT(words),
                                                PROVENANCE_FIELDS(ROW, from)};
RECORD(lifting_threshold_record, "threshold", threshold_fields, NO_ID);
#undef ROW

#define ROW struct published_removal
static const struct field removal_fields[] = {NEEDED_ID(material), NEEDED_TEXT(blend),
                                              NEEDED_WORD(outcome, removal_outcome_words), NEEDED_TEXT(state),
                                              PROVENANCE_FIELDS(ROW, from)};
RECORD(published_removal_record, "removal", removal_fields, NO_ID);
#undef ROW

#define ROW struct retained_carrier
static const struct field retained_fields[] = {NEEDED_ID(material),
                                               {.key = "carrier", .kind = FIELD_ID, AT(carrier)},
                                               NEEDED_NUMBER(days, "days", 0, 100000),
                                               NEEDED_TEXT(words),
                                               PROVENANCE_FIELDS(ROW, from)};
RECORD(retained_carrier_record, "retained carrier", retained_fields, NO_ID);
#undef ROW

#define ROW struct family_share
static const struct field share_fields[] = {NEEDED_ID(component), NEEDED_WORD(family, family_words),
                                            NEEDED_NUMBER(percent, "percent by volume", 0, 100), NEEDED_TEXT(words),
                                            PROVENANCE_FIELDS(ROW, from)};
RECORD(family_share_record, "share", share_fields, NO_ID);
#undef ROW

// --- uncertainty.yaml ---
#define ROW struct default_uncertainty
static const struct field uncertainty_fields[] = {NEEDED_TEXT(quantity),
                                                  NEEDED_WORD(sure, sureness_words),
                                                  NEEDED_NUMBER(value, "", 0, 1000),
                                                  NEEDED_TEXT(unit),
                                                  {.key = "relative", .kind = FIELD_YES_NO, AT(relative)},
                                                  {.key = "refs", .kind = FIELD_REFS, AT(from)},
                                                  {.key = "note", .kind = FIELD_NOTE, AT(from)}};
RECORD(uncertainty_record, "default uncertainty", uncertainty_fields, NO_ID);
#undef ROW
