"""Weight in kg and how it moved."""

from __future__ import annotations

from planning.facts.derive import Facts
from planning.inputs.findings import Findings


def weight_now(findings: Findings) -> float | None:
    """kg at this visit; None: not weighed."""
    return findings.person.weight_kg


def lost(facts: Facts, within_days: float) -> float | None:
    """kg lost since the heaviest weighing of the last ``within_days``; negative: gained. None where
    today or an earlier weighing in that time is lacking."""
    now = weight_now(facts.findings)
    earlier = [w.kg for w in facts.history.weighings if w.days_before <= within_days]
    return None if now is None or not earlier else max(earlier) - now


def lost_since_last(facts: Facts) -> float | None:
    """kg lost since the weighing before this one, whenever that was."""
    now = weight_now(facts.findings)
    before = min(facts.history.weighings, key=lambda w: w.days_before, default=None)
    return None if now is None or before is None else before.kg - now


def lost_share(facts: Facts, within_days: float) -> float | None:
    """The same as ``lost``, as a share (0 to 1) of the earlier weight."""
    now, gone = weight_now(facts.findings), lost(facts, within_days)
    return None if now is None or gone is None or not now + gone else gone / (now + gone)
