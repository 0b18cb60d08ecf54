"""Every piece of advice besides supplies and referrals of a danger: when it is given.

The functions in ``advice`` and ``refer`` word it; a test holds them to this table.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.needs.register import LIFT
from planning.recommendations.situations import SITUATIONS
from planning.supplies.catalogue import CONVEX


@dataclass(frozen=True, slots=True)
class AdviceRule:
    """``when`` completes "Given where ...". ``asks``: who is asked and how soon. ``test``: file.
    ``names``: supplies it may name though the plan holds none of them: asked about, offered for
    later, or what is done until then."""

    key: str
    title: str
    when: str
    sources: tuple[str, ...]
    asks: str = ""
    test: str = "test_each_advice.py"
    names: tuple[str, ...] = ()


_GENERAL: Final = (
    AdviceRule("wear_interval", "Change on such a day at the latest",
               "the skin is raw, a barrier was worn for too long, nine in ten barriers of a log "
               "with leaks held to a day, or a new system follows one with a log",
               (PRACTICE, "kaplan1958/curve", DESIGN, "richbourg2008/means")),
    AdviceRule("wear_as_now", "Keep the person's own change day",
               "barriers leaked or lifted and the log is too short to set another day",
               ("kaplan1958/curve", DESIGN)),
    AdviceRule("early_leak_cause", "Find what makes barriers leak early, else refit",
               "fewer than nine in ten barriers of a log hold to the earliest change day",
               ("kaplan1958/curve", DESIGN)),
    AdviceRule("patch_test", "Patch test by dermatology if it returns",
               "a product is suspected",
               ("hightech/outline", PRACTICE, "contactderm/patch_test", "landis2012/patch_test")),
    AdviceRule("no_tape", "The same barrier without a tape border",
               "the skin reacts in a frame at the barrier's outline", (PRACTICE,)),
    AdviceRule("latex_clinic", "No latex in any garment; allergy clinic",
               "skin beyond the barrier reacts under a belt or garment",
               ("latexfood2000/cross", DESIGN)),
    AdviceRule("look_for_product", "Look for a product that is not on record",
               "skin reacts as if to a product, where no recorded product lies", (DESIGN,)),
    AdviceRule("no_creams", "No creams, oils or ointments under the barrier",
               "the skin is damaged", ("lyon2000steroid/greasy",)),
    AdviceRule("trim_hair", "Trim hair, no dry shaving", "inflamed hair roots are likely",
               ("folliculitis/trim", PRACTICE)),
    AdviceRule("gentle_peel", "Peel low and slowly", "injury by adhesive is likely",
               ("leblanc2019/look", PRACTICE)),
    AdviceRule("wear_longer", "Change less often if the seal allows",
               "injury by adhesive is likely and no day is set", ("leblanc2019/look", PRACTICE)),
    AdviceRule("ask_dermatology", "Dermatology, within weeks",
               "a separate skin disease is likely", ("lyon2000steroid/lotion", PRACTICE)),
    AdviceRule("urine_acid", "Ask about acid urine; vinegar compress for crystals",
               "a urostomy has crystals or warty skin",
               ("urostomy2014/crystals", "brogna2021/treated")),
    AdviceRule("granuloma_review", "Correct what rubs; biopsy if it persists",
               "a granuloma is likely", (MEMORY,)),
    AdviceRule("cut_for_both", "One opening for the stoma and a second opening beside it",
               "a fistula lies under the barrier or near it", (DESIGN,)),
    AdviceRule("support_fitting", "Offer a fitted support garment, latex-free where latex does "
                                  "harm",
               "the steps before it did not hold a bulge, and nothing forbids it",
               (PRACTICE,), names=("support_garment",)),
    AdviceRule("support_cough", "Support the abdomen when coughing or lifting",
               "there is a bulge", ("nswocc/cough", PRACTICE)),
    AdviceRule("cut_ahead", "Agree who cuts, rolls or measures",
               "hands or eyes make cutting hard and no ready-cut size serves", (PRACTICE,)),
    AdviceRule("fluids", "Oral rehydration plan, no plain water to catch up",
               "a small-bowel stoma gives 1000 mL or more in 24 hours",
               ("nightingale2006/drinks", "gateshead/not_water")),
    AdviceRule("measure_weekly", "Measure every week", "surgery was less than 8 weeks ago",
               ("mskcc/shrinks", "weekly/measured", DESIGN)),
    AdviceRule("open_lift_rim", "Assessment for convexity, or the surgeon's opinion",
               "no admissible barrier lifts the stoma",
               LIFT, names=tuple(sorted(CONVEX))),
    AdviceRule("open_treat_yeast", "Ask the prescriber about an antifungal powder",
               "yeast is likely and no prescriber's agreement is recorded",
               ("hightech/satellites", "hightech/antifungal"),
               names=("powder", "antifungal_powder")),
    AdviceRule("open_absorb_moisture", "Find who helps with powder and film",
               "skin weeps, and somebody with one hand or poor sight changes it without help",
               (DESIGN,), names=("powder", "protectant")),
    AdviceRule("step_surgeon", "The surgeon's opinion, with wear log and photos",
               "every step before it was tried or may not be used", (PRACTICE, DESIGN)),
    AdviceRule("step_narrow", "A narrow or oval flexible barrier inside the fold",
               "filling the crease and soft convexity did not hold", (PRACTICE, DESIGN)),
    AdviceRule("step_flap", "A support band with a prolapse flap",
               "a soft piece and a cover did not hold a prolapse", (PRACTICE, DESIGN)),
    AdviceRule("step_one_piece", "One piece or two, tried with these hands",
               "hands or eyes cannot place it alone, and a ready-cut opening did not help",
               (PRACTICE, DESIGN)),
    AdviceRule("on_trial", "Continue with the last change until it can be judged",
               "it was worn for fewer than 3 barriers, or fewer than 5 within 14 days", (DESIGN,)),
    AdviceRule("log_next_ten", "Log the next ten barriers",
               "one leak in eight or more, or one with a reason of its own", (DESIGN,)),
    AdviceRule("change_sooner", "Change a day sooner",
               "the barrier melted and let nothing under, and no day is set", (PRACTICE,)),
    AdviceRule("move_load", "Move what lies across the barrier first",
               "a load lies across it", (PRACTICE, DESIGN)),
    AdviceRule("place_centred", "Show how to put it on centred",
               "it was put on off centre", (PRACTICE,)),
    AdviceRule("softer_stool", "Softer stool, loose clothes, medicines that harden it",
               "thick stool lies on the stoma", (PRACTICE,)),
    AdviceRule("cover_tear", "A non-stick cover on torn skin", "the skin is torn",
               (PRACTICE, DESIGN)),
    AdviceRule("care_plan", "The agreed care plan, and the palliative team at once",
               "an emergency in the last weeks of life", (PRACTICE,)),
    AdviceRule("meanwhile", "A roomy pouch, nothing that presses; clear where the colour matters",
               "there is an emergency", (PRACTICE,)),
    AdviceRule("take_along", "Take supplies and the list of medicines along",
               "there is an emergency", (PRACTICE, DESIGN)),
    AdviceRule("garment_off", "Support garment and belt off",
               "trapped bowel is an emergency", (PRACTICE, DESIGN)),
    AdviceRule("loosen_opening", "Enlarge a tight opening at once, look again within minutes",
               "a dark, lifeless or swollen stoma is an emergency", (PRACTICE, DESIGN)),
    AdviceRule("cover_moist", "Moist cover, loose pouch over it", "bowel lies outside",
               (PRACTICE, DESIGN)),
    AdviceRule("nothing_by_mouth", "Nothing by mouth",
               "somebody must look now or today, and there is vomiting, no output with pain, or "
               "bowel stuck or outside", (PRACTICE, DESIGN)),
    AdviceRule("no_solid_food", "No solid food",
               "somebody must look now or today, and the bowel may be blocked",
               (PRACTICE, DESIGN)),
    AdviceRule("sip", "Rehydration drink in sips, no plain water to catch up",
               "somebody must look now or today, and dehydration is possible with a bowel stoma",
               (PRACTICE, DESIGN)),
    AdviceRule("sips_only", "Sips only", "there is any other emergency", (PRACTICE, DESIGN)),
    AdviceRule("slow_bowel", "Drinks, food and walking as usual",
               "a colostomy has given no stool for days in a well person",
               (PRACTICE, DESIGN)),
    AdviceRule("blockage_first_aid", "First aid for a blockage, with its stop rule",
               "an adult's ileostomy gives mild cramps and some output, without vomiting",
               ("foodblockage2021/first_aid", "blockagecard2012/first_aid", DESIGN)),
)  # fmt: skip

#: All of it, the situations last.
ADVICE: Final = (
    *_GENERAL,
    *(
        AdviceRule(
            one.key, one.title, one.when, one.sources, one.asks, "test_situations.py", one.names
        )
        for one in SITUATIONS
    ),
)
