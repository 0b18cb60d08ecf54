"""The leaf about living with a stoma: what it says to whom, and when it is given."""

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.documents.living import words
from clinic.documents.living.build import leaf
from clinic.documents.living.due import CHANGED, NOT_GIVEN, why_due, why_none
from clinic.documents.models import PrintedDocument
from clinic.documents.patient_language.said import said
from clinic.plans import living as guards
from clinic.plans.living import Living, living_of
from clinic.plans.plan_with_decisions import DecidedPlan
from clinic.visits.models import Assessment
from planning.facts.derive import Facts, derive
from planning.inputs.findings import (
    Abdomen,
    Findings,
    History,
    Measurement,
    Output,
    Person,
    Stoma,
    StomaKind,
)
from planning.recommendations.blockage import FIRST_AID, MASSAGE
from planning.results.plan import Urgency
from tests.clinic.documents import made_visits, paper
from tests.clinic.documents.made_plans import EMERGENCY, LEAK, flag
from tests.factories.accounts import UserFactory

pytestmark = pytest.mark.django_db


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> Assessment:
    made_visits.use_plan(monkeypatch, LEAK)
    found = made_visits.assessed()
    made_visits.decide(found, LEAK)
    return found


def lines(decided: DecidedPlan) -> list[str]:
    told = said(leaf(decided, paper="a4", large=False), "en")
    return [line for part in told.parts for line in part.lines]


def of_kind(made: Assessment, kind: str) -> list[str]:
    decided = made_visits.decided(made)
    decided.assessment.stoma.kind = kind
    return lines(decided)


@pytest.mark.parametrize("kind", ["ileostomy", "colostomy", "urostomy", "jejunostomy"])
def test_every_kind_has_what_every_day_needs(made: Assessment, kind: str) -> None:
    told = of_kind(made, kind)
    for needed in (*words.EMPTY, *words.CHANGE, *words.THROW_AWAY, *words.WASH, *words.ORDER):
        assert needed in told
    assert (words.NO_LAXATIVE in told) == (kind in {"ileostomy", "jejunostomy"})


def test_drinks_are_of_the_kind(made: Assessment) -> None:
    assert words.DRINK_ILEOSTOMY in of_kind(made, "ileostomy")
    assert words.FIBRE in of_kind(made, "colostomy")
    assert words.DRINK_UROSTOMY in of_kind(made, "urostomy")


def with_guards(monkeypatch: pytest.MonkeyPatch, **given: Any) -> None:
    usual = Living(limited=False, plan_first=False, first_aid=())
    monkeypatch.setattr(
        "clinic.documents.living.build.living_of", lambda _decided: replace(usual, **given)
    )


@pytest.mark.parametrize("kind", ["ileostomy", "colostomy", "urostomy", "jejunostomy"])
@pytest.mark.parametrize("given", [{"limited": True}, {"plan_first": True}])
def test_nobody_is_told_to_drink_against_plan_or_limit(
    monkeypatch: pytest.MonkeyPatch, made: Assessment, kind: str, given: dict[str, bool]
) -> None:
    with_guards(monkeypatch, **given)
    told = of_kind(made, kind)
    assert not {words.DRINK_ILEOSTOMY, words.FIBRE, words.DRINK_UROSTOMY, words.SALT} & set(told)
    assert (words.LIMITED in told) == bool(given.get("limited"))
    assert (words.PLAN_FIRST in told) == bool(given.get("plan_first"))


def test_who_may_not_treat_a_blockage_calls(
    monkeypatch: pytest.MonkeyPatch, made: Assessment
) -> None:
    with_guards(monkeypatch)
    assert set(words.CALL_FIRST) <= set(of_kind(made, "ileostomy"))
    with_guards(monkeypatch, first_aid=FIRST_AID)
    told = of_kind(made, "ileostomy")
    assert set(FIRST_AID) <= set(told)
    assert not set(words.CALL_FIRST) & set(told)
    assert not set(FIRST_AID) & set(of_kind(made, "colostomy"))


