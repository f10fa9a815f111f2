# SPDX-License-Identifier: GPL-3.0-or-later
"""What the reference CSV files lack: families, synonyms, components set apart, regulatory texts.

Names come from general chemical and trade vocabulary; no brand names. A name never belongs to two rows.
"""

AMINE = "amine: acts by chemistry (saponifies, reacts with acids), outside the film model"
ACID = "acid: acts by chemistry (hydrolysis, soaps, pigments), outside the film model"
APROTIC = "dipolar aprotic: swells oil paint strongly and stays long, outside the film model"
POLYOL = "polyol: hardly evaporates and leaves a residue, outside the film model"

# id: (family, {language: names}, reason for being set apart or None)
COMPONENTS = {
    "n-pentane": ("alkane", {"en": ["pentane"], "de": ["n-Pentan", "Pentan"], "it": ["pentano"]}, None),
    "n-hexane": ("alkane", {"en": ["hexane"], "de": ["n-Hexan", "Hexan"], "it": ["esano"], "es": ["hexano"]}, None),
    "n-heptane": ("alkane", {"en": ["heptane"], "de": ["n-Heptan", "Heptan"], "it": ["eptano"], "es": ["heptano"]}, None),
    "n-octane": ("alkane", {"en": ["octane"], "de": ["n-Octan", "Octan", "Oktan"], "it": ["ottano"], "es": ["octano"]}, None),
    "n-decane": ("alkane", {"en": ["decane"], "de": ["n-Decan", "Decan", "Dekan"], "it": ["decano"]}, None),
    "n-dodecane": ("alkane", {"en": ["dodecane"], "de": ["n-Dodecan", "Dodecan", "Dodekan"], "it": ["dodecano"]}, None),
    "isooctane": ("alkane", {"en": ["iso-octane", "2,2,4-TMP"], "de": ["Isooctan", "Isooktan", "2,2,4-Trimethylpentan"], "fr": ["2,2,4-triméthylpentane"], "it": ["isoottano", "2,2,4-trimetilpentano"], "es": ["isooctano"]}, None),
    "isododecane": ("alkane", {"en": ["iso-dodecane"], "de": ["Isododecan", "Isododekan", "2,2,4,6,6-Pentamethylheptan"], "it": ["isododecano"]}, None),
    "cyclohexane": ("cycloalkane", {"en": ["hexahydrobenzene"], "de": ["Cyclohexan", "Zyklohexan"], "it": ["cicloesano"], "es": ["ciclohexano"]}, None),
    "methylcyclohexane": ("cycloalkane", {"de": ["Methylcyclohexan"], "fr": ["méthylcyclohexane"], "it": ["metilcicloesano"], "es": ["metilciclohexano"]}, None),
    "decalin": ("cycloalkane", {"en": ["decahydronaphthalene"], "de": ["Decahydronaphthalin", "Dekalin"], "fr": ["décaline", "décahydronaphtalène"], "it": ["decalina"], "es": ["decahidronaftaleno"]}, None),
    "petroleum-ether-40-60": ("petroleum-cut", {"en": ["petroleum ether", "petroleum spirit 40-60"], "de": ["Petrolether", "Petroläther", "Petrolether 40-60"], "fr": ["éther de pétrole"], "it": ["etere di petrolio"], "es": ["éter de petróleo"]}, None),
    "petroleum-naphtha-100-140": ("petroleum-cut", {"en": ["ligroin", "petroleum benzine", "VM&P naphtha", "light naphtha 100-140"], "de": ["Siedegrenzenbenzin 100-140", "Siedegrenzenbenzin", "Petroleumbenzin", "Ligroin 100-140"], "fr": ["ligroïne", "essence 100-140"], "it": ["ligroina", "benzina 100-140"], "es": ["ligroína"]}, None),
    "white-spirit": ("petroleum-cut", {"en": ["white spirit", "Stoddard solvent", "mineral spirits", "aromatic white spirit"], "de": ["Testbenzin", "Terpentinersatz", "Lackbenzin"], "fr": ["essence minérale"], "it": ["acqua ragia minerale", "acquaragia minerale"], "es": ["aguarrás mineral", "trementina mineral"]}, None),
    "white-spirit-dearomatised": ("petroleum-cut", {"en": ["dearomatised white spirit", "dearomatized white spirit", "odourless mineral spirits", "odorless mineral spirits", "hydrotreated heavy naphtha"], "de": ["Testbenzin entaromatisiert", "entaromatisiertes Testbenzin", "aromatenfreies Testbenzin"], "fr": ["white spirit désaromatisé"], "it": ["white spirit dearomatizzato"], "es": ["white spirit desaromatizado"]}, None),
    "isoparaffin-c9-c12": ("petroleum-cut", {"en": ["isoparaffin", "isoparaffinic hydrocarbon"], "de": ["Isoparaffin C9-C12", "Isoparaffine"], "fr": ["isoparaffine"], "it": ["isoparaffina"], "es": ["isoparafina"]}, None),
    "octamethylcyclotetrasiloxane": ("siloxane", {"en": ["D4", "cyclotetrasiloxane"], "de": ["Octamethylcyclotetrasiloxan"], "fr": ["octaméthylcyclotétrasiloxane"], "it": ["ottametilciclotetrasilossano"], "es": ["octametilciclotetrasiloxano"]}, None),
    "decamethylcyclopentasiloxane": ("siloxane", {"en": ["D5", "cyclopentasiloxane", "cyclomethicone D5"], "de": ["Decamethylcyclopentasiloxan"], "fr": ["décaméthylcyclopentasiloxane"], "it": ["decametilciclopentasilossano"], "es": ["decametilciclopentasiloxano"]}, None),
    "benzene": ("aromatic", {"en": ["benzol"], "de": ["Benzen"], "fr": ["benzène"], "es": ["benceno"]}, None),
    "toluene": ("aromatic", {"en": ["methylbenzene", "toluol"], "de": ["Toluol", "Methylbenzol", "Toluen"], "fr": ["toluène"], "it": ["toluolo"], "es": ["tolueno"]}, None),
    "xylenes": ("aromatic", {"en": ["xylene", "xylol", "mixed xylenes", "dimethylbenzene"], "de": ["Xylen", "Dimethylbenzol"], "fr": ["xylène", "xylènes"], "it": ["xilene", "xilolo"], "es": ["xileno"]}, None),
    "ethylbenzene": ("aromatic", {"de": ["Ethylbenzol", "Äthylbenzol"], "fr": ["éthylbenzène"], "it": ["etilbenzene"], "es": ["etilbenceno"]}, None),
    "trimethylbenzene-124": ("aromatic", {"en": ["pseudocumene", "trimethylbenzene"], "de": ["1,2,4-Trimethylbenzol", "Pseudocumol"], "fr": ["1,2,4-triméthylbenzène"], "it": ["1,2,4-trimetilbenzene"], "es": ["1,2,4-trimetilbenceno"]}, None),
    "aromatic-naphtha-c9": ("petroleum-cut", {"en": ["solvent naphtha", "aromatic naphtha", "C9 aromatics", "light aromatic solvent naphtha"], "de": ["Solventnaphtha", "Solvent Naphtha leicht"], "fr": ["solvant naphta aromatique"], "it": ["solvente nafta aromatica"], "es": ["nafta disolvente aromática"]}, None),
    "tetralin": ("aromatic", {"en": ["tetrahydronaphthalene"], "de": ["Tetrahydronaphthalin", "1,2,3,4-Tetrahydronaphthalin"], "fr": ["tétraline"], "it": ["tetralina"], "es": ["tetrahidronaftaleno"]}, None),
    "d-limonene": ("terpene", {"en": ["limonene", "dipentene", "orange terpene"], "de": ["Limonen", "D-Limonen", "Dipenten", "Orangenterpen"], "fr": ["limonène", "dipentène"], "es": ["limoneno"]}, None),
    "turpentine": ("terpene", {"en": ["oil of turpentine", "gum turpentine", "gum spirits", "spirits of turpentine"], "de": ["Terpentinöl", "Balsamterpentinöl"], "fr": ["essence de térébenthine"], "it": ["essenza di trementina", "acqua ragia vegetale"], "es": ["esencia de trementina", "aguarrás vegetal"]}, None),
    "dichloromethane": ("chlorinated", {"en": ["methylene chloride", "DCM"], "de": ["Dichlormethan", "Methylenchlorid"], "fr": ["dichlorométhane", "chlorure de méthylène"], "it": ["diclorometano", "cloruro di metilene"], "es": ["cloruro de metileno"]}, None),
    "chloroform": ("chlorinated", {"en": ["trichloromethane"], "de": ["Trichlormethan"], "fr": ["chloroforme", "trichlorométhane"], "it": ["cloroformio", "triclorometano"], "es": ["cloroformo"]}, None),
    "trichloroethane-111": ("chlorinated", {"en": ["methylchloroform", "methyl chloroform"], "de": ["1,1,1-Trichlorethan"], "fr": ["1,1,1-trichloroéthane"], "it": ["1,1,1-tricloroetano"]}, None),
    "trichloroethylene": ("chlorinated", {"en": ["trichloroethene", "TCE"], "de": ["Trichlorethylen", "Trichlorethen"], "fr": ["trichloroéthylène"], "it": ["tricloroetilene", "trielina"], "es": ["tricloroetileno"]}, None),
    "tetrachloroethylene": ("chlorinated", {"en": ["perchloroethylene", "tetrachloroethene", "PCE"], "de": ["Tetrachlorethylen", "Tetrachlorethen", "Perchlorethylen"], "fr": ["tétrachloroéthylène", "perchloroéthylène"], "it": ["tetracloroetilene", "percloroetilene"], "es": ["percloroetileno"]}, None),
    "acetone": ("ketone", {"en": ["propanone", "dimethyl ketone", "propan-2-one"], "de": ["Aceton", "Azeton", "Propanon"], "fr": ["acétone"], "es": ["acetona"]}, None),
    "butanone": ("ketone", {"en": ["butan-2-one", "methyl ethyl ketone", "MEK", "2-butanone"], "de": ["Butan-2-on", "Butanon", "Methylethylketon", "Ethylmethylketon"], "fr": ["méthyléthylcétone"], "it": ["metiletilchetone"], "es": ["metiletilcetona", "butanona"]}, None),
    "methyl-isobutyl-ketone": ("ketone", {"en": ["MIBK", "isobutyl methyl ketone", "methyl isobutyl ketone"], "de": ["Methylisobutylketon", "4-Methylpentan-2-on"], "fr": ["méthylisobutylcétone"], "it": ["metilisobutilchetone"], "es": ["metilisobutilcetona"]}, None),
    "pentan-3-one": ("ketone", {"en": ["diethyl ketone", "3-pentanone", "DEK"], "de": ["Diethylketon", "Pentan-3-on"], "fr": ["diéthylcétone"], "it": ["dietilchetone"], "es": ["dietilcetona"]}, None),
    "cyclohexanone": ("ketone", {"de": ["Cyclohexanon", "Zyklohexanon"], "it": ["cicloesanone"], "es": ["ciclohexanona"]}, "strong and slow: among the liquids that swell oil paint most and leaves it late, outside the film model"),
    "diacetone-alcohol": ("ketone", {"en": ["diacetone alcohol", "DAA"], "de": ["Diacetonalkohol", "4-Hydroxy-4-methylpentan-2-on"], "fr": ["diacétone alcool", "diacétone-alcool"], "it": ["diacetonalcol", "diacetonalcool"], "es": ["diacetona alcohol"]}, None),
    "methyl-acetate": ("ester", {"de": ["Methylacetat", "Essigsäuremethylester"], "fr": ["acétate de méthyle"], "it": ["acetato di metile"], "es": ["acetato de metilo"]}, None),
    "ethyl-acetate": ("ester", {"en": ["acetic ester"], "de": ["Ethylacetat", "Äthylacetat", "Essigester", "Essigsäureethylester"], "fr": ["acétate d'éthyle"], "it": ["acetato di etile", "etilacetato"], "es": ["acetato de etilo"]}, None),
    "n-propyl-acetate": ("ester", {"en": ["propyl acetate"], "de": ["n-Propylacetat", "Propylacetat"], "fr": ["acétate de n-propyle"], "it": ["acetato di n-propile"], "es": ["acetato de n-propilo"]}, None),
    "isopropyl-acetate": ("ester", {"de": ["Isopropylacetat"], "fr": ["acétate d'isopropyle"], "it": ["acetato di isopropile"], "es": ["acetato de isopropilo"]}, None),
    "n-butyl-acetate": ("ester", {"en": ["butyl acetate"], "de": ["n-Butylacetat", "Butylacetat"], "fr": ["acétate de n-butyle", "acétate de butyle"], "it": ["acetato di n-butile", "acetato di butile"], "es": ["acetato de n-butilo", "acetato de butilo"]}, None),
    "isobutyl-acetate": ("ester", {"de": ["Isobutylacetat"], "fr": ["acétate d'isobutyle"], "it": ["acetato di isobutile"], "es": ["acetato de isobutilo"]}, None),
    "n-pentyl-acetate": ("ester", {"en": ["amyl acetate", "n-amyl acetate", "pentyl acetate"], "de": ["n-Pentylacetat", "Amylacetat"], "fr": ["acétate d'amyle", "acétate de pentyle"], "it": ["acetato di amile"], "es": ["acetato de amilo"]}, None),
    "ethyl-lactate": ("ester", {"de": ["Ethyllactat", "Milchsäureethylester"], "fr": ["lactate d'éthyle"], "it": ["lattato di etile"], "es": ["lactato de etilo"]}, None),
    "dimethyl-carbonate": ("carbonate", {"en": ["DMC"], "de": ["Dimethylcarbonat"], "fr": ["carbonate de diméthyle"], "it": ["dimetilcarbonato"], "es": ["carbonato de dimetilo"]}, None),
    "diethyl-carbonate": ("carbonate", {"en": ["DEC"], "de": ["Diethylcarbonat"], "fr": ["carbonate de diéthyle"], "it": ["dietilcarbonato"], "es": ["carbonato de dietilo"]}, None),
    "propylene-carbonate": ("carbonate", {"en": ["4-methyl-1,3-dioxolan-2-one"], "de": ["Propylencarbonat"], "fr": ["carbonate de propylène"], "it": ["carbonato di propilene"], "es": ["carbonato de propileno"]}, APROTIC),
    "gamma-butyrolactone": ("lactone", {"en": ["GBL", "butyrolactone"], "de": ["gamma-Butyrolacton"], "it": ["gamma-butirrolattone"], "es": ["gamma-butirolactona"]}, APROTIC),
    "pgmea": ("glycol-ether-ester", {"en": ["PMA", "propylene glycol methyl ether acetate", "methoxypropyl acetate"], "de": ["Methoxypropylacetat", "1-Methoxy-2-propylacetat"], "fr": ["acétate de méthoxypropyle"], "it": ["acetato di metossipropile"], "es": ["acetato de metoxipropilo"]}, None),
    "methanol": ("alcohol", {"en": ["methyl alcohol"], "de": ["Methylalkohol"], "fr": ["méthanol", "alcool méthylique"], "it": ["metanolo"], "es": ["metanol"]}, None),
    "ethanol": ("alcohol", {"en": ["ethyl alcohol", "alcohol", "absolute ethanol", "absolute alcohol"], "de": ["Ethylalkohol", "Äthanol", "Alkohol"], "fr": ["éthanol", "alcool éthylique"], "it": ["etanolo", "alcol etilico"], "es": ["etanol", "alcohol etílico"]}, None),
    "propan-1-ol": ("alcohol", {"en": ["n-propanol", "1-propanol", "propyl alcohol", "NPA"], "de": ["n-Propylalkohol"], "fr": ["alcool propylique"], "it": ["n-propanolo", "alcol n-propilico"]}, None),
    "propan-2-ol": ("alcohol", {"en": ["isopropanol", "isopropyl alcohol", "IPA", "2-propanol"], "de": ["Isopropylalkohol", "iso-Propanol"], "fr": ["alcool isopropylique"], "it": ["isopropanolo", "alcol isopropilico", "alcool isopropilico"], "es": ["alcohol isopropílico"]}, None),
    "butan-1-ol": ("alcohol", {"en": ["n-butanol", "1-butanol", "butyl alcohol", "butanol"], "de": ["n-Butylalkohol"], "fr": ["alcool butylique"], "it": ["n-butanolo", "butanolo"], "es": ["alcohol butílico"]}, None),
    "butan-2-ol": ("alcohol", {"en": ["sec-butanol", "2-butanol", "sec-butyl alcohol"], "de": ["sek-Butanol", "sec-Butylalkohol"], "it": ["sec-butanolo"]}, None),
    "isobutanol": ("alcohol", {"en": ["isobutyl alcohol", "iso-butanol"], "de": ["Isobutylalkohol"], "fr": ["alcool isobutylique"], "it": ["isobutanolo"], "es": ["alcohol isobutílico"]}, None),
    "tert-butanol": ("alcohol", {"en": ["tert-butyl alcohol", "t-butanol"], "de": ["tert-Butylalkohol"], "fr": ["alcool tert-butylique"], "it": ["terz-butanolo"], "es": ["terc-butanol"]}, None),
    "cyclohexanol": ("alcohol", {"de": ["Zyklohexanol", "Hexalin"], "it": ["cicloesanolo"], "es": ["ciclohexanol"]}, None),
    "benzyl-alcohol": ("alcohol", {"en": ["phenylmethanol"], "de": ["Benzylalkohol"], "fr": ["alcool benzylique"], "it": ["alcol benzilico", "alcool benzilico"], "es": ["alcohol bencílico"]}, "strong and slow: swells and leaches oil paint and leaves it late, outside the film model"),
    "ethylene-glycol": ("glycol", {"en": ["glycol", "MEG"], "de": ["Ethylenglykol", "Glykol", "Ethan-1,2-diol"], "fr": ["éthylène glycol", "éthylèneglycol"], "it": ["glicole etilenico"], "es": ["etilenglicol"]}, POLYOL),
    "propylene-glycol": ("glycol", {"en": ["1,2-propanediol", "MPG"], "de": ["Propylenglykol", "1,2-Propandiol", "Propan-1,2-diol"], "fr": ["propylène glycol"], "it": ["glicole propilenico"], "es": ["propilenglicol"]}, POLYOL),
    "glycerol": ("glycol", {"en": ["glycerine", "glycerin", "propane-1,2,3-triol"], "de": ["Glyzerin"], "fr": ["glycérol", "glycérine"], "it": ["glicerina", "glicerolo"]}, POLYOL),
    "methoxypropanol": ("glycol-ether", {"en": ["1-methoxy-2-propanol", "propylene glycol monomethyl ether", "PGME", "PM"], "de": ["Propylenglykolmonomethylether"], "fr": ["méthoxypropanol", "1-méthoxypropan-2-ol"], "it": ["metossipropanolo"], "es": ["metoxipropanol"]}, None),
    "ethoxypropanol": ("glycol-ether", {"en": ["1-ethoxy-2-propanol", "propylene glycol monoethyl ether", "PGEE"], "de": ["Propylenglykolmonoethylether"], "fr": ["éthoxypropanol", "1-éthoxypropan-2-ol"], "it": ["etossipropanolo"], "es": ["etoxipropanol"]}, None),
    "methoxyethanol": ("glycol-ether", {"en": ["ethylene glycol monomethyl ether", "EGME"], "de": ["Methylglykol", "Ethylenglykolmonomethylether"], "fr": ["méthoxyéthanol", "2-méthoxyéthanol"], "it": ["metossietanolo"], "es": ["metoxietanol"]}, None),
    "ethoxyethanol": ("glycol-ether", {"en": ["ethylene glycol monoethyl ether", "EGEE"], "de": ["Ethylglykol", "Ethylenglykolmonoethylether"], "fr": ["éthoxyéthanol", "2-éthoxyéthanol"], "it": ["etossietanolo"], "es": ["etoxietanol"]}, None),
    "butoxyethanol": ("glycol-ether", {"en": ["ethylene glycol monobutyl ether", "EGBE"], "de": ["Butylglykol", "Ethylenglykolmonobutylether"], "fr": ["butoxyéthanol", "2-butoxyéthanol"], "it": ["butossietanolo"], "es": ["butoxietanol"]}, None),
    "dipropylene-glycol-methyl-ether": ("glycol-ether", {"en": ["DPM", "dipropylene glycol methyl ether"], "de": ["Dipropylenglykolmonomethylether"], "fr": ["éther méthylique du dipropylène glycol"], "it": ["dipropilenglicole monometiletere"], "es": ["dipropilenglicol metil éter"]}, None),
    "diethyl-ether": ("ether", {"en": ["ether", "ethyl ether", "ethoxyethane"], "de": ["Diethylether", "Äther", "Diäthyläther"], "fr": ["éther diéthylique", "éther éthylique"], "it": ["etere dietilico", "etere etilico"], "es": ["éter dietílico"]}, None),
    "tert-butyl-methyl-ether": ("ether", {"en": ["MTBE", "methyl tert-butyl ether"], "de": ["tert-Butylmethylether", "Methyl-tert-butylether"], "fr": ["éther méthyl-tert-butylique"], "it": ["metil-terz-butiletere"], "es": ["metil terc-butil éter"]}, None),
    "dimethoxymethane": ("ether", {"en": ["methylal", "formal", "formaldehyde dimethyl acetal"], "de": ["Dimethoxymethan"], "fr": ["diméthoxyméthane"], "it": ["dimetossimetano"], "es": ["dimetoximetano"]}, None),
    "tetrahydrofuran": ("ether", {"en": ["THF", "oxolane"], "fr": ["tétrahydrofurane"], "it": ["tetraidrofurano"], "es": ["tetrahidrofurano"]}, None),
    "methyltetrahydrofuran-2": ("ether", {"en": ["2-MeTHF", "MeTHF"], "fr": ["2-méthyltétrahydrofurane"], "it": ["2-metiltetraidrofurano"], "es": ["2-metiltetrahidrofurano"]}, None),
    "dioxane-14": ("ether", {"en": ["dioxane"], "de": ["1,4-Dioxan", "Dioxan"], "fr": ["dioxanne"], "it": ["diossano", "1,4-diossano"], "es": ["dioxano"]}, None),
    "dioxolane-13": ("ether", {"en": ["dioxolane"], "de": ["1,3-Dioxolan", "Dioxolan"], "it": ["1,3-diossolano"], "es": ["1,3-dioxolano"]}, None),
    "acetonitrile": ("nitrile", {"en": ["methyl cyanide", "ethanenitrile"], "de": ["Acetonitril"], "fr": ["acétonitrile"], "es": ["acetonitrilo"]}, "dipolar aprotic: penetrates and is outside the film model"),
    "dimethylformamide": ("amide", {"en": ["DMF"], "de": ["Dimethylformamid", "N,N-Dimethylformamid"], "fr": ["diméthylformamide"], "it": ["dimetilformammide"], "es": ["dimetilformamida"]}, APROTIC),
    "dimethylacetamide": ("amide", {"en": ["DMAc", "DMA"], "de": ["Dimethylacetamid", "N,N-Dimethylacetamid"], "fr": ["diméthylacétamide"], "it": ["dimetilacetammide"], "es": ["dimetilacetamida"]}, APROTIC),
    "n-methylpyrrolidone": ("amide", {"en": ["NMP", "1-methyl-2-pyrrolidone", "N-methylpyrrolidone"], "de": ["N-Methylpyrrolidon", "N-Methyl-2-pyrrolidon"], "fr": ["N-méthylpyrrolidone"], "it": ["N-metilpirrolidone"], "es": ["N-metilpirrolidona"]}, APROTIC),
    "dimethyl-sulfoxide": ("sulfoxide", {"en": ["DMSO", "dimethyl sulphoxide"], "de": ["Dimethylsulfoxid"], "fr": ["diméthylsulfoxyde"], "it": ["dimetilsolfossido"], "es": ["dimetilsulfóxido"]}, APROTIC),
    "pyridine": ("amine", {"en": ["azine"], "de": ["Pyridin"], "it": ["piridina"]}, "amine and dipolar aprotic: acts by chemistry too, swells oil paint strongly, outside the film model"),
    "n-butylamine": ("amine", {"en": ["butylamine", "butan-1-amine"], "de": ["n-Butylamin", "Butylamin"], "it": ["butilammina"], "es": ["butilamina"]}, AMINE),
    "morpholine": ("amine", {"en": ["tetrahydro-1,4-oxazine"], "de": ["Morpholin"], "it": ["morfolina"]}, AMINE),
    "formic-acid": ("acid", {"en": ["methanoic acid"], "de": ["Ameisensäure"], "fr": ["acide formique"], "it": ["acido formico"], "es": ["ácido fórmico"]}, ACID),
    "acetic-acid": ("acid", {"en": ["ethanoic acid", "glacial acetic acid"], "de": ["Essigsäure", "Eisessig"], "fr": ["acide acétique"], "it": ["acido acetico"], "es": ["ácido acético"]}, ACID),
    "water": ("water", {"en": ["deionised water", "deionized water", "aqua"], "de": ["Wasser"], "fr": ["eau"], "it": ["acqua"], "es": ["agua"]}, None),
}

