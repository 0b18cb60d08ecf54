"""Assessments with every part fetched, and which one came before."""

from django.db.models import Exists, OuterRef, QuerySet

from clinic.visits.models import Assessment


def with_parts() -> QuerySet[Assessment]:
    """Assessments with every part fetched: a constant number of queries. ``has_others``: another
    stoma was seen at the same visit."""
    others = Assessment.objects.filter(visit=OuterRef("visit")).exclude(pk=OuterRef("pk"))
    found = Assessment.objects.annotate(has_others=Exists(others)).select_related(
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
    return found.prefetch_related(
        "skin_findings",
        "crease_rows",
        "wear_rows",
        "wound_rows",
        "other_stoma_rows",
        "colour_rows",
        "begun_rows",
        "pending",
        "confirmations__by",
        "confirmations__against__visit",
    )


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
