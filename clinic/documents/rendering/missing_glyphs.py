"""Letters that no font here has: noticed while a page is set, and explained.

WeasyPrint only writes a line in its log for each, with the letter in it, and prints an empty box.
A name in boxes identifies no one, and a log is no place for letters of a name.
"""

from __future__ import annotations

import logging
import threading
import unicodedata
from types import TracebackType

_TOLD = ".notdef glyph"


class MissingGlyphs:
    """``letters`` no font has, while this is open in this thread; they stay out of the log."""

    def __init__(self) -> None:
        self.letters: list[str] = []
        self._thread = threading.get_ident()
        self._log = logging.getLogger("weasyprint")

    def __enter__(self) -> MissingGlyphs:
        self._log.addFilter(self._heard)
        return self

    def __exit__(
        self,
        kind: type[BaseException] | None,
        error: BaseException | None,
        trace: TracebackType | None,
    ) -> None:
        self._log.removeFilter(self._heard)

    def _heard(self, told: logging.LogRecord) -> bool:
        if not str(told.msg).startswith(_TOLD):
            return True
        if threading.get_ident() == self._thread and isinstance(told.args, tuple):
            letter = str(told.args[0])
            # What has no shape of its own (a mark of direction, a stray control) leaves no box.
            if unicodedata.category(letter) not in {"Cc", "Cf"}:
                self.letters.append(letter)
        return False


def no_font_for(letters: list[str]) -> str:
    """Which scripts are missing, without the letters themselves.

    >>> no_font_for(["\N{DEVANAGARI LETTER KA}", "\N{DEVANAGARI LETTER KHA}"])
    'No font on this server has these letters: Devanagari. They would print as empty boxes.'
    """
    scripts = dict.fromkeys(map(_script, letters))
    return (
        f"No font on this server has these letters: {', '.join(scripts)}. They would print as "
        "empty boxes."
    )


def _script(letter: str) -> str:
    """The first word of a letter's name; Unicode calls Chinese characters ``CJK``."""
    first = unicodedata.name(letter, "").partition(" ")[0]
    return {"": "unnamed characters", "CJK": "Chinese characters"}.get(first, first.capitalize())
