"""Fields that are asked only where they matter: folded away until somebody opens them."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from django.forms import BaseForm, BoundField
from django.utils import timezone

from clinic.formatting import years
from clinic.patients.models import Construction, StomaKind
from clinic.visits.models import Assessment
from planning.inputs.age import AgeGroup, age_group

BOWEL = (StomaKind.ILEOSTOMY, StomaKind.JEJUNOSTOMY, StomaKind.COLOSTOMY)
#: From here a blood test may decide how soon the person is seen, mL/24 h (at 75 and over one step
#: sooner). A test holds it to the planner's own figure.
MUCH_OUTPUT = "output-volume_ml_24h>=1500"
TWO_OPENINGS = (Construction.LOOP, Construction.DOUBLE_BARREL)


@dataclass(frozen=True)
class Fold:
    """Fields ``names`` under ``title``. Left out where the stoma is of no such kind or
    construction, or the person no child (``for_children``); open where something in it is charted
    or wrong, and for a child. ``rows``: a set of rows drawn below its fields. ``once``: with
    scripts it is in sight only while another field has such a value (``reveal.js``)."""

    title: str
    names: tuple[str, ...]
    kinds: tuple[str, ...] = ()
    constructions: tuple[str, ...] = ()
    for_children: bool = False
    rows: str = ""
    once: str = ""

    def matters(self, assessment: Assessment) -> bool:
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
class ShownFold:
    """One fold as the page draws it."""

    title: str
    fields: tuple[BoundField, ...]
    is_open: bool
    rows: str = ""
    once: str = ""


def shown(folds: Iterable[Fold], form: BaseForm, assessment: Assessment) -> list[ShownFold]:
    """Folds that matter here, and any in which something is charted already."""
    found = []
    for fold in folds:
        fields = tuple(form[name] for name in fold.names)
        used = any(_is_used(field) for field in fields)
        if used or fold.matters(assessment):
            found.append(
                ShownFold(fold.title, fields, used or fold.for_children, fold.rows, fold.once)
            )
    return found


def _is_used(field: BoundField) -> bool:
    shows = field.value()
    if isinstance(shows, list):
        shows = any(shows)
    return bool(field.errors) or shows not in (None, "", False)
