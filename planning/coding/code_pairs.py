"""Rules of the ICD-10-CM tabular list between codes: what excludes and what calls for what."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import permutations
from typing import Final

_STOMA_COMPLICATIONS: Final = ("J95.0", "K94", "N99.5")

#: Never together for the same stoma (Excludes1): each left side with each right side.
EXCLUDES: Final = (
    (("Z93",), ("Z43", *_STOMA_COMPLICATIONS)),
    (("Z43",), _STOMA_COMPLICATIONS),
    (("L23", "L24"), ("L25.9", "L30.9")),
    (("K56",), ("K91.3",)),
)

#: *Use additional code*: the first calls for one of the second, in these words.
CALLS_FOR: Final = (
    ("L24.B", ("Z93",), "add the stoma's status (Z93.-)"),
    ("E86", ("E87",), "add a disorder of salts (E87.-) if there is one"),
    ("K94.02", ("L03.311", "A40", "A41"), "add the kind of infection"),
    ("K94.12", ("L03.311", "A40", "A41"), "add the kind of infection"),
)


def conflicts(codes: Iterable[str]) -> tuple[tuple[str, str], ...]:
    """Every pair of ``codes`` that may not be combined for one stoma."""
    return tuple(
        (one, other)
        for one, other in permutations(tuple(codes), 2)
        for left, right in EXCLUDES
        if one.startswith(left) and other.startswith(right)
    )


def prompts(codes: tuple[str, ...]) -> dict[str, tuple[str, ...]]:
    """For each code what it calls for and lacks, in words.

    Where what it calls for is excluded by another code, the coder must choose, and is warned.
    """
    return {code: words for code in codes if (words := tuple(_lacks(code, codes)))}


def _lacks(code: str, codes: tuple[str, ...]) -> Iterable[str]:
    for first, wanted, words in CALLS_FOR:
        if code.startswith(first) and not any(c.startswith(wanted) for c in codes):
            barred = conflicts((*codes, wanted[0]))
            choose = ", which another code here excludes: the coder chooses" if barred else ""
            yield words + choose
