"""Pregnancy: the stoma grows and sinks, and a blockage looks like sickness."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN
from planning.evidence.thresholds import (
    PREGNANCY_EARLY,
    PREGNANCY_LATE,
    PREGNANCY_LATE_FROM,
)
from planning.facts.derive import Facts, still_shrinks
from planning.inputs.findings import Condition, StomaKind
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice

_EARLY, _LATE = PREGNANCY_EARLY.value / 7, PREGNANCY_LATE.value / 7
_WHY: Final = "Pregnant: the stoma widens and may sink."


def pregnant(facts: Facts) -> bool:
    """Marked as pregnant."""
    return facts.has(Condition.PREGNANT) is True


def late(facts: Facts) -> bool:
    """From the week on in which it is measured more often; an unknown week counts as one."""
    weeks = facts.findings.person.pregnant_weeks
    return pregnant(facts) and (weeks is None or weeks >= PREGNANCY_LATE_FROM.value)


def early(facts: Facts) -> bool:
    """Before that week."""
    return pregnant(facts) and not late(facts)


def _always(chosen: SystemChoice) -> bool:
    return pregnant(chosen.situation.facts)


def _measured_early(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    return early(facts) and not still_shrinks(facts)


def _measured_late(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    return late(facts) and not still_shrinks(facts)


def _bowel(chosen: SystemChoice) -> bool:
    facts = chosen.situation.facts
    return pregnant(facts) and facts.kind is not StomaKind.UROSTOMY


ROWS: Final = (
    Situation(
        "pregnancy_measure",
        "Measure every 4 weeks in pregnancy",
        "somebody is pregnant, before week 28, and no surgery of the last 8 weeks asks for more",
        _measured_early,
        f"Measure again every {_EARLY:g} weeks, from week {PREGNANCY_LATE_FROM.value:g} every "
        f"{_LATE:g}",
        _WHY,
        ("pregnancyleaflet/widens", DESIGN),
        f"Your stoma grows with the pregnancy. We measure it every {_EARLY:g} weeks.",
        "person.pregnant_weeks",
    ),
    Situation(
        "pregnancy_measure_often",
        "Measure every 2 weeks late in pregnancy",
        "somebody is pregnant from week 28 on, or in a week not recorded, and no surgery of the "
        "last 8 weeks asks for more",
        _measured_late,
        f"Measure again every {_LATE:g} weeks until the birth",
        _WHY,
        ("pregnancyleaflet/widens", DESIGN),
        f"Your stoma grows with the pregnancy. We measure it every {_LATE:g} weeks.",
        "person.pregnant_weeks",
    ),
    Situation(
        "pregnancy_mirror",
        "Mirror or helper, small orders",
        "somebody is pregnant",
        _always,
        "A mirror or a helper where the stoma is not seen below the bump; small orders, because "
        "the size changes",
        _WHY,
        ("pregnancyleaflet/widens", DESIGN),
        "Use a mirror, or let somebody help you, if you cannot see your stoma. Order small "
        "amounts.",
        "person.has",
    ),
    Situation(
        "pregnancy_team",
        "The obstetric team knows",
        "somebody is pregnant",
        _always,
        "tell them how the stoma changes; no support garment without their word, medicines "
        "through the prescriber alone",
        _WHY,
        ("pregnancyleaflet/widens", DESIGN),
        at="person.has",
        who="Obstetric team",
        within=Urgency.TWO_WEEKS,
    ),
    Situation(
        "pregnancy_blockage",
        "A blockage is thought of before pregnancy sickness",
        "somebody with a bowel stoma is pregnant",
        _bowel,
        "Warn of a blockage: one sign of it (cramps, vomiting, a swollen belly, nothing comes) is "
        "seen the same day by surgeon and obstetrics, two are an emergency; it is not put down to "
        "pregnancy sickness",
        "Pregnant: obstruction came in 35.5 % of 67 pregnancies with a stoma.",
        ("pregnancy2025/blocked", DESIGN),
        "Call at once if you have cramps, vomit or nothing comes: it may be a blockage.",
        "person.has",
    ),
)
