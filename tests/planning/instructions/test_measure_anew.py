"""What is measured at each visit: a new stoma's size and height, and whatever is changing."""

from datetime import date, timedelta

import pytest

from planning.course.flags_stoma import hernia, prolapse, retraction, size
from planning.instructions.measure_anew import CHANGING, measure_anew

TODAY = date(2026, 5, 6)


@pytest.mark.parametrize(("days", "anew"), [(55, {"size", "height"}), (56, set())])
def test_a_stoma_that_still_shrinks_is_measured_at_each_visit(days: int, anew: set[str]) -> None:
    """The first eight weeks (the statement beside ``SHRINKS_DAYS``)."""
    assert set(measure_anew(TODAY - timedelta(days), TODAY)) == anew


def test_no_one_knows_whether_it_still_shrinks() -> None:
    found = measure_anew(None, TODAY)
    assert set(found) == {"size", "height"}
    assert "not recorded" in found["size"]


@pytest.mark.parametrize(("measured", "flag"), CHANGING.items())
def test_what_is_changing_is_measured(measured: str, flag: str) -> None:
    settled = TODAY - timedelta(400)
    assert measure_anew(settled, TODAY, {flag}) == {measured: "it is changing"}


def test_the_flags_are_those_of_the_stoma() -> None:
    """Each key names a rule of ``flags_stoma``."""
    rules = {rule.__name__ for rule in (hernia, prolapse, retraction, size)}
    assert set(CHANGING.values()) == rules
