"""Every rule in one list, generated from the code: what it does, on whose word, where tested."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from planning.causes import CAUSES
from planning.diagnoses import CAVEAT, TITLES
from planning.diagnoses import RULES as CODES
from planning.plan import CauseOf
from planning.quantities import LINES
from planning.safety.gate import RULES as GATE
from planning.safety.red_flags import RULES as FLAGS
from planning.supplies.catalogue import ANY, CATALOGUE, Supply
from planning.supplies.hazards import HAZARDS, Stay
from planning.technique import in_order
from planning.thresholds import all_thresholds


@dataclass(frozen=True, slots=True)
class Rule:
    """``group`` a heading; ``effect`` what the rule does, in words; ``tested_in`` a test file."""

    group: str
    key: str
    title: str
    effect: str
    sources: tuple[str, ...]
    tested_in: str


def all_rules() -> tuple[Rule, ...]:
    """Red flags, safety rules, hazards, causes, supplies, steps, codes, figures, in this order."""
    parts = (
        _flags(),
        _gate(),
        _hazards(),
        _causes(),
        _supplies(),
        _steps(),
        _codes(),
        _figures(),
    )
    return tuple(rule for part in parts for rule in part)


def _flags() -> Iterator[Rule]:
    for flag in FLAGS:
        effect = f"Refers to {flag.refer_to}. {flag.do}"
        where = "tests/planning/safety/test_red_flags.py"
        yield Rule("Red flags", flag.key, flag.text, effect, flag.sources, where)


def _gate() -> Iterator[Rule]:
    for rule in GATE:
        effect = "Taken out of every plan, whatever the search chose."
        where = "tests/planning/safety/test_gate.py"
        yield Rule("Never", rule.key, rule.text, effect, rule.sources, where)


_STAY = {
    Stay.NEVER: "Bars: {}.",
    Stay.WHILE_IT_WORKS: "Bars: {}. What is worn may stay while it works.",
    Stay.ALWAYS: "Bars starting: {}. What is worn may stay.",
}


def _hazards() -> Iterator[Rule]:
    for hazard in HAZARDS.values():
        names = ", ".join(s.name for s in CATALOGUE if hazard.key in s.hazards)
        effect = _STAY[hazard.stay].format(names)
        title = f"Not with {hazard.text}"
        where = "tests/planning/supplies/test_hazards.py"
        yield Rule("Hazards", hazard.key, title, effect, hazard.sources, where)


def _causes() -> Iterator[Rule]:
    """Sources stand beside each piece of evidence in the plan itself."""
    for cause in CAUSES:
        group = "Causes of damaged skin" if cause.of is CauseOf.SKIN else "Causes of a leak"
        where = "tests/planning/causes/test_causes.py"
        yield Rule(group, cause.key, cause.title, f"Would speak for it: {cause.tell}", (), where)


def _supplies() -> Iterator[Rule]:
    for supply in CATALOGUE:
        where = "tests/planning/supplies/test_each_supply.py"
        yield Rule("Supplies", supply.key, supply.name, _provides(supply), supply.sources, where)


def _provides(supply: Supply) -> str:
    needs = [
        key.replace("_", " ") + ("" if amount == ANY else f" (to {amount:.1f} mm)")
        for key, amount in supply.provides.items()
    ]
    line = LINES.get(supply.key)
    code = f" Code {line.code}." if line is not None and line.code else ""
    return ("Provides: " + ", ".join(needs) + "." if needs else "Kept where worn.") + code


def _steps() -> Iterator[Rule]:
    for step in in_order():
        title = step.key.replace("_", " ")
        effect = "After: " + ", ".join(step.after) + "." if step.after else "Comes first."
        where = "tests/planning/test_each_step.py"
        yield Rule("Steps", step.key, title, effect, step.sources, where)


def _codes() -> Iterator[Rule]:
    for rule in CODES:
        names = " or ".join(f"{code} ({TITLES[code]})" for code in dict.fromkeys(rule.codes))
        effect = f"Suggests {names}: {CAVEAT}."
        where = "tests/planning/test_diagnoses.py"
        yield Rule("Diagnosis codes", rule.key, rule.text, effect, rule.sources, where)


def _figures() -> Iterator[Rule]:
    for name, figure in all_thresholds().items():
        effect = (
            f"{figure.value:g} {figure.unit}, since {max(figure.values)}; {figure.checked_by}; "
            f"next review {figure.next_review}."
        )
        where = "tests/planning/test_figures.py"
        yield Rule("Figures", name.lower(), figure.meaning, effect, (figure.source,), where)