def facts(**given: Any) -> Facts:
    """Of somebody who may treat a blockage, but for what is ``given``."""
    found = Findings(
        stoma=Stoma(kind=StomaKind.ILEOSTOMY, days_since_surgery=400),
        measurement=Measurement(prolapse=()),
        person=Person(),
        abdomen=Abdomen(bulges=()),
        wounds=(),
    )
    return derive(replace(found, **given), History())


def test_first_aid_is_for_who_may_have_it() -> None:
    assert guards._first_aid(facts()) == FIRST_AID
    assert MASSAGE not in guards._first_aid(facts(wounds=None))


@pytest.mark.parametrize(
    "given",
    [
        {"stoma": Stoma(kind=StomaKind.COLOSTOMY, days_since_surgery=400)},
        {"stoma": Stoma(kind=StomaKind.ILEOSTOMY, days_since_surgery=42)},
        {"stoma": Stoma(kind=StomaKind.ILEOSTOMY, days_since_surgery=None)},
        {"measurement": Measurement()},
        {"abdomen": Abdomen()},
    ],
)
def test_what_is_not_known_forbids_first_aid(given: dict[str, Any]) -> None:
    assert guards._first_aid(facts(**given)) == ()


def test_much_output_keeps_the_leaf_silent() -> None:
    assert guards._much(facts(output=Output(volume_ml_24h=1000)))
    assert not guards._much(facts(output=Output(volume_ml_24h=990)))
    assert not guards._much(facts())


@pytest.mark.parametrize(
    ("key", "urgency", "silent"),
    [
        ("high_output", Urgency.TELEPHONE, True),
        ("mole", Urgency.TWO_WEEKS, False),
        ("mole", Urgency.SAME_DAY, True),
    ],
)
def test_a_danger_about_food_and_drink_comes_first(
    monkeypatch: pytest.MonkeyPatch, key: str, urgency: Urgency, silent: bool
) -> None:
    plan = replace(LEAK, red_flags=(flag(urgency, "Something.", key),))
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    assert living_of(made_visits.all_accepted(plan, made_visits.fresh(made))).plan_first is silent


def printed(client: Client, made: Assessment, **asked: str) -> Any:
    client.force_login(UserFactory.create(role=Role.NURSE))
    return client.get(reverse("documents:living", args=[made.uuid]), asked)


def test_it_is_due_at_first_and_when_it_changes(
    client: Client, monkeypatch: pytest.MonkeyPatch, made: Assessment
) -> None:
    assert why_due(made_visits.decided(made)) == NOT_GIVEN
    assert printed(client, made).status_code == 200
    assert why_due(made_visits.decided(made)) == ""
    with_guards(monkeypatch, limited=True)
    assert why_due(made_visits.decided(made)) == CHANGED
    printed(client, made)
    assert why_due(made_visits.decided(made)) == ""
    assert PrintedDocument.objects.values_list("content", flat=True).distinct().count() == 2


def test_not_where_somebody_looks_today(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = replace(LEAK, red_flags=(flag(Urgency.SAME_DAY, "Come today.", "dry"),))
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    assert why_due(made_visits.decided(made)) == ""
    assert why_none(made_visits.decided(made)) == ""


def test_not_in_an_emergency_and_not_for_a_child(
    client: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    made_visits.use_plan(monkeypatch, EMERGENCY)
    made = made_visits.assessed()
    answer = printed(client, made)
    assert answer.status_code == 409
    assert "nothing may say that it can wait" in answer.content.decode()
    born = made.visit.happened_at.date() - timedelta(days=4000)
    monkeypatch.undo()
    child = made_visits.assessed(date_of_birth=born)
    assert why_none(made_visits.decided(child).accepted_by_default()).startswith("Under 16")


@pytest.mark.parametrize("language", ["en", "es", "ar"])
@pytest.mark.parametrize(("size", "most", "least"), [("normal", 2, 14), ("large", 4, 18)])
def test_it_fits_its_paper(
    client: Client, made: Assessment, language: str, size: str, most: int, least: int
) -> None:
    for on in ("a4", "letter"):
        pdf = printed(client, made, language=language, print=size, paper=on).content
        pages = paper.reader(pdf).pages
        assert len(pages) <= most
        assert min(run.points for page in pages for run in paper.runs(page)) >= least - 0.01
        assert all(made.visit.patient.record_number in text for text in paper.page_texts(pdf))
