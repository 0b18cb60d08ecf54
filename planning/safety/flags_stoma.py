"""Red flags of the stoma itself: colour, bleeding, prolapse, hernia, junction, cut."""

from __future__ import annotations

from typing import Final

from planning.derive import Facts
from planning.findings import Bleeding, Bulge, Colour, Condition, SkinKind, Symptom, Turgor
from planning.plan import Urgency
from planning.safety.flag import FlagRule, Verdict
from planning.sources import DESIGN, MEMORY, PRACTICE
from planning.thresholds import EARLY_ISCHAEMIA

_DARK: Final = (Colour.DUSKY, Colour.PURPLE)
_LIFELESS: Final = (Turgor.COLD, Turgor.DRY, Turgor.HARD)
_BLEEDS: Final = (
    Bleeding.OOZE_AT_JUNCTION,
    Bleeding.SEVERAL_EMPTIES,
    Bleeding.FROM_LUMEN,
    Bleeding.SPURTING_OR_UNSTOPPED,
)
_AT_COLOUR: Final = "measurement.colour"
_AT_BLEEDING: Final = "measurement.bleeding"


def _necrosis(facts: Facts) -> Verdict | None:
    m = facts.findings.measurement
    if m.colour is Colour.BLACK_BROWN_GREY:
        return Verdict(Urgency.EMERGENCY, "The stoma is black, brown or grey.", _AT_COLOUR)
    if m.colour in _DARK and m.turgor in _LIFELESS:
        return Verdict(Urgency.EMERGENCY, "The stoma is dark and cold, dry or hard.", _AT_COLOUR)
    return None


def _dusky(facts: Facts) -> Verdict | None:
    m, days = facts.findings.measurement, facts.findings.stoma.days_since_surgery
    if m.colour not in _DARK:
        return None
    pain = facts.findings.output.pain_0_10
    early = days is not None and days <= EARLY_ISCHAEMIA.value
    hurts = bool(pain) or facts.feels(Symptom.SEVERE_CRAMPS)
    urgency = Urgency.EMERGENCY if early or hurts else Urgency.SAME_DAY
    return Verdict(urgency, "The stoma is dusky, maroon or purple.", _AT_COLOUR)


def _pale(facts: Facts) -> Verdict | None:
    m = facts.findings.measurement
    if m.colour is not Colour.PALE:
        return None
    worse = m.bleeding in _BLEEDS or facts.feels(Symptom.FAINTNESS, Symptom.DIZZY_ON_STANDING)
    urgency = Urgency.EMERGENCY if worse else Urgency.SAME_DAY
    return Verdict(urgency, "The stoma is very pale.", _AT_COLOUR)


def _spurting(facts: Facts) -> Verdict | None:
    if facts.findings.measurement.bleeding is not Bleeding.SPURTING_OR_UNSTOPPED:
        return None
    return Verdict(
        Urgency.EMERGENCY,
        "Blood spurts, or did not stop under 10 minutes of firm pressure.",
        _AT_BLEEDING,
    )


def _variceal(facts: Facts) -> Verdict | None:
    bleeding = facts.findings.measurement.bleeding
    at_risk = facts.has(Condition.LIVER_DISEASE) or facts.find(SkinKind.DILATED_VEINS)
    if not at_risk or bleeding in (None, Bleeding.NONE):
        return None
    urgency = Urgency.SAME_DAY if bleeding is Bleeding.ON_WIPING else Urgency.EMERGENCY
    return Verdict(urgency, "It bleeds, with liver disease or dilated veins.", _AT_BLEEDING)


def _blood_in_output(facts: Facts) -> Verdict | None:
    if facts.findings.measurement.bleeding not in (Bleeding.SEVERAL_EMPTIES, Bleeding.FROM_LUMEN):
        return None
    found = "Blood in several emptyings, or from inside the stoma."
    return Verdict(Urgency.SAME_DAY, found, _AT_BLEEDING)


def _prolapse(facts: Facts) -> Verdict | None:
    m = facts.findings.measurement
    if not m.prolapse:
        return None
    stuck = any(p.reducible is False or p.painful for p in m.prolapse)
    dark = m.colour in (*_DARK, Colour.BLACK_BROWN_GREY)
    if not (stuck or dark or m.turgor in (Turgor.HARD, Turgor.COLD)):
        return None
    found = "The prolapse is dark, hard, painful or does not go back."
    return Verdict(Urgency.EMERGENCY, found, "measurement.prolapse")


def _bulge(facts: Facts) -> Verdict | None:
    verdicts = [v for b in facts.findings.abdomen.bulges or () if (v := _one_bulge(b, facts))]
    return min(verdicts, key=lambda v: v.urgency.rank, default=None)


