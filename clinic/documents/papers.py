"""What was printed, listed for whoever may open it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.db.models import QuerySet

from clinic.accounts.models import User
from clinic.documents.models import Kind, PrintedDocument
from clinic.documents.policies import may_open
from clinic.patients.models import Patient, Stoma
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment

#: Newest first; older ones are still stored.
SHOWN = 20
VISITS = 12


def printed_of(user: User, assessment: Assessment) -> list[PrintedDocument]:
    """Every paper of one stoma at one visit that ``user`` may open, newest first."""
    return _opened_by(user, _listed().filter(assessment=assessment))


def diaries_of(user: User, stoma: Stoma) -> list[PrintedDocument]:
    """Diaries belong to the stoma, not to a visit."""
    return _opened_by(user, _listed().filter(stoma=stoma, kind=Kind.DIARY))


@dataclass(frozen=True)
class VisitPapers:
    """One stoma at one signed visit by its day and its place in the visit: no clinical detail.

    ``place``: "" where the visit was about one stoma.
    """

    assessment: Assessment
    place: str
    printed: tuple[PrintedDocument, ...]


def papers_of(user: User, patient: Patient) -> list[VisitPapers]:
    """Signed visits, newest first. A constant number of queries."""
    signed = list(
        Assessment.objects.filter(visit__patient=patient, visit__state=VisitState.SIGNED)
        .select_related("visit__patient", "stoma")
        .order_by("-visit__happened_at", "id")[:VISITS]
    )
    documents = _opened_by(user, _listed().filter(assessment__in=signed))
    held: dict[int, list[PrintedDocument]] = {one.pk: [] for one in signed}
    for document in documents:
        held[document.assessment_id or 0].append(document)
    return [VisitPapers(one, _place(one, signed), tuple(held[one.pk][:SHOWN])) for one in signed]


def _place(about: Assessment, among: Iterable[Assessment]) -> str:
    together = [one.pk for one in among if one.visit_id == about.visit_id]
    if len(together) == 1:
        return ""
    return f"stoma {together.index(about.pk) + 1} of {len(together)}"


def _listed() -> QuerySet[PrintedDocument]:
    """Without the bytes, which a list does not need."""
    return PrintedDocument.objects.select_related("printed_by", "assessment__visit")


def _opened_by(user: User, documents: QuerySet[PrintedDocument]) -> list[PrintedDocument]:
    return [one for one in documents if may_open(user, one)]
