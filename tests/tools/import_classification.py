# SPDX-License-Identifier: GPL-3.0-or-later
"""What the mixture rules take from a component beyond its H codes: specific concentration limits, acute toxicity
estimates, M-factors, the category of a sensitiser. Only entries of Reg. (EC) 1272/2008 Annex VI that we are sure to remember;
nobody saw the pages. A component without an entry here is classified by the generic limits, and the answer says so.
"""

# id: [(code of the mixture, from percent by mass, below percent or None, note)]
SPECIFIC_LIMITS = {
    "methanol": [("H370", "10", None, None), ("H371", "3", "10", None)],
    "tetrahydrofuran": [("H319", "25", None, None), ("H335", "25", None, None)],
    "diacetone-alcohol": [("H319", "10", None, None)],
    "n-methylpyrrolidone": [("H335", "10", None, None)],
    "acetic-acid": [("H314", "25", None, "category 1A from 90 %, 1B from 25 %"), ("H315", "10", "25", None), ("H319", "10", "25", None)],
    "formic-acid": [("H314", "10", None, "category 1A from 90 %, 1B from 10 %; as before ATP 22"), ("H315", "2", "10", "as before ATP 22"),
                    ("H319", "2", "10", "as before ATP 22")],
}

# id: {key: value}; harmonised estimates
ESTIMATES = {
    "methyl-isobutyl-ketone": {"vapour_mg_l": "11"},
    "butoxyethanol": {"oral_mg_kg": "1200", "vapour_mg_l": "3"},
    "benzyl-alcohol": {"oral_mg_kg": "1200"},
}

M_FACTORS = {
    "d-limonene": {"acute": "1"},
    "octamethylcyclotetrasiloxane": {"chronic": "10"},
}

# Of H317; category 1 where it is not subdivided.
SENSITISER_CATEGORY = {"d-limonene": "1B", "benzyl-alcohol": "1B"}

# Wording needed by mixtures though no component of the tables has the code (H227 and H320: United States only).
US_STATEMENTS = {"H227": "Combustible liquid.", "H320": "Causes eye irritation."}
STATEMENTS = {
    "H300": "Fatal if swallowed.", "H310": "Fatal in contact with skin.",
    "H330": "Fatal if inhaled.",
    "H334": "May cause allergy or asthma symptoms or breathing difficulties if inhaled.",
    "H350i": "May cause cancer by inhalation.",
    "H360": "May damage fertility or the unborn child.", "H360F": "May damage fertility.",
    "H360Fd": "May damage fertility. Suspected of damaging the unborn child.",
    "H360Df": "May damage the unborn child. Suspected of damaging fertility.",
    "H361fd": "Suspected of damaging fertility. Suspected of damaging the unborn child.",
    "H362": "May cause harm to breast-fed children.",
    "H371": "May cause damage to organs.",
    "EUH208": "May produce an allergic reaction.",  # behind "Contains (name)."
    "P301+P330+P331": "IF SWALLOWED: Rinse mouth. Do NOT induce vomiting.",
    "P302+P352": "IF ON SKIN: Wash with plenty of water.",
    "P308+P311": "IF exposed or concerned: Call a POISON CENTER/doctor.",
    "P502": "Refer to manufacturer or supplier for information on recovery or recycling.",
}
