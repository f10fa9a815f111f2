// SPDX-License-Identifier: GPL-3.0-or-later
// Where figures come from: vapour in the air of a room, limits, fire.
#include "cli/derivation.h"

#include "base/language.h"

#define ROOM_USES (VALUE_DENSITY | USES_ROOM)
#define TWO_ZONES "V_N dC_N/dt = G + beta (C_F - C_N); V_F dC_F/dt = beta (C_N - C_F) - Q C_F"
#define NICAS "Nicas, Am. Ind. Hyg. Assoc. J. 57 (1996) 542"

// clang-format off
static const struct derivation items[] = {
    {"exposure", "tasks.start_h tasks.length_h tasks.use_ml_h clock_start_h shift_h captured_percent", NULL, NULL, NULL,
     NULL, NULL, 0},
    {"exposure", "generation_mg_h", N_("vapour given off"),
     N_("Highest mass of a component that becomes vapour in an hour: all that is used evaporates during its task, or "
        "with --rate model no more than the wet surface gives off."),
     "G_i = use phi_i rho_i; by the model at most A 1464 p_i M_i microgram/(m2 h)",
     "mass balance; Mackay & van Wesenbeeck, Environ. Sci. Technol. 48 (2014) 10259", NULL,
     VALUE_DENSITY | USES_BOTTLES},
    {"exposure", "released_mg", N_("released over the day"), N_("Sum of what all tasks give off."),
     "m_i = sum_tasks use t phi_i rho_i", N_("mass balance"), NULL, VALUE_DENSITY | USES_BOTTLES},
    {"exposure", "room_mg_m3", N_("in the room, highest"), N_("Highest concentration in one well-mixed room."),
     "V dC/dt = G - Q C; Q = mixing x air changes x V", N_("mass balance of a well-mixed room"), "Air of a room", ROOM_USES},
    {"exposure", "room_ppm near_ppm", N_("ppm"), N_("The same as parts of air by volume at the room's temperature."),
     "ppm = C R T / (M P)", N_("ideal gas law"), NULL, ROOM_USES | VALUE_MOLAR_MASS | USES_GAS},
    {"exposure", "room_steady_mg_m3", N_("what the room heads for"),
     N_("Concentration that a well-mixed room would reach if the work went on for ever."), "C = G / Q",
     N_("mass balance of a well-mixed room"), "Air of a room", ROOM_USES},
    {"exposure", "room_8h_mg_m3 room_8h_stays_mg_m3 room_8h_leaves_mg_m3", N_("8-hour mean in the room"),
     N_("Dose in the well-mixed room over 8 hours: for a person who stays, and for one who leaves with the task."),
     "C_8h = integral of C dt / 8 h", "29 CFR 1910.1000(d)(1)", "Air of a room", ROOM_USES},
    {"exposure", "near_mg_m3", N_("near the work, highest"),
     N_("Highest concentration where the person breathes: a near field round the work that exchanges air with the "
        "rest of the room."), TWO_ZONES, NICAS, "Air of a room", ROOM_USES},
    {"exposure", "near_15min_mg_m3", N_("highest 15-minute mean"),
     N_("Highest mean over any 15 minutes where the person breathes."), "C_15 = max_t integral of C dt / 15 min",
     NICAS, "Air of a room", ROOM_USES},
    {"exposure", "twa_8h_mg_m3 twa_8h_stays_mg_m3 twa_8h_leaves_mg_m3 twa_8h_mg_m3.*", N_("8-hour mean of the person"),
     N_("Dose that the person breathes, near the work while a task runs and in the rest of the room afterwards, over 8 "
        "hours."), "TWA = integral of C dt / 8 h", "29 CFR 1910.1000(d)(1); " NICAS, "Air of a room", ROOM_USES},
    {"exposure", "vapour_pressure_kpa", N_("vapour pressure"),
     N_("Of the neat component at the room's temperature."), "log10(p/kPa) = a - b/(t + c); else as listed",
     "Antoine's equation; the table", NULL, VALUE_VAPOUR | VALUE_VAPOUR_25},
    {"exposure", "saturated_mg_m3", N_("saturated air"),
     N_("What air saturated over the neat component holds: no concentration can be above it."), "C = p_i M_i / (R T)",
     N_("ideal gas law"), NULL, VALUE_VAPOUR | VALUE_VAPOUR_25 | VALUE_MOLAR_MASS | USES_GAS},
    {"exposure", "vapour_hazard_ratio", N_("saturated air over the limit"),
     N_("How many times the limit for the mean air holds that is saturated over the neat component."),
     "VHR_i = C_i,sat / L_i", "Pitt, IChemE Symp. Ser. 151 (2006) (from memory)", NULL,
     VALUE_VAPOUR | VALUE_VAPOUR_25 | VALUE_MOLAR_MASS | USES_GAS | USES_LIMITS},
    {NULL, "vapour_hazard_ratio", N_("saturated air over the limit"),
     N_("How many times the limit air holds that is saturated over the blend, whatever the room."),
     "VHR = sum_i C_i,sat / L_i", "Pitt, IChemE Symp. Ser. 151 (2006); Gerin, Ann. Occup. Hyg. 53 (2009) 391 (from "
     "memory)", NULL, USES_VAPOUR | USES_GAS | USES_LIMITS},
    {"exposure", "idlh_share idlh_mg_m3", "IDLH",
     N_("Highest concentration near the work as a share of the lowest IDLH of any set, a mark of danger to life."),
     "C_N,max / IDLH", N_("by definition"), NULL, ROOM_USES | USES_LIMITS},
    {"exposure", "excursion_guide", N_("15-minute mean against the guide"),
     N_("Highest 15-minute mean over three times the long-term limit, where no short-term one is listed."),
     "C_15 / (3 L)", "HSE EH40 (from memory)", NULL, ROOM_USES | USES_LIMITS},
    {"exposure", "odour_threshold_ppm limit_over_odour", N_("odour"),
     N_("From how much on it is smelt, and the limit as a multiple of that; below 1 the limit is passed unsmelt."),
     "L / odour threshold", N_("by definition"), NULL, USES_ODOUR | USES_LIMITS},
    {"exposure report", "limit_mg_m3", N_("limit"),
     N_("As printed by the authority; from ppm by its own molar volume of air, reduced for a long shift when that is "
        "asked for."),
     "mg/m3 = ppm M / V_m; long shift: L (8/h)(24-h)/16",
     "the authority's list; Brief & Scala, Am. Ind. Hyg. Assoc. J. 36 (1975) 467", NULL,
     USES_LIMITS | VALUE_MOLAR_MASS},
    {"exposure report", "reached_mg_m3 worst_window_start_h", N_("reached"),
     N_("What the person breathes over the limit's own time, and where the worst window of that time begins."),
     "max_t integral of C dt / period", NICAS, "Air of a room", ROOM_USES},
    {"exposure report", "share room_share", N_("share of the limit"),
     N_("What is reached over the limit, near the work and in the well-mixed room."), "C / L", N_("by definition"),
     NULL, ROOM_USES | USES_LIMITS},
    {NULL, "index room_index sets.index", N_("index"),
     N_("Sum over the components of the day mean over its limit; above 1 the limit of the mixture is passed."),
     "Em = C_1/L_1 + C_2/L_2 + ...", "29 CFR 1910.1000(d)(2)(ii); TRGS 402; EH40", NULL, ROOM_USES | USES_LIMITS},
    {NULL, "peak_index", N_("index of short times"),
     N_("Sum over the components of the largest share of a limit for short times, in the worst window that they "
        "share."),
     "sum_i max_window C_i / L_i,short", N_("additive rule, applied to short times"), NULL, ROOM_USES | USES_LIMITS},
    {"exposure", "worst_index", N_("worst index"), N_("The larger of the index of day means and that of short times."),
     "max(index, peak index)", N_("by definition"), NULL, ROOM_USES | USES_LIMITS},
    {"exposure", "index_by_effect.*", N_("index by effect"),
     N_("The index of those components alone that have an effect in common."), "sum over i with the effect of C_i/L_i",
     N_("additive rule"), NULL, ROOM_USES | USES_LIMITS | USES_HAZARDS},
    {NULL, "allowed_ml_h", N_("up to so much"),
     N_("Use at which the worst index reaches the share of the limit asked for, or an IDLH or the alarm of flammable "
        "vapour if that comes first; everything in the air grows with the use."),
     "use x min(share / worst index, 1 / IDLH share, alarm / share of LFL)", N_("proportion"), NULL,
     ROOM_USES | USES_LIMITS | VALUE_FLAMMABLE},
    {"exposure report", "air_changes_needed pause_needed_h hours_possible", N_("what would help"),
     N_("Fewest air changes, shortest pause, or longest work within the limits, each alone, found by halving."),
     "allowed factor >= 1", N_("bisection"), NULL, ROOM_USES | USES_LIMITS},
    {"exposure", "dilution_air_m3_h", N_("fresh air by the dilution formula"),
     N_("Steady fresh air for the whole mixture; it says nothing of the near field."), "Q = sum_i K G_i / L_i, K = 5",
     "ACGIH, Industrial Ventilation", "Air of a room", VALUE_DENSITY | USES_LIMITS},
    {"exposure", "airing_h", N_("airing"),
     N_("Hours after the last task until the room is down to a tenth of every limit."), "t = ln(C1/C2) / (Q/V)",
     N_("mass balance of a well-mixed room"), "Air of a room", ROOM_USES | USES_LIMITS},
    {"exposure", "hydrocarbon_limit_mg_m3", N_("limit of the hydrocarbons together"),
     N_("Limit of a mixture of hydrocarbons by the reciprocal rule of the authority, rounded as it says."),
     "1/L = sum_i w_i/L_i", "HSE EH40/2005 par. 86-89; TRGS 900 no. 2.9", NULL, USES_LIMITS | VALUE_DENSITY},
    {NULL, "flammable_share_near flammable_share_room flammable_share_near_percent", N_("share of the lower flammable limit"),
     N_("How far the vapour is towards what can be lit, near the work and in the room; alarms are set at 10 %."),
     "sum_i C_i / LFL_i", "Le Chatelier; Crowl & Louvar, Chemical Process Safety", NULL,
     ROOM_USES | VALUE_FLAMMABLE | VALUE_MOLAR_MASS | USES_GAS},
    {"exposure", "gloves_unknown", N_("components without a glove"),
     N_("How many components have no resistant glove in the table."), NULL, N_("counted"), NULL, USES_HAZARDS},
};
// clang-format on

const struct derivations derivations_air = {items, sizeof items / sizeof items[0]};
