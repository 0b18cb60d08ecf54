from clinic.accounts.permissions import Right
from tests.clinic.access import Row

ROWS = {
    "measures:clinic": Row(Right.SEE_MEASURES),
    "measures:csv": Row(Right.SEE_MEASURES),
    "measures:tried": Row(Right.SEE_MEASURES),
    "measures:tried_csv": Row(Right.SEE_MEASURES),
    "measures:over_time": Row(Right.SEE_MEASURES),
    "measures:over_time_csv": Row(Right.SEE_MEASURES),
    # It asks for the right to see what is clinical as well (measures/test_people.py).
    "measures:people": Row(
        Right.SEE_MEASURES,
    ),
}
