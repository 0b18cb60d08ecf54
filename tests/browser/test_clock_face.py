"""The drawn clock face: the browser's geometry is the server's, and painting fills the form."""

import json
import random
from itertools import combinations
from typing import Any

import pytest
from django.template.loader import render_to_string
from playwright.sync_api import Page, expect

from clinic.visits.choices import Colour, LumenPosition, SkinKind
from clinic.visits.models import Assessment
from clinic.visits.presenters import face_geometry as geometry
from clinic.visits.presenters.clockface import face_of
from planning.inputs.clock import HOURS, ClockHours
from tests.browser.clock_face_strokes import LIST, drag, open_draft, ticked
from tests.browser.conftest import OpenPage, SmallClinic
from tests.browser.greyscale import grey_of, unlike
from tests.browser.shots import shot
from tests.browser.steps import wait_until_saved

pytestmark = pytest.mark.browser

BANDS = ("separation", "bulge", "erosion_band", "leak")
#: Every single hour, every pair, all round, and seeded sets of every size.
DICE = random.Random(12)  # noqa: S311 - which hours to try, no secret
HOUR_SETS = [
    *([h] for h in HOURS),
    *(list(pair) for pair in combinations(HOURS, 2)),
    *(sorted(DICE.sample(HOURS, size)) for size in range(3, 13) for _ in range(12)),
]
MILLIMETRES = [0, 0.5, 1, 2.5, 7.3, 10, 14, 20, 33.3, 49.9, 50, 80]


