from clinic.accounts.permissions import Right
from tests.clinic.access import Row

ROWS = {"measures:clinic": Row(Right.SEE_MEASURES), "measures:csv": Row(Right.SEE_MEASURES)}
