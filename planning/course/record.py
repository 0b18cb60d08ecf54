"""One stoma over time: what its signed visits found and what was worn between them.

Dates are whole days of the clinic; lengths mm, volumes mL/24 h, times days. As everywhere, None
is *not recorded* and an empty tuple is *looked, none*.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from planning.course.errors import TWO_NURSES, MeasuringErrors
from planning.inputs.age import AgeGroup, age_group
from planning.inputs.findings import Baseline, Findings, RemovalReason, StomaKind


@dataclass(frozen=True, slots=True)
class Worn:
    """One barrier, from the day it was put on; ``off`` and ``reason`` None: still on.

    ``off`` without a reason: seen on until that day, and no one knows when and why it came off.
    ``seen_on``: of one still on, the last day on which anybody knew it to be; None: all along.
    ``disputed``: another record of the same days contradicts it, and it is open which is right.
    """

    on: date
    off: date | None = None
    reason: RemovalReason | None = None
    seen_on: date | None = None
    disputed: bool = False


@dataclass(frozen=True, slots=True)
class SignedVisit:
    """One signed visit. ``supplies``: keys of what was agreed then and worn from then on.

    ``changed`` those of them that were new against the visit before, in words for a line of the
    trend. ``said_helped``: what was answered at this visit to *did the last plan help?*
    ``answers``: to the clinic's own questions, 0 to 10, by the key of their channel; they are drawn
    and compared with the answer before, and no rule reads them.
    """

    day: date
    findings: Findings
    supplies: frozenset[str] = frozenset()
    changed: tuple[str, ...] = ()
    said_helped: bool | None = None
    answers: tuple[tuple[str, float], ...] = ()

    @property
    def young(self) -> bool:
        """Under 16 on that day, or of unknown age."""
        return age_group(self.findings.person.age_years) is not AgeGroup.ADULT


class EventKind(StrEnum):
    """What is drawn as a vertical mark on the time axis."""

    SURGERY = "surgery"
    PLAN_CHANGE = "plan_change"
    REFERRAL = "referral"
    ANSWER = "answer"
    CLOSED = "closed"


@dataclass(frozen=True, slots=True)
class Event:
    """``waits``: a referral that no one has answered yet."""

    day: date
    kind: EventKind
    text: str
    waits: bool = False


@dataclass(frozen=True, slots=True)
class Course:
    """Everything known of one stoma, oldest first. ``today`` ends what is still going on.

    ``worn`` None: no log was ever kept; (): kept, and empty. ``baselines``: agreed by ``today``.
    ``errors``: of measuring, as known on that day.
    """

    kind: StomaKind
    today: date
    visits: tuple[SignedVisit, ...]
    worn: tuple[Worn, ...] | None = None
    events: tuple[Event, ...] = ()
    surgery: date | None = None
    closed: date | None = None
    baselines: tuple[Baseline, ...] = ()
    errors: MeasuringErrors = TWO_NURSES

    @property
    def young(self) -> tuple[SignedVisit, ...]:
        """Visits made under 16, or at an age not known: no figure for adults holds for them."""
        return tuple(visit for visit in self.visits if visit.young)

    @property
    def newest_young(self) -> bool:
        """The newest visit was made under 16."""
        return bool(self.visits) and max(self.visits, key=lambda visit: visit.day).young
