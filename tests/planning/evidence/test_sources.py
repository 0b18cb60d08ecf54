"""Sources and thresholds: cited, dated, due for review; the planner stays pure."""

from __future__ import annotations

import ast
from datetime import date
from pathlib import Path

import planning
from planning.causes import CAUSES
from planning.evidence.sources import SOURCES, Mark, cite
from planning.evidence.thresholds import UNREVIEWED, all_thresholds
from planning.inputs.findings import Condition
from planning.safety.gate import RULES as GATE
from planning.safety.red_flags import RULES as FLAGS
from planning.supplies.catalogue import CATALOGUE
from planning.supplies.hazards import HAZARDS

ROOT = Path(planning.__file__).parent
FILES = sorted(ROOT.rglob("*.py"))


def test_ids_are_unique_and_every_source_has_words() -> None:
    assert all(key == source.id for key, source in SOURCES.items())
    assert all(source.citation for source in SOURCES.values())


def test_a_pseudo_source_says_so_in_words() -> None:
    assert cite(("common_practice",)) == "common practice, no source"
    assert cite(("from_memory",)) == "from memory, unverified"
    assert "no source" in cite(("design_value",))
    assert cite(("persson2010",)).endswith("(verified)")


def test_every_rule_cites_a_known_source() -> None:
    cited = {s for rule in FLAGS for s in rule.sources}
    cited |= {s for rule in GATE for s in rule.sources}
    cited |= {s for hazard in HAZARDS.values() for s in hazard.sources}
    cited |= {s for supply in CATALOGUE for s in supply.sources}
    assert cited <= set(SOURCES)
    assert all(rule.sources for rule in FLAGS)
    assert all(hazard.sources for hazard in HAZARDS.values())


def test_no_source_lies_idle() -> None:
    """A source that no rule cites belongs on no list."""
    code = "\n".join(path.read_text() for path in FILES if path.name != "sources.py")
    names = {"common_practice": "PRACTICE", "from_memory": "MEMORY", "design_value": "DESIGN"}
    idle = {key for key in SOURCES if f'"{key}"' not in code and names.get(key, key) not in code}
    assert idle == set()


def test_every_threshold_is_sourced_and_due() -> None:
    for name, threshold in all_thresholds().items():
        assert threshold.source in SOURCES, name
        assert threshold.meaning, name
        assert threshold.checked_by, name
        assert threshold.next_review <= date(2027, 11, 25), name


def test_no_threshold_claims_a_review_that_has_not_happened() -> None:
    assert {t.checked_by for t in all_thresholds().values()} == {UNREVIEWED}


def test_the_planner_is_pure() -> None:
    """No Django, no clinic, no files, no clock, no chance."""
    forbidden = {"django", "clinic", "os", "io", "pathlib", "time", "random", "logging", "socket"}
    for path in FILES:
        for node in ast.walk(ast.parse(path.read_text())):
            names: list[str] = []
            if isinstance(node, ast.Import):
                names = [alias.name for alias in node.names]
            elif isinstance(node, ast.ImportFrom):
                names = [node.module or ""]
            assert not {name.partition(".")[0] for name in names} & forbidden, path
            # Asking the clock is a call; ``course.today`` is a day that was passed in.
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute):
                assert node.func.attr not in {"today", "now", "utcnow"}, path


def test_marks_and_causes_are_complete() -> None:
    assert {source.mark for source in SOURCES.values()} == set(Mark)
    assert len(CAUSES) >= len(Condition)
