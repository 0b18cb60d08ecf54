"""A paper diary of thirty rows, by keyboard and by paste; without scripts; two people at once."""

from __future__ import annotations

import time
from datetime import date, timedelta

import pytest
from django.urls import reverse
from django.utils import timezone
from playwright.sync_api import Page, expect

from clinic.visits.models import WornBarrier
from clinic.visits.wear_log.whole_log import log_of
from tests.browser.conftest import DESK, PHONE, OpenPage, SmallClinic, session_of
from tests.browser.keys import Keys
from tests.browser.page_faults import faults_here
from tests.browser.shots import shot
from tests.browser.watch import Watch

pytestmark = pytest.mark.browser

NOT_COUNTED = (
    "Put on 12 Oct 2025 is not counted yet: type o (still on) under Came off, or clear the row."
)
#: Days worn and why each of thirty came off, as such a diary reads.
DIARY = [(3, "p"), (3, "p"), (2, "l"), (3, "p"), (4, "p"), (1, "i"), (3, "p"), (0, "f"), (3, "p")]
THIRTY = [DIARY[n % len(DIARY)] for n in range(29)]


def diary() -> list[tuple[date, date, str]]:
    """Twenty-nine barriers that came off; the thirtieth is still on since yesterday."""
    on = timezone.localdate() - timedelta(days=1 + sum(days for days, _ in THIRTY))
    rows = []
    for days, why in THIRTY:
        rows.append((on, on + timedelta(days=days), why))
        on += timedelta(days=days)
    return rows


def open_log(clinic: SmallClinic, page: Page) -> Page:
    page.goto(clinic.url + reverse("visits:wear_log", args=[clinic.stoma.uuid]))
    return page


def short(day: date, before: date) -> str:
    """As one writes it: the bare day, with the month where it is a new one."""
    if (day.year, day.month) == (before.year, before.month):
        return str(day.day)
    return f"{day.day} {day:%b}".lower()


