"""Generated findings: the whole space, sound by construction, unknown as likely as known."""

from __future__ import annotations

from enum import Enum
from typing import Any, TypeVar

from hypothesis import strategies as st

from planning.inputs.clock import HOURS, ClockHours
from planning.inputs.findings import (
    Abdomen,
    Ability,
    Accessory,
    Bleeding,
    Bulge,
    ChangedBy,
    Colour,
    Condition,
    Consistency,
    Construction,
    Contour,
    Crease,
    Degree,
    Findings,
    Firmness,
    History,
    LumenPosition,
    Material,
    Measurement,
    Oedema,
    OpeningKind,
    Output,
    Person,
    Pieces,
    Posture,
    PouchingSystem,
    PouchKind,
    Profile,
    Prolapse,
    RemovalReason,
    Separation,
    SkinFinding,
    SkinKind,
    Stoma,
    StomaKind,
    Symptom,
    Trial,
    Turgor,
    UrineSign,
    WearEpisode,
)
from planning.supplies.catalogue import SUPPLIES

T = TypeVar("T")
E = TypeVar("E", bound=Enum)


def maybe(values: st.SearchStrategy[T]) -> st.SearchStrategy[T | None]:
    """A value, or not recorded."""
    return st.none() | values


def words(kind: type[E]) -> st.SearchStrategy[E]:
    return st.sampled_from(list(kind))


def some(kind: type[E], most: int = 3) -> st.SearchStrategy[frozenset[E]]:
    return st.frozensets(words(kind), max_size=most)


def mm(low: float, high: float) -> st.SearchStrategy[float]:
    """Half millimetres."""
    return st.integers(int(low * 2), int(high * 2)).map(lambda n: n / 2)


bools = maybe(st.booleans())
arcs = st.builds(ClockHours.arc, st.sampled_from(HOURS), st.sampled_from(HOURS))
hours = arcs | st.builds(ClockHours, st.frozensets(st.sampled_from(HOURS), min_size=1))
any_hours = hours | st.just(ClockHours())


grown = st.integers(16, 100)
young = st.integers(0, 15)


@st.composite
def people(draw: st.DrawFn, ages: st.SearchStrategy[int] = grown) -> Person:
    """Adults, unless other ``ages`` are given."""
    has = draw(some(Condition, 2))
    return Person(
        sensitivities=draw(maybe(some(Material, 2))),
        has=has,
        has_not=draw(some(Condition, 4)) - has,
        dexterity=draw(maybe(words(Ability))),
        eyesight=draw(maybe(st.sampled_from([Ability.GOOD, Ability.LIMITED, Ability.NONE]))),
        changed_by=draw(maybe(words(ChangedBy))),
        age_years=draw(ages),
        weight_kg=draw(maybe(st.integers(20, 40_000).map(lambda n: n / 100))),
    )


@st.composite
def stomas(draw: st.DrawFn) -> Stoma:
    construction = draw(maybe(words(Construction)))
    rod = draw(bools)
    return Stoma(
        kind=draw(words(StomaKind)),
        construction=construction,
        days_since_surgery=draw(maybe(st.integers(0, 60) | st.integers(0, 9000))),
        rod_in_place=None if construction is Construction.END else rod,
    )


separations = st.builds(Separation, hours, maybe(mm(0, 20)), bools, bools)
prolapses = st.builds(Prolapse, maybe(mm(0, 150)), bools, bools)


@st.composite
def measurements(draw: st.DrawFn) -> Measurement:
    prolapse = draw(maybe(st.lists(prolapses, max_size=1).map(tuple)))
    length, width = draw(maybe(mm(10, 80))), draw(maybe(mm(10, 80)))
    base = max(length or 0, width or 0)
    lumen = draw(maybe(words(LumenPosition)))
    hour = draw(st.sampled_from(HOURS)) if lumen is LumenPosition.OFF_CENTRE else None
    return Measurement(
        length_mm=length,
        width_mm=width,
        axis_hour=draw(maybe(st.integers(1, 6))),
        protrusion_mm=draw(maybe(mm(0 if prolapse else -15, 90))),
        radii_mm=draw(maybe(st.lists(mm(6, 40), min_size=12, max_size=12).map(tuple))),
        widest_mm=draw(maybe(mm(base + 1, base + 40))),
        lumen=lumen,
        lumen_hour=hour,
        colour=draw(maybe(st.just(Colour.PINK_RED) | words(Colour))),
        turgor=draw(maybe(words(Turgor))),
        oedema=draw(maybe(words(Oedema))),
        junction=draw(maybe(st.lists(separations, max_size=1).map(tuple))),
        prolapse=prolapse,
        bleeding=draw(maybe(words(Bleeding))),
        deep_cut=draw(bools),
    )


