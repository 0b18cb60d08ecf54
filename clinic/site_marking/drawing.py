"""The abdomen as it is drawn: where each mark is, in the drawing's own coordinates."""

from __future__ import annotations

from dataclasses import dataclass

from clinic.patients.models import Site
from clinic.site_marking.models import MarkedSite

#: Navel, and steps from it to the edge, in the drawing's view box of 240 by 260.
NAVEL = (120, 130)
STEP = 1.0
#: A site with a quadrant alone is drawn in its middle, dashed.
MIDDLE = {
    Site.RIGHT_UPPER: (-45, 50),
    Site.LEFT_UPPER: (45, 50),
    Site.RIGHT_LOWER: (-45, -40),
    Site.LEFT_LOWER: (45, -40),
    Site.UMBILICAL: (0, 0),
}


@dataclass(frozen=True)
class Mark:
    """``cx`` and ``cy`` in the view box, the patient's left on the right. ``exact``: pressed on the
    drawing, not only a quadrant."""

    label: str
    cx: float
    cy: float
    exact: bool
    words: str

    @property
    def label_y(self) -> float:
        """The line its letter is written on, so that it lies in the middle."""
        return self.cy + 4


def mark_of(site: MarkedSite) -> Mark:
    exact = site.place_x is not None and site.place_y is not None
    x, y = (site.place_x, site.place_y) if exact else MIDDLE[Site(site.quadrant)]
    return Mark(
        label=site.rank,
        cx=NAVEL[0] + (x or 0) * STEP,
        cy=NAVEL[1] - (y or 0) * STEP,
        exact=exact,
        words=f"{site.get_rank_display()}: {site.place_words}",
    )
