"""Sources: a reason with its citations."""

from collections.abc import Iterable

from planning.evidence.sources import SOURCES
from planning.results.plan import Reason


def citations(ids: Iterable[str]) -> list[str]:
    """Each source in words, or the id itself where an old plan cites one no longer listed."""
    return [SOURCES[i].words if i in SOURCES else i for i in dict.fromkeys(ids)]


def cited(reasons: Iterable[Reason]) -> list[dict[str, object]]:
    """Reasons for a template: text and citations."""
    return [{"text": r.text, "sources": citations(r.sources)} for r in reasons]
