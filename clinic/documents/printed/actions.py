"""Every printing is written down: on the audit trail, and as the very file that was printed."""

from __future__ import annotations

from dataclasses import dataclass

from django.db import transaction
from django.http import HttpRequest
from django.utils import timezone

from clinic.accounts.models import User
from clinic.audit.record import record
from clinic.documents.models import Kind, PrintedDocument
from clinic.patients.models import Stoma
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment


@dataclass(frozen=True)
class Printing:
    """What is printed. ``paper``: a4 or letter; ``detail``: which variant, for the trail and the
    list of papers, without record contents; ``content``: a code of what it says, "" where no one
    asks whether that has changed."""

    kind: Kind
    stoma: Stoma
    assessment: Assessment | None
    language: str
    paper: str
    referral: Referral | None = None
    detail: str = ""
    content: str = ""


@transaction.atomic
def put_on_record(
    printing: Printing, file_id: int, *, by: User, request: HttpRequest | None = None
) -> PrintedDocument:
    """Keep the file of this id as what was handed out, and say so on the trail."""
    about = printing.assessment
    made = PrintedDocument.objects.create(
        kind=printing.kind,
        detail=printing.detail,
        patient=printing.stoma.patient,
        stoma=printing.stoma,
        assessment=about,
        referral=printing.referral,
        signed=about is None or about.visit.is_signed,
        language=printing.language,
        paper=printing.paper,
        content=printing.content,
        file_id=file_id,
        printed_by=by,
        printed_at=timezone.now(),
    )
    record(
        request_or_actor=request or by,
        action="printed",
        subject=about or printing.stoma,
        patient=printing.stoma.patient,
        detail=", ".join(filter(None, (printing.kind.label.lower(), printing.detail))),
    )
    return made
