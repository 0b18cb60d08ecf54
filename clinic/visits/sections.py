"""What visits add to a patient's record: every visit, newest first, and the way to start one."""

from django.http import HttpRequest

from clinic.accounts.permissions import Right, may
from clinic.patients.models import Patient
from clinic.patients.sections import Section
from clinic.visits.models import Visit


def timeline_section(request: HttpRequest, patient: Patient) -> Section | None:
    """The visits of ``patient``, for anyone who may see clinical detail."""
    if not may(request.user, Right.SEE_CLINICAL):
        return None
    visits = (
        Visit.objects.filter(patient=patient)
        .exclude(state="discarded")
        .select_related("clinician")
        .prefetch_related("assessments__stoma", "addenda")
    )
    return Section(
        title="Visits",
        template="visits/_timeline.html",
        context={"visits": visits, "patient": patient, "may_chart": may(request.user, Right.CHART)},
    )
