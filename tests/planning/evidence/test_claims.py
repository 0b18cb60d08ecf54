"""Every published source that is cited is cited for a statement that says what was read for it."""

from __future__ import annotations

import ast
import json
import re
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

import pytest

import planning
from planning import recommend
from planning.evidence.citation import CITABLE
from planning.evidence.claims import ALL, CLAIMS, Claim
from planning.evidence.mark import Mark
from planning.evidence.sources import BASES, SOURCES
from planning.evidence.thresholds import all_thresholds
from planning.inputs.findings import SkinKind
from planning.inputs.quantities import QUANTITIES
from planning.instructions.quantities import all_lines
from planning.results.snapshot import plan_to_dict
from planning.rulebook import all_rules
from tests.planning.builders import seen, situation, well
from tests.planning.safety.dangers import DANGERS
from tests.planning.sweep import planned

ROOT = Path(planning.__file__).parent
PUBLISHED = {key for key, source in SOURCES.items() if source.published}
#: A source and a cause of one name.
ALSO_A_CAUSE = {"folliculitis"}
STATEMENT = re.compile(r"[a-z0-9]+/[a-z0-9_]+")


def misfits(cited: set[str]) -> set[str]:
    """Of what is cited all that is neither a statement on record nor said to be no source."""
    return cited - CITABLE


# --- what is cited ----------------------------------------------------------------------------
@cache
def words_of_code() -> frozenset[str]:
    """Every string in the planner but those of the evidence itself."""
    found = set()
    for path in ROOT.rglob("*.py"):
        if "claims" not in path.parts and path.name != "sources.py":
            found |= {
                node.value
                for node in ast.walk(ast.parse(path.read_text()))
                if isinstance(node, ast.Constant) and isinstance(node.value, str)
            }
    return frozenset(found)


def cited_in(part: Any) -> Iterator[str]:
    """Every source named in the JSON of a plan."""
    if isinstance(part, dict):
        for key, value in part.items():
            yield from value if key == "sources" else cited_in(value)
    elif isinstance(part, list):
        for value in part:
            yield from cited_in(value)


def test_the_check_sees_a_source_without_a_statement() -> None:
    assert misfits({"persson2010", "design_value"}) == {"persson2010"}
    assert misfits({"persson2010/nothing_of_the_kind"})
    assert not misfits({"persson2010/ileostomy", *BASES})


@pytest.mark.parametrize("rule", all_rules(), ids=lambda rule: f"{rule.group}:{rule.key}")
def test_every_rule_ends_at_a_statement(rule: Any) -> None:
    """Flags, the gate, hazards, needs, supplies, steps, advice, lines of when to call, visits,
    notices, codes, pairs of codes, ranges and figures."""
    assert not misfits(set(rule.sources))


def test_every_figure_range_and_order_line_ends_at_a_statement() -> None:
    cited = {figure.source for figure in all_thresholds().values()}
    cited |= {one.source for one in QUANTITIES}
    cited |= {source for lines in all_lines().values() for line in lines for source in line.sources}
    assert not misfits(cited)


def test_every_reason_of_a_plan_ends_at_a_statement() -> None:
    """Causes too: their evidence is on no list."""
    plans = [plan for _, _, plan in planned(400)]
    plans += [recommend(danger.on_a_well_stoma) for danger in DANGERS]
    cited = {source for plan in plans for source in cited_in(json.loads(json.dumps(
        plan_to_dict(plan))))}  # fmt: skip
    assert cited
    assert not misfits(cited)


def test_no_rule_cites_a_whole_source() -> None:
    """In any branch, reached by a plan or not."""
    assert not PUBLISHED & words_of_code() - ALSO_A_CAUSE


def test_every_statement_that_is_cited_is_on_record() -> None:
    named = {word for word in words_of_code() if STATEMENT.fullmatch(word)}
    assert {word for word in named if word.partition("/")[0] in PUBLISHED} <= set(CLAIMS)


