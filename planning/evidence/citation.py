"""What a rule, a figure or a stored plan cites, in words for the screen."""

from __future__ import annotations

from typing import Final

from planning.evidence.claims import CLAIMS, source_id
from planning.evidence.sources import BASES, SOURCES

#: All that a rule or a figure may cite.
CITABLE: Final = BASES | set(CLAIMS)


def cited_words(cited: str) -> str:
    """A statement with its own mark, or a basis that is no source.

    A plan signed earlier may cite a whole source, or a statement no longer on the list: then the
    source, and that what was read is not on record. An unknown id is its own words.
    """
    if cited in CLAIMS:
        return CLAIMS[cited].words
    source = SOURCES.get(source_id(cited))
    return cited if source is None else source.words


def cite(ids: tuple[str, ...]) -> str:
    """``ids`` in words for the screen, one after the other."""
    return "; ".join(cited_words(cited) for cited in ids)
