"""What signed visits found of each stoma: what is new, what was there before, what is not known.

One row a stoma and kind of finding; incidence, prevalence and the lists of people behind them all
read these rows, so that they never count differently. Everything happens in the database.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Any, Final

from clinic.measures.group import EVERYONE, Group
from clinic.measures.period import Period
from clinic.measures.sql import counted
from planning.statistics.incidence import damaged_kinds, retracted_at

KINDS = {
    "skin": "Skin damage",
    "leak": "Leak under the barrier",
    "retraction": "Retraction",
    "prolapse": "Prolapse",
    "bulge": "Parastomal bulge",
    "separation": "Mucocutaneous separation",
}
#: What became of a stoma by the end of the period, for incidence: each is one of these.
NEW, FREE, HAD, START_UNKNOWN, NOT_LOOKED = "new", "free", "had", "start", "not_looked"
STANDINGS = (NEW, FREE, HAD, START_UNKNOWN, NOT_LOOKED)
#: The same for prevalence: at the last look in the period.
FOUND, ABSENT = "found", "absent"

#: ``found``: yes, no, or NULL where it was not recorded. A stoma is of the period where a signed
#: visit has seen it by the end and it was not closed before the beginning.
_STANDING: Final = """
WITH /* chosen */, seen AS (
    SELECT a.stoma_id, a.id, v.happened_at, (v.happened_at AT TIME ZONE %(zone)s)::date AS day,
        kinds.kind, kinds.found
    FROM visits_visit v
    JOIN visits_assessment a ON a.visit_id = v.id
    JOIN chosen ON chosen.id = a.stoma_id
    LEFT JOIN visits_skinassessment skin ON skin.assessment_id = a.id
    LEFT JOIN visits_pouchingsystem worn ON worn.assessment_id = a.id
    LEFT JOIN visits_stomameasurement size ON size.assessment_id = a.id
    LEFT JOIN visits_abdomenassessment abdomen ON abdomen.assessment_id = a.id
    CROSS JOIN LATERAL (VALUES
        ('skin', CASE skin.state WHEN 'intact' THEN FALSE WHEN 'findings' THEN EXISTS (
            SELECT 1 FROM visits_skinfinding f
            WHERE f.assessment_id = a.id AND f.kind = ANY(%(damage)s)) END),
        ('leak', cardinality(worn.leak_hours) > 0),
        ('retraction', size.protrusion_mm <= %(retracted)s),
        ('prolapse', CASE size.prolapse WHEN 'present' THEN TRUE WHEN 'none' THEN FALSE END),
        ('bulge', CASE abdomen.bulge WHEN 'present' THEN TRUE WHEN 'none' THEN FALSE END),
        ('separation',
            CASE size.junction WHEN 'separated' THEN TRUE WHEN 'intact' THEN FALSE END)
    ) kinds (kind, found)
    WHERE v.state = 'signed' AND v.happened_at < %(ends)s
), looks AS (
    SELECT stoma_id, kind,
        (array_agg(found ORDER BY happened_at DESC, id DESC)
            FILTER (WHERE found IS NOT NULL AND day < %(since)s))[1] AS before,
        (array_agg(found ORDER BY happened_at DESC, id DESC)
            FILTER (WHERE found IS NOT NULL AND day >= %(since)s))[1] AS last,
        min(day) FILTER (WHERE found IS NOT NULL AND day >= %(since)s) AS first_look,
        max(day) FILTER (WHERE found IS NOT NULL AND day >= %(since)s) AS last_look,
        min(day) FILTER (WHERE found AND day >= %(since)s) AS found_on
    FROM seen GROUP BY stoma_id, kind
), placed AS (
    SELECT looks.*, chosen.patient_id, stoma, made, lasting, age, surgeon,
        CASE
            WHEN first_look IS NULL THEN 'not_looked'
            WHEN before THEN 'had'
            WHEN before IS NULL AND coalesce(surgery_date < %(since)s, TRUE)
                AND found_on = first_look THEN 'start'
            WHEN found_on IS NOT NULL THEN 'new'
            ELSE 'free'
        END AS standing,
        CASE WHEN last THEN 'found' WHEN NOT last THEN 'absent' ELSE 'not_looked' END AS now,
        CASE
            WHEN before IS NOT NULL THEN %(since)s
            WHEN surgery_date >= %(since)s THEN surgery_date
            ELSE first_look
        END AS begins,
        least(coalesce(found_on, last_look), coalesce(closed_on, last_look)) AS ends
    FROM looks JOIN chosen ON chosen.id = looks.stoma_id
    WHERE closed_on IS NULL OR closed_on >= %(since)s
)
"""
_COUNTS = (
    _STANDING
    + """
