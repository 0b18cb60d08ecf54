"""Which supplies a sentence names: whether it takes them as used, or forbids them.

By the words beside each supply in the catalogue. A clause that forbids, takes off or leaves out
differs from one that does not; what is said under a condition, or of one place only, does neither.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Final

from planning.supplies.catalogue import SUPPLIES

#: From these words to the end of the clause, what is named is forbidden.
_FORBIDS: Final = re.compile(
    r"\b(?:no|not|never|without|nothing|neither|nor|instead of|stop|suspected)\b"
    r"|\b(?:take off|leave off|reacts to)\b",
    re.IGNORECASE,
)
#: Up to these words, within a clause, what is named comes off.
_COMES_OFF: Final = re.compile(r"\b(?:off|away)\b|\bstays? out\b", re.IGNORECASE)
#: A clause under a condition, or of one place only: it may hold for this plan or not.
_OPEN: Final = re.compile(
    r"^\s*(?:where|when|with either|once|until)\b"
    r"|\b(?:over it|on it|in it|of it|on the (?:patch|thick|torn)|on this skin|over thick)\b"
    r"|\b(?:if|unless|would|look for|only (?:after|with)|is begun|that contains?|until then)\b",
    re.IGNORECASE,
)
_CLAUSES: Final = re.compile(r"[.;]|(?<!suspected):", re.IGNORECASE)
#: What is between brackets and forbids is a clause of its own.
_ASIDE: Final = re.compile(r"\(((?:no|not|do not|never)\b[^)]*)\)", re.IGNORECASE)
#: Free of it: the thing itself is not named.
_FREE: Final = re.compile(
    r"\blatex-free (?:support )?(?:belt|garment)s?\b|\balcohol-free\b", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class Named:
    """Keys of supplies, by how a text names them. Convex barriers are named together."""

    used: frozenset[str] = frozenset()
    forbidden: frozenset[str] = frozenset()


@lru_cache(maxsize=8192)
def named_in(text: str) -> Named:
    """The supplies that ``text`` names.

    >>> sorted(named_in("Put the belt on last. No paste, and take the tape off.").used)
    ['belt']
    >>> sorted(named_in("Put the belt on last. No paste, and take the tape off.").forbidden)
    ['paste', 'tape']
    """
    used: set[str] = set()
    forbidden: set[str] = set()
    for clause in _CLAUSES.split(_ASIDE.sub(r";\1;", _FREE.sub("", text))):
        if not _any().search(clause) or _OPEN.search(clause):
            continue
        start = _FORBIDS.search(clause)
        before = clause if start is None else clause[: start.start()]
        if start is not None:
            forbidden |= _keys(clause[start.start() :])
        off = _COMES_OFF.search(before)
        if off is not None:
            forbidden |= _keys(before[: off.start()])
            before = before[off.start() :]
        used |= _keys(before)
    return Named(frozenset(used), frozenset(forbidden))


def _keys(clause: str) -> frozenset[str]:
    return frozenset(key for key, words in _patterns().items() if words.search(clause))


@cache
def _patterns() -> dict[str, re.Pattern[str]]:
    return {
        key: re.compile(rf"\b(?:{'|'.join(supply.words)})\b", re.IGNORECASE)
        for key, supply in SUPPLIES.items()
        if supply.words
    }


@cache
def _any() -> re.Pattern[str]:
    """Whether any supply is named at all: most clauses name none."""
    words = (word for supply in SUPPLIES.values() for word in supply.words)
    return re.compile(rf"\b(?:{'|'.join(dict.fromkeys(words))})\b", re.IGNORECASE)
