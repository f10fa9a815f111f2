// SPDX-License-Identifier: GPL-3.0-or-later
// The rows of every table as plain structs. Field names are the keys of the YAML files; units as written there.
// A number that is not known is NAN, a text NULL, a list empty. Temperatures stay in degC as published.
#ifndef MILDSOLVE_DATA_TABLES_H
#define MILDSOLVE_DATA_TABLES_H

#include "data/schema.h"

#include <stdbool.h>

enum { BOTTLE_PARTS_MAX = 24 }; // components in one bottle

// references.yaml: what a number in `refs` stands for.
struct reference {
    int id;
    const char *cite;
    int seen; // index into reference_seen_words
    bool user;
};
extern const char *const reference_seen_words[]; // whole part abstract no common-practice own

struct synonyms {
    struct text_list en, de, fr, it, es;
};

// --- components.yaml ---

// Hansen parameters at 25 degC, MPa^0.5.
struct hansen_values {
    double delta_d, delta_p, delta_h;
    double uncertainty; // one standard deviation of each part, NAN = take the default
    struct provenance from;
};

// Published fractional parameters, percent.
struct teas_values {
    double fd, fp, fh;
    struct provenance from;
};

enum family {
    FAMILY_ALKANE,
    FAMILY_CYCLOALKANE,
    FAMILY_PETROLEUM_CUT,
    FAMILY_SILOXANE,
    FAMILY_AROMATIC,
    FAMILY_TERPENE,
    FAMILY_CHLORINATED,
    FAMILY_KETONE,
    FAMILY_ESTER,
    FAMILY_CARBONATE,
    FAMILY_LACTONE,
    FAMILY_ALCOHOL,
    FAMILY_GLYCOL,
    FAMILY_GLYCOL_ETHER,
    FAMILY_GLYCOL_ETHER_ESTER,
    FAMILY_ETHER,
    FAMILY_NITRILE,
    FAMILY_AMIDE,
    FAMILY_SULFOXIDE,
    FAMILY_AMINE,
    FAMILY_ACID,
    FAMILY_WATER
};
extern const char *const family_words[];

struct component {
    const char *id;
    const char *name;
    const char *cas;
    int family; // enum family
    struct synonyms synonyms;
    const char *surrogate;
    struct hansen_values hansen;
    struct teas_values teas;
    struct quantity hildebrand;          // MPa^0.5
    struct quantity molar_volume;        // cm3/mol at 25 degC
    struct text_list conflicts;          // sources that disagree, in words
    const char *grade;                   // which of several that go by its name is meant, or NULL
    const char *set_apart;               // why the film model cannot judge it, or NULL
    bool user;                           // the whole row is the user's
    const struct properties *properties; // set when that table is loaded; NULL = no row
    const struct hazard *hazard;
};

// --- properties.yaml ---

// log10(p/kPa) = a - b/(t/degC + c)
struct antoine_values {
    double a, b, c;
    double t_min, t_max; // degC, range of the source
    int kind;            // index into antoine_kind_words
    struct provenance from;
};
extern const char *const antoine_kind_words[]; // published refit derived surrogate

// Atoms of one molecule, and aromatic or heterocyclic rings, for the diffusion volume; no atoms = not known. The
// compound that stands for a petroleum cut, where the row is a cut.
struct formula_values {
    int c, h, n, o, s, cl, si;
    int rings;
    struct provenance from;
};

struct properties {
    const char *id;
    struct formula_values formula;
    struct quantity molar_mass;    // g/mol
    struct quantity density_20c;   // g/cm3
    struct quantity boiling_point; // degC
    struct quantity melting_point; // degC; NAN = below any room, or not known
    struct antoine_values antoine;
    struct quantity vapour_pressure_20c;       // kPa
    struct quantity vapour_pressure_25c;       // kPa
    struct quantity enthalpy_vaporisation_25c; // kJ/mol
    struct quantity viscosity_25c;             // mPa.s
    struct quantity surface_tension_20c;       // mN/m
    struct quantity evaporation_rate;          // n-butyl acetate = 1
    struct quantity flash_point;               // degC, with .cup
    struct quantity lower_flammable_limit;     // vol%
    struct quantity upper_flammable_limit;     // vol%
    struct quantity autoignition;              // degC
};

