"""What a clinician typed, on a sheet of any language: nobody has translated it."""

from __future__ import annotations

import re
from unicodedata import bidirectional

from clinic.documents.patient_language.english_marks import bare, in_english
from clinic.documents.patient_language.lay_terms import NBSP, inches, sixteenths
from clinic.documents.patient_language.translator import ENGLISH, Translator
from planning.results.message import sentence


def as_typed(text: str, translator: Translator) -> str:
    """Taken for English, as the record is kept in it; on a sheet from right to left, letters of its
    script are taken for its language."""
    if translator.direction == "rtl" and any(bidirectional(sign) == "AL" for sign in text):
        return sentence(bare(text))
    english = with_inches(sentence(text))
    return english if translator == ENGLISH else in_english(english)


_LENGTH = re.compile(
    r"(?P<a>\d+(?:\.\d+)?)(?:\s?mm)?(?:\s?(?P<join>by|to|x|×|or|and)\s?(?P<b>\d+(?:\.\d+)?))?\s?mm\b"
)


def with_inches(text: str) -> str:
    """Inches beside every length in mm, to the nearest 1/16; the mm stay what counts.

    Numbers and their units are tied by no-break spaces, here shown as plain ones.

    >>> shown = lambda text: with_inches(text).replace(NBSP, " ")
    >>> shown("Cut the hole 34 mm by 30 mm.")
    'Cut the hole 34 mm by 30 mm (about 1 5/16 by 1 3/16 inches).'
    >>> shown("Leave 2 to 3 mm free.")
    'Leave 2 to 3 mm (about 1/16 to 1/8 inch) free.'
    >>> shown("A 0.5 mm film."), shown("25 mm (1 inch)")
    ('A 0.5 mm film.', '25 mm (1 inch)')
    """
    told = text if "inch" in text else _LENGTH.sub(_beside, text)
    return _BEFORE_UNIT.sub(NBSP, told)


_BEFORE_UNIT = re.compile(r"(?<=\d) (?=mm\b|inch|\d+/\d)")


def _beside(found: re.Match[str]) -> str:
    sizes = [float(found[name]) for name in ("a", "b") if found[name]]
    if any(sixteenths(size) == 0 for size in sizes):
        return found[0]
    join = f" {found['join']} ".replace(" x ", " by ").replace(" × ", " by ")
    unit = "inch" if max(sixteenths(size) for size in sizes) <= 16 else "inches"
    return f"{found[0]} (about {join.join(inches(size) for size in sizes)} {unit})"
