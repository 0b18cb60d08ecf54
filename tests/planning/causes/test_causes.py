"""Causes: which comes first, with what evidence, and what stays open."""

from __future__ import annotations

from typing import Any

import pytest

from planning import recommend
from planning.causes import CAUSES
from planning.evidence.citation import CITABLE
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Bulge,
    Colour,
    Condition,
    Crease,
    LumenPosition,
    Material,
    Person,
    Profile,
    Prolapse,
    RemovalReason,
    Separation,
    SkinKind,
    StomaKind,
    UrineSign,
    WearEpisode,
)
from planning.results.plan import Cause, CauseOf
from tests.planning.builders import ALL, LOW, leaking, raw, seen, situation, well

SIDES = ClockHours.of(3, 9)
BELT = frozenset({Accessory.BELT})
FILM = frozenset({Accessory.PROTECTANT})
CONTACT = seen(SkinKind.ERYTHEMA, ALL, outer_mm=40.0, product_outline=True)


def ranked(**changes: Any) -> list[Cause]:
    return list(situation(well(**changes)).causes.causes)


def test_nothing_found_nothing_suspected() -> None:
    assert ranked() == []


@pytest.mark.parametrize(
    ("changes", "first"),
    [
        ({"skin": (raw(),), "leak": LOW}, "irritant_effluent"),
        ({"skin": (raw(SIDES),), "leak": SIDES, "creases": (Crease(SIDES),)}, "irritant_effluent"),
        ({"skin": (seen(SkinKind.MACERATION),)}, "moisture"),
        ({"skin": (seen(SkinKind.SATELLITES, itch=True),)}, "yeast"),
        ({"skin": (seen(SkinKind.HAIR_PUSTULES),)}, "folliculitis"),
        ({"skin": (seen(SkinKind.STRIPPING, inner_mm=30.0, outer_mm=45.0),)}, "stripping"),
        ({"skin": (seen(SkinKind.PRESSURE_MARK),), "profile": Profile.CONVEX}, "pressure_injury"),
        ({"skin": (seen(SkinKind.BRUISE),), "profile": Profile.CONVEX}, "pressure_injury"),
        ({"skin": (seen(SkinKind.PRESSURE_MARK, SIDES),), "accessories": BELT}, "pressure_injury"),
        ({"skin": (seen(SkinKind.WARTY),), "kind": StomaKind.UROSTOMY}, "warty"),
        ({"skin": (seen(SkinKind.GRANULOMA),), "kind": StomaKind.COLOSTOMY}, "granuloma"),
        ({"junction": (Separation(LOW),)}, "separation"),
        ({"skin": (seen(SkinKind.UNDERMINED_ULCER, pain=True),)}, "pyoderma"),
        ({"skin": (seen(SkinKind.DILATED_VEINS, ALL),)}, "varices"),
        ({"person": Person(has=frozenset({Condition.LIVER_DISEASE}))}, "varices"),
        ({"skin": (seen(SkinKind.HARD_LUMP),)}, "malignancy"),
        ({"skin": (seen(SkinKind.SPREADING_WARMTH),)}, "infection"),
        ({"skin": (seen(SkinKind.FISTULA),)}, "fistula"),
        (
            {
                "skin": (seen(SkinKind.SCALE),),
                "person": Person(has=frozenset({Condition.PSORIASIS_OR_ECZEMA})),
            },
            "dermatosis",
        ),
        (
            {
                "skin": (seen(SkinKind.ERYTHEMA, ClockHours.of(1)),),
                "person": Person(has=frozenset({Condition.RADIOTHERAPY_ABDOMEN})),
            },
            "radiation",
        ),
        ({"skin": (CONTACT,), "accessories": FILM}, "irritant_contact"),
    ],
)
def test_the_likeliest_cause(changes: dict[str, Any], first: str) -> None:
    causes = ranked(**changes)
    assert causes[0].key == first
    assert causes[0].supports
    assert causes[0].score > 0


@pytest.mark.parametrize(
    ("changes", "key"),
    [
        ({"opening_length_mm": 42.0, "opening_width_mm": 42.0}, "opening_too_large"),
        ({"opening_length_mm": 28.0, "opening_width_mm": 28.0}, "opening_too_small"),
        ({"protrusion_mm": 0.0}, "low_stoma"),
        ({"protrusion_mm": 19.0}, "low_stoma"),
        ({"lumen": LumenPosition.SKIN_LEVEL}, "lumen_position"),
        ({"lumen": LumenPosition.OFF_CENTRE, "lumen_hour": 6}, "lumen_position"),
        ({"creases": (Crease(ClockHours.of(6)),)}, "crease"),
        ({"bulges": (Bulge(ClockHours.of(12)),)}, "bulge"),
        ({"wear": (WearEpisode(9.0, RemovalReason.PLANNED),)}, "long_wear"),
        ({"volume_ml_24h": 1100.0}, "liquid_output"),
        ({"prolapse": (Prolapse(30.0, True, False),)}, "prolapse"),
    ],
)
def test_causes_of_a_leak(changes: dict[str, Any], key: str) -> None:
    causes = situation(leaking(**changes)).causes.causes
    leaks = [cause.key for cause in causes if cause.of is CauseOf.LEAK]
    assert key in leaks


@pytest.mark.parametrize(
    ("height", "kind", "low"),
    [
        (19.9, StomaKind.ILEOSTOMY, True),
        (20.0, StomaKind.ILEOSTOMY, False),
        (19.9, StomaKind.UROSTOMY, True),
        (4.9, StomaKind.COLOSTOMY, True),
        (5.0, StomaKind.COLOSTOMY, False),
    ],
)
def test_too_low_depends_on_the_kind(height: float, kind: StomaKind, low: bool) -> None:
    """Persson 2010: ileostomy under 20 mm, colostomy under 5 mm."""
    causes = situation(leaking(protrusion_mm=height, kind=kind)).causes.causes
    assert ("low_stoma" in {cause.key for cause in causes}) is low


