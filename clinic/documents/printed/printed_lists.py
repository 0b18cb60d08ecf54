"""What was printed, listed for anyone who may open it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import Min, Q, QuerySet

from clinic.accounts.models import User
from clinic.documents.kinds import OF_STOMA
from clinic.documents.models import PrintedDocument
from clinic.documents.printed.policies import may_open
from clinic.documents.printed.superseded import LaterVisit, measured_again
from clinic.patients.models import Patient
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment

#: Newest first; older ones are still stored.
SHOWN = 20
VISITS = 12


def printed_of(user: User, assessment: Assessment) -> list[PrintedDocument]:
    """Every paper of one stoma at one visit that ``user`` may open, newest first, with those of the
    stoma alone, such as diaries, printed since, up to its next visit. The first visit also has
    those printed before it."""
    began = assessment.visit.happened_at
    visits = Assessment.objects.exclude(visit__state=VisitState.DISCARDED)
    beside = visits.filter(stoma_id=assessment.stoma_id)
    until = beside.filter(visit__happened_at__gt=began).aggregate(first=Min("visit__happened_at"))[
        "first"
    ]
    of_stoma = Q(kind__in=OF_STOMA, stoma_id=assessment.stoma_id)
    if beside.filter(visit__happened_at__lt=began).exists():
        of_stoma &= Q(printed_at__gte=began)
    if until:
        of_stoma &= Q(printed_at__lt=until)
    return _opened_by(user, _listed().filter(Q(assessment=assessment) | of_stoma))


@dataclass(frozen=True)
class VisitPapers:
    """One stoma at one signed visit by its day and its place in the visit: no clinical detail.

    ``place``: "" where the visit was about one stoma. ``again``: the later visit that measured
    the stoma, so that nothing is cut to this one's size.
    """

    assessment: Assessment
    place: str
    every: tuple[PrintedDocument, ...]
    again: LaterVisit | None

    @property
    def printed(self) -> tuple[PrintedDocument, ...]:
        return self.every[:SHOWN]

    @property
    def more(self) -> int:
        """Older ones that are stored and not listed."""
        return len(self.every) - len(self.printed)


def papers_of(user: User, patient: Patient) -> list[VisitPapers]:
    """Signed visits, newest first. A constant number of queries."""
    signed = list(
        Assessment.objects.filter(visit__patient=patient, visit__state=VisitState.SIGNED)
        .select_related("visit__patient", "stoma")
        .order_by("-visit__happened_at", "id")[:VISITS]
    )
    of_stoma = Q(kind__in=OF_STOMA, stoma__in={one.stoma_id for one in signed})
    documents = _opened_by(user, _listed().filter(Q(assessment__in=signed) | of_stoma))
    held: dict[int | None, list[PrintedDocument]] = {one.pk: [] for one in signed}
    first = _first_visits(signed)
    for document in documents:
        about = document.assessment_id or _visit_before(document, signed, first)
        held.get(about, []).append(document)
    where, again = places(signed), measured_again(signed)
    return [
        VisitPapers(one, where[one.pk], tuple(held[one.pk]), again.get(one.pk)) for one in signed
    ]


def _visit_before(
    paper: PrintedDocument, signed: Iterable[Assessment], first: set[int]
) -> int | None:
    """Of ``signed``, newest first, the stoma's last visit when ``paper`` was printed; its first
    where there was none yet."""
    of_stoma = (one for one in signed if one.stoma_id == paper.stoma_id)
    before = (
        one.pk for one in of_stoma if one.visit.happened_at <= paper.printed_at or one.pk in first
    )
    return next(before, None)


def _first_visits(signed: Iterable[Assessment]) -> set[int]:
    """Ids of those of ``signed`` that no signed visit of the same stoma came before. One query."""
    asked = list(signed)
    of_stomas = Assessment.objects.filter(
        stoma__in={one.stoma_id for one in asked}, visit__state=VisitState.SIGNED
    )
    began = of_stomas.order_by().values("stoma_id").annotate(at=Min("visit__happened_at"))
    at = {one["stoma_id"]: one["at"] for one in began}
    return {one.pk for one in asked if one.visit.happened_at == at[one.stoma_id]}


def places(about: Iterable[Assessment]) -> dict[int, str]:
    """By id: *stoma 1 of 2* of its visit, "" where the visit was about one. One query."""
    asked = list(about)
    visits: dict[int, list[int]] = {one.visit_id: [] for one in asked}
    together = Assessment.objects.filter(visit_id__in=visits).order_by("id")
    for visit, one in together.values_list("visit_id", "pk"):
        visits[visit].append(one)
    return {one.pk: _place(one.pk, visits[one.visit_id]) for one in asked}


def _place(one: int, together: list[int]) -> str:
    if len(together) == 1:
        return ""
    return f"stoma {together.index(one) + 1} of {len(together)}"


def _listed() -> QuerySet[PrintedDocument]:
    """Without the bytes, which a list does not need."""
    return PrintedDocument.objects.select_related("printed_by", "assessment__visit")


def _opened_by(user: User, documents: QuerySet[PrintedDocument]) -> list[PrintedDocument]:
    return [one for one in documents if may_open(user, one)]