# Which of several grades that go by the name is meant: said wherever the liquid is used.
GRADES = {  # 17 to 20 %: as in the removal of aged resins (ageing.yaml)
    "white-spirit": "Taken as the grade with 17 to 20 % aromatics. What else is sold as white spirit, from dearomatised grades to more aromatic ones, acts, harms and is limited otherwise: read what your own bottle holds.",
}

# Disagreements of the sources that the CSV notes do not already carry.
CONFLICTS = {
    "gamma-butyrolactone": ["Published group assignment is the open-chain ester: wrong with alkanes and with water"],
    "white-spirit": ["Molar volume: the handbook's 125 cm3/mol (memory) is far below M/density, about 192; the latter is used"],
    "tert-butanol": ["Autoignition 360 degC used; 470 to 480 in other tables"],
    "dichloromethane": ["Evaporation rate 14.5 used; 27.5 in other tables"],
    "trichloroethane-111": ["Evaporation rate 6.0 used; 12.8 in other tables"],
    "isobutyl-acetate": ["Lower flammable limit 1.3 used; 2.4 in NFPA 497"],
    "dimethoxymethane": ["Group model (acetal carbon as CH2) is wrong for miscibility with water"],
    "pyridine": ["Group parameters pyridine with ring CH2: the 2016 values fail at 25 degC (ln gamma -197 for cyclohexane), those of 2006 are used"],
    "methoxypropanol": ["Density 0.962 of one source is doubtful: 0.919 gives the molar volume 98.1 used here, 0.962 would give 93.7"],
}

