"""Add a picture to a draft, take one away."""

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.visits.locking import locked_draft
from clinic.visits.models import Assessment, Photo
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
    image, width, height = clean_picture(data)
    locked_draft(assessment.visit)
    photo = Photo.objects.create(
        assessment=assessment,
        image=image,
        width=width,
        height=height,
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
