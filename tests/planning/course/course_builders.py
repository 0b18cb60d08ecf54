"""Courses for tests: days counted from one Monday, logs written as spans."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from datetime import date, timedelta
from typing import Any

from planning.course.periods import Wear
from planning.course.record import Course, Event, SignedVisit, Worn
from planning.inputs.findings import Findings, RemovalReason, StomaKind
from tests.planning.builders import well

PLANNED, LEAK = RemovalReason.PLANNED, RemovalReason.LEAK
ITCH, FELL = RemovalReason.ITCH_OR_PAIN, RemovalReason.FELL_OFF
START = date(2025, 3, 3)


def day(number: int) -> date:
    """Days after ``START``."""
    return START + timedelta(days=number)


def log(start: int, spans: Iterable[tuple[int, RemovalReason]]) -> tuple[Worn, ...]:
    """Barriers one after the other from day ``start``, each so many days."""
    out: list[Worn] = []
    for days, reason in spans:
        out.append(Worn(day(start), day(start + days), reason))
        start += days
    return tuple(out)


def visit(number: int, findings: Findings | None = None, *changed: str, **more: Any) -> SignedVisit:
    """A signed visit on a day; what its plan changed, in words."""
    return SignedVisit(day(number), findings or well(), changed=changed, **more)


def course(
    *visits: SignedVisit,
    today: int = 60,
    worn: Sequence[Worn] | None = None,
    events: tuple[Event, ...] = (),
    kind: StomaKind = StomaKind.ILEOSTOMY,
    surgery: date | None = None,
    closed: date | None = None,
) -> Course:
    kept = None if worn is None else tuple(worn)
    return Course(kind, day(today), visits, kept, events, surgery, closed)


def seen(**values: Sequence[Any]) -> Course:
    """One visit every 14 days, each with the next of ``values``: ``seen(protrusion_mm=(25, 19))``.

    None: not recorded.
    """
    count = len(next(iter(values.values())))
    visits = (
        visit(14 * i, well(**{name: given[i] for name, given in values.items()}))
        for i in range(count)
    )
    return course(*visits, today=14 * count)


def wear(days: Sequence[float], *reasons: RemovalReason | None) -> Wear:
    """As ``wear_of`` would count them."""
    assert len(days) == len(reasons)
    return Wear(
        days=tuple(days),
        failed=tuple(r not in (PLANNED, None) for r in reasons),
        leaks=sum(r in (LEAK, FELL) for r in reasons),
        ended=sum(r is not None for r in reasons),
        left_out=0,
    )


def leaks(many: int, barriers: int = 10, days: float = 30.0) -> Wear:
    """``many`` of ``barriers`` leaked, in so many days worn in all."""
    reasons = [LEAK] * many + [PLANNED] * (barriers - many)
    return wear([days / barriers] * barriers, *reasons)
