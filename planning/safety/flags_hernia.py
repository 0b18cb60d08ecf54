"""Red flags of a bulge beside the stoma: known, soft and going back, it is none."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

from planning.evidence.sources import DESIGN
from planning.facts.derive import Facts
from planning.facts.in_words import joined
from planning.inputs.findings import BaselineKind, Bulge, Symptom
from planning.results.plan import Urgency
from planning.safety.baselines import compared
from planning.safety.flag import NURSE, FlagRule, Verdict
from planning.safety.flags_blockage import silent
from planning.safety.known import bulge_known

_AT: Final = "abdomen.bulges"


def hernia_trapped(facts: Facts) -> Verdict | None:
    verdicts = [v for b in facts.findings.abdomen.bulges or () if (v := _one(b, facts))]
    worst = min(verdicts, key=lambda v: v.urgency.rank, default=None)
    if worst is None or worst.urgency is not Urgency.EMERGENCY:
        return worst
    return replace(worst, also="Nothing by mouth.")


def _one(bulge: Bulge, facts: Facts) -> Verdict | None:
    blocked = facts.feels(Symptom.VOMITING) or silent(facts)
    signs = facts.feels(Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN)
    stuck, hurts = bulge.reducible is False, bool(bulge.painful)
    now = Urgency.EMERGENCY
    if hurts and bulge.reducible is not True:
        how = "does not go back" if stuck else "was not tested for going back"
        return Verdict(now, f"A painful bulge beside the stoma {how}.", _AT)
    if bulge.skin_changed:
        return Verdict(now, "The skin over the bulge beside the stoma is red or dark.", _AT)
    if blocked or ((stuck or hurts) and signs):
        found = "A bulge beside the stoma, with vomiting, no output, severe cramps or swelling."
        return Verdict(now, found, _AT)
    if hurts:
        return Verdict(
            Urgency.SAME_DAY, "The bulge beside the stoma is painful; it goes back.", _AT
        )
    if bulge.hard:
        return Verdict(Urgency.SAME_DAY, "The bulge beside the stoma is hard.", _AT)
    if stuck and not (bulge.painful is False and _stuck_before(facts)):
        found = "The bulge beside the stoma does not go back"
        if bulge.painful is None:
            found += ", and whether it hurts is not recorded"
        return Verdict(Urgency.SAME_DAY, f"{found}.", _AT)
    return None


def _stuck_before(facts: Facts) -> bool:
    """Agreed as one that stays out; or at the visit before, too, it did not go back and did not
    hurt."""
    agreed = compared(facts, BaselineKind.BULGE)
    if agreed is not None and agreed.agreed.reducible is False:
        return not agreed.worse
    before = facts.history.previous[-1:]
    return any(
        b.reducible is False and b.painful is False
        for visit in before
        for b in visit.abdomen.bulges or ()
    )


def bulge_unasked(facts: Facts) -> Verdict | None:
    """Not tried whether it goes back, nor asked whether it hurts: both could be an emergency."""
    bulges = facts.findings.abdomen.bulges or ()
    if not any(b.reducible is None and b.painful is None for b in bulges):
        return None
    found = "There is a bulge; not recorded: whether it goes back and whether it hurts."
    return Verdict(Urgency.DAYS, found, _AT)


def bulge_new(facts: Facts) -> Verdict | None:
    """A surgeon's opinion, once; sooner where it is larger than what was agreed."""
    before = compared(facts, BaselineKind.BULGE)
    if before is not None and before.worse:
        found = f"The bulge is not as it was agreed: {joined(before.worse)}."
        return Verdict(Urgency.DAYS, found, _AT)
    fresh = [b for b in facts.findings.abdomen.bulges or () if not bulge_known(b, facts)]
    if not fresh:
        return None
    new = any(b.new for b in fresh)
    found = "The bulge is new." if new else "Whether the bulge is new is not recorded."
    return Verdict(Urgency.TWO_WEEKS, found, _AT)


RULES: Final = (
    FlagRule(
        "hernia_trapped",
        "Bulge that may be trapped bowel",
        "surgeon or emergency department",
        "Take off any belt or garment. Do not press it back.",
        (DESIGN,),
        hernia_trapped,
        "The lump beside your stoma needs a doctor now. Do not eat or drink.",
        told_at={Urgency.SAME_DAY: "The lump beside your stoma needs a doctor today."},
        adult_figures=True,
    ),
    FlagRule(
        "bulge_unasked",
        "Bulge of which too little is recorded",
        NURSE,
        "Ask and feel now, lying down: does it go back by itself, does it hurt, is it hard? Do not "
        "press it back.",
        (DESIGN,),
        bulge_unasked,
        within=("hernia_trapped",),
    ),
    FlagRule(
        "bulge_new",
        "New or changed bulge beside the stoma",
        "surgeon",
        "A surgeon's opinion once. Tell what would make it urgent: hard, painful, vomiting, no "
        "output.",
        (DESIGN,),
        bulge_new,
        "There is a lump beside your stoma. A surgeon will look within two weeks.",
        within=("hernia_trapped",),
        told_at={
            Urgency.DAYS: "The lump beside your stoma has changed. A surgeon will look within days."
        },
    ),
)
