"""Every page and its states, for every role: accessible at each width, in light and in dark, no
script error, no talk with another host."""

from collections.abc import Callable, Iterator
from functools import partial
from uuid import uuid4

import pytest
from django.template.loader import render_to_string
from django.urls import reverse
from playwright.sync_api import Page, Route

from clinic.accounts.models import User
from tests.browser.conftest import OpenPage, SmallClinic
from tests.browser.full_clinic import FullClinic, Pages
from tests.browser.page_faults import faults
from tests.browser.shots import shot
from tests.browser.steps import open_all, sign_in, wait_until_saved
from tests.browser.watch import Watch
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.browser

PUBLIC = {"sign-in": "account_login", "forgotten": "account_reset_password"}
REFUSED = {
    "refused": ("audit_trail:log", []),
    "not-there": ("charting:visit", [uuid4()]),
}
REFUSALS = {"refused": 403, "not-there": 404, "decide-first": 409}
#: Pages of whatever else goes wrong, which no address gives.
BROKEN = ("400.html", "403_csrf.html", "500.html")


def contradict(page: Page) -> None:
    """Empty what was typed, type what cannot be: the errors beside it and on top."""
    open_all(page)
    for box in page.locator("#stoma input.number:visible").all():
        box.fill("")
    page.locator("[name=stoma-length_mm]").fill("9999")
    page.locator("#page-errors a").first.wait_for()
    wait_until_saved(page, "correct")


def send(page: Page) -> None:
    """The form as it is, sent without the browser's own checks: it comes back with errors."""
    page.locator("main form[method=post]").last.evaluate(
        "(form) => { form.noValidate = true; form.requestSubmit(); }"
    )
    page.locator(".error-summary, .field-error").first.wait_for()


SENT_BACK = ("status of 422",)
#: What is done on a page before it is looked at again.
STATES: dict[str, Callable[[Page], None]] = {
    "chart": open_all,
    "chart-empty": contradict,
    "register": send,
    "marking-add": send,
    "trial-add": send,
    "refer": send,
    "sign-in": send,
    "user-add": send,
}


def looked_at(page: Page, name: str) -> Iterator[str]:
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    yield from (f"{name}: {fault}" for fault in faults(page))
    page.evaluate("window.scrollTo(0, 0)")
    shot(page, f"page-{name}")


def walk(page: Page, base: str, pages: Pages) -> Iterator[str]:
    """Open each page; yield what is wrong, by page."""
    for name, path in pages.items():
        response = page.goto(base + path)
        if response is None or response.status not in {200, REFUSALS.get(name)}:
            yield f"{name}: answered {response and response.status}"
        if name in STATES:
            STATES[name](page)
        yield from looked_at(page, name)


def none_of(found: list[str]) -> None:
    """Every fault is said, one a line."""
    if found:
        pytest.fail("\n".join(found), pytrace=False)


def test_pages_of_every_role(small_clinic: SmallClinic, open_page: OpenPage, watch: Watch) -> None:
    watch.expected = SENT_BACK
    clinic = FullClinic(small_clinic)
    found = [*walk(open_page(small_clinic.nurse), small_clinic.url, clinic.nurses_pages())]
    for role, pages in clinic.others_pages().items():
        user: User = UserFactory.create(role=role)
        found += walk(open_page(user), small_clinic.url, pages)
    found += _first_signed_in(small_clinic, open_page())
    public = {name: reverse(view) for name, view in PUBLIC.items()}
    found += walk(open_page(), small_clinic.url, public)
    none_of(found)


def _first_signed_in(clinic: SmallClinic, page: Page) -> Iterator[str]:
    """Somebody new, by the sign-in page: what comes first, then where they are signed in."""
    user: User = UserFactory.create(must_change_password=True)
    sign_in(page, clinic.url, user)
    yield from walk(page, clinic.url, {"first-steps": reverse("accounts:first_steps")})
    User.objects.update(must_change_password=False)
    yield from walk(page, clinic.url, {"sessions": reverse("accounts:security")})


def test_pages_of_refusals(small_clinic: SmallClinic, open_page: OpenPage, watch: Watch) -> None:
    watch.expected = ("status of 403", "status of 404", "status of 409")
    draft = small_clinic.draft(leaking=True)
    pages = {name: reverse(view, args=args) for name, (view, args) in REFUSED.items()}
    pages["decide-first"] = reverse("documents:care_sheet", args=[draft.uuid])
    page = open_page(small_clinic.nurse)
    found = [*walk(page, small_clinic.url, pages)]
    for template in BROKEN:
        body = render_to_string(template, {"clinic_name": "Example clinic"})
        page.route(f"**/{template}", partial(Route.fulfill, body=body, content_type="text/html"))
        found += walk(page, small_clinic.url, {template: f"/{template}"})
    none_of(found)
