"""Each notice: findings in which it is said, and the nearest in which it is not."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bleeding,
    Bulge,
    Colour,
    Condition,
    Consistency,
    Material,
    OpeningKind,
    Person,
    RemovalReason,
    SkinKind,
    StomaKind,
    Symptom,
    Trial,
    WearEpisode,
)
from planning.notices import OF_CHOICE, OF_FINDINGS
from planning.pipeline import choose
from planning.supplies.system_choice import SystemChoice
from tests.planning.builders import LOW, raw, seen, situation, well

RING = frozenset({Accessory.RING})
RING_TRIED = frozenset({"ring"})
Changes = dict[str, Any]
BLEEDS = Bleeding.ON_WIPING
URO = {"kind": StomaKind.UROSTOMY}


def knows(*materials: Material) -> Changes:
    return {"person": Person(sensitivities=frozenset(materials))}


def has(*conditions: Condition) -> Changes:
    return {"person": Person(has=frozenset(conditions))}


def opening(size: float, **more: Any) -> Changes:
    return {"opening_length_mm": size, "opening_width_mm": size, **more}


def worn(days: float) -> Changes:
    return {"wear": (WearEpisode(days, RemovalReason.PLANNED),)}


def leaks(count: int, of: int = 10) -> Changes:
    ends = [RemovalReason.LEAK] * count + [RemovalReason.PLANNED] * (of - count)
    return {"wear": tuple(WearEpisode(3.0, end) for end in ends)}


ROLLED = {"opening_kind": OpeningKind.MOULDABLE}

OF_ONE_VISIT: list[tuple[str, Changes, Changes]] = [
    ("unusual_size", {"length_mm": 9.9}, {"length_mm": 10.0}),
    ("unusual_size", {"length_mm": 2.5, "width_mm": 2.5}, {"length_mm": 25.0, "width_mm": 25.0}),
    ("unusual_size", {"width_mm": 80.1}, {"width_mm": 80.0}),
    ("unusual_size", {"length_mm": 150.0}, {"length_mm": 50.0}),
    ("unusual_size", {"radii_mm": (4.9,) * 12}, {"radii_mm": (5.1,) * 12}),
    ("unusual_size", {"length_mm": 2.5, "width_mm": None}, {"length_mm": None, "width_mm": None}),
    ("from_a_photo", {"length_error_mm": 3.3}, {"length_error_mm": None}),
    ("stands_high", {"protrusion_mm": 50.1}, {"protrusion_mm": 50.0}),
    ("slough", {"colour": Colour.YELLOW_SLOUGH}, {"colour": Colour.PINK_RED}),
    ("oozing", {"bleeding": Bleeding.OOZE_AT_JUNCTION}, {"bleeding": BLEEDS}),
    ("blood_thinners", {**has(Condition.ANTICOAGULANT), "bleeding": BLEEDS},
     {**has(Condition.ANTICOAGULANT), "bleeding": Bleeding.NONE}),
    ("opening_cuts", opening(29.9), opening(30.0)),
    ("opening_rubs", opening(31.9), opening(32.0)),
    ("opening_rubs", opening(30.0), opening(30.0, **ROLLED)),
    ("opening_bare", opening(36.4), opening(36.3)),
    ("liver", has(Condition.LIVER_DISEASE), has()),
    ("alcohol", knows(Material.ALCOHOL), knows(Material.TAPE)),
    ("tape", knows(Material.TAPE), knows(Material.ALCOHOL)),
    ("other_sensitivity", knows(Material.OTHER), knows()),
    ("beyond_barrier", {"skin": (raw(outer_mm=36.0),)}, {"skin": (raw(outer_mm=35.0),)}),
    # A usual barrier ends 35.8 mm from this stoma.
    ("beyond_barrier", {"skin": (raw(inner_mm=35.0, outer_mm=60.0),)},
     {"skin": (raw(inner_mm=36.0, outer_mm=60.0),)}),
    ("no_alcohol", {"skin": (raw(),)}, {"skin": (seen(SkinKind.ERYTHEMA),)}),
    ("warty", {"skin": (seen(SkinKind.WARTY),)}, {"skin": (seen(SkinKind.SCALE),)}),
    ("typing_error", worn(14.5), worn(14.0)),
    ("log_contradicts", {"wear_left_out": 2}, {"wear_left_out": 0}),
    ("remote", {"remote": True}, {"remote": False}),
    ("remote", {"remote": True}, {"remote": None}),
    ("worn_long", worn(7.5), worn(7.0)),
    ("worn_long", worn(7.5), {**worn(7.5), "leak": LOW}),
    ("leaks_often", leaks(2), leaks(1)),
    ("leaks_often", leaks(3), leaks(4)),
    ("leaks_often", leaks(4, of=20), leaks(4, of=21)),
    ("leaks_very_often", leaks(4), leaks(3)),
    ("leaks_very_often", leaks(8, of=20), leaks(8, of=21)),
    ("mixing", {"consistency": Consistency.URINE}, {"consistency": Consistency.PASTE}),
    ("fever", {"present": frozenset({Symptom.FEVER})},
     {"present": frozenset({Symptom.FEVER}), **URO}),
]  # fmt: skip


def said(changes: Changes, history: History | None = None) -> set[str]:
    facts = situation(well(**changes), history).facts
    return {rule.key for rule in OF_FINDINGS if list(rule.look(facts))}


@pytest.mark.parametrize(("key", "with_it", "without"), OF_ONE_VISIT)
def test_notice_from_the_findings(key: str, with_it: Changes, without: Changes) -> None:
    assert key in said(with_it)
    assert key not in said(without)


@pytest.mark.parametrize(("now", "told"), [(50.0, True), (49.9, False)])
def test_risen_since_the_last_visit(now: float, told: bool) -> None:
    """Design value: 25 mm; the notice is ``risen``."""
    before = History(previous=(well(protrusion_mm=25.0),))
    assert ("risen" in said({"protrusion_mm": now}, before)) is told


def test_an_unusual_size_reaches_the_plan_and_says_what_to_do() -> None:
    """An unlikely size is not refused: the plan asks to measure again, and owns up to the limit."""
    for size in (2.5, 150.0):
        notices = recommend(well(length_mm=size, width_mm=size)).notices
        found = next(n for n in notices if "unusual size" in n.text)
        assert found.sources == ("design_value",)
        assert found.text.startswith(f"A stoma of {size:g} mm")
        assert "measure again before anything is cut" in found.text


POWDER = frozenset({Accessory.ANTIFUNGAL_POWDER, Accessory.PROTECTANT})
BULGE = Bulge(ClockHours.of(3), 15.0, 60.0, True, False)
HIGH = Bulge(ClockHours.of(3), 60.0, 60.0, True, False)

OF_THE_CHOICE: list[tuple[str, Changes, Changes]] = [
    ("wide_ring", {"length_mm": 60.0, "width_mm": 60.0, "accessories": RING},
     {"length_mm": 40.0, "width_mm": 40.0, "accessories": RING}),
    ("wide_opening", {"length_mm": 78.0, "width_mm": 78.0, "leak": LOW},
     {"length_mm": 77.0, "width_mm": 77.0, "leak": LOW}),
    ("antifungal_in_use", {"accessories": POWDER},
     {"accessories": POWDER, "skin": (seen(SkinKind.SATELLITES),)}),
]  # fmt: skip


def said_of(chosen: SystemChoice) -> set[str]:
    return {rule.key for rule in OF_CHOICE if list(rule.look(chosen))}


@pytest.mark.parametrize(("key", "with_it", "without"), OF_THE_CHOICE)
def test_notice_from_the_choice(key: str, with_it: Changes, without: Changes) -> None:
    assert key in said_of(choose(situation(well(**with_it))))
    assert key not in said_of(choose(situation(well(**without))))


def test_a_high_step_is_shown_even_where_half_rings_are_worn() -> None:
    """The notice is ``high_step``: half rings in use under a bulge that they cannot level."""
    half = frozenset({Accessory.HALF_RING})
    for bulge, told in ((HIGH, True), (BULGE, False)):
        chosen = choose(situation(well(bulges=(bulge,), leak=LOW, accessories=half)))
        assert "half_ring" in chosen.supplies
        assert ("high_step" in said_of(chosen)) is told


@pytest.mark.parametrize(
    ("tried", "words"),
    [
        (Trial(RING_TRIED, helped=False, before_record=True), "first trial of mouldable ring"),
        (Trial(RING_TRIED, helped=False, hurt=RING_TRIED, before_record=True), "first harm from"),
        # What helped, what is not known, and what a plan of this record began.
        (Trial(RING_TRIED, helped=True, before_record=True), ""),
        (Trial(RING_TRIED, before_record=True), ""),
        (Trial(RING_TRIED, helped=False), ""),
    ],
)
def test_what_failed_before_this_record_is_said(tried: Trial, words: str) -> None:
    """The notice is ``tried_before``."""
    plan = recommend(well(leak=LOW), History(trials=(tried,)))
    found = [n.text for n in plan.notices if "before this record" in n.text]
    assert bool(found) is bool(words)
    assert words in "".join(found)


def test_what_the_gate_held_back_is_said() -> None:
    """The notice is ``held_back``; the gate never acts in a sound rule set."""
    chosen = choose(situation(well()))
    assert "held_back" not in said_of(chosen)
    assert "held_back" in said_of(replace(chosen, held_back=frozenset({"belt"})))


def test_every_notice_has_its_example() -> None:
    named = {key for key, *_ in (*OF_ONE_VISIT, *OF_THE_CHOICE)} | {
        "risen",
        "high_step",
        "tried_before",
    }
    keys = [rule.key for rule in OF_FINDINGS] + [rule.key for rule in OF_CHOICE]
    assert len(keys) == len(set(keys))
    assert set(keys) - named == {"held_back"}
