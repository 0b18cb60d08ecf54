"""Red flags of another opening: a fistula, a wound near the stoma, the bowel left behind."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.facts.derive import Facts
from planning.inputs.findings import Discharge, SkinKind, Symptom
from planning.results.plan import Urgency
from planning.safety.early import may_be_early
from planning.safety.flag import FlagRule, Verdict
from planning.safety.signs import belly_pain, fever

_CONTENT: Final = "Bowel content drains from the depth of a wound"


def fistula(facts: Facts) -> Verdict | None:
    """Contained in a well person: in days, and the same day while surgery may be recent."""
    seen = facts.find(SkinKind.FISTULA)
    if not seen:
        return None
    found = "A second opening beside the stoma"
    early, belly = may_be_early(facts), belly_pain(facts) or facts.feels(Symptom.SWOLLEN_ABDOMEN)
    hot, sore = bool(fever(facts)), any(s.finding.pain for s in seen)
    if early and (hot or belly):
        words = f"{found} soon after surgery, with fever or pain in the belly."
        return Verdict(Urgency.EMERGENCY, words, seen[0].path)
    if early or hot or belly or sore:
        ask = "temperature" if fever(facts) is None else ""
        words = f"{found}, soon after surgery or with fever or pain."
        return Verdict(Urgency.SAME_DAY, words, seen[0].path, ask)
    return Verdict(Urgency.DAYS, f"{found}.", seen[0].path)


def wound_leaks(facts: Facts) -> Verdict | None:
    """Not what is spilled into it from the pouch."""
    wounds = facts.findings.wounds or ()
    free = [i for i, wound in enumerate(wounds) if wound.comes_free]
    if not free:
        return _may_come_free(facts)
    now = may_be_early(facts) or bool(fever(facts)) or belly_pain(facts)
    urgency = Urgency.EMERGENCY if now else Urgency.SAME_DAY
    return Verdict(urgency, f"{_CONTENT}.", f"wounds[{free[0]}].comes_free")


def _may_come_free(facts: Facts) -> Verdict | None:
    """Soon after surgery, stool in a wound of which it is not recorded where it comes from."""
    open_ = [
        i
        for i, wound in enumerate(facts.findings.wounds or ())
        if wound.effluent_reaches and wound.comes_free is None
    ]
    if not open_ or not may_be_early(facts):
        return None
    found = "Stool or urine is in a wound soon after surgery; from where is not recorded."
    ask = "does it come out of the wound's depth, or was it spilled from the pouch"
    return Verdict(Urgency.SAME_DAY, found, f"wounds[{open_[0]}].comes_free", ask)


def wound(facts: Facts) -> Verdict | None:
    wounds = facts.findings.wounds
    if not wounds:
        return None
    pus = any(one.pus for one in wounds)
    if pus or fever(facts) or facts.separated:
        found = "An open wound near the stoma, with pus, fever or an edge that parts."
        return Verdict(Urgency.SAME_DAY, found, "wounds[0]")
    return Verdict(Urgency.DAYS, "An open wound near the stoma.", "wounds[0]")


def discharge(facts: Facts) -> Verdict | None:
    """Mucus, or old stool once, is usual."""
    comes = facts.findings.output.discharge
    if comes in (Discharge.PUS, Discharge.BLOOD):
        found = f"There is {comes.value} from the bowel left behind."
        return Verdict(Urgency.SAME_DAY, found, "output.discharge")
    if comes is Discharge.STOOL_AGAIN:
        found = "Stool comes again from the bowel left behind."
        return Verdict(Urgency.DAYS, found, "output.discharge")
    return None


RULES: Final = (
    FlagRule(
        "wound_leaks",
        "Bowel content from a wound",
        "surgeon",
        "A leak inside must be thought of. Contain it; seal nothing over it. Take temperature and "
        "pulse; feel the abdomen.",
        (DESIGN,),
        wound_leaks,
        "Something comes out of your wound. A surgeon must look now.",
        told_at={Urgency.SAME_DAY: "Something comes out of your wound. A surgeon must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "fistula",
        "Fistula beside the stoma",
        "surgeon or gastroenterologist",
        "Pouch both openings: within the barrier's outline one opening cut to take in both, the "
        "skin between covered; further out a second pouch or a dressing, never sealed under the "
        "barrier. No convexity, belt or firm plate over it or within 10 mm of it.",
        (MEMORY, DESIGN),
        fistula,
        "There is a second opening. A doctor will look within days.",
        told_at={
            Urgency.EMERGENCY: "There is a second opening. A doctor must look now.",
            Urgency.SAME_DAY: "There is a second opening. A doctor must look today.",
        },
        adult_figures=True,
    ),
    FlagRule(
        "wound",
        "Open wound near the stoma",
        "surgeon or wound team",
        "Dress it first and keep stool out of it, so that each can be changed without the other. "
        "No barrier on the wound bed.",
        (PRACTICE,),
        wound,
        "You have a wound near your stoma. The team will look within days.",
        told_at={Urgency.SAME_DAY: "You have a wound near your stoma. The team must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "discharge",
        "Discharge from the bowel left behind",
        "surgeon",
        "Look where it comes from. Mucus, or old stool once, is usual.",
        (PRACTICE,),
        discharge,
        "What comes out is not usual. A surgeon must look today.",
        told_at={
            Urgency.DAYS: "What comes out is not usual. A surgeon will look within days.",
        },
    ),
)
