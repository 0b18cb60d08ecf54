"""A red mark that stays: one step less pressure, the belt first (design value)."""

from __future__ import annotations

from typing import Any

import pytest

from planning.inputs.findings import Accessory, ConvexDepth, Degree, Profile, SkinKind
from planning.supplies.catalogue import CONVEX, FLAT
from planning.supplies.step_down import one_step_less, step_down
from planning.supplies.worn import worn_now
from tests.planning.builders import seen, situation, well

BARRIERS = CONVEX | FLAT | {"concave"}
STAYS = (seen(SkinKind.PRESSURE_MARK, stays_min=40.0),)
BELT = frozenset({Accessory.BELT})


def dome(depth: ConvexDepth | None, feel: Degree | None) -> dict[str, Any]:
    return {"profile": Profile.CONVEX, "convex_depth": depth, "compressibility": feel,
            "flexibility": None}  # fmt: skip


SOFT_MODERATE = dome(ConvexDepth.MODERATE, Degree.MORE)
FIRM_SHALLOW = dome(ConvexDepth.SHALLOW, Degree.LESS)


@pytest.mark.parametrize(
    "ladder",
    [
        ("firm_convex_deep", "firm_convex_moderate", "firm_convex_shallow", "soft_convex_shallow",
         "flat_flexible", None),
        ("soft_convex_deep", "soft_convex_moderate", "soft_convex_shallow", "flat_flexible"),
        ("flat_firm", "flat_flexible"),
        ("concave", None),
    ],
)  # fmt: skip
def test_shallower_then_softer_then_flat(ladder: tuple[str, ...]) -> None:
    assert tuple(map(one_step_less, ladder[:-1])) == ladder[1:]


@pytest.mark.parametrize(
    ("system", "closed", "left"),
    [
        (SOFT_MODERATE, (), {"soft_convex_shallow"}),
        (SOFT_MODERATE, ("soft_convex_shallow",), {"flat_flexible"}),
        (FIRM_SHALLOW, (), {"soft_convex_shallow"}),
        ({"flexibility": Degree.LESS}, (), {"flat_flexible"}),
        # Nothing that presses is worn, or it is not known what.
        ({}, (), BARRIERS),
        (dome(None, Degree.MORE), (), BARRIERS),
        ({"profile": None}, (), BARRIERS),
        # The belt goes first.
        (SOFT_MODERATE | {"accessories": BELT}, (), BARRIERS),
    ],
)
def test_a_mark_that_stays_takes_one_step_off(
    system: dict[str, Any], closed: tuple[str, ...], left: set[str]
) -> None:
    facts = situation(well(skin=STAYS, **system)).facts
    found = step_down(facts, worn_now(facts), closed)
    assert BARRIERS - found.keys() == left
    assert ("belt" in found) is ("accessories" in system)
    words = "steps between may not be worn" if closed else "no more than one"
    assert all(words in reason.text for reason in found.values())
    assert all("more than 30 minutes" in reason.text for reason in found.values())


@pytest.mark.parametrize("skin", [(), (seen(SkinKind.PRESSURE_MARK, fades_min=10.0),)])
def test_without_such_a_mark_nothing_is_taken_off(skin: Any) -> None:
    facts = situation(well(skin=skin, accessories=BELT, **SOFT_MODERATE)).facts
    assert step_down(facts, worn_now(facts), ()) == {}
