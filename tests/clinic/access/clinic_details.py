from typing import Any

from clinic.accounts.permissions import Right
from tests.clinic.access import Row
from tests.factories.clinic_details import HolidayFactory


def holiday() -> dict[str, Any]:
    return {"holiday": HolidayFactory().uuid}


ROWS = {
    "clinic_details:edit": Row(Right.KEEP_CLINIC),
    "clinic_details:holiday_add": Row(Right.KEEP_CLINIC),
    "clinic_details:holiday_remove": Row(Right.KEEP_CLINIC, holiday),
}
