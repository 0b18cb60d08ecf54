"""Assessments with every part fetched, and which one came before."""

from typing import Any

from django.db.models import Exists, OuterRef, QuerySet

from clinic.visits.models import Assessment
from clinic.visits.rows_at_once import WithRows


def with_parts() -> WithRows[Assessment]:
    """Assessments with every part fetched, in two queries. ``has_others``: another
    stoma was seen at the same visit."""
    others = Assessment.objects.filter(visit=OuterRef("visit")).exclude(pk=OuterRef("pk"))
    found: Any = WithRows(Assessment)  # what is annotated has a type of its own
    parts = found.annotate(has_others=Exists(others)).select_related(
        "visit__patient",
        "visit__clinician",
        "stoma",
        "measurement",
        "skin_assessment",
        "abdomen",
        "output",
        "person_today",
        "system",
    )
    rows: WithRows[Assessment] = parts.with_rows(
        "skin_findings",
        "crease_rows",
        "wear_rows",
        "wound_rows",
        "other_stoma_rows",
        "colour_rows",
        "begun_rows",
        "pending",
        "confirmations",
    )
    return rows.prefetch_related("confirmations__by", "confirmations__against__visit")


def previous_assessment(assessment: Assessment) -> Assessment | None:
    """The last signed assessment of the same stoma before this one, parts fetched."""
    return signed_before(assessment, with_parts())


def signed_before(assessment: Assessment, among: QuerySet[Assessment]) -> Assessment | None:
    """The same, with no more of it fetched than ``among`` does."""
    return (
        among.filter(
            stoma_id=assessment.stoma_id,
            visit__state="signed",
            visit__happened_at__lt=assessment.visit.happened_at,
        )
        .exclude(pk=assessment.pk)
        .order_by("-visit__happened_at")
        .first()
    )