def _one_bulge(bulge: Bulge, facts: Facts) -> Verdict | None:
    blocked = facts.feels(Symptom.VOMITING, Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN)
    stuck = bulge.reducible is False
    if (stuck and bulge.painful) or ((stuck or bulge.painful) and blocked):
        found = "A painful bulge beside the stoma does not go back."
        return Verdict(Urgency.EMERGENCY, found, "abdomen.bulges")
    if bulge.painful and bulge.reducible is None:
        found = "The bulge is painful, and whether it goes back was not recorded."
        return Verdict(Urgency.SAME_DAY, found, "abdomen.bulges")
    return None


def _deep_separation(facts: Facts) -> Verdict | None:
    gaps = facts.findings.measurement.junction or ()
    deep = any(len(g.hours) == 12 or g.base_visible is False or g.effluent_under_skin for g in gaps)
    if not deep:
        return None
    ill = facts.feels(Symptom.FEVER, Symptom.SWOLLEN_ABDOMEN)
    return Verdict(
        Urgency.EMERGENCY if ill else Urgency.SAME_DAY,
        "It runs all round, its base is not visible, or effluent gets beneath the skin.",
        "measurement.junction",
    )


def _separation(facts: Facts) -> Verdict | None:
    if not facts.separated:
        return None
    return Verdict(Urgency.DAYS, "Stoma and skin have come apart.", "measurement.junction")


def _deep_cut(facts: Facts) -> Verdict | None:
    if not facts.findings.measurement.deep_cut:
        return None
    return Verdict(Urgency.SAME_DAY, "The stoma is cut deeply.", "measurement.deep_cut")


RULES: Final = (
    FlagRule(
        "necrosis",
        "Possible necrosis of the stoma",
        "surgeon",
        "Put on a clear pouch and nothing that presses. The surgeon checks the depth.",
        ("problemstoma", PRACTICE),
        _necrosis,
        "Your stoma is very dark. This needs a surgeon now.",
        within=("prolapse_trapped",),
    ),
    FlagRule(
        "dusky",
        "Possible ischaemia or congestion of the stoma",
        "surgeon",
        "Loosen belt and opening, look again, tell the surgeon.",
        (PRACTICE,),
        _dusky,
        "Your stoma is darker than it should be. A surgeon must look at it.",
        within=("prolapse_trapped", "necrosis"),
        adult_figures=True,
    ),
    FlagRule(
        "pale",
        "The stoma is very pale",
        "physician",
        "Take pulse and blood pressure; blood count.",
        (PRACTICE,),
        _pale,
        "Your stoma is very pale. A doctor must look at it.",
    ),
    FlagRule(
        "spurting",
        "Bleeding that does not stop",
        "emergency department",
        "Keep pressing firmly and call for help.",
        ("barr2004", DESIGN),
        _spurting,
        "Press firmly on the spot that bleeds. Do not let go. Call for help now.",
        within=("variceal_bleed",),
        adult_figures=True,
    ),
    FlagRule(
        "variceal_bleed",
        "Bleeding with liver disease or varices",
        "emergency department",
        "Press firmly without letting go, lay the person flat, call for help.",
        ("ectopicvarices", "strauss2014", PRACTICE),
        _variceal,
        "Press firmly on the spot that bleeds. Lie flat. Call for help now.",
    ),
    FlagRule(
        "blood_in_output",
        "Blood from inside the stoma",
        "physician",
        "Check blood thinners and blood count.",
        ("seekhelp2009", "barr2004"),
        _blood_in_output,
        "There is blood from inside your stoma. A doctor must look today.",
    ),
    FlagRule(
        "prolapse_trapped",
        "Prolapse that is dark, hard, painful or fixed",
        "surgeon",
        "Do not try to push it back. Keep it moist and covered.",
        ("atlas",),
        _prolapse,
        "Your stoma has come out and needs a surgeon now. Do not push it.",
    ),
    FlagRule(
        "hernia_trapped",
        "Bulge that may be trapped bowel",
        "emergency department",
        "Nothing by mouth; take off any belt.",
        (PRACTICE,),
        _bulge,
        "The lump beside your stoma needs a doctor now. Do not eat or drink.",
    ),
    FlagRule(
        "separation_deep",
        "Deep separation of stoma and skin",
        "surgeon",
        "Look for signs of peritonitis; no firm convexity, no belt.",
        (MEMORY,),
        _deep_separation,
        "The edge of your stoma has opened. A surgeon must look today.",
    ),
    FlagRule(
        "separation",
        "Separation of stoma and skin",
        "surgeon",
        "Record depth and hours; fill, cover and pouch over it.",
        (MEMORY,),
        _separation,
        "The edge of your stoma has opened a little. The team will look within days.",
        within=("separation_deep",),
    ),
    FlagRule(
        "deep_cut",
        "Deep cut in the stoma",
        "surgeon",
        "Cut the opening larger; press if it bleeds.",
        ("seekhelp2009",),
        _deep_cut,
        "Your stoma has a deep cut. The team must look today.",
    ),
)
