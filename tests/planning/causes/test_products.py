"""Which product is suspected: by where it touches and by the outline of the reaction."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from planning import History, Plan, recommend
from planning.causes.products import began, contact_findings, suspects, untouched, worn_outside
from planning.causes.where_products_touch import PRODUCTS, Place, extent
from planning.evidence.thresholds import BARRIER_ACROSS, PASTE_REACH
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Accessory,
    Begun,
    Crease,
    Material,
    Person,
    Product,
    SkinFinding,
    SkinKind,
)
from planning.results.plan import Change
from planning.supplies.catalogue import SUPPLIES
from tests.planning.builders import ALL, LOW, seen, situation, well

BELT_LINE = ClockHours.of(3, 9)
A = Accessory
M = Material
#: From the edge of a stoma of 30 mm to the outline of a usual barrier.
RIM = BARRIER_ACROSS.value / 2 - 15.0


def rash(inner: float | None, outer: float | None, **changes: Any) -> SkinFinding:
    """Redness all round, in the outline of a product."""
    how = {"hours": ALL, "product_outline": True, **changes}
    return seen(SkinKind.ERYTHEMA, inner_mm=inner, outer_mm=outer, **how)


WEALS = rash(115.0, 125.0, hours=BELT_LINE, itch=True)


def wearing(*accessories: Accessory, skin: tuple[SkinFinding, ...], **changes: Any) -> Any:
    return well(skin=skin, accessories=frozenset(accessories), **changes)


def changed(plan: Plan) -> dict[str, Change]:
    return {r.key: r.change for r in plan.recommendations if r.key in SUPPLIES}


def touched(found: Any) -> set[str]:
    """Supplies that the plan stops, starts or changes."""
    return {key for key, change in changed(recommend(found)).items() if change is not Change.KEEP}


ORDER: list[tuple[set[Accessory], SkinFinding, list[Material]]] = [
    # What has the outline comes first, and what is wet before the adhesive.
    ({A.PROTECTANT, A.PASTE}, rash(0, 40), [M.PROTECTANT, M.PASTE, M.BARRIER_ADHESIVE]),
    ({A.PROTECTANT, A.PASTE}, rash(0, 12), [M.PASTE, M.PROTECTANT, M.BARRIER_ADHESIVE]),
    ({A.PROTECTANT, A.RING}, rash(0, 14), [M.RING, M.PROTECTANT, M.BARRIER_ADHESIVE]),
    ({A.ADHESIVE_REMOVER}, rash(0, 40), [M.ADHESIVE_REMOVER, M.BARRIER_ADHESIVE]),
    (set(), rash(0, 40), [M.BARRIER_ADHESIVE]),
    # However wide the rash: what it begins under is not cleared by it.
    ({A.PASTE}, rash(0, 17), [M.PASTE, M.BARRIER_ADHESIVE]),
    ({A.PASTE}, rash(0, 25), [M.PASTE, M.BARRIER_ADHESIVE]),
    ({A.PASTE}, rash(10, 60), [M.PASTE, M.BARRIER_ADHESIVE]),
    ({A.PASTE}, rash(0, 60, product_outline=None), [M.PASTE, M.BARRIER_ADHESIVE]),
    ({A.RING}, rash(0, 36), [M.BARRIER_ADHESIVE, M.RING]),
    # What begins further out than the paste reaches does not touch it.
    ({A.PASTE}, rash(16, 36), [M.BARRIER_ADHESIVE]),
    ({A.PASTE, A.RING}, rash(15.5, 36), [M.PASTE, M.BARRIER_ADHESIVE, M.RING]),
    # Where it begins or ends is not recorded: everything may touch it.
    ({A.PASTE, A.PROTECTANT}, rash(None, 30), [M.PROTECTANT, M.PASTE, M.BARRIER_ADHESIVE]),
    ({A.PASTE, A.RING}, rash(0, None), [M.PASTE, M.RING, M.BARRIER_ADHESIVE]),
    ({A.PASTE, A.RING}, rash(None, None), [M.PASTE, M.RING, M.BARRIER_ADHESIVE]),
    # Powder lies under the whole barrier; the prescribed one is the prescriber's to stop.
    ({A.POWDER}, rash(0, 20, product_outline=None), [M.POWDER, M.BARRIER_ADHESIVE]),
    ({A.ANTIFUNGAL_POWDER}, rash(0, 36), [M.BARRIER_ADHESIVE]),
    # A strip may lie anywhere where no crease is recorded.
    ({A.STRIP}, rash(0, 20, product_outline=None), [M.RING, M.BARRIER_ADHESIVE]),
    # A frame at the outline is the tape's, which no field records.
    ({A.PROTECTANT}, rash(28, 36), [M.TAPE, M.PROTECTANT, M.BARRIER_ADHESIVE]),
    ({A.PROTECTANT}, rash(36, 44), [M.TAPE]),
    ({A.PROTECTANT}, rash(28, 36, product_outline=None), [M.PROTECTANT, M.BARRIER_ADHESIVE]),
    # Beyond the barrier nothing of it touches; from beneath it to the belt all does.
    ({A.PROTECTANT, A.PASTE}, rash(60, 150), []),
    ({A.BELT}, rash(20, 60, hours=BELT_LINE), [M.BARRIER_ADHESIVE, M.LATEX]),
]


@pytest.mark.parametrize(("worn", "skin", "expected"), ORDER)
def test_order_of_suspicion(
    worn: set[Accessory], skin: SkinFinding, expected: list[Material]
) -> None:
    assert list(suspects(situation(wearing(*worn, skin=(skin,))).facts)) == expected


@pytest.mark.parametrize("outer", [12.0, 17.0, 25.0, 36.0, 60.0])
@pytest.mark.parametrize("outline", [True, None])
def test_paste_under_a_rash_of_any_width_is_stopped_and_nothing_else(
    outer: float, outline: bool | None
) -> None:
    found = wearing(A.PASTE, skin=(rash(0.0, outer, product_outline=outline),))
    assert situation(found).suspected is M.PASTE
    assert touched(found) == {"paste"}


def test_ring_shaped_redness_stops_the_ring_alone() -> None:
    found = wearing(A.RING, A.PROTECTANT, skin=(rash(0.0, 15.0),))
    assert touched(found) == {"ring"}


def test_a_strip_is_suspected_for_an_outline_along_its_crease() -> None:
    side = ClockHours.of(3, 9)
    skin = rash(0.0, 36.0, hours=side)
    found = wearing(A.STRIP, skin=(skin,), creases=(Crease(side),))
    assert situation(found).suspected is M.RING
    elsewhere = wearing(A.STRIP, skin=(skin,), creases=(Crease(ClockHours.of(12)),))
    assert M.RING not in suspects(situation(elsewhere).facts)


# --- beyond the barrier ----------------------------------------------------------------------
@pytest.mark.parametrize(
    "weals",
    [
        WEALS,
        rash(115.0, 125.0, hours=BELT_LINE, product_outline=None),
        rash(None, 125.0, hours=BELT_LINE),
        rash(RIM, 70.0, hours=ClockHours.of(2, 9)),
    ],
)
def test_a_belts_weals_stop_the_belt_and_never_change_the_barrier(weals: SkinFinding) -> None:
    found = wearing(A.BELT, A.PROTECTANT, A.RING, skin=(weals,))
    assert situation(found).suspected is None
    assert situation(found).left_off == {M.LATEX}
    assert touched(found) == {"belt"}


def test_weals_named_as_such_stop_what_lies_there_and_ask_about_latex() -> None:
    weal = seen(SkinKind.WEAL, BELT_LINE, inner_mm=110.0, outer_mm=140.0)
    found = wearing(A.BELT, A.PROTECTANT, A.RING, skin=(weal,))
    assert touched(found) == {"belt"}
    said = {r.key for r in recommend(found).recommendations}
    assert "latex_clinic" in said
    assert "weals" not in said
    inside = seen(SkinKind.WEAL, BELT_LINE, inner_mm=0.0, outer_mm=20.0)
    here = wearing(A.BELT, A.RING, skin=(inside,))
    assert touched(here) == set()
    assert "weals" in {r.key for r in recommend(here).recommendations}


def test_a_garments_weals_stop_everything_with_latex_and_no_more() -> None:
    found = wearing(A.BELT, A.SUPPORT_GARMENT, skin=(rash(60.0, 90.0, hours=ClockHours.of(12)),))
    assert touched(found) == {"belt", "support_garment"}


def test_a_leak_does_not_explain_weals_that_it_does_not_reach() -> None:
    found = wearing(A.BELT, A.PROTECTANT, skin=(WEALS,), leak=LOW)
    assert changed(recommend(found))["belt"] is Change.STOP
    assert changed(recommend(found))["protectant"] is not Change.STOP
    assert "other_material" not in changed(recommend(found))


def test_two_places_are_two_reactions_one_product_at_each() -> None:
    found = wearing(A.BELT, A.PROTECTANT, A.PASTE, skin=(rash(0.0, 36.0), WEALS))
    assert situation(found).suspected is M.PROTECTANT
    assert touched(found) == {"belt", "protectant"}


def test_what_may_hold_latex_is_not_tried_again() -> None:
    plan = recommend(wearing(A.BELT, skin=(WEALS,)))
    said = {r.key: r for r in plan.recommendations}
    assert "no test at home" in said["latex_clinic"].text
    assert "Do not try the belt" in str(said["latex_clinic"].patient_text)
    assert "patch_test" not in said
    assert "tried again at home" in said["belt"].because[0].text
    assert "re-exposure" not in (plan.causes.would_tell_apart or "")


def test_redness_beyond_the_barrier_with_no_product_there_is_no_contact_reaction() -> None:
    sweat = rash(60.0, 90.0, hours=BELT_LINE, product_outline=None)
    assert contact_findings(situation(wearing(skin=(sweat,))).facts) == ()
    belt = situation(wearing(A.BELT, skin=(sweat,))).facts
    assert worn_outside(belt) == {M.LATEX}
    off_line = rash(60.0, 90.0, hours=ClockHours.of(12), product_outline=None)
    assert worn_outside(situation(wearing(A.BELT, skin=(off_line,))).facts) == frozenset()


def test_where_nothing_on_record_touches_nothing_is_changed_and_it_is_looked_for() -> None:
    found = wearing(A.PROTECTANT, A.PASTE, skin=(rash(60.0, 150.0, hours=ClockHours.arc(4, 8)),))
    assert situation(found).suspected is None
    assert touched(found) == set()
    assert "look_for_product" in {r.key for r in recommend(found).recommendations}


def test_a_frame_of_tape_leaves_the_barrier_and_everything_else() -> None:
    found = wearing(A.PROTECTANT, A.RING, skin=(rash(28.0, 36.0),))
    assert situation(found).suspected is M.TAPE
    assert touched(found) == set()
    assert {"no_tape", "patch_test"} <= {r.key for r in recommend(found).recommendations}


# --- what else decides -----------------------------------------------------------------------
def test_a_known_sensitiser_goes_first_and_alone() -> None:
    person = Person(sensitivities=frozenset({M.PASTE}))
    found = wearing(A.PROTECTANT, A.PASTE, skin=(rash(0.0, 36.0),), person=person)
    assert situation(found).suspected is M.PASTE
    assert touched(found) == {"paste"}


def test_a_known_sensitiser_at_the_margin_clears_nothing_inside() -> None:
    """The belt goes in any case; the film has the outline."""
    person = Person(sensitivities=frozenset({M.LATEX}))
    found = wearing(A.PROTECTANT, A.BELT, skin=(rash(0.0, 40.0),), person=person)
    assert touched(found) == {"belt", "protectant"}


def test_what_was_begun_since_the_last_visit_goes_first_among_equals() -> None:
    found = wearing(A.PROTECTANT, A.ADHESIVE_REMOVER, skin=(rash(0.0, 36.0),))
    before = History(previous=(wearing(A.PROTECTANT, skin=()),))
    assert situation(found).suspected is M.PROTECTANT
    assert situation(found, before).suspected is M.ADHESIVE_REMOVER
    unknown = History(previous=(well(accessories=None),))
    assert situation(found, unknown).suspected is M.PROTECTANT


def begun(**days: float | None) -> tuple[Begun, ...]:
    return tuple(Begun(Product(name), ago) for name, ago in days.items())


@pytest.mark.parametrize(
    ("started", "first"),
    [
        # The one begun last, however many are named and in whichever order.
        (begun(film=30, remover=2, ring=90), [M.ADHESIVE_REMOVER, M.PROTECTANT]),
        (begun(ring=90, film=2, remover=30), [M.PROTECTANT, M.ADHESIVE_REMOVER]),
        # A day that is not known comes after one that is, before what was not begun.
        (begun(film=None, remover=400), [M.ADHESIVE_REMOVER, M.PROTECTANT]),
        (begun(remover=None), [M.ADHESIVE_REMOVER, M.PROTECTANT]),
        # An outline says more than a start.
        (begun(ring=1), [M.PROTECTANT, M.ADHESIVE_REMOVER]),
    ],
)
def test_of_several_begun_the_last_goes_first_among_equals(
    started: tuple[Begun, ...], first: list[Material]
) -> None:
    worn = (A.PROTECTANT, A.ADHESIVE_REMOVER, A.RING)
    found = wearing(*worn, skin=(rash(0.0, 36.0),), begun=started)
    assert [m for m in suspects(situation(found).facts) if m in first] == first
    assert suspects(situation(found).facts)[0] is first[0]


def test_what_was_not_asked_at_the_last_visit_is_not_begun_since() -> None:
    """A cover worn all along, by a list that had no word for it."""
    found = wearing(A.POUCH_COVER, skin=())
    asked = wearing(skin=())
    system = replace(asked.system, accessories_not_asked=frozenset({A.POUCH_COVER}))
    old = replace(asked, system=system)
    assert began(situation(found, History(previous=(asked,))).facts) == {A.POUCH_COVER}
    assert began(situation(found, History(previous=(old,))).facts) == frozenset()
    assert situation(old).facts.wears(A.POUCH_COVER) is None


def test_a_known_sensitiser_elsewhere_is_no_evidence_here() -> None:
    person = Person(sensitivities=frozenset({M.LATEX}))
    here = situation(wearing(A.BELT, skin=(rash(0.0, 30.0),), person=person))
    there = situation(wearing(A.BELT, skin=(WEALS,), person=person))
    words = "A product in use is one this person has reacted to before."
    for now, expected in ((here, False), (there, True)):
        cause = next(c for c in now.causes.causes if c.key == "allergic_contact")
        assert (words in {r.text for r in cause.supports}) is expected


REACTED = "A product in use is one this person has reacted to before."


@pytest.mark.parametrize(
    ("material", "worn", "said"),
    [
        (M.PASTE, {A.PASTE}, True),
        (M.PASTE, set(), False),
        (M.RING, {A.PASTE}, False),
        # Whether a barrier has a tape border is seldom recorded: it is no product in use.
        (M.TAPE, {A.PASTE}, False),
    ],
)
def test_a_known_sensitiser_is_evidence_only_while_it_is_worn(
    material: Material, worn: set[Accessory], said: bool
) -> None:
    person = Person(sensitivities=frozenset({material}))
    found = situation(wearing(*worn, skin=(rash(0.0, 36.0),), person=person))
    cause = next(c for c in found.causes.causes if c.key == "allergic_contact")
    assert (REACTED in {r.text for r in cause.supports}) is said


@pytest.mark.parametrize(
    ("begun", "first"),
    [
        # The newest first, in days or parts of a day.
        ((Begun(Product.FILM, 30.0), Begun(Product.REMOVER, 29.0)), M.ADHESIVE_REMOVER),
        ((Begun(Product.FILM, 29.0), Begun(Product.REMOVER, 30.0)), M.PROTECTANT),
        # One with its day comes before one without.
        ((Begun(Product.REMOVER, 300.0),), M.ADHESIVE_REMOVER),
        ((Begun(Product.FILM, 300.0),), M.PROTECTANT),
        (None, M.PROTECTANT),
    ],
)
def test_the_newest_by_its_day_goes_first_among_equals(
    begun: tuple[Begun, ...] | None, first: Material
) -> None:
    both = {A.PROTECTANT, A.ADHESIVE_REMOVER}
    found = wearing(*both, skin=(rash(0.0, 36.0),), begun=begun)
    assert situation(found).suspected is first


def test_worn_at_this_visit_and_not_at_the_last_is_newer_than_half_a_day() -> None:
    both = {A.PROTECTANT, A.ADHESIVE_REMOVER}
    found = wearing(*both, skin=(rash(0.0, 36.0),), begun=(Begun(Product.FILM, 0.5),))
    before = History(previous=(wearing(A.PROTECTANT, skin=()),))
    assert situation(found, before).suspected is M.ADHESIVE_REMOVER


@pytest.mark.parametrize("now", [{"system": None}, {"accessories": None}, {}])
@pytest.mark.parametrize("last", [{"system": None}, {"accessories": None}, {}])
def test_what_was_worn_and_was_not_recorded_is_not_taken_as_begun(
    now: dict[str, Any], last: dict[str, Any]
) -> None:
    found = well(skin=(rash(0.0, 36.0),), **now)
    facts = situation(found, History(previous=(well(**last),))).facts
    assert list(suspects(facts)) == ([] if "system" in now else [M.BARRIER_ADHESIVE])


def test_a_named_outline_is_a_reaction_to_a_product_whatever_its_shape() -> None:
    named = seen(SkinKind.ERYTHEMA, LOW, outline_of=Product.PASTE)
    unnamed = seen(SkinKind.ERYTHEMA, LOW)
    assert contact_findings(situation(wearing(A.PASTE, skin=(unnamed,))).facts) == ()
    facts = situation(wearing(A.PASTE, skin=(named,))).facts
    assert [s.finding for s in contact_findings(facts)] == [named]


def test_every_accessory_that_lies_on_the_skin_has_its_place() -> None:
    placed = {p.worn_as for p in PRODUCTS if p.worn_as is not None}
    # The tape border belongs to the barrier: its place is the border's.
    assert set(A) - placed == {A.THICKENER, A.NIGHT_BAG, A.LUBRICANT, A.TAPE}
    facts = situation(well()).facts
    assert extent(Place.PASTE, facts) == (0.0, PASTE_REACH.value)
    assert extent(Place.RING, facts) == (0.0, 16.0)
    assert extent(Place.BARRIER, facts) == pytest.approx((0.0, RIM))
    assert extent(Place.BORDER, facts) == pytest.approx((RIM - 15.0, RIM + 15.0))
    assert extent(Place.BELT, facts)[0] == pytest.approx(RIM)
    unmeasured = situation(well(length_mm=None)).facts
    assert extent(Place.BARRIER, unmeasured) == (0.0, BARRIER_ACROSS.value / 2)


def test_a_frame_copies_the_tape_only_while_it_lies_wholly_in_its_border() -> None:
    start, end = extent(Place.BORDER, situation(well()).facts)
    for inner, outer, first in (
        (start, end, M.TAPE),
        (start - 0.1, end, M.PROTECTANT),
        (start, end + 0.1, M.PROTECTANT),
    ):
        found = wearing(A.PROTECTANT, skin=(rash(inner, outer),))
        assert suspects(situation(found).facts)[0] is first, (inner, outer)


@pytest.mark.parametrize(
    ("beyond", "hours", "outside"),
    [
        (15.1, BELT_LINE, True),
        (14.9, BELT_LINE, False),
        (-14.9, BELT_LINE, False),
        (15.1, ClockHours.of(3, 6, 9), False),
    ],
)
def test_weals_of_unknown_start_are_the_belts_from_a_borders_width_beyond_the_barrier(
    beyond: float, hours: ClockHours, outside: bool
) -> None:
    """A tape reaches 15 mm beyond the outline (design value)."""
    found = wearing(A.BELT, skin=(rash(None, RIM + beyond, hours=hours),))
    assert (worn_outside(situation(found).facts) == {M.LATEX}) is outside


def test_what_touches_nothing_worn_is_looked_for_only_where_something_is_worn() -> None:
    far = rash(60.0, 150.0, hours=LOW)
    assert untouched(situation(wearing(skin=(far,))).facts)
    assert not untouched(situation(wearing(skin=(rash(0.0, 40.0),))).facts)
    assert not untouched(situation(wearing(skin=(rash(0.0, 10.0),))).facts)
    # A tape border is not on record.
    assert untouched(situation(wearing(skin=(rash(RIM + 1.0, RIM + 10.0),))).facts)
    assert not untouched(situation(well(skin=(far,), system=None)).facts)


@pytest.mark.parametrize(
    ("inner", "stays"), [(60.0, False), (5.0, True)], ids=["beyond the barrier", "under it"]
)
def test_a_belt_over_weals_is_left_off_and_one_elsewhere_stays(inner: float, stays: bool) -> None:
    weal = seen(SkinKind.WEAL, BELT_LINE, inner_mm=inner, outer_mm=inner + 20.0)
    plan = recommend(wearing(A.BELT, skin=(weal,)))
    assert changed(plan)["belt"] is (Change.KEEP if stays else Change.STOP)
