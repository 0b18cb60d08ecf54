"""Another change day than planned: what is ordered and printed follows the decision."""

from __future__ import annotations

import csv
import io
from dataclasses import replace

import pytest
from django.template.loader import render_to_string
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.documents.cutting_template.build import cutting_template
from clinic.documents.cutting_template.template_drawing import Side
from clinic.documents.patient_language.localised import texts
from clinic.documents.patient_language.said import english
from clinic.documents.rendering.pdf import pdf_of
from clinic.documents.supply_list.build import Item, SupplyList, supply_list
from clinic.documents.supply_list.csv_file import supply_csv
from clinic.documents.wear_diary.build import diary
from clinic.plans.decided_change_day import days_of
from clinic.visits.models import Assessment
from planning import Plan
from planning.results.plan import Change, ItemKind, Quantity, Reason
from tests.clinic.documents import made_plans, made_visits, paper
from tests.clinic.documents.supply_list.test_build import PLAN as SUPPLIES
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db
OLD = "Change every day."
DAILY = made_plans.item(
    "wear_interval", ItemKind.WEAR, OLD, Change.CHANGE, "Change every day, and at once"
)
CAP = "30 a month (a barrier every day) is over the usual maximum of 20: write the reason"


def line(key: str, text: str, until: int | None, month: int | None, **more: object) -> Quantity:
    return Quantity(key, text, 1.0, "each", until, month, **more)  # type: ignore[arg-type]


#: Worked out for a change every day; 14 days to the next visit.
PLAN: Plan = replace(
    SUPPLIES,
    recommendations=(*SUPPLIES.recommendations, DAILY),
    quantities=(
        line("barrier", "One-piece drainable pouch, flat", 15, 30, code="A4424",
             usual_monthly_maximum=20.0, over_maximum=True, until_at_most=22, cap_note=CAP),
        line("ring", "Mouldable ring", 15, 30, code="A4404", usual_monthly_maximum=10.0,
             over_maximum=True, cap_note=CAP),
        line("powder", "Skin powder", None, None, code="A4371", usual_monthly_maximum=10 / 6),
        line("night_bag", "Bedside drainage bag", 2, 2, code="A4357", usual_monthly_maximum=2.0),
    ),
    notices=(Reason(f"One-piece drainable pouch, flat: {CAP}", ("lcd/maxima",)),),
)  # fmt: skip


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> Assessment:
    made_visits.use_plan(monkeypatch, PLAN)
    return made_visits.assessed()


def signed_with(made: Assessment, **decisions: object) -> SupplyList:
    made_visits.decide(made, PLAN, **decisions)  # type: ignore[arg-type]
    made_visits.sign(made)
    return supply_list(made_visits.decided(made))


def told(listed: SupplyList) -> str:
    html = render_to_string("documents/supply_list/list.html", {"list": listed, "paper": "a4"})
    return paper.whole_text(pdf_of(html))


def items(listed: SupplyList) -> dict[str, Item]:
    return {item.text.split()[-1].rstrip(","): item for item in listed.items}


# --- amounts ------------------------------------------------------------------------------------
def test_as_planned_nothing_is_counted_again(made: Assessment) -> None:
    listed = signed_with(made)
    assert (listed.items[0].amount, listed.items[0].per_month) == ("15 to 22", 30)
    assert listed.change_day == ""


def test_every_two_days_orders_for_two_days(made: Assessment) -> None:
    """14 days by 2 and one spare; 30 by 2."""
    listed = signed_with(made, changed={"wear_interval": "every 2 days"})
    barrier, ring, powder, bag = listed.items
    assert (barrier.amount, barrier.per_month, barrier.over) == ("8", 15, False)
    assert (ring.amount, ring.per_month, ring.over) == ("8", 15, True)
    assert powder.by_feel
    assert (bag.amount, bag.per_month) == ("2", 2)
    assert listed.change_day == "Amounts are for a change every 2 days, as the clinician decided."
    text = told(listed)
    assert listed.change_day in text
    assert "30 a month" not in text
    assert "Mouldable ring: 15 a month, usually at most 10" in text
    assert "One-piece drainable pouch, flat: " not in text


