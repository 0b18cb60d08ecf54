"""Red flags of the stoma's blood supply: colour, feel, slough, sinking below the skin.

How warm, moist and soft a dark stoma is decides between today and now; not recorded, it is now.
Where the colour differs round the stoma the worst part decides.
"""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import (
    EARLY_ISCHAEMIA,
    RETRACTED_AT,
    SUNKEN_DEEP,
)
from planning.facts.colour import DUSKY, at_hours, colours
from planning.facts.derive import Facts
from planning.inputs.findings import Bleeding, Colour, Symptom, Turgor
from planning.results.plan import Urgency
from planning.safety.baselines.colour import colour_usual
from planning.safety.early import may_be_early
from planning.safety.flag import NURSE, FlagRule, Verdict
from planning.safety.flags_blockage import silent
from planning.safety.signs import belly_pain, fever

LIFELESS: Final = (Turgor.COLD, Turgor.DRY, Turgor.HARD, Turgor.FLABBY)
_BLEEDS: Final = (
    Bleeding.OOZE_AT_JUNCTION,
    Bleeding.SEVERAL_EMPTIES,
    Bleeding.FROM_LUMEN,
    Bleeding.SPURTING_OR_UNSTOPPED,
)
_AT_COLOUR: Final = "measurement.colour"


def no_blood(facts: Facts) -> bool:
    """Cold, dry, hard or flaccid, or it does not bleed when touched."""
    m = facts.findings.measurement
    return m.turgor in LIFELESS or m.bleeds_on_touch is False


def necrosis(facts: Facts) -> Verdict | None:
    if colour_usual(facts):
        return None
    found = colours(facts)
    if Colour.BLACK_BROWN_GREY in found:
        where = at_hours(facts, Colour.BLACK_BROWN_GREY)
        return Verdict(Urgency.EMERGENCY, f"The stoma is black, brown or grey{where}.", _AT_COLOUR)
    if found & set(DUSKY) and no_blood(facts):
        words = "The stoma is dark, and cold, dry, hard or flaccid, or does not bleed when touched."
        return Verdict(Urgency.EMERGENCY, words, _AT_COLOUR)
    return None


def dusky(facts: Facts) -> Verdict | None:
    """Today only after the first 30 days, known to be warm, moist and soft, without pain and with
    output."""
    if not colours(facts) & set(DUSKY) or colour_usual(facts):
        return None
    m = facts.findings.measurement
    found = f"The stoma is dusky, maroon or purple{at_hours(facts, *DUSKY)}"
    if m.turgor is None:
        return Verdict(
            Urgency.EMERGENCY,
            f"{found}; whether it is cold, dry or hard is not recorded.",
            _AT_COLOUR,
        )
    hurts = bool(facts.findings.output.pain_0_10) or belly_pain(facts) or silent(facts)
    if may_be_early(facts) or hurts or no_blood(facts):
        return Verdict(Urgency.EMERGENCY, f"{found}.", _AT_COLOUR)
    ask = "does it bleed bright red when touched" if m.bleeds_on_touch is None else ""
    return Verdict(Urgency.SAME_DAY, f"{found}.", _AT_COLOUR, ask)


def lifeless(facts: Facts) -> Verdict | None:
    """Whatever its colour, or where its colour is not recorded."""
    m = facts.findings.measurement
    if not no_blood(facts):
        return None
    cold = m.turgor is not None and m.turgor in LIFELESS
    found = f"The stoma is {m.turgor.value}." if cold and m.turgor else ""
    found = found or "The stoma does not bleed when touched."
    at = "measurement.turgor" if cold else "measurement.bleeds_on_touch"
    if may_be_early(facts):
        return Verdict(Urgency.EMERGENCY, found, at)
    return Verdict(Urgency.SAME_DAY, found, at)


def slough(facts: Facts) -> Verdict | None:
    if Colour.YELLOW_SLOUGH not in colours(facts):
        return None
    found = f"There is yellow slough on the stoma{at_hours(facts, Colour.YELLOW_SLOUGH)}"
    if not may_be_early(facts):
        return Verdict(Urgency.DAYS, f"{found}.", _AT_COLOUR)
    return _soon_after_surgery(facts, found, _AT_COLOUR)


def sunken(facts: Facts) -> Verdict | None:
    """Below the skin in the first 30 days: the stoma may have lost its hold or its blood."""
    height = facts.findings.measurement.protrusion_mm
    if height is None or height > RETRACTED_AT.value or not may_be_early(facts):
        return None
    found = f"The stoma lies {-height:g} mm below the skin soon after surgery"
    return _soon_after_surgery(
        facts, found, "measurement.protrusion_mm", deep=height <= SUNKEN_DEEP.value
    )


