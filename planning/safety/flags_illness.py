"""Red flags of the whole person: pain, and a severe reaction."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import (
    PAIN_MODERATE,
    PAIN_STRONG,
)
from planning.facts.derive import Facts
from planning.facts.in_words import joined
from planning.inputs.findings import SkinKind, StomaKind, Symptom
from planning.results.plan import Urgency
from planning.safety.early import may_be_early
from planning.safety.flag import NURSE, FlagRule, Verdict
from planning.safety.pain import cause_seen
from planning.safety.signs import fever, not_asked

#: What makes weals a reaction of the whole body.
_WITH_WEALS: Final = {
    Symptom.FACE_SWELLING_OR_WHEEZE: "swelling of lips or face, or wheeze",
    Symptom.FAINTNESS: "faintness",
}
_AT_PRESENT: Final = "output.present"
_AT_PAIN: Final = "output.pain_0_10"


def pain(facts: Facts) -> Verdict | None:
    """Pain at the stoma or in the belly. What explains it on the skin has a level of its own, in
    days at least where the pain is strong; unexplained pain that rises and has no score counts as
    strong, and within 30 days of surgery goes up one level."""
    score = facts.findings.output.pain_0_10
    rises, early = facts.feels(Symptom.RISING_PAIN), may_be_early(facts)
    if cause_seen(facts):
        if (score or 0) >= PAIN_STRONG.value:
            return Verdict(Urgency.DAYS, f"Pain at the stoma is {score} of 10.", _AT_PAIN)
        return Verdict(Urgency.DAYS, "Pain at the stoma rises.", _AT_PAIN) if rises else None
    if score is None:
        return _without_score(facts, rises=rises, early=early)
    ask = "temperature" if early and fever(facts) is None else ""
    if score < PAIN_MODERATE.value:
        if not rises and not facts.feels(Symptom.ABDOMINAL_PAIN):
            return None
        found = f"Pain is {score} of 10, new or rising, and nothing seen there explains it."
        return Verdict(Urgency.SAME_DAY if early else Urgency.DAYS, found, _AT_PAIN, ask)
    found = f"Pain at the stoma is {score} of 10, and nothing seen there explains it."
    strong = score >= PAIN_STRONG.value
    if strong and early:
        return Verdict(Urgency.EMERGENCY, found, _AT_PAIN)
    if strong or early:
        return Verdict(Urgency.SAME_DAY, found, _AT_PAIN, ask)
    return Verdict(Urgency.DAYS, found, _AT_PAIN)


def _without_score(facts: Facts, *, rises: bool, early: bool) -> Verdict | None:
    if not rises and not facts.feels(Symptom.ABDOMINAL_PAIN):
        return None
    now = rises and early
    found = "Pain without a score that rises." if rises else "Abdominal pain without a score."
    urgency = Urgency.EMERGENCY if now else Urgency.SAME_DAY
    return Verdict(urgency, found, _AT_PAIN, "" if now else "how strong is the pain")


def loin_pain(facts: Facts) -> Verdict | None:
    """Beside a bowel stoma; with a urostomy it is an emergency by the rule of its own."""
    if facts.kind is StomaKind.UROSTOMY or not facts.feels(Symptom.LOIN_PAIN):
        return None
    urgency = Urgency.SAME_DAY if may_be_early(facts) else Urgency.DAYS
    return Verdict(urgency, "Loin pain.", _AT_PRESENT)


def anaphylaxis(facts: Facts) -> Verdict | None:
    """Face or breath by themselves; weals with faintness."""
    if facts.feels(Symptom.FACE_SWELLING_OR_WHEEZE):
        return Verdict(Urgency.EMERGENCY, "Swelling of the face or wheeze.", _AT_PRESENT)
    if facts.find(SkinKind.WEAL) and facts.feels(Symptom.FAINTNESS):
        return Verdict(Urgency.EMERGENCY, "Weals, and the person is faint.", _AT_PRESENT)
    return None


def weals_unasked(facts: Facts) -> Verdict | None:
    """What would make weals a reaction of the whole body was not asked: it is asked now."""
    weals, open_ = facts.find(SkinKind.WEAL), not_asked(facts, _WITH_WEALS.items())
    if not weals or not open_ or anaphylaxis(facts):
        return None
    return Verdict(Urgency.SAME_DAY, f"Weals; not asked: {joined(open_)}.", weals[0].path)


RULES: Final = (
    FlagRule(
        "anaphylaxis",
        "Severe allergic reaction",
        "emergency department",
        "Take the product off; call help.",
        (PRACTICE,),
        anaphylaxis,
        "You may have a bad reaction. Call for help now.",
    ),
    FlagRule(
        "weals_unasked",
        "Weals of which too little was asked",
        NURSE,
        "Ask now: do lips or face swell, is breathing hard, is the person faint? Any of them: "
        "emergency.",
        (DESIGN,),
        weals_unasked,
    ),
    FlagRule(
        "pain",
        "Pain that must be explained",
        "surgeon or physician",
        "Ask whether it is new or getting worse; feel the abdomen; look under the barrier.",
        (DESIGN,),
        pain,
        "You have strong pain. A doctor must look now.",
        told_at={
            Urgency.SAME_DAY: "You have pain. A doctor must look today.",
            Urgency.DAYS: "You have pain. The team will look for the cause within days.",
        },
        adult_figures=True,
    ),
    FlagRule(
        "loin_pain",
        "Loin pain",
        "physician",
        "Temperature, urine and kidney function.",
        (DESIGN,),
        loin_pain,
        "You have pain in your side. A doctor must look today.",
        told_at={Urgency.DAYS: "You have pain in your side. A doctor will look within days."},
        adult_figures=True,
    ),
)
