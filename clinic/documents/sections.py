"""What this app adds to a patient's page."""

from django.http import HttpRequest

from clinic.accounts.permissions import Right, may
from clinic.documents.printed.printed_lists import papers_of
from clinic.patients.models import Patient
from clinic.patients.sections import Section


def papers_section(request: HttpRequest, patient: Patient) -> Section | None:
    """Papers of signed visits by date, with nothing clinical: the front desk prints here.

    People who see the visits find them there.
    """
    if not may(request.user, Right.PRINT) or may(request.user, Right.SEE_CLINICAL):
        return None
    rows = papers_of(request.user, patient)  # type: ignore[arg-type]
    return Section("Papers", "documents/printed/_papers.html", {"rows": rows})
