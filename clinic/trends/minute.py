"""The surgeon's minute: three short lines, each with at most three figures.

What changed, whether the last change helped, what is asked. The rules are the planner's; here
their results are put into few words. Whole sentences, with dates and tests, are further down.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date

from clinic import formatting
from clinic.plans.course_results import CHANNELS, CourseReport, Finding, Judged, Moved, PlanOutcome
from clinic.trends.asked import Asked, Questions, shortened
from clinic.trends.verdicts import FlagCard, OutcomeRow

#: Changes of a plan that are named; more are counted as "and more".
NAMED = 2
CHANNEL = {channel.key: channel for channel in CHANNELS}
BETTER, WORSE, SAME, UNKNOWN = "helped", "worse", "no_different", "cannot_tell"
WORDS = {
    (Judged.LEAKS, BETTER): "fewer leaks",
    (Judged.LEAKS, WORSE): "more leaks",
    (Judged.WEAR, BETTER): "longer wear",
    (Judged.WEAR, WORSE): "shorter wear",
    (Judged.SKIN, BETTER): "better skin",
    (Judged.SKIN, WORSE): "worse skin",
}
#: What follows the names of those that decide nothing.
UNDECIDED = {SAME: "no different", UNKNOWN: "not shown yet"}
DECISIVE = (BETTER, WORSE)
MAY_BE_CHANCE = "What differs may be chance."


@dataclass(frozen=True, slots=True)
class Helped:
    """``row`` None: no plan has changed anything. ``before``: while the last shows nothing."""

    row: OutcomeRow | None
    words: str
    before: OutcomeRow | None = None
    before_words: str = ""


@dataclass(frozen=True, slots=True)
class Minute:
    """``moved`` of the stoma, ``plan`` of the plan; ``most`` urgent of what waits."""

    moved: str
    plan: str
    helped: Helped
    questions: Questions

    @property
    def most(self) -> Asked | None:
        return next(iter(self.questions.waiting), None)

    @property
    def answers(self) -> str:
        """Answers already received, counted; "" where nothing was asked."""
        answered, waiting = len(self.questions.answered), len(self.questions.waiting)
        if not answered:
            return "No answer received yet." if waiting else ""
        return f"{answered} {'answer' if answered == 1 else 'answers'} received."


def minute_of(
    report: CourseReport,
    flags: Sequence[FlagCard],
    rows: Sequence[OutcomeRow],
    questions: Questions,
) -> Minute:
    """``flags`` and ``rows``: those of the ``report`` in words, the latest plan first."""
    changes = [row for row in rows if row.changed]
    return Minute(
        moved=changed_words(report.moved, flags, len(report.outcomes)),
        plan=_plan_words(changes),
        helped=_helped(changes, report.outcomes),
        questions=questions,
    )


#: Flags of the course about what is no channel of the figure.
BESIDE = ("prolapse", "hernia", "wear")
NO_CHANGE = "No change beyond measuring error in measured height, size, skin or output."
ONE_VISIT = "Seen once: nothing to compare yet."


def changed_words(moved: Sequence[Moved], flags: Sequence[FlagCard], visits: int) -> str:
    """What moved, and what the flags say beside it."""
    if visits < 2:
        return ONE_VISIT
    also = [flag.text for flag in flags if flag.key in BESIDE]
    return " ".join([*([moved_words(moved)] if moved else []), *also]) or NO_CHANGE


def moved_words(moved: Sequence[Moved]) -> str:
    """The first with its two figures, the others by name. There must be one."""
    first, *others = moved
    channel = CHANNEL[first.key]
    words = (
        f"{_name(first)} {_way(first)} from {_rounded(first.since.value)} to "
        f"{_rounded(first.latest.value)} {channel.unit} since {formatting.day(first.since.day)}"
    )
    also = [f"{_name(one).lower()} {_way(one)}" for one in others]
    return f"{'; '.join([words, *also])}."


def _name(moved: Moved) -> str:
    said = CHANNEL[moved.key].said
    return said[:1].upper() + said[1:]


def _way(moved: Moved) -> str:
    return "rose" if moved.latest.value > moved.since.value else "fell"


def _rounded(value: float) -> str:
    """Whole from ten up, tenths below: no hand measures finer."""
    return formatting.number(round(value) if abs(value) >= 10 else round(value, 1))


def _plan_words(changes: Sequence[OutcomeRow]) -> str:
    if not changes:
        return "No plan has changed anything so far."
    last = changes[0]
    return f"{last.name}, {formatting.day(last.day)}: {listed(last.changed)}."


def listed(changed: Iterable[str]) -> str:
    """The first two of what changed."""
    each = [part.strip() for words in changed for part in words.split(", ") if part.strip()]
    more = " and more" if len(each) > NAMED else ""
    return shortened(", ".join(each[:NAMED])).rstrip(".") + more


def _helped(changes: Sequence[OutcomeRow], outcomes: Sequence[PlanOutcome]) -> Helped:
    by_day: dict[date, PlanOutcome] = {one.day: one for one in outcomes}
    if not changes:
        return Helped(None, "No plan has changed anything so far.")
    last, *earlier = changes
    words = _words(by_day[last.day])
    if last.verdict.key != UNKNOWN or not earlier:
        return Helped(last, words)
    before = earlier[0]
    return Helped(last, words, before, _words(by_day[before.day]))


def _words(outcome: PlanOutcome) -> str:
    """With a doubt where one thing alone is better or worse, and that is not enough in all."""
    words = helped_words(outcome.findings)
    said = {str(one.verdict) for one in outcome.findings} & set(DECISIVE)
    doubtful = str(outcome.verdict) == UNKNOWN and len(said) == 1
    return f"{words} {MAY_BE_CHANCE}" if doubtful else words


def helped_words(findings: Sequence[Finding]) -> str:
    """What decides it, the first with its two figures; then what is no different or not shown."""
    if all(str(one.verdict) == UNKNOWN for one in findings):
        known = any(one.of is Judged.LEAKS and one.after is not None for one in findings)
        return MAY_BE_CHANCE if known else "Too little is recorded to compare."
    decisive = [one for one in findings if str(one.verdict) in DECISIVE]
    parts = [WORDS[one.of, str(one.verdict)] for one in decisive]
    figures = next(filter(None, map(_figures, decisive)), "")
    if figures:
        number = next(n for n, one in enumerate(decisive) if _figures(one))
        parts[number] = f"{parts[number]}, {figures}"
    for verdict, said in UNDECIDED.items():
        names = [str(one.of) for one in findings if str(one.verdict) == verdict]
        if names:
            parts.append(f"{' and '.join(filter(None, [', '.join(names[:-1]), names[-1]]))} {said}")
    words = "; ".join(parts)
    return f"{words[:1].upper()}{words[1:]}."


def _figures(finding: Finding) -> str:
    if finding.before is None or finding.after is None or finding.before == finding.after:
        return ""
    if finding.of is Judged.WEAR:
        return ""
    unit = "mm²" if finding.of is Judged.SKIN else "a week"
    return f"{_rounded(finding.before)} to {_rounded(finding.after)} {unit}"