SELECT kind, {by}, standing, now, count(*),
    coalesce(sum(greatest(ends - begins, 0)) FILTER (WHERE standing IN ('new', 'free')), 0)
FROM placed GROUP BY 1, 2, 3, 4
"""
)
#: Days at risk and what was new in each of several spans, for every split. Both ends count as the
#: day of the look does: days are at risk from ``begins`` on, up to the day before ``ends``.
_SPANS = (
    _STANDING
    + """
SELECT spans.first, {by},
    count(*) FILTER (WHERE standing = 'new' AND found_on BETWEEN spans.first AND spans.last),
    coalesce(sum(greatest(least(ends, spans.last + 1) - greatest(begins, spans.first), 0)), 0),
    count(*) FILTER (WHERE begins <= spans.last AND ends >= spans.first)
FROM placed CROSS JOIN unnest(%(firsts)s::date[], %(lasts)s::date[]) AS spans (first, last)
WHERE kind = %(kind)s AND standing IN ('new', 'free') GROUP BY 1, 2
"""
)
_STOMAS = (
    _STANDING
    + """
SELECT stoma_id FROM placed WHERE kind = %(kind)s AND {column} = ANY(%(which)s)
    AND (%(first)s::date IS NULL OR found_on BETWEEN %(first)s AND %(last)s)
"""
)


@dataclass
class Counts:
    """Of one kind of finding in one group: stomas by standing, by what the last look found, and
    the days at risk."""

    standing: dict[str, int]
    now: dict[str, int]
    days: int = 0

    @classmethod
    def none(cls) -> Counts:
        return cls(dict.fromkeys(STANDINGS, 0), dict.fromkeys((FOUND, ABSENT, NOT_LOOKED), 0))

    @property
    def at_risk(self) -> int:
        return self.standing[NEW] + self.standing[FREE]


#: Kind of finding -> what it is split by -> its counts.
ByKind = dict[str, dict[str, Counts]]


@dataclass(frozen=True)
class Span:
    """New findings and days at risk within one span of time."""

    new: int
    days: int
    stomas: int


def counts(
    period: Period, group: Group = EVERYONE, by: str = "", *, widened: bool = False
) -> ByKind:
    """One query. Split by ``by``, one of ``Group.NAMES``, or "" together. ``widened``: whatever the
    group asks of ``by``."""
    found: ByKind = {kind: {} for kind in KINDS}
    query = _COUNTS.format(by=_column(by))
    for kind, value, standing, now, many, days in counted(
        query, period, group, except_for=by if widened else "", **_limits()
    ):
        one = found[kind].setdefault(value, Counts.none())
        one.standing[standing] += many
        one.now[now] += many
        one.days += int(days)
    return found


def over_spans(
    kind: str, spans: list[tuple[date, date]], period: Period, group: Group, by: str = ""
) -> dict[tuple[date, str], Span]:
    """One query: (first day of the span, what it is split by) -> what was new in it."""
    firsts, lasts = [one for one, _ in spans], [one for _, one in spans]
    rows = counted(
        _SPANS.format(by=_column(by)),
        period,
        group,
        **_limits(),
        kind=kind,
        firsts=firsts,
        lasts=lasts,
    )
    return {(first, value): Span(new, int(days), n) for first, value, new, days, n in rows}


def stomas(
    period: Period,
    group: Group,
    kind: str,
    *,
    standing: str = "",
    now: str = "",
    found_in: tuple[date, date] | None = None,
) -> list[int]:
    """The stomas behind a count; ``found_in``: only what was found first on those days. One
    query."""
    column, which = ("standing", standing) if standing else ("now", now)
    query, (first, last) = _STOMAS.format(column=column), found_in or (None, None)
    asked = {**_limits(), "kind": kind, "which": [which], "first": first, "last": last}
    return [pk for (pk,) in counted(query, period, group, **asked)]


def _column(by: str) -> str:
    return by if by in Group.NAMES else "''"


def _limits() -> dict[str, Any]:
    return {
        "damage": sorted(damaged_kinds()),
        "retracted": retracted_at().value,
    }
