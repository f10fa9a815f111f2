// SPDX-License-Identifier: GPL-3.0-or-later
#include "cli/table_values.h"

#include "base/language.h"

#include <math.h>
#include <stddef.h>

// Where a value lies in its row, and what it is called.
struct value_place {
    const char *key, *words, *unit, *printed_unit; // words NULL: in no report
    unsigned kind;
    size_t value; // of the number, or of the struct quantity
    size_t from;  // of the provenance of a number; 0 for a quantity, which has its own
};

#define OF(type, member) offsetof(type, member)
#define HANSEN(part, words)                                                                                            \
    {                                                                                                                  \
#part, words, "MPa^0.5", "MPa^0.5", VALUE_HANSEN, OF(struct component, hansen.part),                           \
            OF(struct component, hansen.from)                                                                          \
    }
#define TEAS(part, words)                                                                                              \
    { words, words, "percent", "%", VALUE_TEAS, OF(struct component, teas.part), OF(struct component, teas.from) }
#define QUANTITY(row, member, words, unit, printed, kind)                                                              \
    { #member, words, unit, printed, kind, OF(row, member), 0 }
// clang-format off
static const struct value_place of_component[] = {
    HANSEN(delta_d, N_("dispersion part")), HANSEN(delta_p, N_("polar part")),
    HANSEN(delta_h, N_("hydrogen bonding part")), TEAS(fd, N_("Teas fd")), TEAS(fp, N_("Teas fp")), TEAS(fh, N_("Teas fh")),
    QUANTITY(struct component, hildebrand, NULL, "MPa^0.5", "MPa^0.5", VALUE_OTHER),
    QUANTITY(struct component, molar_volume, N_("molar volume"), "cm3/mol", "cm\u00B3/mol", VALUE_MOLAR_VOLUME),
};
static const struct value_place of_properties[] = {
    QUANTITY(struct properties, molar_mass, NULL, "g/mol", "g/mol", VALUE_MOLAR_MASS),
    QUANTITY(struct properties, density_20c, N_("density"), "g/cm3", "g/cm\u00B3", VALUE_DENSITY),
    QUANTITY(struct properties, boiling_point, NULL, "degC", "\u00B0C", VALUE_OTHER),
    QUANTITY(struct properties, melting_point, NULL, "degC", "\u00B0C", VALUE_OTHER),
    QUANTITY(struct properties, vapour_pressure_20c, N_("vapour pressure at 20 \u00B0C"), "kPa", "kPa", VALUE_VAPOUR),
    QUANTITY(struct properties, vapour_pressure_25c, NULL, "kPa", "kPa", VALUE_VAPOUR_25),
    QUANTITY(struct properties, enthalpy_vaporisation_25c, NULL, "kJ/mol", "kJ/mol",
             VALUE_OTHER),
    QUANTITY(struct properties, viscosity_25c, NULL, "mPa.s", "mPa\u00B7s", VALUE_OTHER),
    QUANTITY(struct properties, surface_tension_20c, NULL, "mN/m", "mN/m", VALUE_OTHER),
    QUANTITY(struct properties, evaporation_rate, NULL, "n-BuAc=1", "n-BuAc=1", VALUE_OTHER),
    QUANTITY(struct properties, flash_point, N_("flash point"), "degC", "\u00B0C", VALUE_FLASH),
    QUANTITY(struct properties, lower_flammable_limit, N_("lower flammable limit"), "vol%", "vol%", VALUE_FLAMMABLE),
    QUANTITY(struct properties, upper_flammable_limit, NULL, "vol%", "vol%", VALUE_OTHER),
    QUANTITY(struct properties, autoignition, NULL, "degC", "\u00B0C", VALUE_OTHER),
};
#define SPHERE(part, words)                                                                                            \
    { #part, words, "MPa^0.5", "MPa^0.5", VALUE_SPHERE, OF(struct material, sphere.part),                              \
      OF(struct material, sphere.from) }
#define FILM(key, member, words, unit, printed)                                                                        \
    { key, words, unit, printed, VALUE_FILM, OF(struct material, film_model.member),                                   \
      OF(struct material, film_model.from) }
static const struct value_place of_material[] = {
    SPHERE(delta_d, N_("dispersion part")), SPHERE(delta_p, N_("polar part")),
    SPHERE(delta_h, N_("hydrogen bonding part")), SPHERE(r0, N_("radius")),
    FILM("film_delta_d", delta_d, N_("film: dispersion part"), "MPa^0.5", "MPa^0.5"),
    FILM("film_delta_p", delta_p, N_("film: polar part"), "MPa^0.5", "MPa^0.5"),
    FILM("film_delta_h", delta_h, N_("film: hydrogen bonding part"), "MPa^0.5", "MPa^0.5"),
    FILM("network_mol_m3", network_mol_m3, N_("network of the film"), "mol/m3", "mol/m\u00B3"),
    FILM("molar_volume_cm3_mol", molar_volume_cm3_mol, N_("molar volume of the chains"), "cm3/mol", "cm\u00B3/mol"),
    FILM("pigment", pigment, N_("share of pigment in the film"), "", ""),
    FILM("chi_shift", chi_shift, N_("learnt shift of chi"), "", ""),
};
// clang-format on

#define COUNT(list) (sizeof(list) / sizeof(list)[0])

static void take(const struct value_place *place, const char *row, struct table_value *ret) {
    static const struct quantity absent = {.value = NAN, .uncertainty = NAN};
    *ret = (struct table_value){.key = place->key,
                                .words = place->words,
                                .unit = place->unit,
                                .printed_unit = place->printed_unit,
                                .kind = place->kind};
    if (place->from) {
        ret->value = *(const double *)(const void *)(row + place->value);
        ret->from = (const void *)(row + place->from);
        return;
    }
    ret->quantity = row ? (const void *)(row + place->value) : &absent;
    ret->value = ret->quantity->value;
    ret->from = &ret->quantity->from;
}

bool component_value(const struct component *component, size_t i, struct table_value *ret) {
    if (i < COUNT(of_component))
        take(&of_component[i], (const char *)component, ret);
    else if (i < COUNT(of_component) + COUNT(of_properties))
        take(&of_properties[i - COUNT(of_component)], (const char *)component->properties, ret);
    else
        return false;
    return true;
}

bool material_value(const struct material *material, size_t i, struct table_value *ret) {
    if (i >= COUNT(of_material))
        return false;
    take(&of_material[i], (const char *)material, ret);
    if ((ret->kind == VALUE_SPHERE && isnan(material->sphere.r0)) ||
        (of_material[i].value == OF(struct material, film_model.chi_shift) && ret->value == 0))
        ret->value = NAN; // a part without its sphere, or nothing learnt
    return true;
}

void write_antoine(const struct component *component, struct cited *cited, struct text *out) {
    if (!component->properties || isnan(component->properties->antoine.a))
        return;
    const struct antoine_values *antoine = &component->properties->antoine;
    struct text refs = {0};
    write_refs(&refs, &antoine->from);
    cited_add(cited, &antoine->from);
    page_paragraph_f(out, 2, 4, "vapour pressure: log10(p/kPa) = %.7g - %.7g/(t/degC + %.7g), %g to %g degC, %s, %s %s",
                     antoine->a, antoine->b, antoine->c, antoine->t_min, antoine->t_max,
                     say(antoine_kind_words[antoine->kind]), doubt_words(&antoine->from), text_bytes(&refs));
    text_release(&refs);
}
