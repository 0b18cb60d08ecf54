"""From the drawing library's file to markup for a page.

The content policy allows no style of its own inside a page, so every declaration becomes the
attribute of the same name. Marks get their words, and what pointer and keyboard need. Names are
made unlike those of the page's other figures.
"""

from __future__ import annotations

import re
import xml.etree.ElementTree as ET
from collections.abc import Iterator, Mapping, Sequence

from clinic.plans.course_results import PANELS
from clinic.trends.drawing.events import ECHO
from clinic.trends.drawing.style import Medium, Palette
from clinic.trends.tracks import Mark, Track

SVG = "http://www.w3.org/2000/svg"
XLINK = "{http://www.w3.org/1999/xlink}href"
#: How near a pointer has to come.
HIT = 12
#: Which side of its day a channel's mark is on, where two share a panel.
SIDE = {
    channel.key: side
    for panel in PANELS
    if len(panel.channels) == 2
    for channel, side in zip(panel.channels, (-1, 1), strict=True)
}
_POINT = re.compile(r"-?\d+(?:\.\d+)?")
_REFERENCE = re.compile(r"url\(#([^)]+)\)")
_GROUP = re.compile(r"^track-(\w+)$")
_SINGLE = re.compile(r"^(bars|faces|separation|bulge)-(\d+)$")


def tag(name: str) -> str:
    """A name in SVG's own space."""
    return f"{{{SVG}}}{name}"


def tidy(
    raw: str,
    tracks: Mapping[str, Track],
    medium: Medium,
    title: str,
    *,
    prefix: str = "",
    echoes: Sequence[str] = (),
) -> str:
    """The finished markup, without a prolog. ``prefix``: of its names, if not the medium's;
    ``echoes``: the words of events that are marks of another drawing."""
    root = ET.fromstring(raw)  # noqa: S314 - the drawing library's own output
    _drop(root)
    marks = list(_marks(root, tracks))
    repeated = [
        use for g in root.iter(tag("g")) if g.get("id") == ECHO for use in g.iter(tag("use"))
    ]
    for element in root.iter():
        _plain(element)
        _coloured(element, medium.palette)
        _rename(element, prefix or medium.key)
    for element, words in zip(repeated, echoes, strict=True):
        _echo(element, words)
    if medium.alive:
        for element, track, number in marks:
            _enliven(element, track, number)
    _head(root, medium, title)
    return written(root)


def written(root: ET.Element) -> str:
    """Markup whose names have no prefix. Prefixes are the whole process's, and not ours alone."""
    for element in root.iter():
        element.tag = element.tag.removeprefix(tag(""))
    root.set("xmlns", SVG)
    return ET.tostring(root, encoding="unicode")


def _drop(root: ET.Element) -> None:
    """Take out the file's data about itself and its style sheet."""
    for child in list(root):
        if child.tag == tag("metadata") or child.find(tag("style")) is not None:
            root.remove(child)


def _plain(element: ET.Element) -> None:
    """Declarations to attributes; text takes the type of its page."""
    for declaration in (element.attrib.pop("style", "")).split(";"):
        name, _, value = declaration.partition(":")
        if value and name.strip() != "font-family":
            element.set(name.strip(), value.strip().removesuffix("px"))
    element.set("transform", element.get("transform", "").replace("rotate(-0 ", "rotate(0 "))
    if not element.get("transform") or element.get("transform", "").startswith("rotate(0 "):
        del element.attrib["transform"]


def _coloured(element: ET.Element, palette: Palette) -> None:
    """The page's own colours, by their names, where the medium is a page."""
    for attribute in ("fill", "stroke"):
        if token := palette.tokens.get(element.get(attribute, "")):
            element.set(attribute, f"var(--{token})")


