"""Sentences of plans signed earlier that no sheet printed today may say."""

from __future__ import annotations

from dataclasses import replace

import pytest

from clinic.documents.patient_language.plan_sentences import from_plan
from clinic.documents.patient_language.translator import translator_for
from clinic.patients.models import SheetLanguage
from tests.clinic.documents import made_plans, made_visits
from tests.clinic.documents.made_plans import step

pytestmark = pytest.mark.django_db
BIGGER = "Cut along your template. If your size has changed, cut 2 mm bigger all round."
HELPER = (
    "Let your helper cut along your template. If your size has changed, cut 2 mm bigger all round."
)
BLOOD = "Pat the skin dry. A little blood on the cloth is normal."
OFTEN = "Change at least every 3 days. Change at once if it itches, burns or leaks."


@pytest.mark.parametrize("language", [one.value for one in SheetLanguage])
@pytest.mark.parametrize(
    ("old", "new"),
    [
        (BIGGER, "Cut along your template. If your size has changed, ask us for a new template."),
        (
            HELPER,
            "Let your helper cut along your template. If your size has changed, ask us for a new "
            "template.",
        ),
        (BLOOD, "Pat the skin dry. If it bleeds, press lightly and see “When to call”."),
        (OFTEN, "Change on day 3 at the latest. Change at once if it itches, burns or leaks."),
    ],
)
def test_said_as_it_is_said_today(language: str, old: str, new: str) -> None:
    told = from_plan(old, translator_for(language))
    assert told == from_plan(new, translator_for(language))
    if language == "en":
        assert told == new
    else:
        assert new not in told


def test_an_old_plan_prints_without_them(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = replace(made_plans.LEAK, steps=(step("cut_after_measuring", BIGGER), step("dry", BLOOD)))
    made_visits.use_plan(monkeypatch, plan)
    made = made_visits.assessed()
    made_visits.decide(made, plan)
    made_visits.sign(made)
    said = " ".join(one.words for one in made_visits.sheet_of(made).steps)
    assert "bigger" not in said
    assert "normal" not in said
