"""Statements about fit: convexity, opening, ring and paste, technique, caution with pressure."""

from __future__ import annotations

from typing import Final

from planning.evidence.claims.claim import (
    Claim,
    abstract,
    excerpt,
    full_text,
    not_read,
    second_hand,
)

CLAIMS: Final[tuple[Claim, ...]] = (
    # --- convexity ----------------------------------------------------------------------------
    abstract("hoeflok2017/low", "Convexity serves flat and retracted stomas and uneven skin.",
             "A consensus statement; which profile is best has little evidence."),
    abstract("hoeflok2017/seal_problem", "Convexity is for a seal that fails.",
             "It starts from a problem with the seal."),
    not_read("mcnichol2021/depth", "Shallow up to 3 mm, moderate 4 to 7 mm, deep from 8 mm.",
             "Not read; that these bands are called so is known from a conference page. How much "
             "a mm of convexity lifts a stoma is not in it."),
    not_read("mcnichol2021/firmness", "A soft abdomen asks for a firmer dome.", "Not read."),
    abstract("beitz2025/no_unit", "How soft or flexible a dome is has no agreed unit.",
             "No agreement on measuring either; depth can be measured."),
    abstract("colwell2022/early", "Convexity is accepted from surgery on, after assessment.",
             "Ten experts, through the first 6 months; no waiting time is taken from it."),
    abstract("stoiadavis2022/periods", "Days 9 to 30 are called the postoperative period.",
             "Accepted by 90 % of specialists asked; it bars nothing in those days."),
    excerpt("ascnuk2025/assessed", "Early convexity only after a specialist's assessment.",
            "UK nurses' statement: right after surgery; no number of days."),
    excerpt("rolstad2006/assess", "A leak despite right size and technique: think of convexity.",
            "So stated; the order of steps is practice."),
    abstract("barrierfit2022/lumen", "Lumen and height decide the shape of the barrier.",
             "So stated; which shape for which height is practice."),
    abstract("barrierfit2022/opening", "The opening matches the stoma's size and shape.",
             "So stated; no gap in mm."),
    second_hand("martins2022/outward", "A flat barrier wrinkles on an outward curve.",
                "A third of people have one; nothing on leaks opposite a bulge."),
    # --- a review of complications, through another text --------------------------------------
    second_hand("complicationsreview/retracted", "A retracted stoma gets convexity.",
                "The belt with it is practice."),
    second_hand("complicationsreview/crease", "A crease is filled or held flat.",
                "Ring, strip or a flattening barrier; the order is practice."),
    second_hand("complicationsreview/soft_belt", "On a soft abdomen a belt helps.",
                "A belt is named; the firmness of the dome is not."),
    second_hand("complicationsreview/precautions", "Separation, veins and ulcers are cautions.",
                "Listed for convexity, veins and ulcers for belts too; a caution, no ban."),
    second_hand("complicationsreview/hernia", "A hernia is a caution for convexity.",
                "Listed as one; flat, soft and flexible unless a nurse has a reason."),
    second_hand("complicationsreview/prolapse", "A prolapse gets a flat, flexible barrier and a "
                "larger opening.",
                "Both are named; that skin beside it is covered is practice."),
    second_hand("complicationsreview/prolapse_dark", "A dark, painful or silent prolapse is an "
                "emergency.",
                "Bowel without blood or blocked goes to a physician."),
    second_hand("complicationsreview/lie_flat", "With a prolapse the system is put on lying.",
                "After gentle reduction by trained hands."),
    second_hand("complicationsreview/imprint", "The skin is looked at for a lasting imprint.",
                "At each change; minutes are practice."),
    second_hand("complicationsreview/belt", "A belt lies level with the stoma, snug, on no raw or "
                "ulcerated skin.",
                "Level, snug, and these cautions; two fingers are practice."),
    # --- the opening --------------------------------------------------------------------------
    full_text("sizing2020/gap", "The opening is 1/16 to 1/8 inch wider all round.",
              "US hospital teaching sheet: 1.6 to 3.2 mm on every side."),
    full_text("sizing2020/hold", "A warm hand is held on the barrier.",
              "US hospital teaching sheet: about 45 seconds."),
    abstract("green2018/most", "At most 1/8 inch of skin stays bare beside the stoma.",
             "Beyond the edge of the stoma, unless a nurse decides otherwise."),
    abstract("enlarging2019/most", "At most 1/8 inch of skin stays bare beside the stoma.",
             "Five cases; the usual limit is given."),
    full_text("oklahoma1997/cut_first", "First cut to fit, ready-cut once the size is steady.",
              "Lay newsletter; the 8 weeks are ours."),
    excerpt("metcalf2001/template", "A template is made and kept for cutting.",
            "At the first change."),
    full_text("weekly/measured", "A new stoma is measured every week.",
              "A teaching text for nurses, weak."),
    excerpt("mskcc/shrinks", "A new stoma shrinks for 6 to 8 weeks.",
            "Patient guide; another centre says 6."),
    # --- ring, strip, paste, film -------------------------------------------------------------
    full_text("morgan2015/ring", "A ring is warmed, stretched and touches the stoma all round.",
              "It seals at the base and may lie against mucosa."),
    full_text("morgan2015/fills", "Rings and strips fill dips and creases.",
              "A strip for one crease; a deep moving fold is practice."),
    excerpt("accessories/filler", "Paste fills and levels; it is no glue.", "So stated."),
    excerpt("accessories/no_alcohol", "On irritated skin film without alcohol is chosen.",
            "Film comes with alcohol and without."),
    # --- technique ----------------------------------------------------------------------------
    excerpt("encyclopedia/quiet_time", "Before eating, or an hour or more after a meal.",
            "For an ileostomy."),
    excerpt("encyclopedia/peel", "The skin is held and pushed away from the barrier.",
            "From the top edge down, without pulling."),
    excerpt("peristomal/peel", "The skin is held and pushed away from the barrier.", "So stated."),
    excerpt("peristomal/read_back", "The back of the used barrier is read.",
            "Where it swelled or wore away."),
    excerpt("peristomal/clean", "Warm water, no baby wipes.", "Because of what stays on the skin."),
    excerpt("removers2013/silicone", "Silicone remover strips less and leaves no residue.",
            "An article linked to a product."),
    full_text("nswocc/cough", "The abdomen is supported when coughing.",
              "Heavy lifting is left off for 3 months after surgery, then done with a support "
              "belt until 12 months; no ban for life."),
)  # fmt: skip
