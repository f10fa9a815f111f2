# SPDX-License-Identifier: GPL-3.0-or-later
"""What resins.csv lacks: names, behaviour, whether the film dissolves; bottles, shelves, uncertainties."""

TRITERPENE_FRESH = "Fresh triterpenoid resin goes into weak hydrocarbons; alcohol and acetone leave a residue."
TRITERPENE_AGED = ("Oxidation makes it need more polar blends, usually about toluene-acetone 40:60; hydrocarbon-alcohol "
                   "blends also act. A real film is most oxidised at the top, so the step needed falls with depth.")
NETWORK = "A cross-linked film: it swells and does not dissolve. Any solvent that moves it acts on the paint too."
UNCURED = "Sphere of the uncured resin; the cured film is cross-linked and only swells. Stand-in for an oil film."
RIGHT = "A film near the edge of its sphere swells before it dissolves; a swab then drags it."

# id: (film, {language: names}, behaviour, substitute id or None, references, (uncertainty of centre, of r0) or None)
MATERIALS = {
    "dammar-fresh": ("dissolves", {"en": ["dammar", "damar", "fresh dammar varnish"], "de": ["Dammar", "Dammarfirnis frisch"], "fr": ["dammar fraîche"], "it": ["dammar fresca"], "es": ["dammar fresco"]}, TRITERPENE_FRESH, None, ["own-sphere"], None),
    "dammar-aged": ("dissolves", {"en": ["aged dammar varnish", "oxidised dammar"], "de": ["Dammar gealtert", "gealterter Dammarfirnis"], "fr": ["dammar vieillie", "vernis dammar vieilli"], "it": ["dammar invecchiata"], "es": ["dammar envejecido"]}, TRITERPENE_AGED, None, ["own-sphere", "feller-curran1975", "lomax-fisher1990"], (2, None)),
    "mastic-fresh": ("dissolves", {"en": ["mastic", "fresh mastic varnish"], "de": ["Mastix", "Mastixfirnis frisch"], "fr": ["mastic frais"], "it": ["mastice fresca"], "es": ["almáciga fresca"]}, "Fresh triterpenoid resin; needs a little more than weak hydrocarbons.", None, ["own-sphere", "merck-index", "mantell1942", "samet1998"], None),
    "mastic-aged": ("dissolves", {"en": ["aged mastic varnish", "oxidised mastic"], "de": ["Mastix gealtert", "gealterter Mastixfirnis"], "fr": ["mastic vieilli", "vernis mastic vieilli"], "it": ["mastice invecchiata"], "es": ["almáciga envejecida"]}, TRITERPENE_AGED + " Mastic oxidises in the dark nearly as fast as in light.", None, ["own-sphere", "feller-curran1975", "lomax-fisher1990", "dietemann2001"], (2, None)),
    "colophony": ("dissolves", {"en": ["rosin"], "de": ["Kolophonium"], "fr": ["colophane"], "it": ["colofonia", "pece greca"], "es": ["resina de colofonia"]}, "Dissolves in nearly everything but water and polyols.", None, ["own-sphere"], (3, None)),
    "shellac-fresh": ("dissolves", {"en": ["shellac"], "de": ["Schellack"], "fr": ["gomme-laque", "gomme laque"], "it": ["gommalacca"], "es": ["goma laca"]}, "An alcohol resin from the start; acetone acts slowly or incompletely.", None, ["own-sphere"], None),
    "shellac-aged": ("cross-linked", {"en": ["aged shellac"], "de": ["Schellack gealtert", "gealterter Schellack"], "fr": ["gomme-laque vieillie"], "it": ["gommalacca invecchiata"], "es": ["goma laca envejecida"]}, "Self-esterifies and becomes slow or insoluble in plain alcohol; may only swell. No sphere: test.", "shellac-fresh", ["horie1987"], None),
    "sandarac": ("dissolves", {"de": ["Sandarak"], "fr": ["sandaraque"], "it": ["sandracca"], "es": ["sandáraca"]}, "An alcohol resin from the start; hydrocarbons do not dissolve it.", None, ["own-sphere", "merck-index"], None),
    "manila-copal": ("dissolves", {"en": ["soft copal", "Manila copal"], "de": ["Manilakopal"], "fr": ["copal de Manille"], "it": ["coppale Manila"], "es": ["copal de Manila"]}, "An alcohol resin from the start; only partly soluble in higher alcohols.", None, ["own-sphere", "cameo", "mantell1942"], None),
    "hard-copal": ("dissolves", {"en": ["kauri", "Congo copal", "hard copals"], "de": ["Hartkopal", "Kongokopal"], "fr": ["copal dur"], "it": ["coppale dura"], "es": ["copal duro"]}, "Dissolves in almost nothing until fused; gels in some alcohols. No sphere: test.", None, ["cameo", "merck-index"], None),
    "ester-gum": ("dissolves", {"en": ["rosin ester"], "de": ["Harzester", "Kolophoniumester"], "fr": ["gomme ester"], "it": ["gomma estere"], "es": ["goma éster"]}, "Dissolves in hydrocarbons, esters and ketones.", None, ["hansen1971"], None),
    "oil-resin-varnish-aged": ("cross-linked", {"en": ["aged oil varnish", "copal oil varnish"], "de": ["Öl-Harz-Firnis gealtert", "Ölharzfirnis"], "fr": ["vernis gras vieilli"], "it": ["vernice grassa invecchiata"], "es": ["barniz graso envejecido"]}, NETWORK + " Swells in the same liquids as oil paint.", "linseed-oil-film-young", ["baij2020"], None),
    "linseed-oil-film-young": ("cross-linked", {"en": ["oil paint", "linseed oil paint", "young oil film"], "de": ["Ölfarbe", "Leinölfilm jung", "Ölfarbenfilm"], "fr": ["peinture à l'huile"], "it": ["pittura a olio"], "es": ["pintura al óleo"]}, "A lightly cross-linked polar network: it swells, softens and loses soluble parts. Pigment matters as much as solvent.", None, ["own-swelling", "phenix2002", "phenix1998"], None),
    "linseed-oil-film-aged": ("cross-linked", {"en": ["aged oil paint", "old oil paint"], "de": ["Ölfarbe gealtert", "Leinölfilm gealtert"], "fr": ["peinture à l'huile vieillie"], "it": ["pittura a olio invecchiata"], "es": ["pintura al óleo envejecida"]}, "Swells less and slower than young film, chiefly on the apolar side, and stays about as sensitive on the polar side.", "linseed-oil-film-young", ["phenix2002"], None),
    "alkyd-long-oil": ("cross-linked", {"en": ["long oil alkyd"], "de": ["Alkydharz langölig"], "fr": ["alkyde longue en huile"], "it": ["alchidica lungo olio"], "es": ["alquídica larga en aceite"]}, UNCURED + " Ranks swelling worse than the short-oil alkyd.", None, ["hansen1971"], None),
    "alkyd-short-oil": ("cross-linked", {"en": ["alkyd", "short oil alkyd"], "de": ["Alkydharz", "Alkydharz kurzölig"], "fr": ["alkyde courte en huile"], "it": ["alchidica corto olio"], "es": ["alquídica corta en aceite"]}, UNCURED + " Best published stand-in by rank of swelling.", None, ["hansen1971"], None),
    "beeswax": ("dissolves", {"de": ["Bienenwachs"], "fr": ["cire d'abeille"], "it": ["cera d'api"], "es": ["cera de abeja"]}, "Crystalline: softens cold, dissolves fully only near its melting point.", None, ["own-wax", "pharmacy"], None),
    "microcrystalline-wax": ("dissolves", {"en": ["micro wax"], "de": ["mikrokristallines Wachs", "Mikrowachs"], "fr": ["cire microcristalline"], "it": ["cera microcristallina"], "es": ["cera microcristalina"]}, "Softens in white spirit and aromatics, dissolves warm.", None, ["own-wax"], None),
    "pvac": ("dissolves", {"en": ["polyvinyl acetate", "PVAc"], "de": ["Polyvinylacetat"], "fr": ["acétate de polyvinyle"], "it": ["polivinilacetato", "acetato di polivinile"], "es": ["acetato de polivinilo"]}, "Holds solvent long: over 4 % toluene after 180 days. " + RIGHT, None, ["hansen1971", "polymer-int2017", "hansen-derrick1991"], None),
    "pnbma": ("dissolves", {"en": ["n-butyl methacrylate resin", "poly n-butyl methacrylate"], "de": ["Poly-n-butylmethacrylat"], "fr": ["poly(méthacrylate de n-butyle)"], "it": ["polibutilmetacrilato"], "es": ["poli(metacrilato de n-butilo)"]}, "Cross-links with light to a rubbery gel and may end insoluble; then it swells and a swab drags it.", None, ["own-sphere", "kay1983", "nistane2022", "horie1987", "orwoll2007", "lomax-fisher1990"], None),
    "pibma": ("dissolves", {"en": ["isobutyl methacrylate resin"], "de": ["Polyisobutylmethacrylat"], "fr": ["poly(méthacrylate d'isobutyle)"], "it": ["poliisobutilmetacrilato"], "es": ["poli(metacrilato de isobutilo)"]}, "Dissolves in hydrocarbons with 11 to 20 % aromatics; cross-links with light like its isomer.", None, ["own-sphere", "samet1998"], None),
    "pmma": ("dissolves", {"en": ["PMMA", "acrylic glass"], "de": ["Polymethylmethacrylat", "Acrylglas"], "fr": ["poly(méthacrylate de méthyle)"], "it": ["polimetilmetacrilato"]}, RIGHT, None, ["hansen1971"], None),
    "pema": ("dissolves", {"en": ["PEMA"], "de": ["Polyethylmethacrylat"], "fr": ["poly(méthacrylate d'éthyle)"], "it": ["polietilmetacrilato"], "es": ["poli(metacrilato de etilo)"]}, RIGHT, None, ["hansen1971"], None),
    "ema-copolymer": ("dissolves", {"en": ["ethyl methacrylate copolymer", "EMA copolymer", "acrylic varnish"], "de": ["Ethylmethacrylat-Copolymer", "Acrylfirnis"], "fr": ["copolymère de méthacrylate d'éthyle"], "it": ["copolimero etilmetacrilato"], "es": ["copolímero de metacrilato de etilo"]}, "Stays soluble with age; needs some aromatics in a hydrocarbon; holds solvent long. " + RIGHT, None, ["hansen1971", "delarie2011"], None),
    "ketone-resin-fresh": ("dissolves", {"en": ["ketone resin", "cyclohexanone resin"], "de": ["Ketonharz", "Cyclohexanonharz"], "fr": ["résine cétonique"], "it": ["resina chetonica"], "es": ["resina cetónica"]}, "Dissolves fresh in white spirit and turpentine.", None, ["own-sphere", "cameo", "delarie1989", "horie1987"], None),
    "ketone-resin-aged": ("dissolves", {"en": ["aged ketone resin"], "de": ["Ketonharz gealtert"], "fr": ["résine cétonique vieillie"], "it": ["resina chetonica invecchiata"], "es": ["resina cetónica envejecida"]}, "Oxidises and follows the natural resins to more polar blends; the step is an assumption. Isooctane-ethanol 1:1 took off a slightly aged film.", None, ["own-sphere", "cameo", "samet1998", "boon1996"], (3, None)),
    "hydrogenated-hydrocarbon-resin": ("dissolves", {"en": ["hydrocarbon resin hydrogenated"], "de": ["hydriertes Kohlenwasserstoffharz"], "fr": ["résine hydrocarbonée hydrogénée"], "it": ["resina idrocarburica idrogenata"], "es": ["resina hidrocarbonada hidrogenada"]}, "Keeps its hydrocarbon solubility when stabilised; needs no aromatics.", None, ["own-sphere", "piena2001", "smith-johnson2008", "delarie2011"], None),
    "petroleum-hydrocarbon-resin": ("dissolves", {"en": ["petroleum resin"], "de": ["Kohlenwasserstoffharz"], "fr": ["résine de pétrole"], "it": ["resina petrolifera"], "es": ["resina de petróleo"]}, "Dissolves in hydrocarbons; not hydrogenated, so it oxidises.", None, ["hansen1971"], None),
    "terpene-resin": ("dissolves", {"en": ["polyterpene resin"], "de": ["Terpenharz"], "fr": ["résine terpénique"], "it": ["resina terpenica"], "es": ["resina terpénica"]}, "Dissolves in hydrocarbons.", None, ["hansen1971"], None),
    "urea-aldehyde-resin": ("dissolves", {"en": ["aldehyde resin", "urea resin"], "de": ["Aldehydharz", "Harnstoff-Aldehydharz"], "fr": ["résine urée-aldéhyde"], "it": ["resina ureica", "resina aldeidica"], "es": ["resina urea-aldehído"]}, "Retouching binder; needs 30 to 40 % aromatics in a hydrocarbon (one grade about 50 %), where this sphere says 50.", None, ["own-sphere", "smith-johnson2008", "arslanoglu2001", "delarie2011"], None),
    "cellulose-nitrate": ("dissolves", {"en": ["nitrocellulose"], "de": ["Cellulosenitrat", "Nitrocellulose"], "fr": ["nitrate de cellulose"], "it": ["nitrato di cellulosa"], "es": ["nitrato de celulosa"]}, RIGHT, None, ["hansen1971"], None),
    "polystyrene": ("dissolves", {"de": ["Polystyrol"], "fr": ["polystyrène"], "it": ["polistirene", "polistirolo"], "es": ["poliestireno"]}, RIGHT, None, ["hansen1971"], None),
    "pvb": ("dissolves", {"en": ["polyvinyl butyral", "PVB"], "de": ["Polyvinylbutyral"], "fr": ["polyvinylbutyral"], "it": ["polivinilbutirrale"], "es": ["polivinil butiral"]}, RIGHT, None, ["hansen1971"], None),
    "polyamide": ("dissolves", {"en": ["polyamide resin"], "de": ["Polyamidharz"], "fr": ["résine polyamide"], "it": ["poliammide"], "es": ["poliamida"]}, RIGHT, None, ["hansen1971"], None),
    "animal-glue": ("dissolves", {"en": ["glue", "hide glue", "egg white", "casein"], "de": ["Tierleim", "Hautleim", "Eiklar", "Kasein"], "fr": ["colle animale", "colle de peau"], "it": ["colla animale"], "es": ["cola animal"]}, "Comes off with water (warm for glue), not with organic solvents; aged protein may only swell.", None, ["common"], None),
    "plant-gum": ("dissolves", {"en": ["gum arabic", "water colour", "gouache"], "de": ["Gummi arabicum", "Aquarell"], "fr": ["gomme arabique"], "it": ["gomma arabica"], "es": ["goma arábiga"]}, "Comes off with water, not with organic solvents.", None, ["common"], None),
}

