"""Weight in kg and how it moved."""

from __future__ import annotations

from typing import Final

from planning.facts.derive import Facts
from planning.inputs.findings import Findings

#: Decimals: a binary fraction must not miss 2 kg or 5 % that were lost to the gram.
_GRAMS: Final = 3
_SHARE: Final = 6


def weight_now(findings: Findings) -> float | None:
    """kg at this visit; None: not weighed."""
    return findings.person.weight_kg


def lost(facts: Facts, within_days: float) -> float | None:
    """kg lost since the heaviest weighing of the last ``within_days``; negative: gained. None where
    today or an earlier weighing in that time is lacking."""
    now = weight_now(facts.findings)
    earlier = [w.kg for w in facts.history.weighings if w.days_before <= within_days]
    return None if now is None or not earlier else round(max(earlier) - now, _GRAMS)


def lost_since_last(facts: Facts) -> float | None:
    """kg lost since the weighing before this one, whenever that was."""
    now = weight_now(facts.findings)
    before = min(facts.history.weighings, key=lambda w: w.days_before, default=None)
    return None if now is None or before is None else round(before.kg - now, _GRAMS)


def lost_share(facts: Facts, within_days: float) -> float | None:
    """The same as ``lost``, as a share (0 to 1) of the earlier weight."""
    now, gone = weight_now(facts.findings), lost(facts, within_days)
    if now is None or gone is None or not now + gone:
        return None
    return round(gone / (now + gone), _SHARE)
