"""The lines of a printed page as they lie on the paper: read from the PDF's content stream.

Path operators and the current transformation matrix as in ISO 32000-1, 8.3 and 8.5. Lengths come
out in mm from the top left of the page.
"""

import io
import math
from collections.abc import Iterator
from dataclasses import dataclass, field, replace
from functools import lru_cache
from typing import Any

from pypdf import PdfReader
from pypdf.generic import ContentStream

MM_PER_POINT = 25.4 / 72
Matrix = tuple[float, float, float, float, float, float]
Point = tuple[float, float]
IDENTITY: Matrix = (1, 0, 0, 1, 0, 0)
STROKES = frozenset({b"S", b"s", b"B", b"B*", b"b", b"b*"})
ENDS = STROKES | {b"f", b"F", b"f*", b"n"}
CURVE_STEPS = 24


@dataclass(frozen=True)
class Line:
    """One stroked path: ``parts`` its pieces, ``width`` and ``dash`` in mm."""

    parts: tuple[tuple[Point, ...], ...]
    width: float
    dash: tuple[float, ...]

    @property
    def points(self) -> tuple[Point, ...]:
        return tuple(point for part in self.parts for point in part)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, top, right, bottom."""
        xs, ys = [p[0] for p in self.points], [p[1] for p in self.points]
        return min(xs), min(ys), max(xs), max(ys)

    @property
    def size(self) -> tuple[float, float]:
        left, top, right, bottom = self.box
        return right - left, bottom - top

    @property
    def middle(self) -> Point:
        left, top, right, bottom = self.box
        return (left + right) / 2, (top + bottom) / 2


@dataclass(frozen=True)
class _State:
    matrix: Matrix = IDENTITY
    width: float = 1.0
    dash: tuple[float, ...] = ()


@dataclass
class _Reading:
    state: _State = field(default_factory=_State)
    stack: list[_State] = field(default_factory=list)
    parts: list[list[Point]] = field(default_factory=list)


@lru_cache(maxsize=128)
def lines(pdf: bytes, page: int = 0) -> tuple[Line, ...]:
    """Every stroked path of one page."""
    reader = PdfReader(io.BytesIO(pdf))
    sheet: Any = reader.pages[page]
    height = float(sheet.mediabox.height)
    flip: Matrix = (MM_PER_POINT, 0, 0, -MM_PER_POINT, 0, height * MM_PER_POINT)
    stream = ContentStream(sheet.get_contents(), reader)
    reading = _Reading(_State(matrix=flip))
    return tuple(_read(stream, sheet["/Resources"], reading, reader))


def page_size(pdf: bytes, page: int = 0) -> tuple[float, float]:
    box = PdfReader(io.BytesIO(pdf)).pages[page].mediabox
    return float(box.width) * MM_PER_POINT, float(box.height) * MM_PER_POINT


def _read(stream: Any, resources: Any, reading: _Reading, reader: PdfReader) -> Iterator[Line]:
    for operands, operator in stream.operations:
        if operator == b"Do":
            yield from _form(str(operands[0]), resources, reading, reader)
        elif operator in ENDS:
            if operator in STROKES and reading.parts:
                yield _line(reading)
            reading.parts = []
        else:
            _step(operator, operands, reading)


def _form(name: str, resources: Any, reading: _Reading, reader: PdfReader) -> Iterator[Line]:
    form = resources["/XObject"][name].get_object()
    if form["/Subtype"] != "/Form":
        return
    inner: Any = tuple(float(v) for v in form.get("/Matrix", IDENTITY))
    state = replace(reading.state, matrix=_times(inner, reading.state.matrix))
    own = form.get("/Resources", resources)
    yield from _read(ContentStream(form, reader), own, _Reading(state), reader)


def _line(reading: _Reading) -> Line:
    a, b, c, d, _, _ = reading.state.matrix
    scale = math.sqrt(abs(a * d - b * c))
    return Line(
        # A point moved to and never drawn from leaves nothing on the paper.
        parts=tuple(tuple(part) for part in reading.parts if len(part) > 1),
        width=reading.state.width * scale,
        dash=tuple(value * scale for value in reading.state.dash),
    )


def _step(operator: bytes, operands: Any, reading: _Reading) -> None:
    if operator == b"q":
        reading.stack.append(reading.state)
    elif operator == b"Q":
        reading.state = reading.stack.pop()
    elif operator == b"cm":
        matrix: Any = tuple(float(v) for v in operands)
        reading.state = replace(reading.state, matrix=_times(matrix, reading.state.matrix))
    elif operator == b"w":
        reading.state = replace(reading.state, width=float(operands[0]))
    elif operator == b"d":
        reading.state = replace(reading.state, dash=tuple(float(v) for v in operands[0]))
    elif operator in {b"m", b"l", b"c", b"re", b"h"}:
        _draw(operator, [float(v) for v in operands], reading)


def _draw(operator: bytes, v: list[float], reading: _Reading) -> None:
    place = reading.state.matrix
    if operator == b"m":
        reading.parts.append([_at(v[0], v[1], place)])
    elif operator == b"l":
        reading.parts[-1].append(_at(v[0], v[1], place))
    elif operator == b"c":
        start = reading.parts[-1][-1]
        controls = [start, *(_at(v[i], v[i + 1], place) for i in (0, 2, 4))]
        reading.parts[-1] += [_bezier(controls, i / CURVE_STEPS) for i in range(1, CURVE_STEPS + 1)]
    elif operator == b"re":
        x, y, w, h = v
        corners = ((x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y))
        reading.parts.append([_at(px, py, place) for px, py in corners])
    elif reading.parts:
        reading.parts[-1].append(reading.parts[-1][0])


def _bezier(p: list[Point], t: float) -> Point:
    weights = ((1 - t) ** 3, 3 * t * (1 - t) ** 2, 3 * t**2 * (1 - t), t**3)
    return (
        sum(w * q[0] for w, q in zip(weights, p, strict=True)),
        sum(w * q[1] for w, q in zip(weights, p, strict=True)),
    )


def _at(x: float, y: float, m: Matrix) -> Point:
    return m[0] * x + m[2] * y + m[4], m[1] * x + m[3] * y + m[5]


def _times(first: Matrix, then: Matrix) -> Matrix:
    """``first`` applied before ``then``."""
    a, b, c, d, e, f = first
    g, h, i, j, k, m = then
    return (
        a * g + b * i,
        a * h + b * j,
        c * g + d * i,
        c * h + d * j,
        e * g + f * i + k,
        e * h + f * j + m,
    )
