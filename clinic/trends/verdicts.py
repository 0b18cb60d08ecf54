"""What became of each plan, and what the course shows: results to words for the page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from clinic.plans.course_results import CourseFlag, Finding, Judged, PlanOutcome
from clinic.plans.presenters.sources import citations, cited
from clinic.referrals.models.referral import Urgency
from clinic.trends.tracks import Happening

#: A sign beside each word, so that neither colour nor sign has to be read alone.
SIGNS = {
    "helped": ("▲", "Helped"),
    "no_different": ("=", "No different"),
    "worse": ("▼", "Worse"),
    "cannot_tell": ("?", "Cannot tell yet"),
}
JUDGED = {"leaks": "Leaks", "wear": "Wear", "skin": "Skin"}


@dataclass(frozen=True, slots=True)
class Verdict:
    """A verdict in word and sign; ``key`` also names its look."""

    key: str
    text: str = ""

    @property
    def sign(self) -> str:
        return SIGNS[self.key][0]

    @property
    def word(self) -> str:
        return SIGNS[self.key][1]


@dataclass(frozen=True, slots=True)
class OutcomeRow:
    """One plan. ``until`` None: it still applies. ``judged`` None: nothing was judged of it."""

    day: date
    until: date | None
    changed: tuple[str, ...]
    verdict: Verdict
    judged: tuple[tuple[str, Verdict | None], ...]


def outcome_rows(
    outcomes: Iterable[PlanOutcome], events: Iterable[Happening]
) -> tuple[OutcomeRow, ...]:
    """Every plan, the latest first, with what changed on its day."""
    changes = [event for event in events if event.kind == "plan_change"]
    rows = [
        OutcomeRow(
            day=one.day,
            until=one.until,
            changed=tuple(event.text for event in changes if event.day == one.day),
            verdict=Verdict(one.verdict, one.text),
            judged=tuple((words, _judged(one.findings, of)) for of, words in JUDGED.items()),
        )
        for one in outcomes
    ]
    return tuple(sorted(rows, key=lambda row: row.day, reverse=True))


def _judged(findings: tuple[Finding, ...], of: str) -> Verdict | None:
    found = next((one for one in findings if one.of == Judged(of)), None)
    if found is None:
        return None
    return Verdict(found.verdict, found.text)


def outcome_sources(outcomes: Iterable[PlanOutcome]) -> list[tuple[str, list[str]]]:
    """Sources for judging leaks, wear and skin, shown once for all plans."""
    findings = [finding for one in outcomes for finding in one.findings]
    by_judged = {
        words: citations(i for finding in findings if finding.of == of for i in finding.sources)
        for of, words in JUDGED.items()
    }
    return [(words, sources) for words, sources in by_judged.items() if sources]


@dataclass(frozen=True, slots=True)
class FlagCard:
    """One flag; rule, reasons and sources are a press away. ``urgency`` "": no one to call."""

    text: str
    figures: str
    rule: str
    because: list[dict[str, object]]
    sources: list[str]
    urgency: str
    urgency_words: str


def flag_cards(flags: Iterable[CourseFlag]) -> list[FlagCard]:
    """The most urgent first, as the course gives them within that."""
    order = list(Urgency.values)
    return [
        FlagCard(
            text=flag.text,
            figures=flag.figures,
            rule=flag.rule,
            because=cited(flag.because),
            sources=citations(flag.sources),
            urgency=flag.urgency or "",
            urgency_words=str(Urgency(flag.urgency).label) if flag.urgency else "",
        )
        for flag in sorted(flags, key=lambda f: order.index(f.urgency) if f.urgency else len(order))
    ]
