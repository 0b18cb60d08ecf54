"""A care sheet looked at, changed, printed, listed and opened again, also without scripts."""

from datetime import date
from typing import Any

import pytest
from django.utils import timezone
from playwright.sync_api import Page, expect

from clinic.accounts.models import Role
from clinic.documents.models import PrintedDocument, SheetEdit
from clinic.patients.models import Stoma
from clinic.visits.models import Assessment
from tests.browser.conftest import PATIENCE, PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.clinic.documents import paper
from tests.clinic.plans.signed_visits import accept, sign
from tests.factories.accounts import UserFactory

TRIM, MEASURE = (
    "Trim the hair. Do not shave it dry.",
    "Measure your stoma where it meets the skin.",
)


@pytest.fixture
def seen(small_clinic: SmallClinic) -> Assessment:
    """Signed, all accepted."""
    made = small_clinic.draft(leaking=True)
    accept(made)
    sign(made)
    return made


def printed_by(page: Page, press: Any) -> bytes:
    """The PDF of the tab that ``press`` opens, fetched as the browser would show it."""
    before = PrintedDocument.objects.count()
    with page.context.expect_page() as opened:
        press()
    # Whether it is shown there or saved is the browser's affair: it counts once it is on record.
    for _ in range(PATIENCE // 50):
        if PrintedDocument.objects.count() > before:
            break
        page.wait_for_timeout(50)
    opened.value.close()
    return bytes(PrintedDocument.objects.latest("id").file.pdf)


def words_of(page: Page) -> list[str]:
    """The steps that print, as the page has them."""
    steps = page.locator(".steps > li:not(.hidden-step) .step-words p")
    return [text.strip() for text in steps.all_inner_texts()]


@pytest.mark.parametrize(
    "view",
    [{"viewport": PHONE}, {"java_script_enabled": False}],
    ids=["phone", "desk without scripts"],
)
def test_from_the_preview_to_the_same_bytes_again(
    small_clinic: SmallClinic, seen: Assessment, open_page: OpenPage, view: dict[str, Any]
) -> None:
    page = open_page(small_clinic.nurse, **view)
    page.goto(f"{small_clinic.url}/visits/{seen.visit.uuid}/")
    page.get_by_role("link", name="Care sheet: look and print").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Care sheet before printing")
    planned = words_of(page)
    shot(page, "sheet-preview")

    hidden = page.get_by_role("button", name="Hide the step: Write down the date.")
    hidden.click()
    expect(page.get_by_text("hidden, not printed")).to_be_visible()
    assert words_of(page) == [step for step in planned if "Write down" not in step]

    page.get_by_label("A last step of your own").fill("Call me on Friday.")
    page.get_by_label(
        'A sentence of your own at the end of "What stays, and what to remember"'
    ).fill("Bring two rings.")
    page.get_by_role("radio", name="Large").check()
    page.get_by_role("button", name="Save", exact=True).first.click()
    expect(page.get_by_text("Saved. It prints as shown here.")).to_be_visible()
    expect(page.get_by_label("A last step of your own")).to_have_value("Call me on Friday.")
    shot(page, "sheet-preview-edited")

    printing = page.get_by_role("button", name="Save and print").first
    pdf = printed_by(page, printing.click)
    text = paper.whole_text(pdf)
    order = [text.index(" ".join(step.split())) for step in words_of(page)]
    assert order == sorted(order)
    assert "Write down the date." not in text
    assert "Call me on Friday." in text
    assert "Bring two rings." in text

    page.reload()
    page.get_by_text("Printed before (1)").first.scroll_into_view_if_needed()
    again = page.get_by_role("link", name="Open again the care sheet, large print")
    answer = page.request.get(small_clinic.url + str(again.get_attribute("href")))
    assert answer.body() == pdf
    page.goto(f"{small_clinic.url}/visits/{seen.visit.uuid}/")
    expect(page.get_by_role("link", name="Open again the care sheet, large print")).to_be_visible()
    expect(page.get_by_text("by Rowan Tansy").first).to_be_visible()


def test_steps_change_places_by_keyboard_and_a_forbidden_order_is_refused(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Any
) -> None:
    watch.expected = ("422",)
    Stoma.objects.filter(pk=small_clinic.stoma.pk).update(surgery_date=date(2025, 4, 15))
    # Sore hairs are trimmed, a young stoma is measured: nothing ties the one to the other.
    made = small_clinic.draft(leaking=True, finding__kind="hair_pustules")
    accept(made)
    sign(made)
    page = open_page(small_clinic.nurse)
    page.goto(f"{small_clinic.url}/documents/care-sheet/{made.uuid}/preview/")
    planned = words_of(page)
    measure, trim = planned.index(MEASURE), planned.index(TRIM)
    assert trim == measure + 1
    page.get_by_role("button", name=f"Up one place, the step: {TRIM}").press("Enter")
    expect(page.get_by_text("Saved. It prints as shown here.")).to_be_visible()
    changed = words_of(page)
    assert changed[measure : trim + 1] == [TRIM, MEASURE]

    page.get_by_label("A last step of your own").fill("Call me on Friday.")
    page.get_by_role("button", name="Up one place, the step: Peel from the top").press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("must come after")
    expect(page.locator(".step-problem")).to_contain_text("must come after")
    expect(page.get_by_label("A last step of your own")).to_have_value("Call me on Friday.")
    assert words_of(page) == changed
    shot(page, "sheet-preview-refused")

    text = paper.whole_text(
        printed_by(page, page.get_by_role("button", name="Save and print").first.click)
    )
    assert text.index(TRIM) < text.index(MEASURE)
    assert "Call me on Friday." in text


def test_the_desk_prints_from_the_record(
    small_clinic: SmallClinic, seen: Assessment, open_page: OpenPage
) -> None:
    SheetEdit.objects.create(
        assessment=seen,
        after_steps="Call me on Friday.",
        changed_by=small_clinic.nurse,
        changed_at=timezone.now(),
    )
    desk = UserFactory.create(username="linden", role=Role.DESK)
    for view in ({}, {"viewport": PHONE}):
        page = open_page(desk, **view)
        page.goto(f"{small_clinic.url}/patients/{small_clinic.patient.uuid}/")
        expect(page.get_by_role("heading", name="Papers", exact=True)).to_be_visible()
        sheet = page.get_by_role("link", name="Care sheet of")
        pdf = printed_by(page, sheet.click)
        assert "Call me on Friday." in paper.whole_text(pdf)
        page.reload()
        expect(page.get_by_role("link", name="Open again the care sheet").first).to_be_visible()
        shot(page, "desk-papers")