// --- hazards.yaml ---

enum category { CATEGORY_NONE, CATEGORY_1A, CATEGORY_1B, CATEGORY_2 };
extern const char *const category_words[]; // none 1A 1B 2

// A concentration limit of this component alone, in place of the generic one of the mixture rules.
struct specific_limit {
    const char *code;     // the H code of the mixture
    double from_percent;  // by mass, inclusive
    double below_percent; // exclusive; NAN = no upper end
    struct provenance from;
};

// Acute toxicity estimates, measured or harmonised; NAN = not known, the point estimate of the category is taken.
struct acute_estimates {
    double oral_mg_kg, dermal_mg_kg;
    double vapour_mg_l; // 4 h
    struct provenance from;
};

// Multiplying factors of liquids very toxic to water life; NAN = not entered.
struct m_factors {
    double acute, chronic;
    struct provenance from;
};

enum sensitiser_category { SENSITISER_1, SENSITISER_1A, SENSITISER_1B };
extern const char *const sensitiser_category_words[]; // 1 1A 1B

struct hazard {
    const char *id;
    struct text_list h_statements;
    struct text_list h_unless_low_benzene; // apply unless benzene is below 0.1 % (Note P)
    int signal_word;                       // index into signal_words: none Warning Danger
    struct text_list pictograms;           // GHS01 ... GHS09
    const char *iarc_group;
    const char *reproductive;
    int reproductive_category; // enum category, like the next two
    const char *carcinogen_mutagen;
    int carcinogen_category;
    int mutagen_category;
    const char *skin_absorption;
    const char *sensitiser;
    int sensitiser_category;            // of H317 and H334; 1 = not subdivided
    struct record_list specific_limits; // of struct specific_limit
    struct acute_estimates acute_estimates;
    struct m_factors m_factors;
    int peroxide_former; // index into peroxide_words: no slow yes
    struct text_list gloves_resistant;
    struct text_list gloves_unsuitable;
    struct quantity odour_threshold; // ppm
    const char *health_note;
    const char *regulatory;
    bool restricted;
    struct provenance from;
    struct text_list yours; // keys of our row that a table of the user's replaced; a row of the user's own has none
};
extern const char *const signal_words[];
extern const char *const peroxide_words[];

struct statement {
    const char *code;
    const char *en, *de, *fr, *it, *es;
    struct provenance from;
};

// --- limits.yaml ---

struct authority {
    const char *id;
    const char *name;
    int kind; // 0 law, 1 recommendation
    const char *edition;
    struct quantity reference_temp; // degC
    struct quantity molar_volume;   // L/mol, for ppm <-> mg/m3
    struct provenance from;
};
extern const char *const authority_kind_words[];

enum limit_kind { LIMIT_TWA_8H, LIMIT_TWA_10H, LIMIT_STEL_15MIN, LIMIT_CEILING, LIMIT_IDLH };
extern const char *const limit_kind_words[]; // twa-8h twa-10h stel-15min ceiling idlh

struct limit {
    const char *component; // id
    const char *authority; // id
    int kind;              // enum limit_kind
    double ppm;            // as printed, NAN = blank
    double mg_m3;          // as printed, NAN = blank
    int period_min;        // ceilings with an averaging period, else 0
    struct text_list notations;
    int year; // 0 = not known
    struct provenance from;
};

// --- materials.yaml ---

struct sphere_values {
    double delta_d, delta_p, delta_h, r0; // MPa^0.5
    double uncertainty;                   // of the centre parts, NAN = default
    double uncertainty_r0;
    struct provenance from;
};

