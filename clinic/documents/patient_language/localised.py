"""What every paper for a patient knows of its language, once it is said in one: the template asks
it as ``sheet``."""

from collections.abc import Iterator
from dataclasses import dataclass, fields, is_dataclass

from django.conf import settings

from clinic.documents.patient_language.english_marks import english_in
from clinic.documents.patient_language.translator import ENGLISH, Translator, translator_for
from clinic.patients.models import SheetLanguage
from clinic.visits.presenters.clockface import Face


def reviewer(language: str) -> str:
    """The name the settings give; "" where no one has reviewed it, and for English."""
    return str(settings.SHEET_REVIEWERS.get(language, ""))


@dataclass(frozen=True, kw_only=True)
class Localised:
    """For a dataclass; ``said.said`` fills these two fields."""

    #: A code of ``SheetLanguage``; "" until it is said in a language.
    language: str = ""
    #: Who read this translation over; "" while nobody has, and for English.
    reviewer: str = ""

    @property
    def translator(self) -> Translator:
        return translator_for(self.language)

    @property
    def language_name(self) -> str:
        """As clinicians call it."""
        return str(SheetLanguage(self.language).label)

    @property
    def translated(self) -> bool:
        return self.translator != ENGLISH

    @property
    def needs_review(self) -> bool:
        return self.translated and not self.reviewer

    @property
    def in_english(self) -> tuple[str, ...]:
        """What stands in English on a paper of another language, each once, in order."""
        found = (piece for words in texts(self) for piece in english_in(words))
        return tuple(dict.fromkeys(found))


def texts(part: object) -> Iterator[str]:
    """Everything said in a part of the paper. The face says nothing that its marks do not."""
    if isinstance(part, str):
        yield part
    elif isinstance(part, tuple):
        for one in part:
            yield from texts(one)
    elif is_dataclass(part) and not isinstance(part, Face):
        for one in fields(part):
            yield from texts(getattr(part, one.name))
