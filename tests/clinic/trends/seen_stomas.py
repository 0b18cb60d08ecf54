"""Stomas seen several times, signed each time through the record's own actions."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

from clinic.patients.models import Stoma
from clinic.visits.models import Assessment
from tests.clinic.plans.signed_visits import accept, reread, sign
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, VisitFactory

EVERY = timedelta(days=28)
HEIGHTS = (24, 20, 15, 12)


def seen(stoma: Stoma, times: int, **visit: Any) -> list[Assessment]:
    """``times`` signed visits four weeks apart; the stoma leaks at every other one."""
    return [_seen(stoma, number, visit) for number in range(times)]


def _seen(stoma: Stoma, number: int, visit: dict[str, Any]) -> Assessment:
    at = HAPPENED_AT + EVERY * number
    situation = {"leaking": True} if number % 2 == 0 else {"well_fitting": True}
    assessment: Assessment = AssessmentFactory.create(
        stoma=stoma,
        visit=VisitFactory.create(patient=stoma.patient, happened_at=at, **visit),
        measurement__protrusion_mm=HEIGHTS[number % len(HEIGHTS)],
        worn__on=at.date() - timedelta(days=4),
        worn__off=at.date() - timedelta(days=1),
        **situation,
    )
    accept(assessment)
    sign(assessment)
    return reread(assessment)
