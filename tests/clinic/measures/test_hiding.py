"""What is hidden, and that it stays hidden: every table is attacked by trying all its answers."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from clinic.measures.hiding import NOT_SHOWN, count, is_small, parts, tells


@pytest.mark.parametrize(
    ("number", "told"), [(0, "0"), (1, "fewer than 5"), (4, "fewer than 5"), (5, "5"), (60, "60")]
)
def test_one_to_four_are_hidden(number: int, told: str) -> None:
    assert count(number) == told


@pytest.mark.parametrize(
    ("whole", "some", "told"),
    [(0, 0, False), (4, 0, False), (5, 0, True), (5, 5, True), (90, 1, False), (90, 4, False)],
)
def test_a_rate_needs_enough_of_both(whole: int, some: int, told: bool) -> None:
    assert tells(whole, some) is told


@pytest.mark.parametrize(
    ("numbers", "told", "total"),
    [
        ([0, 0, 0], ["0", "0", "0"], "0"),
        ([5, 0, 7], ["5", "0", "7"], "12"),
        # Beside a small part no large one is told.
        ([3, 0, 20], ["fewer than 5", "0", NOT_SHOWN], "23"),
        ([1, 20, 30], ["fewer than 5", NOT_SHOWN, NOT_SHOWN], "51"),
        # A single small part is its own total.
        ([3, 0, 0], ["fewer than 5", "0", "0"], "fewer than 5"),
        # Two at their most would be 8: the total would tell that both are 4.
        ([4, 4, 0], ["fewer than 5", "fewer than 5", "0"], NOT_SHOWN),
        # 1 and 5: the total 6 would leave nothing but 1 for the small one.
        ([1, 5, 0], ["fewer than 5", NOT_SHOWN, "0"], NOT_SHOWN),
    ],
)
def test_parts_and_their_total(numbers: list[int], told: list[str], total: str) -> None:
    assert parts(numbers) == (told, total)


def consistent(told: list[str], total: str, most: int) -> list[tuple[int, ...]]:
    """Every table that a reader who knows the rule could take the told one for."""
    ranges = []
    for cell in told:
        if cell == "fewer than 5":
            ranges.append(range(1, 5))
        elif cell == NOT_SHOWN:
            ranges.append(range(5, most + 1))
        else:
            ranges.append(range(int(cell), int(cell) + 1))
    tables = list(product(*ranges))
    if total.isdigit():
        return [t for t in tables if sum(t) == int(total)]
    return [t for t in tables if sum(t) < 5] if total == count(1) else tables


@given(st.lists(st.integers(0, 9), min_size=2, max_size=3))
@settings(max_examples=200, deadline=None)
def test_no_small_part_can_be_worked_out(numbers: list[int]) -> None:
    told, total = parts(numbers)
    tables = consistent(told, total, most=sum(numbers))
    for place, number in enumerate(numbers):
        if is_small(number):
            # Where the whole is itself under 5, a part may be known to be under that.
            left = {t[place] for t in tables}
            assert len(left) > 1
            assert total == count(1) or left == {1, 2, 3, 4}