# Resins that practice does not lay as a new varnish or isolating layer, with the reason (common practice, no publication).
# Those whose published ageing is strong or ends in cross-linking are left out by ageing-states.csv as well.
_ROSIN = "It darkens and becomes brittle with age, so practice no longer lays it as a varnish (common practice)."
_COPAL = ("It yellows, becomes brittle and needs ever stronger liquids, so practice no longer lays it as a varnish (common "
          "practice).")
_UNSATURATED = "Not hydrogenated: it takes up oxygen and yellows, so practice does not choose it as a varnish (common practice)."
NOT_PROPOSED = {
    "colophony": _ROSIN,
    "ester-gum": _ROSIN,
    "shellac-fresh": "Aged, it hardly dissolves any more, and it is coloured from the start, so practice does not lay it on a "
                     "painting as a new varnish (common practice).",
    "sandarac": _COPAL,
    "manila-copal": _COPAL,
    "hard-copal": _COPAL,
    "petroleum-hydrocarbon-resin": _UNSATURATED,
    "terpene-resin": _UNSATURATED,
}

# References of a Teas area beside the construction itself, by id of the area.
AREA_REFS = {
    "teas-dammar-fresh": ["boelsums"], "teas-shellac-fresh": [], "teas-colophony": [], "teas-pvac": [], "teas-pmma": [],
    "teas-ema-copolymer": ["boelsums"], "teas-cellulose-nitrate": [], "teas-polystyrene": [],
    "teas-mastic-fresh": ["merck-index", "mantell1942"],
    "teas-dammar-aged": ["feller-curran1975", "lomax-fisher1990", "soulas2017"],
    "teas-mastic-aged": ["feller-curran1975", "lomax-fisher1990"],
    "teas-oil-film-swelling": ["phenix2002", "michalski1990"], "teas-oil-film-swelling-peak": ["phenix2002"],
    "teas-waxes": ["pharmacy", "torraca1990", "horie1987"],
    "teas-ketone-resin-fresh": ["cameo", "delarie1989", "horie1987", "boelsums"],
    "teas-ketone-resin-aged": ["boon1996"], "teas-pnbma": ["kay1983", "orwoll2007", "horie1987"],
}