# What is banned, restricted or tied to a licence somewhere: (text, references). Left out of the shelves.
PUBLIC = "CMR category 1: not for supply to the general public in the EU (REACH Annex XVII entries 28 to 30, from memory)."
REGULATORY = {
    "octamethylcyclotetrasiloxane": ("EU: since 6 June 2026 not placed on the market from 0.1 %, alone or in mixtures (REACH Annex XVII entry 70, read); an exception for art restoration is believed to exist, not confirmed.", ["reach70"]),
    "decamethylcyclopentasiloxane": ("EU: since 6 June 2026 not placed on the market from 0.1 %, alone or in mixtures (REACH Annex XVII entry 70, read); an exception for art restoration is believed to exist, not confirmed.", ["reach70"]),
    "benzene": ("EU: binding limit 0.2 ppm since 5 April 2026 (read); restricted by REACH Annex XVII entry 5 (from memory). " + PUBLIC, ["reach-cmr"]),
    "dichloromethane": ("US: EPA rule 40 CFR 751 (May 2024) bans many uses, with limits far below OSHA's. EU and UK: paint and varnish strippers restricted (REACH Annex XVII entry 59). Courts and EPA may change dates: check before use.", ["reach59", "epa-dcm"]),
    "trichloroethane-111": ("Depletes the ozone layer; production ended under the Montreal Protocol (from memory).", ["montreal"]),
    "trichloroethylene": ("US: EPA rule 40 CFR 751 (December 2024) ends each use in steps, with an interim limit until then. EU: only with authorisation (REACH Annex XIV, from memory). " + PUBLIC, ["reach14", "reach-cmr", "epa-tce-pce"]),
    "tetrachloroethylene": ("US: EPA rule 40 CFR 751 (December 2024) bans many uses, with a limit far below OSHA's. Courts and EPA may change dates: check before use.", ["epa-tce-pce"]),
    "gamma-butyrolactone": ("Turns into a sedative drug in the body; supply is controlled in several countries (from memory).", ["common"]),
    "methoxyethanol": (PUBLIC, ["reach-cmr"]),
    "ethoxyethanol": (PUBLIC, ["reach-cmr"]),
    "dioxane-14": ("EU: a binding limit of 2 ppm, short term 20 ppm, was proposed on 18 July 2025 and provisionally agreed in June 2026; final text not seen, so the rows still show 20 ppm. " + PUBLIC, ["reach-cmr", "eu-2009-161"]),
    "dimethylformamide": ("EU: restricted (REACH Annex XVII entry 76, read: worker DNEL 6 mg/m3 and 1.1 mg/kg/day). " + PUBLIC, ["reach76", "reach-cmr"]),
    "dimethylacetamide": (PUBLIC, ["reach-cmr"]),
    "n-methylpyrrolidone": ("EU: restricted (REACH Annex XVII entry 71, its existence was checked). " + PUBLIC, ["reach71", "reach-cmr"]),
}

