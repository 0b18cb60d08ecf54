"""Open again what was printed: the same file, byte for byte."""

from uuid import UUID

from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.audit.record import record
from clinic.documents.models import PrintedDocument
from clinic.documents.printed.policies import may_open
from clinic.documents.printed.responses import file_answer


@require_GET
@needs(Right.PRINT)
def printed(request: HttpRequest, document: UUID) -> HttpResponse:
    """The PDF as it was handed out."""
    found = get_object_or_404(
        PrintedDocument.objects.select_related("file", "patient", "assessment__visit"),
        uuid=document,
    )
    if not may_open(request.user, found):  # type: ignore[arg-type]
        raise PermissionDenied
    record(
        request_or_actor=request,
        action="opened again",
        subject=found,
        patient=found.patient,
        detail=found.words.lower(),
    )
    return file_answer(bytes(found.file.pdf), f"{found.kind.replace('_', '-')}.pdf")
