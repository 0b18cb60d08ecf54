"""Colours, hatches and sizes of the trend's figure. Lengths are drawing units, 1 on a screen
being 1 px; on paper 1 px of CSS (1/96 inch)."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from types import MappingProxyType
from typing import Final

import matplotlib

# The same bytes for the same figure, text as text, and no one's own settings.
matplotlib.rcdefaults()
matplotlib.rcParams.update(
    {
        "svg.fonttype": "none",
        "svg.hashsalt": "trend",
        "font.family": ["DejaVu Sans"],  # comes with the library: the same layout everywhere
        "hatch.linewidth": 1.0,
        "path.simplify": False,
    }
)

FONT: Final = 12.0
SMALL: Final = 11.0
#: About how wide a letter of the small size is, for placing labels that must not collide.
LETTER: Final = 6.3
#: The same of the bold one of headings.
BOLD: Final = 7.3


@dataclass(frozen=True, slots=True)
class BarStyle:
    """How a barrier is drawn: told apart by shade and pattern, not by colour alone."""

    face: str
    edge: str
    hatch: str = ""
    dashed: bool = False


@dataclass(frozen=True, slots=True)
class Palette:
    """Colours of one medium. On a screen they are the light ones of ``static/css/tokens.css``, and
    ``tokens`` names each: the page's own are shown in their place, so also those for the dark."""

    ink: str
    soft: str
    grid: str
    band: str
    first: str
    second: str
    mark: str
    paper: str
    bars: Mapping[str, BarStyle]
    tokens: Mapping[str, str] = field(default_factory=dict)


#: Keys of ``bars``: why a barrier came off; "" is not recorded, "on" still worn.
STILL_ON: Final = "on"

SCREEN: Final = Palette(
    ink="#17262d",
    soft="#485a63",
    grid="#cfd8d9",
    band="#f2f5f4",
    first="#14505c",
    second="#a56a00",
    mark="#6a7b83",
    paper="#ffffff",
    bars=MappingProxyType(
        {
            "planned": BarStyle("#e2eff0", "#14505c"),
            "leak": BarStyle("#b3261e", "#b3261e"),
            "itch_or_pain": BarStyle("#fff3d3", "#5e3b00", "////"),
            "fell_off": BarStyle("#ffffff", "#17262d", "xxxx"),
            "": BarStyle("#ffffff", "#6a7b83", "----"),
            STILL_ON: BarStyle("#ffffff", "#14505c", dashed=True),
        }
    ),
    tokens=MappingProxyType(
        {
            "#17262d": "ink",
            "#485a63": "ink-soft",
            "#cfd8d9": "line",
            "#f2f5f4": "ground",
            "#14505c": "accent",
            "#a56a00": "warn-line",
            "#6a7b83": "line-strong",
            "#ffffff": "paper",
            "#e2eff0": "accent-wash",
            "#b3261e": "bad-line",
            "#fff3d3": "warn-wash",
            "#5e3b00": "warn-ink",
        }
    ),
)

#: Black and white, for a letter that is copied or faxed.
PAPER: Final = Palette(
    ink="#000000",
    soft="#333333",
    grid="#cccccc",
    band="#eeeeee",
    first="#000000",
    second="#555555",
    mark="#555555",
    paper="#ffffff",
    bars=MappingProxyType(
        {
            "planned": BarStyle("#dddddd", "#000000"),
            "leak": BarStyle("#222222", "#000000"),
            "itch_or_pain": BarStyle("#ffffff", "#000000", "////"),
            "fell_off": BarStyle("#ffffff", "#000000", "xxxx"),
            "": BarStyle("#ffffff", "#555555", "----"),
            STILL_ON: BarStyle("#ffffff", "#000000", dashed=True),
        }
    ),
)


@dataclass(frozen=True, slots=True)
class Medium:
    """Where the figure is to be shown: ``width`` in all, room for labels at both sides."""

    key: str
    width: float
    left: float
    right: float
    dates: int
    palette: Palette
    #: Whether the marks answer to pointer and keyboard, and the events are written out elsewhere.
    alive: bool = True
    #: Lines of event labels at most.
    lanes: int = 4

    @property
    def inner(self) -> float:
        """Width of the drawing between the labels."""
        return self.width - self.left - self.right


#: One panel of the page: as wide as a phone shows it, and a third of a desk's screen.
PANEL: Final = Medium("s", 340, 38, 10, 5, SCREEN, lanes=2)
SHEET: Final = Medium("p", 660, 44, 14, 8, PAPER, alive=False)
#: Beside the text of a letter.
COLUMN: Final = Medium("p", 336, 38, 10, 4, PAPER, alive=False)
