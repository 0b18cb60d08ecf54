"""Findings for tests: one well-fitting ileostomy, and how to change a part of it."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Abdomen,
    Bleeding,
    Colour,
    Degree,
    Findings,
    History,
    LumenPosition,
    Measurement,
    OpeningKind,
    Output,
    Person,
    Pieces,
    PouchingSystem,
    PouchKind,
    Profile,
    SkinFinding,
    SkinKind,
    Stoma,
    StomaKind,
    Turgor,
)
from planning.pipeline import ranked_facts_of
from planning.ranked_facts import RankedFacts

LOW = ClockHours.arc(4, 8)
ALL = ClockHours.all_round()
INTACT = ClockHours()

_PARTS = ("person", "stoma", "measurement", "abdomen", "output", "system")

#: The age where a test gives none: the rules are for adults.
GROWN = 40

WELL = Findings(
    person=Person(sensitivities=frozenset(), age_years=GROWN),
    stoma=Stoma(StomaKind.ILEOSTOMY, days_since_surgery=400),
    measurement=Measurement(
        length_mm=30.0,
        width_mm=30.0,
        protrusion_mm=25.0,
        lumen=LumenPosition.CENTRE,
        colour=Colour.PINK_RED,
        turgor=Turgor.MOIST_SOFT,
        junction=(),
        prolapse=(),
        bleeding=Bleeding.NONE,
    ),
    skin=(),
    abdomen=Abdomen(creases=(), bulges=()),
    output=Output(volume_ml_24h=700.0),
    system=PouchingSystem(
        pieces=Pieces.TWO,
        profile=Profile.FLAT,
        flexibility=Degree.MORE,
        opening_length_mm=34.0,
        opening_width_mm=34.0,
        opening_kind=OpeningKind.CUT_TO_FIT,
        pouch=PouchKind.DRAINABLE,
        accessories=frozenset(),
        erosion=INTACT,
        leak=INTACT,
    ),
)


def well(**changes: Any) -> Findings:
    """``WELL`` with fields changed: ``well(protrusion_mm=0.0, leak=LOW, skin=(...))``.

    A name that a part knows goes to that part; any other to the findings themselves. Whose age is
    not given is an adult; ``age_years=None`` makes it unknown.
    """
    found = WELL
    for name, value in changes.items():
        part = next((p for p in _PARTS if hasattr(getattr(found, p), name)), None)
        if part is None or name in _PARTS:
            found = replace(found, **{name: value})
        else:
            found = replace(found, **{part: replace(getattr(found, part), **{name: value})})
    if found.person.age_years is None and "age_years" not in changes:
        found = replace(found, person=replace(found.person, age_years=GROWN))
    return found


def leaking(**changes: Any) -> Findings:
    """Raw skin and a leak at the lowest hours, with everything else well."""
    return well(leak=LOW, skin=(raw(),), **changes)


def raw(hours: ClockHours = LOW, **changes: Any) -> SkinFinding:
    """A weeping erosion from the stoma's edge, 15 mm wide."""
    return replace(
        SkinFinding(SkinKind.EROSION, hours, 0.0, 15.0, burning=True, moist=True), **changes
    )


def seen(kind: SkinKind, hours: ClockHours = LOW, **changes: Any) -> SkinFinding:
    """A finding of ``kind``, 0 to 15 mm from the edge."""
    return replace(SkinFinding(kind, hours, 0.0, 15.0), **changes)


def situation(findings: Findings, history: History | None = None) -> RankedFacts:
    """Facts, causes and flags of ``findings``."""
    return ranked_facts_of(findings, history or History())
