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
    Baseline,
    BaselineKind,
    Begun,
    Bleeding,
    Bulge,
    Calibre,
    ChangedBy,
    ChildSign,
    Circumstance,
    Colour,
    ColourPart,
    Condition,
    Consistency,
    Construction,
    Contour,
    ConvexDepth,
    Crease,
    Degree,
    Discharge,
    Findings,
    Firmness,
    History,
    LeakCount,
    LoopOpenings,
    LumenPosition,
    Material,
    Measurement,
    Medicine,
    Oedema,
    OpeningKind,
    OtherStoma,
    Output,
    Person,
    Pieces,
    Posture,
    PouchBlood,
    PouchingSystem,
    PouchKind,
    Product,
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
    Vitals,
    WearEpisode,
    Weighing,
    Wound,
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
    signs = draw(st.just(frozenset[ChildSign]()) | some(ChildSign, 2))
    return Person(
        sensitivities=draw(maybe(some(Material, 2))),
        has=has,
        has_not=draw(some(Condition, 4)) - has,
        dexterity=draw(maybe(words(Ability))),
        eyesight=draw(maybe(st.sampled_from([Ability.GOOD, Ability.LIMITED, Ability.NONE]))),
        changed_by=draw(maybe(words(ChangedBy))),
        age_years=draw(ages),
        weight_kg=draw(maybe(st.integers(20, 40_000).map(lambda n: n / 100))),
        medicines=draw(maybe(some(Medicine))),
        pregnant_weeks=draw(maybe(st.integers(0, 42))) if Condition.PREGNANT in has else None,
        child_present=signs,
        child_absent=draw(some(ChildSign)) - signs,
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


separations = st.builds(Separation, hours, maybe(mm(0, 25)), bools, bools, bools, bools)
prolapses = st.builds(Prolapse, maybe(mm(0, 150)), bools, bools, bools, bools)
colour_parts = st.builds(ColourPart, words(Colour), hours)
limb_heights = maybe(mm(-10, 40))
loops = st.builds(LoopOpenings, limb_heights, maybe(st.sampled_from(HOURS)), limb_heights)
minutes = st.integers(0, 180).map(float)


#: What is recorded of few stomas: all of it unknown as often as drawn.
closer_looks: st.SearchStrategy[dict[str, Any]] = st.just({}) | st.fixed_dictionaries(
    {
        "length_error_mm": maybe(mm(0, 4)),
        "width_error_mm": maybe(mm(0, 4)),
        "colour_parts": maybe(st.lists(colour_parts, max_size=2).map(tuple)),
        "colour_known": bools,
        "bleeds_on_touch": bools,
        "calibre": maybe(words(Calibre)),
        "bowel_outside": maybe(st.sampled_from([False] * 9 + [True])),
        "loop": maybe(loops),
        "protrusion_sitting_mm": maybe(mm(-15, 90)),
        "protrusion_standing_mm": maybe(mm(-15, 90)),
        "bleeding_stopped_days": maybe(st.integers(0, 40).map(float)),
        "bleeding_stops_min": maybe(minutes),
        "rubbed": bools,
    }
)


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
        **draw(closer_looks),
    )


skin_details: st.SearchStrategy[dict[str, Any]] = st.just({}) | st.fixed_dictionaries(
    {
        "outline_of": maybe(words(Product)),
        "hours_to_spread": maybe(st.integers(0, 96).map(float)),
        "fades_min": maybe(minutes),
        "stays_min": maybe(minutes),
        "changing": bools,
        "numb_or_crackling": bools,
        "minutes_after_contact": maybe(minutes),
        "days": maybe(st.integers(0, 400).map(float)),
        "across_mm": maybe(mm(1, 60)),
        "flat_edge": bools,
        "pain_0_10": maybe(st.integers(0, 10)),
    }
)


@st.composite
def skin_findings(draw: st.DrawFn) -> SkinFinding:
    inner = draw(maybe(mm(0, 20)))
    outer = draw(maybe(mm((inner or 0) + 1, 60)))
    flags: dict[str, Any] = {
        name: draw(bools)
        for name in ("itch", "pain", "burning", "moist", "product_outline", "enlarging")
    }
    kind = draw(words(SkinKind))
    return SkinFinding(kind, draw(hours), inner, outer, **flags, **draw(skin_details))


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
            st.builds(Bulge, hours, maybe(mm(0, 60)), maybe(mm(10, 200)), *[bools] * 5),
            max_size=1,
        ).map(tuple)
    ),
)


