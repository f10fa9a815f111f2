# SPDX-License-Identifier: GPL-3.0-or-later
"""Misfits and bounds found while the physical table was compiled: they become notes of the values."""

# Beside the sentence on the range, which the conversion writes by itself.
ANTOINE = {
    "cyclohexanol": "starts at the melting point, supercooled liquid below",
    "dimethyl-sulfoxide": "starts at the melting point, supercooled liquid below",
    "glycerol": "starts at the melting point, supercooled liquid below; 13.6 degC below the listed boiling point, the fit ends at 120 degC",
    "octamethylcyclotetrasiloxane": "starts at the melting point, supercooled liquid below",
    "acetic-acid": "starts at the melting point, supercooled liquid below",
    "dioxane-14": "starts at the melting point, supercooled liquid below",
    "tert-butanol": "melts at 25.7 degC though the range starts lower",
    "ethoxypropanol": "probably 20-35 % low",
    "n-methylpyrrolidone": "35 % below the vapour-pressure value at 20 degC: prefer that value",
    "white-spirit": "29 % below the vapour-pressure value at 20 degC; curve boils 24.4 degC below the listed middle",
    "turpentine": "20 % below the vapour-pressure value at 20 degC; curve boils 5.8 degC below the listed middle",
    "isoparaffin-c9-c12": "curve boils 7.9 degC above the listed middle",
    "white-spirit-dearomatised": "curve boils 6.2 degC below the listed middle",
    "petroleum-naphtha-100-140": "curve boils 2.4 degC below the listed middle",
    "morpholine": "meets a measured point within 1 % at 71 degC",
}
VAPOUR_20 = {
    "cyclohexanol": "59 % below NIOSH (1 mmHg)", "dipropylene-glycol-methyl-ether": "44 % below NIOSH (0.5 mmHg)",
    "cyclohexanone": "41 % below NIOSH (5 mmHg), an independent equation sides with the curve",
    "n-pentyl-acetate": "33 % below NIOSH (4 mmHg); 49 % above in a source that was not used",
    "xylenes": "30 % below NIOSH (9 mmHg), an independent equation sides with the curve",
    "butoxyethanol": "28 % below NIOSH (0.8 mmHg)", "dimethylacetamide": "27 % below NIOSH (2 mmHg)",
    "butan-1-ol": "22 % below NIOSH (6 mmHg), an independent equation sides with the curve",
    "isobutanol": "curve 4.6 % apart and 20 % below NIOSH (9 mmHg), an independent equation sides with the curve",
    "turpentine": "the NIOSH figure; the curve is 20 % lower", "diacetone-alcohol": "13 % below NIOSH (1 mmHg)",
    "isopropyl-acetate": "12 % above NIOSH (42 mmHg)", "morpholine": "21 % above NIOSH (6 mmHg)",
    "methoxyethanol": "25 % above NIOSH (6 mmHg)", "isobutyl-acetate": "curve 6.0 % apart",
    "pentan-3-one": "curve 4.2 % apart", "n-butylamine": "curve 3.2 % apart",
    "propylene-carbonate": "0.0049 kPa in a source that was not used", "glycerol": "11 % above in a source that was not used",
}
VAPOUR_25 = {"n-butyl-acetate": "curve 7.3 % apart"}
FLASH = {
    "n-pentane": "vapour curve reaches the lower limit at -52 degC, other tables list -49: the lower is the cautious reading",
    "petroleum-ether-40-60": "vapour curve of the surrogate reaches the lower limit at -45 degC: the cautious reading",
    "petroleum-naphtha-100-140": "vapour curve of the surrogate reaches the lower limit at 11 degC",
    "white-spirit": "vapour curve of the surrogate reaches the lower limit at 26 degC: the cautious reading",
    "propylene-carbonate": "vapour curve reaches the lower limit at 117 degC: the cautious reading",
    "dimethoxymethane": "vapour curve reaches the lower limit at -36 degC: the cautious reading",
}
CUP = {"closed cup": ("closed", None), "closed cup (as listed)": ("closed", "cup as listed, method not given"),
       "closed cup (upper bound)": ("closed", "upper bound"), "closed cup (lower end)": ("closed", "lower end"),
       "closed cup (specification minimum)": ("closed", "specification minimum"),
       "closed cup (typical)": ("closed", "typical"), "cup not stated": ("unstated", None),
       "none (no flash point by closed cup)": (None, None)}
DENSITY = {"methoxypropanol": "doubtful: 0.919 at 25 degC elsewhere"}
ENTHALPY = {"formic-acid": "of the associated vapour", "acetic-acid": "of the associated vapour"}
AUTOIGNITION = {"tert-butanol": "470 to 480 in other tables"}
LOWER_LIMIT = {"isobutyl-acetate": "2.4 in NFPA 497"}
