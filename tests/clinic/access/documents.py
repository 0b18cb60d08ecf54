from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.clinic.documents.made_papers import printed_paper
from tests.clinic.documents.made_visits import signed_as_planned
from tests.clinic.plans.signed_visits import referred
from tests.factories.patients import StomaFactory


def signed_assessment() -> dict[str, Any]:
    return {"assessment": signed_as_planned("well_fitting").uuid}


def referral() -> dict[str, Any]:
    return {"referral": referred().uuid}


def stoma() -> dict[str, Any]:
    return {"stoma": StomaFactory().uuid}


def printed() -> dict[str, Any]:
    return {"document": printed_paper(signed_as_planned("well_fitting")).uuid}


ROWS = {
    # A draft asks for the right to chart as well: tests/clinic/documents/printed/test_responses.py.
    "documents:care_sheet": Row(Right.PRINT, signed_assessment),
    "documents:preview": Row(Right.SEE_CLINICAL, signed_assessment),
    "documents:edit_sheet": Row(Right.CHART, signed_assessment),
    # A letter asks for the right to see what is clinical (documents/printed/test_printed.py).
    "documents:printed": Row(Right.PRINT, printed),
    "documents:cutting_template": Row(Right.PRINT, signed_assessment),
    "documents:supplies": Row(Right.SEE_CLINICAL, signed_assessment),
    "documents:codes": Row(Right.CHART, signed_assessment),
    "documents:supply_list": Row(Right.PRINT, signed_assessment),
    # The file asks for the right to print as well (documents/supply_list/test_build.py).
    "documents:supply_list_csv": Row(Right.SEE_CLINICAL, signed_assessment),
    "documents:diary": Row(Right.PRINT, stoma),
    "documents:questions": Row(Right.PRINT, stoma),
    "documents:next_visit_card": Row(Right.PRINT, signed_assessment),
    "documents:living": Row(Right.PRINT, signed_assessment),
    "documents:letter": Row(Right.SEE_CLINICAL, referral),
    "documents:visit_letter": Row(Right.SEE_CLINICAL, signed_assessment),
    "documents:day_sheets": Row(Right.PRINT),
    "documents:day_sheet_ready": Row(Right.PRINT),
}
