"""What a verdict says it found, where one flag may rest on different findings."""

from __future__ import annotations

from typing import Any

import pytest

from planning import History, recommend
from planning.inputs.clock import ClockHours
from planning.inputs.findings import (
    Bulge,
    Condition,
    Consistency,
    Person,
    SkinKind,
    StomaKind,
    Symptom,
)
from planning.results.plan import RedFlag, Urgency
from planning.safety.flags_output import unmeasured_signs
from tests.planning.builders import ALL, seen, situation, well

#: At no risk of dehydration sooner.
YOUNG = Person(
    age_years=40, medicines=frozenset(), has_not=frozenset(Condition), sensitivities=frozenset()
)
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


@pytest.mark.parametrize(
    ("moist", "words"),
    [
        (True, "Weeping blisters inside"),
        (False, "Dry papules or closed blisters inside"),
        (None, "Blisters or papules (whether they weep was not recorded: taken as weeping) inside"),
    ],
)
def test_blisters_are_said_as_they_were_seen(moist: bool | None, words: str) -> None:
    spot = seen(SkinKind.BLISTERS, product_outline=True, moist=moist)
    assert words in said(flag("blistering", skin=(spot,)))


@pytest.mark.parametrize(
    ("days", "words"),
    [(None, ""), (1.0, "; 1 day"), (2.0, "; 2 days running")],
)
def test_high_output_says_for_how_many_days(days: float | None, words: str) -> None:
    asked = {"present": frozenset[Symptom](), "absent": frozenset(Symptom)}
    plan = recommend(well(volume_ml_24h=2100.0, days_at_volume=days, person=YOUNG, **asked))
    text = " ".join(said(one) for one in plan.red_flags)
    assert f"Output is 2100 mL in 24 hours{words}." in text


@pytest.mark.parametrize(
    ("kind", "consistency", "called"),
    [
        (StomaKind.COLOSTOMY, Consistency.WATERY, True),
        (StomaKind.COLOSTOMY, Consistency.LIQUID, False),
        (StomaKind.ILEOSTOMY, Consistency.LIQUID, True),
        (StomaKind.ILEOSTOMY, Consistency.SOFT, False),
    ],
)
def test_thirst_counts_where_unmeasured_output_may_be_much(
    kind: StomaKind, consistency: Consistency, called: bool
) -> None:
    thirst = frozenset({Symptom.THIRST})
    found = well(kind=kind, consistency=consistency, volume_ml_24h=None, present=thirst)
    assert (unmeasured_signs(situation(found).facts) is not None) is called
