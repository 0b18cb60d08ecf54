"""Pictures of the main states, for people to look at; in a folder that git leaves alone.

Taken where SCREENSHOTS is set: no test reads them, and each costs as much as opening a page.
"""

import os
from pathlib import Path

from playwright.sync_api import Page

FOLDER = Path(__file__).resolve().parents[2] / ".screenshots"


def shot(page: Page, name: str, *, whole: bool = True) -> None:
    """Store ``<name>-<width>.png`` of the page, whole or as far as it is in sight."""
    if not os.environ.get("SCREENSHOTS"):
        return
    FOLDER.mkdir(exist_ok=True)
    width = (page.viewport_size or {"width": 0})["width"]
    page.screenshot(path=str(FOLDER / f"{name}-{width}.png"), full_page=whole)
