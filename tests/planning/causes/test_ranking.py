"""The order of causes and which are level, on made rules of known weight."""

from __future__ import annotations

from typing import Any

import pytest

from planning.causes.ranking import rank
from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.facts.derive import Facts
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Bulge,
    Condition,
    Crease,
    Person,
    Prolapse,
    RemovalReason,
    Separation,
    SkinKind,
    StomaKind,
    WearEpisode,
)
from planning.results.plan import CauseOf, CauseRanking
from tests.planning.builders import LOW, raw, seen, situation, well
from tests.planning.causes.reasons import cause_of, is_said

SKIN, LEAK = CauseOf.SKIN, CauseOf.LEAK
K = SkinKind


def made(key: str, score: float, of: CauseOf = SKIN) -> CauseRule:
    def weigh(facts: Facts, evidence: Evidence) -> ClockHours:
        evidence.speaks_for(True, score, f"Made to weigh {score}.")
        return LOW

    return CauseRule(key=key, of=of, title=key, weigh=weigh, tell=f"Look at {key}.")


def ranked(*rules: CauseRule) -> CauseRanking:
    return rank(situation(well()).facts, rules)


def test_skin_comes_before_leak_and_each_by_its_score() -> None:
    found = ranked(made("a", 1, LEAK), made("b", 9, LEAK), made("c", 2), made("d", 5), made("e", 5))
    assert [cause.key for cause in found.causes] == ["d", "e", "c", "b", "a"]


@pytest.mark.parametrize(
    ("scores", "level"),
    [
        ((5.0, 4.0, 3.9), ("a", "b")),
        ((5.0, 3.9), ()),
        ((0.5, 0.0), ()),  # nothing supports the second
        ((0.5, 0.1), ("a", "b")),
        ((0.0, 0.0), ()),
    ],
)
def test_what_differs_by_no_more_than_a_hint_is_level(
    scores: tuple[float, ...], level: tuple[str, ...]
) -> None:
    """A hint weighs 1 (design value)."""
    found = ranked(*(made(key, score) for key, score in zip("abc", scores, strict=False)))
    assert found.cannot_tell_apart == level
    assert found.would_tell_apart == ("Look at b." if level else None)


def test_causes_of_a_leak_add_up_and_are_never_level() -> None:
    assert ranked(made("a", 2, LEAK), made("b", 2, LEAK)).cannot_tell_apart == ()
    assert ranked(made("a", 2), made("b", 2, LEAK)).cannot_tell_apart == ()


def test_a_sign_that_nearly_makes_a_cause_outweighs_a_clear_one_and_that_a_hint() -> None:
    assert STRONG > CLEAR > HINT > 0
    assert STRONG <= CLEAR + HINT


#: The sign each cause cannot be without, said first.
SIGNS: list[tuple[str, str, dict[str, Any]]] = [
    ("moisture", "The skin is pale", {"skin": (seen(K.MACERATION),)}),
    ("yeast", "Satellite spots", {"skin": (seen(K.SATELLITES),)}),
    ("folliculitis", "Red dots or pustules", {"skin": (seen(K.HAIR_PUSTULES),)}),
    ("warty", "Raised, thick, warty skin", {"skin": (seen(K.WARTY),)}),
    ("granuloma", "Red, moist bumps", {"skin": (seen(K.GRANULOMA),)}),
    ("fistula", "Effluent comes from an opening", {"skin": (seen(K.FISTULA),)}),
    ("unexplained", "No leak was found", {"skin": (seen(K.ERYTHEMA),)}),
    ("separation", "A gap between bowel and skin", {"junction": (Separation(LOW),)}),
    (
        "radiation",
        "The abdomen is or was treated",
        {
            "skin": (seen(K.ERYTHEMA),),
            "person": Person(has=frozenset({Condition.RADIOTHERAPY_ABDOMEN})),
        },
    ),
    ("prolapse", "The stoma is prolapsed", {"prolapse": (Prolapse(30.0, True, False),)}),
    ("crease", "A crease reaches", {"leak": LOW, "creases": (Crease(LOW),)}),
    ("bulge", "A bulge", {"leak": LOW, "bulges": (Bulge(LOW),)}),
    (
        "long_wear",
        "A barrier was worn for 8 days",
        {"leak": LOW, "wear": (WearEpisode(8.0, RemovalReason.LEAK),)},
    ),
    ("liquid_output", "Liquid output dissolves", {"leak": LOW, "volume_ml_24h": 1200.0}),
    (
        "opening_too_large",
        "The opening leaves 5.0 mm",
        {"leak": LOW, "opening_length_mm": 40.0, "opening_width_mm": 40.0},
    ),
    (
        "opening_too_small",
        "The opening in use is 1.0 mm a side smaller",
        {"opening_length_mm": 28.0, "opening_width_mm": 28.0},
    ),
]


@pytest.mark.parametrize(("key", "words", "changes"), SIGNS)
def test_the_sign_it_rests_on_is_said(key: str, words: str, changes: dict[str, Any]) -> None:
    assert is_said(cause_of(key, changes), words, against=False)


@pytest.mark.parametrize(
    ("kind", "source"),
    [
        (StomaKind.ILEOSTOMY, "persson2010/ileostomy"),
        (StomaKind.COLOSTOMY, "persson2010/colostomy"),
        (StomaKind.UROSTOMY, "design_value"),
        (StomaKind.JEJUNOSTOMY, "design_value"),
    ],
)
def test_no_study_is_named_for_the_height_of_a_urostomy(kind: StomaKind, source: str) -> None:
    """Persson 2010 measured ileostomies and colostomies."""
    cause = cause_of(
        "low_stoma", {"leak": LOW, "skin": (raw(),), "protrusion_mm": 0.0, "kind": kind}
    )
    assert cause is not None
    assert cause.supports[0].sources == (source,)
