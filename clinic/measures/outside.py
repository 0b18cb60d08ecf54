"""What may leave the clinic of a row of counts, also beside the same row of other groups."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from clinic.measures.small_numbers import NOT_SHOWN, parts


def outside(numbers: Sequence[int], beside: Iterable[Sequence[Sequence[int]]] = ()) -> list[str]:
    """``numbers``: parts of a total that another table gives away. ``beside``: of each thing that
    the group was narrowed by, the same row of every group there is; the file of another group
    would say them, too. Where a number can be worked out from those, the whole row is hidden.

    >>> outside([20, 30])
    ['20', '30']
    >>> outside([20, 30], [[[20, 30], [2, 40]]])
    ['not shown', 'not shown']
    """
    for rows in beside:
        columns = zip(*rows, strict=True)
        if any(parts(column)[0] != [str(n) for n in column] for column in columns):
            return [NOT_SHOWN for _ in numbers]
    return parts(numbers)[0]


def nothing_hidden(numbers: Sequence[int], words: Sequence[str]) -> bool:
    """Whether nothing of ``numbers`` is hidden."""
    return [str(n) for n in numbers] == list(words)