def test_thirty_rows_by_keyboard(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    """The thirtieth is the barrier still on. A hand at 3 keys a second needs under a minute
    for 180 presses, so more than that fails."""
    keys = Keys(open_log(small_clinic, open_page(small_clinic.nurse)))
    rows = diary()
    begun = time.monotonic()
    first = rows[0][0]
    keys.type(f"{first.day} {first:%b}".lower())
    for number, (on, off, why) in enumerate(rows):
        if number == 0:
            keys.press("Tab")
        keys.type(short(off, on))
        keys.press("Tab")
        keys.type(why)
        keys.press("Enter")
        if number == 12:
            shot(keys.page, "wear-log-typing", whole=False)
    keys.type("o")
    keys.press("Control+Enter")
    expect(keys.page.locator(".message.success")).to_have_text("30 barriers added.")
    seconds = time.monotonic() - begun
    print(f"\nThirty rows: {keys.count} key presses, {seconds:.1f} s scripted")
    assert keys.count <= 180
    log = log_of(small_clinic.stoma)
    assert log is not None
    assert [(b.on, b.off) for b in log[:-1]] == [(on, off) for on, off, _ in rows]
    assert [b.reason[0] for b in log[:-1]] == [why for _, _, why in rows]
    assert (log[-1].on, log[-1].off) == (rows[-1][1], None)
    shot(keys.page, "wear-log-saved")


def test_what_is_understood_is_shown_beside_the_field(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = open_log(small_clinic, open_page(small_clinic.nurse))
    keys = Keys(page)
    row = page.locator(".wear-row").first
    keys.type("yesterday")
    yesterday = timezone.localdate() - timedelta(days=1)
    expect(row.locator(".wear-read").first).to_contain_text(
        f"{yesterday:%a} {yesterday.day} {yesterday:%b}"
    )
    keys.press("Tab")
    keys.type("sometime")
    keys.press("Tab")
    keys.type("x")
    expect(row).to_contain_text("This is not a day.")
    expect(row).to_contain_text("Write one of: p planned")
    expect(row.locator('[data-column="off"]')).to_have_attribute("aria-invalid", "true")
    shot(page, "wear-log-problem", whole=False)
    page.evaluate("window.onbeforeunload = null")


def test_the_day_it_came_off_is_in_the_next_row(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = open_log(small_clinic, open_page(small_clinic.nurse))
    keys = Keys(page)
    keys.type("3 oct 2025")
    keys.press("Tab")
    keys.type("+4")
    keys.press("Tab")
    keys.type("l")
    keys.press("Enter")
    second = page.locator(".wear-row").nth(1)
    expect(second.locator('[data-column="on"]')).to_have_value("7 Oct 2025")
    assert keys.is_at('[data-column="off"]')
    # It can be changed, and what is left open is said.
    keys.press("Shift+Tab")
    keys.type("9 oct 2025")
    keys.press("Tab")
    keys.type("12 oct 2025")
    keys.press("Tab")
    keys.type("p")
    expect(page.locator("#wear-cautions")).to_have_text(
        "Between 7 and 9 October 2025 no barrier is recorded: forgotten, or none worn?"
    )
    # The day that the page filled in is said not to count, before and after saving.
    third = page.locator(".wear-row").nth(2)
    expect(third.locator(".wear-uncounted")).to_have_text(NOT_COUNTED)
    keys.press("Control+Enter")
    expect(page.locator(".message.success")).to_have_text(f"2 barriers added. {NOT_COUNTED}")
    expect(page.locator(".wear-cautions")).to_contain_text("Between 7 and 9 October 2025")
    first = page.locator(".wear-row").nth(0)
    expect(first.locator(".wear-uncounted")).to_have_text(NOT_COUNTED)
    shot(page, "wear-log-uncounted")
    first.locator('[data-column="off"]').fill("o")
    expect(first.locator(".wear-uncounted")).to_be_hidden()


def test_a_row_that_was_cleared_is_not_filled_in_again(
    small_clinic: SmallClinic, open_page: OpenPage
) -> None:
    page = open_log(small_clinic, open_page(small_clinic.nurse))
    rows = page.locator(".wear-row")
    for column, text in (("on", "3 oct 2025"), ("off", "+4"), ("why", "l")):
        rows.nth(0).locator(f'[data-column="{column}"]').fill(text)
    filled = rows.nth(1).locator('[data-column="on"]')
    expect(filled).to_have_value("7 Oct 2025")
    filled.fill("")
    rows.nth(0).locator('[data-column="off"]').fill("+5")
    expect(rows.nth(0).locator(".wear-worn")).to_have_text("5 days")
    expect(filled).to_have_value("")
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".message.success")).to_have_text("1 barrier added.")


def test_pasting_thirty_lines_into_the_grid(small_clinic: SmallClinic, open_page: OpenPage) -> None:
    page = open_log(small_clinic, open_page(small_clinic.nurse))
    words = {"p": "planned", "l": "leaked", "i": "itch", "f": "fell off"}
    lines = ["Put on\tCame off\tReason"]
    lines += [f"{on.isoformat()}\t{off.isoformat()}\t{words[why]}" for on, off, why in diary()]
    lines.append(f"{diary()[-1][1].isoformat()}\t\t")
    begun = time.monotonic()
    page.evaluate(
        """text => {
          const data = new DataTransfer();
          data.setData('text', text);
          document.activeElement.dispatchEvent(
            new ClipboardEvent('paste', {clipboardData: data, bubbles: true, cancelable: true}));
        }""",
        "\n".join(lines),
    )
    expect(page.get_by_text("30 rows to save")).to_be_visible()
    assert WornBarrier.objects.count() == 0
    shot(page, "wear-log-pasted")
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".message.success")).to_have_text("30 barriers added.")
    print(f"\nThirty lines pasted and saved: {time.monotonic() - begun:.1f} s scripted")
    assert WornBarrier.objects.filter(reason="leak").count() == sum(w == "l" for _, w in THIRTY)


