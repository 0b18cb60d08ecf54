"""Barriers put on in a period, each once, counted by profile, days and why they came off.

A barrier may be told of twice: still on at one visit and come off by the next, or on the wear log
and at a visit. What is known later holds. Two that one record tells of are two: on a bad day
several are put on and come off again.
"""

from __future__ import annotations

from collections import defaultdict
from dataclasses import dataclass, field

from clinic.measures.period import Period
from clinic.measures.sql import counted
from clinic.visits.choices import RemovalReason
from planning.statistics.incidence import wear_typing_error

PLANNED = RemovalReason.PLANNED.value
#: As for a single stoma: what leaked or fell off.
LEAKED = (RemovalReason.LEAK.value, RemovalReason.FELL_OFF.value)

#: ``seen``: the last day it is known to have been on. The profile is that of the system the
#: patient arrived in; for the wear log, at the next signed visit that recorded one.
_BARRIERS = """
WITH told AS (
    SELECT a.stoma_id, w."on", w.off, w.reason, coalesce(p.profile, '') AS profile,
        coalesce(
            w.off, greatest(w."on", (v.happened_at AT TIME ZONE %(zone)s)::date)
        ) AS seen,
        row_number() OVER (PARTITION BY a.id, w."on", w.off ORDER BY w.reason, w.id) AS nth
    FROM visits_wearepisode w
    JOIN visits_assessment a ON a.id = w.assessment_id
    JOIN visits_visit v ON v.id = a.visit_id
    LEFT JOIN visits_pouchingsystem p ON p.assessment_id = a.id
    WHERE v.state = 'signed' AND w."on" BETWEEN %(since)s AND %(until)s
    UNION ALL
    SELECT b.stoma_id, b."on", b.off, b.reason, coalesce(next.profile, ''),
        coalesce(
            b.off, greatest(b."on", (b.entered_at AT TIME ZONE %(zone)s)::date)
        ),
        row_number() OVER (PARTITION BY b.stoma_id, b."on", b.off ORDER BY b.reason, b.id)
    FROM visits_wornbarrier b
    LEFT JOIN LATERAL (
        SELECT p.profile
        FROM visits_assessment a
        JOIN visits_visit v ON v.id = a.visit_id
        JOIN visits_pouchingsystem p ON p.assessment_id = a.id
        WHERE a.stoma_id = b.stoma_id AND v.state = 'signed' AND p.profile <> ''
            AND (v.happened_at AT TIME ZONE %(zone)s)::date >= b."on"
        ORDER BY v.happened_at, v.id LIMIT 1
    ) next ON TRUE
    WHERE b."on" BETWEEN %(since)s AND %(until)s
), once AS (
    SELECT DISTINCT ON (stoma_id, "on", off, nth) *
    FROM told ORDER BY stoma_id, "on", off, nth, seen DESC, profile = '', profile, reason
), known AS (
    SELECT *, bool_or(off > "on") OVER (PARTITION BY stoma_id, "on") AS came_off FROM once
), barriers AS (
    SELECT stoma_id, profile, reason, seen - "on" AS days
    FROM known WHERE off IS NOT NULL OR came_off IS NOT TRUE
)
"""
_BY_DAYS = (
    _BARRIERS
    + """
SELECT profile, days, reason, count(*) FROM barriers GROUP BY 1, 2, 3 ORDER BY 1, 2, 3
"""
)
_STOMAS = (
    _BARRIERS
    + """
SELECT profile, count(DISTINCT stoma_id),
    count(DISTINCT stoma_id) FILTER (WHERE reason NOT IN ('', %(planned)s)),
    count(DISTINCT stoma_id) FILTER (WHERE reason = ANY(%(leaked)s))
FROM barriers WHERE days <= %(longest)s GROUP BY GROUPING SETS ((profile), ())
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
    """``by_profile``: "" where none was recorded. ``left_out``: worn too long to be believed."""

    by_profile: dict[str, Barriers]
    together: Barriers
    left_out: int


def barriers(period: Period) -> Worn:
    """Two queries, whatever the clinic's size."""
    longest = int(wear_typing_error().value)
    found: dict[str | None, Barriers] = defaultdict(Barriers)
    left_out = 0
    for profile, days, reason, count in counted(_BY_DAYS, period):
        if days > longest:
            left_out += count
            continue
        for group in (profile, None):
            found[group].add(days, reason, count)
    asked = {"planned": PLANNED, "leaked": list(LEAKED), "longest": longest}
    for profile, *stomas in counted(_STOMAS, period, **asked):
        group = found[profile]
        group.stomas, group.failed, group.leaked = stomas
    together = found.pop(None, Barriers())
    return Worn({k: v for k, v in found.items() if k is not None}, together, left_out)
