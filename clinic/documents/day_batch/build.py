"""The care sheets of a clinic's day as one file, set one after another."""

from __future__ import annotations

import tempfile
import time
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import IO
from uuid import UUID

from clinic.documents.care_sheet.density import most_pages
from clinic.documents.care_sheet.pages import detail_of, pages_of
from clinic.documents.care_sheet.sheet_edit import EditedSheet, edit_of, edited_sheet
from clinic.documents.living.build import Leaf, content_of, leaf
from clinic.documents.living.due import why_due
from clinic.documents.living.pages import detail_of as detail_of_leaf
from clinic.documents.living.pages import html_of as html_of_leaf
from clinic.documents.models import Kind
from clinic.documents.patient_language.said import said
from clinic.documents.printed.actions import Printing
from clinic.documents.printed.responses import own_size
from clinic.documents.rendering.cache import is_stored, stored_file
from clinic.documents.rendering.pdf_merge import PdfMerge
from clinic.documents.rendering.unavailable import PrintingUnavailable
from clinic.plans.plan_with_decisions import decided_plan
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment
from clinic.visits.queries import with_parts

#: Seconds one request may spend on setting pages before it says how far it has come.
A_TURN = 20.0
TITLE = "Care sheets of the day"
WITH_THE_DAY = "with the day's sheets"


def signed(uuid: UUID) -> Assessment | None:
    """One signed assessment with all that its sheet is made of."""
    found = with_parts().with_rows("decisions").filter(visit__state=VisitState.SIGNED)
    return found.filter(uuid=uuid).first()


def sheet_of(assessment: Assessment) -> EditedSheet[str]:
    """As it would be printed by itself: as edited, in the print and language its patient reads."""
    decided = decided_plan(assessment)
    if decided is None:  # a signed visit has a plan: the database holds it to that
        raise ValueError("There is no plan to print.")
    built = edited_sheet(decided, edit_of(assessment))
    edited: EditedSheet[str] = said(built, assessment.visit.patient.sheet_language)
    return edited


@dataclass(frozen=True)
class Progress:
    """How many of the sheets asked for are ready to be joined."""

    ready: int
    of: int

    @property
    def done(self) -> bool:
        return self.ready == self.of


def prepare(sheets: Iterable[UUID]) -> Progress:
    """Set what is not set yet, for as long as one turn may last; at least one sheet a turn."""
    began, ready, chosen = time.monotonic(), 0, list(sheets)
    fresh = 0
    for uuid in chosen:
        unset = [one for one in _papers_of(_signed(uuid)) if not is_stored(one[0], at_most=one[1])]
        if unset:
            if fresh and time.monotonic() - began > A_TURN:
                continue
            for pages, most in unset:
                stored_file(pages, at_most=most)
            fresh += 1
        ready += 1
    return Progress(ready, len(chosen))


def _papers_of(assessment: Assessment) -> list[tuple[Sequence[str], int]]:
    """The sheet, and the leaf it brings: pages, and how many each may have."""
    sheet = sheet_of(assessment).sheet
    papers: list[tuple[Sequence[str], int]] = [(pages_of(sheet), most_pages(sheet))]
    if due := leaf_of(assessment):
        papers.append(([html_of_leaf(due[0])], 1))
    return papers


@dataclass(frozen=True)
class Joined:
    """The file, and of each sheet in it what is to be put on record: what, and the file's id."""

    file: IO[bytes]
    printings: tuple[tuple[Printing, int], ...]


NO_ROOM = (
    "The server has no room for one file of all these sheets. Each of them still prints from its "
    "own visit. Please tell those who run the server."
)


def joined(sheets: Iterable[UUID]) -> Joined:
    """One file of all ``sheets`` in that order, without a name on the disk; memory holds one
    sheet at a time. Raises ``PrintingUnavailable`` where the disk is full or closed to writing."""
    try:
        return _joined(sheets)
    except OSError as no_room:
        raise PrintingUnavailable(NO_ROOM) from no_room


def _joined(sheets: Iterable[UUID]) -> Joined:
    out = tempfile.TemporaryFile()  # noqa: SIM115 - the answer to the browser closes it
    joining = PdfMerge(out, title=TITLE)
    printings = []
    for uuid in sheets:
        assessment = _signed(uuid)
        edited = sheet_of(assessment)
        file = stored_file(pages_of(edited.sheet), at_most=most_pages(edited.sheet))
        joining.add(bytes(file.pdf))
        printings.append((_printing(assessment, edited), file.pk))
        if due := leaf_of(assessment):
            page = stored_file([html_of_leaf(due[0])])
            joining.add(bytes(page.pdf))
            printings.append((due[1], page.pk))
    joining.finish()
    out.seek(0)
    return Joined(out, tuple(printings))


def leaf_of(assessment: Assessment) -> tuple[Leaf[str], Printing] | None:
    """The leaf about living with the stoma, where this visit's sheet brings it."""
    decided = decided_plan(assessment)
    if decided is None or not why_due(decided):
        return None
    decided = decided.accepted_by_default()
    patient = assessment.visit.patient
    built = leaf(decided, paper=own_size(), large=patient.large_print)
    made: Leaf[str] = said(built, patient.sheet_language)
    printing = Printing(
        kind=Kind.LIVING,
        stoma=assessment.stoma,
        assessment=assessment,
        language=made.language,
        paper=own_size(),
        detail=", ".join(filter(None, (detail_of_leaf(made), WITH_THE_DAY))),
        content=content_of(decided),
    )
    return made, printing


def _printing(assessment: Assessment, edited: EditedSheet[str]) -> Printing:
    """One sheet among the day's: stored under its own visit, as if printed by itself."""
    return Printing(
        kind=Kind.CARE_SHEET,
        stoma=assessment.stoma,
        assessment=assessment,
        language=edited.sheet.language,
        paper=own_size(),
        detail=", ".join(filter(None, (detail_of(edited), WITH_THE_DAY))),
    )


def _signed(uuid: UUID) -> Assessment:
    assessment = signed(uuid)
    if assessment is None:
        raise ValueError("Only a signed visit has a sheet here.")
    return assessment
