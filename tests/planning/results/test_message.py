"""What a plan says to a patient: its parts, its English, its plain data."""

from __future__ import annotations

import doctest
import json
from typing import Any

import pytest

from planning import recommend
from planning.inputs.errors import InvalidFindings
from planning.results import message as module
from planning.results.message import (
    DANGER,
    SUPPLY,
    Day,
    Days,
    Length,
    Message,
    Part,
    Text,
    to_patient,
)
from planning.results.plan import (
    CallWhen,
    Change,
    FollowUp,
    ItemKind,
    Recommendation,
    RedFlag,
    Step,
    Urgency,
)
from planning.results.snapshot import plan_from_dict, plan_to_dict
from planning.results.text_json import text_from_json, text_to_json
from planning.safety.call_when import Danger, lines_of
from planning.technique.rule import StepRule
from tests.planning.builders import leaking

RING = Message("soft ring", SUPPLY)


def test_examples_in_the_docstrings() -> None:
    result = doctest.testmod(module)
    assert result.attempted >= 4
    assert result.failed == 0


@pytest.mark.parametrize(
    ("part", "told"),
    [
        *((Day(3), "day 3"), (Days(1), "1 day"), (Days(2), "2 days"), (Length(3.5), "3.5 mm")),
        *((Length(34.0, 30.0), "34 mm by 30 mm"), (RING, "soft ring"), ("Ann", "Ann"), (7, "7")),
    ],
)
def test_a_part_in_english(part: Part, told: str) -> None:
    assert Message.of("Take {it}.", it=part).english() == f"Take {told}."


@pytest.mark.parametrize(
    ("id_", "parts"),
    [("Change on {day}.", {}), ("Change.", {"day": Day(2)}), ("On {day}.", {"days": Day(2)})],
)
def test_the_parts_are_those_that_the_sentence_names(id_: str, parts: dict[str, Part]) -> None:
    with pytest.raises(ValueError, match="parts"):
        Message.of(id_, "", **parts)


def test_one_sentence_after_the_other() -> None:
    told = to_patient("Call us.", RING, to_patient("Lie down. Rest."))
    assert str(told) == "Call us. Soft ring. Lie down. Rest."
    assert [one.id for one in told] == ["Call us.", "soft ring", "Lie down. Rest."]


def test_nothing_said_is_no_text() -> None:
    assert to_patient(None) is None
    assert not to_patient("")
    assert not Text()
    assert Text(stored="Rest.")


def test_a_part_stays_with_its_sentence() -> None:
    whole = Message.of("Change on {day}. Call us.", day=Day(3))
    first, then = whole.sentences
    assert first == Message.of("Change on {day}.", day=Day(3))
    assert then == Message("Call us.")
    assert whole.joined((first, then)) == whole
    assert whole.joined((then,)) == then


def test_a_rule_may_give_plain_words() -> None:
    """Wherever a text is expected: its author knows of no messages."""
    plain: Any = "Call us."
    for item in (
        RedFlag("a", Urgency.DAYS, "Call", "nurse", "", (), plain),
        Recommendation("a", ItemKind.TEACH, Change.START, "Call", (), (), plain),
        Step("a", "Call", plain, ()),
        FollowUp(3, "Call", (), plain),
        CallWhen(Urgency.DAYS, plain, ()),
    ):
        text = getattr(item, "patient_text")  # noqa: B009
        assert text == Text((Message("Call us."),)), item
    rule = StepRule("a", "Call", Message.of("Wait {days}.", days=Days(2)))
    chosen: Any = None
    assert str(rule.step(chosen).patient_text) == "Wait 2 days."


def test_a_danger_line_is_dangers_joined() -> None:
    one, two, three = (
        Danger(words, Urgency.EMERGENCY, "stoma", words, (), then)
        for words, then in (("it bleeds", "Press."), ("it hurts", ""), ("it is dark", "Call."))
    )
    (line,) = lines_of((one, two, three))
    joined, *after = line.patient_text
    assert str(line.patient_text) == "It bleeds, or it hurts, or it is dark. Press. Call."
    assert [message.id for message in after] == ["Press.", "Call."]
    parts = dict(joined.parts)
    assert (joined.id, parts["first"]) == ("{first}, or {second}", Message("it bleeds", DANGER))
    assert parts["second"] == Message.of(
        "{first}, or {second}",
        first=Message("it hurts", DANGER),
        second=Message("it is dark", DANGER),
    )


def test_a_long_line_of_dangers_goes_on_in_a_new_sentence() -> None:
    long = " ".join(["word"] * 20)
    dangers = (Danger(key, Urgency.DAYS, "a", f"{long} {key}", ()) for key in "ab")
    (line,) = lines_of(dangers)
    assert line.patient_text.messages[0].id == "{first}. Or {second}"
    assert str(line.patient_text) == f"W{long[1:]} a. Or {long} b."


# --- plain data -----------------------------------------------------------------------------
EVERY_PART = Text(
    (
        Message.of("{a} {b} {c} {d}", a="Ann", b=7, c=Day(3), d=Days(1)),
        Message.of("{a} {b} {c}", DANGER, a=Length(3.5), b=Length(34, 30.0), c=RING),
    )
)


def test_a_text_comes_back_unchanged() -> None:
    data = json.loads(json.dumps(text_to_json(EVERY_PART)))
    assert text_from_json(data) == EVERY_PART


def test_a_plan_stores_messages_and_no_finished_english() -> None:
    data = plan_to_dict(recommend(leaking()))
    wear = next(r for r in data["recommendations"] if r["key"] == "wear_interval")
    by_day, at_once = wear["patient_text"]
    assert by_day["id"] == "Change on {day} at the latest."
    assert by_day["parts"]["day"].keys() == {"day"}
    assert at_once == {"id": "Change at once if it itches, burns or leaks."}


def test_finished_english_of_an_earlier_plan_stays_as_it_is() -> None:
    data = plan_to_dict(recommend(leaking()))
    data["steps"][0]["patient_text"] = "Change at least every 3 days."
    plan = plan_from_dict(data)
    assert plan.steps[0].patient_text == Text(stored="Change at least every 3 days.")
    assert plan_to_dict(plan) == data


@pytest.mark.parametrize(
    "wrong",
    [
        *(3, {"id": "Call."}, ["Call."], [{"text": "Call."}], [{"id": "Call.", "more": 1}]),
        *([{"id": 3}], [{"id": "Call.", "context": 3}], [{"id": "Call.", "parts": ["a"]}]),
        *([{"id": "On {day}."}], [{"id": "On {day}.", "parts": {"day": {"day": "3"}}}]),
        *([{"id": "{a}", "parts": {"a": part}}] for part in (True, None, 1.5, {"mm": "3"})),
        *([{"id": "{a}", "parts": {"a": part}}] for part in ({"mm": 3, "by_mm": "x"}, {"x": 1})),
        [{"id": "{a}", "parts": {"a": {"day": 3, "days": 4}}}],
    ],
)
def test_what_is_no_text_is_named_by_its_path(wrong: object) -> None:
    data = plan_to_dict(recommend(leaking()))
    data["follow_up"]["patient_text"] = wrong
    with pytest.raises(InvalidFindings) as caught:
        plan_from_dict(data)
    assert [error.path for error in caught.value.errors] == ["follow_up.patient_text"]
