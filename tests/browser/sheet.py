"""The printed care sheet, as the browser that is signed in gets it."""

from io import BytesIO
from urllib.parse import urljoin

from playwright.sync_api import Page
from pypdf import PdfReader


def sheet_text(page: Page) -> str:
    """The text of the PDF that the signed visit's link leads to."""
    link = page.locator('a[href*="care-sheet"]:not([href*="preview"])').first
    address = urljoin(page.url, link.get_attribute("href"))
    response = page.context.request.get(address)
    assert response.headers["content-type"] == "application/pdf"
    return "\n".join(one.extract_text() for one in PdfReader(BytesIO(response.body())).pages)
