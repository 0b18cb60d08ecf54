"""The clinic's own questions on one page, to be answered at home or in the waiting room.

Not a validated questionnaire, and the page says so (``patient_answers.questions``).
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Generic
from uuid import UUID

from django.http import HttpRequest, HttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_GET

from clinic.accounts.permissions import Right, needs
from clinic.documents.kinds import Kind
from clinic.documents.patient_language.localised import Localised
from clinic.documents.patient_language.said import said
from clinic.documents.patient_language.unsaid import Phrase, Unsaid, W
from clinic.documents.printed.responses import (
    Paper,
    asked_large,
    language_of,
    paper_size,
    pdf_answer,
)
from clinic.documents.shared import Contact, Who, contact, stoma_words, who
from clinic.patient_answers.questions import NOT_VALIDATED, OVER, QUESTIONS
from clinic.patients.models import Stoma

RATINGS = tuple(range(11))


@dataclass(frozen=True)
class Asked(Generic[W]):
    """One question; ``none`` is what 0 means, ``most`` what 10 does."""

    number: int
    asks: W
    none: W
    most: W


@dataclass(frozen=True)
class Questions(Localised, Generic[W]):
    """``paper``: a4 or letter."""

    who: Who[W]
    contact: Contact[W]
    stoma: W
    over: W
    not_validated: W
    asked: tuple[Asked[W], ...]
    paper: str
    large: bool

    @property
    def ratings(self) -> tuple[int, ...]:
        return RATINGS


@require_GET
@needs(Right.PRINT)
def questions(request: HttpRequest, stoma: UUID) -> HttpResponse:
    """``?print=large`` or ``normal``, ``?paper=a4`` or ``letter``, ``?language=`` with a code; else
    as the patient and the clinic have it. A closed stoma has none."""
    found = get_object_or_404(
        Stoma.objects.filter(closed_on__isnull=True).select_related("patient"), uuid=stoma
    )
    size, large = paper_size(request), asked_large(request, found.patient)
    built = questions_for(found, paper=size, large=large)
    made: Questions[str] = said(built, language_of(request, found.patient))
    paper = Paper(Kind.QUESTIONS, found, size, language=made.language)
    template = "documents/questions/questions.html"
    return pdf_answer(request, paper, template, {"q": made}, "large print" if large else "")


def questions_for(stoma: Stoma, *, paper: str, large: bool) -> Questions[Unsaid]:
    return Questions(
        who=who(stoma.patient),
        contact=contact(),
        stoma=stoma_words(stoma),
        over=Phrase(OVER),
        not_validated=Phrase(NOT_VALIDATED),
        asked=tuple(
            Asked(number, Phrase(one.asks), Phrase(one.none), Phrase(one.most))
            for number, one in enumerate(QUESTIONS, 1)
        ),
        paper=paper,
        large=large,
    )
