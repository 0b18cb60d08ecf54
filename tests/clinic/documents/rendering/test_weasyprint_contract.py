"""What the rendering code takes from WeasyPrint that its manual does not promise.

Each test names what leans on it. One that fails after a change of version says which file of
``clinic/documents/rendering`` to look at before any paper is printed.
"""

import importlib
import inspect
import logging
from collections.abc import Callable
from typing import Any
from xml.etree import ElementTree

import pytest
from cssselect2 import ElementWrapper
from weasyprint import CSS, HTML
from weasyprint.css.counters import CounterStyle
from weasyprint.text.fonts import FontConfiguration
from weasyprint.urls import URLFetcher

from tests.clinic.documents import paper

BASE = "file:///nowhere/"
DRAWING = (
    '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 5"><path d="M0 0L9 4" '
    'stroke="#123456" stroke-opacity="0.5" fill="#654321" fill-opacity="0.25"/></svg>'
)
PAGE = (
    '<html lang="en"><head><title>x</title></head><body><h1>One</h1><p>a</p>'
    '<ul><li>b</li></ul><img src="x.svg" alt="x"/></body></html>'
)


def internal(module: str, name: str, used_by: str) -> Any:
    """A name of WeasyPrint's own, or a failure that says who uses it."""
    try:
        return getattr(importlib.import_module(f"weasyprint.{module}"), name)
    except (ImportError, AttributeError):
        pytest.fail(f"weasyprint.{module}.{name} is gone; {used_by} uses it.")


def parameters(of: Callable[..., Any]) -> list[str]:
    return list(inspect.signature(of).parameters)


class Picture:
    """No more of an image than ``CachedSvg`` has."""

    def __init__(self, on_page: Callable[[Any], None] = lambda _stream: None) -> None:
        self.drawn: list[tuple[float, float]] = []
        self._on_page = on_page

    def get_intrinsic_size(self, *_resolution_and_font: float) -> tuple[float, float, float]:
        return 20, 10, 2

    def draw(self, stream: Any, width: float, height: float, _style: Any) -> None:
        self.drawn.append((width, height))
        self._on_page(stream)


def on_a_page(work: Callable[[Any], None]) -> bytes:
    """``work`` is given the stream of a page at the place of its picture."""
    picture = Picture(work)
    cache = {f"{BASE}x.svg": picture}
    page = HTML(string=PAGE, base_url=BASE).render(cache=cache, pdf_variant="pdf/ua-1")
    made = bytes(page.write_pdf(pdf_variant="pdf/ua-1", pdf_tags=True))
    assert picture.drawn, "An image in the cache is not drawn; svg_cache, pdf.Press.plates"
    return made


def test_fontconfig_counts_the_fonts() -> None:
    """``Press.has_fonts``: without it a server without fonts prints empty boxes."""
    fontconfig = internal("text.ffi", "fontconfig", "pdf.Press.has_fonts")
    fonts = FontConfiguration()
    assert hasattr(fonts, "_config"), (
        "FontConfiguration._config is gone; pdf.Press.has_fonts uses it"
    )
    found = fontconfig.FcConfigGetFonts(fonts._config, fontconfig.FcSetSystem)
    assert found.nfont > 0, "FcConfigGetFonts says otherwise; pdf.Press.has_fonts"


def test_a_page_is_these_five_attributes() -> None:
    """``XhtmlPage`` sets them itself, since ``HTML.__init__`` would read the page as HTML."""
    usual = {"base_url", "url_fetcher", "media_type", "wrapper_element", "etree_element"}
    page = HTML(string=PAGE, base_url=BASE)
    assert set(vars(page)) == usual, "HTML keeps other attributes; xhtml_page.XhtmlPage.__init__"
    assert isinstance(page.wrapper_element, ElementWrapper), "xhtml_page wraps it otherwise"
    assert page.etree_element is page.wrapper_element.etree_element, "xhtml_page.XhtmlPage"
    assert page.media_type == "print", "HTML is for other media; xhtml_page.XhtmlPage.media_type"


def test_elements_of_a_page_have_no_namespace() -> None:
    """``XhtmlPage`` reads pages without one; rules for ``{http://...}p`` would not meet them."""
    by_hand = [one.tag for one in ElementTree.fromstring(PAGE).iter()]  # noqa: S314 - written above
    read = [one.tag for one in HTML(string=PAGE, base_url=BASE).etree_element.iter()]
    assert read == by_hand, "HTML names its elements otherwise; xhtml_page.XhtmlPage"


