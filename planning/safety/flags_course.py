"""Red flags that only the course over time shows: no healing, a lump that stays.

Time between two visits follows from the days since surgery recorded at both.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import HEALING_DAYS, LUMP_DAYS
from planning.facts.derive import Facts
from planning.geometry.burden import skin_burden
from planning.geometry.outline import outline_of
from planning.inputs.findings import Findings, SkinKind
from planning.results.plan import Urgency
from planning.safety.flag import FlagRule, Verdict


def _earlier(facts: Facts, at_least_days: float) -> Iterator[Findings]:
    """Previous visits at least so many days ago; visits without dates are left out."""
    today = facts.findings.stoma.days_since_surgery
    for previous in facts.history.previous:
        then = previous.stoma.days_since_surgery
        if today is not None and then is not None and today - then >= at_least_days:
            yield previous


def _not_healing(facts: Facts) -> Verdict | None:
    if not facts.burden_mm2:
        return None
    for previous in _earlier(facts, HEALING_DAYS.value):
        before = skin_burden(previous.skin, outline_of(previous.measurement))
        if before and facts.burden_mm2 >= before:
            found = f"The sore area was {before:.0f} mm² and is {facts.burden_mm2:.0f} mm² now."
            return Verdict(Urgency.TWO_WEEKS, found, "skin")
    return None


def _lasting_lump(facts: Facts) -> Verdict | None:
    lumps = (SkinKind.GRANULOMA, SkinKind.HARD_LUMP)
    seen = facts.find(*lumps)
    for previous in _earlier(facts, LUMP_DAYS.value):
        if seen and any(f.kind in lumps for f in previous.skin or ()):
            found = "A lump at the stoma has lasted for more than 4 weeks."
            return Verdict(Urgency.TWO_WEEKS, found, seen[0].path)
    return None


RULES: Final = (
    FlagRule(
        "not_healing",
        "Skin no better after two weeks",
        "physician",
        "Think again about the cause; refer.",
        (DESIGN,),
        _not_healing,
        adult_figures=True,
    ),
    FlagRule(
        "lasting_lump",
        "Lump that has lasted",
        "surgeon, for a biopsy",
        "Refer regardless of symptoms.",
        ("stomacancer2015/biopsy", DESIGN),
        _lasting_lump,
        within=("lump",),
        adult_figures=True,
    ),
)
