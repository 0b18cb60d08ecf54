"""Clinics of invented stomas, signed visits and barriers, as measures count them."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from typing import Any

from clinic.accounts.models import User
from clinic.measures.period import Period
from clinic.patients.models import Stoma
from clinic.visits.choices import SkinState, VisitState
from clinic.visits.models import Assessment, SkinAssessment, SkinFinding, Visit, WearEpisode
from tests.factories.accounts import UserFactory
from tests.factories.patients import StomaFactory
from tests.factories.visits import AssessmentFactory

YEAR = Period(date(2025, 1, 1), date(2025, 12, 31))
START = date(2025, 3, 3)


def noon(day: date) -> datetime:
    return datetime(day.year, day.month, day.day, 12, tzinfo=UTC)


def sign_off(visit: Visit, by: User | None = None) -> None:
    """Signed as it is: measures count rows, whatever the plan says of them."""
    by = by or visit.clinician
    Visit.objects.filter(pk=visit.pk).update(
        state=VisitState.SIGNED, signed_at=visit.happened_at, signed_by=by
    )


def visited(stoma: Stoma | None = None, day: date = START, **charted: Any) -> Assessment:
    """A signed visit of ``stoma`` on ``day``; ``charted`` goes to ``AssessmentFactory``, whose
    barrier, dated to its own day, is left out."""
    if charted:
        charted["worn"] = None
    made: Assessment = AssessmentFactory(
        stoma=stoma or StomaFactory(), visit__happened_at=noon(day), **charted
    )
    sign_off(made.visit)
    return made


def skin_seen(stoma: Stoma, day: date, damaged: bool | None, kind: str = "erosion") -> None:
    """A signed visit that found the skin damaged, intact or (None) did not record it."""
    made: Assessment = AssessmentFactory(stoma=stoma, visit__happened_at=noon(day))
    state = {True: SkinState.FINDINGS, False: SkinState.INTACT, None: ""}[damaged]
    SkinAssessment.objects.create(assessment=made, state=state)
    if damaged:
        SkinFinding.objects.create(assessment=made, kind=kind, hours=[6])
    sign_off(made.visit)


def worn(made: Assessment, on: date, days: int | None, reason: str = "planned") -> WearEpisode:
    """A barrier recorded at a visit not yet signed; ``days`` None: still on."""
    off = None if days is None else on + timedelta(days)
    return WearEpisode.objects.create(
        assessment=made, on=on, off=off, reason="" if off is None else reason
    )


def stoma() -> Stoma:
    made: Stoma = StomaFactory()
    return made


def lead() -> User:
    made: User = UserFactory(role="lead")
    return made