def test_a_page_says_its_own_default_styles() -> None:
    """``XhtmlPage._ua_stylesheets`` puts its own in their place."""
    assert hasattr(HTML, "_ua_stylesheets"), "HTML._ua_stylesheets is gone; xhtml_page.XhtmlPage"
    wanted = ["self", "forms"]
    said = parameters(HTML._ua_stylesheets)
    assert said == wanted, f"_ua_stylesheets takes {said}; xhtml_page.XhtmlPage._ua_stylesheets"

    class Wide(HTML):
        def _ua_stylesheets(self, forms: bool = False) -> list[CSS]:
            return [CSS(string="@page { size: 100px 50px }", counter_style=CounterStyle())]

    width = Wide(string=PAGE, base_url=BASE).render(cache={f"{BASE}x.svg": Picture()}).pages[0]
    assert width.width == 100, "_ua_stylesheets is not asked; xhtml_page.XhtmlPage loses its styles"


def test_the_default_styles_are_text_with_these_rules() -> None:
    """``xhtml_page.PLAIN`` leaves out five rules for notes and narrows one for list markers."""
    from clinic.documents.rendering.xhtml_page import _NOTES

    styles = internal("html", "UA", "xhtml_page.PLAIN")
    assert len(_NOTES.findall(styles)) == 5, "Other rules for notes; xhtml_page._NOTES"
    assert styles.count("\n::marker") == 1, "Another rule for markers; xhtml_page.PLAIN"


def test_an_svg_is_made_of_its_tree_and_drawn_at_a_size() -> None:
    """``svg_cache``: made without a layout, drawn without a style, sized by font alone."""
    image = internal("images", "SVGImage", "svg_cache.CachedSvg")
    wanted = ["self", "tree", "base_url", "url_fetcher", "context"]
    assert parameters(image.__init__) == wanted, "svg_cache.cached_svgs makes it otherwise"
    tree = ElementTree.fromstring(DRAWING)  # noqa: S314 - written above
    drawing = image(tree, f"{BASE}x.svg", URLFetcher(), None)
    size = drawing.get_intrinsic_size(1, 16)
    assert size[2] == 2, f"Its size is {size}, no ratio last; svg_cache.CachedSvg"
    drawn: list[list[Any]] = []

    def draw(stream: Any) -> None:
        for style in (None, object()):
            apart = stream.clone(stream=[])
            drawing.draw(apart, 20, 10, style)
            drawn.append(list(apart.stream))

    on_a_page(draw)
    assert drawn[0], "SVGImage.draw leaves nothing in stream.stream; svg_cache.CachedSvg.draw"
    assert drawn[0] == drawn[1], "It draws by its style, too; svg_cache keeps it by its size"


def test_an_image_in_the_cache_is_drawn_as_it_is() -> None:
    """``pdf.Press.set`` hands over ``CachedSvg`` by address; it has two methods and no more."""
    picture = Picture()
    page = HTML(string=PAGE, base_url=BASE).render(cache={f"{BASE}x.svg": picture})
    page.write_pdf()
    assert picture.drawn == [(20, 10)], "The cache is asked otherwise; svg_cache, pdf.Press.plates"


def test_a_clone_of_a_stream_starts_without_what_the_page_has_set() -> None:
    """``CachedSvg.draw`` keeps what a clone holds: a colour left unsaid would be missing later."""
    held: dict[str, Any] = {}

    def draw(stream: Any) -> None:
        stream.set_alpha(0.5, stroke=True)
        before = len(stream.stream)
        apart = stream.clone(stream=[])
        held["fresh"] = list(apart.stream)
        apart.set_alpha(0.5, stroke=True)
        held["said"], held["on_page"] = list(apart.stream), len(stream.stream) - before

    on_a_page(draw)
    assert held["fresh"] == [], "Stream.clone(stream=[]) is not empty; svg_cache.CachedSvg.draw"
    assert held["said"], "A clone keeps the page's state; svg_cache.CachedSvg.draw"
    assert held["on_page"] == 0, "A clone writes to the page; svg_cache.CachedSvg.draw"


