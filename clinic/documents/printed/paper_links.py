"""The papers of a visit that can be printed, as links for its page and for the front desk."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from django.urls import reverse

from clinic.documents.kinds import PAPERS, Declared, Link, Page
from clinic.patients.models import Stoma
from clinic.visits.models import Assessment


@dataclass(frozen=True)
class PaperLink:
    """``words`` as shown; ``spoken``: what a screen reader adds, "" for the visit's day."""

    words: str
    address: str
    spoken: str
    opens: bool


def paper_links(
    assessment: Assessment, *, clinical: bool, language: str = ""
) -> Iterator[PaperLink]:
    """In the order of the declaration; ``language``: a code to print in for this once. A closed
    stoma has no paper that is the stoma's alone."""
    for paper in PAPERS.values():
        if paper.of_stoma and not assessment.stoma.is_open:
            continue
        for link in paper.links:
            if words := link.words if clinical else link.desk_words:
                address = _address(paper, link, assessment, language)
                yield PaperLink(words, address, link.spoken, link.opens)


def _address(paper: Declared, link: Link, assessment: Assessment, language: str) -> str:
    page = next(page for page in paper.pages if page.name == link.page)
    asked = f"language={language}" if language and paper.for_patient else ""
    query = "&".join(filter(None, (link.query, asked)))
    address = reverse(f"documents:{page.name}", args=[_subject(page, assessment).uuid])
    return f"{address}?{query}" if query else address


def _subject(page: Page, assessment: Assessment) -> Assessment | Stoma:
    return assessment.stoma if page.about == "stoma" else assessment
