"""Statements about the stoma: height, separation, prolapse, bleeding, veins, growths."""

from __future__ import annotations

from typing import Final

from planning.evidence.claims.claim import Claim, abstract, excerpt, full_text

CLAIMS: Final[tuple[Claim, ...]] = (
    # --- height and separation ----------------------------------------------------------------
    abstract("persson2010/ileostomy", "An ileostomy under 20 mm leaks.",
             "Nearly all ileostomies lower than this leaked and had skin trouble."),
    abstract("persson2010/colostomy", "Half of all colostomies under 5 mm leak.",
             "Half of those lower than this leaked and had skin trouble."),
    abstract("persson2010/granuloma", "Granulomas are most frequent with a colostomy.",
             "So counted there; what a granuloma looks like is not taken from it."),
    abstract("cottam2007/low", "A stoma under 10 mm has more trouble.",
             "Within 48 hours of surgery; domes are not named."),
    abstract("ayik2020/ileostomy", "Skin is irritated more often with an ileostomy.",
             "Odds ratio 1.65."),
    abstract("ayik2020/low", "A stoma under 10 mm separates more often.", "Odds ratio 1.96."),
    abstract("ayik2020/end", "An end stoma separates more often.", "Odds ratio 2.17."),
    abstract("liu2024/weeks", "Mucocutaneous separation comes early.",
             "It looked at the first 3 weeks; a limit of 30 days is ours."),
    # --- blood supply, prolapse, bowel outside ------------------------------------------------
    excerpt("problemstoma/colour", "Grey and black mean failing blood supply.",
            "From blue-purple to grey and black; below the fascia it is revised at once."),
    excerpt("atlas/gangrene", "A gangrenous or irreducible prolapse needs a surgeon now.",
            "So stated."),
    excerpt("rnao/prolapse", "A prolapse is bowel that telescopes out.", "The definition."),
    abstract("prolapsereview/no_definition", "There is no agreed definition of a prolapse.",
             "So stated; a limit in mm is ours."),
    full_text("cambridgeprolapse/signs", "A dark, painful or silent prolapse needs help.",
              "Hospital page: purple, black, painful or not working."),
    excerpt("evisceration2010/gauze", "Bowel outside is covered with warm, wet gauze.",
            "Gauze with warm saline."),
    abstract("evisceration2020/when", "Bowel can come out beside a stoma years later.",
             "Within days and after a year, often after a hernia with a prolapse."),
    # --- bleeding and veins -------------------------------------------------------------------
    excerpt("barr2004/oozing", "Oozing at the junction is usually venous.", "So stated."),
    excerpt("barr2004/pumping", "Running or pumping blood is arterial: surgeon at once.",
            "So stated; no minutes of pressing are given."),
    excerpt("barr2004/lumen", "Blood from the lumen is disease.", "So stated."),
    abstract("varicesreview/look", "Veins show as a blue-purple ring.", "So described."),
    abstract("parastomalvarices2020/look", "Veins show as a blue-purple ring.",
             "So described in a case."),
    abstract("varicesreview/hidden", "A normal look does not exclude veins.",
             "Only a minority showed the typical signs."),
    abstract("strauss2014/hidden", "A normal look does not exclude veins.",
             "They may not be seen although they bleed."),
    abstract("varicesreview/ileostomy", "Most reported veins are at an ileostomy.", "72 %."),
    abstract("varicesreview/bleed", "Veins bleed briskly on a light rub.", "So described."),
    abstract("strauss2014/at_once", "Bleeding veins are seen at once.",
             "Assessment and resuscitation without delay."),
    abstract("ectopicvarices/at_once", "Bleeding veins are seen at once.",
             "Assessment and resuscitation without delay."),
    abstract("stomalvarices/press", "Most bleeding veins stop when pressed.",
             "A single spot better than diffuse oozing."),
    abstract("white/review", "System and routine are reviewed after veins have bled.",
             "So stated; that convexity and belts are barred is not."),
    # --- growths ------------------------------------------------------------------------------
    abstract("malignancy2010/late", "Cancer at a stoma comes 2 to 48 years after surgery.",
             "Range of reported cases; mean about 27 years."),
    abstract("vickers2025/late", "Cancer at a stoma comes 2 to 48 years after surgery.",
             "Range of reported cases; mean about 27 years."),
    abstract("stomacancer2015/biopsy", "Any new growth at a stoma gets a biopsy.",
             "So stated; how soon, and what such a growth feels like, are not taken from it."),
)  # fmt: skip