// The film that takes up liquid (physics/film.h). Either a network or chains of a molar volume, never both.
struct film_values {
    double delta_d, delta_p, delta_h; // MPa^0.5; NAN = the centre of the sphere
    double network_mol_m3;            // NAN = not cross-linked
    double network_least, network_most;
    double molar_volume_cm3_mol; // of the chains, NAN = network
    double molar_volume_least, molar_volume_most;
    double pigment;                  // volume fraction in the dry film, NAN = none
    struct number_list calibrations; // rows of alpha, entropic part of chi, molar volume that fits the same anchor
    // The published liquids, as struct bottle_part of components, between which molar_volume_cm3_mol was chosen: the
    // strongest that does not dissolve the film and the weakest that does. Both or none.
    struct record_list anchor_fails, anchor_dissolves;
    int rank_by;                // enum rank_by
    int tested;                 // solvents and non-solvents the molar volume was fitted to, 0 = none
    int hits_film, hits_sphere; // how many of them film model and sphere get right
    double chi_shift;           // no key of the tables: 0, or what was learnt from tests (see struct material)
    struct provenance from;
};
enum rank_by { RANK_BY_FILM, RANK_BY_RED };
extern const char *const rank_by_words[]; // film red

struct teas_region {
    const char *id;
    const char *meaning;
    const char *legend; // of a chart, short enough to stand there whole; NULL: the material's name and the meaning
    struct number_list vertices; // rows of fd, fp, fh (percent); count = rows
    int confidence;              // index into confidence_words: low medium high
    struct provenance from;
};
extern const char *const confidence_words[];

enum material_kind {
    MATERIAL_NATURAL_RESIN,
    MATERIAL_SYNTHETIC_VARNISH,
    MATERIAL_OIL,
    MATERIAL_WAX,
    MATERIAL_ADHESIVE,
    MATERIAL_RETOUCH_BINDER,
    MATERIAL_PROTEIN
};
extern const char *const material_kind_words[];
enum material_age { MATERIAL_AGE_NOT_STATED, MATERIAL_FRESH, MATERIAL_AGED };
extern const char *const material_age_words[]; // not-stated fresh aged
enum material_film { FILM_DISSOLVES, FILM_CROSS_LINKED };
extern const char *const material_film_words[]; // dissolves cross-linked

// How much a neat liquid swells this very film, as published or remembered: in four words, never in figures.
enum swelling_class { SWELLING_LOW, SWELLING_LOW_MODERATE, SWELLING_MODERATE, SWELLING_HIGH };
extern const char *const swelling_class_words[]; // low low-moderate moderate high

struct published_swelling {
    const char *component; // id
    int class;             // enum swelling_class
    struct provenance from;
};

// What swab tests said of a material of one case: equally likely regions.
struct material_draws {
    size_t count;
    const double *film; // rows of delta_d, delta_p, delta_h (MPa^0.5) and shift of chi; NULL = the film was not learnt
    const double *red;  // rows of delta_d, delta_p, delta_h, r0 (MPa^0.5); NULL = the sphere was not learnt
};
enum { MATERIAL_DRAW = 4 }; // numbers of one row

struct material {
    const char *id;
    const char *name;
    int kind;
    int age;
    int film;
    struct synonyms synonyms;
    struct sphere_values sphere; // r0 NAN = none
    struct film_values film_model;
    struct text_list non_solvents;       // ids of components that published or remembered lists set outside
    struct record_list swelling_classes; // of struct published_swelling
    const char *no_region;               // why there is none
    const char *substitute;              // id of the careful stand-in
    const char *behaviour;
    const char *not_proposed; // why nobody lays it as a new varnish or isolating layer; NULL: nothing speaks against it
    struct record_list regions; // of struct teas_region
    struct provenance from;     // refs of the behaviour and of no_region
    bool user;
    const struct material_draws *learnt; // NULL in the tables; else the row holds the means of these
};

// --- bottles.yaml ---

struct bottle_part {
    const char *component;
    double percent; // by volume
};

struct bottle {
    const char *id;
    const char *name;
    struct synonyms synonyms;
    struct record_list composition; // of struct bottle_part
    struct provenance from;
    bool user;
};

