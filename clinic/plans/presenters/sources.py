"""Sources: a reason with its citations."""

from collections.abc import Iterable
from dataclasses import dataclass

from planning.evidence.citation import cited_words
from planning.evidence.claims import ALL, CLAIMS
from planning.results.plan import Reason


def citations(ids: Iterable[str]) -> list[str]:
    """Each statement in words with what was read for it, once; a plan signed earlier may cite a
    whole source."""
    return list(dict.fromkeys(cited_words(cited) for cited in ids))


def cited(reasons: Iterable[Reason]) -> list[dict[str, object]]:
    """Reasons for a template: text and citations."""
    return [{"text": r.text, "sources": citations(r.sources)} for r in reasons]


@dataclass(frozen=True)
class Statement:
    """One row of what the rules take from a source; ``anchor`` is its place on the page."""

    anchor: str
    citation: str
    says: str
    read: str
    support: str


def statements() -> list[Statement]:
    """Every statement taken from a source, by source."""
    rows = [
        Statement(_anchor(one.id), one.source.citation, one.says, str(one.mark), one.support)
        for one in ALL
    ]
    return sorted(rows, key=lambda row: (row.citation.casefold(), row.anchor))


def linked(ids: Iterable[str]) -> list[tuple[str, str]]:
    """Each citation in words and the place of its statement ("" for what is no source)."""
    return [
        (cited_words(cited), _anchor(cited) if cited in CLAIMS else "")
        for cited in dict.fromkeys(ids)
    ]


def _anchor(cited: str) -> str:
    return f"said-{cited.replace('/', '-')}"
