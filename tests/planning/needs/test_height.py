"""When height alone asks for a dome: each kind of stoma by its own figure."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, Plan, recommend
from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Findings, LumenPosition, PouchKind, Prolapse, StomaKind, Trial
from planning.needs import needs_of
from planning.results.plan import Need
from tests.planning.builders import INTACT, LOW, leaking, raw, situation, well

COLO, ILEO, URO = StomaKind.COLOSTOMY, StomaKind.ILEOSTOMY, StomaKind.UROSTOMY


def lift_of(findings: Findings, history: History) -> Need | None:
    needs = needs_of(situation(findings, history))
    return next((need for need in needs if need.key == "lift_rim"), None)


def lift(plan: Plan) -> Need | None:
    return next((need for need in plan.needs if need.key == "lift_rim"), None)


@pytest.mark.parametrize(
    ("kind", "height", "dome"),
    [
        (COLO, 4.0, True),
        (COLO, 4.9, True),
        (COLO, 5.0, False),
        (COLO, 8.0, False),
        (COLO, 9.0, False),
        (ILEO, 8.0, True),
        (ILEO, 9.9, True),
        (ILEO, 10.0, False),
        (ILEO, 19.0, False),
        (URO, 8.0, True),
        (URO, 10.0, False),
    ],
)
def test_a_leak_of_a_low_stoma(kind: StomaKind, height: float, dome: bool) -> None:
    """Persson 2010: a colostomy under 5 mm leaks; a spout under 10 mm: soft, shallow convexity
    (common practice), from 10 to 20 mm flat with a ring."""
    pouch = PouchKind.TAP if kind is URO else PouchKind.DRAINABLE
    plan = recommend(leaking(kind=kind, protrusion_mm=height, pouch=pouch))
    assert ("soft_convex_shallow" in plan.supplies) is dome
    assert (lift(plan) is not None) is dome


def test_a_colostomy_on_target_is_never_called_short() -> None:
    plan = recommend(leaking(kind=COLO, protrusion_mm=8.0))
    said = [r.text for item in plan.recommendations for r in item.because]
    said += [r.text for cause in plan.causes.causes for r in cause.supports]
    assert not [text for text in said if "short" in text]
    assert "belt" not in plan.supplies


@pytest.mark.parametrize(
    ("kind", "height", "source", "words"),
    [(COLO, 4.5, "persson2010/colostomy", "under 5 mm"), (ILEO, 8.0, PRACTICE, "under 10 mm")],
)
def test_the_reason_names_the_figure_and_whose_it_is(
    kind: StomaKind, height: float, source: str, words: str
) -> None:
    need = lift(recommend(leaking(kind=kind, protrusion_mm=height)))
    assert need is not None
    assert words in need.because[0].text
    assert source in need.because[0].sources


def test_a_colostomy_whose_lumen_opens_at_the_skin_gets_a_dome_for_that_reason() -> None:
    found = leaking(kind=COLO, protrusion_mm=8.0, lumen=LumenPosition.SKIN_LEVEL)
    need = lift_of(found, History())
    assert need is not None
    assert "skin level" in need.because[0].text
    assert "short" not in " ".join(reason.text for reason in need.because)


def test_a_colostomy_that_leaks_in_spite_of_flat_and_ring_is_assessed_for_a_dome() -> None:
    """Rolstad 2006."""
    tried = Trial(frozenset({"flat_flexible", "ring"}), helped=False)
    plan = recommend(leaking(kind=COLO, protrusion_mm=8.0), History(trials=(tried,)))
    assert "soft_convex_shallow" in plan.supplies


def test_no_lift_is_asked_that_no_dome_could_have() -> None:
    need = lift(recommend(leaking(protrusion_mm=9.7)))
    assert need is not None
    assert need.amount == 1.0
    assert "0 mm" not in need.text


FLAT_AND_RING = frozenset({"flat_flexible", "ring"})


@pytest.mark.parametrize(
    ("supplies", "helped", "asked"),
    [
        (FLAT_AND_RING, False, True),
        (FLAT_AND_RING, True, False),
        (FLAT_AND_RING, None, False),
        (frozenset({"flat_flexible"}), False, False),
        (frozenset({"ring"}), False, False),
    ],
)
def test_only_a_flat_barrier_with_ring_that_failed_calls_for_lift_of_a_tall_stoma(
    supplies: frozenset[str], helped: bool | None, asked: bool
) -> None:
    """Rolstad 2006. At 25 mm the height itself asks for none; 1 mm is the least that is pressed."""
    tried = History(trials=(Trial(supplies, helped=helped),))
    need = lift_of(leaking(), tried)
    assert (need is not None) is asked
    if need is not None:
        assert (need.amount, need.unit) == (1.0, "mm")
        assert need.because[0].sources == ("rolstad2006/assess",)


@pytest.mark.parametrize(
    "changes",
    [
        {"leak": INTACT, "skin": ()},
        {"leak": INTACT},
        {"leak": None, "erosion": None},
        {"prolapse": (Prolapse(30.0, True, False),)},
        {"protrusion_mm": None},
    ],
)
def test_no_lift_after_a_failed_flat_barrier_without_a_leak_or_where_none_may_press(
    changes: dict[str, Any],
) -> None:
    tried = History(trials=(Trial(FLAT_AND_RING, helped=False),))
    assert lift_of(well(**({"leak": LOW, "skin": (raw(),)} | changes)), tried) is None
