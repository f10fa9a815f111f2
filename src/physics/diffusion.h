// SPDX-License-Identifier: GPL-3.0-or-later
// Diffusivity of a vapour in air from its molecular formula.
#ifndef MILDSOLVE_PHYSICS_DIFFUSION_H
#define MILDSOLVE_PHYSICS_DIFFUSION_H

#include "base/error.h"
#include "data/tables.h"

// Diffusion volume of a molecule: the sum of atomic increments (Fuller, Ensley & Giddings, J. Phys. Chem. 73 (1969)
// 3679, table II, from memory: as reprinted by Poling, Prausnitz & O'Connell 2000, table 11-1): C 15.9, H 2.31,
// O 6.11, N 4.54, S 22.9, Cl 21.0, each aromatic or heterocyclic ring -18.3; water as a molecule 13.1. No increment
// for silicon is published: 24 is our estimate, from the ratio 0.97 of diffusion volume to molar volume at 25 degC of
// n-hexane (127.7/131.6) applied to octamethylcyclotetrasiloxane (312 cm3/mol). NAN without a formula.
double diffusion_volume(const struct component *component);

// Molar mass from the formula and the IUPAC standard atomic weights of 2021, g/mol; NAN without a formula.
double formula_molar_mass(const struct formula_values *formula);

// D = 0.00100 T^1.75 (1/M + 1/M_air)^(1/2) / (P [v^(1/3) + v_air^(1/3)]^2), cm2/s, T in K, P in atm, v_air = 19.7
// (Fuller, Schettler & Giddings, Ind. Eng. Chem. 58(5) (1966) 18, eq. 4, with the volumes of 1969). Mean error of the
// method about 4 % for common vapours. At one atmosphere. STATUS_NO_DATA names the component without formula or
// molar mass.
enum status diffusivity_in_air(const struct component *component, double temp_k, double *ret_cm2_s, struct error *err);

#endif
