"""Pictures: taken in, shown to those who may see the record, never public."""

from uuid import UUID

from django.contrib import messages
from django.core.exceptions import ValidationError
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.bad_input import BESIDE_A_FIELD, BROKEN
from clinic.once.sending import made, once
from clinic.visits.actions.photo import add_photo, remove_photo
from clinic.visits.models import Assessment, Photo
from clinic.visits.pictures import MOST_BYTES, TOO_LARGE, thumbnail_of
from clinic.visits.policies import check_can_edit

MOST_AT_ONCE = 12
CAPTION_LENGTH = 200

#: A picture opened by itself is a page too: it may load and run nothing.
ALONE = {
    "Content-Security-Policy": "default-src 'none'; style-src 'unsafe-inline'; sandbox",
    "Content-Disposition": 'inline; filename="photo.jpg"',
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Content-Type-Options": "nosniff",
}


def _photo(uuid: UUID) -> Photo:
    return get_object_or_404(Photo.objects.select_related("assessment__visit__patient"), pk=uuid)


@require_http_methods(["GET", "POST"])
@needs(Right.CHART)
@once
def add(request: HttpRequest, assessment: UUID) -> HttpResponse:
    """Add pictures to a draft; one that cannot be read is named with the reason."""
    found = get_object_or_404(
        Assessment.objects.select_related("visit__patient", "visit__saved_by", "stoma"),
        uuid=assessment,
    )
    check_can_edit(found.visit)
    if request.method == "GET":
        return _form(request, found)
    caption = request.POST.get("caption", "").strip()
    errors = _refusals(request, caption)
    added = 0 if errors else _add_each(request, found, caption, errors)
    if added:
        messages.success(request, "Photo added." if added == 1 else f"{added} photos added.")
    if errors:
        page = _form(request, found, caption=caption, errors=errors, status=422)
        # Those that were added are not added again by a second sending.
        return made(page, reverse("visits:photo_add", args=[found.uuid]) if added else "")
    return redirect("charting:chart", found.uuid)


def _refusals(request: HttpRequest, caption: str) -> list[str]:
    """What keeps the whole post from being taken."""
    files = request.FILES.getlist("picture")
    if not files:
        return ["Choose a photo first."]
    if len(files) > MOST_AT_ONCE:
        return [f"At most {MOST_AT_ONCE} photos at once; these are {len(files)}."]
    if BROKEN in caption:
        return [f"Caption: {BESIDE_A_FIELD}"]
    if len(caption) > CAPTION_LENGTH:
        return [f"The caption is too long: at most {CAPTION_LENGTH} characters."]
    return []


def _add_each(request: HttpRequest, found: Assessment, caption: str, errors: list[str]) -> int:
    """Each picture by itself: one that cannot be read keeps none of the others out."""
    added = 0
    for upload in request.FILES.getlist("picture"):
        try:
            if (upload.size or 0) > MOST_BYTES:
                raise ValidationError(TOO_LARGE)
            add_photo(
                assessment=found,
                data=upload.read(),
                caption=caption,
                by=request.user,  # type: ignore[arg-type]
                request=request,
            )
            added += 1
        except ValidationError as error:
            errors.append(f"{upload.name}: {error.message}")
    return added


def _form(
    request: HttpRequest,
    found: Assessment,
    *,
    caption: str = "",
    errors: list[str] | None = None,
    status: int = 200,
) -> HttpResponse:
    context = {
        "assessment": found,
        "visit": found.visit,
        "patient": found.visit.patient,
        "stoma": found.stoma,
        "caption": caption,
        "errors": errors or [],
    }
    return render(request, "visits/photos.html", context, status=status)


@require_GET
@needs(Right.SEE_CLINICAL)
def show(request: HttpRequest, photo: UUID) -> HttpResponse:
    """The picture itself."""
    found = _photo(photo)
    _on_record(request, found)
    return _answer(found.image)


@require_GET
@needs(Right.SEE_CLINICAL)
def thumbnail(request: HttpRequest, photo: UUID) -> HttpResponse:
    """The small picture; made now for a photo older than small pictures."""
    found = _photo(photo)
    _on_record(request, found, "small")
    if found.thumbnail:
        return _answer(found.thumbnail)
    try:
        return _answer(thumbnail_of(bytes(found.image)))
    except ValidationError:
        return _answer(found.image)


def _on_record(request: HttpRequest, found: Photo, detail: str = "") -> None:
    record(
        request_or_actor=request,
        action="viewed photo",
        subject=found.assessment,
        patient=found.assessment.visit.patient,
        detail=detail,
    )


def _answer(image: bytes | memoryview) -> HttpResponse:
    return HttpResponse(bytes(image), content_type="image/jpeg", headers=ALONE)


@require_POST
@needs(Right.CHART)
@once
def remove(request: HttpRequest, photo: UUID) -> HttpResponse:
    """Take a picture out of a draft."""
    found = _photo(photo)
    uuid = found.assessment.uuid
    remove_photo(photo=found, by=request.user, request=request)  # type: ignore[arg-type]
    messages.success(request, "Photo removed.")
    return redirect("charting:chart", uuid)
