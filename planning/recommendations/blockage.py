"""What to do and what to take while a bowel may be blocked, and on the way to an emergency.

Never: pushing back, dilating, anything into the stoma, sugar, enema, a laxative for a suspected
blockage, starting or stopping a prescribed medicine.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import FIRST_AID_FROM
from planning.facts.by_mouth import forbidden_by_mouth
from planning.facts.derive import Facts
from planning.inputs.findings import Condition, Oedema, StomaKind, Symptom
from planning.ranked_facts import RankedFacts
from planning.results.message import Words, to_patient
from planning.results.plan import Change, ItemKind, Reason, Recommendation, Urgency

_BLOCKAGE: Final = (
    "blocked_ileostomy", "blocked_colostomy", "overflow", "blocked_beside_urostomy",
    "pregnant_blocked",
)  # fmt: skip
_STUCK_OR_OUT: Final = ("hernia_trapped", "prolapse_trapped", "bowel_outside")
_CONGESTED: Final = ("prolapse_trapped", "necrosis", "dusky", "lifeless")
_DRY: Final = ("dehydration", "high_output", "watery")
_NOT_WITH: Final = (
    Symptom.VOMITING, Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN, Symptom.CONSTANT_SEVERE_PAIN,
    Symptom.RIGID_ABDOMEN, Symptom.RISING_PAIN,
)  # fmt: skip
_TEACHING: Final = ("foodblockage2021/first_aid", "blockagecard2012/first_aid", DESIGN)

#: The sheet's sentences, each by itself; the massage is left out beside a wound.
MASSAGE: Final = "Massage your belly gently beside the stoma."
FIRST_AID: Final = (
    "Stop solid food.",
    "Take warm drinks in sips.",
    "Walk, or pull your knees to your chest.",
    MASSAGE,
    "Take a warm bath or shower.",
    "If the stoma is swollen, cut the hole a little bigger.",
    "Go to the hospital now if you vomit or nothing comes out.",
    "Go now too if the pain gets strong or your belly swells.",
    "Go too if it is no better after 2 hours.",
    "Take your supplies with you.",
)
NOTHING: Final = "Do not eat or drink."
NO_SOLIDS: Final = "Eat no solid food."
SIP: Final = (
    "Sip rehydration drink if it stays down and no fluid limit is set for you.",
    "Do not drink plain water to catch up.",
)
ONLY_SIPS: Final = "Only sip until a doctor has seen you."
MOIST: Final = "Lie down. Keep it covered and wet, with the pouch loose over it."
GARMENT_OFF: Final = "Take off any support garment."
TIGHT: Final = "If the hole of the barrier is tight, cut it bigger."
AS_USUAL: Final = "Drink, eat and walk as usual."
TAKE_ALONG: Final = "Take your supplies and your list of medicines."


def first_aid_allowed(facts: Facts) -> bool:
    """Mild cramps with some output and no vomiting, in an adult's ileostomy, six weeks after
    surgery or later. Not in pregnancy, nor beside a bulge or prolapse; what is not known forbids
    it."""
    output, days = facts.findings.output, facts.findings.stoma.days_since_surgery
    asked = facts.asked(Symptom.VOMITING) is False and facts.asked(Symptom.SWOLLEN_ABDOMEN) is False
    runs = output.hours_without_output is not None and output.hours_without_output < 1
    return (
        facts.kind is StomaKind.ILEOSTOMY
        and facts.feels(Symptom.MILD_CRAMPS)
        and not facts.feels(*_NOT_WITH)
        and asked
        and runs
        and days is not None
        and days > FIRST_AID_FROM.value
        and facts.has(Condition.PREGNANT) is not True
        and facts.bulging is False
        and facts.prolapsed is False
    )


def first_aid(situation: RankedFacts) -> Iterator[Recommendation]:
    """Given with its stop rule, never without; the massage not beside a wound."""
    facts = situation.facts
    fasts = _pressing(situation) and nothing_by_mouth(situation)
    if situation.emergency or fasts or not first_aid_allowed(facts):
        return
    wounded = bool(facts.findings.wounds)
    massage = "" if wounded else ", gentle massage of the belly"
    told = [line for line in FIRST_AID if not (wounded and line == MASSAGE)]
    yield Recommendation(
        key="blockage_first_aid",
        kind=ItemKind.TEACH,
        change=Change.START,
        text="First aid for mild cramps while output still comes: no solid food, warm drinks in "
        f"sips, walk or knees to chest{massage}, a warm bath, a larger opening if the stoma is "
        "swollen. Not eased in 2 hours: emergency department",
        because=(Reason("Mild cramps, output still comes, no vomiting.", _TEACHING,
                        "output.present"),),
        patient_text=to_patient(*told),
    )  # fmt: skip


def nothing_by_mouth(situation: RankedFacts) -> bool:
    """Vomiting, drinks not kept down, no output with pain, bowel stuck or outside."""
    stuck = any(
        flag.key in _STUCK_OR_OUT and flag.urgency is Urgency.EMERGENCY for flag in situation.flags
    )
    return stuck or forbidden_by_mouth(situation.facts)


def _pressing(situation: RankedFacts) -> bool:
    return situation.urgency.rank <= Urgency.SAME_DAY.rank


def food_and_drink(situation: RankedFacts) -> Iterator[Recommendation]:
    """The line of food and drink, for an emergency and for the same day."""
    facts = situation.facts
    if not _pressing(situation):
        return
    blocked = situation.flagged(*_BLOCKAGE)
    if nothing_by_mouth(situation):
        yield _line("nothing_by_mouth", "Nothing by mouth", NOTHING,
                    "Vomiting, drinks not kept down, no output with pain, or bowel stuck or "
                    "outside.")  # fmt: skip
        return
    if blocked:
        yield _line("no_solid_food", "No solid food", NO_SOLIDS,
                    "The bowel may be blocked.")  # fmt: skip
    dry = situation.flagged(*_DRY)
    if dry and facts.kind is not StomaKind.UROSTOMY:
        yield _line(
            "sip",
            "Rehydration drink in sips if it stays down and no limit of fluid is set; no plain "
            "water to catch up",
            to_patient(*SIP),
            "A bowel stoma, and signs of possible dehydration.",
        )
    elif situation.emergency and not blocked:
        yield _line("sips_only", "Sips only", ONLY_SIPS,
                    "An emergency: an operation may be needed.")  # fmt: skip


def eats_and_drinks(situation: RankedFacts) -> bool:
    """No line of food and drink is said, and nothing about the output is against more of it."""
    against = situation.flagged(*_BLOCKAGE, "narrow", *_DRY, "unmeasured_output")
    return not against and not any(True for _ in food_and_drink(situation))


def slow_bowel(situation: RankedFacts) -> Iterator[Recommendation]:
    """For a colostomy without stool in a well person; not where anything is more urgent."""
    calm = situation.urgency.rank > Urgency.TELEPHONE.rank
    if calm and situation.flagged("constipation"):
        yield _line("slow_bowel", "Drinks, food and walking as usual", AS_USUAL,
                    "No stool for days, and no sign of a blockage.")  # fmt: skip


def on_the_way(situation: RankedFacts) -> Iterator[Recommendation]:
    """What an emergency's page holds besides who and where."""
    if situation.flagged("bowel_outside"):
        yield _line("cover_moist", "Moist cover, loose pouch over it; lie down, keep warm",
                    MOIST,
                    "Bowel outside the body must not dry or be pressed.")  # fmt: skip
    if situation.flagged("hernia_trapped"):
        yield _line("garment_off", "Support garment and belt off", GARMENT_OFF,
                    "Nothing may press on trapped bowel.")  # fmt: skip
    if situation.flagged(*_CONGESTED) or tight_on_swelling(situation.facts):
        yield _line("loosen_opening", "Enlarge a tight opening at once, look again within minutes",
                    TIGHT, "A tight opening cuts off the blood of a swollen stoma.")  # fmt: skip
    yield _line("take_along", "Take supplies and the list of medicines along",
                TAKE_ALONG,
                "Who receives the person needs both.")  # fmt: skip
    yield from food_and_drink(situation)


def tight_on_swelling(facts: Facts) -> bool:
    """A swollen stoma, or an opening that is known to press on it."""
    swollen = facts.findings.measurement.oedema in (Oedema.MILD, Oedema.MARKED)
    system = facts.findings.system
    return swollen or bool(system and system.presses)


def _line(key: str, text: str, patient_text: Words, why: str) -> Recommendation:
    return Recommendation(
        key=key,
        kind=ItemKind.TEACH,
        change=Change.START,
        text=text,
        because=(Reason(why, (PRACTICE, DESIGN)),),
        patient_text=to_patient(patient_text),
    )