# Limits that hydrocarbons without a row of their own take from their class: the guidance values of EH40/2005 (paragraphs 86
# to 89, read; no legal status) and the group limits of TRGS 900 no. 2.9 (from memory). A notation that begins with "group"
# marks them. (component, authority, mg/m3, notations, year, sure, references, note)
ALKANES_FROM_C7 = ["group value alkanes from C7", "guidance without legal status"]
CYCLOALKANES_FROM_C7 = ["group value cycloalkanes from C7", "guidance without legal status"]
SPLIT_UNKNOWN = "alkanes 1200, cycloalkanes 800: the split of the cut is not known, so the lower value stands"
GROUP_LIMITS = [
    ("n-octane", "uk", "1200", ALKANES_FROM_C7, "2020", "checked", ["eh40"], None),
    ("n-decane", "uk", "1200", ALKANES_FROM_C7, "2020", "checked", ["eh40"], None),
    ("n-dodecane", "uk", "1200", ALKANES_FROM_C7, "2020", "checked", ["eh40"], None),
    ("isooctane", "uk", "1200", ALKANES_FROM_C7, "2020", "checked", ["eh40"], None),
    ("isooctane", "de", "700", ["group limit C6-C8 aliphatics", "excursion 2(II)"], "2018", "memory", ["trgs900-groups"], None),
    ("isododecane", "uk", "1200", ALKANES_FROM_C7, "2020", "checked", ["eh40"], None),
    ("methylcyclohexane", "uk", "800", CYCLOALKANES_FROM_C7, "2020", "checked", ["eh40"], None),
    ("decalin", "uk", "800", CYCLOALKANES_FROM_C7, "2020", "checked", ["eh40"], None),
    ("petroleum-ether-40-60", "uk", "1800", ["group value alkanes C5-C6", "guidance without legal status"], "2020", "checked", ["eh40"],
     "cycloalkanes C5-C6 have the same value"),
    ("petroleum-naphtha-100-140", "uk", "800", CYCLOALKANES_FROM_C7, "2020", "estimate", ["eh40", "own-cut-limit"], SPLIT_UNKNOWN),
    ("white-spirit", "uk", "800", ["group value by the reciprocal procedure", "guidance without legal status"], "2020", "estimate",
     ["eh40", "own-cut-limit"],
     "20 % aromatics (500) and 80 % cycloalkanes (800) or 52 % alkanes (1200), 27 % cycloalkanes and 21 % aromatics: both round to 800"),
    ("white-spirit", "de", "150", ["group limit by the reciprocal procedure", "excursion 2(II)"], "2018", "estimate",
     ["trgs900-groups", "own-cut-limit"], "17 to 20 % C9-C14 aromatics (50), rest C9-C14 aliphatics (300): 162 to 150, rounded to 150"),
    ("white-spirit-dearomatised", "uk", "800", CYCLOALKANES_FROM_C7, "2020", "estimate", ["eh40", "own-cut-limit"], SPLIT_UNKNOWN),
    ("isoparaffin-c9-c12", "uk", "1200", ALKANES_FROM_C7, "2020", "checked", ["eh40"], None),
    ("aromatic-naphtha-c9", "uk", "125", ["group value trimethylbenzenes"], "2020", "estimate", ["eh40", "own-cut-limit"],
     "aromatics have 500, but trimethylbenzenes stand outside the groups with 125 of their own and are the larger part of this cut"),
]

