"""Whose sheets a clinic prints for one day: of who is due, and of who was seen.

Ticked is what is still to be printed: of who was seen, a sheet that no one printed since the visit
was signed or its sheet was changed; of who is due, one that no one printed today, unless the day
is over. A sheet is in one list only, the new one before the old one.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from django.db.models import Max, Q, QuerySet
from django.utils import timezone

from clinic.documents.models import Kind, PrintedDocument
from clinic.documents.printed.printed_lists import places
from clinic.documents.printed.superseded import LaterVisit, seen_again
from clinic.follow_up.models import FollowUp
from clinic.patients.models import Patient
from clinic.referrals.queries import day_began
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment, Visit

#: More in one list than any clinic sees in a day.
AT_MOST = 300
BY_NAME = ("family_name", "given_name")


@dataclass(frozen=True)
class Row:
    """One sheet by whose it is: nothing clinical. ``place``: which of the visit's stomas, "" where
    it was about one. ``visit_day``: of a visit on another day than the list's. ``printed``: last,
    as it was signed; ``printed_before``: it was printed, but only before that."""

    assessment: Assessment
    place: str
    ticked: bool
    visit_day: date | None = None
    printed: datetime | None = None
    printed_before: bool = False
    newer: LaterVisit | None = None

    @property
    def patient(self) -> Patient:
        return self.assessment.stoma.patient


@dataclass(frozen=True)
class DayLists:
    """``unsigned``: visits of the day whose sheets are not here because they are drafts."""

    due: tuple[Row, ...]
    seen: tuple[Row, ...]
    unsigned: int

    @property
    def rows(self) -> tuple[Row, ...]:
        return (*self.seen, *self.due)

    @property
    def full(self) -> bool:
        """Whether a list may be cut."""
        return AT_MOST in (len(self.due), len(self.seen))


def day_lists(day: date, today: date) -> DayLists:
    """A constant number of queries, however many are due or seen."""
    seen = _seen_on(day)
    known = {one.pk for one in seen}
    due = [one for one in _due_on(day) if one.pk not in known]
    both = [*seen, *due]
    made = _Made(day, today, places(both), _printings(both), seen_again(seen))
    return DayLists(
        due=tuple(made.due(one) for one in due),
        seen=tuple(made.seen(one) for one in seen),
        unsigned=Visit.objects.drafts().filter(_within("happened_at", day)).count(),
    )


def _due_on(day: date) -> list[Assessment]:
    """Who is still to come on ``day``, by name: the visit that asked for it, the stoma's last."""
    found = FollowUp.objects.open().filter(due=day)
    found = found.select_related("set_by__visit", "set_by__stoma__patient", "set_by__sheet_edit")
    named = (f"stoma__patient__{name}" for name in BY_NAME)
    return [one.set_by for one in found.order_by(*named, "id")[:AT_MOST]]


def _seen_on(day: date) -> list[Assessment]:
    """Signed visits of ``day``, and earlier ones signed on it, by name."""
    on_day = _within("visit__happened_at", day) | _within("visit__signed_at", day)
    found: QuerySet[Assessment] = Assessment.objects.filter(
        on_day, visit__state=VisitState.SIGNED
    ).select_related("visit", "stoma__patient", "sheet_edit")
    named = (f"visit__patient__{name}" for name in BY_NAME)
    return list(found.order_by(*named, "visit__happened_at", "id")[:AT_MOST])


def _within(field: str, day: date) -> Q:
    """From the day's first moment in the clinic's time zone to the next day's."""
    after = day_began(day + timedelta(days=1))
    return Q(**{f"{field}__gte": day_began(day), f"{field}__lt": after})


@dataclass(frozen=True)
class _Printed:
    signed: datetime | None
    before: bool


def _printings(about: Iterable[Assessment]) -> dict[int, _Printed]:
    """When the care sheet of each was last printed. Without the files, which no one looks at."""
    sheets = PrintedDocument.objects.filter(kind=Kind.CARE_SHEET, assessment__in=list(about))
    found = (
        sheets.order_by()
        .values("assessment_id")
        .annotate(
            signed_at=Max("printed_at", filter=Q(signed=True)),
            draft_at=Max("printed_at", filter=Q(signed=False)),
        )
    )
    return {
        one["assessment_id"]: _Printed(one["signed_at"], bool(one["draft_at"])) for one in found
    }


@dataclass(frozen=True)
class _Made:
    """What the rows of both lists are made from."""

    day: date
    today: date
    places: dict[int, str]
    printings: dict[int, _Printed]
    again: dict[int, LaterVisit]

    def due(self, one: Assessment) -> Row:
        printed = self._printed(one)
        today = printed.signed and timezone.localdate(printed.signed) == self.today
        return Row(
            assessment=one,
            place=self.places[one.pk],
            ticked=self.day >= self.today and not today,
            visit_day=timezone.localdate(one.visit.happened_at),
            printed=printed.signed,
        )

    def seen(self, one: Assessment) -> Row:
        printed, newer = self._printed(one), self.again.get(one.pk)
        happened = timezone.localdate(one.visit.happened_at)
        edit = getattr(one, "sheet_edit", None)
        stale = bool(printed.signed and edit and edit.changed_at > printed.signed)
        return Row(
            assessment=one,
            place=self.places[one.pk],
            ticked=newer is None and (printed.signed is None or stale),
            visit_day=None if happened == self.day else happened,
            printed=printed.signed,
            printed_before=printed.before and printed.signed is None,
            newer=newer,
        )

    def _printed(self, one: Assessment) -> _Printed:
        return self.printings.get(one.pk, _Printed(None, before=False))
