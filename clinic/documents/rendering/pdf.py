"""HTML to PDF: the one place that calls WeasyPrint.

Addresses in the HTML are relative to the static folder (``css/sheet.css``). The same HTML gives
the same bytes in every process: no date and no identifier is put in.
"""

import re
import threading
from collections.abc import Sequence
from typing import Any
from xml.etree.ElementTree import ParseError

from clinic.documents.rendering.missing_glyphs import MissingGlyphs, no_font_for
from clinic.documents.rendering.turns import turn
from clinic.documents.rendering.unavailable import PrintingUnavailable

#: Accessible PDF, ISO 14289-1: tags, language and title. WeasyPrint writes most of what it asks
#: for, ``tag_tree`` the rest; only a checker of the standard can say that a file meets all of it.
VARIANT = "pdf/ua-1"
NOT_INSTALLED = (
    "The program that makes PDF pages (WeasyPrint, with the Pango library) is not installed on "
    "this server."
)
NO_FONTS = "No font is installed on this server, so every letter would print as an empty box."
#: Only style sheets of our own, written this way, are read once and kept.
_SHEET = re.compile(r'\s*<link rel="stylesheet" href="(css/[a-z-]+\.css)"\s?/?>')


def pdf_of(html: str) -> bytes:
    """The PDF of a whole HTML page that names its language and title.

    Raises ``PrintingUnavailable`` where WeasyPrint, Pango, a style sheet or a font is missing,
    ``PrintingBusy`` where too many papers are asked for at once.
    """
    with turn():
        return _pdf(_set(html))


def fitting(roomiest_first: Sequence[str], *, at_most: int = 1) -> bytes:
    """The PDF of the first of these pages that takes no more than ``at_most`` sheets of paper;
    where none does, the last on as many as it takes: what may not be cut is not.

    Each takes no more room than the one before it. Most fit as they are or nearly, so it is looked
    for in growing strides, then halved. Raises as ``pdf_of``, and ``ValueError`` where there are
    none.
    """
    if not roomiest_first:
        raise ValueError("Nothing to set.")
    with turn():
        return _pdf(_first_that_fits(roomiest_first, at_most))


def _first_that_fits(roomiest_first: Sequence[str], at_most: int) -> Any:
    last = len(roomiest_first) - 1
    fits: dict[int, Any] = {}
    low, high, at, stride = 0, last + 1, 0, 1
    while low < high:
        document = _set(roomiest_first[at])
        if len(document.pages) <= at_most or at == last:
            fits[at], high = document, at
        else:
            low = at + 1
        if fits:
            at = (low + high) // 2
        else:
            at, stride = min(low + stride - 1, last), 2 * stride
    return fits[high]


class Press:
    """WeasyPrint with what is the same for every page: fonts, style sheets and drawings ready.

    Looking fonts up takes 5 ms, reading the sheet's styles 30 ms; setting a full sheet, 190 ms.
    """

    def __init__(self) -> None:
        """Imported here: without Pango the import itself fails, and the rest must still run."""
        from weasyprint import CSS, HTML
        from weasyprint.text.fonts import FontConfiguration
        from weasyprint.urls import FatalURLFetchingError

        from clinic.documents.rendering.svg_cache import cached_svgs
        from clinic.documents.rendering.tag_tree import complete
        from clinic.documents.rendering.url_fetcher import ClosedFetcher, static_folder
        from clinic.documents.rendering.xhtml_page import XhtmlPage

        self.html, self.css, self.fetcher = HTML, CSS, ClosedFetcher()
        self.written = XhtmlPage
        self.complete = complete
        self.fatal: type[BaseException] = FatalURLFetchingError
        self.fonts = FontConfiguration()
        self.base = f"{static_folder().as_uri()}/"
        self.sheets: dict[str, Any] = {}
        self.plates = cached_svgs(static_folder() / "drawings", self.base, self.fetcher)

    @property
    def has_fonts(self) -> bool:
        """WeasyPrint only warns, once and on import; without fonts it prints empty boxes."""
        from weasyprint.text.ffi import fontconfig

        found = fontconfig.FcConfigGetFonts(self.fonts._config, fontconfig.FcSetSystem)
        return bool(found.nfont)

    def set(self, html: str) -> Any:
        """The document, laid out."""
        names = _SHEET.findall(html)
        return self._page(_SHEET.sub("", html)).render(
            font_config=self.fonts,
            stylesheets=[self._sheet(name) for name in names],
            cache=dict(self.plates),
            pdf_variant=VARIANT,
            pdf_tags=True,
        )

    def _page(self, html: str) -> Any:
        try:
            return self.written(html, self.base, self.fetcher)
        except ParseError:  # such as a sign that XML has no place for, in what somebody wrote
            return self.html(string=html, base_url=self.base, url_fetcher=self.fetcher)

    def _sheet(self, name: str) -> Any:
        if name not in self.sheets:
            self.sheets[name] = self.css(
                url=self.base + name, url_fetcher=self.fetcher, font_config=self.fonts
            )
        return self.sheets[name]


#: One a thread: the font library keeps state between lines of text.
_kept = threading.local()


def _set(html: str) -> Any:
    press = _press()
    try:
        return press.set(html)
    except press.fatal as missing:
        raise PrintingUnavailable(
            "A file that belongs to this program is missing, so the document cannot be made."
        ) from missing


def _pdf(document: Any) -> bytes:
    with MissingGlyphs() as unset:
        made = bytes(
            document.write_pdf(finisher=_press().complete, pdf_variant=VARIANT, pdf_tags=True)
        )
    if unset.letters:
        raise PrintingUnavailable(no_font_for(unset.letters))
    return made


def _press() -> Press:
    held: Press | None = getattr(_kept, "press", None)
    if held is None:
        held = _load()
        if not held.has_fonts:
            raise PrintingUnavailable(NO_FONTS)
        _kept.press = held
    return held


def _load() -> Press:
    try:
        return Press()
    except (ImportError, OSError) as missing:
        raise PrintingUnavailable(NOT_INSTALLED) from missing
