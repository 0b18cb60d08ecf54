"""The plan beside the visit: nothing entered in it is lost, nothing unseen is pressed, and what
cannot wait is seen from anywhere on the page."""

import pytest
from playwright.sync_api import Locator, Page, Route, expect

from clinic.plans.models import Decision
from clinic.visits.choices import VisitState
from clinic.visits.models import Assessment
from tests.browser.clock_face_strokes import open_draft
from tests.browser.conftest import DESK, PHONE, OpenPage, SmallClinic
from tests.browser.shots import shot
from tests.browser.steps import open_all, wait_until_saved
from tests.browser.watch import Watch
from tests.clinic.plans.signed_visits import accept

pytestmark = pytest.mark.browser

NOTE = "[name=visit-note]"


@pytest.fixture
def draft(small_clinic: SmallClinic) -> Assessment:
    return small_clinic.draft(leaking=True)


@pytest.fixture
def page(small_clinic: SmallClinic, open_page: OpenPage, draft: Assessment) -> Page:
    return open_draft(small_clinic, open_page, draft)


def choice(page: Page, card: int, value: str) -> Locator:
    """One of a card's buttons, as a hand sees it once the card is opened for something else."""
    return inside(page.locator("#plan article:not(.kept-fold article)").nth(card), value)


def inside(article: Locator, value: str) -> Locator:
    """The same of a card at hand."""
    if article.locator(".exception[open]").count() == 0:
        article.locator(".exception > summary").click()
    return article.locator(f'label:has(> input[value="{value}"])')


def begin_reason(page: Page, text: str) -> Locator:
    """Drop one thing and begin to say why; the plan that answers waits, the hand being in it."""
    choice(page, 1, "dropped").click()
    expect(page.locator("#save-status")).to_contain_text("1 entry to correct")
    card = page.locator("#plan article:not(.kept-fold article)").nth(1)
    box = card.locator('input[name$="-reason"]')
    with page.expect_response("**/save/"):
        box.press_sequentially(text)
    wait_until_saved(page)
    return box


def test_words_typed_behind_an_answer_are_kept(page: Page) -> None:
    box = begin_reason(page, "too")
    page.keyboard.type(" dear for them")
    page.keyboard.press("Tab")
    wait_until_saved(page)
    expect(box).to_have_value("too dear for them")
    assert Decision.objects.get(choice="dropped").reason == "too dear for them"


def test_a_press_on_another_card_is_kept(page: Page) -> None:
    begin_reason(page, "too dear")
    choice(page, 2, "accepted").click(delay=80)
    wait_until_saved(page)
    expect(choice(page, 2, "accepted").locator("input")).to_be_checked()
    assert Decision.objects.filter(choice="accepted").count() == 1


def test_a_plan_not_looked_at_is_not_signed(page: Page, draft: Assessment) -> None:
    accept(draft)
    page.reload()
    open_all(page)
    expect(page.locator(".plan-count")).to_have_text("All decided")
    page.locator("[name=stoma-colour]").select_option("black_brown_grey")
    page.get_by_role("button", name="Sign visit").click()
    expect(page.locator("#plan-notice")).to_contain_text("The plan changed with your last entries")
    expect(page.locator("#plan .card").first).to_be_in_viewport()
    draft.visit.refresh_from_db()
    assert draft.visit.state == VisitState.DRAFT
    # Looked at, it can be accepted; what is typed just before and changes nothing is no hindrance.
    page.locator(NOTE).fill("Sent to the ward.")
    page.locator('[value="accept-rest"]').click()
    expect(page.locator(".plan-count")).to_have_text("All decided")
    draft.visit.refresh_from_db()
    assert draft.visit.note == "Sent to the ward."


