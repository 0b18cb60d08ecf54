"""How long damaged skin took to heal, over patients."""

from __future__ import annotations

from clinic.measures import small_numbers
from clinic.measures.group import EVERYONE, Group
from clinic.measures.measure_types import NO_DATA, Figure, Line, Measure, of_quantile, unless_shown
from clinic.measures.period import Period
from clinic.measures.sql import counted
from planning.statistics.incidence import damaged_kinds
from planning.statistics.survival import SurvivalCurve, kaplan_meier_counted

#: The first stretch of damage of each patient that began in the period: from the visit that found
#: it first, to the first with intact skin or (not healed) the last that recorded the skin.
_FIRSTS = """
WITH /* chosen */, seen AS (
    SELECT v.patient_id, a.stoma_id, v.happened_at, v.id,
        (v.happened_at AT TIME ZONE %(zone)s)::date AS day,
        s.state = 'findings' AND EXISTS (
            SELECT 1 FROM visits_skinfinding f
            WHERE f.assessment_id = a.id AND f.kind = ANY(%(damage)s)
        ) AS damaged
    FROM visits_visit v
    JOIN visits_assessment a ON a.visit_id = v.id
    JOIN chosen ON chosen.id = a.stoma_id
    JOIN visits_skinassessment s ON s.assessment_id = a.id
    WHERE v.state = 'signed' AND s.state <> '' AND v.happened_at < %(ends)s
), in_order AS (
    SELECT *, lag(damaged) OVER visits AS damaged_before
    FROM seen WINDOW visits AS (PARTITION BY stoma_id ORDER BY happened_at, id)
), numbered AS (
    SELECT *, count(*) FILTER (WHERE damaged AND damaged_before IS NOT TRUE) OVER visits AS stretch
    FROM in_order WINDOW visits AS (PARTITION BY stoma_id ORDER BY happened_at, id)
), stretches AS (
    SELECT patient_id, stoma_id, min(happened_at) AS began, min(day) AS day,
        min(day) FILTER (WHERE NOT damaged) AS healed, max(day) AS last_seen
    FROM numbered WHERE stretch > 0
    GROUP BY patient_id, stoma_id, stretch
), firsts AS (
    SELECT DISTINCT ON (patient_id) stoma_id, day, healed, last_seen
    FROM stretches WHERE began >= %(begins)s
    ORDER BY patient_id, began, stoma_id
)
"""
QUERY = (
    _FIRSTS
    + """
SELECT coalesce(healed, last_seen) - day, healed IS NOT NULL, count(*)
FROM firsts GROUP BY 1, 2 ORDER BY 1, 2
"""
)
_STOMAS = (
    _FIRSTS
    + """
SELECT stoma_id FROM firsts WHERE healed IS NOT NULL OR %(which)s = 'all'
"""
)
#: What its lists are called.
LISTS = {"all": "Damaged skin was found", "healed": "Damaged skin, seen healed"}


def healing(period: Period, group: Group = EVERYONE) -> Measure:
    """One line: patients whose skin was found damaged, those seen healed, median days."""
    return Measure(
        key="healing",
        title="Time until damaged skin has healed",
        rule=(
            "Each patient's first stretch of damaged skin that a signed visit in these dates "
            "found, up to the first visit with intact skin. Patients not healed count up to the "
            "last visit in these dates that looked (Kaplan-Meier, 95 % interval from the log-log "
            "band)."
        ),
        not_counted=(
            "Damage already there at the visit before these dates; later stretches of the same "
            "patient; visits that did not record the skin. Skin heals between visits, so the "
            "days are the most it can have taken."
        ),
        source="Kaplan and Meier 1958; Kalbfleisch and Prentice 1980",
        about="Patients",
        count_columns=("With damaged skin", "Seen healed"),
        figure_columns=("Median days",),
        units=("days",),
        lines=(_line(counted(QUERY, period, group, damage=sorted(damaged_kinds()))),),
    )


def _line(rows: list[tuple[int, bool, int]]) -> Line:
    everyone = sum(n for *_, n in rows)
    healed = sum(n for _, done, n in rows if done)
    figure = unless_shown(everyone)
    told = small_numbers.some_of(everyone, healed) if everyone else figure.words
    known = _median(rows)
    if small_numbers.can_show(everyone, healed):
        figure = known or figure
    return Line(
        "All",
        (small_numbers.count(everyone), told),
        (figure,),
        inside=(str(everyone), str(healed), (known or NO_DATA).words),
        lists=tuple(f"of=healing&which={which}" for which in LISTS),
    )


def _median(rows: list[tuple[int, bool, int]]) -> Figure | None:
    if not rows:
        return None
    days, done, many = zip(*rows, strict=True)
    curve = kaplan_meier_counted(days, done, many)
    return of_quantile(curve.median) if isinstance(curve, SurvivalCurve) else None


def stomas_behind(period: Period, group: Group, which: str) -> list[int]:
    """The stoma of each patient of one count. One query."""
    rows = counted(_STOMAS, period, group, damage=sorted(damaged_kinds()), which=which)
    return [pk for (pk,) in rows]
