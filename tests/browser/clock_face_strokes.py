"""Strokes on the clock face of a draft's page, and what they leave in its form."""

from playwright.sync_api import Locator, Page

from clinic.visits.models import Assessment
from clinic.visits.presenters import face_geometry as geometry
from tests.browser.conftest import OpenPage, SmallClinic
from tests.browser.face import on_screen
from tests.browser.steps import open_all

LIST = "#face > .face-words > li"


def open_draft(clinic: SmallClinic, open_page: OpenPage, draft: Assessment) -> Page:
    """The draft's page with every question open."""
    page = open_page(clinic.nurse)
    page.goto(clinic.chart_url(draft))
    page.wait_for_selector("body.scripted")
    open_all(page)
    return page


def cell(page: Page, hour: int, out_mm: int) -> tuple[float, float]:
    """The middle of one hour and ring."""
    return on_screen(page, hour, out_mm - geometry.RING_MM / 2)


def drag(page: Page, *cells: tuple[int, int]) -> None:
    """Press in the first cell, move through the others, let go."""
    page.mouse.move(*cell(page, *cells[0]))
    page.mouse.down()
    for place in cells[1:]:
        page.mouse.move(*cell(page, *place), steps=4)
    page.mouse.up()


def ticked(page: Page, layer: str) -> list[str]:
    boxes: Locator = page.locator(f'[data-layer="{layer}"] input.hours:checked')
    return [str(box.get_attribute("value")) for box in boxes.all()]
