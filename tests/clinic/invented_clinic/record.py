"""Short questions to the loaded clinic."""

from clinic.patients.models import Stoma
from clinic.visits.models import Assessment
from fixtures.invented_clinic.courses import everyone


def seen(family: str, stoma_kind: str = "") -> list[Assessment]:
    """A person's signed assessments, oldest first."""
    found = Assessment.objects.filter(visit__patient__family_name=family, visit__state="signed")
    if stoma_kind:
        found = found.filter(stoma__kind=stoma_kind)
    return list(found.order_by("visit__happened_at"))


def kinds(assessment: Assessment) -> set[str]:
    return {finding.kind for finding in assessment.skin_findings.all()}


def families(course: str) -> list[str]:
    return [story.family for story in everyone()[course]]


def stoma_of(family: str, kind: str = "") -> Stoma:
    """The person's only stoma, or the one of this kind."""
    found = Stoma.objects.filter(patient__family_name=family)
    return found.get(kind=kind) if kind else found.get()
