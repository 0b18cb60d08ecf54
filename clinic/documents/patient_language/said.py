"""A paper said in one language: the one step from what was built to what is printed."""

from __future__ import annotations

from dataclasses import fields, is_dataclass, replace
from typing import Any, get_args, overload

from clinic.documents.patient_language.formatter import Formatter, formatter_of
from clinic.documents.patient_language.localised import Localised, reviewer
from clinic.documents.patient_language.translator import ENGLISH, translator_for
from clinic.documents.patient_language.unsaid import Unsaid

#: Every kind of ``Unsaid`` but plain text, which no language changes.
_UNSAID = tuple(kind for kind in get_args(Unsaid) if kind is not str)


@overload
def said(part: Unsaid, language: str) -> str: ...
@overload
def said(part: object, language: str) -> Any: ...
def said(part: object, language: str) -> Any:
    """A paper, or a part of one, with its words in ``language``, a code of ``SheetLanguage``.

    Raises ``ValueError`` for a language there is none of.
    """
    return _said(part, formatter_of(translator_for(language)))


def english(part: Any) -> Any:
    """For what is English in every case, such as a letter."""
    return said(part, ENGLISH.code)


def _said(part: Any, formatter: Formatter) -> Any:
    if isinstance(part, _UNSAID):
        return formatter.words(part)
    if isinstance(part, tuple):
        told = tuple(_said(one, formatter) for one in part)
        return told if _changed(told, part) else part
    if is_dataclass(part):
        return _dataclass(part, formatter)
    return part


def _dataclass(part: Any, formatter: Formatter) -> Any:
    """What holds no words is left as it is."""
    held = {one.name: getattr(part, one.name) for one in fields(part)}
    told = {name: _said(value, formatter) for name, value in held.items()}
    if isinstance(part, Localised):
        code = formatter.translator.code
        told |= {"language": code, "reviewer": reviewer(code)}
    return replace(part, **told) if _changed(told.values(), held.values()) else part


def _changed(told: Any, held: Any) -> bool:
    return any(one is not other for one, other in zip(told, held, strict=True))
