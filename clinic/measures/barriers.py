"""Barriers put on in a period, each once, counted by profile, days and why they came off.

A barrier may be recorded twice: still on at one visit and come off by the next, or on the wear log
and at a visit. What is known later holds. Two in one record are two: on a bad day
several are put on and come off again. As over the course of one stoma, records that cannot all be
true (they overlap) are left out, and one still on counts to the day it was last seen.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field
from typing import Any

from clinic.measures.group import EVERYONE, Group
from clinic.measures.period import Period
from clinic.measures.sql import counted
from clinic.visits.choices import RemovalReason
from planning.statistics.incidence import wear_typing_error

PLANNED = RemovalReason.PLANNED.value
#: As for a single stoma: what leaked or fell off.
LEAKED = (RemovalReason.LEAK.value, RemovalReason.FELL_OFF.value)

#: ``seen``: the last day it is known to have been on; of the wear log, which may be typed weeks
#: later, its first. Barriers put on just outside the period are read to find contradictions with
#: those inside; they are not counted. The profile is that of the system the
#: patient arrived in; for the wear log, at the next signed visit that recorded one.
_BARRIERS = """
WITH /* chosen */, recorded AS (
    SELECT a.stoma_id, w."on", w.off, w.reason, coalesce(p.profile, '') AS profile,
        coalesce(
            w.off, greatest(w."on", (v.happened_at AT TIME ZONE %(zone)s)::date)
        ) AS seen,
        row_number() OVER (PARTITION BY a.id, w."on", w.off, w.reason ORDER BY w.id) AS nth
    FROM visits_wearepisode w
    JOIN visits_assessment a ON a.id = w.assessment_id
    JOIN chosen ON chosen.id = a.stoma_id
    JOIN visits_visit v ON v.id = a.visit_id
    LEFT JOIN visits_pouchingsystem p ON p.assessment_id = a.id
    WHERE v.state = 'signed'
        AND w."on" BETWEEN %(since)s - %(longest)s AND %(until)s + %(longest)s
    UNION ALL
    SELECT b.stoma_id, b."on", b.off, b.reason, coalesce(next.profile, ''),
        coalesce(b.off, b."on"),
        row_number() OVER (PARTITION BY b.stoma_id, b."on", b.off, b.reason ORDER BY b.id)
    FROM visits_wornbarrier b
    JOIN chosen ON chosen.id = b.stoma_id
    LEFT JOIN LATERAL (
        SELECT p.profile
        FROM visits_assessment a
        JOIN visits_visit v ON v.id = a.visit_id
        JOIN visits_pouchingsystem p ON p.assessment_id = a.id
        WHERE a.stoma_id = b.stoma_id AND v.state = 'signed' AND p.profile <> ''
            AND (v.happened_at AT TIME ZONE %(zone)s)::date >= b."on"
        ORDER BY v.happened_at, v.id LIMIT 1
    ) next ON TRUE
    WHERE b."on" BETWEEN %(since)s - %(longest)s AND %(until)s + %(longest)s
), once AS (
    SELECT DISTINCT ON (stoma_id, "on", off, reason, nth) *
    FROM recorded ORDER BY stoma_id, "on", off, reason, nth, seen DESC, profile = '', profile
), known AS (
    SELECT *, max(off) FILTER (WHERE off > "on") OVER (PARTITION BY stoma_id, "on") AS came_off
    FROM once
), compared AS (
    SELECT *,
        coalesce(max(seen) OVER earlier > "on", FALSE)
            OR coalesce(lead("on") OVER log < seen, FALSE) AS disputed
    FROM known WHERE off IS NOT NULL OR came_off IS NULL OR came_off < seen
    WINDOW log AS (PARTITION BY stoma_id ORDER BY "on", off NULLS LAST, reason, nth),
        earlier AS (log ROWS BETWEEN UNBOUNDED PRECEDING AND 1 PRECEDING)
), barriers AS (
    SELECT stoma_id, profile, reason, disputed, seen - "on" AS days
    FROM compared WHERE "on" BETWEEN %(since)s AND %(until)s
)
"""
_BY_DAYS = (
    _BARRIERS
    + """
