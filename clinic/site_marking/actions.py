"""Write a marking, withdraw one, record which site was used: atomic, named, audited."""

from collections.abc import Mapping
from typing import Any
from uuid import UUID

from django.core.exceptions import ValidationError
from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.patients.models import Patient, Stoma
from clinic.site_marking.choices import Rank, Used, Withdrawn
from clinic.site_marking.models import MarkedSite, MarkingPhoto, SiteMarking, SiteUsed
from clinic.visits.pictures import Picture

Values = Mapping[str, Any]


@transaction.atomic
def mark(
    *,
    patient: Patient,
    key: UUID,
    values: Values,
    sites: Mapping[Rank, Values],
    by: User,
    photo: Picture | None = None,
    request: HttpRequest | None = None,
) -> SiteMarking:
    """A marking with its sites. ``key`` was made with the page: sent twice, it is one."""
    Patient.objects.select_for_update().get(pk=patient.pk)
    if found := SiteMarking.objects.filter(patient=patient, uuid=key).first():
        return found
    marking = SiteMarking(patient=patient, uuid=key, recorded_by=by, **values)
    marking.full_clean()
    marking.save()
    for rank, site in sites.items():
        row = MarkedSite(marking=marking, rank=rank, **site)
        row.full_clean()
        row.save()
    if photo is not None:
        MarkingPhoto.objects.create(
            marking=marking, image=photo.image, width=photo.width, height=photo.height
        )
    detail = f"{len(sites)} sites"
    record(request_or_actor=request or by, action="marked", subject=marking, detail=detail)
    return marking


@transaction.atomic
def withdraw(
    *, marking: SiteMarking, why: Withdrawn, by: User, request: HttpRequest | None = None
) -> None:
    """It stays on record and no longer counts."""
    kept = SiteMarking.objects.select_for_update().get(pk=marking.pk)
    kept.withdrawn_why = why
    kept.save(update_fields=["withdrawn_why"])
    record(request_or_actor=request or by, action="withdrew", subject=kept, detail=why.label)


@transaction.atomic
def record_used(
    *,
    stoma: Stoma,
    marking: SiteMarking,
    used: Used,
    why: str,
    by: User,
    request: HttpRequest | None = None,
) -> SiteUsed:
    """Where ``stoma`` was made; recorded again, it replaces the answer and the history keeps both.

    Raises ``ValidationError`` for another person's marking, or a second choice that was not marked.
    """
    if marking.patient_id != stoma.patient_id:
        raise ValidationError("This marking is of another person.")
    ranks = {Used.FIRST: Rank.FIRST, Used.SECOND: Rank.SECOND}
    if used in ranks and not marking.sites.filter(rank=ranks[used]).exists():
        raise ValidationError("No such site was marked.")
    row = SiteUsed.objects.select_for_update().filter(stoma=stoma).first() or SiteUsed(stoma=stoma)
    row.marking, row.used, row.why, row.recorded_by = marking, used, why, by
    row.full_clean()
    row.save()
    record(
        request_or_actor=request or by,
        action="recorded site used",
        subject=stoma,
        patient=stoma.patient,
    )
    return row
