"""The worst part of the stoma counts: a part of a colour is judged as a whole stoma of it."""

from __future__ import annotations

from typing import Any

import pytest

from planning import recommend
from planning.facts.missing import missing
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Bleeding,
    Colour,
    ColourPart,
    Findings,
    Profile,
    Prolapse,
    StomaKind,
    Turgor,
    UrineSign,
)
from planning.supplies.hazards import in_force
from tests.planning.builders import situation, well

THREE = ClockHours.of(3)
#: What else is found beside the colour.
BESIDE: list[dict[str, Any]] = [
    {},
    {"days_since_surgery": 4},
    {"turgor": None},
    {"turgor": Turgor.COLD},
    {"bleeding": Bleeding.OOZE_AT_JUNCTION},
    {"kind": StomaKind.UROSTOMY, "urine_signs": frozenset({UrineSign.BLOOD})},
    {"prolapse": (Prolapse(30.0, True, False),)},
    {"age_years": 8},
]


def whole(colour: Colour, **changes: Any) -> Findings:
    return well(colour=colour, **changes)


def part(colour: Colour, **changes: Any) -> Findings:
    """Red, but for one part."""
    parts = (ColourPart(colour, THREE),)
    return well(colour=Colour.PINK_RED, colour_parts=parts, **changes)


def raised(found: Findings) -> set[tuple[str, str]]:
    return {(flag.key, flag.urgency.value) for flag in recommend(found).red_flags}


@pytest.mark.parametrize("beside", BESIDE)
@pytest.mark.parametrize("colour", list(Colour))
def test_a_part_raises_what_the_whole_would(colour: Colour, beside: dict[str, Any]) -> None:
    assert raised(part(colour, **beside)) == raised(whole(colour, **beside))


@pytest.mark.parametrize("colour", list(Colour))
def test_a_part_bars_and_asks_what_the_whole_would(colour: Colour) -> None:
    convex = {"profile": Profile.CONVEX, "turgor": None}
    one, all_of_it = situation(part(colour, **convex)), situation(whole(colour, **convex))
    assert in_force(one) == in_force(all_of_it)
    assert [gap.finding for gap in missing(one.facts)] == [
        gap.finding for gap in missing(all_of_it.facts)
    ]


def test_the_part_is_named_by_its_hours() -> None:
    for colour in (Colour.BLACK_BROWN_GREY, Colour.DUSKY, Colour.PALE, Colour.YELLOW_SLOUGH):
        (said, *_) = [
            reason.text for flag in recommend(part(colour)).red_flags for reason in flag.because
        ]
        assert "at 3 o'clock" in said
        assert "o'clock" not in str([f.because for f in recommend(whole(colour)).red_flags])
