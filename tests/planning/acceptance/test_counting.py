"""Changes are counted by the one definition: what counts, what does not, what is one together."""

from __future__ import annotations

from dataclasses import replace
from typing import Final

import pytest

from planning import Plan, recommend
from planning.inputs.findings import Accessory, Pieces, PouchKind, Profile
from planning.results.plan import Change, ItemKind, Recommendation
from tests.planning.acceptance.counting import changes
from tests.planning.builders import WELL, well

_KEPT: Final = recommend(WELL)


def _plan(*items: Recommendation) -> Plan:
    return replace(_KEPT, recommendations=items, leave_alone=False)


def _item(
    key: str, kind: ItemKind, change: Change = Change.START, text: str = ""
) -> Recommendation:
    return Recommendation(key, kind, change, text or key, ())


_BARRIER = _item("soft_convex_shallow", ItemKind.BARRIER, Change.CHANGE)
_OPENING = _item("opening", ItemKind.OPENING, Change.CHANGE)
_POWDER = _item("powder", ItemKind.SKIN_CARE)
_FILM = _item("protectant", ItemKind.SKIN_CARE)

EACH_ONE: Final = {
    "barrier": _BARRIER,
    "opening": _OPENING,
    "pouch": _item("high_output", ItemKind.POUCH, Change.CHANGE),
    "ring": _item("ring", ItemKind.RING),
    "half_ring": _item("half_ring", ItemKind.FILLER),
    "strip": _item("strip", ItemKind.FILLER),
    "paste": _item("paste", ItemKind.FILLER, Change.STOP),
    "film": _FILM,
    "skin care": _POWDER,
    "tape": _item("no_tape", ItemKind.TEACH),
    "belt": _item("belt", ItemKind.SUPPORT, Change.STOP),
    "garment": _item("support_garment", ItemKind.SUPPORT),
    "night bag": _item("night_bag", ItemKind.POUCH),
    "in the pouch": _item("thickener", ItemKind.POUCH),
    "pouch_cover": _item("pouch_cover", ItemKind.SUPPORT, Change.STOP),
}


@pytest.mark.parametrize("component", EACH_ONE)
def test_each_component_counts_once(component: str) -> None:
    assert list(changes(_plan(EACH_ONE[component]), WELL)) == [component]


@pytest.mark.parametrize(
    ("key", "kind", "component"),
    [
        ("concave", ItemKind.BARRIER, "barrier"),
        ("lubricant", ItemKind.POUCH, "in the pouch"),
        ("tape", ItemKind.SUPPORT, "tape"),
    ],
)
def test_what_several_supplies_are_to_the_person_who_wears_them(
    key: str, kind: ItemKind, component: str
) -> None:
    assert list(changes(_plan(_item(key, kind)), WELL)) == [component]


@pytest.mark.parametrize("kind", ItemKind)
def test_a_step_that_is_no_supply_does_not_count(kind: ItemKind) -> None:
    assert changes(_plan(_item("step_pre_cut", kind)), WELL) == {}


@pytest.mark.parametrize(
    "item",
    [
        _item("adhesive_remover", ItemKind.SKIN_CARE),
        _item("absorbent_dressing", ItemKind.SKIN_CARE),
        _item("support_fitting", ItemKind.SUPPORT),
        _item("gentle_peel", ItemKind.TEACH),
        _item("wear_interval", ItemKind.WEAR, Change.CHANGE),
        _item("ask_dermatology", ItemKind.REFER),
        _item("ring", ItemKind.RING, Change.KEEP),
    ],
    ids=lambda item: item.key,
)
def test_what_is_not_worn_and_what_is_kept_does_not_count(item: Recommendation) -> None:
    assert changes(_plan(item), WELL) == {}


@pytest.mark.parametrize(
    ("items", "together"),
    [
        ((_BARRIER, _OPENING), "barrier"),
        ((_BARRIER, _item("one_piece", ItemKind.BARRIER, Change.CHANGE)), "barrier"),
        ((_BARRIER, EACH_ONE["pouch"]), "barrier"),
        ((_POWDER, _FILM), "skin care"),
    ],
)
def test_parts_that_need_each_other_are_one(
    items: tuple[Recommendation, ...], together: str
) -> None:
    assert list(changes(_plan(*items), WELL)) == [together]


def test_two_components_are_two() -> None:
    assert len(changes(_plan(_OPENING, _POWDER, EACH_ONE["belt"]), WELL)) == 3


def test_the_usual_pouch_named_where_none_is_on_record_is_not_known_to_be_new() -> None:
    pouch = _item("drainable", ItemKind.POUCH)
    assert changes(_plan(pouch), well(pouch=None)) == {}
    assert "pouch" in changes(_plan(pouch), well(pouch=PouchKind.CLOSED))


def test_build_and_kind_of_opening_count_where_another_is_on_record() -> None:
    build = _item("one_piece", ItemKind.BARRIER)
    assert changes(_plan(build), well(pieces=None)) == {}
    assert "barrier" in changes(_plan(build), well(pieces=Pieces.TWO))
    opening = _item("pre_cut", ItemKind.OPENING)
    assert changes(_plan(opening), well(opening_kind=None)) == {}
    assert "opening" in changes(_plan(opening), WELL)


def test_a_barrier_begun_counts_though_none_is_on_record() -> None:
    assert "barrier" in changes(
        _plan(_item("flat_flexible", ItemKind.BARRIER)), well(profile=None, flexibility=None)
    )


_OFF = _item(
    "meanwhile",
    ItemKind.POUCH,
    Change.KEEP,
    "nothing that presses: no convexity, no belt, garment off",
)


@pytest.mark.parametrize(
    ("component", "worn"),
    [
        ("barrier", {"profile": Profile.CONVEX}),
        ("belt", {"accessories": frozenset({Accessory.BELT})}),
        ("garment", {"accessories": frozenset({Accessory.SUPPORT_GARMENT})}),
    ],
)
def test_what_comes_off_in_words_counts_where_it_is_worn(
    component: str, worn: dict[str, object]
) -> None:
    emergency = replace(_plan(_OFF), supplies=())
    assert list(changes(emergency, well(**worn))) == [component]
    assert changes(emergency, WELL) == {}


def test_words_count_only_where_no_supply_is_planned() -> None:
    assert changes(_plan(_OFF), well(profile=Profile.CONVEX, flexibility=None)) == {}


def test_an_opening_enlarged_in_words_counts() -> None:
    words = _item("meanwhile", ItemKind.POUCH, Change.KEEP, "Enlarge the opening at once")
    assert list(changes(replace(_plan(words), supplies=()), WELL)) == ["opening"]


def test_the_well_fitting_system_changes_nothing() -> None:
    assert changes(_KEPT, WELL) == {}
