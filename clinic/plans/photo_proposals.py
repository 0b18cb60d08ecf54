"""What the computer proposes on a photo, for the nurse to check: corners of a card, the edge.

``clinic.photo_reading`` sees shapes; whether one can be a card is the planner's to say, from the
same check that reads the nurse's own marks.
"""

from __future__ import annotations

from dataclasses import dataclass
from threading import Lock
from typing import TYPE_CHECKING, Any, Final

import numpy as np
from django import forms
from django.core import signing

from planning.geometry.photo_card import read_card
from planning.geometry.photo_marks import POINTER_PX, PhotoError

if TYPE_CHECKING:
    from clinic.photo_reading.card import Sides
    from clinic.photo_reading.pixels import Points, Seen

CARD, EDGE = "card", "outline"
#: Never surer than a mark that a hand placed on the picture at its full size (design value).
LEAST_WIDE: Final = 1.0
#: Two things that may both be the card, the second so clear beside the first, are asked about.
ALSO_CLEAR: Final = 0.5

NO_CARD = "No card was found for sure. Mark its four corners by hand."
TWO_CARDS = "More than one thing here could be the card. Mark its four corners by hand."
NO_EDGE = (
    "The stoma's edge was not found for sure. Mark it by hand, or set one point in the stoma's "
    "middle and let the computer look again."
)
NO_EDGE_HERE = "The edge round this point was not found for sure. Mark it by hand."
UNREADABLE = "The computer could not look at this picture. Mark by hand."

#: One picture is looked at at a time, so that many at once cannot use up the memory.
_looking = Lock()
_SALT: Final = "what the computer proposed on a photo"


class ProposeForm(forms.Form):
    """What the page asks for; ``x`` and ``y`` where the stoma's middle was pressed, if it was."""

    what = forms.ChoiceField(choices=[(CARD, CARD), (EDGE, EDGE)])
    x = forms.FloatField(required=False, min_value=0)
    y = forms.FloatField(required=False, min_value=0)

    @property
    def near(self) -> tuple[float, float] | None:
        x, y = (self.cleaned_data[name] for name in ("x", "y"))
        return None if x is None or y is None else (x, y)


@dataclass(frozen=True)
class Proposal:
    """Points as the page draws them ([x, y, wide]), none where ``words`` say why."""

    points: list[list[float]]
    words: str = ""


def propose(image: bytes, what: str, near: tuple[float, float] | None) -> Proposal:
    """``what``: the card's corners or the stoma's edge; ``near`` its middle, where pressed."""
    from clinic.photo_reading.pixels import NotReadable, seen, unpacked  # slow to load
    from clinic.photo_reading.stoma import stoma_edge

    with _looking:
        try:
            picture = seen(unpacked(image))
        except NotReadable:
            return Proposal([], UNREADABLE)
        found = _cards(picture)
        if what == CARD:
            return _corners(found)
        edge = stoma_edge(
            picture,
            near=None if near is None else np.array(near),
            without=found[0].corners if found else None,
        )
    if edge is None:
        return Proposal([], NO_EDGE if near is None else NO_EDGE_HERE)
    return Proposal(_drawn(edge.points, edge.off))


def _cards(picture: Seen) -> list[Sides]:
    from clinic.photo_reading.card import cards

    sds = np.full(4, POINTER_PX * LEAST_WIDE)

    def fits(corners: Points) -> bool:
        try:
            read_card(corners, sds, picture.size)
        except PhotoError:
            return False
        return True

    return cards(picture, fits)


def _corners(found: list[Sides]) -> Proposal:
    if not found:
        return Proposal([], NO_CARD)
    if len(found) > 1 and found[1].clear > ALSO_CLEAR * found[0].clear:
        return Proposal([], TWO_CARDS)
    return Proposal(_drawn(found[0].corners, found[0].off))


def _drawn(points: Points, off: float) -> list[list[float]]:
    wide = round(max(LEAST_WIDE, off / POINTER_PX), 2)
    return [[round(float(x), 2), round(float(y), 2), wide] for x, y in points]


def signed(photo: object, what: str, points: list[list[float]]) -> str:
    """The proposal as the page keeps it: what is stored later as proposed was proposed here."""
    return signing.dumps([str(photo), what, points], salt=_SALT, compress=True)


def opened(photo: object, what: str, token: Any) -> list[list[float]]:
    """The points of a proposal for this photo. Raises ``ValueError`` for anything else."""
    try:
        of, kind, points = signing.loads(str(token), salt=_SALT)
    except signing.BadSignature as error:
        raise ValueError from error
    if (of, kind) != (str(photo), what):
        raise ValueError
    return list(points)
