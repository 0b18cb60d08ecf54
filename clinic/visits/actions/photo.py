"""Add a picture to a draft, take one away, keep what was measured on it."""

from typing import Any
from uuid import UUID

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.visits.locking import locked_draft
from clinic.visits.models import Assessment, Photo, PhotoMeasurement
from clinic.visits.pictures import clean_picture


@transaction.atomic
def add_photo(
    *,
    assessment: Assessment,
    data: bytes,
    caption: str,
    by: User,
    request: HttpRequest | None = None,
) -> Photo:
    """Raises ``ValidationError`` for what is not a picture, ``NotAllowedNow`` once signed."""
    picture = clean_picture(data)
    locked_draft(assessment.visit)
    photo = Photo.objects.create(
        assessment=assessment,
        image=picture.image,
        thumbnail=picture.thumbnail,
        width=picture.width,
        height=picture.height,
        caption=caption,
        taken_by=by,
    )
    record(
        request_or_actor=request or by,
        action="added photo",
        subject=assessment,
        patient=assessment.visit.patient,
    )
    return photo


@transaction.atomic
def remove_photo(*, photo: Photo, by: User, request: HttpRequest | None = None) -> None:
    """Raises ``NotAllowedNow`` once the visit is signed."""
    visit = locked_draft(photo.assessment.visit)
    photo.delete()
    record(
        request_or_actor=request or by,
        action="removed photo",
        subject=visit,
        patient=visit.patient,
    )


@transaction.atomic
def keep_recorded_size(
    *,
    assessment: Assessment,
    photo: UUID | None,
    recorded: str,
    by: User,
    request: HttpRequest | None = None,
) -> None:
    """``recorded`` is right although the photo measures otherwise; raises ``NotAllowedNow`` once
    signed. Asked again when either changes."""
    visit = locked_draft(assessment.visit)
    found = PhotoMeasurement.objects.filter(photo=photo, photo__assessment=assessment)
    if found.update(recorded_is_right=recorded):
        record(
            request_or_actor=request or by,
            action="kept recorded size",
            subject=assessment,
            patient=visit.patient,
        )


@transaction.atomic
def keep_measurement(
    *,
    photo: Photo,
    marks: dict[str, Any],
    result: dict[str, Any],
    rule_set: str,
    by: User,
    request: HttpRequest | None = None,
) -> PhotoMeasurement:
    """Keep the marks and what came of them beside the photo, in place of earlier ones.

    Raises ``NotAllowedNow`` once the visit is signed.
    """
    visit = locked_draft(photo.assessment.visit)
    PhotoMeasurement.objects.filter(photo=photo).delete()
    measured = PhotoMeasurement.objects.create(
        photo=photo, marks=marks, result=result, rule_set=rule_set, by=by
    )
    record(
        request_or_actor=request or by,
        action="measured on photo",
        subject=photo.assessment,
        patient=visit.patient,
    )
    return measured
