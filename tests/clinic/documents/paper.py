"""A printed PDF read back: its text, fonts, sizes and tags, and the places of words."""

import io
import re
import subprocess
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

from pypdf import PageObject, PdfReader


@dataclass(frozen=True)
class Run:
    """A run of text and its size in points as it lies on the paper."""

    words: str
    points: float


@dataclass(frozen=True)
class Box:
    """A word's edges in points from the top left of a page of this size."""

    word: str
    left: float
    top: float
    right: float
    bottom: float
    page_width: float
    page_height: float


def reader(pdf: bytes) -> PdfReader:
    return PdfReader(io.BytesIO(pdf))


def page_texts(pdf: bytes) -> list[str]:
    """Text of each page, spaces evened out, as poppler's pdftotext reads it."""
    return [" ".join(page.split()) for page in _told("-raw", pdf=pdf).split("\f")[:-1]]


def whole_text(pdf: bytes) -> str:
    return " ".join(page_texts(pdf))


def runs(page: PageObject) -> list[Run]:
    """Every run of text on a page."""
    found: list[Run] = []

    def visit(words: str, cm: list[float], tm: list[float], _font: Any, size: float) -> None:
        if words.strip():
            found.append(Run(words.strip(), abs(size * tm[3] * cm[3])))

    page.extract_text(visitor_text=visit)
    return found


def fonts(pdf: bytes) -> set[str]:
    """Names of the fonts used, without the prefix of a subset."""
    names: set[str] = set()
    for page in reader(pdf).pages:
        resources: Any = page["/Resources"]
        for font in resources.get("/Font", {}).values():
            names.add(str(font.get_object()["/BaseFont"]).split("+")[-1].lstrip("/"))
    return names


def structure(pdf: bytes) -> list[dict[str, Any]]:
    """The elements of the tag tree, in reading order."""
    catalogue: Any = reader(pdf).trailer["/Root"]
    found: list[dict[str, Any]] = []
    _walk(catalogue["/StructTreeRoot"], found)
    return found


def _walk(node: Any, found: list[dict[str, Any]]) -> None:
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, list):
        for child in node:
            _walk(child, found)
    elif isinstance(node, dict):
        if "/S" in node:
            found.append(node)
        if "/K" in node:
            _walk(node["/K"], found)


def nested(pdf: bytes) -> set[tuple[str, str]]:
    """Which kind of element is directly inside which, as (outer, inner)."""
    return {
        (str(one["/P"].get_object().get("/S", "")).lstrip("/"), str(one["/S"]).lstrip("/"))
        for one in structure(pdf)
    }


def tags(pdf: bytes) -> list[str]:
    return [str(element["/S"]).lstrip("/") for element in structure(pdf)]


_PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', re.DOTALL)
_WORD = re.compile(
    r'<word xMin="([\d.-]+)" yMin="([\d.-]+)" xMax="([\d.-]+)" yMax="([\d.-]+)">(.*?)</word>'
)


def boxes(pdf: bytes, folder: Path) -> list[Box]:
    """Where every word is, as poppler's pdftotext has it."""
    told = _told("-bbox", pdf=pdf)
    found: list[Box] = []
    for width, height, inside in _PAGE.findall(told):
        for left, top, right, bottom, word in _WORD.findall(inside):
            edges = (float(left), float(top), float(right), float(bottom))
            found.append(Box(word, *edges, float(width), float(height)))
    return found


@lru_cache(maxsize=64)
def _told(how: str, *, pdf: bytes) -> str:
    told = subprocess.run(
        ["/usr/bin/env", "pdftotext", how, "-", "-"], input=pdf, capture_output=True, check=True
    )
    return told.stdout.decode()
