"""Red flags of the stoma's blood supply: colour, feel, slough, sinking below the skin.

How warm, moist and soft a dark stoma is decides between today and now; not recorded, it is now.
"""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import EARLY_ISCHAEMIA, RETRACTED_AT, SUNKEN_DEEP
from planning.facts.derive import Facts
from planning.inputs.findings import Bleeding, Colour, Symptom, Turgor
from planning.results.plan import Urgency
from planning.safety.early import may_be_early
from planning.safety.flag import NURSE, FlagRule, Verdict
from planning.safety.pain import CRAMPS, belly_hurts

DARK: Final = (Colour.DUSKY, Colour.PURPLE)
LIFELESS: Final = (Turgor.COLD, Turgor.DRY, Turgor.HARD, Turgor.FLABBY)
_BLEEDS: Final = (
    Bleeding.OOZE_AT_JUNCTION,
    Bleeding.SEVERAL_EMPTIES,
    Bleeding.FROM_LUMEN,
    Bleeding.SPURTING_OR_UNSTOPPED,
)
_AT_COLOUR: Final = "measurement.colour"


def necrosis(facts: Facts) -> Verdict | None:
    m = facts.findings.measurement
    if m.colour is Colour.BLACK_BROWN_GREY:
        return Verdict(Urgency.EMERGENCY, "The stoma is black, brown or grey.", _AT_COLOUR)
    if m.colour in DARK and m.turgor in LIFELESS:
        found = "The stoma is dark, and cold, dry, hard or flabby."
        return Verdict(Urgency.EMERGENCY, found, _AT_COLOUR)
    return None


def dusky(facts: Facts) -> Verdict | None:
    """Today only after the first 30 days, known to be warm, moist and soft, and without pain."""
    m, output = facts.findings.measurement, facts.findings.output
    if m.colour not in DARK:
        return None
    hurts = bool(output.pain_0_10) or facts.feels(*CRAMPS)
    found = "The stoma is dusky, maroon or purple"
    if m.turgor is None:
        return Verdict(
            Urgency.EMERGENCY,
            f"{found}; whether it is cold, dry or hard is not recorded.",
            _AT_COLOUR,
        )
    if may_be_early(facts) or hurts or m.turgor in LIFELESS:
        return Verdict(Urgency.EMERGENCY, f"{found}.", _AT_COLOUR)
    return Verdict(Urgency.SAME_DAY, f"{found}.", _AT_COLOUR)


def lifeless(facts: Facts) -> Verdict | None:
    """Whatever its colour, or where its colour is not recorded."""
    turgor = facts.findings.measurement.turgor
    if turgor not in LIFELESS:
        return None
    found = f"The stoma is {turgor.value}."
    if may_be_early(facts):
        return Verdict(Urgency.EMERGENCY, found, "measurement.turgor")
    return Verdict(Urgency.SAME_DAY, found, "measurement.turgor")


def slough(facts: Facts) -> Verdict | None:
    if facts.findings.measurement.colour is not Colour.YELLOW_SLOUGH:
        return None
    found = "There is yellow slough on the stoma"
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
            (belly_hurts(facts) or bool(facts.findings.output.pain_0_10), "pain"),
            (facts.feels(Symptom.FEVER), "fever"),
            (bool(facts.separated), "a parted edge"),
        )
        if present
    ]
    if more or deep:
        with_ = f", with {' and '.join(more)}" if more else ""
        return Verdict(Urgency.EMERGENCY, f"{found}{with_}.", at)
    return Verdict(Urgency.SAME_DAY, f"{found}.", at)


def unseen(facts: Facts) -> Verdict | None:
    """In the first week a stoma that was not looked at is not assumed to be healthy."""
    days = facts.findings.stoma.days_since_surgery
    if facts.findings.measurement.colour is not None or days is None:
        return None
    if days > EARLY_ISCHAEMIA.value:
        return None
    found = "The stoma's colour is not recorded in the first week after surgery."
    return Verdict(Urgency.SAME_DAY, found, _AT_COLOUR)


def pale(facts: Facts) -> Verdict | None:
    m = facts.findings.measurement
    if m.colour is not Colour.PALE:
        return None
    faint = facts.feels(Symptom.FAINTNESS, Symptom.DIZZY_ON_STANDING)
    worse = m.bleeding in _BLEEDS or faint or may_be_early(facts)
    urgency = Urgency.EMERGENCY if worse else Urgency.SAME_DAY
    return Verdict(urgency, "The stoma is very pale.", _AT_COLOUR)


RULES: Final = (
    FlagRule(
        "necrosis",
        "Possible necrosis of the stoma",
        "surgeon",
        "Put on a clear pouch and nothing that presses. The surgeon checks the depth.",
        ("problemstoma", PRACTICE),
        necrosis,
        "Your stoma is very dark. This needs a surgeon now.",
        within=("prolapse_trapped",),
    ),
    FlagRule(
        "dusky",
        "Possible ischaemia or congestion of the stoma",
        "surgeon",
        "Loosen belt and opening, look again within minutes, tell the surgeon. Record whether it "
        "is warm, moist and soft.",
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
        "The stoma is cold, dry, hard or flabby",
        "surgeon",
        "Put on a clear pouch and nothing that presses. The surgeon checks the blood supply.",
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
