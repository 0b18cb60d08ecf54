"""What is there: the share of stomas in which the last look found it."""

from __future__ import annotations

from clinic import formatting
from clinic.measures.at_risk import ABSENT, FOUND, KINDS, NOT_LOOKED, ByKind, Counts
from clinic.measures.measure_types import HIDDEN, NO_DATA, Line, Measure, of_share
from clinic.measures.outside import nothing_hidden, outside
from planning.statistics.incidence import per_hundred, retracted_at, source_of

COLUMNS = {FOUND: "Found", ABSENT: "Not found", NOT_LOOKED: "Not looked for"}


def prevalence(own: ByKind, beside: list[ByKind]) -> Measure:
    """One line a kind of finding. ``beside``: split by each thing the group is narrowed by."""
    limit = retracted_at()
    return Measure(
        key="prevalence",
        title="There at the last visit",
        rule=(
            "Of stomas in which a signed visit in these dates looked for it, the share in which "
            "the last of those visits found it, new or not. Each stoma counts once. Exact 95 % "
            f"interval. Retraction: {formatting.mm(limit.value)} or lower. Leak: seen on the back "
            "of the used barrier."
        ),
        not_counted=(
            "Stomas in which no one looked for it in these dates: counted apart. Drafts; visits "
            "of other clinics. Veins, hard lumps and fistulas are no skin damage here. A bulge is "
            "no proven hernia. Who is seen often, or was seen last on a bad day, is no more "
            "than one stoma."
        ),
        source=f"Clopper and Pearson 1934; limit of retraction: {source_of(limit)}",
        about="Finding",
        count_columns=tuple(COLUMNS.values()),
        figure_columns=("Per 100 stomas",),
        units=("per 100 stomas",),
        lines=tuple(
            _line(words, own[kind].get("", Counts.none()), [one[kind] for one in beside], kind)
            for kind, words in KINDS.items()
        ),
        beside_groups=True,
    )


def _line(words: str, found: Counts, beside: list[dict[str, Counts]], kind: str) -> Line:
    numbers = _numbers(found)
    said = outside(numbers, [[_numbers(one) for one in split.values()] for split in beside])
    looked = found.now[FOUND] + found.now[ABSENT]
    figure = of_share(per_hundred(found.now[FOUND], looked)) if looked else NO_DATA
    return Line(
        words,
        tuple(said),
        (figure if nothing_hidden(numbers, said) else HIDDEN,),
        inside=(*map(str, numbers), figure.words),
        lists=tuple(f"of=prevalence&kind={kind}&which={one}" for one in COLUMNS),
    )


def _numbers(found: Counts) -> list[int]:
    return [found.now[one] for one in COLUMNS]
