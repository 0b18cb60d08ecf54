"""The day's sheets: time a sheet against static text of as many pages, memory while joining.

    .venv/bin/python -m tests.benchmarks.day_sheets --sheets 200

Needs no database: sheets are made of worked words. The floor is what WeasyPrint itself takes for
the same number of pages of plain paragraphs in the same style.
"""

from __future__ import annotations

import argparse
import os
import tempfile
import time
import tracemalloc
from dataclasses import replace


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--sheets", type=int, default=200)
    sheets: int = parser.parse_args().sheets
    os.environ.setdefault("CLINIC_MODE", "test")
    os.environ.setdefault("DATABASE_URL", "postgresql:///unused")
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "clinic.settings")
    import django

    django.setup()
    _run(sheets)


def _run(sheets: int) -> None:
    from clinic.documents.joining import Joining
    from clinic.documents.pdf import pdf_of
    from clinic.documents.views import html_of
    from tests.clinic.documents.conftest import SHEET
    from tests.clinic.documents.paper import reader

    html = html_of(SHEET)
    pages = len(reader(pdf_of(html)).pages)
    static = _static(pages)
    spent = {"sheet": 0.0, "floor": 0.0}
    peaks: list[int] = []
    with tempfile.TemporaryFile() as out:
        joining = Joining(out, title="All")
        for number in range(sheets):
            who = replace(SHEET.who, record_number=f"T{number:06d}")
            began = time.perf_counter()
            part = pdf_of(html_of(replace(SHEET, who=who)))
            middle = time.perf_counter()
            pdf_of(static)
            spent["sheet"] += middle - began
            spent["floor"] += time.perf_counter() - middle
            tracemalloc.start()
            joining.add(part)
            peaks.append(tracemalloc.get_traced_memory()[1])
            tracemalloc.stop()
        joining.finish()
        size = out.tell()
    ratio = spent["sheet"] / spent["floor"]
    print(f"{sheets} sheets of {pages} pages, {size / 1e6:.1f} MB in one file")
    print(
        f"a sheet {spent['sheet'] / sheets * 1000:.0f} ms, static text of as many pages "
        f"{spent['floor'] / sheets * 1000:.0f} ms, ratio {ratio:.2f}"
    )
    first, last = peaks[min(1, sheets - 1)], peaks[-1]
    print(
        f"peak of joining one sheet: the second {first / 1e6:.2f} MB, the last {last / 1e6:.2f} MB"
    )


def _static(pages: int) -> str:
    from clinic.documents.pdf import pdf_of
    from tests.clinic.documents.paper import reader

    words = "<p>Wash your hands. Peel from the top down. Write down the date of the change.</p>"
    for many in range(10, 400, 5):
        html = (
            '<!doctype html><html lang="en"><head><meta charset="utf-8"><title>Text</title>'
            '<link rel="stylesheet" href="css/sheet.css"></head>'
            f'<body class="a4-low normal">{words * many}</body></html>'
        )
        if len(reader(pdf_of(html)).pages) >= pages:
            return html
    raise ValueError("The floor never grew to as many pages.")


if __name__ == "__main__":
    main()
