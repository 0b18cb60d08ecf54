"""One rule judged by itself, with everything else asked, measured and good."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import Any

from planning import History
from planning.facts.derive import Facts
from planning.inputs.findings import Condition, Findings, Person, Symptom
from planning.results.plan import Urgency
from planning.safety.flag import Verdict
from tests.planning.builders import situation
from tests.planning.safety.dangers import KNOWN, all_good

Judge = Callable[[Facts], Verdict | None]
E, S, T = Urgency.EMERGENCY, Urgency.SAME_DAY, Urgency.TELEPHONE
D, W = Urgency.DAYS, Urgency.TWO_WEEKS
NONE = History()


def having(*conditions: Condition, **more: Any) -> Person:
    there = frozenset(conditions)
    return replace(KNOWN, has=there, has_not=frozenset(Condition) - there, **more)


def found(*felt: Symptom, open_: tuple[Symptom, ...] = (), **changes: Any) -> Findings:
    """``felt`` are there, ``open_`` were not asked, all others are absent."""
    absent = frozenset(Symptom) - set(felt) - set(open_)
    return all_good(present=frozenset(felt), **({"absent": absent} | changes))


def verdict(judge: Judge, today: Findings, history: History = NONE) -> Verdict | None:
    return judge(situation(today, history).facts)


def level(judge: Judge, today: Findings, history: History = NONE) -> Urgency | None:
    raised = verdict(judge, today, history)
    return None if raised is None else raised.urgency


def ask(judge: Judge, today: Findings, history: History = NONE) -> str:
    raised = verdict(judge, today, history)
    assert raised is not None
    return raised.ask


def said(judge: Judge, today: Findings, history: History = NONE) -> str:
    raised = verdict(judge, today, history)
    assert raised is not None
    return raised.found