SELECT profile, days, reason, disputed, count(*)
FROM barriers GROUP BY 1, 2, 3, 4 ORDER BY 1, 2, 3, 4
"""
)
_STOMAS = (
    _BARRIERS
    + """
SELECT profile, count(DISTINCT stoma_id),
    count(DISTINCT stoma_id) FILTER (WHERE reason NOT IN ('', %(planned)s)),
    count(DISTINCT stoma_id) FILTER (WHERE reason = ANY(%(leaked)s))
FROM barriers WHERE days <= %(longest)s AND NOT disputed GROUP BY GROUPING SETS ((profile), ())
"""
)
_STOMAS_BEHIND = (
    _BARRIERS
    + """
SELECT DISTINCT stoma_id FROM barriers
WHERE days <= %(longest)s AND NOT disputed AND profile = %(profile)s
    AND (%(which)s = 'all' OR reason NOT IN ('', %(planned)s))
"""
)


@dataclass
class Barriers:
    """Those of one profile, or all. ``failed`` and ``leaked`` count stomas, not barriers."""

    stomas: int = 0
    failed: int = 0
    leaked: int = 0
    days: list[int] = field(default_factory=list)
    reasons: list[str] = field(default_factory=list)
    counts: list[int] = field(default_factory=list)

    @property
    def failures(self) -> list[bool]:
        """Whether each of ``days`` ended by anything but a planned change."""
        return [reason not in ("", PLANNED) for reason in self.reasons]

    @property
    def worn_days(self) -> int:
        return sum(d * n for d, n in zip(self.days, self.counts, strict=True))

    @property
    def leaks(self) -> int:
        """Barriers that leaked or fell off."""
        return sum(n for r, n in zip(self.reasons, self.counts, strict=True) if r in LEAKED)

    def add(self, days: int, reason: str, count: int) -> None:
        self.days.append(days)
        self.reasons.append(reason)
        self.counts.append(count)


@dataclass(frozen=True)
class Worn:
    """``by_profile``: "" where none was recorded. ``left_out``: worn too long to be believed;
    ``disputed``: contradicted by another record."""

    by_profile: dict[str, Barriers]
    together: Barriers
    left_out: int
    disputed: int


def barriers(period: Period, group: Group = EVERYONE) -> Worn:
    """Two queries, whatever the clinic's size."""
    longest = int(wear_typing_error().value)
    found: dict[str | None, Barriers] = defaultdict(Barriers)
    left_out = disputed = 0
    for profile, days, reason, contradicted, count in counted(
        _BY_DAYS, period, group, longest=longest
    ):
        if contradicted:
            disputed += count
            continue
        if days > longest:
            left_out += count
            continue
        for these in (profile, None):
            found[these].add(days, reason, count)
    asked: dict[str, Any] = {"planned": PLANNED, "leaked": list(LEAKED), "longest": longest}
    for profile, *stomas in counted(_STOMAS, period, group, **asked):
        these_barriers = found[profile]
        these_barriers.stomas, these_barriers.failed, these_barriers.leaked = stomas
    together = found.pop(None, Barriers())
    by_profile = {k: v for k, v in found.items() if k is not None}
    return Worn(by_profile, together, left_out, disputed)


def stomas_behind(period: Period, group: Group, profile: str, which: str) -> list[int]:
    """The stomas with barriers of one profile, ``which`` all or those with a failure. One query."""
    asked: dict[str, Any] = {
        "planned": PLANNED,
        "longest": int(wear_typing_error().value),
        "profile": profile,
        "which": which,
    }
    return [pk for (pk,) in counted(_STOMAS_BEHIND, period, group, **asked)]
