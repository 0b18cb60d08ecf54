"""When a ready-cut opening may be offered: each limit met, and just missed."""

from __future__ import annotations

from typing import Any

import pytest

from planning.facts.derive import derive
from planning.inputs.findings import History, Prolapse
from planning.supplies.opening_kind import pre_cut_barred
from planning.supplies.opening_size import OpeningVerdict, Verdict
from planning.supplies.system_choice import opening_kept
from planning.supplies.worn import Worn
from tests.planning.builders import well

YOUNG = "the stoma is not known to be older than 8 weeks"
OVAL = "the stoma is not round"
UNSTABLE = "two equal sizes 14 days apart are not on record"
NO_SIZE = "no usual ready-cut size lies within the gap"
MUSHROOM = "the stoma is wider above than at its base"


def barred(before: dict[str, Any] | None = None, **now: Any) -> str | None:
    """The stoma of 30 mm at 400 days with ``now`` changed, seen the same 14 days earlier but for
    ``before``."""
    found = well(**now)
    days = found.stoma.days_since_surgery
    earlier = {"days_since_surgery": None if days is None else days - 14}
    previous = well(**(now | earlier | (before or {})))
    return pre_cut_barred(derive(found, History(previous=(previous,))))


@pytest.mark.parametrize(
    ("now", "why"),
    [
        ({"days_since_surgery": 56}, None),
        ({"days_since_surgery": 55}, YOUNG),
        ({"days_since_surgery": None}, YOUNG),
        # 14.95 / 13 is 1.15 and 15 / 13 is 1.154; 19.05 mm fits round either.
        ({"length_mm": 14.95, "width_mm": 13.0}, None),
        ({"length_mm": 15.0, "width_mm": 13.0}, OVAL),
        ({"radii_mm": (15.0,) * 12}, OVAL),
        # 25 mm takes 28.575, which leaves 1/8 inch a side across down to 22.225 mm.
        ({"length_mm": 25.0, "width_mm": 22.3}, None),
        ({"length_mm": 25.0, "width_mm": 22.2}, NO_SIZE),
        # 21 mm takes 25.4, which leaves just 1/8 inch a side across 19.05 mm.
        ({"length_mm": 21.0, "width_mm": 19.05}, None),
        # 42 mm lies between 44.45 and 50.8.
        ({"length_mm": 42.0, "width_mm": 42.0}, NO_SIZE),
        ({"widest_mm": 31.0}, MUSHROOM),
        ({"prolapse": (Prolapse(30.0, True, False),)}, MUSHROOM),
        ({"length_mm": None, "width_mm": None}, "the size is not recorded"),
    ],
)
def test_a_ready_cut_opening_needs_an_old_round_stoma_and_a_size_that_fits(
    now: dict[str, Any], why: str | None
) -> None:
    assert barred(**now) == why


@pytest.mark.parametrize(
    ("before", "why"),
    [
        ({}, None),
        ({"days_since_surgery": 387}, UNSTABLE),
        ({"days_since_surgery": None}, UNSTABLE),
        ({"length_mm": 31.0, "width_mm": 31.0}, None),
        ({"length_mm": 29.0, "width_mm": 29.0}, None),
        ({"length_mm": 31.05, "width_mm": 31.05}, UNSTABLE),
        ({"length_mm": 28.95, "width_mm": 28.95}, UNSTABLE),
        ({"length_mm": None, "width_mm": None}, UNSTABLE),
    ],
)
def test_a_ready_cut_opening_waits_for_two_equal_sizes_two_weeks_apart(
    before: dict[str, Any], why: str | None
) -> None:
    """Day 386 is 14 days before day 400; sizes within 1 mm are the same."""
    assert barred(before) == why


def test_any_earlier_visit_with_the_same_size_will_do() -> None:
    """A later visit without a size, or too near, does not hide an earlier one that counts."""
    seen = (
        well(days_since_surgery=300),
        well(days_since_surgery=350, length_mm=None, width_mm=None),
        well(days_since_surgery=395),
    )
    for previous in (seen, seen[::-1]):
        assert pre_cut_barred(derive(well(), History(previous=previous))) is None


@pytest.mark.parametrize(
    ("chosen", "worn", "kept"),
    [(False, False, True), (False, True, True), (True, True, True), (True, False, False)],
)
def test_only_a_new_ready_cut_opening_ends_the_verdict_on_the_one_in_use(
    chosen: bool, worn: bool, kept: bool
) -> None:
    verdict, pre_cut = OpeningVerdict(Verdict.STAYS), frozenset({"pre_cut"})
    none: frozenset[str] = frozenset()
    now = Worn(possible=none, others=pre_cut if worn else none, known=True)
    assert opening_kept(verdict, now, pre_cut if chosen else none) == (verdict if kept else None)