def test_without_scripts(small_clinic: SmallClinic, open_page: OpenPage, watch: Watch) -> None:
    watch.expected = ("status of 422",)
    page = open_log(small_clinic, open_page(small_clinic.nurse, java_script_enabled=False))
    rows = page.locator("#wear-rows .wear-row")
    assert rows.count() == 30
    rows.nth(0).locator("input[type=text]").nth(0).fill("3 Oct 2025")
    rows.nth(0).locator("input[type=text]").nth(1).fill("6 Oct 2025")
    rows.nth(0).locator("input[type=text]").nth(2).fill("l")
    rows.nth(1).locator("input[type=text]").nth(1).fill("9")
    rows.nth(1).locator("input[type=text]").nth(2).fill("p")
    page.locator("#wear-save").click()
    # The first day that was left empty is filled in to be looked at, not stored unseen.
    expect(page.get_by_text("A first day was filled in from the row above")).to_be_visible()
    assert WornBarrier.objects.count() == 0
    page.locator("#wear-save").click()
    expect(page.locator(".message.success")).to_have_text("2 barriers added.")
    page.get_by_text("Paste from a spreadsheet").click()
    page.locator("#wear-paste").fill("9 Oct 2025;12 Oct 2025;leak\nwhat is this")
    page.get_by_role("button", name="Read into rows").click()
    expect(page.get_by_text("1 row to save; 1 cannot be read")).to_be_visible()
    assert rows.nth(1).locator("input[type=text]").first.input_value() == "what is this"
    shot(page, "wear-log-no-script")


def test_two_people_at_once(small_clinic: SmallClinic, open_page: OpenPage, watch: Watch) -> None:
    """The second is warned, keeps what was typed, and saves knowingly."""
    watch.expected = ("status of 409",)
    mine = open_log(small_clinic, open_page(small_clinic.nurse))
    hers = open_log(small_clinic, open_page(small_clinic.colleague()))
    Keys(hers).type("3 oct 2025")
    hers.keyboard.press("Control+Enter")
    expect(hers.locator(".message.success")).to_have_text("1 barrier added.")
    keys = Keys(mine)
    keys.type("1 sep 2025")
    keys.press("Tab")
    keys.type("4 sep 2025")
    keys.press("Tab")
    keys.type("p")
    mine.on("dialog", lambda dialog: dialog.accept())
    with mine.expect_response(lambda r: r.request.method == "POST" and "save" in r.url) as got:
        keys.press("Control+Enter")
    assert got.value.status == 409
    expect(mine.get_by_role("alert")).to_contain_text("changed this log")
    expect(mine.get_by_role("alert")).to_contain_text("Fern Larkspur")
    assert WornBarrier.objects.count() == 1
    shot(mine, "wear-log-two-people")
    mine.locator("#wear-save").click()
    expect(mine.locator(".message.success")).to_have_text("1 barrier added.")
    assert WornBarrier.objects.count() == 2


def test_a_session_that_ran_out_costs_nothing_typed(
    small_clinic: SmallClinic, open_page: OpenPage, watch: Watch
) -> None:
    watch.expected = ("status of 403", "Failed to fetch", "net::")
    page = open_log(small_clinic, open_page(small_clinic.nurse))
    keys = Keys(page)
    keys.type("3 oct 2025")
    page.context.clear_cookies()
    keys.press("Control+Enter")
    expect(page.get_by_role("alert")).to_contain_text("Sign in in another tab")
    shot(page, "wear-log-signed-out", whole=False)
    page.context.add_cookies([session_of(small_clinic.nurse, small_clinic.url)])
    page.locator("#wear-save").click()
    expect(page.locator(".message.success")).to_have_text("1 barrier added.")


@pytest.mark.parametrize("screen", [DESK, PHONE], ids=["desk", "phone"])
def test_the_page_at_both_widths(
    small_clinic: SmallClinic, open_page: OpenPage, screen: dict[str, int]
) -> None:
    for on, off, why in diary()[:8]:
        reasons = {"p": "planned", "l": "leak", "i": "itch_or_pain", "f": "fell_off"}
        WornBarrier.objects.create(
            stoma=small_clinic.stoma,
            on=on,
            off=off,
            reason=reasons[why],
            entered_by=small_clinic.nurse,
        )
    small_clinic.draft(leaking=True)
    page = open_log(small_clinic, open_page(small_clinic.nurse, viewport=screen))
    page.get_by_text("Correct or remove").click()
    page.evaluate("document.querySelectorAll('details').forEach((d) => { d.open = true; })")
    assert faults_here(page) == []
    shot(page, "wear-log")
