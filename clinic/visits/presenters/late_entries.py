"""What somebody typed that came after the draft was signed or discarded, for its author."""

from dataclasses import dataclass

from clinic.visits.chart import Chart
from clinic.visits.merging import Difference, differences
from clinic.visits.models import ConflictCopy, Visit


@dataclass(frozen=True)
class Kept:
    """One page's late entries: what in them differs from what is on record."""

    copy: ConflictCopy
    entries: list[Difference]


def kept_copies(visit: Visit, author_id: int | None) -> list[Kept]:
    """Copies of ``author_id`` kept beside a visit, oldest first; empty ones left out."""
    copies = ConflictCopy.objects.filter(assessment__visit=visit, by_id=author_id)
    found = [
        Kept(copy, [d for d in _differences(copy) if not d.name.startswith("decision-")])
        for copy in copies.select_related("assessment__visit__patient")
    ]
    return [kept for kept in found if kept.entries]


def _differences(copy: ConflictCopy) -> list[Difference]:
    return differences(copy.data, Chart(copy.assessment))