@pytest.mark.parametrize("screen", [DESK, PHONE], ids=["desk", "phone"])
def test_an_emergency_is_seen_from_anywhere(
    small_clinic: SmallClinic, open_page: OpenPage, screen: dict[str, int]
) -> None:
    page = open_page(small_clinic.nurse, viewport=screen)
    page.goto(small_clinic.chart_url(small_clinic.draft(leaking=True)))
    open_all(page)
    alarm = page.locator("#alarm a")
    expect(alarm).to_have_count(0)
    page.locator("[name=stoma-colour]").select_option("black_brown_grey")
    for _ in range(2):  # as it comes, and after a reload
        expect(alarm).to_contain_text("Emergency")
        page.evaluate("window.scrollTo(0, 0)")
        expect(alarm).to_be_in_viewport()
        shot(page, "emergency", whole=False)
        page.reload()
    open_all(page)
    alarm.click()
    expect(page.locator("#plan .plan-headline")).to_be_in_viewport()
    page.locator("[name=stoma-colour]").select_option("pink_red")
    expect(alarm).to_have_count(0)


def test_one_save_at_a_time(page: Page, draft: Assessment) -> None:
    """Two that wait for the one under way do not both go on."""
    held: list[Route] = []

    def hold_the_first(route: Route) -> None:
        held.append(route)
        if len(held) > 1:
            route.continue_()

    page.route("**/save/", hold_the_first)
    page.locator(NOTE).fill("one")
    expect(page.locator("#save-status")).to_have_text("Saving…")
    page.locator("[name=visit-reason_words]").fill("two")
    page.keyboard.press("Enter")
    page.keyboard.press("Enter")
    held[0].continue_()
    wait_until_saved(page)
    page.wait_for_timeout(500)
    assert len(held) == 2
    draft.visit.refresh_from_db()
    assert (draft.visit.note, draft.visit.reason_words) == ("one", "two")


def test_an_answer_the_page_cannot_show_does_not_end_the_saving(
    page: Page, draft: Assessment, watch: Watch
) -> None:
    version = page.locator("[name=version]").input_value()
    answer = {"version": version, "errors": None}
    page.route("**/save/", lambda route: route.fulfill(json=answer), times=1)
    page.locator(NOTE).fill("one")
    expect(page.locator("#save-status")).to_contain_text("please reload")
    assert watch.amiss
    watch.amiss.clear()
    page.locator(NOTE).fill("two")
    wait_until_saved(page)
    draft.visit.refresh_from_db()
    assert draft.visit.note == "two"


def test_each_field_of_a_decision_says_one_thing(page: Page) -> None:
    """Another date for the next visit, without the date: what is missing, and not twice."""
    card = page.locator("#decision-follow_up")
    inside(card, "changed").click()
    expect(page.locator("#save-status")).to_contain_text("2 entries to correct")
    expect(card.locator(".field-error")).to_have_text(
        ["Write what instead.", "Write why, in a few words."]
    )


def test_what_is_kept_is_signed_together_but_for_what_is_changed(
    page: Page, draft: Assessment
) -> None:
    """One thing is dropped, with its reason; the signature accepts the others."""
    card = page.locator("#decision-flat_flexible")
    expect(card).to_be_hidden()
    page.locator(".kept-fold > summary").click()
    inside(card, "dropped").click()
    expect(card.locator(".field-error")).to_have_text("Write why, in a few words.")
    card.locator('input[name$="-reason"]').fill("He has some of another.")
    page.keyboard.press("Tab")
    expect(card.locator(".card-decided")).to_contain_text("Not today")
    page.locator('[value="accept-rest"]').click()
    expect(page.locator(".plan-count")).to_have_text("All decided")
    assert not Decision.objects.filter(key="drainable").exists()
    page.get_by_role("button", name="Sign visit").click()
    expect(page.get_by_text("Signed by")).to_be_visible()
    chosen = dict(Decision.objects.values_list("key", "choice"))
    assert chosen["flat_flexible"] == "dropped"
    assert {chosen["drainable"], chosen["one_piece"]} == {"accepted"}