@pytest.mark.parametrize(("opening", "bare"), [(16.45, False), (16.5, True)])
def test_skin_is_bare_beyond_an_eighth_of_an_inch_a_side(opening: float, bare: bool) -> None:
    """Green 2018: up to 1/8 inch (3.175 mm) a side; the first opening leaves just that."""
    small = {"length_mm": 10.1, "width_mm": 10.1, "opening_length_mm": opening}
    causes = situation(leaking(**small, opening_width_mm=opening)).causes.causes
    assert ("opening_too_large" in {cause.key for cause in causes}) is bare
    burnt = next(cause for cause in causes if cause.key == "irritant_effluent")
    said = {reason.text for reason in burnt.supports}
    assert ("The opening in use leaves skin bare beside the stoma." in said) is bare


def test_an_intact_barrier_counts_against_effluent() -> None:
    cause = next(c for c in ranked(skin=(raw(),)) if c.key == "irritant_effluent")
    assert "intact" in " ".join(reason.text for reason in cause.against)


def test_an_unread_barrier_counts_neither_way() -> None:
    cause = next(c for c in ranked(skin=(raw(),), leak=None) if c.key == "irritant_effluent")
    words = " ".join(reason.text for reason in cause.against + cause.supports)
    assert "barrier" not in words


def test_allergy_and_irritation_by_a_product_cannot_be_told_apart() -> None:
    itching = seen(SkinKind.ERYTHEMA, ALL, outer_mm=40.0, product_outline=True, itch=True)
    causes = situation(well(skin=(itching,), accessories=FILM)).causes
    assert set(causes.cannot_tell_apart) == {"allergic_contact", "irritant_contact"}
    assert causes.would_tell_apart is not None
    assert "patch test" in causes.would_tell_apart


def test_allergy_is_never_concluded_beside_a_leak() -> None:
    """Lyon 2000; patch testing 2012."""
    itching = seen(SkinKind.ERYTHEMA, ALL, product_outline=True, itch=True, burning=False)
    reacts = Person(sensitivities=frozenset({Material.PROTECTANT}))
    keys = [c.key for c in ranked(skin=(itching,), leak=LOW, accessories=FILM, person=reacts)]
    skin = [k for k in keys if k not in {"opening_too_large", "low_stoma"}]
    assert skin.index("allergic_contact") > skin.index("irritant_contact")
    assert situation(well(skin=(itching,), leak=LOW, accessories=FILM)).suspected is None


def test_level_leak_causes_are_not_called_alternatives() -> None:
    found = leaking(protrusion_mm=0.0, creases=(Crease(LOW),))
    assert situation(found).causes.cannot_tell_apart == ()


@pytest.mark.parametrize(
    ("changes", "left_open"),
    [({}, True), ({"leak": LOW}, False), ({"leak": None}, False)],
)
def test_redness_without_a_found_cause_is_unexplained_only_without_a_leak(
    changes: dict[str, Any], left_open: bool
) -> None:
    """Lyon 2000: 15 % of skin disease at a stoma stays unexplained."""
    found = ranked(skin=(seen(SkinKind.ERYTHEMA, itch=True),), **changes)
    assert ("unexplained" in {cause.key for cause in found}) is left_open


def test_pyoderma_is_not_excluded_without_bowel_disease() -> None:
    """Hughes 2000: 3 of 7 had cancer, not bowel disease."""
    none = Person(has_not=frozenset({Condition.INFLAMMATORY_BOWEL_DISEASE}))
    cause = ranked(skin=(seen(SkinKind.UNDERMINED_ULCER),), person=none)[0]
    assert cause.against == ()


def test_crystals_suggest_warty_skin() -> None:
    signs = frozenset({UrineSign.CRYSTALS})
    with_, without = (
        ranked(skin=(seen(SkinKind.WARTY),), kind=StomaKind.UROSTOMY, urine_signs=s)[0].score
        for s in (signs, frozenset[UrineSign]())
    )
    assert with_ > without


def test_every_cause_has_a_source_and_an_observation_that_would_tell() -> None:
    keys = [rule.key for rule in CAUSES]
    assert len(keys) == len(set(keys))
    assert all(rule.tell.endswith((".", "?")) for rule in CAUSES)
    everything = tuple(seen(kind, ALL) for kind in SkinKind)
    causes = ranked(skin=everything, colour=Colour.DUSKY, leak=LOW)
    cited = {s for c in causes for r in c.supports + c.against for s in r.sources}
    assert cited <= CITABLE


def test_a_bulge_is_named_where_it_lies_and_levelled_where_it_does_not() -> None:
    """The cause shows the bulge's own hours; the need shows the low side to raise."""
    bulge = Bulge(ClockHours.of(2, 3, 4), 15.0, 60.0)
    found = leaking(bulges=(bulge,), profile=Profile.CONCAVE)
    cause = next(c for c in situation(found).causes.causes if c.key == "bulge")
    assert cause.hours == ClockHours.of(2, 3, 4)
    need = next(n for n in recommend(found).needs if n.key == "level_low_side")
    assert need.hours == ClockHours.of(8, 9, 10)


def test_a_mark_that_fades_is_no_injury() -> None:
    fades = seen(SkinKind.PRESSURE_MARK, fades_min=15.0)
    stays = seen(SkinKind.PRESSURE_MARK, stays_min=45.0)
    for mark, injures in ((fades, False), (stays, True)):
        causes = situation(well(skin=(mark,), profile=Profile.CONVEX)).causes.causes
        assert ("pressure_injury" in {cause.key for cause in causes}) is injures
