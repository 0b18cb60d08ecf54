"""The trend page in a browser: exact values by pointer and by keys, pictures to compare, a phone,
and no scripts at all."""

from __future__ import annotations

import re

import pytest
from django.utils import timezone
from playwright.sync_api import Locator, Page, expect

from clinic.accounts.models import Role
from clinic.patients.models import Stoma
from clinic.visits.models import Visit
from fixtures.invented_clinic.load import load
from tests.browser.conftest import DESK, PHONE, OpenPage, SmallClinic
from tests.browser.page_faults import faults_here
from tests.browser.shots import shot
from tests.clinic.trends.seen_stomas import HEIGHTS, seen
from tests.factories.accounts import UserFactory
from tests.factories.visits import HAPPENED_AT, AssessmentFactory, PhotoFactory, VisitFactory

pytestmark = pytest.mark.browser


def opened(clinic: SmallClinic, open_page: OpenPage, **options: object) -> Page:
    """The trend of the clinic's stoma, four times seen."""
    seen(clinic.stoma, 4, clinician=clinic.nurse)
    page = open_page(clinic.nurse, **options)
    page.goto(f"{clinic.url}/trends/{clinic.stoma.uuid}/")
    return page


def marks(page: Page, track: str) -> Locator:
    return page.locator(f'.trend-figure:visible .trend-mark[data-track="{track}"]')


def tip(page: Page) -> Locator:
    return page.locator(".trend-figure:visible .trend-tip")


