"""Visits decided on and signed, through the record's own actions."""

from typing import Any

from django.http import QueryDict
from django.utils import timezone

from clinic.charting.page import decision_forms
from clinic.plans.actions.decide import accept_all
from clinic.plans.actions.sign import sign_visit
from clinic.plans.draft_plan import draft_plan
from clinic.referrals.models import Referral
from clinic.visits.chart import Chart
from clinic.visits.merging import as_posted
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts
from tests.clinic.visits.posting import posted
from tests.factories.visits import AssessmentFactory


def reread(assessment: Assessment) -> Assessment:
    """As stored now, every part fetched."""
    return with_parts().get(pk=assessment.pk)


def posted_page(assessment: Assessment, **changes: Any) -> QueryDict:
    """What the whole visit page would post, decisions included, with some fields changed."""
    stored = reread(assessment)
    data = posted(stored, **changes)
    for name, values in as_posted(Chart(stored), decision_forms(stored)).items():
        if name.startswith("decision-"):
            data.setlist(name, values)
    return data


def accept(assessment: Assessment) -> None:
    """Accept whatever the plan says now."""
    stored = reread(assessment)
    planned = draft_plan(stored).planned
    assert planned is not None
    accept_all(planned, stored)


def sign(assessment: Assessment) -> None:
    """Sign the visit of ``assessment`` as its clinician."""
    visit = assessment.visit
    sign_visit(visit=visit, by=visit.clinician, at=timezone.now())


def signed(**traits: Any) -> Assessment:
    """A signed assessment, leaking unless ``traits`` say otherwise."""
    assessment: Assessment = AssessmentFactory(**(traits or {"leaking": True}))
    accept(assessment)
    sign(assessment)
    return reread(assessment)


def referred() -> Referral:
    """An emergency referral without an answer: a black stoma."""
    assessment = AssessmentFactory(leaking=True, measurement__colour="black_brown_grey")
    accept(assessment)
    sign(assessment)
    return Referral.objects.filter(urgency="emergency", assessment=assessment)[0]
