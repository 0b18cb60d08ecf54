"""One question of the visit page: which fields answer it, and how it is drawn."""

from __future__ import annotations

import json
from dataclasses import dataclass

from django.utils import timezone

from clinic.formatting import years
from clinic.patients.models import Construction, StomaKind
from clinic.visits.models import Assessment
from planning.inputs.age import AgeGroup, age_group

BOWEL = (StomaKind.ILEOSTOMY, StomaKind.JEJUNOSTOMY, StomaKind.COLOSTOMY)
UROSTOMY = (StomaKind.UROSTOMY,)
TWO_OPENINGS = (Construction.LOOP, Construction.DOUBLE_BARREL)
#: Also where the construction is not known.
NOT_END = (*TWO_OPENINGS, "")
#: Begins the name of a set of rows among a question's fields.
ROWS = "rows:"


@dataclass(frozen=True)
class Asserted:
    """One finding of a quick answer: its words, the field it is recorded in, and the value."""

    words: str
    name: str
    value: str


@dataclass(frozen=True)
class QuickAnswer:
    """Several normal findings recorded by one press. Its label lists each of them, and only what
    is still empty is filled in."""

    findings: tuple[Asserted, ...]

    @property
    def label(self) -> str:
        words = ", ".join(finding.words for finding in self.findings)
        return words[:1].upper() + words[1:]

    @property
    def values(self) -> dict[str, str]:
        """HTML name -> value."""
        return {finding.name: finding.value for finding in self.findings}

    @property
    def as_json(self) -> str:
        """The same for the page's script."""
        return json.dumps(self.values)


@dataclass(frozen=True)
class Question:
    """Fields (HTML names) under ``title``; ``rows:crease`` is a set of rows at its place among
    them.

    ``core``: asked at every visit, a line of its own; the others lie together as "more".
    ``in_sight``: its fields are on the page; else they are folded away behind its line, which says
    in words what they hold. ``lists``: the field whose choices are read out in the line; ``hint``:
    how it is measured. ``opens``: the answers elsewhere that make it matter (``conditions``), which
    open it; ``once``: with scripts it is not even offered before. Left out where the stoma is of no
    such kind or construction, or the person no child, and nothing is charted.
    """

    key: str
    title: str
    fields: tuple[str, ...]
    core: bool = False
    in_sight: bool = False
    quick: QuickAnswer | None = None
    lists: str = ""
    hint: str = ""
    opens: str = ""
    once: str = ""
    kinds: tuple[str, ...] = ()
    constructions: tuple[str, ...] = ()
    for_children: bool = False

    @property
    def names(self) -> tuple[str, ...]:
        """Its fields without its rows."""
        return tuple(name for name in self.fields if not name.startswith(ROWS))

    @property
    def rows(self) -> tuple[str, ...]:
        """Names of its sets of rows."""
        return tuple(n.removeprefix(ROWS) for n in self.fields if n.startswith(ROWS))

    def matters(self, assessment: Assessment) -> bool:
        """Whether it is asked about this stoma of this person."""
        stoma, visit = assessment.stoma, assessment.visit
        if self.kinds and stoma.kind not in self.kinds:
            return False
        if self.constructions and stoma.construction not in self.constructions:
            return False
        if not self.for_children:
            return True
        day = timezone.localdate(visit.happened_at)
        return age_group(years(visit.patient.date_of_birth, day)) is AgeGroup.CHILD


@dataclass(frozen=True)
class Section:
    """A part of the page. ``closable``: it may be marked as not looked at."""

    key: str
    title: str
    questions: tuple[Question, ...]
    closable: bool = True


def quick(*findings: tuple[str, str, str]) -> QuickAnswer:
    """A quick answer of (words, field, value) each."""
    return QuickAnswer(tuple(Asserted(*finding) for finding in findings))