def test_arrows_go_along_a_series_and_say_each_value(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = opened(small_clinic, open_page)
    heights = marks(page, "protrusion")
    heights.last.focus()
    for height in reversed(HEIGHTS):
        expect(tip(page)).to_contain_text(f"protrusion {height} mm")
        expect(page.locator(":focus")).to_have_attribute("data-value", str(height))
        page.keyboard.press("ArrowLeft")
    expect(page.locator(":focus")).to_have_attribute("data-number", "0")  # no further
    page.keyboard.press("End")
    expect(tip(page)).to_contain_text(f"protrusion {HEIGHTS[-1]} mm")
    page.keyboard.press("ArrowDown")
    expect(page.locator(":focus")).to_have_attribute("data-track", "length")
    day = heights.last.get_attribute("data-day")
    expect(page.locator(":focus")).to_have_attribute("data-day", str(day))


def test_each_series_is_one_stop_for_the_tab_key(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = opened(small_clinic, open_page)
    stops = page.locator(".trend-figure .trend-mark[tabindex='0']")
    tracks = stops.evaluate_all("(marks) => marks.map((m) => m.dataset.track)")
    assert len(tracks) == len(set(tracks)) >= 7
    stops.first.focus()
    for track in tracks:
        expect(page.locator(":focus")).to_have_attribute("data-track", track)
        page.keyboard.press("Tab")


def test_what_a_mark_says_stays_can_be_pointed_at_and_goes_with_escape(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """WCAG 2.2, 1.4.13."""
    page = opened(small_clinic, open_page)
    marks(page, "output").first.hover()
    expect(tip(page)).to_have_text(f"6 May {HAPPENED_AT.year}: output 700 mL/24 h")
    box = tip(page).bounding_box()
    assert box is not None
    page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2, steps=4)
    page.wait_for_timeout(600)  # longer than it takes to go away
    expect(tip(page)).to_be_visible()
    page.keyboard.press("Escape")
    expect(tip(page)).to_be_hidden()
    marks(page, "output").last.hover()
    expect(tip(page)).to_be_visible()
    page.mouse.move(2, 2)
    expect(tip(page)).to_be_hidden()


def test_escape_closes_while_the_keys_stay_on_the_mark(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = opened(small_clinic, open_page)
    marks(page, "bars").first.focus()
    expect(tip(page)).to_contain_text("barrier worn 3 days")
    page.keyboard.press("Escape")
    expect(tip(page)).to_be_hidden()
    expect(page.locator(":focus")).to_have_attribute("data-track", "bars")


def test_marks_are_said_once(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """The browser's own hint would show beside ours."""
    page = opened(small_clinic, open_page)
    assert page.locator(".trend-mark title").count() == 0
    unnamed = page.locator(".trend-mark:not([aria-label])")
    expect(unnamed).to_have_count(0)


def test_a_finger_gets_the_value_on_a_phone(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    page = opened(small_clinic, open_page, viewport=PHONE, has_touch=True)
    marks(page, "protrusion").first.tap()
    expect(tip(page)).to_contain_text("protrusion 24 mm")
    box = tip(page).bounding_box()
    assert box is not None
    assert box["x"] >= 0
    assert box["x"] + box["width"] <= PHONE["width"]


@pytest.mark.parametrize("viewport", [DESK, PHONE], ids=["desk", "phone"])
def test_nothing_sideways_unlabelled_or_too_small(
    small_clinic: SmallClinic, open_page: OpenPage, viewport: dict[str, int]
) -> None:
    photos(small_clinic)
    page = opened(small_clinic, open_page, viewport=viewport)
    shot(page, "trend")
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    page.get_by_role("button", name="Laid over").click()
    assert page.locator(".table-wrap:not([tabindex='0'][role=region][aria-label])").count() == 0
    assert faults_here(page) == []
    letters = page.locator(".trend-figure:visible text").first.evaluate(
        "(text) => text.getBoundingClientRect().height"
    )
    assert letters >= 10


# --- pictures -------------------------------------------------------------------------------
def photos(clinic: SmallClinic) -> None:
    """Three signed visits with a picture each."""
    for number in range(3):
        happened = HAPPENED_AT.replace(day=10 + number)
        visit = VisitFactory.create(patient=clinic.patient, happened_at=happened)
        assessment = AssessmentFactory.create(stoma=clinic.stoma, visit=visit)
        PhotoFactory.create(assessment=assessment)
        signed = {"state": "signed", "signed_at": happened, "signed_by": clinic.nurse}
        Visit.objects.filter(pk=visit.pk).update(**signed)


def unfold(page: Page) -> None:
    page.locator("summary", has_text="photos, two compared").click()


def seam(page: Page) -> str:
    picture = page.locator('figure[data-side="second"] img')
    found = re.findall(r"[\d.]+%", picture.evaluate("(img) => getComputedStyle(img).clipPath"))
    return found[-1] if found else ""


def test_the_slider_by_keys_and_without_dragging(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    photos(small_clinic)
    page = opened(small_clinic, open_page)
    unfold(page)
    assert seam(page) == ""
    page.get_by_role("button", name="Laid over").click()
    slider = page.get_by_role("slider")
    slider.focus()
    assert seam(page) == "50%"
    page.keyboard.press("ArrowRight")
    assert seam(page) == "45%"
    page.get_by_role("button", name="Second only").click()
    assert seam(page) in {"0%", ""}
    expect(slider).to_have_value("100")
    page.get_by_role("button", name="First only").click()
    assert seam(page) == "100%"
    boxes = [page.locator(f'figure[data-side="{s}"] img').bounding_box() for s in
             ("first", "second")]  # fmt: skip
    assert boxes[0] == boxes[1]
    page.get_by_role("button", name="Side by side").click()
    assert seam(page) == ""


def test_another_picture_is_chosen_in_place(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    photos(small_clinic)
    page = opened(small_clinic, open_page)
    address = page.url
    unfold(page)
    page.get_by_label("First picture").select_option(index=1)
    figure = page.locator('figure[data-side="first"]')
    expect(figure.locator("figcaption")).to_contain_text(f"11 May {HAPPENED_AT.year}")
    expect(figure.locator("img")).to_have_attribute("alt", re.compile("11 May"))
    assert figure.locator("img").evaluate("(img) => img.decode().then(() => img.naturalWidth > 0)")
    assert page.url == address


# --- without scripts ------------------------------------------------------------------------
def test_without_scripts_figure_table_and_both_pictures_are_there(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    photos(small_clinic)
    page = opened(small_clinic, open_page, java_script_enabled=False)
    expect(page.locator("#course-protrusion svg")).to_be_visible()
    unfold(page)
    expect(page.get_by_role("slider")).to_have_count(0)
    expect(page.locator(".compare img")).to_have_count(2)
    page.locator("#values > summary").click()
    expect(page.get_by_role("cell", name="24 mm", exact=True)).to_be_visible()
    page.get_by_label("First picture").select_option(index=1)
    page.get_by_role("button", name="Show these two").click()
    expect(page.locator('figure[data-side="first"]')).to_contain_text("11 May")
    expect(page.locator(".compare-fold")).to_have_attribute("open", "")


def test_without_scripts_the_whole_course_and_each_verdict_are_a_press_away(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    seen(small_clinic.stoma, 8, clinician=small_clinic.nurse)
    page = open_page(small_clinic.nurse, java_script_enabled=False)
    page.goto(f"{small_clinic.url}/trends/{small_clinic.stoma.uuid}/")
    expect(page.get_by_role("heading", name="Course: the last six visits")).to_be_visible()
    expect(marks(page, "protrusion")).to_have_count(6)
    page.get_by_role("link", name="Whole course").click()
    expect(page.get_by_role("heading", name="Course: the whole course")).to_be_visible()
    expect(marks(page, "protrusion")).to_have_count(8)
    page.get_by_role("link", name="Only the recent part").click()
    expect(marks(page, "protrusion")).to_have_count(6)
    row = page.locator(".outcomes tbody tr").first
    expect(row.locator("details > p").first).to_be_hidden()
    row.locator("summary").click()
    expect(row.locator("details > p").first).to_be_visible()


# --- one minute, two years ----------------------------------------------------------------------
#: Screens of the whole page, and words of the first one beside the drawing.
LIMITS = [pytest.param(DESK, 4, 120, id="desk"), pytest.param(PHONE, 8, 100, id="phone")]
WORDS = """() => {
  const walker = document.createTreeWalker(document.querySelector("main"), NodeFilter.SHOW_TEXT);
  const words = [];
  while (walker.nextNode()) {
    const text = walker.currentNode;
    const element = text.parentElement;
    if (element.closest("svg, script, .visually-hidden")) continue;
    if (!element.checkVisibility({ visibilityProperty: true })) continue;
    const range = document.createRange();
    range.selectNodeContents(text);
    const box = range.getBoundingClientRect();
    if (!box.width || box.top >= window.innerHeight) continue;
    words.push(...text.textContent.split(/\\s+/).filter((word) => /[A-Za-z]/.test(word)));
  }
  return words.length;
}"""
#: Texts and marks of the drawing that lie on one another, as the browser sets its own type. The
#: box of a text has room above and below its letters.
LYING = """() => {
  const found = [];
  for (const svg of document.querySelectorAll(".trend-figure svg")) {
    const box = (element, up) => {
      const { left, right, top, bottom } = element.getBoundingClientRect();
      return { left: left + 1, right: right - 1, top: top + up, bottom: bottom - up };
    };
    const shape = (mark) => mark.querySelector(":scope > :not(title, .trend-hit)") || mark;
    const texts = [...svg.querySelectorAll("text")].filter((t) => t.textContent.trim() !== "?");
    const marks = [...svg.querySelectorAll(".trend-mark, .trend-echo")];
    const things = [
      ...texts.map((t) => ({ what: t.textContent, ...box(t, 3) })),
      ...marks.map((m) => ({ what: m.dataset.track || "echo", mark: true, ...box(shape(m), 1) })),
    ];
    things.forEach((a, n) => {
      for (const b of things.slice(n + 1)) {
        const beside = a.right <= b.left || b.right <= a.left;
        const apart = beside || a.bottom <= b.top || b.bottom <= a.top;
        if (!apart && !(a.mark && b.mark)) found.push(`${a.what} on ${b.what}`);
      }
    });
  }
  return found;
}"""


@pytest.fixture
def two_years(small_clinic: SmallClinic) -> str:
    """Address of the trend of somebody seen for two years, with a diary, photos and questions."""
    load(timezone.now(), courses=["two_years"])
    (stoma,) = Stoma.objects.exclude(pk=small_clinic.stoma.pk)
    first, last = (
        stoma.assessments.order_by(by).first().visit.happened_at  # type: ignore[union-attr]
        for by in ("visit__happened_at", "-visit__happened_at")
    )
    assert (last - first).days > 690
    return f"{small_clinic.url}/trends/{stoma.uuid}/"


@pytest.mark.parametrize(("viewport", "screens", "words"), LIMITS)
def test_two_years_in_a_minute(
    two_years: str, open_page: OpenPage, viewport: dict[str, int], screens: int, words: int
) -> None:
    page = open_page(UserFactory.create(role=Role.SURGEON), viewport=viewport)
    page.goto(two_years)
    shot(page, "trend-two-years")
    assert 30 < page.evaluate(WORDS) <= words
    lines = page.locator(".minute-line")
    expect(lines.locator("h2")).to_have_text(
        ["What changed", "Did the last change help", "What is asked of me"]
    )
    for line in lines.all():
        box = line.bounding_box()
        assert box is not None
        assert box["y"] + box["height"] <= viewport["height"]
        assert len(figures_of(line.locator("p").inner_text())) <= 3
    expect(lines.last.get_by_role("link", name="Answer")).to_be_visible()
    expect(lines.last).to_contain_text("5 answers received")
    for address in ("", "?course=whole"):
        page.goto(two_years + address)
        assert (
            page.evaluate("document.documentElement.scrollHeight") <= screens * viewport["height"]
        )
        assert page.evaluate(LYING) == []


def figures_of(line: str) -> list[str]:
    """Numbers of a line; a day and the name of a plan are none."""
    return re.findall(r"\d[\d.,]*", re.sub(r"\d+ [A-Z][a-z]{2} \d{4}|Plan \d+", "", line))


def test_nothing_sideways_however_narrow_and_wide_tables_by_keyboard(
    two_years: str, open_page: OpenPage
) -> None:
    page = open_page(UserFactory.create(role=Role.SURGEON), viewport=PHONE)
    for width in (320, 390):
        page.set_viewport_size({"width": width, "height": 844})
        page.goto(two_years)
        page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
        assert page.evaluate("document.documentElement.scrollWidth") <= width
    table = page.get_by_role("region", name="Found at each visit")
    table.focus()
    page.keyboard.press("ArrowRight")
    page.wait_for_function("(table) => table.scrollLeft > 0", arg=table.element_handle())