@st.composite
def skin_findings(draw: st.DrawFn) -> SkinFinding:
    inner = draw(maybe(mm(0, 20)))
    outer = draw(maybe(mm((inner or 0) + 1, 60)))
    flags: dict[str, Any] = {
        name: draw(bools)
        for name in ("itch", "pain", "burning", "moist", "product_outline", "enlarging")
    }
    return SkinFinding(draw(words(SkinKind)), draw(hours), inner, outer, **flags)


abdomens = st.builds(
    Abdomen,
    maybe(words(Contour)),
    maybe(words(Firmness)),
    maybe(
        st.lists(st.builds(Crease, hours, maybe(mm(0, 20)), maybe(some(Posture))), max_size=2).map(
            tuple
        )
    ),
    maybe(
        st.lists(
            st.builds(Bulge, hours, maybe(mm(0, 60)), maybe(mm(10, 200)), bools, bools), max_size=1
        ).map(tuple)
    ),
)


@st.composite
def outputs(draw: st.DrawFn) -> Output:
    present = draw(st.just(frozenset[Symptom]()) | some(Symptom, 2))
    return Output(
        volume_ml_24h=draw(maybe(st.integers(0, 3000).map(float))),
        consistency=draw(maybe(words(Consistency))),
        watery_for_hours=draw(maybe(st.integers(0, 72).map(float))),
        hours_without_output=draw(maybe(st.integers(0, 100).map(float))),
        urine_signs=draw(maybe(some(UrineSign))),
        present=present,
        absent=draw(some(Symptom)) - present,
        pain_0_10=draw(maybe(st.integers(0, 10))),
    )


@st.composite
def systems(draw: st.DrawFn) -> PouchingSystem:
    profile = draw(maybe(words(Profile)))
    depth = draw(maybe(mm(1, 12)))
    return PouchingSystem(
        pieces=draw(maybe(words(Pieces))),
        profile=profile,
        convex_depth_mm=depth if profile is Profile.CONVEX else None,
        compressibility=draw(maybe(words(Degree))),
        flexibility=draw(maybe(words(Degree))),
        opening_length_mm=draw(maybe(mm(10, 100))),
        opening_width_mm=draw(maybe(mm(10, 100))),
        opening_kind=draw(maybe(words(OpeningKind))),
        pouch=draw(maybe(words(PouchKind))),
        accessories=draw(maybe(some(Accessory, 4))),
        erosion=draw(maybe(any_hours)),
        leak=draw(maybe(any_hours)),
    )


episodes = st.builds(WearEpisode, mm(0, 16), maybe(words(RemovalReason)))

findings = st.builds(
    Findings,
    people(),
    stomas(),
    measurements(),
    maybe(st.lists(skin_findings(), max_size=3).map(tuple)),
    abdomens,
    outputs(),
    maybe(systems()),
    maybe(st.lists(episodes, max_size=5).map(tuple)),
)

keys = st.frozensets(st.sampled_from(sorted(SUPPLIES)), max_size=5)
trials = st.builds(Trial, keys, bools, st.frozensets(st.sampled_from(sorted(SUPPLIES)), max_size=1))

histories = st.builds(
    History,
    previous=st.lists(findings, max_size=1).map(tuple),
    trials=st.lists(trials, max_size=2).map(tuple),
    specialist_convexity_assessment=st.booleans(),
    convexity_reason=st.sampled_from(["", "Flush, leaks in spite of rings."]),
    prescriber_agreed_antifungal=st.booleans(),
)

plain_histories = st.just(History()) | histories
