"""Pictures: taken in, shown to those who may see the record, never public."""

from uuid import UUID

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.views.decorators.http import require_GET, require_POST

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.visits.actions.photo import add_photo, remove_photo
from clinic.visits.models import Assessment, Photo


def _photo(uuid: UUID) -> Photo:
    return get_object_or_404(Photo.objects.select_related("assessment__visit__patient"), pk=uuid)


@require_POST
@needs(Right.CHART)
def add(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Add one picture to a draft."""
    found = get_object_or_404(
        Assessment.objects.select_related("visit__patient"), uuid=assessment, visit__state="draft"
    )
    upload = request.FILES.get("picture")
    if upload is None:
        messages.error(request, "Choose a picture first.")
        return redirect("plans:chart", found.uuid)
    try:
        add_photo(
            assessment=found,
            data=upload.read(),
            caption=request.POST.get("caption", "")[:200],
            by=request.user,  # type: ignore[arg-type]
            request=request,
        )
        messages.success(request, "Picture added.")
    except ValidationError as error:
        messages.error(request, error.message)
    return redirect("plans:chart", found.uuid)


@require_GET
@needs(Right.SEE_CLINICAL)
def show(request: HttpRequest, photo: UUID) -> HttpResponse:
    """The picture itself."""
    found = _photo(photo)
    record(
        request_or_actor=request,
        action="viewed photo",
        subject=found.assessment,
        patient=found.assessment.visit.patient,
    )
    return HttpResponse(bytes(found.image), content_type="image/jpeg")


@require_POST
@needs(Right.CHART)
def remove(request: HttpRequest, photo: UUID) -> HttpResponse:
    """Take a picture out of a draft."""
    found = _photo(photo)
    uuid = found.assessment.uuid
    remove_photo(photo=found, by=request.user, request=request)  # type: ignore[arg-type]
    messages.success(request, "Picture removed.")
    return redirect("plans:chart", uuid)
