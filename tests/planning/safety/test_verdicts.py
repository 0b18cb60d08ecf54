"""What a verdict says it found, where one flag may rest on different findings."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Bulge, Condition, Person, SkinKind
from planning.results.plan import RedFlag, Urgency
from tests.planning.builders import ALL, seen, well

IBD = Person(has=frozenset({Condition.INFLAMMATORY_BOWEL_DISEASE}))
UNTOLD = "whether it hurts is not recorded"


def flag(key: str, history: History | None = None, **changes: Any) -> RedFlag | None:
    plan = recommend(well(**changes), history or History())
    return next((one for one in plan.red_flags if one.key == key), None)


def said(found: RedFlag | None) -> str:
    assert found is not None
    return " ".join(reason.text for reason in found.because)


def test_pyoderma_is_told_by_its_edge_where_that_was_seen_and_else_by_what_prompted_it() -> None:
    undermined = said(flag("pyoderma", skin=(seen(SkinKind.UNDERMINED_ULCER),)))
    prompted = said(flag("pyoderma", skin=(seen(SkinKind.ULCER),), person=IBD))
    assert "undermined edge" in undermined
    assert "undermined edge" not in prompted
    assert "bowel disease or pain" in prompted


@pytest.mark.parametrize(
    ("enlarging", "urgency"), [(True, Urgency.SAME_DAY), (False, None), (None, None)]
)
def test_a_reaction_to_a_product_that_spreads_is_seen_the_same_day(
    enlarging: bool | None, urgency: Urgency | None
) -> None:
    """Without a blister: it is the spreading alone that makes the flag."""
    spot = seen(SkinKind.ERYTHEMA, ALL, outer_mm=40.0, product_outline=True, enlarging=enlarging)
    found = flag("blistering", skin=(spot,))
    assert (None if found is None else found.urgency) is urgency
    assert found is None or "spreads" in said(found)


@pytest.mark.parametrize(("painful", "told"), [(None, True), (False, False)])
def test_a_bulge_that_stays_out_says_when_nobody_asked_about_pain(
    painful: bool | None, told: bool
) -> None:
    bulge = Bulge(ClockHours.of(3), reducible=False, painful=painful)
    found = flag("hernia_trapped", bulges=(bulge,))
    assert found is not None
    assert found.urgency is Urgency.SAME_DAY
    assert (UNTOLD in said(found)) is told


@pytest.mark.parametrize(
    ("before", "now", "raised"),
    [
        ((False, False), (False, False), False),
        ((False, None), (False, False), True),
        ((None, False), (False, False), True),
        ((True, False), (False, False), True),
        ((False, False), (False, None), True),
    ],
)
def test_only_a_bulge_known_to_stay_out_without_pain_last_time_and_today_is_no_news(
    before: tuple[bool | None, bool | None], now: tuple[bool | None, bool | None], raised: bool
) -> None:
    """Unknown at either visit never counts as the harmless answer."""
    hours = ClockHours.of(3)
    last = well(
        days_since_surgery=300, bulges=(Bulge(hours, reducible=before[0], painful=before[1]),)
    )
    today = (Bulge(hours, reducible=now[0], painful=now[1]),)
    found = flag("hernia_trapped", History(previous=(last,)), bulges=today)
    assert (found is not None) is raised
