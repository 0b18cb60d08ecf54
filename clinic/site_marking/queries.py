"""Markings of a person, and stomas of which no one has said yet where they were made."""

from __future__ import annotations

from dataclasses import dataclass

from django.db.models import QuerySet

from clinic.patients.models import Patient, Stoma
from clinic.site_marking.models import SiteMarking


def stored_markings() -> QuerySet[SiteMarking]:
    """With all that a page or a paper shows of one."""
    stored = SiteMarking.objects.select_related("patient", "recorded_by")
    return stored.prefetch_related("sites", "used__stoma")


def markings_of(patient: Patient) -> QuerySet[SiteMarking]:
    """The newest first, withdrawn ones too."""
    return stored_markings().filter(patient=patient)


def to_be_asked(patient: Patient, newest: SiteMarking) -> list[Stoma]:
    """Stomas made on or after the day of the newest marking without an answer."""
    stomas = patient.stomas.filter(site_used=None, closed_on=None)
    return list(stomas.filter(surgery_date__gte=newest.marked_on))


@dataclass(frozen=True)
class MarkedBefore:
    """``newest``: the newest marking that was not withdrawn. ``asked``: stomas of which no one has
    said where they were made. ``withdrawn``: a marking was, and none counts."""

    newest: SiteMarking | None
    asked: tuple[Stoma, ...] = ()
    withdrawn: bool = False


def marked_before(patient: Patient, *, has_stoma: bool) -> MarkedBefore | None:
    """What the record says of it. None where nothing was ever marked and there is a stoma, so that
    none can be marked for it any more."""
    markings = list(markings_of(patient))
    if not markings and has_stoma:
        return None
    newest = next((one for one in markings if not one.withdrawn_why), None)
    asked = tuple(to_be_asked(patient, newest)) if newest else ()
    return MarkedBefore(newest, asked, withdrawn=bool(markings) and newest is None)
