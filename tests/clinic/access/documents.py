from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.clinic.documents.made_visits import signed_as_planned


def signed_assessment() -> dict[str, Any]:
    return {"assessment": signed_as_planned("well_fitting").uuid}


ROWS = {
    # A draft asks for the right to chart as well: tests/clinic/documents/test_views.py.
    "documents:care_sheet": Row(Right.PRINT, signed_assessment),
}
