"""Every acceptance case, statement by statement, against the list of what is known to be unmet.

The list is strict both ways: a statement that is met now has to leave it
(``python -m tests.planning.acceptance --take-off-mended``), and none is ever added to it for a rule
that once held.
"""

from __future__ import annotations

import json
from collections import Counter
from collections.abc import Iterator
from dataclasses import fields, is_dataclass
from enum import Enum
from typing import Any, Final, get_args, get_type_hints

import pytest

from planning import Findings, History, recommend
from planning.results.plan import FitAnswer, Stage
from tests.planning.acceptance.cases import UNREMARKABLE, Case, cases
from tests.planning.acceptance.counting import changes, changing
from tests.planning.acceptance.judge import unmet
from tests.planning.acceptance.known import known_failures
from tests.planning.acceptance.levels import LEVELS
from tests.planning.acceptance.statements import KINDS

CASES: Final = cases()
KNOWN: Final = known_failures()
EACH: Final = pytest.mark.parametrize(
    "case", CASES, ids=lambda case: f"{case.name}-{case.path.stem}"
)


@EACH
def test_a_case_is_met_but_for_what_is_known(case: Case) -> None:
    found = {one.statement: one.said for one in unmet(case)}
    known = set(KNOWN.get(case.name, ()))
    lost = [
        f"{case.name}, {name}. The plan: {said}"
        for name, said in found.items()
        if name not in known
    ]
    mended = sorted(known - set(found))
    assert lost == [], "Unmet, and not on the list of known failures."
    assert mended == [], f"{case.name}: met now; take it off the list of known failures."


@EACH
def test_a_case_says_what_it_expects_and_on_what_source(case: Case) -> None:
    expect = case.expect
    assert case.title
    assert case.source
    assert expect["urgency"] in LEVELS
    assert 0 <= expect["at_most"] <= 2
    assert expect["must"]
    assert expect["must_not"]
    said = [statement["says"] for statement in (*expect["must"], *expect["must_not"])]
    assert len(set(said)) == len(said)
    assert all(said)


@EACH
def test_every_statement_is_of_a_known_kind(case: Case) -> None:
    for statement in (*case.expect["must"], *case.expect["must_not"]):
        for one in _parts(statement):
            assert len(set(one) & set(KINDS)) == 1


def _parts(statement: dict[str, Any]) -> Iterator[dict[str, Any]]:
    yield statement
    for joined in ("any", "all"):
        for part in statement.get(joined, ()):
            yield from _parts(part)


def test_all_seventy_are_there() -> None:
    assert [case.name for case in CASES] == [f"C{number:02}" for number in range(1, 71)]


def test_levels_are_spread_as_the_cases_were_written() -> None:
    assert Counter(case.expect["urgency"] for case in CASES) == {
        "emergency": 20,
        "same_day": 7,
        "telephone": 1,
        "days": 15,
        "two_weeks": 17,
        "routine": 10,
    }
    assert sum(case.expect["at_most"] == 0 for case in CASES) == 27


def test_only_cases_are_known_to_fail() -> None:
    assert set(KNOWN) <= {case.name for case in CASES}


def test_what_is_unremarkable_says_no_to_every_symptom_and_illness() -> None:
    usual = json.loads(UNREMARKABLE.read_text())
    assert set(usual["output"]["absent"]) == _choices(Findings, "output.absent")
    assert set(usual["person"]["has_not"]) == _choices(Findings, "person.has_not")
    assert set(usual["person"]["child_absent"]) == _choices(Findings, "person.child_absent")


#: Changes that the planner makes without saying when.
_UNSTAGED: Final = {"C45": {"no_tape"}, "C64": {"cut_for_both"}}
#: Where the planner itself counts another number.
_COUNTED_OTHERWISE: Final = {"C64"}


@EACH
def test_the_planner_stages_what_counts_as_a_change(case: Case) -> None:
    plan = recommend(case.findings, case.history)
    counted = {item.key for item in changing(plan, case.findings)}
    staged = {i.key for i in plan.recommendations if i.stage in (Stage.CORRECT_NOW, Stage.TODAY)}
    assert counted - staged == _UNSTAGED.get(case.name, set())
    assert staged <= counted


@EACH
def test_the_planner_counts_as_the_cases_do(case: Case) -> None:
    plan = recommend(case.findings, case.history)
    if plan.fit is None or plan.fit.answer is FitAnswer.NOT_NOW:
        return
    same = plan.fit.changes == len(changes(plan, case.findings))
    assert same is (case.name not in _COUNTED_OTHERWISE)


@EACH
def test_what_can_be_recorded_by_now_is_no_longer_listed_as_lacking(case: Case) -> None:
    assert [entry["field"] for entry in case.lacking if _recordable(entry)] == []


@pytest.mark.parametrize(
    ("field", "value", "recordable"),
    [
        ("output.pain_0_10", 3, True),
        ("output.present", ["fever"], True),
        ("output.present", ["a_word_of_no_choice"], False),
        ("skin[].itch", True, True),
        ("skin[].kind", ["erosion"], True),
        ("wear[].reason", "leak", True),
        ("history.trials", [], True),
        ("output.no_such_field", 1, False),
    ],
)
def test_recordable_is_told_from_the_planners_own_fields(
    field: str, value: Any, recordable: bool
) -> None:
    assert _recordable({"field": field, "value": value}) is recordable


def _recordable(entry: dict[str, Any]) -> bool:
    """The field is there by now and, where it is a choice, so are the words."""
    name = entry["field"].replace("[]", "")
    kind = History if name.startswith("history.") else Findings
    hint = _hint(kind, name.removeprefix("history.").split("."))
    if hint is None:
        return False
    words, value = _words(hint), entry["value"]
    return not words or bool(words & set([value] if isinstance(value, str) else value))


def _hint(kind: Any, parts: list[str]) -> Any:
    """The type of the field that ``parts`` lead to, or None."""
    for part in parts:
        kind = next((k for k in (kind, *_inside(kind)) if is_dataclass(k)), None)
        if kind is None or part not in {field.name for field in fields(kind)}:
            return None
        kind = get_type_hints(kind)[part]
    return kind


def _inside(hint: Any) -> Iterator[Any]:
    for argument in get_args(hint):
        yield argument
        yield from _inside(argument)


def _words(hint: Any) -> set[str]:
    kinds = [k for k in (hint, *_inside(hint)) if isinstance(k, type) and issubclass(k, Enum)]
    return {str(member.value) for kind in kinds for member in kind}


def _choices(kind: Any, path: str) -> set[str]:
    return _words(_hint(kind, path.split(".")))
