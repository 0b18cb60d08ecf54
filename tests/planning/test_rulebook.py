"""The list of rules and the schema are made from the code and agree with it."""

from __future__ import annotations

import json
import re
import sys
from operator import attrgetter
from pathlib import Path
from typing import Any

import pytest

from planning import Plan, recommend
from planning.children.plan import WORDS
from planning.evidence.citation import CITABLE
from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import GAP_TARGET, WEAR_RAW
from planning.inputs.age import AgeGroup
from planning.inputs.findings import Findings, SkinKind
from planning.inputs.schema import findings_schema, history_schema
from planning.results.snapshot import findings_from_dict, findings_to_dict, history_from_dict
from planning.rulebook import Rule, all_rules
from planning.rulebook.decisions import DECISIONS
from tests.planning.builders import leaking
from tests.planning.sweep import planned
from tests.planning.test_cases import CASES

ROOT = Path(__file__).parents[2]


def test_every_rule_is_named_once_sourced_and_tested() -> None:
    rules = all_rules()
    names = [(rule.group, rule.key) for rule in rules]
    assert len(names) == len(set(names))
    assert all(rule.title and rule.effect for rule in rules)
    assert {source for rule in rules for source in rule.sources} <= CITABLE
    assert all(rule.sources or rule.group.startswith("Causes") for rule in rules)
    assert all((ROOT / rule.tested_in.partition("::")[0]).is_file() for rule in rules)


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: f"{rule.group}:{rule.key}")
def test_the_file_a_rule_names_tests_that_rule(rule: Rule) -> None:
    """It has the very test, or names the rule by its key (figures in capitals too) or title."""
    file, _, test = rule.tested_in.partition("::")
    text = (ROOT / file).read_text()
    if test:
        assert f"def {test}(" in text
        return
    named = re.search(rf"(?<![a-z_]){re.escape(rule.key)}(?![a-z_])", text, re.IGNORECASE)
    assert named or rule.title in text


def test_all_groups_are_there() -> None:
    groups = list(dict.fromkeys(rule.group for rule in all_rules()))
    assert groups == [
        "Checks",
        "Ranges",
        "Red flags",
        "Never",
        "Hazards",
        "Causes of damaged skin",
        "Causes of a leak",
        "Needs",
        "Supplies",
        "Ladders",
        "Restraint",
        "Choice",
        "Keeping the system",
        "Dimensions",
        "Steps",
        "Advice",
        "Wear and amounts",
        "Usual maxima",
        "Chosen instead",
        "Next visit",
        "When to call",
        "Notices",
        "Not recorded",
        "Diagnosis codes",
        "Under 16",
        "Figures",
    ]


# --- no rule that acts is missing from the list ---------------------------------------------
def keys(group: str) -> set[str]:
    return {rule.key for rule in all_rules() if rule.group == group}


#: Of the sweep: with fewer, some need or interval is in no plan.
SWEPT = 1_500


def titles(group: str) -> set[str]:
    return {rule.title for rule in all_rules() if rule.group == group}


def sources(group: str) -> dict[str, set[str]]:
    return {rule.key: set(rule.sources) for rule in all_rules() if rule.group == group}


@pytest.fixture(scope="module")
def plans() -> list[Plan]:
    """Plans of the discretised space and of every worked case."""
    cases = [json.loads(path.read_text()) for path in CASES]
    worked = [
        (findings_from_dict(c["findings"]), history_from_dict(c.get("history", {}))) for c in cases
    ]
    swept = [plan for _, _, plan in planned(SWEPT)]
    return [*swept, *(recommend(*found) for found in worked)]


def test_every_need_that_any_plan_has_is_listed_with_its_sources(plans: list[Plan]) -> None:
    # A step of a ladder adds its own mark to what was found.
    listed = {key: known | {PRACTICE, DESIGN} for key, known in sources("Needs").items()}
    for need in (need for plan in plans for need in plan.needs):
        assert {s for reason in need.because for s in reason.sources} <= listed[need.key], need.key


def test_every_next_visit_that_any_plan_names_is_listed(plans: list[Plan]) -> None:
    """By its very words."""
    said = {reason.text for plan in plans for reason in plan.follow_up.because}
    assert said <= titles("Next visit") | {WORDS[AgeGroup.UNKNOWN].again}


def test_every_interval_on_the_list_is_one_that_some_plan_gives(plans: list[Plan]) -> None:
    found = {reason.text for plan in plans for reason in plan.follow_up.because}
    never = titles("Next visit") - found
    assert {t.partition(" after")[0] for t in never} <= {
        "Three days", "One week", "Two weeks", "Three months", "Six months", "One year",
        "Stoma and skin were not both looked at today, and a routine look was due.",
        "A finding was referred within two weeks: ask what came of it.",
        "An open wound near the stoma: look whether both seals hold, and what the team said.",
        "A cut or pale line on the stoma is looked at within a week.",
        "Pregnant, before week 28: measured every 4 weeks.",
        "Pregnant, from week 28 on or in a week not recorded: measured every 2 weeks.",
        "Dementia, and pulled off or restless: look again within 3 days.",
    }  # fmt: skip


