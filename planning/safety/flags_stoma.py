"""Red flags of the stoma's shape and place: prolapse, bulge, junction, cut."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, MEMORY
from planning.evidence.thresholds import SEPARATION_VERY_DEEP, SILENT_COLO_PAIN, SILENT_ILEO_PAIN
from planning.facts.derive import Facts
from planning.inputs.findings import Bulge, Colour, Prolapse, Separation, StomaKind, Symptom, Turgor
from planning.results.plan import Urgency
from planning.safety.early import may_be_early
from planning.safety.flag import NURSE, FlagRule, Verdict
from planning.safety.flags_colour import DARK

_AT_PROLAPSE: Final = "measurement.prolapse"
_AT_BULGE: Final = "abdomen.bulges"


def prolapse_trapped(facts: Facts) -> Verdict | None:
    m = facts.findings.measurement
    if not m.prolapse:
        return None
    stuck = any(p.reducible is False or p.painful for p in m.prolapse)
    dark = m.colour in (*DARK, Colour.BLACK_BROWN_GREY)
    if not (stuck or dark or m.turgor in (Turgor.HARD, Turgor.COLD)):
        return None
    found = "The prolapse is dark, hard, painful or does not go back."
    return Verdict(Urgency.EMERGENCY, found, _AT_PROLAPSE)


def prolapse_unasked(facts: Facts) -> Verdict | None:
    """Whether it goes back, and whether it hurts, decide between a look and an emergency."""
    open_ = [words for p in facts.findings.measurement.prolapse or () for words in _unasked(p)]
    if not open_:
        return None
    found = f"There is a prolapse; not recorded: {' and '.join(dict.fromkeys(open_))}."
    return Verdict(Urgency.SAME_DAY, found, _AT_PROLAPSE)


def _unasked(prolapse: Prolapse) -> list[str]:
    asked = (
        (prolapse.reducible, "whether it goes back"),
        (prolapse.painful, "whether it hurts"),
    )
    return [words for answer, words in asked if answer is None]


def hernia_trapped(facts: Facts) -> Verdict | None:
    verdicts = [v for b in facts.findings.abdomen.bulges or () if (v := _one_bulge(b, facts))]
    return min(verdicts, key=lambda v: v.urgency.rank, default=None)


def _one_bulge(bulge: Bulge, facts: Facts) -> Verdict | None:
    blocked = facts.feels(Symptom.VOMITING) or _silent(facts)
    signs = facts.feels(Symptom.SEVERE_CRAMPS, Symptom.SWOLLEN_ABDOMEN)
    stuck, hurts = bulge.reducible is False, bool(bulge.painful)
    now = Urgency.EMERGENCY
    if hurts and bulge.reducible is not True:
        how = "does not go back" if stuck else "was not tested for going back"
        return Verdict(now, f"A painful bulge beside the stoma {how}.", _AT_BULGE)
    if blocked or ((stuck or hurts) and signs):
        found = "A bulge beside the stoma, with vomiting, no output, severe cramps or swelling."
        return Verdict(now, found, _AT_BULGE)
    if hurts:
        found = "The bulge beside the stoma is painful; it goes back."
        return Verdict(Urgency.SAME_DAY, found, _AT_BULGE)
    if stuck and not (bulge.painful is False and _stuck_before(facts)):
        found = "The bulge beside the stoma does not go back"
        if bulge.painful is None:
            found += ", and whether it hurts is not recorded"
        return Verdict(Urgency.SAME_DAY, f"{found}.", _AT_BULGE)
    return None


def _silent(facts: Facts) -> bool:
    hours = facts.findings.output.hours_without_output
    if hours is None or facts.kind is StomaKind.UROSTOMY:
        return False
    limit = SILENT_ILEO_PAIN if facts.small_bowel else SILENT_COLO_PAIN
    return hours >= limit.value


def _stuck_before(facts: Facts) -> bool:
    """At the visit before, too, a bulge did not go back and did not hurt."""
    before = facts.history.previous[-1:]
    return any(
        b.reducible is False and b.painful is False
        for visit in before
        for b in visit.abdomen.bulges or ()
    )


def separation_deep(facts: Facts) -> Verdict | None:
    gaps = facts.findings.measurement.junction or ()
    early = may_be_early(facts)
    if not any(_deep(gap, early=early) for gap in gaps):
        return None
    ill = facts.feels(Symptom.FEVER, Symptom.SWOLLEN_ABDOMEN)
    return Verdict(
        Urgency.EMERGENCY if ill else Urgency.SAME_DAY,
        "It runs all round, is very deep or of unknown depth, its base is not visible, or "
        "effluent gets beneath the skin.",
        "measurement.junction",
    )


def _deep(gap: Separation, *, early: bool) -> bool:
    """Depth not recorded counts as very deep while surgery may be recent."""
    unknown = gap.depth_mm is None and early
    very_deep = gap.depth_mm is not None and gap.depth_mm > SEPARATION_VERY_DEEP.value
    unseen = gap.base_visible is False or bool(gap.effluent_under_skin)
    return len(gap.hours) == 12 or unseen or very_deep or unknown


def separation(facts: Facts) -> Verdict | None:
    if not facts.separated:
        return None
    return Verdict(Urgency.DAYS, "Stoma and skin have come apart.", "measurement.junction")


def deep_cut(facts: Facts) -> Verdict | None:
    if not facts.findings.measurement.deep_cut:
        return None
    return Verdict(Urgency.SAME_DAY, "The stoma is cut deeply.", "measurement.deep_cut")


RULES: Final = (
    FlagRule(
        "prolapse_trapped",
        "Prolapse that is dark, hard, painful or fixed",
        "surgeon",
        "Do not try to push it back. Keep it moist and covered.",
        ("atlas",),
        prolapse_trapped,
        "Your stoma has come out and needs a surgeon now. Do not push it.",
    ),
    FlagRule(
        "prolapse_unasked",
        "Prolapse of which too little is recorded",
        NURSE,
        "Ask and look now: does it go back, does it hurt, what colour is it, is it soft? Do not "
        "push it back.",
        (DESIGN,),
        prolapse_unasked,
        within=("prolapse_trapped",),
    ),
    FlagRule(
        "hernia_trapped",
        "Bulge that may be trapped bowel",
        "emergency department",
        "Nothing by mouth; take off any belt. Do not press it back.",
        (DESIGN,),
        hernia_trapped,
        "The lump beside your stoma needs a doctor now. Do not eat or drink.",
        told_at={Urgency.SAME_DAY: "The lump beside your stoma needs a doctor today."},
        adult_figures=True,
    ),
    FlagRule(
        "separation_deep",
        "Deep separation of stoma and skin",
        "surgeon",
        "Look for signs of peritonitis; no firm convexity, no belt.",
        (MEMORY,),
        separation_deep,
        "The edge of your stoma has opened. A surgeon must look now.",
        told_at={Urgency.SAME_DAY: "The edge of your stoma has opened. A surgeon must look today."},
        adult_figures=True,
    ),
    FlagRule(
        "separation",
        "Separation of stoma and skin",
        "surgeon",
        "Record depth and hours; fill, cover and pouch over it.",
        (MEMORY,),
        separation,
        "The edge of your stoma has opened a little. The team will look within days.",
        within=("separation_deep",),
    ),
    FlagRule(
        "deep_cut",
        "Deep cut in the stoma",
        "surgeon",
        "Cut the opening larger; press if it bleeds.",
        ("seekhelp2009",),
        deep_cut,
        "Your stoma has a deep cut. The team must look today.",
    ),
)
