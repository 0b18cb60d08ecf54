"""Sources and thresholds: cited, dated, due for review; the planner stays pure."""

from __future__ import annotations

import ast
from datetime import date
from pathlib import Path

import planning
from planning.causes import CAUSES
from planning.evidence.citation import CITABLE
from planning.evidence.claims import ALL, source_id
from planning.evidence.mark import Mark
from planning.evidence.sources import BASES, EARLIER, SOURCES
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


def test_what_is_no_source_says_so_in_words() -> None:
    assert {key for key, source in SOURCES.items() if not source.published} == BASES
    assert SOURCES["common_practice"].words == "common practice, no source"
    assert SOURCES["from_memory"].words == "from memory, unverified"
    assert SOURCES["design_value"].words == "design value of this planner, no source"


def test_every_rule_cites_a_known_statement() -> None:
    cited = {s for rule in FLAGS for s in rule.sources}
    cited |= {s for rule in GATE for s in rule.sources}
    cited |= {s for hazard in HAZARDS.values() for s in hazard.sources}
    cited |= {s for supply in CATALOGUE for s in supply.sources}
    assert cited <= CITABLE
    assert all(rule.sources for rule in FLAGS)
    assert all(hazard.sources for hazard in HAZARDS.values())


def test_no_source_lies_idle() -> None:
    """A source of no statement is on the list only for plans signed earlier."""
    of_statements = {source_id(claim.id) for claim in ALL}
    assert set(SOURCES) - of_statements - BASES == EARLIER


def test_every_threshold_is_sourced_and_due() -> None:
    for name, threshold in all_thresholds().items():
        assert threshold.source in CITABLE, name
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
    assert {claim.mark for claim in ALL} | {SOURCES[key].mark for key in BASES} == set(Mark)
    assert len(CAUSES) >= len(Condition)
