"""What a paper says, before it is said in a language: what papers are built of.

A plan's own sentences are ``Text``; the papers' own words are a ``Phrase``. Neither knows a
language: ``said.said`` turns a whole paper into words. Plain text in a paper is what no language
changes, such as a name.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import TypeAlias, TypeVar

from planning.results.message import Day, Days, Length, Text, sentence


@dataclass(frozen=True, slots=True)
class Phrase:
    """Words of the catalogues, by their English, with their parts in braces. ``context``: which of
    two meanings. As they are inside a sentence: no full stop is added."""

    id: str
    context: str = ""
    parts: tuple[tuple[str, Unsaid | int], ...] = ()

    @classmethod
    def of(cls, id: str, context: str = "", /, **parts: Unsaid | int) -> Phrase:  # noqa: A002
        """With its parts by name."""
        return cls(id, context, tuple(parts.items()))


@dataclass(frozen=True, slots=True)
class Joined:
    """One after the other, ``between`` two of them; what says nothing is left out."""

    words: tuple[Unsaid, ...]
    between: str = " "

    def __bool__(self) -> bool:
        return any(self.words)


@dataclass(frozen=True, slots=True)
class Typed:
    """A sentence as a clinician typed it, in whatever language."""

    sentence: str

    def __bool__(self) -> bool:
        return bool(self.sentence)


@dataclass(frozen=True, slots=True)
class Given:
    """What the settings give in English, and in other languages by their code."""

    english: str
    others: Mapping[str, str] = field(default_factory=dict, hash=False)


Unsaid: TypeAlias = str | Day | Days | Length | Text | Phrase | Joined | Typed | Given
#: What a paper holds: ``Unsaid`` as it is built, ``str`` once it is said.
W = TypeVar("W", bound=Unsaid, covariant=True)


def typed(words: str) -> Typed:
    """With a capital and a full stop; nothing where nothing was typed."""
    return Typed(sentence(words))