def test_everything_recommended_is_listed(plans: list[Plan]) -> None:
    listed = keys("Supplies") | keys("Advice") | {f"refer_{key}" for key in keys("Red flags")}
    said = {item.key for plan in plans for item in plan.recommendations}
    assert said <= listed | {"opening"} | keys("Under 16")
    advice = sources("Advice")
    for item in (i for plan in plans for i in plan.recommendations if i.key in advice):
        if not item.key.startswith("open_"):
            cited = {s for reason in item.because for s in reason.sources}
            assert cited <= advice[item.key], item.key


def test_whatever_else_a_plan_holds_is_listed(plans: list[Plan]) -> None:
    assert {f.key for p in plans for f in p.red_flags} <= keys("Red flags")
    assert {k for p in plans for f in p.red_flags for k in f.includes} <= keys("Red flags")
    assert {s.key for p in plans for s in p.steps} <= keys("Steps")
    causes = keys("Causes of damaged skin") | keys("Causes of a leak")
    assert {c.key for p in plans for c in p.causes.causes} <= causes
    asked = titles("Not recorded") | titles("Under 16")
    assert {m.text for p in plans for m in p.missing} <= asked
    codes = {q.code for p in plans for q in p.quantities if q.code}
    assert codes <= keys("Usual maxima")


def test_a_rule_that_is_a_function_names_one_that_is_there() -> None:
    places = [rule.decided_in for rule in all_rules() if rule.decided_in]
    assert len(places) == len(set(places)) == sum(map(len, DECISIONS.values()))
    for place in places:
        module, _, name = place.rpartition(".")
        while module not in sys.modules:
            module, _, outer = module.rpartition(".")
            name = f"{outer}.{name}"
        assert attrgetter(name)(sys.modules[module])


def test_figures_in_the_words_of_a_rule_are_the_figures() -> None:
    """Words and thresholds cannot part: a figure in the text comes from the table."""
    effects = {rule.key: rule.effect for rule in all_rules()}
    assert f"{GAP_TARGET.value:g} mm" in effects["usual_gap"]
    assert f"every {WEAR_RAW.value:g} days" in effects["wear_limits"]


def test_the_schema_knows_every_field_and_word() -> None:
    schema = findings_schema()
    assert json.loads(json.dumps(schema)) == schema
    properties = schema["$defs"]["Findings"]["properties"]
    assert set(properties) == set(Findings.__dataclass_fields__)
    kinds = schema["$defs"]["SkinFinding"]["properties"]["kind"]["enum"]
    assert kinds == [kind.value for kind in SkinKind]
    assert schema["$defs"]["Findings"]["required"] == ["person", "stoma"]
    assert "Trial" in history_schema()["$defs"]


@pytest.mark.parametrize("path", CASES, ids=lambda path: path.stem)
def test_every_case_keeps_to_the_schema(path: Path) -> None:
    found = json.loads(path.read_text())["findings"]
    assert _misfits(found, findings_schema(), findings_schema()["$defs"]) == []


def test_full_findings_keep_to_the_schema_and_nonsense_does_not() -> None:
    schema = findings_schema()
    whole = findings_to_dict(leaking())
    assert findings_from_dict(whole) == leaking()
    assert _misfits(whole, schema, schema["$defs"]) == []
    assert _misfits(whole | {"colour": "red"}, schema, schema["$defs"]) == ["colour"]
    assert _misfits(whole | {"skin": [{}]}, schema, schema["$defs"]) != []


def _misfits(value: Any, schema: dict[str, Any], defs: dict[str, Any]) -> list[str]:
    """As much of JSON schema as ours uses, written apart from the reader."""
    if "$ref" in schema:
        return _misfits(value, defs[schema["$ref"].rpartition("/")[2]], defs)
    if "anyOf" in schema:
        each = [_misfits(value, option, defs) for option in schema["anyOf"]]
        return [] if [] in each else each[0]
    if "enum" in schema:
        return [] if value in schema["enum"] else [str(value)]
    wanted = {"object": dict, "array": list}.get(schema["type"])
    if wanted is not None and not isinstance(value, wanted):
        return [str(value)]
    if schema["type"] == "object":
        unknown = [name for name in value if name not in schema["properties"]]
        lacking = [name for name in schema["required"] if name not in value]
        inner = [
            misfit
            for name, part in value.items()
            if name in schema["properties"]
            for misfit in _misfits(part, schema["properties"][name], defs)
        ]
        return unknown + lacking + inner
    if schema["type"] == "array":
        return [m for part in value for m in _misfits(part, schema["items"], defs)]
    types: dict[str, type | tuple[type, ...]] = {
        "number": (int, float),
        "integer": int,
        "boolean": bool,
        "string": str,
        "null": type(None),
    }
    return [] if isinstance(value, types[schema["type"]]) else [str(value)]
