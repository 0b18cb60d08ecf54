"""The last signed plan of a stoma for its record: what is worn since, red flags, outcome."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from clinic.patients.models import Stoma
from clinic.plans.children import is_held_back
from clinic.plans.course import course_of
from clinic.plans.course_results import PlanOutcome, Series
from clinic.plans.decided_item import Decided
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan, decided_plan
from clinic.visits.models import Assessment
from planning.course.headline import last_change
from planning.course.outcome import outcomes
from planning.course.periods import in_order
from planning.course.record import Event, EventKind
from planning.course.series import series
from planning.results.plan import Change, ItemKind, Recommendation, RedFlag
from planning.withheld_from_children import MADE_BEFORE

#: Kinds of a recommendation that are on the body, in the order they are said.
WORN = (
    ItemKind.BARRIER,
    ItemKind.OPENING,
    ItemKind.RING,
    ItemKind.FILLER,
    ItemKind.SKIN_CARE,
    ItemKind.POUCH,
    ItemKind.SUPPORT,
    ItemKind.WEAR,
)


@dataclass(frozen=True)
class Flag:
    """A red flag of the plan with what was decided about it."""

    key: str
    text: str
    urgency: str
    choice: Choice | None
    reason: str


@dataclass(frozen=True)
class ShortCourse:
    """What small lines are drawn from. ``changes``: days on which a plan changed something, with
    what, oldest first. ``newest``: the last of them, judged; ``outcomes``: that in sentences."""

    series: Series
    changes: tuple[Event, ...]
    newest: PlanOutcome | None
    outcomes: tuple[str, ...]
    today: date


@dataclass(frozen=True)
class LatestPlan:
    """``held_back``: why what it says is not shown, "" where it is; ``worn``: what was agreed to
    be worn, a few words each, () where the plan holds none."""

    assessment: Assessment
    headline: str
    held_back: str
    worn: tuple[str, ...]
    flags: tuple[Flag, ...]


def latest_plan(assessment: Assessment) -> LatestPlan | None:
    """Of a signed ``assessment`` with its parts, plan and decisions; None where it has no plan.
    No query."""
    decided = decided_plan(assessment)
    if decided is None or not decided.signed:
        return None
    held_back = is_held_back(assessment.plan)
    return LatestPlan(
        assessment,
        "" if held_back else decided.plan.headline,
        MADE_BEFORE if held_back else "",
        tuple(dict.fromkeys(_worn(decided))),
        tuple(_flag(one) for one in decided.flags),
    )


def short_course(stoma: Stoma) -> ShortCourse:
    """Everything signed and logged of ``stoma`` up to today; eight queries."""
    course = in_order(course_of(stoma))
    judged = outcomes(course) if course.visits else ()
    changed = [one for one in judged if one.changed]
    return ShortCourse(
        series(course),
        tuple(event for event in course.events if event.kind is EventKind.PLAN_CHANGE),
        changed[-1] if changed else None,
        last_change(judged) if course.visits else (),
        course.today,
    )


def _flag(one: Decided) -> Flag:
    assert isinstance(one.item, RedFlag)  # noqa: S101 - the flags of a plan
    return Flag(one.item.key, one.item.text, one.item.urgency.value, one.choice, one.reason)


def _worn(decided: DecidedPlan) -> Iterator[str]:
    for kind in WORN:
        for one in decided.recommendations:
            item = one.item
            if not isinstance(item, Recommendation) or item.kind is not kind:
                continue
            if one.choice == Choice.CHANGED:
                yield one.changed_words
            elif one.as_planned and item.change is not Change.STOP:
                yield _plainly(one.text)


def _plainly(text: str) -> str:
    """Inside a sentence, and without the word that it stays."""
    said = text.removeprefix("Keep: ").removeprefix("Keep the ").rstrip(".")
    return said[:1].lower() + said[1:]