@pytest.mark.parametrize(
    ("opacity", "stroke", "named"),
    [(0.5, True, b"/A0.5 gs"), (1, True, b"/A1 gs"), (0.25, False, b"/a0.25 gs")],
)
def test_an_opacity_is_named_by_its_figure(opacity: float, stroke: bool, named: bytes) -> None:
    """``svg_cache._OPACITY`` reads these names and has each set on the page that needs it."""
    said: list[Any] = []

    def draw(stream: Any) -> None:
        apart = stream.clone(stream=[])
        apart.set_alpha(opacity, stroke=stroke)
        said.extend(apart.stream)

    pdf = on_a_page(draw)
    assert said == [named], f"Stream.set_alpha writes {said}; svg_cache._OPACITY"
    resources: Any = paper.reader(pdf).pages[0]["/Resources"]
    entry = resources["/ExtGState"][named.decode().split()[0]]
    wanted = {"/CA" if stroke else "/ca": opacity}
    assert entry == wanted, "A clone adds no opacity to its page's list; svg_cache.CachedSvg.draw"


def test_operators_put_into_a_stream_are_on_the_page() -> None:
    """``CachedSvg.draw`` appends its marks to ``stream.stream`` as bytes."""
    pdf = on_a_page(lambda stream: stream.stream.append(b"q 0.125 0 0 RG Q"))
    content: Any = paper.reader(pdf).pages[0].get_contents()
    kept = b"q 0.125 0 0 RG Q" in content.get_data()
    assert kept, "What is appended to stream.stream is not printed; svg_cache.CachedSvg.draw"


def test_a_letter_without_a_font_is_logged(caplog: pytest.LogCaptureFixture) -> None:
    """``MissingGlyphs``: else a name would print as empty boxes without any warning."""
    from clinic.documents.rendering.missing_glyphs import _TOLD

    nobody = chr(0x10FF00)
    page = HTML(string=f'<html lang="en"><title>x</title><p>{nobody}').render()
    page.write_pdf()
    told = [one for one in caplog.records if str(one.msg).startswith(_TOLD)]
    caplog.clear()
    assert told, "No line in the log for a letter without a font; missing_glyphs.MissingGlyphs"
    assert all(one.name == "weasyprint" for one in told), "Another log; missing_glyphs"
    assert told[0].levelno >= logging.WARNING, "The line may be left out; missing_glyphs"
    assert isinstance(told[0].args, tuple), "The log line has no list of values; missing_glyphs"
    assert told[0].args[:1] == (nobody,), "The line does not name the letter first; missing_glyphs"


def test_what_cannot_be_loaded_stops_the_paper() -> None:
    """``ClosedFetcher`` and ``pdf._set``: an ``Exception`` would be caught inside, and logged."""
    fatal = internal("urls", "FatalURLFetchingError", "pdf.Press.fatal")
    assert not issubclass(fatal, Exception), "FatalURLFetchingError is caught inside; pdf._set"

    class Closed(URLFetcher):
        def fetch(self, url: str, headers: Any = None) -> Any:
            raise PermissionError

    fetcher = Closed(fail_on_errors=True)
    with pytest.raises(fatal):
        HTML(string=PAGE, base_url=BASE, url_fetcher=fetcher).render()


def test_the_same_page_is_the_same_bytes_without_date_or_identifier() -> None:
    """``cache`` and the file on record; fonts and styles are kept from page to page."""
    fonts = FontConfiguration()
    style = CSS(string="p { margin: 3px }", font_config=fonts)

    def made(html: str) -> bytes:
        page = HTML(string=html, base_url=BASE).render(
            font_config=fonts, stylesheets=[style], cache={f"{BASE}x.svg": Picture()}
        )
        return bytes(page.write_pdf(pdf_variant="pdf/ua-1", pdf_tags=True))

    first = made(PAGE)
    made(PAGE.replace("One", "Another"))
    assert made(PAGE) == first, "A page changes with what was set before; pdf.Press, cache"
    read = paper.reader(first)
    assert "/ID" not in read.trailer, "An identifier is put in; pdf.pdf_of, cache"
    assert "/CreationDate" not in (read.metadata or {}), "A date is put in; pdf.pdf_of, cache"


def test_tags_are_laid_down_as_the_joined_file_expects() -> None:
    """``PdfMerge`` carries over what is named here; any other entry would be lost."""
    root: Any = paper.reader(on_a_page(lambda _stream: None)).trailer["/Root"]
    known = {"/Type", "/Pages", "/Outlines", "/Lang", "/StructTreeRoot", "/MarkInfo"}
    known |= {"/ViewerPreferences", "/Metadata"}
    assert set(root) <= known, f"The catalogue also holds {set(root) - known}; pdf_merge"
    tree = root["/StructTreeRoot"]
    assert set(tree) == {"/Type", "/K", "/ParentTree"}, f"The tags hold {set(tree)}; pdf_merge"
    assert set(tree["/ParentTree"]) <= {"/Type", "/Nums"}, "The parents are no flat list; pdf_merge"
