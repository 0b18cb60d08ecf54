"""The day's care sheets: time a sheet beside static text of as many pages, memory while joining.

    python -m tests.benchmarks.papers [--sheets 200]

Needs no database. Every sheet is somebody else's, so none comes from the store. Beside it, in the
same run and turn by turn, as many pages filled with the sheet's own sentences as plain paragraphs,
in the same fonts and with the same style sheet: set by WeasyPrint as its manual says, and set by
our press, which keeps fonts and style sheets and reads pages as XML.
"""

from __future__ import annotations

import argparse
import gc
import os
import tempfile
import time
import tracemalloc
from dataclasses import dataclass, field
from pathlib import Path
from statistics import median

AT = (50, 100, 200)


@dataclass
class Spent:
    """Seconds of processor time, one figure a document."""

    html: list[float] = field(default_factory=list)
    sheet: list[float] = field(default_factory=list)
    plain: list[float] = field(default_factory=list)
    pressed: list[float] = field(default_factory=list)
    joining: list[float] = field(default_factory=list)


def main() -> None:
    """Measures and prints."""
    parser = argparse.ArgumentParser(description=(__doc__ or "").splitlines()[0])
    parser.add_argument("--sheets", type=int, default=200)
    sheets: int = parser.parse_args().sheets
    os.environ.setdefault("CLINIC_MODE", "test")
    os.environ.setdefault("DATABASE_URL", "postgresql:///unused")
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
    import django

    django.setup()
    run(sheets)


def run(sheets: int) -> None:
    """One file of ``sheets`` sheets; then as many, each beside a document of static text."""
    from clinic.documents.care_sheet.density import most_pages
    from clinic.documents.care_sheet.pages import pages_of
    from clinic.documents.rendering.pdf import fitting, pdf_of
    from clinic.documents.rendering.pdf_merge import PdfMerge
    from tests.benchmarks.made_sheets import full_sheet
    from tests.clinic.documents.paper import reader

    most = most_pages(full_sheet(0))
    pages = len(reader(fitting(pages_of(full_sheet(0)), at_most=most)).pages)
    paragraphs = _filling(pages)
    print(f"{sheets} sheets of {pages} pages; beside: {paragraphs} paragraphs on as many pages")
    spent = Spent()
    with tempfile.TemporaryFile() as out:
        joining = PdfMerge(out, title="All")
        for number in range(1, sheets + 1):
            clock = _Clock()
            tried = pages_of(full_sheet(number))
            clock.lap(spent.html)
            part = fitting(tried, at_most=most)
            clock.lap()
            joining.add(part)
            clock.lap(spent.joining)
            if number in AT:
                _memory(number)
        joining.finish()
        print(f"one file of {out.tell() / 1e6:.1f} MB")
    # Apart: WeasyPrint alone looks its fonts up again each time, and keeps some of what it finds.
    for number in range(1, sheets + 1):
        tried, text = pages_of(full_sheet(number)), static(paragraphs, number)
        clock = _Clock()
        fitting(tried, at_most=most)
        clock.lap(spent.sheet)
        pdf_of(text)
        clock.lap(spent.pressed)
        by_the_manual(text)
        clock.lap(spent.plain)
    _time(spent)
    _traced(joining_of=min(sheets, 40))


class _Clock:
    """Laps of processor time, seconds."""

    def __init__(self) -> None:
        self._began = time.process_time()

    def lap(self, into: list[float] | None = None) -> None:
        now = time.process_time()
        if into is not None:
            into.append(now - self._began)
        self._began = time.process_time()


def by_the_manual(html: str) -> bytes:
    """WeasyPrint without our press: fonts looked up and the style sheet read for each page."""
    from weasyprint import HTML

    from clinic.documents.rendering.pdf import VARIANT
    from clinic.documents.rendering.url_fetcher import static_folder

    page = HTML(string=html, base_url=f"{static_folder().as_uri()}/")
    return bytes(page.write_pdf(pdf_variant=VARIANT, pdf_tags=True))


def _time(spent: Spent) -> None:
    sheet = median(spent.sheet)
    print(f"median of a sheet {sheet * 1000:.0f} ms")
    for beside, name in ((spent.plain, "by WeasyPrint alone"), (spent.pressed, "by our press")):
        print(
            f"static text {name} {median(beside) * 1000:.0f} ms, "
            f"ratio {sheet / median(beside):.2f} (aim 1.3)"
        )
    print(
        f"besides: its HTML {median(spent.html) * 1000:.0f} ms, joining "
        f"{median(spent.joining) * 1000:.0f} ms"
    )


def _memory(number: int) -> None:
    """What the process holds, from the system's own books."""
    gc.collect()
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    print(f"after {number} sheets: {pages * os.sysconf('SC_PAGE_SIZE') / 1e6:.0f} MB in memory")


def _traced(joining_of: int) -> None:
    """Peak of Python's own memory while joining: with as many sheets and with four times that."""
    from clinic.documents.care_sheet.pages import html_of
    from clinic.documents.rendering.pdf import pdf_of
    from clinic.documents.rendering.pdf_merge import PdfMerge
    from tests.benchmarks.made_sheets import full_sheet

    part = pdf_of(html_of(full_sheet(0)))
    for times in (joining_of, 4 * joining_of):
        with tempfile.TemporaryFile() as out:
            tracemalloc.start()
            joining = PdfMerge(out, title="All")
            for _ in range(times):
                joining.add(part)
            joining.finish()
            print(f"joining {times}: peak {tracemalloc.get_traced_memory()[1] / 1e6:.1f} MB")
            tracemalloc.stop()


def static(paragraphs: int, number: int) -> str:
    """Plain paragraphs of the sheet's own sentences, as close as the sheet is set."""
    from clinic.documents.care_sheet.density import spacings
    from tests.benchmarks.made_sheets import full_sheet

    sheet = full_sheet(number)
    lines = [step.words for step in sheet.steps]
    lines += [line.words for use in sheet.uses for line in use.lines]
    lines += [line for group in sheet.call for line in group.lines]
    text = "".join(f"<p>{lines[at % len(lines)]}</p>" for at in range(paragraphs))
    return (
        f'<!DOCTYPE html><html class="{spacings(sheet)[0]}" lang="en"><head>'
        f'<meta charset="utf-8"/><title>Text {number}</title>'
        '<link rel="stylesheet" href="css/sheet.css"/></head>'
        f'<body class="a4-low normal"><h1>{sheet.who.name}</h1>{text}</body></html>'
    )


def _filling(pages: int) -> int:
    """As many paragraphs as fit on ``pages`` pages."""
    from clinic.documents.rendering.pdf import pdf_of
    from tests.clinic.documents.paper import reader

    fits, over = 1, 200 * pages
    while over - fits > 1:
        middle = (fits + over) // 2
        if len(reader(pdf_of(static(middle, 0))).pages) <= pages:
            fits = middle
        else:
            over = middle
    return fits


if __name__ == "__main__":
    main()
