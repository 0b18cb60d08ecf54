"""What is new: findings that a stoma did not have, over the time in which it could get them."""

from __future__ import annotations

from clinic import formatting
from clinic.measures.at_risk import (
    FREE,
    HAD,
    KINDS,
    NEW,
    NOT_LOOKED,
    STANDINGS,
    START_UNKNOWN,
    ByKind,
    Counts,
)
from clinic.measures.measure_types import (
    HIDDEN,
    NO_DATA,
    Figure,
    Line,
    Measure,
    of_incidence,
    tenths,
)
from clinic.measures.outside import nothing_hidden, outside
from planning.statistics.incidence import retracted_at, source_of
from planning.statistics.new_findings import months_of, new_per_hundred_months

COLUMNS = {
    NEW: "New",
    FREE: "Stayed free",
    HAD: "Had it before",
    START_UNKNOWN: "There when first looked",
    NOT_LOOKED: "Not looked for",
}


def incidence(own: ByKind, beside: list[ByKind]) -> Measure:
    """One line a kind of finding. ``beside``: split by each thing the group is narrowed by."""
    limit = retracted_at()
    return Measure(
        key="incidence",
        title="New in these dates",
        rule=(
            "Stomas in which a signed visit found it in these dates, though it was not there: not "
            "found at the last look before, or the stoma was made in these dates. Over the months "
            "in which it could have been found: from the first of these dates, the surgery or the "
            "first look, whichever is last, to the day it was found, or the last look in these "
            "dates, and never beyond the day the stoma was closed. A stoma counts once. Exact "
            f"95 % interval. Retraction: {formatting.mm(limit.value)} or lower; leak: seen on the "
            "back of the used barrier."
        ),
        not_counted=(
            "Stomas that had it at the last look before these dates: in them it cannot be new. "
            "Those in which the first look ever found it, some time after surgery: when it began "
            "is not known. Those in which no one looked in these dates. Both are counted apart. "
            "Time after the last look, as what was there then is not known; this record holds no "
            "date of death, so a death ends it at the last look too. It began some time between "
            "two looks: a figure of visits far apart is the less exact. Drafts; visits of other "
            "clinics. A bulge is no proven hernia."
        ),
        source=f"Garwood 1936; limit of retraction: {source_of(limit)}",
        about="Finding",
        count_columns=(*COLUMNS.values(), "Stoma-months at risk"),
        figure_columns=("New per 100 stoma-months",),
        units=("per 100 stoma-months",),
        lines=tuple(
            line(words, own[kind].get("", Counts.none()), [one[kind] for one in beside], kind)
            for kind, words in KINDS.items()
        ),
        beside_groups=True,
    )


def line(
    words: str, found: Counts, beside: list[dict[str, Counts]], kind: str, more: str = ""
) -> Line:
    """One row. ``more``: what else its lists of people ask for."""
    numbers = numbers_of(found)
    others = [[numbers_of(one) for one in split.values()] for split in beside]
    said = outside(numbers, others)
    shown = nothing_hidden(numbers, said)
    figure, months = of_incidence(new_per_hundred_months(found.standing[NEW], found.days)), NO_DATA
    if found.at_risk:
        months = Figure(tenths(months_of(found.days)))
    elif not any(numbers):
        figure = NO_DATA
    return Line(
        words,
        (*said, months.value if shown else HIDDEN.value),
        (figure if shown else HIDDEN,),
        inside=(*map(str, numbers), months.value, figure.words),
        lists=tuple(f"of=incidence&kind={kind}&which={one}{more}" for one in COLUMNS),
    )


def numbers_of(found: Counts) -> list[int]:
    """In the order of the columns."""
    return [found.standing[one] for one in STANDINGS]
