"""Small habits of the pages: what rules one another out, where one is, what fits."""

import pytest
from playwright.sync_api import Page, expect

from clinic.accounts.models import Role
from tests.browser.clock_face_strokes import open_draft
from tests.browser.conftest import PHONE, OpenPage, SmallClinic
from tests.browser.steps import wait_until_saved
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.browser


def test_none_of_these_and_the_others_rule_one_another_out(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = open_draft(small_clinic, open_page, small_clinic.draft())

    def tick(value: str) -> None:
        page.locator(f'label:has(> [name="system-erosion_hours"][value="{value}"])').click()

    def ticked() -> list[str]:
        boxes = page.locator('[name="system-erosion_hours"]:checked').all()
        return [str(box.get_attribute("value")) for box in boxes]

    tick("5")
    tick("6")
    assert ticked() == ["5", "6"]
    expect(page.locator("#face > .face-words > li")).to_have_count(1)
    tick("none")
    assert ticked() == ["none"]
    expect(page.locator("#face > .face-words > li")).to_have_count(0)
    tick("7")
    assert ticked() == ["7"]
    wait_until_saved(page)


def test_the_index_marks_the_part_in_sight(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """On a narrow screen, where the parts lie far apart."""
    page = open_page(small_clinic.nurse, viewport=PHONE)
    page.goto(small_clinic.chart_url(small_clinic.draft(leaking=True)))
    page.wait_for_selector("body.scripted")
    marked = page.locator(".chart-index a[aria-current]")
    for part in ("wear", "skin", "visit", "closing", "skin", "system"):
        page.locator(f'.chart-index a[href="#{part}"]').click()
        expect(marked).to_have_attribute("href", f"#{part}")
    page.locator("#skin-title").evaluate("(title) => title.scrollIntoView({block: 'center'})")
    expect(marked).to_have_attribute("href", "#stoma")
    page.mouse.move(200, 400)
    page.mouse.wheel(0, 300)
    expect(marked).to_have_attribute("href", "#skin")


def test_a_part_not_looked_at_leaves_the_face(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """The used barrier and the abdomen are marked on it too."""
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    page.locator('label:has(> [name="whole-not_looked_at"][value="skin"])').click()
    expect(page.locator("#skin .part-body")).to_be_hidden()
    expect(page.locator("#face svg[role=application]")).to_be_visible()
    wait_until_saved(page)


def width(page: Page) -> int:
    return int(page.evaluate("document.documentElement.scrollWidth"))


def test_a_word_without_spaces_does_not_widen_a_page(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    long = "Mississippi" * 9
    small_clinic.patient.family_name = long
    small_clinic.patient.save()
    draft = small_clinic.draft(leaking=True)
    draft.visit.note = draft.visit.reason_words = long
    draft.visit.save()
    page = open_page(small_clinic.nurse, viewport=PHONE)
    for path in (
        f"/patients/{small_clinic.patient.uuid}/",
        f"/visits/chart/{draft.uuid}/",
        f"/visits/{draft.visit.uuid}/",
        f"/visits/{draft.visit.uuid}/history/",
        "/",
    ):
        page.goto(small_clinic.url + path)
        assert width(page) == PHONE["width"], path


def test_a_lead_reaches_every_page_of_the_header_without_scrolling_sideways(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """The longest navigation there is, at the 320 px of WCAG 2.2, 1.4.10."""
    viewport = {"width": 320, "height": 640}
    page = open_page(UserFactory.create(role=Role.LEAD), viewport=viewport)
    page.goto(f"{small_clinic.url}/")
    links = page.locator(".site-navigation a").all()
    names = [link.inner_text() for link in links]
    assert names[-4:] == ["Measures", "Audit", "Users", "Clinic"]
    for link in links:
        box = link.bounding_box()
        assert box is not None
        assert box["x"] >= 0
        assert box["x"] + box["width"] <= viewport["width"]
        assert box["height"] >= 44
    navigation = page.locator(".site-navigation")
    assert navigation.evaluate("(it) => it.scrollWidth <= it.clientWidth")
    assert width(page) == viewport["width"]


def test_boxes_of_the_sign_in_page_are_alike(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = open_page()
    page.goto(f"{small_clinic.url}/sign-in/")
    boxes = [page.locator(f"#id_{name}").bounding_box() for name in ("login", "password")]
    assert len({box["width"] for box in boxes if box}) == 1


def test_every_fold_round_a_field_in_error_opens(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """Also where one fold lies in another, beside the field and from the list on top."""
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    field = "#div_id_person-temperature_c"
    page.locator(field).evaluate(
        """(field) => {
          const fold = field.closest("details");
          const outer = document.createElement("details");
          fold.before(outer);
          outer.append(fold);
          for (const one of [outer, fold]) one.open = false;
          field.querySelector("input").value = "100";
          field.querySelector("input").dispatchEvent(new Event("input", { bubbles: true }));
        }"""
    )
    expect(page.locator(f"{field} .field-error")).to_be_visible()
    page.locator(field).evaluate(
        """(field) => {
          for (let fold = field; (fold = fold.parentElement.closest("details"));) fold.open = false;
        }"""
    )
    expect(page.locator(f"{field} input")).to_be_hidden()
    page.locator('#page-errors a[href="#div_id_person-temperature_c"]').click()
    expect(page.locator(f"{field} input")).to_be_focused()


def test_blood_tests_are_asked_once_the_output_is_high(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    fold = page.locator("#q-blood-tests")
    volume = page.locator("[name=output-volume_ml_24h]")
    volume.fill("1499")
    expect(fold).to_be_hidden()
    volume.fill("1500")
    expect(fold).to_be_visible()
    fold.locator("label", has_text="Result known").click()
    volume.fill("900")
    expect(fold).to_be_visible()
    wait_until_saved(page)


def test_the_face_says_and_draws_the_part_of_another_colour(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """As the server does: the words before and after reloading are the same."""
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    page.locator("[name=stoma-colour]").select_option("pink_red")
    page.get_by_role("button", name="Add a part").click()
    row = page.locator('[data-rows="colourpart"] .row')
    row.locator("select").select_option("black_brown_grey")
    for hour in ("3", "4"):
        row.locator(f'label:has(> input[value="{hour}"])').click()
    words = page.locator("#face > .face-stoma-words")
    expect(words).to_have_text("Stoma: pink to red; black, brown or grey at 3 to 4 o'clock")
    drawn = page.locator("#face .face-drawing .face-stoma-parts path")
    expect(drawn).to_have_count(1)
    path = drawn.get_attribute("d")
    wait_until_saved(page)
    page.reload()
    expect(words).to_have_text("Stoma: pink to red; black, brown or grey at 3 to 4 o'clock")
    assert drawn.get_attribute("d") == path