def _soon_after_surgery(facts: Facts, found: str, at: str, *, deep: bool = False) -> Verdict:
    more = [
        words
        for present, words in (
            (belly_pain(facts) or bool(facts.findings.output.pain_0_10), "pain"),
            (fever(facts) is True, "fever"),
            (bool(facts.separated), "a parted edge"),
        )
        if present
    ]
    if more or deep:
        with_ = f", with {' and '.join(more)}" if more else ""
        return Verdict(Urgency.EMERGENCY, f"{found}{with_}.", at)
    return Verdict(Urgency.SAME_DAY, f"{found}.", at)


def unseen(facts: Facts) -> Verdict | None:
    """In the first week a stoma that was not looked at is not assumed to be healthy; a healthy
    part says nothing of the rest."""
    days = facts.findings.stoma.days_since_surgery
    seen = facts.findings.measurement.colour is not None or colours(facts) - {Colour.PINK_RED}
    if seen or days is None:
        return None
    if days > EARLY_ISCHAEMIA.value:
        return None
    found = "The stoma's colour is not recorded in the first week after surgery."
    return Verdict(Urgency.SAME_DAY, found, _AT_COLOUR)


def pale(facts: Facts) -> Verdict | None:
    m = facts.findings.measurement
    if Colour.PALE not in colours(facts):
        return None
    faint = facts.feels(Symptom.FAINTNESS, Symptom.DIZZY_ON_STANDING)
    worse = m.bleeding in _BLEEDS or faint or may_be_early(facts)
    urgency = Urgency.EMERGENCY if worse else Urgency.SAME_DAY
    return Verdict(urgency, f"The stoma is very pale{at_hours(facts, Colour.PALE)}.", _AT_COLOUR)


RULES: Final = (
    FlagRule(
        "necrosis",
        "Possible necrosis of the stoma",
        "surgeon",
        "Put on a clear pouch and nothing that presses. The surgeon checks the depth.",
        ("problemstoma/colour", PRACTICE),
        necrosis,
        "Your stoma is very dark. This needs a surgeon now.",
        within=("prolapse_trapped",),
        adult_figures=True,
    ),
    FlagRule(
        "dusky",
        "Possible ischaemia or congestion of the stoma",
        "surgeon",
        "Loosen belt and opening, look again within minutes. The surgeon judges how deep it goes. "
        "Record each colour with its hours, and whether it is warm, moist and soft. Where the "
        "surgeon has it watched, the same observer looks again within hours.",
        (PRACTICE, DESIGN),
        dusky,
        "Your stoma is darker than it should be. A surgeon must look at it now.",
        within=("prolapse_trapped", "necrosis"),
        told_at={
            Urgency.SAME_DAY: "Your stoma is darker than it should be. A surgeon must look at it "
            "today."
        },
        adult_figures=True,
    ),
    FlagRule(
        "lifeless",
        "The stoma is cold, dry, hard, flaccid or does not bleed when touched",
        "surgeon",
        "Put on a clear pouch and nothing that presses. The surgeon checks the blood supply "
        "and how deep it goes.",
        (DESIGN,),
        lifeless,
        "Your stoma does not feel as it should. A surgeon must look at it now.",
        within=("prolapse_trapped", "necrosis", "dusky"),
        told_at={
            Urgency.SAME_DAY: "Your stoma does not feel as it should. A surgeon must look at it "
            "today."
        },
        adult_figures=True,
    ),
    FlagRule(
        "slough",
        "Slough on the stoma",
        "surgeon",
        "Do not scrape it off. The surgeon checks how deep it goes.",
        (DESIGN,),
        slough,
        "There is a coating on your stoma. A surgeon must look at it now.",
        told_at={
            Urgency.SAME_DAY: "There is a coating on your stoma. A surgeon must look at it today.",
            Urgency.DAYS: "There is a coating on your stoma. A surgeon will look within days.",
        },
        adult_figures=True,
    ),
    FlagRule(
        "sunken",
        "The stoma has sunk below the skin soon after surgery",
        "surgeon",
        "Nothing that presses. The surgeon checks blood supply and hold.",
        (DESIGN,),
        sunken,
        "Your stoma has sunk below the skin. A surgeon must look at it now.",
        told_at={
            Urgency.SAME_DAY: "Your stoma has sunk below the skin. A surgeon must look at it today."
        },
        adult_figures=True,
    ),
    FlagRule(
        "unseen",
        "The stoma was not looked at in its first week",
        NURSE,
        "Look now: colour, warm or cold, moist or dry, soft or hard. Use a clear pouch.",
        (DESIGN,),
        unseen,
        adult_figures=True,
    ),
    FlagRule(
        "pale",
        "The stoma is very pale",
        "physician",
        "Take pulse and blood pressure; blood count.",
        (PRACTICE, DESIGN),
        pale,
        "Your stoma is very pale. A doctor must look at it now.",
        told_at={Urgency.SAME_DAY: "Your stoma is very pale. A doctor must look at it today."},
        adult_figures=True,
    ),
)
