"""The list of rules and the schema are made from the code and agree with it."""

from __future__ import annotations

import json
import re
from pathlib import Path
from typing import Any

import pytest

from planning.findings import Findings, SkinKind
from planning.rulebook import Rule, all_rules
from planning.schema import findings_schema, history_schema
from planning.snapshot import findings_from_dict, findings_to_dict
from planning.sources import SOURCES
from tests.planning.builders import leaking
from tests.planning.test_cases import CASES

ROOT = Path(__file__).parents[2]


def test_every_rule_is_named_once_sourced_and_tested() -> None:
    rules = all_rules()
    names = [(rule.group, rule.key) for rule in rules]
    assert len(names) == len(set(names))
    assert all(rule.title and rule.effect for rule in rules)
    assert {source for rule in rules for source in rule.sources} <= set(SOURCES)
    assert all(rule.sources or rule.group.startswith("Causes") for rule in rules)
    assert all((ROOT / rule.tested_in).is_file() for rule in rules)


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: f"{rule.group}:{rule.key}")
def test_the_file_a_rule_names_tests_that_rule(rule: Rule) -> None:
    """It names the rule by its key (figures in capitals too) or by its title."""
    text = (ROOT / rule.tested_in).read_text()
    named = re.search(rf"(?<![a-z_]){rule.key}(?![a-z_])", text, re.IGNORECASE)
    assert named or rule.title in text


def test_all_groups_are_there() -> None:
    groups = list(dict.fromkeys(rule.group for rule in all_rules()))
    assert groups == [
        "Red flags",
        "Never",
        "Hazards",
        "Causes of damaged skin",
        "Causes of a leak",
        "Supplies",
        "Steps",
        "Diagnosis codes",
        "Figures",
    ]


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
