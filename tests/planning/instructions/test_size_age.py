"""A size is cut to only while it is new: either side of each limit."""

import pytest

from planning.instructions.size_age import too_old


@pytest.mark.parametrize(
    ("days", "since_surgery", "old"),
    [
        (30, 400, False),
        (31, 400, True),
        (30, 56, False),
        (8, 55, True),
        (7, 55, False),
        (8, None, True),  # no one knows whether it still shrinks
        (7, None, False),
    ],
)
def test_older_than_30_days_or_7_in_the_first_8_weeks(
    days: int, since_surgery: int | None, old: bool
) -> None:
    assert too_old(days, since_surgery) is old
