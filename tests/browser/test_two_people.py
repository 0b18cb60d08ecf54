"""Two people in one draft: the second is warned, sees both versions, chooses; nothing is lost."""

import pytest
from playwright.sync_api import Page, expect

from clinic.visits.models import Assessment
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.browser.steps import wait_until_saved
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser


def choose(page: Page, field: str, side: str) -> None:
    page.locator(f'input[name="choose-{field}"][value="{side}"]').check()


def difference(page: Page, field: str) -> str:
    """What the page says of one field: both versions."""
    asked = page.locator(f'[name="choose-{field}"]')
    return page.locator("fieldset.difference", has=asked).inner_text()


def merge(page: Page) -> None:
    """Own note, the other's length and contour; what is stored nowhere is chosen beforehand."""
    expect(page.get_by_role("heading", level=1)).to_have_text("Two versions of this visit")
    assert "mine" in difference(page, "visit-note")
    assert "theirs" in difference(page, "visit-note")
    shot(page, "two-versions")
    choose(page, "visit-note", "mine")
    choose(page, "stoma-length_mm", "theirs")
    choose(page, "abdomen-contour", "theirs")
    page.get_by_role("button", name="Merge versions").click()
    expect(page.locator("[name=visit-note]")).to_have_value("mine")


def assert_merged(draft: Assessment) -> None:
    found = Assessment.objects.get(pk=draft.pk)
    assert found.visit.note == "mine"
    assert found.measurement.length_mm == 33
    assert found.measurement.width_mm == 27
    assert found.abdomen.contour == "rounded"
    assert found.skin_findings.get().kind == "ulcer"


def first_saves(page: Page) -> None:
    page.locator("[name=visit-note]").fill("theirs")
    page.locator("[name=stoma-length_mm]").fill("33")
    page.locator('[name="abdomen-contour"][value="rounded"]').check()


def second_types(page: Page) -> None:
    page.locator("[name=visit-note]").fill("mine")
    page.locator("[name=stoma-length_mm]").fill("30")
    page.locator("[name=stoma-width_mm]").fill("27")


def test_second_is_warned(small_clinic: SmallClinic, open_page: OpenPage, watch: Watch) -> None:
    watch.expected = ("status of 409",)
    draft = small_clinic.draft()
    first, second = open_page(small_clinic.colleague()), open_page(small_clinic.nurse)
    for page in (first, second):
        page.goto(small_clinic.chart_url(draft))
        page.wait_for_selector("body.scripted")
    first_saves(first)
    wait_until_saved(first)
    second_types(second)
    second.locator("#face-kind").select_option("finding:ulcer")
    second.get_by_role("button", name="All round").click()
    expect(second.locator("#page-notice")).to_contain_text("saved this visit")
    expect(second.locator("#page-notice")).to_contain_text("Fern Larkspur")
    shot(second, "told-of-another", whole=False)
    second.get_by_role("link", name="See both versions").click()
    merge(second)
    assert_merged(draft)


def test_second_is_warned_without_scripts(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    draft = small_clinic.draft()
    colleague = small_clinic.colleague()
    first, second = (
        open_page(user, java_script_enabled=False) for user in (colleague, small_clinic.nurse)
    )
    for page in (first, second):
        page.goto(small_clinic.chart_url(draft))
    second.locator('[value="add-finding"]').click()
    first.reload()
    first_saves(first)
    first.locator('button[value="plan"]').click()
    second_types(second)
    second.locator('[name$="-kind"]').select_option("ulcer")
    second.locator('[name^="finding-"][value="6"]').check()
    second.locator('[name="skin-state"][value="findings"]').check()
    second.locator('button[value="plan"]').click()
    merge(second)
    assert_merged(draft)


def test_waiting_copy_is_shown_later(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """A user who leaves without choosing finds the other version on coming back."""
    watch.expected = ("status of 409",)
    draft = small_clinic.draft()
    first, second = open_page(small_clinic.colleague()), open_page(small_clinic.nurse)
    for page in (first, second):
        page.goto(small_clinic.chart_url(draft))
        page.wait_for_selector("body.scripted")
    first_saves(first)
    wait_until_saved(first)
    second_types(second)
    expect(second.locator("#page-notice")).to_contain_text("saved this visit")
    second.goto(small_clinic.url)
    second.goto(small_clinic.chart_url(draft))
    second.get_by_role("link", name="See both versions").click()
    expect(second.get_by_role("heading", level=1)).to_have_text("Two versions of this visit")


def test_the_same_typed_twice_is_no_conflict(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    draft = small_clinic.draft()
    pages = [open_page(small_clinic.colleague()), open_page(small_clinic.nurse)]
    for page in pages:
        page.goto(small_clinic.chart_url(draft))
        page.wait_for_selector("body.scripted")
    for page in pages:
        first_saves(page)
        wait_until_saved(page)
    assert not draft.conflict_copies.exists()


def test_a_third_save_while_choosing_is_shown(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """What the first stores while the second chooses, on a phone, is shown again, and not
    overwritten."""
    watch.expected = ("status of 409",)
    draft = small_clinic.draft(leaking=True)
    first = open_page(small_clinic.colleague())
    second = open_page(small_clinic.nurse, viewport=PHONE)
    for page in (first, second):
        page.goto(small_clinic.chart_url(draft))
        page.wait_for_selector("body.scripted")
    first_saves(first)
    wait_until_saved(first)
    second_types(second)
    second.get_by_role("link", name="See both versions").click()
    choose(second, "visit-note", "mine")
    choose(second, "stoma-length_mm", "mine")
    shot(second, "choosing")
    first.locator("[name=visit-note]").fill("theirs, and pain at night")
    first.locator("[name=output-volume_ml_24h]").fill("1900")
    wait_until_saved(first)
    second.get_by_role("button", name="Merge versions").click()
    expect(second.get_by_role("alert")).to_contain_text("changed while you were choosing")
    expect(second.locator('[name="choose-stoma-length_mm"][value="mine"]')).to_be_checked()
    shot(second, "choosing-again")
    choose(second, "visit-note", "theirs")
    choose(second, "output-volume_ml_24h", "theirs")
    for left in second.locator("fieldset.difference:not(:has(:checked))").all():
        left.locator('[value="theirs"]').check()
    second.get_by_role("button", name="Merge versions").click()
    expect(second.locator("[name=visit-note]")).to_have_value("theirs, and pain at night")
    found = Assessment.objects.get(pk=draft.pk)
    assert found.measurement.length_mm == 30
    assert found.output.volume_ml_24h == 1900


def test_discarded_while_another_types(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    """The one who types reads who discarded it, and finds what was typed."""
    watch.expected = ("status of 409",)
    draft = small_clinic.draft()
    first, second = open_page(small_clinic.colleague()), open_page(small_clinic.nurse)
    for page in (first, second):
        page.goto(small_clinic.chart_url(draft))
        page.wait_for_selector("body.scripted")
    first.get_by_text("Begun by mistake?").click()
    first.get_by_role("button", name="Discard this draft").click()
    second_types(second)
    expect(second.locator("#page-notice")).to_contain_text("by Fern Larkspur")
    second.get_by_role("link", name="See what you typed").click()
    expect(second.locator(".notice")).to_contain_text("mine")
    shot(second, "discarded")
    assert second.evaluate("localStorage.length") == 0
