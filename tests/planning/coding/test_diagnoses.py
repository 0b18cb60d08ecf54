"""Suggested diagnosis codes, against the package simple-icd-10-cm (ICD-10-CM, April 2026).

The package carries the official tabular list: titles, which codes are leaves, what excludes what.
"""

from __future__ import annotations

from itertools import combinations
from typing import Any

import pytest

from planning import recommend
from planning.coding.code_pairs import CALLS_FOR, EXCLUDES, conflicts, prompts
from planning.coding.diagnoses import CAVEAT, RELEASE, RULES, STATUS, TITLES
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Bleeding,
    Bulge,
    Condition,
    Person,
    Prolapse,
    Separation,
    SkinKind,
    StomaKind,
    Symptom,
)
from planning.results.plan import SuggestedCode
from tests.planning.builders import ALL, INTACT, LOW, leaking, seen, well
from tests.planning.coding.tabular_list import icd
from tests.planning.sweep import planned

ILEO, COLO = StomaKind.ILEOSTOMY, StomaKind.COLOSTOMY
JEJU, URO = StomaKind.JEJUNOSTOMY, StomaKind.UROSTOMY
OUTLINE = seen(SkinKind.ERYTHEMA, ALL, outer_mm=40.0, itch=True, product_outline=True)


def suggested(**changes: Any) -> dict[str, SuggestedCode]:
    return {code.code: code for code in recommend(well(**changes)).suggested_codes}


# --- against the package ----------------------------------------------------------------------
@pytest.mark.parametrize("code", list(TITLES))
def test_every_code_is_a_leaf_with_its_official_title(code: str) -> None:
    """Rule I8: K94.0, L24.B, K43, Z93.5 and the like are headings and never leave the record."""
    assert icd.is_valid_item(code)
    assert icd.is_leaf(code)
    assert icd.get_description(code) == TITLES[code]


def test_headings_are_told_apart() -> None:
    for heading in ("K94.0", "K94.1", "N99.5", "L24.B", "K43", "Z93.5", "K56.60"):
        assert not icd.is_leaf(heading)
        assert heading not in TITLES


def test_every_code_a_rule_may_suggest_has_a_title() -> None:
    codes = {code for rule in RULES for code in rule.codes} | set(STATUS.values())
    assert codes == set(TITLES)


def _said(code: str, of: str) -> str:
    """What the tabular list says at ``code`` and at everything above it."""
    lookup = {"excludes1": icd.get_excludes1, "additional": icd.get_use_additional_code}[of]
    return " ".join(str(lookup(item)) for item in (code, *icd.get_ancestors(code)))


def test_what_excludes_what_is_in_the_tabular_list() -> None:
    for left, right in EXCLUDES:
        for one in left:
            for other in right:
                assert other in _said(one, "excludes1") or one in _said(other, "excludes1")


def test_what_calls_for_what_is_in_the_tabular_list() -> None:
    for code, wanted, _ in CALLS_FOR:
        assert any(want in _said(code, "additional") for want in wanted)


# --- rules I1 to I9 ---------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("rule", "codes", "sound"),
    [
        ("I1", ("Z93.2", "K94.13"), False),
        ("I1", ("Z93.2", "Z43.2"), False),
        ("I1", ("Z93.6", "N99.528"), False),
        ("I2", ("Z43.3", "K94.03"), False),
        ("I2", ("Z43.3", "Z46.59"), True),
        ("I3", ("L24.B3", "Z93.2"), True),
        ("I4", ("L23.1", "L24.B3"), True),
        ("I4", ("L23.1", "L30.9"), False),
        ("I4", ("L24.B3", "L25.9"), False),
        ("I5", ("K56.609", "K91.31"), False),
    ],
)
def test_pairs(rule: str, codes: tuple[str, ...], sound: bool) -> None:
    assert (conflicts(codes) == ()) is sound
    assert (conflicts(reversed(codes)) == ()) is sound


@pytest.mark.parametrize(
    ("rule", "codes", "asked"),
    [
        ("I3", ("L24.B3",), "L24.B3"),
        ("I3", ("L24.B3", "Z93.2"), None),
        ("I6", ("E86.0",), "E86.0"),
        ("I6", ("E86.0", "E87.1"), None),
        ("I7", ("K94.02",), "K94.02"),
        ("I7", ("K94.12", "L03.311"), None),
    ],
)
def test_prompts(rule: str, codes: tuple[str, ...], asked: str | None) -> None:
    assert set(prompts(codes)) == ({asked} if asked else set())


def test_where_what_is_called_for_is_excluded_the_coder_chooses() -> None:
    (words,) = prompts(("L24.B3", "K94.03"))["L24.B3"]
    assert "the coder chooses" in words


@pytest.mark.parametrize(
    ("kind", "code"), [(ILEO, "L24.B3"), (COLO, "L24.B3"), (URO, "L24.B3"), (JEJU, "L24.B1")]
)
def test_irritation_by_kind_of_stoma(kind: StomaKind, code: str) -> None:
    """I9: ileostomy dermatitis is L24.B3, jejunostomy L24.B1."""
    found = suggested(kind=kind, leak=LOW, skin=leaking().skin)
    assert {key for key in found if key.startswith("L24")} == {code}
    assert STATUS[kind] in found


