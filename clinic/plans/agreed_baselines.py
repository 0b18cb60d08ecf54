"""What is known and accepted in a stoma to the planner's baselines, as of one visit."""

from __future__ import annotations

from datetime import date

from clinic.patients.known_states import known_on
from clinic.patients.models import KnownState, Stoma
from planning.inputs.findings import Baseline, BaselineKind


def baselines_of(stoma: Stoma, on: date) -> tuple[Baseline, ...]:
    """Agreed by the day ``on`` and not ended by then, the last agreed last. One query."""
    return tuple(_baseline(state, on) for state in known_on(stoma.pk, on))


def _baseline(state: KnownState, on: date) -> Baseline:
    return Baseline(
        kind=BaselineKind(state.kind),
        agreed_by=state.agreed_by,
        value=None if state.value is None else float(state.value),
        reducible=state.reducible,
        since_days=float((on - state.since).days) if state.since else None,
        review_in_days=float((state.review_by - on).days) if state.review_by else None,
    )
