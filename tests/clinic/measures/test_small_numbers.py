"""What is hidden, and that it stays hidden: every table is attacked by trying all its answers."""

from __future__ import annotations

from collections import defaultdict
from itertools import product

import pytest

from clinic.measures.small_numbers import NOT_SHOWN, can_show, count, is_small, parts, some_of


@pytest.mark.parametrize(
    ("number", "told"), [(0, "0"), (1, "fewer than 5"), (4, "fewer than 5"), (5, "5"), (60, "60")]
)
def test_one_to_four_are_hidden(number: int, told: str) -> None:
    assert count(number) == told


@pytest.mark.parametrize(
    ("whole", "some", "told"),
    [
        (0, 0, False),
        (4, 0, False),
        (5, 0, True),
        (5, 5, True),
        (90, 1, False),
        (90, 4, False),
        (90, 85, True),
        (90, 86, False),
        (90, 89, False),
        (90, 90, True),
    ],
)
def test_a_rate_needs_enough_of_both(whole: int, some: int, told: bool) -> None:
    assert can_show(whole, some) is told


@pytest.mark.parametrize("whole", range(1, 40))
def test_neither_few_with_it_nor_few_without_can_be_worked_out(whole: int) -> None:
    """``whole`` is beside it."""
    for some in range(whole + 1):
        same = [n for n in range(whole + 1) if some_of(whole, n) == some_of(whole, some)]
        if is_small(some) or is_small(whole - some):
            assert len(same) > 1
            assert len({whole - n for n in same}) > 1
        elif whole >= 5:
            assert some_of(whole, some) == str(some)


@pytest.mark.parametrize(
    ("numbers", "told", "total"),
    [
        ([0, 0, 0], ["0", "0", "0"], "0"),
        ([5, 0, 7], ["5", "0", "7"], "12"),
        # Beside a small part no large one is shown.
        ([3, 0, 20], ["fewer than 5", "0", NOT_SHOWN], "23"),
        ([1, 20, 30], ["fewer than 5", NOT_SHOWN, NOT_SHOWN], "51"),
        # A single small part is its own total.
        ([3, 0, 0], ["fewer than 5", "0", "0"], "fewer than 5"),
        # Two small ones of 8 together can only be 4 each: that they are small is not shown.
        ([4, 4, 0], [NOT_SHOWN, NOT_SHOWN, "0"], "8"),
        # A small and a large one of 6 together can only be 1 and 5.
        ([1, 5, 0], [NOT_SHOWN, NOT_SHOWN, "0"], "6"),
    ],
)
def test_parts_and_their_total(numbers: list[int], told: list[str], total: str) -> None:
    assert parts(numbers) == (told, total)


Told = tuple[tuple[str, ...], str]


def answers(parts_of: int, most: int) -> dict[Told, list[tuple[int, ...]]]:
    """Every table with so many parts, by how it is shown: what a reader who knows the rule to the
    letter can work backwards from."""
    found: dict[Told, list[tuple[int, ...]]] = defaultdict(list)
    for table in product(range(most + 1), repeat=parts_of):
        told, total = parts(table)
        found[tuple(told), total].append(table)
    return found


@pytest.mark.parametrize(("parts_of", "most"), [(2, 30), (3, 18)])
def test_no_small_part_can_be_worked_out(parts_of: int, most: int) -> None:
    """Tables near the edge of those tried are left out: their likes lie beyond it."""
    tried = 0
    for (_, total), tables in answers(parts_of, most).items():
        if total.isdigit() and int(total) > most:
            continue
        for place in range(parts_of):
            left = {table[place] for table in tables}
            if any(is_small(n) for n in left):
                tried += 1
                assert len(left) > 1, (total, tables)
    assert tried > parts_of
