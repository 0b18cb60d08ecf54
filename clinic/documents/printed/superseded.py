"""What a later visit of the same stoma knows and an older paper does not: days, no finding."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime

from django.db.models import Q, QuerySet
from django.utils import timezone

from clinic.documents.patient_language.lay_terms import long_day
from clinic.documents.patient_language.said import english
from clinic.formatting import day as short_day
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment

#: A visit of which any of these is known measured the stoma.
SIZES = (
    Q(measurement__length_mm__isnull=False)
    | Q(measurement__width_mm__isnull=False)
    | Q(measurement__widest_mm__isnull=False)
    | Q(measurement__radii_mm__isnull=False)
)


@dataclass(frozen=True)
class LaterVisit:
    """The newest later visit that is asked about; ``signed`` is False while it is a draft."""

    assessment: Assessment
    day: date
    signed: bool

    @property
    def words(self) -> str:
        """For a page: *23 Nov 2026*, or *25 Nov 2026 (not signed yet)*."""
        return self._words(short_day(self.day))

    @property
    def long_words(self) -> str:
        """The same for a paper, with the month in full."""
        return self._words(english(long_day(self.day)))

    def _words(self, day: str) -> str:
        return day if self.signed else f"{day} (not signed yet)"


def measured_again(older: Iterable[Assessment]) -> dict[int, LaterVisit]:
    """By id of those of ``older`` that a later visit, signed or not, measured again. One query."""
    states = (VisitState.SIGNED, VisitState.DRAFT)
    return _newest(older, Assessment.objects.filter(SIZES, visit__state__in=states))


def seen_again(older: Iterable[Assessment]) -> dict[int, LaterVisit]:
    """By id of those of ``older`` with a later signed visit of the same stoma. One query."""
    return _newest(older, Assessment.objects.filter(visit__state=VisitState.SIGNED))


def _newest(older: Iterable[Assessment], among: QuerySet[Assessment]) -> dict[int, LaterVisit]:
    about = list(older)
    stomas = {one.stoma_id for one in about}
    found = among.filter(stoma_id__in=stomas).select_related("visit")
    latest: dict[int, Assessment] = {}
    for one in found.order_by("visit__happened_at", "id"):
        latest[one.stoma_id] = one
    return {
        one.pk: _later_visit(latest[one.stoma_id])
        for one in about
        if one.stoma_id in latest and _when(latest[one.stoma_id]) > _when(one)
    }


def _later_visit(found: Assessment) -> LaterVisit:
    return LaterVisit(found, timezone.localdate(_when(found)), found.visit.is_signed)


def _when(one: Assessment) -> datetime:
    return one.visit.happened_at