#: Mostly of people who are not very ill: with any number at all, most plans would be emergencies.
calm_vitals = st.builds(
    Vitals,
    maybe(st.integers(360, 376).map(lambda n: n / 10)),
    maybe(st.integers(360, 376).map(lambda n: n / 10)),
    maybe(st.integers(55, 100).map(float)),
    maybe(st.integers(10, 20).map(float)),
    maybe(st.integers(105, 160).map(float)),
    maybe(st.integers(0, 24).map(float)),
)
any_vitals = st.builds(
    Vitals,
    maybe(st.integers(340, 410).map(lambda n: n / 10)),
    maybe(st.integers(340, 410).map(lambda n: n / 10)),
    maybe(st.integers(40, 180).map(float)),
    maybe(st.integers(6, 40).map(float)),
    maybe(st.integers(60, 200).map(float)),
    maybe(st.integers(0, 24).map(float)),
)
further_outputs: st.SearchStrategy[dict[str, Any]] = st.just({}) | st.fixed_dictionaries(
    {
        "urine_ml_24h": maybe(st.integers(400, 3000).map(float)),
        "hours_without_urine": maybe(st.integers(0, 9).map(float)),
        "usual_ml_24h": maybe(st.integers(0, 2500).map(float)),
        "days_at_volume": maybe(st.integers(0, 30).map(float)),
        "pouch_blood": maybe(words(PouchBlood)),
        "discharge": maybe(words(Discharge)),
        "tablets_whole": bools,
        "urine_ph": maybe(st.integers(40, 90).map(lambda n: n / 10)),
        "stools_per_day": maybe(st.integers(0, 12).map(float)),
        "stents": maybe(st.integers(0, 2)),
        "stent_out_early": bools,
    }
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
        vitals=draw(st.just(Vitals()) | calm_vitals | calm_vitals | any_vitals),
        **draw(further_outputs),
    )


@st.composite
def leak_counts(draw: st.DrawFn) -> LeakCount:
    barriers = draw(st.integers(1, 30))
    return LeakCount(draw(st.integers(0, barriers)), barriers)


closer_readings: st.SearchStrategy[dict[str, Any]] = st.just({}) | st.fixed_dictionaries(
    {
        "tape_border": bools,
        "begun": maybe(
            st.lists(st.builds(Begun, words(Product), mm(0, 200)), max_size=2).map(tuple)
        ),
        "belt_tight": bools,
        "load": maybe(any_hours),
        "lifts": maybe(any_hours),
        "placed_towards": maybe(st.sampled_from(HOURS)),
        "presses": bools,
        "clear_pouch": bools,
        "filter": bools,
        "leak_count": maybe(leak_counts()),
        "usual_wear_days": maybe(mm(0, 10)),
    }
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
        convex_depth=draw(maybe(words(ConvexDepth))) if profile is Profile.CONVEX else None,
        **draw(closer_readings),
    )


episodes = st.builds(
    WearEpisode, mm(0, 16), maybe(words(RemovalReason)), maybe(words(Circumstance))
)
wounds = st.builds(
    Wound, hours, maybe(mm(0, 80)), maybe(mm(1, 60)), maybe(mm(1, 60)), maybe(mm(0, 30)),
    bools, bools, bools,
)  # fmt: skip
other_stomas = st.builds(
    OtherStoma, hours, maybe(mm(0, 120)), maybe(mm(10, 60)), maybe(mm(10, 60)), bools
)

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
    st.integers(0, 2),
    maybe(st.lists(wounds, max_size=1).map(tuple)),
    maybe(st.lists(other_stomas, max_size=1).map(tuple)),
)

keys = st.frozensets(st.sampled_from(sorted(SUPPLIES)), max_size=5)
trials = st.builds(
    Trial,
    keys,
    bools,
    st.frozensets(st.sampled_from(sorted(SUPPLIES)), max_size=1),
    st.booleans(),
    maybe(st.integers(0, 12)),
    maybe(st.integers(0, 60).map(float)),
    st.booleans(),
)
#: What is known and accepted, in force or overdue, with a figure of any size.
baselines = st.builds(
    Baseline,
    words(BaselineKind),
    st.just("stoma nurse"),
    maybe(mm(0, 80) | st.integers(400, 2500).map(float)),
    maybe(mm(0, 80) | st.integers(400, 2500).map(float)),
    maybe(st.integers(400, 1500).map(float)),
    bools,
    maybe(st.integers(0, 900).map(float)),
    maybe(st.integers(-30, 400).map(float)),
)
weighings = st.builds(Weighing, st.integers(0, 90), st.integers(30, 150).map(float))

histories = st.builds(
    History,
    previous=st.lists(findings, max_size=1).map(tuple),
    trials=st.lists(trials, max_size=2).map(tuple),
    specialist_convexity_assessment=st.booleans(),
    convexity_reason=st.sampled_from(["", "Flush, leaks in spite of rings."]),
    prescriber_agreed_antifungal=st.booleans(),
    weighings=st.lists(weighings, max_size=2).map(tuple),
    baselines=st.lists(baselines, max_size=3).map(tuple),
)

plain_histories = st.just(History()) | histories