def _rename(element: ET.Element, prefix: str) -> None:
    """Names of this figure alone; those that nothing refers to are left out."""
    name = element.attrib.pop("id", "")
    if name and element.tag != tag("g"):
        element.set("id", f"{prefix}-{name}")
    if XLINK in element.attrib:
        element.set("href", f"#{prefix}-{element.attrib.pop(XLINK)[1:]}")
    for attribute, value in list(element.attrib.items()):
        if "url(#" in value:
            element.set(attribute, _REFERENCE.sub(rf"url(#{prefix}-\1)", value))


def _marks(
    root: ET.Element, tracks: Mapping[str, Track]
) -> Iterator[tuple[ET.Element, Track, int]]:
    """Every drawn datum with what it stands for, in the order of the data."""
    for group in root.iter(tag("g")):
        name = group.get("id", "")
        if found := _GROUP.match(name):
            track = tracks[found[1]]
            uses = list(group.iter(tag("use")))
            if len(uses) != len(track.marks):
                raise ValueError(f"{track.key}: {len(uses)} drawn of {len(track.marks)}")
            for number, use in enumerate(uses):
                yield use, track, number
        elif found := _SINGLE.match(name):
            yield group, tracks[found[1]], int(found[2])


def _enliven(element: ET.Element, track: Track, number: int) -> None:
    """Wrap a mark with its words and a generous place to touch."""
    mark = track.marks[number]
    inner = ET.Element(element.tag, element.attrib)
    inner.extend(list(element))
    for child in list(element):
        element.remove(child)
    element.attrib.clear()
    element.tag = tag("g")
    for name, value in _described(track, mark, number).items():
        element.set(name, value)
    ET.SubElement(element, tag("title")).text = mark.words
    element.append(inner)
    if track.key != "bars":
        x, y = centre(inner)
        # Two halves of one mark are each met on their own side.
        beside = SIDE.get(track.key, 0) * HIT / 2
        radius = HIT / 2 + 1 if beside else HIT
        hit = {"class": "trend-hit", "cx": f"{x + beside:g}", "cy": f"{y:g}", "r": f"{radius:g}"}
        hit["fill"] = "none"
        ET.SubElement(element, tag("circle"), hit)


def _echo(element: ET.Element, words: str) -> None:
    """Words for a pointer that rests on it; keys and readers have the mark itself."""
    inner = ET.Element(element.tag, element.attrib)
    element.attrib.clear()
    element.tag = tag("g")
    element.set("class", "trend-echo")
    element.set("aria-hidden", "true")
    ET.SubElement(element, tag("title")).text = words
    element.append(inner)


def _described(track: Track, mark: Mark, number: int) -> dict[str, str]:
    return {
        "class": "trend-mark",
        "data-track": track.key,
        "data-number": str(number),
        "data-day": mark.day.isoformat(),
        "data-value": "" if mark.number is None else f"{mark.number:g}",
        "role": "img",
    }


def centre(element: ET.Element) -> tuple[float, float]:
    """Where a mark is, in drawing units from the upper left."""
    if element.get("x") is not None:
        return float(element.get("x", 0)), float(element.get("y", 0))
    path = element if element.tag == tag("path") else element.find(f".//{tag('path')}")
    if path is None:
        raise ValueError("A mark without a shape.")
    numbers = [float(n) for n in _POINT.findall(path.get("d", ""))]
    xs, ys = numbers[::2], numbers[1::2]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def _head(root: ET.Element, medium: Medium, title: str) -> None:
    """Size, and the description for a screen reader."""
    for side in ("width", "height"):
        root.set(side, root.get(side, "").removesuffix("pt"))
    root.set("stroke-linejoin", "round")
    root.set("class", "trend-svg")
    if medium.alive:
        root.set("role", "group")
    else:
        root.set("role", "img")
        root.set("font-family", "sans-serif")
        # What a PDF says of the picture; a page would show it under the pointer.
        named = ET.Element(tag("title"))
        named.text = title
        root.insert(0, named)
    root.set("aria-label", title)
