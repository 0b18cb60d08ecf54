"""What earlier plans taught: what failed, what helped, what lifts more than what failed."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    ConvexDepth,
    Degree,
    History,
    Profile,
    Trial,
)
from planning.supplies.catalogue import CONVEX
from planning.supplies.trials import failed, hurt, proven, stronger_than_failed, too_strong
from planning.supplies.worn import worn_before, worn_now
from tests.planning.builders import LOW, situation, well

SOFT = {f"soft_convex_{depth}" for depth in ("shallow", "moderate", "deep")}
FIRM = {f"firm_convex_{depth}" for depth in ("shallow", "moderate", "deep")}
RING = frozenset({Accessory.RING})
DOME: dict[str, Any] = {
    "profile": Profile.CONVEX, "convex_depth": ConvexDepth.MODERATE,
    "compressibility": Degree.MORE, "flexibility": None, "accessories": RING,
}  # fmt: skip
ABOVE_SOFT_MODERATE = {
    "soft_convex_deep",
    "firm_convex_moderate",
    "firm_convex_deep",
}


def trial(*keys: str, helped: bool | None = False, harmed: set[str] | None = None) -> Trial:
    return Trial(frozenset(keys), helped=helped, hurt=frozenset(harmed or ()))


def history(*trials: Trial) -> History:
    return History(trials=trials)


@pytest.mark.parametrize(
    ("tried", "keys", "was"),
    [
        (trial("flat_flexible", "ring"), ("flat_flexible", "ring"), True),
        # Either flat barrier counts as the other.
        (trial("flat_firm", "ring"), ("flat_flexible", "ring"), True),
        (trial("flat_flexible"), ("flat_flexible", "ring"), False),
        (trial("soft_convex_deep", "ring"), ("flat_flexible", "ring"), False),
        (trial("flat_flexible", "ring", helped=True), ("flat_flexible", "ring"), False),
        (trial("flat_flexible", "ring", helped=None), ("flat_flexible", "ring"), False),
    ],
)
def test_what_failed(tried: Trial, keys: tuple[str, ...], was: bool) -> None:
    assert failed(history(trial("strip", helped=True), tried), *keys) is was


@pytest.mark.parametrize(
    ("tried", "above"),
    [
        ((), CONVEX),
        ((trial("flat_firm", "ring"),), CONVEX),
        ((trial("soft_convex_shallow"),), CONVEX - {"soft_convex_shallow"}),
        ((trial("soft_convex_moderate"),), ABOVE_SOFT_MODERATE),
        ((trial("firm_convex_moderate"),), {"soft_convex_deep", "firm_convex_deep"}),
        ((trial("firm_convex_deep"),), set()),
        # More than every one that failed.
        ((trial("firm_convex_shallow"), trial("soft_convex_moderate")), ABOVE_SOFT_MODERATE),
        # What helped since, or is not known yet.
        ((trial("firm_convex_deep"), trial("ring", helped=True)), CONVEX),
        ((trial("firm_convex_deep", helped=None),), CONVEX),
        ((trial("soft_convex_moderate"), trial("ring", helped=None)), ABOVE_SOFT_MODERATE),
    ],
)
def test_a_step_up_lifts_more_than_all_that_failed(
    tried: tuple[Trial, ...], above: set[str]
) -> None:
    """Common practice: from flat to soft convex, then deeper or firmer."""
    facts = situation(well(), history(*tried)).facts
    assert stronger_than_failed(facts, CONVEX) == above


@pytest.mark.parametrize(
    ("changes", "above"),
    [
        ({"leak": LOW}, ABOVE_SOFT_MODERATE),
        ({}, CONVEX),
        # A ring may still help; an opening too wide or a bulge explains the leak.
        ({"leak": LOW, "accessories": None}, CONVEX),
        ({"leak": LOW, "opening_length_mm": 44.0, "opening_width_mm": 44.0}, CONVEX),
        ({"leak": LOW, "bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}, CONVEX),
        # How deep or how soft is not known, or it is flat.
        ({"leak": LOW, "convex_depth": None}, CONVEX),
        ({"leak": LOW, "profile": Profile.FLAT, "convex_depth": None, "compressibility": None,
          "flexibility": Degree.MORE}, CONVEX),
    ],
)  # fmt: skip
def test_a_dome_that_leaks_in_spite_of_a_ring_has_failed(
    changes: dict[str, Any], above: set[str]
) -> None:
    facts = situation(well(**(DOME | changes))).facts
    assert stronger_than_failed(facts, CONVEX) == above


def test_what_is_proven_is_what_helped_last_less_what_hurt() -> None:
    helped = trial("ring", "belt", helped=True, harmed={"belt"})
    assert proven(history(trial("strip", helped=True), helped, trial("paste"))) == {"ring"}
    assert proven(history(helped, trial("powder", "ring", harmed={"ring"}))) == set()
    assert proven(history(trial("ring"), trial("ring", helped=None))) == set()
    assert hurt(history(helped, trial("ring", harmed={"ring"}))) == {"belt", "ring"}


@pytest.mark.parametrize(
    ("harmed", "left"),
    [
        (set(), CONVEX | {"flat_firm"}),
        ({"belt"}, CONVEX | {"flat_firm"}),
        ({"flat_flexible"}, CONVEX | {"flat_firm"}),
        # The barrier that hurt has a reason of its own.
        ({"flat_firm"}, {"flat_firm"}),
        ({"soft_convex_shallow"}, {"soft_convex_shallow"}),
        ({"soft_convex_deep"}, SOFT),
        ({"firm_convex_shallow"}, {"soft_convex_shallow", "firm_convex_shallow", "flat_firm"}),
    ],
)
def test_after_an_injury_only_what_presses_less_is_left(harmed: set[str], left: set[str]) -> None:
    barriers = CONVEX | {"flat_firm"}
    known = history(trial("ring", harmed=harmed))
    assert barriers - too_strong(known, barriers) == left


def test_steps_behind_are_what_is_worn_for_certain_and_what_failed_since_a_success() -> None:
    facts = situation(
        well(**DOME),
        history(trial("paste"), trial("strip", helped=True), trial("powder"),
                trial("belt", helped=None)),
    ).facts  # fmt: skip
    now, *before = worn_before(facts, worn_now(facts))
    assert {"soft_convex_moderate", "ring"} <= now
    assert before == [{"powder"}]
    unsure = situation(well(**(DOME | {"convex_depth": None}))).facts
    (only,) = worn_before(unsure, worn_now(unsure))
    assert only == {"ring", "two_piece", "cut_to_fit", "drainable"}