def test_geometry_is_the_servers(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """Paths, label spots and words, compared as text with ``face_geometry.py``."""
    radii = [
        (geometry.radius_of(a), geometry.radius_of(b))
        for a, b in combinations(MILLIMETRES, 2)
        if geometry.radius_of(a) < geometry.radius_of(b)
    ]
    cases = [(hours, *pair) for hours in HOUR_SETS for pair in DICE.sample(radii, 6)]
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    found = page.evaluate(
        """async (cases) => {
          const g = await import("/static/js/face-geometry.js");
          return cases.map(([hours, inner, outer]) => [
            g.hoursPath(hours, inner, outer), g.at(g.middleHour(hours), (inner + outer) / 2),
            g.hoursWords(hours)]);
        }""",
        cases,
    )
    for (hours, inner, outer), (path, spot, words) in zip(cases, found, strict=True):
        clock = ClockHours.of(*hours)
        assert path == geometry.hours_path(clock, inner, outer)
        assert tuple(spot) == geometry.at(geometry.middle_hour(clock), (inner + outer) / 2)
        assert words == clock.words()


def test_the_lumen_is_drawn_where_the_server_draws_it(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    cases = [
        (place, hour, across, along, turned)
        for place in ("", *LumenPosition.values)
        for hour in (None, *HOURS)
        for across, along, turned in ((58, 58, 0), (40.25, 58, 0), (58, 31.5, 150))
    ]
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    found = page.evaluate(
        """async (cases) => {
          const g = await import("/static/js/face-geometry.js");
          return cases.map((one) => g.lumenSpot(...one));
        }""",
        cases,
    )
    spots = [geometry.lumen_spot(*case) for case in cases]
    assert [tuple(spot) if spot else None for spot in found] == spots
    page.locator("[name=stoma-lumen][value=off_centre]").check(force=True)
    page.locator("[name=stoma-lumen_hour]").select_option("4")
    drawn_at = page.locator("#face .face-lumen circle")
    x, y = geometry.at(4, geometry.STOMA_RADIUS / 2)
    assert [float(drawn_at.get_attribute(n) or "nan") for n in ("cx", "cy")] == [x, y]
    expect(page.locator("#face > .face-stoma-words")).to_have_text(
        "Stoma: colour not recorded; lumen off-centre, towards 4 o'clock"
    )
    shot(page, "lumen-off-centre")


def test_measures_are_the_servers(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    # PER_MM stays inside its module; SKIN_RADIUS holds it.
    inside = {"HALF", "LABEL_RADIUS", "PER_MM"}
    names = [n for n in vars(geometry) if n.isupper() and n not in inside]
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    found = page.evaluate("import('/static/js/face-geometry.js').then((g) => ({...g}))")
    assert {n: found[n] for n in names} == json.loads(
        json.dumps({n: getattr(geometry, n) for n in names})
    )


def drawn(page: Page) -> dict[str, list[Any]]:
    """The areas, the places of their labels, and the list in words."""
    labels = page.locator(".face-numbers text").all()
    lines = page.locator(LIST).all()
    return {
        "areas": [p.get_attribute("d") for p in page.locator(".face-patches path").all()],
        "labels": [
            (one.text_content(), *(float(one.get_attribute(n) or "nan") for n in "xy"))
            for one in labels
        ],
        "words": [(one.get_attribute("data-mark"), one.text_content()) for one in lines],
    }


def test_painting_by_pointer(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    draft = small_clinic.draft()
    page = open_draft(small_clinic, open_page, draft)
    page.locator("#face-kind").select_option("finding:erosion")
    drag(page, (4, 10), (5, 10), (6, 20), (7, 20))
    assert ticked(page, "finding") == ["4", "5", "6", "7"]
    expect(page.locator(LIST)).to_have_text(
        ["Raw, shallow erosion, 4 to 7 o'clock, 0 to 20 mm out"]
    )
    drag(page, (4, 10))  # painted already: this stroke takes it off
    assert ticked(page, "finding") == ["5", "6", "7"]
    page.get_by_role("button", name="Undo").click()
    assert ticked(page, "finding") == ["4", "5", "6", "7"]
    page.locator("#face-kind").select_option("erosion")
    page.get_by_role("button", name="All round").click()
    assert len(ticked(page, "erosion")) == 12
    page.get_by_role("button", name="Clear", exact=True).click()
    assert ticked(page, "erosion") == []
    wait_until_saved(page)
    row = draft.skin_findings.get()
    assert (row.kind, row.hours, row.inner_mm, row.outer_mm) == ("erosion", [4, 5, 6, 7], 0, 20)


def test_undo_takes_back_the_row_it_made(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    draft = small_clinic.draft()
    page = open_draft(small_clinic, open_page, draft)
    page.locator("#face-kind").select_option("crease")
    drag(page, (3, 20))
    wait_until_saved(page)
    assert page.locator('[data-rows="crease"] [data-row]').count() == 1
    page.get_by_role("button", name="Undo").click()
    assert page.locator('[data-rows="crease"] [data-row]').count() == 0
    assert page.locator(LIST).count() == 0
    wait_until_saved(page)
    assert not draft.crease_rows.exists()


def test_painting_by_keys(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """Going through the kinds with the arrows makes no rows; a stroke makes one."""
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    page.locator("#face-kind").focus()
    for key in ("ArrowDown", "ArrowDown", "ArrowDown", "Enter"):
        page.keyboard.press(key)
    assert page.locator('[data-rows="finding"] [data-row]').count() == 0
    for key in ("ArrowUp", "Space", "ArrowRight", "ArrowRight", "Space", "Backspace"):
        page.keyboard.press(key)
    expect(page.locator(LIST)).to_have_text(["Ulcer, 6 o'clock, 0 to 20 mm out"])
    wait_until_saved(page)


def test_painting_begins_at_the_stoma_unless_said(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = open_draft(small_clinic, open_page, small_clinic.draft())
    away = page.get_by_role("button", name="Away from the stoma")
    page.locator("#face-kind").select_option("finding:erosion")
    drag(page, (6, 30))
    expect(page.locator(LIST)).to_have_text(["Raw, shallow erosion, 6 o'clock, 0 to 30 mm out"])
    page.get_by_role("button", name="Undo").click()
    away.click()
    expect(away).to_have_attribute("aria-pressed", "true")
    drag(page, (6, 30))
    expect(page.locator(LIST)).to_have_text(["Raw, shallow erosion, 6 o'clock, 20 to 30 mm out"])
    # A row that begins away stays so, whatever is pressed when more is painted.
    page.locator('[name^="finding-"][name$="-inner_mm"]').fill("15")
    away.click()
    drag(page, (7, 30))
    expect(page.locator(LIST)).to_have_text(
        ["Raw, shallow erosion, 6 to 7 o'clock, 15 to 30 mm out"]
    )


def test_words_are_the_servers(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """The list beside the face says, before and after a reload, what the server says."""
    draft = small_clinic.draft(leaking=True, finding__itch=True, finding__outer_mm=14.5)
    page = open_draft(small_clinic, open_page, draft)
    for kind, place in (("finding:ulcer", (11, 30)), ("bulge", (2, 50)), ("separation", (9, 10))):
        page.locator("#face-kind").select_option(kind)
        drag(page, place)
    page.locator("#face-kind").select_option("crease")
    drag(page, (3, 20))
    drag(page, (9, 20))
    page.locator('[name^="crease-"][name$="-depth_mm"]').fill("4.5")
    wait_until_saved(page)
    before = drawn(page)
    face = face_of(Assessment.objects.get(pk=draft.pk))
    assert [words for _, words in before["words"]] == face.words
    assert len(face.words) == 7
    page.reload()
    page.wait_for_selector("body.scripted")
    assert drawn(page) == before
    shot(page, "clock-face", whole=False)


def test_drawn_without_scripts_as_with_them(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    draft = small_clinic.draft(leaking=True)
    page = open_draft(small_clinic, open_page, draft)
    plain = open_page(small_clinic.nurse, java_script_enabled=False)
    plain.goto(small_clinic.chart_url(draft))
    assert drawn(plain) == drawn(page)
    assert drawn(page)["words"]


def test_every_kind_has_a_pattern_of_its_own(browser_page: Page) -> None:
    """Rendered without colour, any two patterns differ: no one has to tell red from green."""
    colours = [f"stoma-{colour}" for colour in (*Colour.values, "unknown")]
    kinds = [*SkinKind.values, *BANDS]
    patterns = render_to_string("_components/clock_patterns.html", {"uid": "p"})
    greys = {}
    for kind in (*kinds, *colours):
        assert f'id="p-{kind}"' in patterns
        greys[kind] = grey_of(browser_page, patterns, f"p-{kind}")
    pairs = [*combinations(kinds, 2), *combinations(colours, 2)]
    alike = [(a, b) for a, b in pairs if not unlike(greys[a], greys[b])]
    assert alike == []


WATCH = """() => {
  window.spoken = [];
  const hear = new MutationObserver((records) => {
    const added = records.flatMap((record) => [...record.addedNodes]);
    window.spoken.push(...added.map((node) => node.textContent));
  });
  for (const live of document.querySelectorAll("#face [aria-live]")) {
    hear.observe(live, { childList: true, characterData: true, subtree: true });
  }
}"""


def test_only_what_is_new_on_the_face_is_spoken(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    """A live place that is written again is read out again, at every letter typed elsewhere."""
    page = open_draft(small_clinic, open_page, small_clinic.draft(leaking=True))
    before = page.locator(LIST).all_inner_texts()
    assert len(before) > 1
    page.evaluate(WATCH)
    page.locator("[name=visit-note]").fill("Slept well.")
    assert page.evaluate("window.spoken") == []
    page.locator('label:has(> [name="system-erosion_hours"][value="9"])').click()
    after = page.locator(LIST).all_inner_texts()
    new = [words for words in after if words not in before]
    assert len(new) == 1
    assert [words for words in page.evaluate("window.spoken") if words in after] == new
    wait_until_saved(page)
