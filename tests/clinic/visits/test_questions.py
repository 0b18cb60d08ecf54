"""What the visit page asks: every field once, quick answers that say what they record."""

from collections import Counter

import pytest

from clinic.visits.chart import PARTS, ROWS, SECTION_FORMS
from clinic.visits.forms.parts import AssessmentForm, VisitForm
from clinic.visits.questions.conditions import is_met, names_in
from clinic.visits.questions.page import BY_KEY, SECTIONS
from clinic.visits.questions.question import Question

FORMS = {"visit": VisitForm, "whole": AssessmentForm} | {n: form for n, (form, _) in PARTS.items()}
FIELDS = {f"{prefix}-{name}" for prefix, form in FORMS.items() for name in form.base_fields}
QUICK = [question for question in BY_KEY.values() if question.quick]


def choices(name: str) -> dict[str, str]:
    """Value -> label of a field with choices."""
    prefix, _, field = name.partition("-")
    listed = FORMS[prefix].base_fields[field].choices  # type: ignore[attr-defined]
    return {str(value): str(label) for value, label in listed}


def test_every_field_and_every_set_of_rows_is_asked_once() -> None:
    """But for the box in each section's head."""
    asked = Counter(name for question in BY_KEY.values() for name in question.names)
    assert set(asked) == FIELDS - {"whole-not_looked_at"}
    assert max(asked.values()) == 1
    rows = Counter(name for question in BY_KEY.values() for name in question.rows)
    assert rows == dict.fromkeys(ROWS, 1)


def test_keys_are_used_once() -> None:
    assert len(BY_KEY) == sum(len(section.questions) for section in SECTIONS)


def test_a_question_is_in_the_section_that_closes_it() -> None:
    """What is marked as not looked at must be what is asked there."""
    whole = {"visit", "whole"}
    for section in SECTIONS:
        forms = {n.partition("-")[0] for q in section.questions for n in q.names} - whole
        rows = {name for question in section.questions for name in question.rows}
        if section.closable:
            assert forms | rows == set(SECTION_FORMS[section.key])


def test_about_fifteen_core_questions() -> None:
    core = [question for question in BY_KEY.values() if question.core]
    assert len(core) <= 15


@pytest.mark.parametrize("question", QUICK, ids=lambda question: question.key)
def test_a_quick_answer_records_what_its_own_question_asks(question: Question) -> None:
    assert question.quick is not None
    for name, value in question.quick.values.items():
        assert name in question.names
        assert value in choices(name)


@pytest.mark.parametrize("question", QUICK, ids=lambda question: question.key)
def test_a_quick_answer_says_each_of_its_findings(question: Question) -> None:
    """Its words hold those of the value, or a plain *no* or *not*."""
    assert question.quick is not None
    for finding in question.quick.findings:
        label = choices(finding.name)[finding.value].lower()
        is_none = finding.value == "none" and {"no", "not", "none", "nothing"} & {
            *finding.words.split()
        }
        assert is_none or label in finding.words


def test_conditions_are_about_fields_and_answers_of_the_page() -> None:
    for question in BY_KEY.values():
        for condition in (question.opens, question.once):
            assert set(names_in(condition)) <= FIELDS
            for part in (part for part in condition.split(" or ") if ">=" not in part and part):
                name, _, wanted = part.partition("=")
                if wanted != "*":
                    assert set(wanted.split(",")) <= set(choices(name))


@pytest.mark.parametrize(
    ("condition", "answers", "met"),
    [
        ("", {}, False),
        ("a=x,y", {"a": ["y"]}, True),
        ("a=x,y", {"a": ["z"]}, False),
        ("a=*", {"a": ["5"]}, True),
        ("a=*", {"a": ["none"]}, False),
        ("a=*", {"a": [""]}, False),
        ("a>=1500", {"a": ["1500"]}, True),
        ("a>=1500", {"a": ["1499,9"]}, False),
        ("a>=1500", {"a": ["much"]}, False),
        ("a=x or b>=2", {"b": ["2,5"]}, True),
        ("a=x or b>=2", {"a": ["y"], "b": ["1"]}, False),
    ],
)
def test_conditions(condition: str, answers: dict[str, list[str]], met: bool) -> None:
    assert is_met(condition, answers) is met