# --- each suggestion --------------------------------------------------------------------------
STUCK = (Bulge(ALL, 15.0, 60.0, False, True),)
FREE = (Bulge(ClockHours.of(3), 15.0, 60.0, True, False),)
SORE = (Bulge(ClockHours.of(3), 15.0, 60.0, None, True),)
EACH: list[tuple[str, dict[str, Any], str]] = [
    ("bleeding", {"bleeding": Bleeding.FROM_LUMEN}, "K94.11"),
    ("bleeding", {"bleeding": Bleeding.FROM_LUMEN, "kind": COLO}, "K94.01"),
    ("bleeding", {"bleeding": Bleeding.FROM_LUMEN, "kind": URO}, "N99.520"),
    ("infected", {"skin": (seen(SkinKind.ABSCESS),)}, "K94.12"),
    ("malfunction", {"prolapse": (Prolapse(30.0, True, False),), "kind": COLO}, "K94.03"),
    ("malfunction", {"protrusion_mm": -6.0}, "K94.13"),
    ("apart", {"junction": (Separation(LOW, 5.0, True, False),)}, "K94.19"),
    ("hernia_with_obstruction", {"bulges": STUCK}, "K43.3"),
    ("hernia", {"bulges": FREE}, "K43.5"),
    ("hernia", {"bulges": SORE}, "K43.5"),
    ("hernia", {"bulges": FREE, "kind": URO}, "N99.523"),
    ("stool_or_urine", {"leak": LOW, "skin": leaking().skin}, "L24.B3"),
    ("digestive_fluid", {"leak": LOW, "skin": leaking().skin, "kind": JEJU}, "L24.B1"),
    ("adhesive_allergy", {"skin": (OUTLINE,), "leak": INTACT}, "L23.1"),
    ("candida", {"skin": (seen(SkinKind.SATELLITES, moist=True),)}, "B37.2"),
    ("hair_roots", {"skin": (seen(SkinKind.HAIR_PUSTULES),)}, "L73.9"),
    ("granulation", {"skin": (seen(SkinKind.GRANULOMA),)}, "L92.8"),
    ("cellulitis", {"skin": (seen(SkinKind.SPREADING_WARMTH),)}, "L03.311"),
    ("stoma_varices", {"skin": (seen(SkinKind.DILATED_VEINS, ALL),)}, "I86.8"),
    (
        "fluid_loss",
        {"volume_ml_24h": 1600.0, "present": frozenset({Symptom.DIZZY_ON_STANDING})},
        "E86.0",
    ),
]


@pytest.mark.parametrize(("rule", "changes", "code"), EACH)
def test_each_rule(rule: str, changes: dict[str, Any], code: str) -> None:
    text = next(r.text for r in RULES if r.key == rule)
    found = suggested(**changes)
    assert text in {reason.text for reason in found[code].because}
    assert code not in suggested(kind=changes.get("kind", ILEO))
    assert found[code].note.startswith(CAVEAT)
    assert found[code].release == RELEASE


def test_every_rule_has_its_example() -> None:
    assert {rule for rule, _, _ in EACH} == {rule.key for rule in RULES}


def test_a_complication_takes_the_place_of_the_status() -> None:
    assert set(suggested()) == {"Z93.2"}
    assert "Z93.2" not in suggested(protrusion_mm=-6.0)


def test_what_is_only_feared_is_not_suggested() -> None:
    """No growth and no pyoderma before they are confirmed; no allergy while it leaks."""
    assert set(suggested(skin=(seen(SkinKind.HARD_LUMP),))) == {"Z93.2"}
    assert set(suggested(skin=(seen(SkinKind.UNDERMINED_ULCER),))) == {"Z93.2"}
    assert "L23.1" not in suggested(skin=(OUTLINE,), leak=LOW)
    liver = Person(has=frozenset({Condition.LIVER_DISEASE}))
    assert "I86.8" not in suggested(person=liver)


def test_codes_of_one_plan_never_exclude_one_another() -> None:
    for _, _, plan in planned(700):
        codes = [item.code for item in plan.suggested_codes]
        assert codes
        assert len(codes) == len(set(codes))
        assert conflicts(codes) == ()
        for one, other in combinations(codes, 2):
            assert f"{one.partition('.')[0]}.-" not in _said(other, "excludes1")


@pytest.mark.parametrize(
    ("kind", "code"),
    [
        (StomaKind.ILEOSTOMY, "Z93.2"),
        (StomaKind.COLOSTOMY, "Z93.3"),
        (StomaKind.JEJUNOSTOMY, "Z93.4"),
        (StomaKind.UROSTOMY, "Z93.6"),
    ],
)
def test_the_status_of_each_kind(kind: StomaKind, code: str) -> None:
    assert code in suggested(kind=kind)
    assert code not in suggested(kind=kind, protrusion_mm=-6.0)


def test_the_status_is_said_in_words_that_go_together() -> None:
    said = {
        one.because[0].text
        for kind in StomaKind
        for one in recommend(well(kind=kind)).suggested_codes
        if one.code.startswith("Z93")
    }
    assert said == {
        "There is an ileostomy.",
        "There is a jejunostomy.",
        "There is a colostomy.",
        "There is a urostomy.",
    }
