"""Needs of the output: drain, hold, resist, thicken."""

from __future__ import annotations

from collections.abc import Iterator

from planning.evidence.sources import PRACTICE
from planning.evidence.thresholds import OUTPUT_CALL
from planning.inputs.findings import StomaKind
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need, Reason


def pouch_needs(situation: RankedFacts) -> Iterator[Need]:
    """All needs of the output that these findings make."""
    facts = situation.facts
    if facts.kind is StomaKind.UROSTOMY:
        reason = Reason("Urine runs all day and night.", (PRACTICE,), "stoma.kind")
        yield Need("drain_urine", "A tap and a valve against backflow", (reason,))
        yield Need("drain_night", "A night bag", (reason,))
    elif facts.small_bowel or facts.liquid:
        reason = Reason("Liquid output is emptied several times a day.", (PRACTICE,), "stoma.kind")
        yield Need("empty_often", "A pouch that empties from below", (reason,))
    yield from _volume(situation)
    if facts.liquid and facts.troubled:
        reason = Reason(
            "Liquid output or urine dissolves the barrier.", (PRACTICE,), "output.consistency"
        )
        yield Need("resist_effluent", "A barrier that liquid does not wash away", (reason,))


def _volume(situation: RankedFacts) -> Iterator[Need]:
    facts = situation.facts
    volume = facts.findings.output.volume_ml_24h
    if facts.kind is not StomaKind.UROSTOMY and volume is not None and volume >= OUTPUT_CALL.value:
        reason = Reason(
            f"Output is {volume:g} mL in 24 hours.",
            ("gateshead/call_1000", PRACTICE),
            "output.volume_ml_24h",
        )
        yield Need("hold_volume", "A pouch for a large output", (reason,))
        yield Need("thicken_output", "Thicken the output in the pouch", (reason,))
    if facts.prolapsed:
        reason = Reason("A prolapse needs room.", (PRACTICE,), "measurement.prolapse")
        yield Need("room_for_stoma", "A pouch with room for the long stoma", (reason,))
