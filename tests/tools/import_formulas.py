# SPDX-License-Identifier: GPL-3.0-or-later
"""Molecular formulas, for the diffusion volumes: atoms as in the systematic name and the number of aromatic or
heterocyclic rings. A petroleum cut has the formula of the compound whose vapour curve stands for it."""

# id: (formula, rings)
FORMULAS = {
    "n-pentane": ("C5H12", 0), "n-hexane": ("C6H14", 0), "n-heptane": ("C7H16", 0), "n-octane": ("C8H18", 0),
    "n-decane": ("C10H22", 0), "n-dodecane": ("C12H26", 0), "isooctane": ("C8H18", 0), "isododecane": ("C12H26", 0),
    "cyclohexane": ("C6H12", 0), "methylcyclohexane": ("C7H14", 0), "decalin": ("C10H18", 0),
    "octamethylcyclotetrasiloxane": ("C8H24O4Si4", 0), "decamethylcyclopentasiloxane": ("C10H30O5Si5", 0),
    "benzene": ("C6H6", 1), "toluene": ("C7H8", 1), "xylenes": ("C8H10", 1), "ethylbenzene": ("C8H10", 1),
    "trimethylbenzene-124": ("C9H12", 1), "tetralin": ("C10H12", 1), "d-limonene": ("C10H16", 0),
    "dichloromethane": ("CH2Cl2", 0), "chloroform": ("CHCl3", 0), "trichloroethane-111": ("C2H3Cl3", 0),
    "trichloroethylene": ("C2HCl3", 0), "tetrachloroethylene": ("C2Cl4", 0),
    "acetone": ("C3H6O", 0), "butanone": ("C4H8O", 0), "methyl-isobutyl-ketone": ("C6H12O", 0),
    "pentan-3-one": ("C5H10O", 0), "cyclohexanone": ("C6H10O", 0), "diacetone-alcohol": ("C6H12O2", 0),
    "methyl-acetate": ("C3H6O2", 0), "ethyl-acetate": ("C4H8O2", 0), "n-propyl-acetate": ("C5H10O2", 0),
    "isopropyl-acetate": ("C5H10O2", 0), "n-butyl-acetate": ("C6H12O2", 0), "isobutyl-acetate": ("C6H12O2", 0),
    "n-pentyl-acetate": ("C7H14O2", 0), "ethyl-lactate": ("C5H10O3", 0), "dimethyl-carbonate": ("C3H6O3", 0),
    "diethyl-carbonate": ("C5H10O3", 0), "propylene-carbonate": ("C4H6O3", 1), "gamma-butyrolactone": ("C4H6O2", 1),
    "pgmea": ("C6H12O3", 0), "methanol": ("CH4O", 0), "ethanol": ("C2H6O", 0), "propan-1-ol": ("C3H8O", 0),
    "propan-2-ol": ("C3H8O", 0), "butan-1-ol": ("C4H10O", 0), "butan-2-ol": ("C4H10O", 0),
    "isobutanol": ("C4H10O", 0), "tert-butanol": ("C4H10O", 0), "cyclohexanol": ("C6H12O", 0),
    "benzyl-alcohol": ("C7H8O", 1), "ethylene-glycol": ("C2H6O2", 0), "propylene-glycol": ("C3H8O2", 0),
    "glycerol": ("C3H8O3", 0), "methoxypropanol": ("C4H10O2", 0), "ethoxypropanol": ("C5H12O2", 0),
    "methoxyethanol": ("C3H8O2", 0), "ethoxyethanol": ("C4H10O2", 0), "butoxyethanol": ("C6H14O2", 0),
    "dipropylene-glycol-methyl-ether": ("C7H16O3", 0), "diethyl-ether": ("C4H10O", 0),
    "tert-butyl-methyl-ether": ("C5H12O", 0), "dimethoxymethane": ("C3H8O2", 0), "tetrahydrofuran": ("C4H8O", 1),
    "methyltetrahydrofuran-2": ("C5H10O", 1), "dioxane-14": ("C4H8O2", 1), "dioxolane-13": ("C3H6O2", 1),
    "acetonitrile": ("C2H3N", 0), "dimethylformamide": ("C3H7NO", 0), "dimethylacetamide": ("C4H9NO", 0),
    "n-methylpyrrolidone": ("C5H9NO", 1), "dimethyl-sulfoxide": ("C2H6OS", 0), "pyridine": ("C5H5N", 1),
    "n-butylamine": ("C4H11N", 0), "morpholine": ("C4H9NO", 1), "formic-acid": ("CH2O2", 0),
    "acetic-acid": ("C2H4O2", 0), "water": ("H2O", 0),
}

# id: (compound that stands for the cut, formula, rings)
SURROGATES = {
    "petroleum-ether-40-60": ("2,2-dimethylbutane", "C6H14", 0),
    "petroleum-naphtha-100-140": ("2-methylheptane", "C8H18", 0),
    "white-spirit": ("n-nonane", "C9H20", 0),
    "white-spirit-dearomatised": ("n-decane", "C10H22", 0),
    "isoparaffin-c9-c12": ("isododecane", "C12H26", 0),
    "aromatic-naphtha-c9": ("1,2,4-trimethylbenzene", "C9H12", 1),
    "turpentine": ("alpha-pinene", "C10H16", 0),
}
