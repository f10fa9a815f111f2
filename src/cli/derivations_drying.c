// SPDX-License-Identifier: GPL-3.0-or-later
// Where figures come from: drying, replacements, batches, labels.
#include "cli/derivation.h"

#include "base/language.h"

#define DRYING_USES (USES_VAPOUR | VALUE_MOLAR_MASS | USES_FORMULA | USES_GAS)
#define TRANSFER "dn_i/dt = -A k_i p_i/(RT); k_i ~ D_i^(2/3)"
#define SHERWOOD                                                                                                       \
    "Sherwood & Pigford, Absorption and Extraction (1952); D_i: Fuller, Schettler & Giddings, Ind. Eng. Chem. 58(5) "  \
    "(1966) 18"
#define RA "Ra^2 = 4 (dD1-dD2)^2 + (dP1-dP2)^2 + (dH1-dH2)^2"

// clang-format off
static const struct derivation items[] = {
    {"chart", "points.fd points.fp points.fh", N_("place on the triangle"),
     N_("By the rule that the answer names: the volume mean of published fractions, or the fractions of the mean Hansen "
        "parameters."),
     "f_k = sum_i phi_i f_k,i; or f_k = 100 delta_k / (delta_d + delta_p + delta_h)", "Teas, J. Paint Technol. 40 (1968) 19", NULL,
     USES_BOTTLES | VALUE_TEAS | VALUE_HANSEN},
    {"chart", "points.number areas in_legend_only", N_("what is drawn"),
     N_("Number of each point, and how many areas there are, and labels that found no room."), NULL, N_("counted"), NULL,
     USES_AREAS},
    {"drying layers", "temperature_c", NULL, NULL, NULL, NULL, NULL, 0},
    {"drying report", "evaporated evaporated_mol_percent", N_("gone"), N_("Fraction of the moles that has left: the points of the path, in steps of 1 %."), NULL,
     N_("own choice"), NULL, 0},
    {"drying replace report", "relative_time relative_time_50 relative_time_90 relative_time_95 time_90 time_95",
     N_("relative time"),
     N_("Time in still air; 1 is what the same volume of n-butyl acetate takes to evaporate wholly."), TRANSFER, SHERWOOD,
     "Liquids", DRYING_USES},
    {"drying report", "component_1 component_2 component_3 component_4 component_5 component_6 component_7 component_8 "
     "component_9 component_10 component_11 component_12 path.composition.* tail.* path.composition_volume.* tail_volume.* volume_left", N_("what is left"),
     N_("Composition and volume of the liquid that remains, followed from the whole blend to the last of it."), TRANSFER,
     SHERWOOD, "Liquids", DRYING_USES},
    {"drying", "first_volume_percent first_mole_fraction first_mass_fraction pressure_kpa", N_("azeotrope"),
     N_("Composition that evaporates unchanged, vapour and liquid being the same, and its pressure."),
     "y_1/x_1 = y_2/x_2 = 1", N_("by definition"), "Liquids", USES_VAPOUR | VALUE_MOLAR_MASS},
    {"replace", "within_mpa05", NULL, NULL, NULL, NULL, NULL, 0},
    {"replace", "replacements.rank", N_("rank"),
     N_("Place in the list: first what is no more hazardous, then fewer respects that speak against it, then Ra in steps of "
        "1, then fewer bottles."), NULL, N_("own choice"), NULL, 0},
    {"replace report", "ra replacements.ra_mpa05 nearest.ra_mpa05 near_on_triangle_only.ra_mpa05", "Ra", N_("Distance in Hansen space between the original and what stands in for it."), RA,
     "Hansen (2007), eq. 1.9", NULL, VALUE_HANSEN},
    {"replace", "ra_uncertainty_mpa05", N_("uncertainty of Ra"),
     N_("One standard deviation of Ra from those of the tabled parts."),
     "sqrt(16 dD^2 var(dD) + dP^2 var(dP) + dH^2 var(dH)) / Ra", N_("propagation of uncertainty"), NULL,
     VALUE_HANSEN | USES_DOUBT},
    {"replace report", "triangle_percent triangle", N_("distance on the triangle"),
     N_("Between the two points by the volume mean of fractions, in percent along a side."),
     "d^2 = (dfd^2 + dfp^2 + dfh^2) / 2", N_("geometry of the triangle"), NULL, VALUE_TEAS | VALUE_HANSEN},
    {"replace", "drying_time_ratio", N_("drying time, new over old"), N_("Ratio of the times until nine tenths are gone."),
     "t_90,new / t_90,old", N_("by definition"), "Liquids", DRYING_USES},
    {"replace", "path_ra_mpa05 path_gone_percent tail_ra_mpa05", N_("distance while drying"),
     N_("Largest distance in Hansen space when equal shares are gone, when that is, and the distance of the last 5 %."), RA,
     "Hansen (2007), eq. 1.9", "Liquids", DRYING_USES},
    {"replace", "tail_place.delta_d tail_place.delta_p tail_place.delta_h", N_("place of the last 5 %"),
     N_("Volume mean of the Hansen parameters of what is left last."), "delta_k = sum_i phi_i delta_k,i",
     "Hansen (2007), ch. 1", "Liquids", DRYING_USES},
    {"gentlest replace", "last_percent_of_tail last_to_leave_tail_share", N_("share of what leaves last"),
     N_("Share by volume of the last 5 % that the liquid makes up which leaves last."), TRANSFER, SHERWOOD, "Liquids",
     DRYING_USES},
    {"replace", "inside_ra_mpa05 film.inside.*", N_("what the film takes up"),
     N_("Shares by volume of the liquids inside the film, and the distance between their mean places."),
     "ln a_i(film) = ln a_i(liquid)", "Flory & Rehner, J. Chem. Phys. 11 (1943) 521 (from memory), extended to several "
     "liquids", "Films", USES_FILM_MODEL},
    {"replace", "swelling_ratio", N_("swelling, new over old"), N_("Ratio of the swelling of the paint that takes up most."),
     "W_new / W_old", N_("by definition"), "Films", USES_FILM_MODEL},
    {"replace report", "vapour_hazard_change vapour_ratio", N_("vapour over the limits, new over old"),
     N_("Ratio of what the saturated air holds in limits, by the set by which the new one does worst."),
     "VHR_new / VHR_old", "Gerin, Ann. Occup. Hyg. 53 (2009) 391 (from memory)", NULL,
     USES_VAPOUR | USES_GAS | USES_LIMITS},
    {"replace", "index_change", N_("index in the room, new over old"), N_("Ratio of the indices in the same room."),
     "index_new / index_old", N_("by definition"), NULL, VALUE_DENSITY | USES_ROOM | USES_LIMITS},
    {"replace", "air.index", N_("index in the room"), N_("The larger of the index of day means and that of short times."),
     "max(sum_i C_i/L_i, sum_i max_window C_i/L_i,short)", "29 CFR 1910.1000(d)(2)(ii); TRGS 402; EH40", NULL,
     VALUE_DENSITY | USES_ROOM | USES_LIMITS},
    {"replace", "speaks_against", N_("speaks against"),
     N_("How many respects are worse, differ, or are not known."), NULL, N_("counted"), NULL, 0},
    {"gentlest replace", "similar_sets near_identical_sets", N_("near-identical sets"),
     N_("Sets of bottles that bring nothing new and are counted with the row."), NULL, N_("counted"), NULL, 0},
    {"gentlest replace report", "red_remove nearest_red", "RED", N_("Largest RED over what is to be removed; below 1 inside every sphere."),
     "RED = Ra / R0", "Hansen (2007), ch. 1", "Films", VALUE_HANSEN | VALUE_SPHERE},
    {NULL, "removed_by_filter.bottles removed_by_filter.blends removed_by_filter.sets", N_("taken off by a filter"),
     N_("Bottles, blends or sets of bottles that a filter took off the shelf."), NULL, N_("counted"), NULL, 0},
    {"gentlest replace", "bottles blends_on_grid evaluated excluded_by_bound working_sets sets_within sets_compared two_liquids rows "
     "components_proved passing_sets candidates cases_at_ends passing_compositions", N_("what was searched"),
     N_("Bottles, blends on the grid, blends solved one by one, sets of bottles kept or left out."),
     "sum_k C(bottles, k) C(steps - 1, k - 1)", N_("counted"), NULL, 0},
    {NULL, "components.flash_point_c", N_("flash point of a liquid"), N_("As it stands in the table."), NULL, N_("the table"), NULL,
     VALUE_FLASH},
    {NULL, "lower_flammable_limit_vol_percent", N_("lower flammable limit"), N_("As it stands in the table."), NULL,
     N_("the table"), NULL, VALUE_FLAMMABLE},
    {"recipe", "step_ml have_ml", NULL, NULL, NULL, NULL, NULL, 0},
    {"recipe report", "add_ml total_ml", N_("millilitres"),
     N_("Share of the batch in whole steps of the cylinder, largest remainders rounded up so that the sum stays; from a leftover "
        "the least that makes no share too large."),
     "V_b = V parts_b / sum parts", N_("own method"), NULL, 0},
    {"recipe report", "add_g", N_("grams"), N_("Mass of that volume at 20 degC."), "m = V sum_i c_i rho_i", N_("by definition"),
     NULL, VALUE_DENSITY | USES_BOTTLES},
    {"recipe report", "asked_percent reached_percent shift_percent", N_("shares asked for and reached"),
     N_("Percent by volume as asked for, as reached by whole steps, and the largest difference."), "100 V_b / sum V",
     N_("by definition"), NULL, 0},
    {"recipe", "shift_ra_mpa05", N_("shift in Hansen space"), N_("Distance between the blend asked for and the one reached."), RA,
     "Hansen (2007), eq. 1.9", NULL, VALUE_HANSEN},
    {"label", "flash_point_stated_c", NULL, NULL, NULL, NULL, NULL, 0},
    {"label", "boiling_point_c", N_("initial boiling point"),
     N_("Temperature at which the vapour over the blend reaches one atmosphere."), "sum_i x_i gamma_i psat_i(T) = 101.325 kPa",
     N_("modified Raoult's law"), "Liquids", USES_VAPOUR | USES_GAS},
    {"label", "bottle_ml width_mm height_mm copies text_pt pictogram_side_mm", N_("the label"),
     N_("Size of the label for the bottle, and of its letters and pictograms: the largest that fit."), NULL,
     N_("own choice"), NULL, 0},
};
// clang-format on

const struct derivations derivations_drying = {items, sizeof items / sizeof items[0]};
