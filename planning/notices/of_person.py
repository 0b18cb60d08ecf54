"""Notices about the person, the skin, the wear log and the output."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import BARRIER_ACROSS, LEAK_RATE_AMBER, LEAK_RATE_RED, WEAR_LONG
from planning.facts.derive import Facts
from planning.inputs.findings import Condition, Consistency, Material, SkinKind, StomaKind, Symptom
from planning.notices.rule import NoticeRule


def _liver(facts: Facts) -> Iterator[str]:
    if facts.has(Condition.LIVER_DISEASE):
        yield "Liver disease: look for varices at every visit, even with normal skin."


def _reacts(material: Material, text: str) -> Callable[[Facts], Iterator[str]]:
    def look(facts: Facts) -> Iterator[str]:
        if facts.reacts_to(material):
            yield text

    return look


def _reach(facts: Facts) -> Iterator[str]:
    ends = [s.finding.outer_mm or 0.0 for s in facts.seen if facts.under_barrier(s)]
    if facts.outline is None or not ends:
        return
    if max(ends) > BARRIER_ACROSS.value / 2 - facts.outline.across_mm / 2:
        yield (
            "Damaged skin reaches beyond a barrier of 4 by 4 inches: its rim lies on sore skin; "
            "take a larger one or a smaller one inside it."
        )


def _broken(facts: Facts) -> Iterator[str]:
    """Closed blisters and wet skin are not broken."""
    if facts.broken_skin:
        yield f"{'Broken' if facts.open_skin else 'Sore'} skin: nothing with alcohol."


def _warty(facts: Facts) -> Iterator[str]:
    if facts.find(SkinKind.WARTY):
        yield "No film over thick wet warty skin; do not cut or abrade it."


def _left_out(facts: Facts) -> Iterator[str]:
    if facts.wear is not None and facts.wear.left_out:
        yield "A wear time of more than 14 days looks like a typing error and is left out."


def _contradicted(facts: Facts) -> Iterator[str]:
    if many := facts.findings.wear_left_out:
        yield (
            f"{many} rows of the wear log contradict one another and are left out: ask which is "
            "right and correct the log."
        )


def _worn_long(facts: Facts) -> Iterator[str]:
    """Where the system works and the plan therefore sets no latest change."""
    longest = None if facts.wear is None else facts.wear.longest_days
    if facts.works and longest is not None and longest > WEAR_LONG.value:
        yield (
            f"A barrier was worn for {longest:g} days, longer than {WEAR_LONG.value:g}: check "
            "its back and the skin carefully."
        )


def _leaks(least: float, below: float) -> Callable[[Facts], Iterator[str]]:
    def look(facts: Facts) -> Iterator[str]:
        rate = None if facts.wear is None else facts.wear.leak_rate
        if facts.wear is not None and rate is not None and least <= rate < below:
            yield f"{facts.wear.leaks} of {facts.wear.changes} barriers leaked or fell off."

    return look


def _mixing(facts: Facts) -> Iterator[str]:
    consistency = facts.findings.output.consistency
    urine = facts.kind is StomaKind.UROSTOMY
    if consistency is not None and urine is not (consistency is Consistency.URINE):
        yield "Output and kind of stoma do not fit: stool and urine may be mixing."


def _fever(facts: Facts) -> Iterator[str]:
    if facts.kind is not StomaKind.UROSTOMY and facts.feels(Symptom.FEVER):
        yield "Fever: look for its source."


def _remote(facts: Facts) -> Iterator[str]:
    if facts.findings.remote:
        yield (
            "Not seen with your own eyes today: this plan does not say that stoma and skin are "
            "well. See the person where anything hurts, leaks, bleeds or looks different."
        )


_AT_KNOWN: Final = "person.sensitivities"
RULES: Final[tuple[NoticeRule[Facts], ...]] = (
    NoticeRule("liver", "Known liver disease", ("varicesreview/hidden", "strauss2014/hidden"),
               _liver,
               "person.has"),
    NoticeRule("alcohol", "A reaction to alcohol on record", (PRACTICE,),
               _reacts(Material.ALCOHOL,
                       "Reacts to alcohol: no film, paste or remover that contains alcohol."),
               _AT_KNOWN),
    NoticeRule("tape", "A reaction to tape on record", (PRACTICE,),
               _reacts(Material.TAPE, "Reacts to tape: barriers without a tape border."),
               _AT_KNOWN),
    NoticeRule("other_sensitivity", "Another sensitivity on record", (PRACTICE,),
               _reacts(Material.OTHER,
                       "Another sensitivity is recorded: check it against every product."),
               _AT_KNOWN),
    NoticeRule("beyond_barrier", "Damage beyond the rim of a barrier of 4 by 4 inches", (DESIGN,),
               _reach,
               "skin"),
    NoticeRule("no_alcohol", "Broken or sore skin", ("accessories/no_alcohol", PRACTICE), _broken,
               "skin"),
    NoticeRule("warty", "Warty skin", (MEMORY,), _warty, "skin"),
    NoticeRule("typing_error", "A wear time over 14 days", (DESIGN,), _left_out, "wear"),
    NoticeRule("log_contradicts", "Rows of the wear log that contradict one another", (DESIGN,),
               _contradicted, "wear"),
    NoticeRule("worn_long", "A wear time over 7 days with a system that works", (PRACTICE,),
               _worn_long, "wear"),
    NoticeRule("leaks_often", "From 2 leaks in 10 changes", (DESIGN,),
               _leaks(LEAK_RATE_AMBER.value, LEAK_RATE_RED.value), "wear"),
    NoticeRule("leaks_very_often", "From 4 leaks in 10 changes", (LEAK_RATE_RED.source,),
               _leaks(LEAK_RATE_RED.value, 2.0), "wear"),
    NoticeRule("mixing", "Output that does not fit the kind of stoma", (PRACTICE,), _mixing,
               "output.consistency"),
    NoticeRule("remote", "A visit by telephone or video", (PRACTICE,), _remote, "remote"),
    NoticeRule("fever", "Fever with a bowel stoma", (PRACTICE,), _fever, "output.present"),
)  # fmt: skip
