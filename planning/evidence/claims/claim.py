"""One statement that is taken from one source: the form of an entry."""

from __future__ import annotations

from dataclasses import dataclass

from planning.evidence.mark import Mark
from planning.evidence.sources import SOURCES, Source


@dataclass(frozen=True, slots=True)
class Claim:
    """``id`` is the source's id, a stroke and a word. ``says`` what is claimed; ``support`` what in
    the source bears it out, in our own words, and where it ends."""

    id: str
    says: str
    mark: Mark
    support: str

    @property
    def source(self) -> Source:
        """The source that says so."""
        return SOURCES[source_id(self.id)]

    @property
    def words(self) -> str:
        """As shown beside a reason: ``Persson 2010, Colorectal Dis 12:971 (abstract read)``."""
        return f"{self.source.citation} ({self.mark})"


def source_id(cited: str) -> str:
    """The id of the source in a claim's id, or the id itself.

    >>> source_id("persson2010/ileostomy")
    'persson2010'
    """
    return cited.partition("/")[0]


def full_text(id_: str, says: str, support: str) -> Claim:
    """The whole of a short text was read."""
    return Claim(id_, says, Mark.FULL_TEXT, support)


def abstract(id_: str, says: str, support: str) -> Claim:
    """Its abstract was read, not the paper."""
    return Claim(id_, says, Mark.ABSTRACT, support)


def excerpt(id_: str, says: str, support: str) -> Claim:
    """Its opening, one section or a passage was read."""
    return Claim(id_, says, Mark.EXCERPT, support)


def second_hand(id_: str, says: str, support: str) -> Claim:
    """Another text that reports it was read."""
    return Claim(id_, says, Mark.SECOND_HAND, support)


def not_read(id_: str, says: str, support: str) -> Claim:
    """The source is named from memory."""
    return Claim(id_, says, Mark.FROM_MEMORY, support)