# id, name, names, composition in % by volume, sure, references, note
BOTTLES = [
    ("ethanol-96", "ethanol 96 % by volume", {"en": ["rectified spirit", "spirit 96"], "de": ["Weingeist", "Ethanol 96-prozentig"], "fr": ["alcool à 96"], "it": ["alcol 96"], "es": ["alcohol de 96"]}, [("ethanol", 96), ("water", 4)], "memory", ["ph-eur-ethanol", "own-bottle"], "Pharmacopoeia range 95.1 to 96.9 % by volume; water as the remainder, contraction on mixing neglected."),
    ("ethanol-70", "ethanol 70 % by volume", {"de": ["Ethanol 70-prozentig"], "fr": ["alcool à 70"], "it": ["alcol 70"], "es": ["alcohol de 70"]}, [("ethanol", 70), ("water", 30)], "memory", ["ph-eur-ethanol", "own-bottle"], "Water as the remainder, contraction on mixing neglected (about 3 % of the volume)."),
    ("ethanol-denatured-butanone", "ethanol 96 % denatured with 1 % butanone", {"en": ["denatured alcohol"], "de": ["Brennspiritus", "Spiritus", "Ethanol vergällt"]}, [("ethanol", 95), ("water", 4), ("butanone", 1)], "memory", ["de-denaturing", "own-bottle"], "1 L butanone per hectolitre of alcohol; a bittering agent is left out."),
    ("ethanol-absolute-denatured", "absolute ethanol denatured with 1 % butanone", {"de": ["Ethanol absolut vergällt", "Ethanol 99-prozentig vergällt"]}, [("ethanol", 99), ("butanone", 1)], "memory", ["de-denaturing", "own-bottle"], "1 L butanone per hectolitre; the trade grade may hold up to 1 % water, which is left out."),
    ("ethanol-denatured-common", "ethanol 96 % denatured by the common EU procedure", {"fr": ["alcool dénaturé", "alcool à brûler"], "it": ["alcol denaturato"], "es": ["alcohol desnaturalizado"]}, [("ethanol", 94), ("water", 4), ("propan-2-ol", 1), ("butanone", 1)], "memory", ["eu-2016-1867", "own-bottle"], "1 L propan-2-ol and 1 L butanone per hectolitre of absolute ethanol, rounded to whole per cent; member states differ."),
    ("methylated-spirit-industrial", "industrial denatured alcohol with wood naphtha", {"en": ["industrial methylated spirit", "IMS", "industrial denatured alcohol", "IDA", "methylated spirit"]}, [("ethanol", 91.2), ("methanol", 5), ("water", 3.8)], "memory", ["uk-denatured", "own-bottle"], "95 parts of 96 % ethanol and 5 parts of wood naphtha, the wood naphtha counted as methanol, its worst part."),
    ("ethanol-denatured-methanol", "ethanol 95 % denatured with methanol, US formula 3-A", {"en": ["specially denatured alcohol 3-A", "SDA 3-A"]}, [("ethanol", 90.5), ("methanol", 4.7), ("water", 4.8)], "memory", ["cfr-21-37", "own-bottle"], "5 volumes of methanol to 100 of ethanol 95 % by volume (190 proof), worked out to 100 %."),
    ("propan-2-ol-70", "propan-2-ol 70 % by volume", {"en": ["rubbing alcohol", "isopropanol 70 per cent"], "de": ["Isopropanol 70-prozentig"]}, [("propan-2-ol", 70), ("water", 30)], "memory", ["usp-ipa", "own-bottle"], "Pharmacopoeia range 68 to 72 % by volume; water as the remainder."),
    ("acetone-technical", "acetone, technical, with 0.5 % water", {"en": ["technical acetone"], "de": ["Aceton technisch"], "fr": ["acétone technique"], "it": ["acetone tecnico"], "es": ["acetona técnica"]}, [("acetone", 99.5), ("water", 0.5)], "estimate", ["astm-d329", "own-bottle"], "Upper bound of the specification (0.5 % water by mass, from memory), taken as volume: the careful side."),
    ("xylenes-technical", "xylenes, technical, with 20 % ethylbenzene", {"en": ["commercial xylene", "technical xylene"], "de": ["Xylol technisch"], "fr": ["xylène technique"], "it": ["xilene tecnico"], "es": ["xileno técnico"]}, [("xylenes", 80), ("ethylbenzene", 20)], "memory", ["atsdr-xylene"], "Mixed xylene holds up to 20 % ethylbenzene; the upper bound is used because ethylbenzene is the more hazardous part."),
    ("white-spirit-extracted", "white spirit, solvent-extracted, 5 % aromatics", {"en": ["low aromatic white spirit", "white spirit type 2"], "de": ["Testbenzin aromatenarm"]}, [("white-spirit-dearomatised", 95), ("aromatic-naphtha-c9", 5)], "estimate", ["ehc187", "own-bottle"], "Type 2 holds less than 5 % aromatics (from memory); the upper bound, written as a dearomatised cut with C9 aromatics."),
    ("retouching-spirit-40", "dearomatised white spirit with 40 % C9 aromatics", {"en": ["retouching thinner 40"], "de": ["Retuschierbenzin 40"]}, [("white-spirit-dearomatised", 60), ("aromatic-naphtha-c9", 40)], "estimate", ["delarie2011", "own-bottle"], "Urea-aldehyde binders need 30 to 40 % aromatics; a studio blend, not a trade grade."),
]

