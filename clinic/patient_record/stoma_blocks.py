"""Each stoma of the record as one block: worn, seen last, its course in three lines, what next."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from clinic.follow_up.presenters.next_visit import NextVisit, next_visits
from clinic.patients.models import Patient, Stoma
from clinic.plans.presenters.latest_plan import LatestPlan, ShortCourse, latest_plan, short_course
from clinic.teaching.missing import Teaching, teaching_of_each
from clinic.trends.sparklines import Spark, sparks
from clinic.trends.verdicts import Verdict
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment, Photo
from clinic.visits.presenters.clockface import Face, face_of
from clinic.visits.presenters.in_short import system_in_short
from clinic.visits.queries import with_parts


@dataclass(frozen=True)
class StomaBlock:
    """``last``: the last signed assessment; ``draft``: a visit of it is begun and not signed."""

    stoma: Stoma
    draft: bool
    last: Assessment | None
    latest: LatestPlan | None
    photo: Photo | None
    next: NextVisit | None
    course: ShortCourse | None
    teaching: Teaching

    @property
    def start_words(self) -> str:
        """What the button says."""
        if self.draft:
            return "Continue visit"
        return "Start visit" if self.last else "Start the first visit"

    @property
    def turn(self) -> tuple[bool, date, int]:
        """Whose visit comes first: one that is begun, then by the day of the next visit."""
        return (not self.draft, self.next.due if self.next else date.max, self.stoma.pk)

    @property
    def worn(self) -> tuple[str, ...]:
        """As the last plan was decided; where that holds none, as charted at that visit."""
        if self.latest and self.latest.worn:
            return self.latest.worn
        return system_in_short(self.last) if self.last else ()

    @cached_property
    def face(self) -> Face | None:
        """The clock face of the last signed visit."""
        return face_of(self.last, uid=f"face-{self.stoma.pk}") if self.last else None

    @property
    def verdict(self) -> Verdict | None:
        """How the newest change did; None where no plan has changed anything."""
        newest = self.course.newest if self.course else None
        return Verdict(newest.verdict, newest.text) if newest else None

    @cached_property
    def sparks(self) -> tuple[Spark, ...]:
        if self.course is None:
            return ()
        made = self.course
        return sparks(made.series, made.changes, today=made.today, key=f"s{self.stoma.pk}")


def blocks_of(patient: Patient, stomas: Iterable[Stoma]) -> list[StomaBlock]:
    """One block a stoma, in the order given; six queries a stoma beside a constant number."""
    stomas = list(stomas)
    last = _last_signed(stomas)
    drafts = set(_drafts(stomas))
    photos = _last_photos(stomas)
    due = next_visits(patient, clinical=True) if stomas else {}
    teaching = teaching_of_each(stomas)
    return [
        StomaBlock(
            stoma=stoma,
            draft=stoma.pk in drafts,
            last=(seen := last.get(stoma.pk)),
            latest=latest_plan(seen) if seen else None,
            photo=photos.get(stoma.pk),
            next=due.get(stoma.pk),
            course=short_course(stoma) if seen else None,
            teaching=teaching[stoma.pk],
        )
        for stoma in stomas
    ]


def _last_signed(stomas: list[Stoma]) -> dict[int, Assessment]:
    found = (
        with_parts()
        .with_rows("decisions")
        .filter(stoma__in=stomas, visit__state=VisitState.SIGNED)
        .select_related("plan")
        .prefetch_related("referrals__answered_by")
        .order_by("stoma_id", "-visit__happened_at", "-pk")
        .distinct("stoma_id")
    )
    return {one.stoma_id: one for one in found} if stomas else {}


def _drafts(stomas: list[Stoma]) -> Iterable[int]:
    drafts = Assessment.objects.filter(stoma__in=stomas, visit__state=VisitState.DRAFT)
    return drafts.order_by().values_list("stoma_id", flat=True)


def _last_photos(stomas: list[Stoma]) -> dict[int, Photo]:
    """The newest of each, without the picture itself."""
    found = (
        Photo.objects.filter(assessment__stoma__in=stomas)
        .exclude(assessment__visit__state=VisitState.DISCARDED)
        .select_related("assessment__visit")
        .order_by("assessment__stoma_id", "-assessment__visit__happened_at", "-at")
        .distinct("assessment__stoma_id")
    )
    return {one.assessment.stoma_id: one for one in found}
