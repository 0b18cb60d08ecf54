"""Red flags of bleeding from the stoma and its edge; blood within urine has a rule of its own."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.facts.derive import Facts
from planning.inputs.findings import Bleeding, Colour, Condition, SkinKind, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.flag import FlagRule, Verdict

_AT: Final = "measurement.bleeding"
_INSIDE: Final = (Bleeding.SEVERAL_EMPTIES, Bleeding.FROM_LUMEN)


def spurting(facts: Facts) -> Verdict | None:
    if facts.findings.measurement.bleeding is not Bleeding.SPURTING_OR_UNSTOPPED:
        return None
    found = "Blood spurts, or did not stop under 10 minutes of firm pressure."
    return Verdict(Urgency.EMERGENCY, found, _AT)


def variceal(facts: Facts) -> Verdict | None:
    """A trace that stopped is a call the same day; anything that goes on is an emergency."""
    bleeding = facts.findings.measurement.bleeding
    at_risk = facts.has(Condition.LIVER_DISEASE) or facts.find(SkinKind.DILATED_VEINS)
    if not at_risk or bleeding in (None, Bleeding.NONE):
        return None
    found = "It bleeds, with liver disease or dilated veins."
    if bleeding is Bleeding.ON_WIPING:
        return Verdict(Urgency.SAME_DAY, found, _AT)
    return Verdict(Urgency.EMERGENCY, found, _AT)


def blood_in_output(facts: Facts) -> Verdict | None:
    if facts.kind is StomaKind.UROSTOMY:
        return None
    if facts.findings.measurement.bleeding not in _INSIDE:
        return None
    return _goes_on(facts, "Blood in several emptyings, or from inside the stoma.")


def oozing(facts: Facts) -> Verdict | None:
    """Where veins or liver disease are known, the rule for those says more."""
    oozes = facts.findings.measurement.bleeding is Bleeding.OOZE_AT_JUNCTION
    if not oozes or variceal(facts) is not None:
        return None
    return _goes_on(facts, "The junction of stoma and skin oozes blood.")


def _goes_on(facts: Facts, found: str) -> Verdict:
    thinner = facts.has(Condition.ANTICOAGULANT)
    faint = facts.feels(Symptom.FAINTNESS, Symptom.DIZZY_ON_STANDING)
    if thinner or faint or facts.findings.measurement.colour is Colour.PALE:
        why = " An anticoagulant is taken." if thinner else ""
        return Verdict(Urgency.EMERGENCY, found + why, _AT)
    return Verdict(Urgency.SAME_DAY, found, _AT)


def contact_on_thinner(facts: Facts) -> Verdict | None:
    """A trace on wiping under an anticoagulant: its prescriber hears of it once."""
    wiped = facts.findings.measurement.bleeding is Bleeding.ON_WIPING
    if not wiped or not facts.has(Condition.ANTICOAGULANT):
        return None
    found = "It bleeds a little on wiping, and an anticoagulant is taken."
    return Verdict(Urgency.SAME_DAY, found, _AT)


RULES: Final = (
    FlagRule(
        "spurting",
        "Bleeding that does not stop",
        "emergency department",
        "Keep pressing firmly and call for help.",
        ("barr2004", DESIGN),
        spurting,
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
        variceal,
        "Press firmly on the spot that bleeds. Lie flat. Call for help now.",
        told_at={
            Urgency.SAME_DAY: "Your stoma bled when it was wiped. The liver team must hear of it "
            "today."
        },
    ),
    FlagRule(
        "blood_in_output",
        "Blood from inside the stoma",
        "physician or emergency department",
        "Check blood thinners and blood count.",
        ("seekhelp2009", "barr2004", DESIGN),
        blood_in_output,
        "There is blood from inside your stoma. A doctor must look today.",
        told_at={
            Urgency.EMERGENCY: "There is blood from inside your stoma. A doctor must look now."
        },
    ),
    FlagRule(
        "oozing",
        "Bleeding at the junction that goes on",
        "physician or emergency department",
        "Press; see whether it comes from the stoma, the gap or a vein. Ask for liver disease and "
        "blood thinners, and do not stop them. No caustic stick.",
        (DESIGN,),
        oozing,
        "The edge of your stoma bleeds. A doctor must look today.",
        within=("blood_in_output",),
        told_at={
            Urgency.EMERGENCY: "The edge of your stoma bleeds. Press firmly. A doctor must look "
            "now."
        },
    ),
    FlagRule(
        "contact_on_anticoagulant",
        "Contact bleeding under an anticoagulant",
        "prescriber of the anticoagulant, by telephone",
        "Ask about its control; look for dilated veins. No wider opening for it.",
        (DESIGN,),
        contact_on_thinner,
        "Your stoma bled when it was wiped. Call the team that gives you blood thinners today.",
    ),
)
