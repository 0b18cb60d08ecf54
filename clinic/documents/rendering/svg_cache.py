"""Drawings that many sheets share, cached as PDF operators. This saves some 30 ms of the 190 ms
that a full sheet takes (``tests/benchmarks/made_sheets.py``, processor time).

Imports WeasyPrint: only ``pdf.Press`` imports this, where it may fail.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

from weasyprint.images import SVGImage
from weasyprint.urls import URLFetcher

#: A mark that calls for an entry of the page's own list of opacities.
_OPACITY = re.compile(rb"/([aA][\d.]+) gs")


@dataclass(frozen=True)
class Marks:
    """What a drawing leaves on a page: operators of its content, opacities they call by name."""

    operators: bytes
    opacities: tuple[str, ...]


class CachedSvg:
    """One drawing of lines and plain fills, without letters, patterns or gradients: its marks
    need nothing else of the page but opacities. What WeasyPrint asks of an image, and no more."""

    def __init__(self, image: SVGImage) -> None:
        self._image = image
        self._marks: dict[tuple[float, float], Marks] = {}

    def get_intrinsic_size(self, *resolution_and_font: float) -> tuple[Any, Any, Any]:
        """Width, height (CSS pixels) and their ratio; None where the drawing does not say."""
        size: tuple[Any, Any, Any] = self._image.get_intrinsic_size(*resolution_and_font)
        return size

    def draw(self, stream: Any, width: float, height: float, style: Any) -> None:
        """On a page, in CSS pixels."""
        marks = self._marks.get((width, height))
        if marks is None:
            # On a page of its own, or a colour that this page happens to have would go unsaid.
            apart = stream.clone(stream=[])
            self._image.draw(apart, width, height, style)
            operators = b"\n".join(_bytes(one) for one in apart.stream)
            named = sorted({one.decode() for one in _OPACITY.findall(operators)})
            marks = self._marks[width, height] = Marks(operators, tuple(named))
        for name in marks.opacities:
            stream.set_alpha(_opacity(name), stroke=name[0] == "A")
        stream.stream.append(marks.operators)


def _bytes(one: bytes | str) -> bytes:
    return one if isinstance(one, bytes) else one.encode()


def _opacity(name: str) -> float:
    """As WeasyPrint wrote it: ``A1`` is a stroke's opacity of 1, ``a0.5`` a fill's of a half."""
    return int(name[1:]) if name[1:].isdigit() else float(name[1:])


def cached_svgs(folder: Path, base_url: str, fetcher: URLFetcher) -> dict[str, CachedSvg]:
    """The drawings of ``folder`` by their addresses."""
    found = {}
    for path in sorted(folder.glob("*.svg")):
        tree = ElementTree.parse(path).getroot()  # noqa: S314 - a file of our own
        url = f"{base_url}{folder.name}/{path.name}"
        found[url] = CachedSvg(SVGImage(tree, url, fetcher, None))
    return found
