from clinic.accounts.permissions import Right
from tests.clinic.access import Row

ROWS = {"audit:log": Row(Right.READ_AUDIT)}
