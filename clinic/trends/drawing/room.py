"""What is free in a panel: words go where no mark and no other words are."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, field

#: Left, bottom, right and top, in drawing units.
Box = tuple[float, float, float, float]


@dataclass
class Room:
    """The boxes that are ``taken``; those of ``lines`` only where there is another place."""

    taken: list[Box] = field(default_factory=list)
    lines: list[Box] = field(default_factory=list)

    def is_free(self, box: Box) -> bool:
        """Whether nothing taken reaches into ``box``."""
        return not any(overlap(box, other) for other in self.taken)

    def first_free(self, boxes: Iterable[Box]) -> Box | None:
        """The first of ``boxes`` that is free, taken from now on; None: there is none."""
        free = [box for box in boxes if self.is_free(box)]
        clear = (box for box in free if not any(overlap(box, line) for line in self.lines))
        found = next(clear, free[0] if free else None)
        if found is not None:
            self.taken.append(found)
        return found


def overlap(one: Box, other: Box) -> bool:
    """Whether two boxes share more than an edge."""
    return one[0] < other[2] and other[0] < one[2] and one[1] < other[3] and other[1] < one[3]
