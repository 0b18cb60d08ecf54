"""Two stomas side by side: one barrier for both, or two that never overlap."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import PRACTICE
from planning.evidence.thresholds import BARRIER_BRIDGE, GAP_TARGET, ONE_BARRIER_UNDER
from planning.inputs.findings import OtherStoma, StomaKind
from planning.recommendations.situations.rule import Situation
from planning.supplies.system_choice import SystemChoice

_NEAR, _BRIDGE = ONE_BARRIER_UNDER.value, BARRIER_BRIDGE.value


def _pouched(chosen: SystemChoice) -> Iterator[OtherStoma]:
    """Those that need a plan: what gives only mucus keeps its dressing while the skin is sound."""
    facts = chosen.situation.facts
    for other in facts.findings.other_stomas or ():
        if not chosen.kept and (not other.rests or facts.troubled):
            yield other


def _with_urine(chosen: SystemChoice) -> bool:
    urine = chosen.situation.facts.kind is StomaKind.UROSTOMY
    return urine and any(not other.rests for other in _pouched(chosen))


def _near(chosen: SystemChoice) -> bool:
    return _nearest(chosen) is not None and not _with_urine(chosen)


def _nearest(chosen: SystemChoice) -> float | None:
    apart = [o.distance_mm for o in _pouched(chosen) if o.distance_mm is not None]
    return min((mm for mm in apart if mm < _NEAR), default=None)


def _far(chosen: SystemChoice) -> bool:
    apart = [o.distance_mm for o in _pouched(chosen) if not o.rests]
    return bool(apart) and all(mm is not None and mm >= _NEAR for mm in apart)


def _shared(chosen: SystemChoice) -> str:
    between = (_nearest(chosen) or 0.0) - 2 * GAP_TARGET.value
    cut = "two holes" if between >= _BRIDGE else "one opening cut for both"
    return (
        "One large barrier and one pouch for both, by one template, and the bridge of skin "
        f"between protected. Two holes while {_BRIDGE:g} mm of barrier stay between, else one "
        f"opening for both (here {max(between, 0.0):g} mm: {cut}); plates never overlap"
    )


ROWS: Final = (
    Situation(
        "one_barrier_for_two",
        "One barrier and pouch for two stomas",
        f"another stoma lies under {_NEAR:g} mm away and gives more than mucus, or leaks reach it",
        _near,
        _shared,
        "Two stomas lie close together.",
        (PRACTICE,),
        "One barrier serves both openings. Let us make the template for it.",
        "other_stomas",
    ),
    Situation(
        "two_barriers",
        "Two systems that do not overlap",
        f"another stoma gives more than mucus and lies {_NEAR:g} mm away or more",
        _far,
        "A barrier and pouch for each stoma, trimmed to meet where they touch, never overlapping",
        "Two stomas lie apart.",
        (PRACTICE,),
        at="other_stomas",
    ),
    Situation(
        "urine_apart",
        "Bowel and urine never share a pouch",
        "a urostomy lies beside another stoma that gives more than mucus",
        _with_urine,
        "Bowel and urine never share a pouch",
        "A urostomy and another stoma lie on one belly.",
        (PRACTICE,),
        at="other_stomas",
    ),
)
