"""What became of each plan, and what the course shows: results to words for the page."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from clinic.plans.course_results import CourseFlag, Finding, Judged, PlanOutcome
from clinic.plans.presenters.sources import citations, cited
from clinic.referrals.models.referral import TODAY, Urgency
from clinic.trends.tracks import EVENT_WORDS, Happening

#: A sign beside each word, so that neither colour nor sign has to be read alone.
SIGNS = {
    "helped": ("▲", "Helped"),
    "no_different": ("=", "No different"),
    "worse": ("▼", "Worse"),
    "cannot_tell": ("?", "No difference shown yet"),
    # Of a trial from before this record, as it was said.
    "partly": ("△", "Better, but not enough"),
    "no_help": ("=", "Did not help"),
    "harmed": ("▼", "Hurt the skin"),
    "unknown": ("?", "Not known"),
}
#: The same beside the name of what was judged.
SHORT = {
    "helped": "better",
    "no_different": "same",
    "worse": "worse",
    "cannot_tell": "not shown yet",
}
NO_ALERT, NO_OTHER_ALERT = "No trend alert.", "No other trend alert."
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

    @property
    def short(self) -> str:
        return SHORT[self.key]


@dataclass(frozen=True, slots=True)
class OutcomeRow:
    """One plan. ``until`` None: it still applies. ``judged`` None: nothing was judged of it.

    ``name`` as in the figure, "" for a plan that changed nothing.
    """

    day: date
    until: date | None
    changed: tuple[str, ...]
    verdict: Verdict
    judged: tuple[tuple[str, Verdict | None], ...]
    name: str = ""

    @property
    def alike(self) -> bool:
        """Whether leaks, wear and skin all say what is said in all."""
        return all(one is not None and one.key == self.verdict.key for _, one in self.judged)


def outcome_rows(
    outcomes: Iterable[PlanOutcome], events: Iterable[Happening]
) -> tuple[OutcomeRow, ...]:
    """Every plan, the latest first, with what changed on its day."""
    changes = sorted((e for e in events if e.kind == "plan_change"), key=lambda e: e.day)
    word = EVENT_WORDS["plan_change"]
    names = {event.day: f"{word} {number}" for number, event in enumerate(changes, 1)}
    rows = [
        OutcomeRow(
            day=one.day,
            until=one.until,
            changed=tuple(event.text for event in changes if event.day == one.day),
            verdict=Verdict(one.verdict, one.text),
            judged=tuple((words, _judged(one.findings, of)) for of, words in JUDGED.items()),
            name=names.get(one.day, ""),
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
    """One flag; rule, reasons and sources are a press away. ``urgency`` "": no one to call.
    ``error``: which error of measuring was used, "" where none can be the clinic's own."""

    key: str
    text: str
    figures: str
    rule: str
    because: list[dict[str, object]]
    sources: list[str]
    urgency: str
    urgency_words: str
    error: str = ""

    @property
    def danger(self) -> bool:
        """Asked for now or today."""
        return self.urgency in (Urgency.EMERGENCY, *TODAY)


def called_hernia(words: str) -> str:
    """What the planner says of a bulge, once it was confirmed as a hernia."""
    return words.replace("bulge beside the stoma", "parastomal hernia").replace("bulge", "hernia")


def flag_cards(flags: Iterable[CourseFlag], *, hernia: bool = False) -> list[FlagCard]:
    """The most urgent first, as the course gives them within that. ``hernia``: the bulge was
    confirmed as one, and is called so."""
    order = list(Urgency.values)
    return [
        FlagCard(
            key=flag.key,
            text=called_hernia(flag.text) if hernia else flag.text,
            figures=flag.figures,
            rule=flag.rule,
            because=cited(flag.because),
            sources=citations(flag.sources),
            urgency=flag.urgency or "",
            urgency_words=str(Urgency(flag.urgency).label) if flag.urgency else "",
            error=flag.error,
        )
        for flag in sorted(flags, key=lambda f: order.index(f.urgency) if f.urgency else len(order))
    ]