# --- the entries --------------------------------------------------------------------------------
@pytest.mark.parametrize("claim", ALL, ids=lambda claim: claim.id)
def test_an_entry_is_cited_and_says_what_was_read(claim: Claim) -> None:
    assert claim.id in words_of_code()
    assert STATEMENT.fullmatch(claim.id)
    assert claim.source.id in PUBLISHED
    assert claim.mark not in (Mark.COMMON_PRACTICE, Mark.DESIGN_VALUE)
    assert claim.says.endswith(".")
    assert claim.support.endswith(".")
    assert str(claim.mark) in claim.words


def test_ids_are_unique() -> None:
    assert len(CLAIMS) == len(ALL)


def test_what_was_not_read_says_so() -> None:
    for claim in ALL:
        if claim.mark is Mark.FROM_MEMORY:
            assert "not read" in claim.support.lower(), claim.id


# --- what no source says ------------------------------------------------------------------------
#: Rule (group and key): the source that was cited and does not say it.
NOT_SAID = {
    ("Dimensions", "lift_wanted"): "mcnichol2021",
    ("Figures", "output_emergency"): "baker2011",
    ("When to call", "two_litres"): "baker2011",
    ("When to call", "bleeds_on"): "barr2004",
    ("When to call", "ileo_late"): "nhsileostomy",
    ("When to call", "working_late"): "nhsileostomy",
    ("Figures", "output_urgent"): "arenas2015",
    ("Figures", "early_days"): "stoiadavis2022",
    ("Never", "pyoderma"): "hughes2000",
    ("Figures", "barrier_across"): "lcd",
    ("Red flags", "separation_deep"): "separation2021",
    ("Advice", "support_fitting"): "nswocc",
    ("Advice", "weals"): "latexfood2000",
    ("Advice", "reacted_before"): "contactderm",
    ("Advice", "suspected_product"): "landis2012",
    ("Advice", "behind_restlessness"): "dementiauk",
    ("Advice", "pregnancy_team"): "pregnancy2022",
    ("Supplies", "mouldable"): "oklahoma1997",
}  # fmt: skip


@pytest.mark.parametrize("where", list(NOT_SAID), ids=lambda where: where[1])
def test_what_a_source_does_not_say_it_is_not_cited_for(where: tuple[str, str]) -> None:
    (rule,) = [rule for rule in all_rules() if (rule.group, rule.key) == where]
    assert not any(cited.partition("/")[0] == NOT_SAID[where] for cited in rule.sources)
    assert BASES & set(rule.sources)


@pytest.mark.parametrize(
    ("key", "kind", "words"),
    [
        ("granuloma", SkinKind.GRANULOMA, "Red, moist bumps that bleed on touch."),
        ("malignancy", SkinKind.HARD_LUMP, "There is a hard lump."),
        ("warty", SkinKind.WARTY, "Raised, thick, warty skin round the stoma."),
    ],
)
def test_a_look_that_no_source_describes_is_from_memory(
    key: str, kind: SkinKind, words: str
) -> None:
    (cause,) = [c for c in situation(well(skin=(seen(kind),))).causes.causes if c.key == key]
    assert [r.sources for r in cause.supports if r.text == words] == [("from_memory",)]


def test_a_pressure_mark_beside_pyoderma_is_not_in_the_study() -> None:
    found = (seen(SkinKind.ULCER), seen(SkinKind.PRESSURE_MARK))
    (cause,) = [c for c in situation(well(skin=found)).causes.causes if c.key == "pyoderma"]
    (why,) = [r for r in cause.supports if "pressure mark" in r.text]
    assert why.sources == ("wu2013/hernia_or_ulcer", "from_memory")


def test_a_fever_the_same_day_is_called_ours() -> None:
    """The passage sets cellulitis apart from dermatitis; it has no fever and no day in it."""
    (rule,) = [rule for rule in all_rules() if rule.key == "warmth_or_fever"]
    assert "design_value" in rule.sources


def test_no_ban_on_lifting() -> None:
    (rule,) = [rule for rule in all_rules() if rule.key == "support_cough"]
    assert "no heavy lifting" not in f"{rule.title} {rule.effect}".lower()
    assert "3 months" in CLAIMS["nswocc/cough"].support
