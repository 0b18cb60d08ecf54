"""No rule, figure or sentence changes under the version that signed plans were made with."""

from __future__ import annotations

import pytest

from planning.evidence.rule_set import RULE_SET
from tests.planning import rule_set_digest

HOW = (
    "raise RULE_SET in planning/evidence/rule_set.py, then python -m tests.planning.rule_set_digest"
)


@pytest.fixture(scope="module")
def now() -> dict[str, str]:
    return rule_set_digest.digests()


@pytest.mark.parametrize("part", ["figures", "sentences", "rules", "plans", "code"])
def test_what_changes_gets_a_new_version(part: str, now: dict[str, str]) -> None:
    on_record = rule_set_digest.recorded()
    assert on_record["version"] == RULE_SET, HOW
    assert on_record[part] == now[part], HOW
