"""Saying things in one language. English is what the program is written in, so it needs no
catalogue; in another, what has no translation is said in English and marked as such."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from clinic.documents.patient_language.catalogue import Catalogue, catalogue
from clinic.documents.patient_language.english_marks import in_english
from clinic.patients.models import SheetLanguage

RIGHT_TO_LEFT = frozenset({SheetLanguage.ARABIC})


@dataclass(frozen=True)
class Translator:
    """``catalogue`` None: English."""

    code: str
    catalogue: Catalogue | None = None

    @property
    def direction(self) -> str:
        return "rtl" if self.code in RIGHT_TO_LEFT else "ltr"

    def find(self, words: str, context: str = "") -> str | None:
        """The translation, or None where there is none. English finds everything."""
        return self.catalogue.find(words, context) if self.catalogue else words

    def translate(self, words: str, context: str = "", /, **parts: object) -> str:
        """``words``, which name their parts in braces, in this language.

        >>> ENGLISH.translate("Born {day}", day="2 March 1950")
        'Born 2 March 1950'
        """
        found = self.find(words, context)
        if found is None:
            return in_english(words.format(**parts))
        return found.format(**parts)

    def count(self, one: str, many: str, number: int) -> str:
        """A number of things, both forms with ``{number}``.

        >>> ENGLISH.count("{number} day", "{number} days", 3)
        '3 days'
        """
        if self.catalogue is None:
            return (one if number == 1 else many).format(number=number)
        found = self.catalogue.counted(one, many, number)
        if found is None:
            return in_english((one if number == 1 else many).format(number=number))
        return found.format(number=number)


ENGLISH = Translator(SheetLanguage.ENGLISH.value)


@cache
def translator_for(language: str) -> Translator:
    """Of a code of ``SheetLanguage``. Raises ``ValueError`` for any other."""
    code = SheetLanguage(language).value
    return ENGLISH if code == ENGLISH.code else Translator(code, catalogue(code))
