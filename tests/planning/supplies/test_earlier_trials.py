"""Trials from before this record: what is not known of them claims as little as it can."""

from __future__ import annotations

from dataclasses import replace

import pytest

from planning import History, recommend
from planning.inputs.findings import (
    ConvexDepth,
    Degree,
    PouchingSystem,
    Profile,
    Trial,
)
from planning.restraint.staging import on_trial
from planning.supplies.earlier_trials import EarlierOutcome, earlier_trial
from planning.supplies.worn import worn_now
from tests.planning.builders import LOW, situation, well

NO_HELP, HARMED, HELPED = EarlierOutcome.NO_HELP, EarlierOutcome.HARMED, EarlierOutcome.HELPED
CONVEX = PouchingSystem(profile=Profile.CONVEX)
DEEP = replace(CONVEX, convex_depth=ConvexDepth.DEEP)
FIRM = replace(CONVEX, compressibility=Degree.LESS)
EXACT = replace(DEEP, compressibility=Degree.MORE)


@pytest.mark.parametrize(
    ("barrier", "outcome", "counts_as"),
    [
        (CONVEX, NO_HELP, {"soft_convex_shallow"}),
        (DEEP, NO_HELP, {"soft_convex_deep"}),
        (FIRM, HARMED, {"firm_convex_shallow"}),
        (PouchingSystem(profile=Profile.FLAT), NO_HELP, {"flat_flexible"}),
        (PouchingSystem(), NO_HELP, set()),
        # What helped is worn again only where it is certain which it was.
        (CONVEX, HELPED, set()),
        (EXACT, HELPED, {"soft_convex_deep"}),
    ],
)
def test_a_barrier_known_in_part(
    barrier: PouchingSystem, outcome: EarlierOutcome, counts_as: set[str]
) -> None:
    assert earlier_trial(barrier, (), outcome).supplies == counts_as
    assert earlier_trial(barrier, ("ring",), outcome).supplies == counts_as | {"ring"}


@pytest.mark.parametrize(
    ("outcome", "helped", "partly", "hurt"),
    [
        (HELPED, True, False, set()),
        (EarlierOutcome.PARTLY, None, True, set()),
        (NO_HELP, False, False, set()),
        (HARMED, False, False, {"paste"}),
        (EarlierOutcome.UNKNOWN, None, False, set()),
    ],
)
def test_how_it_went(
    outcome: EarlierOutcome, helped: bool | None, partly: bool, hurt: set[str]
) -> None:
    trial = earlier_trial(PouchingSystem(), ("paste",), outcome)
    assert (trial.helped, trial.partly, set(trial.hurt)) == (helped, partly, hurt)
    assert trial.before_record


def test_the_first_step_is_not_what_failed_before_this_record() -> None:
    leaks = well(leak=LOW, protrusion_mm=2.0)
    tried = earlier_trial(CONVEX, (), NO_HELP)
    assert "soft_convex_shallow" in recommend(leaks).supplies
    plan = recommend(leaks, History(trials=(tried,)))
    assert "soft_convex_shallow" not in plan.supplies
    assert any("would not be the first trial of soft convex" in n.text for n in plan.notices)


def test_what_hurt_before_this_record_is_not_begun() -> None:
    leaks = well(leak=LOW, protrusion_mm=2.0)
    plan = recommend(leaks, History(trials=(earlier_trial(CONVEX, (), HARMED),)))
    assert not any("convex" in key for key in plan.supplies)


def test_an_earlier_trial_is_no_plan_that_is_worn_or_waited_for() -> None:
    """Of a plan's extended-wear barrier no field says whether it is worn: the last plan does."""
    earlier = Trial(frozenset({"extended_wear"}), barriers=1, before_record=True)
    for trial, counts in ((earlier, False), (replace(earlier, before_record=False), True)):
        now = situation(well(leak=LOW), History(trials=(trial,)))
        assert ("extended_wear" in worn_now(now.facts).keys) is counts
        assert on_trial(now) is counts
