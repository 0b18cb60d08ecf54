"""The visits of a patient, newest first: each with what was found and what was changed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db.models import Prefetch

from clinic.paging import leaf
from clinic.patients.models import Patient
from clinic.plans.course import changes_of
from clinic.visits.models import Assessment, Visit
from clinic.visits.presenters.in_short import found_in_short
from clinic.visits.queries import with_parts

A_PAGE = 12


@dataclass(frozen=True)
class SeenStoma:
    """One stoma at one visit; ``changed``: what its plan changed, () where not signed."""

    assessment: Assessment
    found: str
    changed: tuple[str, ...]


@dataclass(frozen=True)
class VisitLine:
    """One visit with every stoma that was seen at it."""

    visit: Visit
    seen: tuple[SeenStoma, ...]


def visit_lines(patient: Patient, asked: Any) -> dict[str, Any]:
    """A page of them for the template; a constant number of queries."""
    rows = (
        Visit.objects.filter(patient=patient)
        .exclude(state="discarded")
        .select_related("clinician")
        .prefetch_related(Prefetch("assessments", queryset=with_parts()), "addenda")
    )
    page = leaf(rows, asked, size=A_PAGE)
    seen = [one for visit in page.rows for one in visit.assessments.all()]
    changed = changes_of(seen)
    lines = [
        VisitLine(
            visit,
            tuple(
                SeenStoma(one, found_in_short(one), changed.get(one.pk, ()))
                for one in visit.assessments.all()
            ),
        )
        for visit in page.rows
    ]
    return {"visits": lines, "visits_leaf": page}