# Melting points of the liquids that may be solid in a cold studio (above 5 degC), degC, from memory: CRC Handbook of Chemistry
# and Physics. Not glycerol (18.2), which hardly ever crystallises.
MELTING_POINTS = {
    "cyclohexane": "6.6", "benzene": "5.5", "octamethylcyclotetrasiloxane": "17.5", "tert-butanol": "25.7",
    "cyclohexanol": "25.9", "dioxane-14": "11.8", "dimethyl-sulfoxide": "18.5",
    "formic-acid": "8.3", "acetic-acid": "16.6",
}

# Wording of the statements, from memory of Reg. (EC) 1272/2008 Annexes III and IV. Where Annex IV lets the supplier choose
# between words joined by slashes, those that fit liquids used by hand.
STATEMENTS = {
    "H224": "Extremely flammable liquid and vapour.", "H225": "Highly flammable liquid and vapour.",
    "H226": "Flammable liquid and vapour.", "H290": "May be corrosive to metals.",
    "H301": "Toxic if swallowed.", "H302": "Harmful if swallowed.",
    "H304": "May be fatal if swallowed and enters airways.", "H311": "Toxic in contact with skin.",
    "H312": "Harmful in contact with skin.", "H314": "Causes severe skin burns and eye damage.",
    "H315": "Causes skin irritation.", "H317": "May cause an allergic skin reaction.",
    "H318": "Causes serious eye damage.", "H319": "Causes serious eye irritation.",
    "H331": "Toxic if inhaled.", "H332": "Harmful if inhaled.",
    "H335": "May cause respiratory irritation.", "H336": "May cause drowsiness or dizziness.",
    "H340": "May cause genetic defects.", "H341": "Suspected of causing genetic defects.",
    "H350": "May cause cancer.", "H351": "Suspected of causing cancer.",
    "H360D": "May damage the unborn child.", "H360FD": "May damage fertility. May damage the unborn child.",
    "H361": "Suspected of damaging fertility or the unborn child.",
    "H361d": "Suspected of damaging the unborn child.", "H361f": "Suspected of damaging fertility.",
    "H370": "Causes damage to organs.",
    "H372": "Causes damage to organs through prolonged or repeated exposure.",
    "H373": "May cause damage to organs through prolonged or repeated exposure.",
    "H400": "Very toxic to aquatic life.", "H410": "Very toxic to aquatic life with long lasting effects.",
    "H411": "Toxic to aquatic life with long lasting effects.",
    "H412": "Harmful to aquatic life with long lasting effects.",
    "H413": "May cause long lasting harmful effects to aquatic life.",
    "H420": "Harms public health and the environment by destroying ozone in the upper atmosphere.",
    "EUH019": "May form explosive peroxides.",
    "EUH066": "Repeated exposure may cause skin dryness or cracking.",
    "EUH071": "Corrosive to the respiratory tract.",
    "P201": "Obtain special instructions before use.",
    "P202": "Do not handle until all safety precautions have been read and understood.",
    "P210": "Keep away from heat, hot surfaces, sparks, open flames and other ignition sources. No smoking.",
    "P233": "Keep container tightly closed.",
    "P260": "Do not breathe vapours/spray.",
    "P261": "Avoid breathing vapours/spray.",
    "P264": "Wash hands thoroughly after handling.",
    "P270": "Do not eat, drink or smoke when using this product.",
    "P271": "Use only outdoors or in a well-ventilated area.",
    "P273": "Avoid release to the environment.",
    "P280": "Wear protective gloves/eye protection.",
    "P301+P310": "IF SWALLOWED: Immediately call a POISON CENTER/doctor.",
    "P303+P361+P353": "IF ON SKIN (or hair): Take off immediately all contaminated clothing. Rinse skin with water or shower.",
    "P304+P340": "IF INHALED: Remove person to fresh air and keep comfortable for breathing.",
    "P305+P351+P338": "IF IN EYES: Rinse cautiously with water for several minutes. Remove contact lenses, if present and easy to do. Continue rinsing.",
    "P308+P313": "IF exposed or concerned: Get medical advice/attention.",
    "P331": "Do NOT induce vomiting.",
    "P370+P378": "In case of fire: Use dry sand, dry chemical or alcohol-resistant foam to extinguish.",
    "P391": "Collect spillage.",
    "P403+P233": "Store in a well-ventilated place. Keep container tightly closed.",
    "P403+P235": "Store in a well-ventilated place. Keep cool.",
    "P405": "Store locked up.",
    "P501": "Dispose of contents/container in accordance with local rules for hazardous waste.",
}