# Twenty bottles each, without anything restricted, carcinogenic, mutagenic or harmful to reproduction, or set apart.
SHELVES = [
    ("studio", "what a painting studio usually keeps", ["isooctane", "n-heptane", "cyclohexane", "methylcyclohexane", "isododecane", "petroleum-naphtha-100-140", "white-spirit-dearomatised", "white-spirit", "isoparaffin-c9-c12", "turpentine", "xylenes", "acetone", "butanone", "ethyl-acetate", "n-butyl-acetate", "ethanol", "propan-1-ol", "propan-2-ol", "butan-1-ol", "methoxypropanol"], "Common practice: weak hydrocarbons to dilute, alcohols, ketones and esters to act. Left out: CMR of any category, restricted and set-apart liquids. Petroleum cuts only in grades below 0.1 % benzene."),
    ("low-hazard", "a shelf without aromatics, sensitisers and long-term organ damage", ["isooctane", "n-heptane", "n-octane", "n-decane", "cyclohexane", "methylcyclohexane", "isododecane", "white-spirit-dearomatised", "isoparaffin-c9-c12", "petroleum-naphtha-100-140", "acetone", "butanone", "ethyl-acetate", "n-propyl-acetate", "isopropyl-acetate", "n-butyl-acetate", "ethanol", "propan-2-ol", "butan-2-ol", "methoxypropanol"], "As the studio shelf, without H304 aromatics, H317, H318, H370, H372 and H373. Most remain flammable; petroleum cuts only in grades below 0.1 % benzene."),
]

