"""Causes of a leak: each reason with findings that call for it and findings that do not."""

from __future__ import annotations

import pytest

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    Consistency,
    Contour,
    Crease,
    LumenPosition,
    Profile,
    Prolapse,
    RemovalReason,
    StomaKind,
    WearEpisode,
)
from tests.planning.builders import ALL, LOW, raw
from tests.planning.causes.reasons import Changes, Row, cause_of, told_apart

of, arc = ClockHours.of, ClockHours.arc
LEAK: Changes = {"leak": LOW, "skin": (raw(),)}
RING = frozenset({Accessory.RING})
LONG = (WearEpisode(7.1, RemovalReason.PLANNED),)
PROLAPSED: Changes = {"prolapse": (Prolapse(30.0, True, False),)}
SKIN_LEVEL: Changes = {"lumen": LumenPosition.SKIN_LEVEL}
DOWN: Changes = {"lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 6}


def opening(mm: float) -> Changes:
    """A round opening for a stoma of 30 mm."""
    return {"opening_length_mm": mm, "opening_width_mm": mm}


def leaky(**changes: object) -> Changes:
    return {**LEAK, **changes}


FOR: list[Row] = [
    (
        "low_stoma",
        "The stoma's height is 19 mm, short; under 20 mm",
        [leaky(protrusion_mm=19.0)],
        [leaky(protrusion_mm=4.0)],
    ),
    (
        "low_stoma",
        "The stoma's height is 4 mm, flush with the skin",
        [leaky(protrusion_mm=4.0)],
        [leaky(protrusion_mm=4.1)],
    ),
    (
        "low_stoma",
        "The stoma's height is -5 mm, retracted, below the skin",
        [leaky(protrusion_mm=-5.0)],
        [leaky(protrusion_mm=-4.9)],
    ),
    (
        "low_stoma",
        "A flat barrier is in use",
        [leaky(protrusion_mm=0.0)],
        [
            leaky(protrusion_mm=0.0, profile=Profile.CONVEX),
            leaky(protrusion_mm=0.0, profile=None),
        ],
    ),
    ("lumen_position", "The lumen opens at skin level", [leaky(**SKIN_LEVEL)], [leaky(**DOWN)]),
    (
        "lumen_position",
        "The lumen lies off-centre, towards 6 o'clock",
        [leaky(**DOWN)],
        [leaky(**SKIN_LEVEL)],
    ),
    (
        "lumen_position",
        "The leak is on that side",
        [leaky(**DOWN), leaky(**{**DOWN, "lumen_hour": 3}), leaky(**{**DOWN, "lumen_hour": 9})],
        [
            leaky(**{**DOWN, "lumen_hour": 2}),
            leaky(**{**DOWN, "lumen_hour": 10}),
            leaky(**SKIN_LEVEL),
        ],
    ),
    (
        "crease",
        "The leak follows it (4 o'clock)",
        [leaky(creases=(Crease(of(3, 4)),))],
        [leaky(creases=(Crease(of(3)),)), leaky(leak=None, creases=(Crease(of(4)),))],
    ),
    (
        "crease",
        "The abdomen hangs",
        [leaky(creases=(Crease(LOW),), contour=Contour.PENDULOUS)],
        [leaky(creases=(Crease(LOW),), contour=c) for c in (Contour.ROUNDED, None)],
    ),
    (
        "bulge",
        "The leak is on the low side",
        # Opposite 12 o'clock lies 6, and 5 and 7 beside it.
        [leaky(leak=of(hour), bulges=(Bulge(of(12)),)) for hour in (5, 6, 7)],
        [leaky(leak=of(hour), bulges=(Bulge(of(12)),)) for hour in (4, 8, 12)],
    ),
    (
        "long_wear",
        "The barrier melted all round",
        [leaky(wear=LONG, erosion=arc(1, 10)), leaky(wear=LONG, erosion=ALL)],
        [
            leaky(wear=LONG, erosion=arc(1, 9)),
            leaky(wear=LONG, erosion=None),
            leaky(wear=LONG, system=None),
        ],
    ),
    (
        "liquid_output",
        "Output is ",
        [leaky(volume_ml_24h=1000.0)],
        [leaky(volume_ml_24h=volume, consistency=Consistency.LIQUID) for volume in (999.0, None)],
    ),
    (
        "prolapse",
        "The opening in use is too narrow",
        [{**PROLAPSED, **opening(29.9)}],
        [{**PROLAPSED, **opening(30.0)}, {**PROLAPSED, "opening_length_mm": None}],
    ),
    (
        "opening_too_small",
        "The stoma is cut",
        [{**opening(28.0), "deep_cut": True}],
        [opening(28.0), {**opening(28.0), "deep_cut": False}],
    ),
]
AGAINST: list[Row] = [
    (
        "lumen_position",
        "The leak is on another side",
        [leaky(**{**DOWN, "lumen_hour": 12})],
        [
            leaky(**DOWN),
            leaky(**{**DOWN, "lumen_hour": None}),
            leaky(**{**DOWN, "lumen_hour": 12, "leak": None}),
        ],
    ),
    (
        "crease",
        "The leak is elsewhere",
        [leaky(creases=(Crease(of(12)),))],
        [leaky(creases=(Crease(of(4)),)), leaky(leak=None, creases=(Crease(of(12)),))],
    ),
    (
        "opening_too_large",
        "A ring covers the bare skin",
        [leaky(**opening(40.0), accessories=RING)],
        [leaky(**opening(40.0)), leaky(**opening(40.0), accessories=None)],
    ),
]
#: What makes each cause of a leak on a stoma that leaks, and the nearest findings that do not.
RAISED: list[tuple[str, Changes, Changes]] = [
    ("opening_too_large", opening(36.4), opening(36.3)),
    ("opening_too_small", opening(29.9), opening(30.0)),
    ("low_stoma", {"protrusion_mm": 19.9}, {"protrusion_mm": 20.0}),
    ("lumen_position", SKIN_LEVEL, {"lumen": None}),
    ("lumen_position", DOWN, {"lumen": LumenPosition.CENTRE}),
    ("crease", {"creases": (Crease(LOW),)}, {"creases": None}),
    ("bulge", {"bulges": (Bulge(LOW),)}, {"bulges": None}),
    ("long_wear", {"wear": LONG}, {"wear": (WearEpisode(7.0, RemovalReason.PLANNED),)}),
    ("liquid_output", {"consistency": Consistency.WATERY}, {"consistency": Consistency.PASTE}),
    ("liquid_output", {"volume_ml_24h": 1000.0}, {"volume_ml_24h": 999.0}),
    ("prolapse", PROLAPSED, {"prolapse": None}),
]
#: Seen whether it leaks or not.
ALWAYS = {"opening_too_small", "prolapse"}


@pytest.mark.parametrize("row", FOR, ids=lambda row: f"{row[0]}: {row[1]}")
def test_speaks_for_it(row: Row) -> None:
    told_apart(row, against=False)


@pytest.mark.parametrize("row", AGAINST, ids=lambda row: f"{row[0]}: {row[1]}")
def test_speaks_against_it(row: Row) -> None:
    told_apart(row, against=True)


@pytest.mark.parametrize(("key", "with_it", "without"), RAISED)
def test_a_cause_stands_on_its_own_sign_and_on_a_leak(
    key: str, with_it: Changes, without: Changes
) -> None:
    assert cause_of(key, leaky(**with_it)) is not None
    assert cause_of(key, leaky(**without)) is None
    assert (cause_of(key, with_it) is not None) is (key in ALWAYS)


def test_urine_is_always_liquid_and_so_explains_no_leak() -> None:
    assert cause_of("liquid_output", leaky(kind=StomaKind.UROSTOMY)) is None


@pytest.mark.parametrize(("leak", "raised"), [(LOW, True), (None, True), (ClockHours(), False)])
def test_burnt_skin_stands_for_a_leak_only_where_the_barrier_was_not_read(
    leak: ClockHours | None, raised: bool
) -> None:
    assert (cause_of("crease", leaky(leak=leak, creases=(Crease(LOW),))) is not None) is raised
    sound: Changes = {"leak": leak, "creases": (Crease(LOW),)}
    assert (cause_of("crease", sound) is not None) is (leak == LOW)
