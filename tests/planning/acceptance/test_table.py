"""The table names what is unmet, and the list of known failures only gets shorter."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.planning.acceptance import known
from tests.planning.acceptance.__main__ import table, take_off_mended
from tests.planning.acceptance.cases import cases
from tests.planning.acceptance.judge import Unmet

FIRST, SECOND = cases()[:2]


def test_the_table_counts_by_theme_and_names_what_is_unmet() -> None:
    lines = list(table([(FIRST, (Unmet("must: rest", "walk"),)), (SECOND, ())]))
    assert lines[0].split() == ["Obstruction", "and", "blood", "supply", "1", "of", "2"]
    assert f"{FIRST.name} {FIRST.title}" in lines
    assert "  - must: rest" in lines
    assert "      plan: walk" in lines
    assert f"{SECOND.name} {SECOND.title}" not in lines


def test_mended_statements_leave_the_list_and_none_is_added(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(known, "LIST", tmp_path / "known.json")
    known.write({FIRST.name: ["must: rest", "must: mended"], SECOND.name: ["must: mended too"]})
    found = (Unmet("must: rest", "walk"), Unmet("must: new", "walk"))
    assert take_off_mended([(FIRST, found), (SECOND, ())]) == 2
    assert known.known_failures() == {FIRST.name: ["must: rest"]}
