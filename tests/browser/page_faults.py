"""What is wrong with a page at each width, in light and in dark: opened once, then resized."""

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from axe_playwright_python.base import AXE_SCRIPT
from playwright.sync_api import Page

from tests.browser.conftest import DESK, PHONE

SCRIPT = (Path(__file__).parent / "page_faults.js").read_text()


@dataclass(frozen=True)
class Way:
    """A screen, and the rules of axe that may say something new there; None is all of them."""

    width: int
    height: int
    scheme: Literal["light", "dark"]
    rules: list[str] | None


SCROLLS = "scrollable-region-focusable"
#: Dark is looked at in the layout of a desk and of a phone; targets, a slow rule, once in each.
WAYS = [
    Way(DESK["width"], DESK["height"], "light", None),
    Way(PHONE["width"], PHONE["height"], "light", ["target-size", SCROLLS]),
    Way(320, 640, "dark", ["color-contrast", SCROLLS]),
    Way(1024, 768, "dark", ["color-contrast", SCROLLS]),
]


def faults(page: Page) -> Iterator[str]:
    """Each fault with where it was seen; the page is left as it came, wide and light."""
    page.evaluate(AXE_SCRIPT)
    said: set[str] = set()
    for way in WAYS:
        if way is not WAYS[0]:
            show(page, way)
        for fault in _measured(page, way.width, way.rules):
            if fault not in said:  # the same at another width is said once
                yield f"{way.width} px, {way.scheme}: {fault}"
            said.add(fault)
    show(page, WAYS[0])


def faults_here(page: Page) -> list[str]:
    """By every rule, at the width and in the colours that the page has."""
    page.evaluate(AXE_SCRIPT)
    width = (page.viewport_size or PHONE)["width"]
    return _measured(page, width, None)


def _measured(page: Page, width: int, rules: list[str] | None) -> list[str]:
    found = page.evaluate(SCRIPT, {"rules": rules, "touch": width < 500})
    return list(dict.fromkeys(map(str, found)))


def show(page: Page, way: Way) -> None:
    """As wide as ``way``, in its colours."""
    page.set_viewport_size({"width": way.width, "height": way.height})
    page.emulate_media(color_scheme=way.scheme)