# quantity, sure, value, unit, relative, note. One standard deviation; what each figure rests on.
UNCERTAINTIES = [
    ("hansen", "checked", 0.4, "MPa^0.5", "no", "Rms difference of the checked rows against later or older tables is 0.4 per part, counting rows without disagreement as 0."),
    ("hansen", "memory", 0.7, "MPa^0.5", "no", "Totals agree with two checked sources within 0.1; the split is remembered (gamma-butyrolactone differs by 1.0 in delta_d)."),
    ("hansen", "estimate", 1.0, "MPa^0.5", "no", "Surrogate for a technical mixture: neighbours of the surrogates (n-pentane, n-octane, other terpenes) differ by 0.4 to 1.3 per part."),
    ("teas", "memory", 2, "percent", "no", "28 of 56 remembered rows lie within 1 of 100 delta / sum and 46 within 5; other printed sets differ by 2 to 4 (cyclohexane, propan-2-ol)."),
    ("hildebrand", "checked", 0.1, "MPa^0.5", "no", "Data set and enthalpy of vaporisation agree within 0.1 in most of 55 rows, at worst 0.6 (ethylene glycol)."),
    ("hildebrand", "memory", 0.5, "MPa^0.5", "no", "White spirit, turpentine and D5, remembered; alpha-pinene gives a Hansen total 0.7 above the turpentine value."),
    ("hildebrand", "estimate", 0.2, "MPa^0.5", "no", "From enthalpy of vaporisation and density; 1 kJ/mol in 49 changes it by 0.15."),
    ("molar_volume", "checked", 0.7, "percent", "yes", "Data set and handbook densities agree within 0.7 % at 25 degC; 20 degC densities add up to 0.6 %."),
    ("molar_volume", "memory", 3, "percent", "yes", "1-Methoxypropan-2-ol: 98.1 or 93.7 from two densities (4.6 % apart)."),
    ("molar_volume", "estimate", 5, "percent", "yes", "Petroleum cuts: surrogate against M/density differ by 4 % (naphtha) and the mean molar mass is known to about 5 %."),
    ("molar_mass", "estimate", 5, "percent", "yes", "Mean of a cut, grades differ."),
    ("molar_mass", "memory", 5, "percent", "yes", "Mean of a cut, grades differ."),
    ("density_20c", "checked", 0.002, "g/cm3", "no", "Tables agree within 0.2 % except methoxypropanol."),
    ("density_20c", "memory", 0.015, "g/cm3", "no", "Typical of a grade; grades of a cut spread by 0.03."),
    ("density_20c", "estimate", 0.003, "g/cm3", "no", "Moved to 20 degC with another table's slope, or mean of cis and trans."),
    ("boiling_point", "checked", 0.5, "degC", "no", "Vapour curve and listed point agree within 2 degC in all pure rows but glycerol."),
    ("boiling_point", "memory", 10, "degC", "no", "Middle of a cut 30 to 50 degC wide."),
    ("melting_point", "memory", 0.5, "degC", "no", "Handbooks differ by this much."),
    ("boiling_point", "estimate", 8, "degC", "no", "Middle of a nominal range 20 to 40 degC wide."),
    ("antoine", "checked", 3, "percent", "yes", "Pressure at 10 to 40 degC: independent equations agree within 3 % in all but a few rows, 5 rows between 3 and 10 %."),
    ("antoine", "estimate", 10, "percent", "yes", "Refits follow their curve within 1.1 %, but derived and surrogate curves miss other figures by 20 to 30 %; extrapolated ranges by up to 35 %."),
    ("vapour_pressure", "checked", 3, "percent", "yes", "Independent equations agree within 3 % in all but a few rows."),
    ("vapour_pressure", "estimate", 20, "percent", "yes", "Surrogates and values of the Antoine row itself; NIOSH figures differ by 10 to 59 % in 14 rows."),
    ("enthalpy_vaporisation", "checked", 1, "kJ/mol", "no", "Spread of compiled values at 25 degC."),
    ("enthalpy_vaporisation", "estimate", 3, "kJ/mol", "no", "Slope of the vapour curve, ideal vapour, or a surrogate."),
    ("viscosity", "checked", 5, "percent", "yes", "Spread of correlations at 25 degC."),
    ("viscosity", "memory", 10, "percent", "yes", "Remembered, one source each."),
    ("viscosity", "estimate", 10, "percent", "yes", "Mean of isomers or a surrogate."),
    ("surface_tension", "checked", 0.5, "mN/m", "no", "Spread of correlations at 20 degC."),
    ("surface_tension", "memory", 1, "mN/m", "no", "Partly given at 25 degC, where it is 0.5 lower."),
    ("surface_tension", "estimate", 1, "mN/m", "no", "Extrapolated, mean of isomers, or a surrogate."),
    ("evaporation_rate", "checked", 20, "percent", "yes", "Tables differ: acetone 5.6 or 6.3; a rate is good to 20 % at best."),
    ("evaporation_rate", "memory", 30, "percent", "yes", "Remembered; tables differ by a factor of two for chlorinated solvents."),
    ("flash_point", "checked", 3, "degC", "no", "Closed-cup tables agree within a few degrees; vapour curve against the limit within 12 degC in all but six rows."),
    ("flash_point", "memory", 6, "degC", "no", "Grades of a cut differ; only a bound is printed for some."),
    ("flammable_limit", "checked", 20, "percent", "yes", "Isobutyl acetate 1.3 or 2.4 in two tables; most agree within 10 %."),
    ("flammable_limit", "memory", 25, "percent", "yes", "Remembered."),
    ("autoignition", "checked", 20, "degC", "no", "tert-Butanol 360 or 470 to 480 in two tables; most agree within 20."),
    ("autoignition", "memory", 40, "degC", "no", "Remembered."),
    ("odour_threshold", "checked", 0.5, "log10", "no", "Thresholds scatter by factors of ten."),
    ("odour_threshold", "memory", 0.5, "log10", "no", "Thresholds scatter by factors of ten."),
    ("sphere_centre", "memory", 1.8, "MPa^0.5", "no", "Per part: published PVAc and EMA copolymer spheres against another published value and a refit differ by 2.5 (rms), over root 2."),
    ("sphere_centre", "estimate", 2, "MPa^0.5", "no", "Per part: one of many spheres that fit; about 2 in delta_p and delta_h for aged dammar."),
    ("sphere_r0", "memory", 1.6, "MPa^0.5", "no", "EMA copolymer 10.64 published, 8.4 refitted: 2.2 apart, over root 2."),
    ("sphere_r0", "estimate", 2, "MPa^0.5", "no", "Taken like the centre: a fitted radius and centre trade against each other."),
]

# Liquids that the note of resins.csv sets outside, where polymer-solubility.csv has no rows: hydrocarbons, turpentine, diethyl
# ether, butyl acetate, water, glycols.
_OUTSIDE_AGED = ["isooctane", "n-heptane", "cyclohexane", "white-spirit", "white-spirit-dearomatised", "toluene", "xylenes",
                 "turpentine", "diethyl-ether", "n-butyl-acetate", "water", "ethylene-glycol", "propylene-glycol"]
NON_SOLVENTS = {"dammar-aged": _OUTSIDE_AGED, "mastic-aged": _OUTSIDE_AGED}
