"""One urgency a danger: its words, the plan and the next visit say the same, and no one is asked
about one finding at two times."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from functools import cache
from typing import Final

from planning.consistency.said import Fault, Line, Part, Said
from planning.recommendations.situations import SITUATIONS
from planning.recommendations.situations.rule import Situation
from planning.results.message import Message
from planning.results.plan import Urgency

#: How soon somebody looks, as words for patients say it.
_TIMES: Final = (
    (Urgency.EMERGENCY, re.compile(r"\b(?:needs? a doctor|must look|look at it) now\b", re.I)),
    (Urgency.SAME_DAY, re.compile(r"\b(?:today|the same day)\b", re.I)),
    (Urgency.DAYS, re.compile(r"\bwithin (?:\w+ )?days\b", re.I)),
    (Urgency.TWO_WEEKS, re.compile(r"\bwithin (?:two|2) weeks\b", re.I)),
)
#: Days to the next visit, at most.
_LATEST: Final = {
    Urgency.EMERGENCY: 1, Urgency.SAME_DAY: 3, Urgency.TELEPHONE: 3, Urgency.DAYS: 3,
    Urgency.TWO_WEEKS: 14,
}  # fmt: skip
#: What is done today: seen or called.
_TODAY: Final = {Urgency.SAME_DAY, Urgency.TELEPHONE}


def danger_at_two_times(said: Said) -> Iterator[Fault]:
    """The words of a flag name another time than its urgency."""
    lines = {line.key: line for line in said.of(Part.DANGER)}
    for flag in said.plan.red_flags:
        words = str(flag.patient_text or "")
        named = {urgency for urgency, time in _TIMES if time.search(words)}
        own = _TODAY if flag.urgency in _TODAY else {flag.urgency}
        if named - own:
            line = lines.get(f"refer_{flag.key}") or Line(Part.DANGER, flag.key, flag.text, words)
            yield Fault("two_times", line, "another time than its urgency")


def asked_at_two_times(said: Said) -> Iterator[Fault]:
    """Advice asks somebody later about a finding for which a red flag asks them sooner."""
    for line in said.of(Part.ADVICE):
        rule = _asking().get(line.key)
        if rule is None or rule.within is None:
            continue
        for flag in said.plan.red_flags:
            about = {reason.finding.partition("[")[0] for reason in flag.because}
            same = line.at.partition("[")[0] in about and _people(rule.who) & _people(flag.refer_to)
            if same and flag.urgency.rank < rule.within.rank:
                yield Fault("two_times", line, f"a red flag asks sooner: {flag.text}")


def sign_at_two_times(said: Said) -> Iterator[Fault]:
    """One sign to call about is in two lines of different urgency."""
    signs = {
        (line.urgency, one) for line in said.plan.call_when for one in _signs(line.patient_text)
    }
    for words, times in Counter(words for _, words in signs).items():
        if times > 1:
            yield Fault("two_times", Line(Part.DANGER, "call_when", words), "at two urgencies")


def plan_at_two_times(said: Said) -> Iterator[Fault]:
    """The plan is as urgent as its most urgent flag, and so are its answer and the next visit."""
    plan = said.plan
    highest = min((flag.urgency for flag in plan.red_flags), key=lambda u: u.rank, default=None)
    line = Line(Part.HEADLINE, "headline", plan.headline)
    if highest is not None and plan.urgency is not highest:
        yield Fault("two_times", line, "its urgency is not that of its flags")
    if plan.well is not None and plan.well.urgency is not plan.urgency:
        yield Fault("two_times", line, "the answer has another urgency")
    if plan.follow_up.in_days > _LATEST.get(plan.urgency, plan.follow_up.in_days):
        again = Line(Part.HEADLINE, "follow_up", plan.follow_up.text)
        yield Fault("two_times", again, "later than the danger allows")


@cache
def _asking() -> dict[str, Situation]:
    return {rule.key: rule for rule in SITUATIONS if rule.who}


@cache
def _people(who: str) -> frozenset[str]:
    """The people named, by the words for them."""
    words = re.findall(
        r"surgeon|gastro\w+|allergy|dermatolog\w+|prescriber|wound team|liver", who, re.I
    )
    return frozenset(word.lower() for word in words)


def _signs(text: object) -> Iterator[str]:
    for message in text or ():  # type: ignore[attr-defined]
        yield from _single(message)


def _single(message: Message) -> Iterator[str]:
    parts = [part for _, part in message.parts if isinstance(part, Message)]
    if not parts:
        yield message.id
    for part in parts:
        yield from _single(part)
