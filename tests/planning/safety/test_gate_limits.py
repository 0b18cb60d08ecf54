"""The last gate: for each rule what goes, and what may just stay."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    Condition,
    Degree,
    Person,
    Profile,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
)
from planning.safety.gate import passed
from tests.planning.builders import LOW, raw, seen, situation, well

SOFT, FIRM, PLATE = "soft_convex_deep", "firm_convex_shallow", "flat_firm"
EVERYTHING = frozenset({SOFT, FIRM, PLATE, "belt", "ring", "closed"})
DOMES = {SOFT, FIRM}
BELT: dict[str, Any] = {"accessories": frozenset({Accessory.BELT})}
DOME: dict[str, Any] = {"profile": Profile.CONVEX, "flexibility": None}
PLATED: dict[str, Any] = {"flexibility": Degree.LESS}
COLO: dict[str, Any] = {"kind": StomaKind.COLOSTOMY}
ASSESSED = History(specialist_convexity_assessment=True)
GAP: dict[str, Any] = {"junction": (Separation(LOW, 3.0, True),)}
OUT: dict[str, Any] = {"prolapse": (Prolapse(30.0, True, False),)}
HERNIA: dict[str, Any] = {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)}


def having(*conditions: Condition) -> dict[str, Any]:
    return {"person": Person(has=frozenset(conditions))}


def skin(kind: SkinKind, **how: Any) -> dict[str, Any]:
    return {"skin": (seen(kind, **how),)}


RAYS, LIVER = having(Condition.RADIOTHERAPY_ABDOMEN), having(Condition.LIVER_DISEASE)
FAR: dict[str, Any] = {"inner_mm": 36.0, "outer_mm": 40.0}
NEAR: dict[str, Any] = {"inner_mm": 35.0, "outer_mm": 40.0}


@pytest.mark.parametrize(
    ("changes", "history", "goes"),
    [
        ({}, History(), set()),
        # Veins bar every pressure; a liver that is ill bars only what is begun.
        (skin(SkinKind.DILATED_VEINS), History(), {*DOMES, PLATE, "belt"}),
        *((having(sick), History(), {*DOMES, "belt"}) for sick in (
            Condition.LIVER_DISEASE, Condition.CIRRHOSIS, Condition.PORTAL_HYPERTENSION)),
        (having(Condition.DIABETES), History(), set()),
        (LIVER | BELT, History(), DOMES),
        (LIVER | DOME, History(), {"belt"}),
        (skin(SkinKind.DILATED_VEINS) | BELT, History(), {*DOMES, PLATE, "belt"}),
        (skin(SkinKind.UNDERMINED_ULCER), History(), {*DOMES, "belt"}),
        (skin(SkinKind.ULCER), History(), set()),
        ({"days_since_surgery": 30}, History(), DOMES),
        ({"days_since_surgery": 31}, History(), set()),
        ({"days_since_surgery": None}, History(), set()),
        ({"days_since_surgery": 30}, ASSESSED, set()),
        (GAP, History(), DOMES), (GAP, ASSESSED, set()),
        # A mark that was timed has rules of its own.
        (skin(SkinKind.PRESSURE_MARK), History(), {*DOMES, "belt"}),
        (skin(SkinKind.PRESSURE_MARK, fades_min=20.0), History(), set()),
        (skin(SkinKind.PRESSURE_MARK, stays_min=40.0), History(), set()),
        (skin(SkinKind.BRUISE), History(), {*DOMES, "belt"}),
        (skin(SkinKind.BRUISE, inner_mm=None), History(), {*DOMES, "belt"}),
        (skin(SkinKind.BRUISE, **NEAR), History(), {*DOMES, "belt"}),
        (skin(SkinKind.BRUISE, **FAR), History(), {"belt"}),
        ({"skin": (seen(SkinKind.BRUISE, **FAR), seen(SkinKind.BRUISE))}, History(),
         {*DOMES, "belt"}),
        # Without a size the barrier may end as far out as it can.
        (skin(SkinKind.BRUISE, inner_mm=50.0, outer_mm=55.0)
         | {"length_mm": None, "width_mm": None}, History(), {*DOMES, "belt"}),
        (skin(SkinKind.ERYTHEMA), History(), set()),
        ({"skin": None}, History(), set()),
        *((skin(kind), History(), DOMES) for kind in (
            SkinKind.HARD_LUMP, SkinKind.SPREADING_WARMTH, SkinKind.ABSCESS)),
        (skin(SkinKind.GRANULOMA), History(), set()),
        ({"rod_in_place": True}, History(), DOMES), ({"rod_in_place": False}, History(), set()),
        (OUT, History(), DOMES),
        (HERNIA, History(), set()), (HERNIA | {"leak": LOW}, History(), {FIRM}),
        # A fistula near the barrier; further out the belt goes along its line.
        (skin(SkinKind.FISTULA, hours=ClockHours.of(12), inner_mm=45.0), History(),
         {*DOMES, PLATE, "belt"}),
        # By hand: half of 101.6 mm, less half of 31.6, and 10 more.
        (skin(SkinKind.FISTULA, hours=ClockHours.of(12), inner_mm=45.0)
         | {"length_mm": 31.6, "width_mm": 31.6}, History(), {*DOMES, PLATE, "belt"}),
        (skin(SkinKind.FISTULA, hours=ClockHours.of(12), inner_mm=46.0, outer_mm=50.0), History(),
         set()),
        (skin(SkinKind.FISTULA, hours=ClockHours.of(9), inner_mm=46.0, outer_mm=50.0), History(),
         {"belt"}),
        (skin(SkinKind.FISTULA, hours=ClockHours.of(12), inner_mm=46.0, outer_mm=50.0)
         | {"length_mm": None, "width_mm": None}, History(), {*DOMES, PLATE, "belt"}),
        # Irradiated skin bears what works on it, and nothing new.
        (RAYS, History(), {*DOMES, PLATE, "belt"}),
        (RAYS | DOME, History(), {PLATE, "belt"}),
        (RAYS | PLATED, History(), {*DOMES, "belt"}),
        (RAYS | {"flexibility": None}, History(), {*DOMES, "belt"}),
        (RAYS | BELT, History(), {*DOMES, PLATE}),
        (RAYS | DOME | BELT | {"leak": LOW}, History(), {*DOMES, PLATE, "belt"}),
        (RAYS | DOME | BELT | {"skin": (raw(),)}, History(), {*DOMES, PLATE, "belt"}),
        (RAYS | DOME | BELT | {"skin": None}, History(), {*DOMES, PLATE, "belt"}),
        (RAYS | {"system": None}, History(), {*DOMES, PLATE, "belt"}),
    ],
)  # fmt: skip
def test_what_goes(changes: dict[str, Any], history: History, goes: set[str]) -> None:
    kept = passed(situation(well(**(COLO | changes)), history), EVERYTHING)
    assert EVERYTHING - kept == goes
    barrier = any(key in kept for key in (SOFT, FIRM, PLATE))
    assert ("flat_flexible" in kept) is not barrier


@pytest.mark.parametrize(
    ("kind", "goes"),
    [(StomaKind.UROSTOMY, {"closed"}), (StomaKind.ILEOSTOMY, set()), (StomaKind.COLOSTOMY, set())],
)
def test_no_closed_pouch_on_a_urostomy(kind: StomaKind, goes: set[str]) -> None:
    """Liquid bowel output is no matter of the last gate."""
    assert EVERYTHING - passed(situation(well(kind=kind)), EVERYTHING) == goes