def test_one_press_accepts_and_one_signs(page: Page, draft: Assessment) -> None:
    """A leaking stoma, once it is charted: no more than these two."""
    page.get_by_role("button", name="Accept this plan").click()
    expect(page.locator(".plan-count")).to_have_text("All decided")
    assert set(Decision.objects.values_list("choice", flat=True)) == {"accepted"}
    assert None not in set(Decision.objects.values_list("decided_at", flat=True))
    page.get_by_role("button", name="Sign visit").click()
    expect(page.get_by_text("Signed by")).to_be_visible()


@pytest.mark.parametrize("screen", [DESK, PHONE], ids=["desk", "phone"])
def test_another_size_is_chosen_and_the_plan_made_again(
    small_clinic: SmallClinic, open_page: OpenPage, draft: Assessment, screen: dict[str, int]
) -> None:
    page = open_page(small_clinic.nurse, viewport=screen)
    page.goto(small_clinic.chart_url(draft))
    page.wait_for_selector("body.scripted")
    shot(page, "plan-leaking", whole=False)
    card = page.locator("#decision-opening")
    inside(card, "changed").click()
    card.locator("select").select_option("gap:2.5")
    card.locator('input[name$="-reason"]').fill("Her stoma swells in the evening.")
    page.keyboard.press("Tab")
    expect(page.locator("#plan-changed")).to_contain_text("Plan changed")
    expect(card.locator(".card-text")).to_contain_text("2.5 mm beyond the stoma")
    expect(card.locator(".card-decided")).to_contain_text("Chosen instead of")
    shot(page, "plan-chosen", whole=False)
    row = Decision.objects.get(key="opening")
    assert (row.choice, row.chosen) == ("changed", "gap:2.5")
    page.get_by_role("button", name="Accept the rest").click()
    expect(page.locator(".plan-count")).to_have_text("All decided")


def test_while_it_is_worked_out_again_nothing_in_it_is_pressed(
    page: Page, draft: Assessment
) -> None:
    held: list[Route] = []

    def hold_the_first(route: Route) -> None:
        held.append(route)
        if len(held) > 1:
            route.continue_()

    page.route("**/save/", hold_the_first)
    accept_all = page.locator("#accept-rest")
    expect(accept_all).to_be_enabled()
    page.locator("[name=stoma-colour]").select_option("dusky")
    expect(page.locator("#plan")).to_have_attribute("aria-busy", "true")
    expect(page.locator(".plan-busy")).to_be_visible()
    expect(accept_all).to_be_disabled()
    accept_all.click(force=True)
    accept_all.press("Enter")
    page.wait_for_timeout(300)
    assert not Decision.objects.exists()
    expect(page.locator("#plan-changed")).to_have_text("")
    held[0].continue_()
    expect(page.locator("#plan")).to_have_attribute("aria-busy", "false")
    expect(page.locator("#plan-changed")).to_contain_text("Plan changed: danger")
    expect(page.locator("#accept-rest")).to_be_enabled()
    assert not Decision.objects.exists()


def test_what_changed_is_said_once_and_nothing_where_nothing_did(page: Page) -> None:
    line = page.locator("#plan-changed")
    expect(line).to_have_attribute("aria-live", "polite")
    page.locator(NOTE).fill("Came with her daughter.")
    wait_until_saved(page)
    expect(line).to_have_text("")
    page.locator("[name=stoma-length_mm]").fill("40")
    page.locator("[name=stoma-width_mm]").fill("40")
    page.keyboard.press("Tab")
    expect(line).to_contain_text("Plan changed:")
    expect(line).to_contain_text("to decide")


@pytest.mark.parametrize("screen", [DESK, PHONE], ids=["desk", "phone"])
def test_before_anything_is_charted_nothing_is_asked(
    small_clinic: SmallClinic, open_page: OpenPage, screen: dict[str, int]
) -> None:
    page = open_page(small_clinic.nurse, viewport=screen)
    page.goto(small_clinic.chart_url(small_clinic.draft()))
    page.wait_for_selector("body.scripted")
    expect(page.locator(".plan-empty")).to_be_visible()
    expect(page.locator("#plan article, #accept-rest")).to_have_count(0)
    page.locator("#plan").scroll_into_view_if_needed()
    shot(page, "plan-empty", whole=False)