@pytest.mark.parametrize("words", ["every 2 to 3 days", "when the seal lets go", "every 40 days"])
def test_what_cannot_be_read_asks_for_amounts(made: Assessment, words: str) -> None:
    listed = signed_with(made, changed={"wear_interval": words})
    barrier, ring, powder, bag = listed.items
    for item in (barrier, ring):
        assert item.uncounted
        assert (item.amount, item.per_month, item.over, item.by_feel) == ("", None, False, False)
    assert not listed.over
    assert powder.by_feel
    assert bag.amount == "2"
    assert words in listed.change_day
    text = told(listed)
    assert "The number of changes is not known: enter the amounts." in text
    assert "The record must say why" not in text


def test_a_dropped_day_asks_for_amounts(made: Assessment) -> None:
    listed = signed_with(made, dropped=("wear_interval",))
    assert listed.items[0].uncounted
    assert listed.change_day.startswith("The planned change day was dropped.")


def test_the_table_says_what_it_counted(made: Assessment) -> None:
    listed = signed_with(made, changed={"wear_interval": "as she likes"})
    stored = supply_csv(listed, made.visit.patient).decode("utf-8-sig")
    rows = list(csv.DictReader(io.StringIO(stored)))
    assert (rows[0]["until_next_visit"], rows[0]["per_30_days"]) == ("", "")
    assert "enter the amounts" in rows[0]["note"]
    assert "enter the amounts" not in rows[2]["note"]


def test_on_screen(made: Assessment, client: Client) -> None:
    client.force_login(UserFactory.create(role=Role.NURSE))
    signed_with(made, changed={"wear_interval": "as she likes"})
    page = client.get(reverse("documents:supplies", args=[made.uuid])).content.decode()
    assert "The number of changes is not known: enter the amounts." in page
    visit = client.get(reverse("charting:visit", args=[made.visit.uuid])).content.decode()
    assert CAP not in visit


def test_closed_pouches_stay_by_the_day(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two a day, however long the barrier stays."""
    pouch = line("pouch", "Two-piece closed pouch", 30, 60, code="A4419")
    plan = replace(
        PLAN,
        supplies=("soft_convex_shallow", "two_piece", "closed"),
        quantities=(replace(pouch, per_change=2.0),),
    )
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan, changed={"wear_interval": "every 3 days"})
    (item,) = supply_list(made_visits.decided(made)).items
    assert item.per_month == 60


# --- the patient's papers -------------------------------------------------------------------------
@pytest.mark.parametrize("words", ["Every 2 days.", "When the seal lets go."])
def test_no_paper_says_the_old_day(made: Assessment, words: str) -> None:
    signed_with(made, changed={"wear_interval": words})
    decided = made_visits.decided(made)
    sheet = made_visits.sheet_of(made)
    said = " ".join(texts(sheet))
    assert words in said
    template = english(cutting_template(decided, side=Side.FRONT, paper="a4"))
    month = english(diary(made.stoma, month=made.visit.happened_at.date(), paper="a4", large=False))
    for words_of in (said, " ".join(texts(template)), " ".join(texts(month))):
        assert OLD.rstrip(".").lower() not in words_of.lower()


# --- reading ------------------------------------------------------------------------------------
@pytest.mark.parametrize(
    ("words", "days"),
    [
        ("every 2 days", 2),
        ("Change every two days.", 2),
        ("Change on day 3 at the latest, and at once when it itches, burns or leaks", 3),
        ("Keep: change on day 5 at the latest.", 5),
        ("every other day", 2),
        ("daily", 1),
        ("2 days", 2),
        ("weekly", 7),
        ("every 1.5 days", 1.5),
        ("every 14 days", 14),
    ],
)
def test_read_as_days(words: str, days: float) -> None:
    assert days_of(words) == days


@pytest.mark.parametrize(
    "words",
    [
        "every 2 to 3 days",
        "every 2-3 days",
        "2 or 3 days",
        "not every 2 days",
        "every 2 days, on Sundays every day",
        "every 15 days",
        "every 0.5 days",
        "every 0 days",
        "twice a day",
        "two barriers a week",
        "every few days",
        "as before",
        "",
    ],
)
def test_not_read_where_it_may_mean_anything_else(words: str) -> None:
    assert days_of(words) is None
