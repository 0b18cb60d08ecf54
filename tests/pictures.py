"""Make the README's pictures from the invented clinic, in a running demo.

python3 manage.py demo                                   # in one terminal
.venv/bin/python -m tests.pictures http://127.0.0.1:8000 nurse <its password>
"""

import shutil
import subprocess
import sys
import tempfile
from pathlib import Path

from PIL import Image
from playwright.sync_api import Page, sync_playwright

from clinic.bootstrap.system import browser as chromium
from tests.chromium_arguments import CHROMIUM_ARGUMENTS

PICTURES = Path(__file__).resolve().parent.parent / "static" / "pictures"
COLOURS = 96
PDFTOPPM = shutil.which("pdftoppm") or "pdftoppm"


def main(address: str, name: str, password: str) -> None:
    """Sign in, photograph today's draft, then a patient's sheet."""
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=chromium(), args=list(CHROMIUM_ARGUMENTS)
        )
        page = started.new_page(viewport={"width": 1280, "height": 900})
        _sign_in(page, address, name, password)
        _visit_page(page, address)
        _care_sheet(page, address)
        started.close()


def _sign_in(page: Page, address: str, name: str, password: str) -> None:
    page.goto(f"{address}/sign-in/")
    page.fill("input[name=login]", name)
    page.fill("input[name=password]", password)
    page.click("main button[type=submit]")


def _visit_page(page: Page, address: str) -> None:
    page.goto(address)
    page.locator("section[aria-labelledby=drafts] a").first.click()
    page.wait_for_load_state("networkidle")
    page.locator("#skin").scroll_into_view_if_needed()
    page.evaluate("document.querySelector('#skin').scrollIntoView()")
    with tempfile.TemporaryDirectory() as folder:
        shot = Path(folder) / "visit.png"
        page.screenshot(path=shot)
        _keep_small(shot, "visit-page.png")


def _care_sheet(page: Page, address: str) -> None:
    page.goto(address)
    href = page.locator('a[href*="/care-sheet/"]').first.get_attribute("href")
    answer = page.request.get(f"{address}{href}")
    with tempfile.TemporaryDirectory() as folder:
        paper = Path(folder) / "sheet.pdf"
        paper.write_bytes(answer.body())
        command = [PDFTOPPM, "-png", "-r", "70", "-l", "1", "-singlefile"]
        subprocess.run([*command, paper, Path(folder) / "sheet"], check=True)
        _keep_small(Path(folder) / "sheet.png", "care-sheet.png")


def _keep_small(source: Path, name: str) -> None:
    PICTURES.mkdir(exist_ok=True)
    Image.open(source).convert("RGB").quantize(COLOURS).save(PICTURES / name, optimize=True)


if __name__ == "__main__":
    main(sys.argv[1].rstrip("/"), sys.argv[2], sys.argv[3])
