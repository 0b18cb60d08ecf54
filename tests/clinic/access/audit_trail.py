from clinic.accounts.permissions import Right
from tests.clinic.access import Row

ROWS = {
    "audit_trail:log": Row(Right.READ_AUDIT),
    "audit_trail:restricted": Row(Right.READ_AUDIT),
}
