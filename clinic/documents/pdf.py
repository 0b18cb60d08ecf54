"""HTML to PDF: the one place that calls WeasyPrint.

Addresses in the HTML are relative to the static folder (``css/sheet.css``).
"""

from collections.abc import Sequence
from typing import Any

#: Accessible PDF, ISO 14289-1: tags, language and title. WeasyPrint writes what it asks for;
#: nobody but a checker of the standard can say that a file meets all of it.
VARIANT = "pdf/ua-1"


class PrintingUnavailable(Exception):  # noqa: N818 - a state of this machine, told on a page
    """No PDF can be made here; the message says why in words for the page."""


def pdf_of(html: str) -> bytes:
    """The PDF of a whole HTML page that names its language and title.

    Raises ``PrintingUnavailable`` where WeasyPrint, Pango or a style sheet is missing.
    """
    return _pdf(_set(html))


def one_page(fuller_first: Sequence[str]) -> bytes:
    """The PDF of the fullest of these pages that fits on one sheet.

    Each holds no more than the one before it, so halving finds it in few settings. Raises
    ``ValueError`` where none fits, else as ``pdf_of``.
    """
    fits: dict[int, Any] = {}
    low, high = 0, len(fuller_first)
    middle = 0  # most letters fit as they are
    while low < high:
        document = _set(fuller_first[middle])
        if len(document.pages) == 1:
            fits[middle], high = document, middle
        else:
            low = middle + 1
        middle = (low + high) // 2
    if high not in fits:
        raise ValueError("No version of this document fits on one page.")
    return _pdf(fits[high])


def _set(html: str) -> Any:
    html_class, fetcher, fatal = _printer()
    try:
        page = html_class(string=html, base_url=_base(), url_fetcher=fetcher)
        return page.render(pdf_variant=VARIANT, pdf_tags=True)
    except fatal as missing:
        raise PrintingUnavailable(
            "A file that belongs to this program is missing, so the sheet cannot be set."
        ) from missing


def _pdf(document: Any) -> bytes:
    return bytes(document.write_pdf(pdf_variant=VARIANT, pdf_tags=True))


def _base() -> str:
    from clinic.documents.fetcher import static_folder

    return f"{static_folder().as_uri()}/"


def _printer() -> tuple[Any, Any, type[BaseException]]:
    try:
        return _load()
    except (ImportError, OSError) as missing:
        raise PrintingUnavailable(
            "The program that makes PDF pages (WeasyPrint, with the Pango library) is not "
            "installed on this server."
        ) from missing


def _load() -> tuple[Any, Any, type[BaseException]]:
    """Imported here: without Pango the import itself fails, and the rest must still run."""
    from weasyprint import HTML
    from weasyprint.urls import FatalURLFetchingError

    from clinic.documents.fetcher import ClosedFetcher

    return HTML, ClosedFetcher(), FatalURLFetchingError
