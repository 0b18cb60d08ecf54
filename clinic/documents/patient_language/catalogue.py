"""The catalogue of one language: English sentences and what they are in it (gettext)."""

from __future__ import annotations

import gettext
from functools import cache
from io import BytesIO
from pathlib import Path

import polib

FOLDER = Path(__file__).resolve().parents[1] / "locale"
DOMAIN = "sheet"


def po_path(language: str) -> Path:
    """Where a translator writes; there is no compiled copy that could fall behind."""
    return FOLDER / language / "LC_MESSAGES" / f"{DOMAIN}.po"


class _Missing(gettext.NullTranslations):
    """Asked last: gettext itself would answer in English without a word."""

    def gettext(self, message: str) -> str:
        raise KeyError(message)

    def pgettext(self, context: str, message: str) -> str:
        raise KeyError(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        raise KeyError(msgid1)


class Catalogue:
    """What is translated; ``None`` for what is not."""

    def __init__(self, translations: gettext.GNUTranslations) -> None:
        self._translations = translations
        translations.add_fallback(_Missing())

    def find(self, words: str, context: str = "") -> str | None:
        """The translation of ``words``, which stand in the catalogue letter by letter."""
        try:
            if context:
                return self._translations.pgettext(context, words)
            return self._translations.gettext(words) if words else None
        except KeyError:
            return None

    def counted(self, one: str, many: str, count: int) -> str | None:
        """The form that goes with ``count``: Arabic has six."""
        try:
            return self._translations.ngettext(one, many, count)
        except KeyError:
            return None


@cache
def catalogue(language: str) -> Catalogue:
    """Read once (20 ms). Raises ``OSError`` for a language without one."""
    written = polib.pofile(str(po_path(language)))
    return Catalogue(gettext.GNUTranslations(BytesIO(written.to_binary())))
