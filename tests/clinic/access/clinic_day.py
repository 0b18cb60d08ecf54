from clinic.accounts.permissions import Right
from tests.clinic.access import Row

ROWS = {
    "clinic_day:day": Row(Right.SEE_IDENTITY),
}
