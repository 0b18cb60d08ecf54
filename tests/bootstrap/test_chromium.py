"""The browser that the browser tests share starts, and shows a page."""

import pytest
from django.contrib.auth import get_user_model
from playwright.sync_api import Browser


@pytest.mark.browser
@pytest.mark.django_db
def test_the_shared_browser_shows_a_page_beside_the_database(browser: Browser) -> None:
    context = browser.new_context()
    page = context.new_page()
    page.set_content("<h1>Clinic day</h1>")
    assert page.inner_text("h1") == "Clinic day"
    assert get_user_model().objects.count() == 0
    context.close()
