// SPDX-License-Identifier: GPL-3.0-or-later
// Where figures come from: the blend, its place, the liquid as it is, films.
#include "cli/derivation.h"

#include "base/language.h"

// clang-format off
static const struct derivation items[] = {
    {NULL, "composition_volume_percent.* components.volume_percent composition_volume.*", N_("share by volume"),
     N_("Share of a component in the blend: parts of each bottle times what the bottle holds, over all parts."),
     "phi_i = sum_b parts_b c_bi / sum_b parts_b", N_("by definition"), NULL, USES_BOTTLES},
    {NULL, "delta_d delta_p delta_h", N_("Hansen parameters"),
     N_("Mean of the components' Hansen parameters, weighted by volume."),
     "delta_k = sum_i phi_i delta_k,i", "Hansen, Solubility Parameters: A User's Handbook (2007), ch. 1", NULL,
     USES_BOTTLES | VALUE_HANSEN},
    {NULL, "total_mpa05", N_("total parameter"), N_("Length of the vector of the three Hansen parameters."),
     "delta = sqrt(delta_d^2 + delta_p^2 + delta_h^2)", "Hansen (2007), ch. 1", NULL, VALUE_HANSEN},
    {NULL, "mean_of_fractions.fd mean_of_fractions.fp mean_of_fractions.fh teas.fd teas.fp teas.fh teas_fd teas_fp teas_fh",
     N_("Teas, volume mean of published fractions"),
     N_("Mean of the components' published fractions, weighted by volume; a component without published ones enters "
        "with those of its Hansen parameters."),
     "f_k = sum_i phi_i f_k,i; else f_k,i = 100 delta_k,i / (delta_d,i + delta_p,i + delta_h,i)",
     "Teas, J. Paint Technol. 40 (1968) 19", NULL, USES_BOTTLES | VALUE_TEAS | VALUE_HANSEN},
    {NULL, "of_mean_hansen.fd of_mean_hansen.fp of_mean_hansen.fh", N_("Teas, fractions of the mean Hansen parameters"),
     N_("The three mean Hansen parameters as percent of their sum."),
     "f_k = 100 delta_k / (delta_d + delta_p + delta_h)", "Teas, J. Paint Technol. 40 (1968) 19", NULL, VALUE_HANSEN},
    {NULL, "computed_components", N_("components with computed fractions"),
     N_("How many components have no published Teas fractions."), NULL, N_("counted"), NULL, VALUE_TEAS},
    {NULL, "activity", N_("activity"),
     N_("How strongly a component acts in the blend: 1 = as strong as neat. By the groups of the molecules; without "
        "groups by Hansen distances."),
     "a_i = x_i gamma_i; x_i = (phi_i/V_i) / sum_j (phi_j/V_j)",
     "modified UNIFAC (Dortmund): Weidlich & Gmehling, Ind. Eng. Chem. Res. 26 (1987) 1372; else original UNIFAC: "
     "Hansen et al., Ind. Eng. Chem. Res. 30 (1991) 2352; else Flory-Huggins",
     "Liquids", USES_ACTIVITY},
    {NULL, "partial_pressure_kpa vapour_pressure_kpa total_pressure_kpa", N_("vapour pressure over the blend"),
     N_("What each component contributes to the vapour over the liquid, by the modified law of Raoult."),
     "p_i = x_i gamma_i psat_i(T); psat_i by the curve, else as listed", N_("modified Raoult's law"), "Liquids",
     USES_VAPOUR},
    {NULL, "saturated_mg_m3", N_("saturated air"),
     N_("What air saturated over the liquid holds: the most that is possible."),
     "C = p_i M_i / (R T)", N_("ideal gas law"), NULL, USES_VAPOUR | VALUE_MOLAR_MASS | USES_GAS},
    {NULL, "flash_point_c", N_("flash point to count with"),
     N_("The lower of the computed flash point and that of the lowest component; of a single liquid the one in the "
        "table."),
     "min(T_model, min_i T_flash,i)", N_("own choice, to the cautious side"), "Liquids", VALUE_FLASH | USES_VAPOUR},
    {NULL, "flash_point_model_c", N_("flash point by the model"),
     N_("Temperature at which the vapour of the blend can be lit as the neat components can at their flash points."),
     "sum_i a_i(T) psat_i(T) / psat_i(T_flash,i) = 1",
     "Liaw, Lee, Tang & Hsu, J. Loss Prev. Process Ind. 15 (2002) 429 (from memory)", "Liquids", VALUE_FLASH | USES_VAPOUR},
    {NULL, "ra_mpa05", "Ra", N_("Distance in Hansen space from the blend to the centre of the material's sphere."),
     "Ra^2 = 4 (dD1-dD2)^2 + (dP1-dP2)^2 + (dH1-dH2)^2", "Hansen (2007), eq. 1.9", NULL,
     VALUE_HANSEN | VALUE_SPHERE},
    {NULL, "red", "RED", N_("Ra in radii of the material's sphere; below 1 the blend lies inside."), "RED = Ra / R0",
     "Hansen (2007), ch. 1", "Films", VALUE_HANSEN | VALUE_SPHERE},
    {NULL, "teas_distance_percent", N_("distance to the Teas area"),
     N_("Distance on the triangle from the point by the volume mean of fractions to the edge of the material's nearest "
        "area, in percent along a side; 0 on the edge."),
     "d^2 = (dfd^2 + dfp^2 + dfh^2) / 2", N_("geometry of the triangle"), NULL,
     VALUE_TEAS | VALUE_HANSEN | USES_AREAS},
    {NULL, "swelling", N_("swelling"),
     N_("Volume of liquid that the film takes up for each dry volume, when every component is as active inside as "
        "outside."),
     "ln a_i(film) = ln a_i(liquid); chi_i = chi_s + alpha V_i/(RT) [(dD)^2 + (dP)^2/4 + (dH)^2/4]",
     "Flory & Rehner, J. Chem. Phys. 11 (1943) 521 (from memory), extended to several liquids", "Films",
     USES_FILM_MODEL},
    {NULL, "volume_percent_of_all liquids.composition_volume_percent.*", N_("the two liquids"),
     N_("Shares and compositions of the two liquids into which the model splits the blend."),
     "x_i' gamma_i' = x_i'' gamma_i''", "equal activities; stability: Michelsen, Fluid Phase Equilib. 9 (1982) 1 (from memory)", "Liquids", USES_ACTIVITY | USES_PAIRS},
    {NULL, "cloud_water.present_percent cloud_water.first_percent cloud_water.sure_percent", N_("water it bears"),
     N_("Water in the blend, and how much makes it cloud: by the model, and surely; water is added step by step until "
        "the blend is two liquids."),
     NULL, N_("own method"), "Liquids", USES_ACTIVITY | USES_PAIRS},
    {NULL, "refs", NULL, NULL, NULL, NULL, NULL, 0},
};
// clang-format on

const struct derivations derivations_place = {items, sizeof items / sizeof items[0]};
