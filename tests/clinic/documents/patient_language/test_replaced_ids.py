"""Sentences that no sheet printed today may say, and what is said in their place."""

from __future__ import annotations

import doctest
from dataclasses import replace

import pytest

from clinic.documents.patient_language import replaced_ids
from clinic.documents.patient_language.formatter import say
from clinic.documents.patient_language.replaced_ids import REPLACED, today
from clinic.documents.patient_language.translator import translator_for
from clinic.patients.models import SheetLanguage
from planning.results.message import SUPPLY, Message, Text, to_patient
from tests.clinic.documents import made_plans, made_visits

pytestmark = pytest.mark.django_db
BIGGER = "Cut along your template. If your size has changed, cut 2 mm bigger all round."
HELPER = (
    "Let your helper cut along your template. If your size has changed, cut 2 mm bigger all round."
)
BLOOD = "Pat the skin dry. A little blood on the cloth is normal."
OFTEN = "Change at least every 3 days. Change at once if it itches, burns or leaks."
ASK = "If your size has changed, ask us for a new template."
SAID = [
    (BIGGER, f"Cut along your template. {ASK}"),
    (HELPER, f"Let your helper cut along your template. {ASK}"),
    (BLOOD, "Pat the skin dry. If it bleeds, press lightly and see “When to call”."),
    ("Cut the hole to the size you measured.", f"Cut along your template. {ASK}"),
    (
        "Let your helper cut the hole to the size just measured.",
        f"Let your helper cut along your template. {ASK}",
    ),
]


def test_examples_in_the_docstrings() -> None:
    result = doctest.testmod(replaced_ids)
    assert result.attempted == 1
    assert result.failed == 0


@pytest.mark.parametrize("language", [one.value for one in SheetLanguage])
@pytest.mark.parametrize(("old", "new"), SAID)
def test_said_as_it_is_said_today(language: str, old: str, new: str) -> None:
    told = say(today(to_patient(old)), translator_for(language))
    assert told == say(to_patient(new), translator_for(language))
    assert (new in told) == (language == "en")


def test_what_replaces_a_sentence_is_not_itself_replaced() -> None:
    assert not set(REPLACED) & set(REPLACED.values())
    assert all(old[0] == new[0] for old, new in REPLACED.items())


def test_a_row_reaches_into_the_parts(monkeypatch: pytest.MonkeyPatch) -> None:
    rows = {(SUPPLY, "gum ring"): (SUPPLY, "soft ring")}
    monkeypatch.setattr(replaced_ids, "REPLACED", rows)
    old = to_patient(Message.of("Keep using: {supply}.", supply=Message("gum ring", SUPPLY)))
    assert str(today(old)) == "Keep using: soft ring."
    assert str(today(to_patient("gum ring"))) == "Gum ring."  # another meaning


@pytest.mark.parametrize("language", [one.value for one in SheetLanguage])
def test_an_old_plan_prints_without_them(monkeypatch: pytest.MonkeyPatch, language: str) -> None:
    stored = (BIGGER, BLOOD, OFTEN, f"Fly to the moon. {BLOOD}", f"Look. {OFTEN}")
    steps = tuple(
        replace(made_plans.step(key, None), patient_text=Text(stored=words))
        for key, words in zip("abcde", stored, strict=True)
    )
    plan = replace(made_plans.LEAK, steps=steps)
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    made_visits.sign(made)
    made = made_visits.fresh(made)
    assert made.plan.plan["steps"][0]["patient_text"] == BIGGER
    said = " ".join(one.words for one in made_visits.sheet_of(made, language=language).steps)
    for words in ("bigger", "is normal", "at least every"):
        assert words not in said
    assert said
