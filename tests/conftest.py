"""What tests of several parts share."""

import os
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, sync_playwright

from clinic.bootstrap.system import browser as chromium

# No first-run pages, no updates, no talk with anyone: the tests run without a network.
CHROMIUM_ARGUMENTS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
)


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """A headless Chromium, started once; give each test a context of its own."""
    # Playwright keeps an event loop running in this thread, which Django takes for async code.
    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(
            executable_path=chromium(), args=list(CHROMIUM_ARGUMENTS)
        )
        yield started
        started.close()
    del os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"]
