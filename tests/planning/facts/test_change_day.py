"""On which day to change, from a log: nine in ten held, never one bad barrier, never every day."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from planning import recommend
from planning.facts.change_day import ChangeDay, Says, change_day
from planning.facts.change_interval import log_day
from planning.facts.derive import derive
from planning.inputs.findings import (
    Accessory,
    Findings,
    History,
    Pieces,
    PouchKind,
    RemovalReason,
    SkinKind,
    StomaKind,
    Trial,
    WearEpisode,
)
from planning.pipeline import choose
from planning.results.plan import Change, ItemKind, Recommendation
from tests.planning.builders import LOW, raw, seen, situation, well
from tests.planning.sweep import planned

LEAK, OFF, SORE, PLANNED = (
    RemovalReason.LEAK,
    RemovalReason.FELL_OFF,
    RemovalReason.ITCH_OR_PAIN,
    RemovalReason.PLANNED,
)
Ends = Sequence[tuple[float, RemovalReason | None]]


def log(ends: Ends) -> tuple[WearEpisode, ...]:
    return tuple(WearEpisode(days, end) for days, end in ends)


def said(ends: Ends) -> ChangeDay:
    found = change_day(log(ends))
    assert found is not None
    return found


ONE_BAD_IN_TWENTY: Ends = [(5.0, PLANNED)] * 20 + [(1.5, LEAK)]
ONE_BAD_IN_TEN: Ends = [(5.0, PLANNED)] * 9 + [(2.0, LEAK)]
FOUR_OF_TEN: Ends = [(3.0, LEAK)] * 2 + [(4.0, LEAK)] * 2 + [(5.0, PLANNED)] * 6
NO_DAY: Ends = [(2.0, LEAK)] * 2 + [(3.0, LEAK)] + [(3.0, PLANNED)] * 5 + [(4.0, PLANNED)] * 4


# --- the rule, held against the figures of the clinical files ---------------------------------
@pytest.mark.parametrize(
    ("ends", "day", "held"),
    [(ONE_BAD_IN_TWENTY, 5, 0.9524), (ONE_BAD_IN_TEN, 5, 0.9000), (FOUR_OF_TEN, 2, 1.0)],
)
def test_the_day_from_a_log(ends: Ends, day: int, held: float) -> None:
    found = said(ends)
    assert (found.says, found.day) == (Says.DAY, day)
    assert found.held is not None
    assert found.held.value == pytest.approx(held, abs=5e-5)


def test_the_interval_of_the_share() -> None:
    held = said(ONE_BAD_IN_TWENTY).held
    assert held is not None
    assert held.low == pytest.approx(0.7072, abs=5e-5)
    assert held.high == pytest.approx(0.9932, abs=5e-5)
    assert "95 % of 21 barriers in the log held to day 5" in said(ONE_BAD_IN_TWENTY).text
    assert "(95 % interval 71 to 99 %)" in said(ONE_BAD_IN_TWENTY).text


def test_no_day_holds() -> None:
    """Two of twelve leaked on day 2: 83 %."""
    found = said(NO_DAY)
    assert (found.says, found.day) == (Says.NO_DAY, None)
    assert "83 % of 12 barriers held to day 2" in found.text


@pytest.mark.parametrize(("barriers", "says"), [(7, Says.TOO_FEW), (8, Says.DAY)])
def test_eight_barriers_at_least(barriers: int, says: Says) -> None:
    """The leak comes last, so that only the number of barriers decides."""
    assert said([(3.0, PLANNED)] * (barriers - 1) + [(6.0, LEAK)]).says is says


@pytest.mark.parametrize(("still_on", "day"), [(4, 3), (5, 5)])
def test_five_still_on_at_least(still_on: int, day: int) -> None:
    ends: Ends = [(3.0, PLANNED)] * 8 + [(5.0, PLANNED)] * (still_on - 1) + [(6.0, LEAK)]
    assert said(ends).day == day


def test_a_log_of_daily_changes_watched_no_barrier_to_day_2() -> None:
    ends: Ends = [(1.0, PLANNED)] * 11 + [(1.0, LEAK)]
    assert said(ends).says is Says.TOO_FEW


@pytest.mark.parametrize("end", [LEAK, OFF])
def test_a_leak_and_a_lift_count(end: RemovalReason) -> None:
    assert said([(2.0, end)] * 3 + [(4.0, PLANNED)] * 9).says is Says.NO_DAY


@pytest.mark.parametrize("end", [PLANNED, SORE, None])
def test_what_does_not_count_as_a_leak(end: RemovalReason | None) -> None:
    assert change_day(log([(2.0, end)] * 3 + [(4.0, PLANNED)] * 9)) is None


def test_an_extended_wear_barrier_may_be_changed_on_day_3() -> None:
    """All held to day 3, two in three to day 4."""
    ends: Ends = [(4.0, LEAK)] * 4 + [(5.0, PLANNED)] * 8
    found = log_day(derive(well(wear=log(ends)), History()), extended=True)
    assert found is not None
    assert found.day == 3


@pytest.mark.parametrize(
    ("kind", "days"),
    [(StomaKind.ILEOSTOMY, 5.01), (StomaKind.COLOSTOMY, 4.55), (StomaKind.UROSTOMY, 5.02)],
)
def test_without_a_log_a_barrier_is_worn_as_long_as_was_published(
    kind: StomaKind, days: float
) -> None:
    """Richbourg 2008: mean days of wear by kind of stoma."""
    found = recommend(well(kind=kind, leak=LOW)).expected_wear
    assert found is not None
    assert found.days == days


def test_never_beyond_day_7() -> None:
    assert said([(10.0, PLANNED)] * 12 + [(11.0, LEAK)]).day == 7


def test_without_a_leak_a_log_asks_for_no_day() -> None:
    assert change_day(None) is None
    assert change_day(()) is None
    assert change_day(log([(3.0, PLANNED)] * 12)) is None


# --- what the plan says -----------------------------------------------------------------------
def kept(ends: Ends) -> Findings:
    """A system that stays, with skin that asks for advice."""
    return well(wear=log(ends), skin=(seen(SkinKind.HAIR_PUSTULES),))


def advice(found: Findings, *keys: str) -> list[Recommendation]:
    return [one for one in recommend(found).recommendations if one.key in keys]


def test_one_bad_barrier_in_twenty_changes_nothing() -> None:
    (tip,) = advice(kept(ONE_BAD_IN_TWENTY), "wear_interval")
    assert tip.change is Change.KEEP
    assert tip.text.startswith("Keep: change on day 5 at the latest")
    assert str(tip.patient_text).startswith("Change on day 5 at the latest.")


def test_a_shorter_day_is_a_change() -> None:
    (tip,) = advice(kept(FOUR_OF_TEN), "wear_interval")
    assert tip.change is Change.CHANGE
    assert tip.text.startswith("Change on day 2 at the latest")


def test_too_few_keep_the_persons_own_day_and_say_so() -> None:
    found = kept([(1.5, LEAK)] * 2 + [(5.0, PLANNED)] * 3)
    (tip,) = advice(found, "wear_interval", "wear_as_now", "early_leak_cause")
    assert (tip.key, tip.kind, tip.change) == ("wear_as_now", ItemKind.WEAR, Change.KEEP)
    assert "too few" in tip.because[0].text
    assert choose(situation(found)).wear.limit is None


def test_no_day_looks_for_the_cause_and_never_says_every_day() -> None:
    (tip,) = advice(kept(NO_DAY), "wear_interval", "wear_as_now", "early_leak_cause")
    assert tip.key == "early_leak_cause"
    assert "residue left on" in tip.text
    assert tip.text.endswith("if none is found, refit")


def test_raw_skin_goes_before_a_later_day() -> None:
    found = well(wear=log(ONE_BAD_IN_TWENTY), skin=(raw(),))
    assert choose(situation(found)).wear.limit == 3.0


# --- a new system ------------------------------------------------------------------------------
def test_a_log_is_not_carried_over_to_a_new_system() -> None:
    """Flush: a dome is new. Published mean 5.01 days: day 5, whatever the old one did."""
    found = well(wear=log(FOUR_OF_TEN), protrusion_mm=0.0, leak=LOW)
    chosen = choose(situation(found))
    assert chosen.convex
    assert chosen.new_system
    assert chosen.wear.limit == 5.0
    (tip,) = advice(found, "wear_interval")
    assert "starts a new count" in " ".join(reason.text for reason in tip.because)
    assert "Change at once if it itches, burns or leaks." in str(tip.patient_text)


def test_a_new_system_without_a_log_has_nothing_to_count_again() -> None:
    found = well(protrusion_mm=0.0, leak=LOW)
    assert choose(situation(found)).new_system
    assert not advice(found, "wear_interval")


def test_no_build_recorded_is_no_other_build() -> None:
    assert not choose(situation(well(pieces=None))).new_system


def test_what_the_last_plan_chose_is_worn() -> None:
    """No field says that a barrier is extended-wear; the plan before does."""
    found = well(volume_ml_24h=1200.0, leak=LOW, accessories=frozenset({Accessory.RING}))
    chosen = choose(situation(found))
    assert "extended_wear" in chosen.supplies
    assert chosen.new_system
    worn = History(trials=(Trial(frozenset(chosen.keys)),))
    again = choose(situation(found, worn))
    assert "extended_wear" in again.supplies
    assert again.barrier == chosen.barrier
    assert not again.new_system


# --- what may never go together -----------------------------------------------------------------
def test_an_extended_wear_barrier_is_not_changed_before_day_3() -> None:
    found = well(
        wear=log([(3.0, LEAK)] * 4 + [(5.0, PLANNED)] * 6),
        leak=LOW,
        volume_ml_24h=1200.0,
        accessories=frozenset({Accessory.RING}),
    )
    first = choose(situation(found))
    worn = History(trials=(Trial(frozenset(first.keys)),))
    chosen = choose(situation(found, worn))
    assert "extended_wear" in chosen.supplies
    assert not chosen.new_system
    assert chosen.wear.log is not None
    assert chosen.wear.log.says is Says.NO_DAY
    assert change_day(found.wear) is not None
    assert said([(3.0, LEAK)] * 4 + [(5.0, PLANNED)] * 6).day == 2


def test_stripped_skin_does_not_get_both() -> None:
    stripped = seen(SkinKind.STRIPPING, moist=False)
    assert advice(well(leak=LOW, skin=(stripped,)), "wear_longer")
    both = well(leak=LOW, skin=(stripped, raw()))
    assert advice(both, "wear_interval")
    assert not advice(both, "wear_longer")


def test_one_piece_closed_pouches_are_changed_by_the_day() -> None:
    """A barrier that comes off with each pouch needs no latest day."""
    found = well(
        kind=StomaKind.COLOSTOMY,
        pouch=PouchKind.CLOSED,
        pieces=Pieces.ONE,
        wear=log(ONE_BAD_IN_TWENTY),
        skin=(seen(SkinKind.HAIR_PUSTULES),),
    )
    chosen = choose(situation(found))
    assert {"one_piece", "closed"} <= chosen.supplies
    assert chosen.wear.limit == 5.0
    assert not advice(found, "wear_interval")


def test_over_the_sweep_nothing_contradicts_itself() -> None:
    for _, _, plan in planned(600):
        texts = {one.key: one.text for one in plan.recommendations}
        if "wear_interval" in texts:
            assert not {"wear_longer", "change_sooner"} & set(texts)
            day = int(texts["wear_interval"].partition("day ")[2].split()[0])
            assert 2 <= day <= 7
            assert day >= 3 or "extended_wear" not in plan.supplies
