"""Steps that several journeys take, for pages where how they are taken is not the point."""

from datetime import timedelta

from django.utils import timezone
from playwright.sync_api import Page, expect

from clinic.accounts.models import User
from tests.factories.accounts import PASSWORD


def sign_in(page: Page, url: str, user: User) -> None:
    """From the sign-in page to the clinic's day."""
    page.goto(f"{url}/sign-in/")
    page.get_by_label("Username").fill(user.username)
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Sign in", exact=True).click()
    expect(page.get_by_role("heading", level=1)).not_to_have_text("Sign in")


def open_all(page: Page) -> None:
    """Every question of the visit page, by the button of each part."""
    page.wait_for_selector("body.scripted")
    page.evaluate("document.querySelectorAll('[data-open-all]').forEach((one) => one.click())")


def open_folds(page: Page) -> None:
    """The same without scripts: one by one."""
    closed = page.locator(".question > details.fold:not([open]) > summary:visible")
    while closed.count():
        closed.first.click()


def wait_until_saved(page: Page, state: str = "saved") -> None:
    """The page says that what it shows is saved, or saved but to be corrected (``correct``)."""
    expect(page.locator("#save-status")).to_have_attribute("data-state", state)


def days_ago(days: int) -> str:
    """A day as it is typed into a browser's date box: month, day, year."""
    return (timezone.localdate() - timedelta(days=days)).strftime("%m%d%Y")
