"""Each thing that is asked for where it is not recorded, and not where it is."""

from __future__ import annotations

from typing import Any

import pytest

from planning.facts.missing import RULES
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Bulge,
    Colour,
    Condition,
    Consistency,
    ConvexDepth,
    Crease,
    Person,
    Profile,
    Prolapse,
    SkinKind,
    StomaKind,
    Symptom,
    UrineSign,
)
from planning.results.plan import Urgency
from tests.planning.builders import ALL, LOW, raw, seen, situation, well

Changes = dict[str, Any]
CONVEX = {"profile": Profile.CONVEX, "flexibility": None}
URO = {"kind": StomaKind.UROSTOMY}
OUT = Prolapse(30.0, True, False)
ASKED = {"absent": frozenset(Symptom)}
KNOWN = Person(sensitivities=frozenset(), has_not=frozenset({Condition.LIVER_DISEASE}))
BLISTERS = seen(SkinKind.BLISTERS)

ROWS: list[tuple[str, Changes, Changes]] = [
    ("person.age_years", {"age_years": None}, {}),
    ("system", {"system": None}, {}),
    ("system.leak", {"leak": None}, {}),
    ("system.profile", {"profile": None}, {}),
    ("system.accessories", {"accessories": None}, {}),
    ("system.opening_length_mm", {"opening_length_mm": None}, {}),
    ("system.convex_depth_mm", CONVEX, {**CONVEX, "convex_depth_mm": 3.0}),
    ("system.convex_depth_mm", CONVEX, {**CONVEX, "convex_depth": ConvexDepth.SHALLOW}),
    ("stoma.days_since_surgery", {"days_since_surgery": None}, {}),
    ("measurement.length_mm", {"length_mm": None}, {}),
    ("measurement.protrusion_mm", {"protrusion_mm": None}, {}),
    ("measurement.lumen", {"lumen": None}, {}),
    ("measurement.colour", {"colour": None}, {}),
    ("measurement.turgor", {"colour": Colour.DUSKY, "turgor": None}, {"turgor": None}),
    ("measurement.junction", {"junction": None}, {}),
    ("measurement.prolapse", {"prolapse": None}, {}),
    ("measurement.bleeding", {"bleeding": None}, {}),
    ("measurement.prolapse[].reducible", {"prolapse": (Prolapse(30.0, None, False),)},
     {"prolapse": (OUT,)}),
    ("measurement.widest_mm", {"prolapse": (OUT,)}, {"prolapse": (OUT,), "widest_mm": 45.0}),
    ("skin", {"skin": None}, {"skin": ()}),
    ("skin[].outer_mm", {"skin": (raw(outer_mm=None),)}, {"skin": (raw(),)}),
    ("skin[].outer_mm", {"skin": (raw(inner_mm=None),)},
     {"skin": (seen(SkinKind.DILATED_VEINS, outer_mm=None),)}),
    ("skin[].moist", {"skin": (BLISTERS,)}, {"skin": (seen(SkinKind.BLISTERS, moist=False),)}),
    ("abdomen.bulges", {"bulges": None}, {}),
    ("abdomen.creases", {"creases": None}, {}),
    ("abdomen.firmness", {"protrusion_mm": 0.0}, {"protrusion_mm": 25.0}),
    ("abdomen.creases[].depth_mm", {"creases": (Crease(LOW),)}, {"creases": (Crease(LOW, 4.0),)}),
    ("abdomen.bulges[].height_mm", {"bulges": (Bulge(ClockHours.of(3), 15.0, None, True),)},
     {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True),)}),
    ("abdomen.bulges[].reducible", {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0),)},
     {"bulges": (Bulge(ClockHours.of(3), 15.0, 60.0, True),)}),
    ("output.volume_ml_24h", {"volume_ml_24h": None},
     {"volume_ml_24h": None, "kind": StomaKind.COLOSTOMY}),
    ("output.hours_without_output", {}, {"hours_without_output": 1.0}),
    ("output.consistency", {}, {"consistency": Consistency.PASTE}),
    ("output.urine_signs", URO, {**URO, "urine_signs": frozenset[UrineSign]()}),
    ("output.urine_signs",
     {**URO, "urine_signs": frozenset({UrineSign.PINK}),
      "urine_signs_not_asked": frozenset({UrineSign.BLOOD})},
     {**URO, "urine_signs": frozenset({UrineSign.PINK})}),
    ("output.urine_signs_not_asked",
     {**URO, "urine_signs": frozenset[UrineSign](),
      "urine_signs_not_asked": frozenset({UrineSign.CLOTS})},
     {**URO, "urine_signs": frozenset[UrineSign]()}),
    ("output.present:fever", {}, ASKED),
    ("output.present:little_urine", {}, ASKED),
    ("output.present:dizzy_on_standing", {}, {"kind": StomaKind.COLOSTOMY}),
    ("output.present:loin_pain", URO, {}),
    ("skin[].inner_mm", {"skin": (seen(SkinKind.FISTULA, inner_mm=None),)},
     {"skin": (seen(SkinKind.FISTULA),)}),
    ("person.sensitivities", {"person": Person()}, {"person": KNOWN}),
    ("person.has", {}, {"person": KNOWN}),
]  # fmt: skip


def asked(changes: Changes) -> set[str]:
    facts = situation(well(**changes)).facts
    return {lack.key for lack in RULES if list(lack.where(facts))}


@pytest.mark.parametrize(("key", "without", "with_it"), ROWS)
def test_lack(key: str, without: Changes, with_it: Changes) -> None:
    assert key in asked(without)
    assert key not in asked(with_it)


def test_every_question_has_its_example() -> None:
    keys = [lack.key for lack in RULES]
    assert len(keys) == len(set(keys))
    assert set(keys) == {key for key, *_ in ROWS}


@pytest.mark.parametrize(
    ("how", "urgency"),
    [
        ({"moist": True}, Urgency.DAYS),
        ({"moist": None}, Urgency.DAYS),
        ({"moist": True, "product_outline": None}, Urgency.SAME_DAY),
        ({"moist": False, "enlarging": True}, Urgency.SAME_DAY),
        ({"moist": False, "enlarging": False}, Urgency.TWO_WEEKS),
        ({"moist": False, "enlarging": None}, Urgency.TWO_WEEKS),
        ({"moist": False, "product_outline": None}, Urgency.DAYS),
    ],
)
def test_blisters_inside_one_outline_wait_and_what_is_not_recorded_waits_less(
    how: Changes, urgency: Urgency
) -> None:
    """Small and dry inside the outline two weeks, weeping some days, spreading today (design
    values). Papules are a usual sign of contact allergy and are recorded with blisters: whether
    they weep not recorded counts as the worse of the two, and is asked for."""
    reaction = seen(SkinKind.BLISTERS, ALL, **{"product_outline": True, **how})
    flags = {f.key: f.urgency for f in situation(well(skin=(reaction,))).flags}
    assert flags["blistering"] is urgency
