"""Where each point of the checklist is now, and what is still missing."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from clinic.patients.models import Stoma
from clinic.teaching.choices import ENOUGH, GOING_HOME, ON_THE_SHEET, Item, Level
from clinic.teaching.models import TaughtPoint
from clinic.visits.models import Assessment

#: Levels that say whose point it is, not how far somebody is.
_NO_STEP = (Level.NOT_APPLICABLE, Level.CARER_DOES)


@dataclass(frozen=True)
class PointNow:
    """``newest``: the last entry of each person who learned, the newest first."""

    item: Item
    newest: tuple[TaughtPoint, ...] = ()

    @property
    def label(self) -> str:
        return str(self.item.label)

    @property
    def applies(self) -> bool:
        """Until the last word on it is that it does not."""
        return not self.newest or self.newest[0].level != Level.NOT_APPLICABLE

    @property
    def best(self) -> Level | None:
        """The furthest that anyone is; None where nothing is recorded. What a carer does counts
        by the carer's own entry alone."""
        steps = [one.level for one in self.newest if one.level not in _NO_STEP]
        return Level(max(steps)) if steps else None

    @property
    def missing(self) -> bool:
        """It applies, and no one does it alone yet, with or without prompting."""
        return self.applies and (self.best is None or self.best < ENOUGH)

    @property
    def alone(self) -> bool:
        """It does not apply, or somebody does it alone without words."""
        return not self.applies or self.best == Level.ALONE

    @property
    def missing_words(self) -> str:
        """``not recorded``, ``with help``; for a carer's point without a carer's entry, that."""
        if self.best is not None:
            return str(self.best.label).lower()
        carer = any(one.level == Level.CARER_DOES for one in self.newest)
        return "the carer does it, teaching not recorded" if carer else "not recorded"


@dataclass(frozen=True)
class Teaching:
    """Every point of one stoma's checklist."""

    points: tuple[PointNow, ...]

    @property
    def begun(self) -> bool:
        return any(point.newest for point in self.points)

    @property
    def missing(self) -> tuple[PointNow, ...]:
        return tuple(point for point in self.points if point.missing)

    @property
    def before_home(self) -> tuple[PointNow, ...]:
        """Missing of what somebody must manage before going home."""
        return tuple(point for point in self.missing if point.item in GOING_HOME)

    @property
    def explained(self) -> tuple[PointNow, ...]:
        """What a care sheet still has to explain in full: nothing where a shorter one will do."""
        return tuple(p for p in self.points if p.item in ON_THE_SHEET and not p.alone)


def teaching_of(stoma: Stoma) -> Teaching:
    """Where the checklist is now. One query."""
    rows = TaughtPoint.objects.filter(stoma=stoma, withdrawal=None)
    return teaching_from(rows.select_related("recorded_by"))


def teaching_of_each(stomas: Iterable[Stoma]) -> dict[int, Teaching]:
    """The same for several, by the stoma's id. One query."""
    stomas = list(stomas)
    rows = TaughtPoint.objects.filter(stoma__in=stomas, withdrawal=None)
    found = list(rows.select_related("recorded_by")) if stomas else []
    return {
        stoma.pk: teaching_from(row for row in found if row.stoma_id == stoma.pk)
        for stoma in stomas
    }


def teaching_from(rows: Iterable[TaughtPoint]) -> Teaching:
    """From entries in the order of their days."""
    last: dict[tuple[str, str, str], TaughtPoint] = {}
    for row in rows:
        key = (row.item, row.learner, row.learner_name.strip().lower())
        last.pop(key, None)  # so that the newest comes last
        last[key] = row
    newest = list(reversed(last.values()))
    return Teaching(
        tuple(PointNow(item, tuple(r for r in newest if r.item == item)) for item in Item)
    )


def missing_on_sheet(stoma: Stoma) -> tuple[str, ...]:
    """Points that the care sheet must still explain, in words: beside the choice of its length.

    Empty: the person or the carer does every step alone, and the shorter sheet will do (design
    value). It never chooses.
    """
    return tuple(f"{p.label}: {p.missing_words}" for p in teaching_of(stoma).explained)


def taught_at(assessment: Assessment) -> list[TaughtPoint]:
    """What was recorded as taught during one visit, without what was withdrawn."""
    rows = TaughtPoint.objects.filter(visit=assessment.visit, stoma=assessment.stoma)
    return list(rows.filter(withdrawal=None).select_related("recorded_by"))
