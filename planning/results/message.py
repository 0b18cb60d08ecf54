"""What a plan says to a patient, before it is said in any language.

A message is named by its English sentence, with its parts in braces: under that name, its id, a
catalogue holds it, as with gettext. A plan keeps messages and their parts, never finished English;
``english()`` says them for the clinician, for tests, and where a language has no translation.

A rule is written with a plain sentence; ``to_patient`` makes a message of it. Only a
sentence with a part in it is written as one, so that the part stays known:
``Message.of("Change on {day} at the latest.", day=Day(3))``.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from string import Formatter
from typing import TypeAlias, overload

#: Contexts of the catalogues: words that are the same in English and not in another language.
DANGER, AFTER, SUPPLY = "danger", "after a danger", "supply"

#: What a sentence may end with, in any language.
_ENDS = ".!?:\N{ARABIC QUESTION MARK}"
_SENTENCES = re.compile(r"(?<=[.!?]) ")


@dataclass(frozen=True, slots=True)
class Day:
    """A day counted from a change: "day 3" in English."""

    number: int

    def __str__(self) -> str:
        return f"day {self.number}"


@dataclass(frozen=True, slots=True)
class Days:
    """A number of days."""

    number: int

    def __str__(self) -> str:
        return f"{self.number} day{'' if self.number == 1 else 's'}"


@dataclass(frozen=True, slots=True)
class Length:
    """A length in mm, or one by a width. A sheet says inches beside it."""

    mm: float
    by_mm: float | None = None

    def __str__(self) -> str:
        return f"{self.mm:g} mm" if self.by_mm is None else f"{self.mm:g} mm by {self.by_mm:g} mm"


@lru_cache(maxsize=4096)
def _names(id_: str) -> frozenset[str]:
    return frozenset(name for _, name, _, _ in Formatter().parse(id_) if name is not None)


@dataclass(frozen=True, slots=True)
class Message:
    """``id``: the English, naming its parts in braces. ``context``: which of two meanings, a
    context of the catalogues. Raises ``ValueError`` where the parts are not those it names."""

    id: str
    context: str = ""
    parts: tuple[tuple[str, Part], ...] = ()

    def __post_init__(self) -> None:
        if _names(self.id) != {name for name, _ in self.parts}:
            raise ValueError(f"These are not the parts of {self.id!r}: {self.parts!r}.")

    @classmethod
    def of(cls, id: str, context: str = "", /, **parts: Part) -> Message:  # noqa: A002
        """With its parts by name."""
        return cls(id, context, tuple(parts.items()))

    def english(self) -> str:
        """In English, as it is inside a sentence.

        >>> Message.of("Change on {day} at the latest.", day=Day(3)).english()
        'Change on day 3 at the latest.'
        """
        said = {
            name: part.english() if isinstance(part, Message) else str(part)
            for name, part in self.parts
        }
        return self.id.format(**said)

    @property
    def sentences(self) -> tuple[Message, ...]:
        """Each sentence of the id as a message of its own.

        >>> [one.id for one in Message("Lie down. Call us.").sentences]
        ['Lie down.', 'Call us.']
        """
        if not _SENTENCES.search(self.id):
            return (self,)
        return tuple(self._only(words) for words in _SENTENCES.split(self.id))

    def joined(self, sentences: Iterable[Message]) -> Message:
        """Of some of its sentences, in order, one message again; itself where all are there."""
        return self._only(" ".join(one.id for one in sentences))

    def _only(self, words: str) -> Message:
        parts = tuple((name, part) for name, part in self.parts if f"{{{name}}}" in words)
        return Message(words, self.context, parts)


Part: TypeAlias = str | int | Day | Days | Length | Message


@dataclass(frozen=True, slots=True)
class Text:
    """What one item of a plan says to the patient: its messages, each said as a sentence.

    ``stored``: finished English, in place of messages, as plans signed before messages hold it.
    False where nothing is said.
    """

    messages: tuple[Message, ...] = ()
    stored: str = ""

    def english(self) -> str:
        """In English, whole sentences."""
        return self.stored or " ".join(sentence(one.english()) for one in self.messages)

    def __str__(self) -> str:
        return self.english()

    def __bool__(self) -> bool:
        return bool(self.stored or self.messages)

    def __iter__(self) -> Iterator[Message]:
        return iter(self.messages)


#: What a rule may give where a text is expected.
Words: TypeAlias = str | Message | Text


@overload
def to_patient(*words: Words) -> Text: ...
@overload
def to_patient(words: Words | None, /) -> Text | None: ...
def to_patient(*words: Words | None) -> Text | None:
    """The text that these say one after the other; None for None.

    >>> str(to_patient("Call us.", Message("soft ring", SUPPLY)))
    'Call us. Soft ring.'
    """
    if len(words) == 1:
        only = words[0]
        if only is None or isinstance(only, Text):
            return only
        if isinstance(only, str):
            return _fixed(only)
    return Text(tuple(message for one in words for message in _messages(one)))


@lru_cache(maxsize=4096)
def _fixed(words: str) -> Text:
    """Words without parts: most are the same in every plan."""
    return Text(tuple(_messages(words)))


def _messages(words: Words | None) -> Iterator[Message]:
    if isinstance(words, Text):
        yield from words.messages
    elif words:
        yield words if isinstance(words, Message) else Message(words)


def sentence(words: str) -> str:
    """With a capital and a full stop, so that it reads aloud as one.

    >>> sentence("keep the ring"), sentence("Call us!"), sentence(" ")
    ('Keep the ring.', 'Call us!', '')
    """
    words = words.strip()
    if not words:
        return ""
    words = words[0].upper() + words[1:]
    return words if words[-1] in _ENDS else f"{words}."
