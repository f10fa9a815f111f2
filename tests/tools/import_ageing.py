# SPDX-License-Identifier: GPL-3.0-or-later
"""What becomes of a layer: states after ageing, shares from which a carrier lifts it, blends that took it off, carrier
that it keeps. Each source text of the four reference files, mapped to references and sureness."""

# source text -> (sure, references)
SOURCE = {
    "Feller & Curran 1975 as cited in Lomax & Fisher 1990": ("checked", ["feller-curran1975", "lomax-fisher1990"]),
    "Feller & Curran 1975 as cited in Lomax & Fisher 1990; Dietemann et al. 2001, Chimia 55:972, abstract":
        ("checked", ["feller-curran1975", "lomax-fisher1990", "dietemann2001"]),
    "CAMEO; Samet ed. 1998; abstract of an evaluation of a reduced polycyclohexanone first made in 2016 "
    "(abstract index page; authors not shown)": ("checked", ["cameo", "samet1998", "reduced-ketone2016"]),
    "Piena 2001, JAIC 40:59, abstract": ("checked", ["piena2001"]),
    "memory: Leonard, Whitten, Gamblin & de la Rie, IIC 2000": ("memory", ["leonard2000"]),
    "memory: Leonard, Whitten, Gamblin & de la Rie, IIC 2000; maker's data sheet for urea-aldehyde retouching colours, 2015":
        ("memory", ["leonard2000", "retouching-sheet2015"]),
    "Lomax & Fisher 1990; de la Rie, lecture slides, April 2011, part 3": ("checked", ["lomax-fisher1990", "delarie2011"]),
    "Lomax & Fisher 1990, section 5": ("checked", ["lomax-fisher1990"]),
    "Ciofini et al. 2016, Polym. Degrad. Stab. 123:47, abstract": ("checked", ["ciofini2016"]),
    "Phenix 2002": ("checked", ["phenix2002"]),
    "de la Rie, lecture slides, April 2011, part 3": ("checked", ["delarie2011"]),
    "Samet ed. 1998": ("checked", ["samet1998"]),
    "Boon & van Och, ICOM-CC Edinburgh 1996, 197-205, abstract": ("checked", ["boon1996"]),
    "E. F. Hansen et al. 1991, abstract": ("checked", ["hansen-derrick1991"]),
    "Feller 1958, abstract": ("checked", ["feller1958"]),
    "IPCS, EHC 187, White Spirit, as quoted in an encyclopaedia": ("checked", ["ehc187"]),
    "common practice": ("memory", ["common"]),
    "estimate: by its name": ("estimate", ["own-surrogate"]),
    "Heritage Science 7 (2019) 0283-9, abstract": ("checked", ["heritage-science2019"]),
}


def source(text):
    if text not in SOURCE:
        raise ValueError("import_ageing.py does not know the source: " + text)
    return SOURCE[text]
