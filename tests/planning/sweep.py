"""The space of findings, cut into steps, walked through evenly.

Every state has a number; the digits of the number in mixed base choose one value from every axis.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import gcd, prod
from typing import Any, Final

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Abdomen,
    Accessory,
    Bulge,
    Colour,
    Condition,
    Contour,
    Crease,
    Degree,
    Findings,
    Firmness,
    History,
    LumenPosition,
    Material,
    Output,
    Person,
    PouchingSystem,
    PouchKind,
    Profile,
    Prolapse,
    Separation,
    SkinKind,
    Stoma,
    StomaKind,
    Trial,
)
from tests.planning.builders import ALL, GROWN, INTACT, LOW, WELL, raw, seen

_SIDE = ClockHours.of(2, 3, 4)
_FLAT = WELL.system or PouchingSystem()
_CONVEX = replace(
    _FLAT,
    profile=Profile.CONVEX,
    convex_depth_mm=3.0,
    compressibility=Degree.MORE,
    flexibility=None,
    accessories=frozenset({Accessory.RING, Accessory.BELT}),
)

#: Axis by axis: the values a state may take.
AXES: Final[dict[str, tuple[Any, ...]]] = {
    "protrusion": (25.0, 12.0, 4.0, 0.0, -6.0, None),
    "kind": (StomaKind.ILEOSTOMY, StomaKind.COLOSTOMY, StomaKind.UROSTOMY),
    "days": (400, 40, 20, None),
    "skin": (
        (),
        None,
        (raw(),),
        (raw(ALL, product_outline=True, itch=True),),
        (seen(SkinKind.SATELLITES, moist=True),),
        (seen(SkinKind.PRESSURE_MARK, ClockHours.of(3, 9)),),
        (seen(SkinKind.UNDERMINED_ULCER),),
        (seen(SkinKind.DILATED_VEINS, ALL),),
        (seen(SkinKind.ULCER, ClockHours.of(9)),),
        (seen(SkinKind.HARD_LUMP), raw()),
        (seen(SkinKind.MACERATION), seen(SkinKind.HAIR_PUSTULES)),
        (seen(SkinKind.STRIPPING, ClockHours.of(3)), seen(SkinKind.SPREADING_WARMTH)),
    ),
    "system": (
        None,
        _FLAT,
        replace(_FLAT, leak=LOW),
        replace(_FLAT, leak=LOW, opening_length_mm=26.0, opening_width_mm=26.0),
        replace(_FLAT, leak=_SIDE, accessories=frozenset({Accessory.PROTECTANT})),
        replace(_CONVEX, leak=INTACT),
        replace(_CONVEX, leak=LOW),
        replace(_FLAT, leak=LOW, pouch=PouchKind.CLOSED, accessories=None),
    ),
    "abdomen": (
        WELL.abdomen,
        Abdomen(firmness=Firmness.SOFT, creases=(), bulges=()),
        Abdomen(creases=(Crease(ClockHours.of(3, 9), 6.0),), bulges=()),
        Abdomen(creases=(Crease(LOW, 12.0),), bulges=(), contour=Contour.PENDULOUS),
        Abdomen(creases=(), bulges=(Bulge(_SIDE, 15.0, 60.0, True, False),)),
        Abdomen(creases=(), bulges=(Bulge(_SIDE),), firmness=Firmness.FIRM),
        Abdomen(contour=Contour.ROUNDED),
    ),
    "stoma": (
        {},
        {"lumen": LumenPosition.SKIN_LEVEL},
        {"lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 6},
        {"prolapse": (Prolapse(40.0, True, False),), "widest_mm": 45.0, "protrusion_mm": 60.0},
        {"junction": (Separation(LOW, 5.0, True, False),)},
        {"colour": Colour.DUSKY},
        {"length_mm": None},
    ),
    "person": (
        WELL.person,
        Person(),
        Person(sensitivities=frozenset({Material.PROTECTANT})),
        Person(sensitivities=frozenset({Material.RING, Material.LATEX})),
        Person(sensitivities=frozenset({Material.PASTE, Material.BARRIER_ADHESIVE})),
        Person(has=frozenset({Condition.LIVER_DISEASE})),
    ),
    "output": (Output(), Output(volume_ml_24h=1200.0), Output(pain_0_10=8)),
    "history": (
        History(),
        History(specialist_convexity_assessment=True, convexity_reason="Leaks."),
        History(trials=(Trial(frozenset({"flat_flexible", "ring"}), helped=False),)),
        History(trials=(Trial(frozenset({"belt"}), hurt=frozenset({"belt", "powder"})),)),
        History(prescriber_agreed_antifungal=True),
    ),
}

SIZE: Final = prod(len(values) for values in AXES.values())


def states(count: int) -> Iterator[tuple[Findings, History]]:
    """``count`` different states spread evenly over the space, always the same ones."""
    return map(state, numbers(count))


def numbers(count: int, start: int = 0, step: int = 1) -> Iterator[int]:
    """The numbers of those states; every ``step``-th from ``start``, to share them out.

    The stride has no factor in common with the size, so that no state comes twice.
    """
    stride = int(SIZE * 0.6180339887) | 1
    while gcd(stride, SIZE) > 1:
        stride += 2
    return (i * stride % SIZE for i in range(start, min(count, SIZE), step))


def state(number: int) -> tuple[Findings, History]:
    """The state with this number."""
    chosen: dict[str, Any] = {}
    for name, values in AXES.items():
        number, digit = divmod(number, len(values))
        chosen[name] = values[digit]
    measurement = replace(
        WELL.measurement, **({"protrusion_mm": chosen["protrusion"]} | chosen["stoma"])
    )
    found = Findings(
        person=replace(chosen["person"], age_years=GROWN),
        stoma=Stoma(chosen["kind"], days_since_surgery=chosen["days"]),
        measurement=measurement,
        skin=chosen["skin"],
        abdomen=chosen["abdomen"],
        output=chosen["output"],
        system=chosen["system"],
    )
    return found, chosen["history"]
