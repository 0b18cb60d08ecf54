"""Weight in kg and how it moved: the one place that knows where a weighing is recorded."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from planning.facts.derive import Facts
from planning.inputs.findings import Findings, History


@dataclass(frozen=True, slots=True)
class Weighing:
    """``days_ago`` before this visit; 0 at it."""

    kg: float
    days_ago: float


def weight_now(findings: Findings) -> float | None:
    """kg at this visit; None: not weighed."""
    kg: Any = getattr(findings, "weight_kg", None)
    return None if kg is None else float(kg)


def weighings(facts: Facts) -> tuple[Weighing, ...]:
    """Every weighing with its day, newest first."""
    now = weight_now(facts.findings)
    today = () if now is None else (Weighing(now, 0.0),)
    return (*today, *sorted(_earlier(facts.history), key=lambda w: w.days_ago))


def _earlier(history: History) -> tuple[Weighing, ...]:
    found: Any = getattr(history, "weights", ())
    return tuple(Weighing(float(w.kg), float(w.days_ago)) for w in found)


def lost(facts: Facts, within_days: float) -> float | None:
    """kg lost since the heaviest weighing of the last ``within_days``; negative: gained. None where
    today or an earlier weighing in that time is lacking."""
    now = weight_now(facts.findings)
    earlier = [w.kg for w in weighings(facts) if 0 < w.days_ago <= within_days]
    return None if now is None or not earlier else max(earlier) - now


def lost_since_last(facts: Facts) -> float | None:
    """kg lost since the weighing before this one, whenever that was."""
    now = weight_now(facts.findings)
    before = next((w for w in weighings(facts) if w.days_ago > 0), None)
    return None if now is None or before is None else before.kg - now


def lost_share(facts: Facts, within_days: float) -> float | None:
    """The same as a share (0 to 1) of the earlier weight."""
    now, gone = weight_now(facts.findings), lost(facts, within_days)
    return None if now is None or gone is None or now + gone == 0 else gone / (now + gone)
