"""Plans signed before plans held messages print as they did then.

``earlier_plans/`` holds plans as they were stored, each with what its care sheet says in every
language. The English is what it was then, but for the words of what is new; translations are put
down again when they are improved.
"""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from clinic.documents.patient_language.earlier_plans import AS_STORED, danger_line, sentences
from clinic.documents.patient_language.english_marks import runs
from clinic.documents.patient_language.formatter import say
from clinic.documents.patient_language.lay_terms import NBSP
from clinic.documents.patient_language.localised import texts
from clinic.documents.patient_language.translator import ENGLISH, translator_for
from clinic.visits.models import Assessment
from planning import recommend
from planning.results.message import SUPPLY, Day, Message, Text
from planning.results.snapshot import plan_from_dict, plan_to_dict
from tests.clinic.documents import made_visits
from tests.clinic.documents.catalogues import LANGUAGES
from tests.planning.builders import leaking

STORED = sorted((Path(__file__).parent / "earlier_plans").glob("*.json"))


@pytest.fixture
def made(db: None) -> Assessment:
    return made_visits.assessed()


def test_they_are_of_every_kind() -> None:
    plans = [plan_from_dict(json.loads(path.read_text())["plan"]) for path in STORED]
    assert len(plans) >= 10
    assert {plan.urgency.value for plan in plans} >= {"emergency", "same_day", "days", "routine"}
    assert {plan.made_for.value for plan in plans} == {"adult", "child"}
    assert {plan.leave_alone for plan in plans} == {True, False}


@pytest.mark.parametrize("path", STORED, ids=lambda path: path.stem)
@pytest.mark.parametrize("language", ["en", *LANGUAGES])
def test_its_sheet_says_what_it_said_then(path: Path, language: str, made: Assessment) -> None:
    stored = json.loads(path.read_text())
    plan = plan_from_dict(stored["plan"])
    assert without_unknown(plan_to_dict(plan)) == without_unknown(stored["plan"])
    sheet = made_visits.sheet_from(made_visits.all_accepted(plan, made), language=language)
    parts = (sheet.emergency, sheet.look_at, sheet.keep, sheet.uses, sheet.steps)
    told = texts((*parts, sheet.call, sheet.call_after, sheet.next_visit))
    assert list(told) == stored["sheets"][language]


def without_unknown(part: Any) -> Any:
    """Without what holds nothing: a plan of then does not name what plans hold only since."""
    if isinstance(part, dict):
        return {name: without_unknown(v) for name, v in part.items() if v not in (None, [])}
    return [without_unknown(one) for one in part] if isinstance(part, list) else part


def test_a_plan_of_today_stores_no_finished_english() -> None:
    def stored(part: Any) -> list[object]:
        if isinstance(part, dict):
            own = [part["patient_text"]] if "patient_text" in part else []
            return own + [one for value in part.values() for one in stored(value)]
        return [one for value in part for one in stored(value)] if isinstance(part, list) else []

    found = stored(plan_to_dict(recommend(leaking())))
    assert len(found) > 20
    assert not [one for one in found if isinstance(one, str)]


# --- what is recognised, and what is not ------------------------------------------------------
@pytest.mark.parametrize(
    ("stored", "messages"),
    [
        ("Change on day 3 at the latest.",
         [Message.of("Change on {day} at the latest.", day=Day(3))]),
        ("Change at least every 3 days.",
         [Message.of("Change on {day} at the latest.", day=Day(3))]),
        ("Keep using: soft ring.",
         [Message.of("Keep using: {supply}.", supply=Message("soft ring", SUPPLY))]),
        ("Soft ring.", [Message("soft ring", SUPPLY)]),
        ("Wash your hands. Lay out what you need.",
         [Message("Wash your hands. Lay out what you need.")]),
        ("Empty the pouch. Change every day.",
         [Message("Empty the pouch."), Message("Change every day.")]),
    ],
)  # fmt: skip
def test_what_a_plan_said_is_recognised(stored: str, messages: list[Message]) -> None:
    assert list(sentences(stored)) == messages


@pytest.mark.parametrize(
    "near",
    [
        *("Keep using: .", "Keep using: soft ring", "keep using: soft ring.", "Keep using:  ring."),
        *("Change on day three at the latest.", "Change on day 3.", "Keep using: magic carpet."),
        *("Stop using: soft ring. Now.", "Please keep using: soft ring.", "wash your hands."),
        *("Change on {day} at the latest.", "{first}, or {second}"),
    ],
)
def test_what_only_resembles_it_stays_english(near: str) -> None:
    assert {one.context for one in sentences(near)} == {AS_STORED}
    assert {one.context for one in danger_line(near)} == {AS_STORED}


@pytest.mark.parametrize("language", LANGUAGES)
@pytest.mark.parametrize(
    "words",
    [
        "Your stoma has a deep cut, or you fly to the moon.",
        "You fly to the moon, or your stoma has a deep cut.",
        "Your stoma has a deep cut. Fly to the moon.",
        "Wash your hands. Lay out what you need. Fly to the moon.",
    ],
)
def test_a_line_with_something_unknown_stays_whole_in_english(language: str, words: str) -> None:
    assert runs(say(danger_line(words), translator_for(language))) == [(words, True)]


def test_a_size_that_was_stored_has_inches_beside_it() -> None:
    told = say(sentences("keep the hole at 30 mm"), ENGLISH).replace(NBSP, " ")
    assert told == "Keep the hole at 30 mm (about 1 3/16 inches)."


def test_nothing_stored_is_nothing_said() -> None:
    assert sentences(" ") == Text()
    assert say(sentences(""), ENGLISH) == ""
