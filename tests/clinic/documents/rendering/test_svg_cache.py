"""Drawings from the cache look like new ones, on any page."""

import subprocess
from pathlib import Path
from typing import Any

import pytest

from clinic.documents.care_sheet.step_drawings import SHOWS
from clinic.documents.rendering import pdf as pdf_module
from clinic.documents.rendering.pdf import pdf_of

#: Colours that a drawing uses, too, come before and between: what a page happens to have set
#: must change nothing.
PAGE = (
    '<html lang="en"><head><title>x</title><style>@page {{ size: 60mm 90mm; margin: 5mm }} p '
    "{{ color: #111; border: 1pt solid #111 }} img {{ width: {width}mm }}</style></head><body>"
    '<p>a</p><img src="drawings/{name}.svg" alt="x"/><p style="color: #fff">b</p>'
    '<img src="drawings/{name}.svg" alt="y"/></body></html>'
)


def pixels(pdf: bytes, folder: Path) -> bytes:
    path = folder / "page.pdf"
    path.write_bytes(pdf)
    drawn = ["/usr/bin/env", "pdftoppm", "-r", "150", str(path)]
    return subprocess.run(drawn, capture_output=True, check=True).stdout


@pytest.mark.parametrize("name", SHOWS)
def test_a_drawing_from_memory_is_the_drawing(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pages = [PAGE.format(name=name, width=width) for width in (18, 40, 18)]
    remembered = [pixels(pdf_of(page), tmp_path) for page in pages]
    monkeypatch.setattr(pdf_module._press(), "plates", {})
    anew = [pixels(pdf_of(page), tmp_path) for page in pages]
    assert remembered == anew
    assert anew[0] != anew[1]
    bare = pixels(pdf_of(pages[0].replace(f"{name}.svg", "strip.svg")), tmp_path)
    assert name == "strip" or anew[0] != bare


@pytest.mark.parametrize("name", SHOWS)
def test_its_marks_need_nothing_that_belongs_to_one_page(name: str) -> None:
    """ISO 32000-1, table 51: no font (Tf), object (Do), pattern (scn) or shading (sh)."""
    pdf_of(PAGE.format(name=name, width=18))
    press: Any = pdf_module._press()
    plate = press.plates[f"{press.base}drawings/{name}.svg"]
    for marks in plate._marks.values():
        words = set(marks.operators.split())
        assert {b"q", b"Q", b"cm"} <= words
        assert not words & {b"Tf", b"Tj", b"Do", b"sh", b"scn", b"SCN", b"BDC"}
        assert marks.opacities


def test_every_drawing_of_ours_is_ready() -> None:
    press: Any = pdf_module._press()
    assert {address.rpartition("/")[2] for address in press.plates} == {f"{n}.svg" for n in SHOWS}
