"""When to call, without figures for adults: lines for the sheet of somebody under 16."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.inputs.findings import StomaKind
from planning.ranked_facts import RankedFacts
from planning.results.plan import CallWhen, Urgency
from planning.safety.call_when import DANGERS, Danger, lines_of

_E, _S = Urgency.EMERGENCY, Urgency.SAME_DAY


def call_when_under_16(situation: RankedFacts) -> tuple[CallWhen, ...]:
    """Lines in order of urgency; nothing waits longer than the same day."""
    return lines_of(_dangers(situation))


def _dangers(situation: RankedFacts) -> Iterator[Danger]:
    plain = (danger for danger in DANGERS if not danger.adult_figures)
    for danger in (*plain, *IN_WORDS):
        if danger.told is None or danger.told(situation, False):
            yield danger if danger.urgency is _E else replace(danger, urgency=_S)


def _urine(situation: RankedFacts, _: bool) -> bool:
    return situation.facts.kind is StomaKind.UROSTOMY


def _stool(situation: RankedFacts, _: bool) -> bool:
    return situation.facts.kind is not StomaKind.UROSTOMY


#: What replaces the lines with a figure, and what else is a danger under 16.
IN_WORDS: Final = (
    Danger("bleeds_under_pressure", _E, "bleeding", "it bleeds and does not stop while you press",
           (DESIGN,)),
    Danger("green_vomit", _E, "kind", "your vomit is green", (DESIGN,)),
    Danger("vomit_and_swollen", _E, "kind",
           "you vomit and your belly is swollen or nothing comes out", (DESIGN,)),
    Danger("strong_pain", _E, "kind", "you have strong pain or cramps", (DESIGN,), told=_stool),
    Danger("sleepy", _E, "person", "you are very sleepy or hard to wake", (MEMORY,)),
    Danger("urine_gone", _E, "kind", "no urine comes", (DESIGN,), told=_urine),
    Danger("more_or_less", _S, "kind", "much more or much less comes out than usual", (DESIGN,)),
    Danger("less_wet", _S, "kind", "fewer nappies are wet than usual, or less urine comes",
           (MEMORY,), told=_stool),
    Danger("dry_or_sunken", _S, "kind", "your mouth is dry or your eyes look sunken", (MEMORY,)),
    Danger("comes_watery", _S, "kind", "what comes out is watery", (PRACTICE,), told=_stool),
)  # fmt: skip
