"""Papers put on record without setting a page."""

import hashlib
from datetime import datetime

from clinic.documents.models import Kind, PrintedDocument, StoredFile
from clinic.documents.printed.actions import Printing, put_on_record
from clinic.visits.models import Assessment
from tests.clinic.documents.made_visits import fresh
from tests.factories.accounts import UserFactory

SOME_PDF = b"%PDF-1.7 not quite"


def stored_file(words: bytes = SOME_PDF) -> StoredFile:
    """The same words are the same file."""
    name = hashlib.sha256(words).hexdigest()
    return StoredFile.objects.get_or_create(sha256=name, defaults={"pdf": words})[0]


def printed_paper(about: Assessment, kind: Kind = Kind.CARE_SHEET) -> PrintedDocument:
    """Printed by a nurse of its own."""
    about = fresh(about)
    printing = Printing(kind=kind, stoma=about.stoma, assessment=about, language="en", paper="a4")
    return put_on_record(printing, stored_file().pk, by=UserFactory.create())


def printed_on(about: Assessment, at: datetime, kind: Kind = Kind.CARE_SHEET) -> PrintedDocument:
    """Printed at a moment of the past by the person who charted the visit; a diary is the
    stoma's."""
    return PrintedDocument.objects.create(
        kind=kind,
        patient=about.stoma.patient,
        stoma=about.stoma,
        assessment=None if kind == Kind.DIARY else about,
        signed=True,
        language="en",
        paper="a4",
        file=stored_file(),
        printed_by=about.visit.clinician,
        printed_at=at,
    )