struct shelf {
    const char *id;
    const char *name;
    struct text_list bottles; // ids of bottles or components
    const char *note;
};

// --- unifac-*.yaml ---

enum unifac_model { UNIFAC_DORTMUND, UNIFAC_ORIGINAL };
extern const char *const unifac_model_words[]; // dortmund original

struct unifac_group {
    int model;
    int subgroup;
    const char *name;
    int main_group;
    const char *main_name;
    double r, q;
    struct provenance from;
};

struct unifac_interaction {
    int model;
    int m, n; // main groups
    double a, b, c;
    struct provenance from;
};

enum assignment_status {
    ASSIGNMENT_OK,
    ASSIGNMENT_UNRELIABLE,
    ASSIGNMENT_PROVISIONAL,
    ASSIGNMENT_BUILT,
    ASSIGNMENT_SURROGATE,
    ASSIGNMENT_NONE
};
extern const char *const assignment_status_words[]; // ok unreliable provisional built surrogate none

struct unifac_assignment {
    const char *component;
    int model;
    int status;
    struct number_list groups; // rows of subgroup, count
    struct provenance from;
};

// --- miscibility.yaml ---

// How two liquids mix at 25 degC: hardly at all, in part, in all proportions.
enum miscible { MISCIBLE_NO, MISCIBLE_PARTIAL, MISCIBLE_YES };
extern const char *const miscible_words[]; // no partial yes

struct miscible_pair {
    const char *first, *second; // ids of components; the order means nothing
    int miscible;               // enum miscible
    double ucst, lcst;          // upper and lower critical solution temperature, degC; NAN = not known
    struct provenance from;
};

// --- sensitivities.yaml: parts of a picture that need a test of their own ---

struct sensitivity {
    const char *id;
    const char *name;
    struct text_list also;     // other names, those of the case file among them
    struct text_list families; // family words of components that endanger it
    double least_percent;      // from this share by volume
    const char *warning;
    struct provenance from;
};

// --- ageing.yaml: what becomes of a layer ---

enum ageing_change {
    AGEING_NONE,
    AGEING_SLIGHT,
    AGEING_MODERATE,
    AGEING_STRONG,
    AGEING_CROSS_LINKS // swells or gels instead of dissolving
};
extern const char *const ageing_change_words[]; // none slight moderate strong cross-links

// A material without a row: nothing on its ageing was read.
struct ageing_state {
    const char *material; // id, as it is applied
    const char *aged; // id of the material that stands for it later, itself when it hardly changes; NULL = no figures
    int change;       // enum ageing_change
    const char *words;
    struct provenance from;
};

// From `from_percent` by volume of a family in the carrier a layer is published to dissolve; grades differ up to
// `to_percent`.
struct lifting_threshold {
    const char *material;
    int family; // enum family
    double from_percent, to_percent;
    const char *words;
    struct provenance from;
};

enum removal_outcome { REMOVAL_FAILS, REMOVAL_GELS, REMOVAL_PARTLY, REMOVAL_COMPLETE };
extern const char *const removal_outcome_words[]; // fails gels partly complete

// A blend that was tried on old films.
struct published_removal {
    const char *material;
    const char *blend; // notation
    int outcome;       // enum removal_outcome
    const char *state; // of the films
    struct provenance from;
};

// Carrier that was found in a film after so many days.
struct retained_carrier {
    const char *material;
    const char *carrier; // id of the component; NULL = not stated
    double days;
    const char *words;
    struct provenance from;
};

// How much of a family a component of another family (a petroleum cut) holds.
struct family_share {
    const char *component;
    int family; // enum family
    double percent;
    const char *words;
    struct provenance from;
};

// --- uncertainty.yaml: the stated default where a value has none of its own ---

struct default_uncertainty {
    const char *quantity;
    int sure; // enum sureness
    double value;
    const char *unit;
    bool relative; // value is a share of the number, in percent
    struct provenance from;
};

#endif
