"""Every rule in one list, generated from the code: what it does, its source, where it is tested."""

from __future__ import annotations

from collections.abc import Iterator

from planning.causes import CAUSES
from planning.coding.code_pairs import CALLS_FOR, EXCLUDES
from planning.coding.diagnoses import CAVEAT, STATUS, TITLES
from planning.coding.diagnoses import RULES as CODES
from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import all_thresholds
from planning.facts.missing import RULES as LACKS
from planning.inputs.check import PARTS
from planning.inputs.quantities import QUANTITIES
from planning.instructions.quantities import LINES, all_lines
from planning.needs import NEEDS
from planning.notices import OF_CHOICE, OF_FINDINGS
from planning.recommendations.register import ADVICE
from planning.restraint.ladders import LADDER_NEEDS, LADDERS
from planning.results.plan import CauseOf
from planning.rulebook.children import under_16
from planning.rulebook.decisions import DECISIONS
from planning.rulebook.rule import Rule, docstring_of
from planning.safety import call_when, follow_up, routine
from planning.safety.gate import RULES as GATE
from planning.safety.red_flags import RULES as FLAGS
from planning.supplies.catalogue import ANY, CATALOGUE, Supply
from planning.supplies.hazards import HAZARDS, Stay
from planning.technique import in_order


def all_rules() -> tuple[Rule, ...]:
    """Every rule, what bars first, then in the order of the pipeline; the figures last."""
    parts = (
        _checks(),
        _ranges(),
        _flags(),
        _gate(),
        _hazards(),
        _causes(),
        _needs(),
        _supplies(),
        _ladders(),
        _decided("Restraint"),
        _decided("Choice"),
        _decided("Keeping the system"),
        _decided("Dimensions"),
        _steps(),
        _advice(),
        _decided("Wear and amounts"),
        _maxima(),
        _decided("Chosen instead"),
        _follow_up(),
        _call_when(),
        _notices(),
        _missing(),
        _codes(),
        under_16(),
        _figures(),
    )
    return tuple(rule for part in parts for rule in part)


def _checks() -> Iterator[Rule]:
    for part in PARTS:
        effect = f"Refused with an error beside its field, and no plan: {docstring_of(part.judge)}"
        where = "tests/planning/inputs/test_check.py"
        yield Rule("Checks", part.key, part.title, effect, (DESIGN,), where)


def _ranges() -> Iterator[Rule]:
    where = "tests/planning/inputs/test_quantities.py"
    for one in QUANTITIES:
        effect = f"Refused unless {one.range_words}, on the form, in the record and by the planner."
        title = f"{one.label} ({one.path.partition('.')[0].removesuffix('[]')})"
        yield Rule("Ranges", one.path, title, effect, (one.source,), where)


def _flags() -> Iterator[Rule]:
    titles = {flag.key: flag.text for flag in FLAGS}
    for flag in FLAGS:
        effect = f"Refers to {flag.refer_to}. {flag.do}"
        if flag.within:
            more = " or ".join(f"\u201c{titles[key]}\u201d" for key in flag.within)
            effect += f" Joins {more} where that is raised by the same finding."
        where = "tests/planning/safety/test_red_flags.py"
        yield Rule("Red flags", flag.key, flag.text, effect, flag.sources, where)


def _gate() -> Iterator[Rule]:
    for rule in GATE:
        effect = "Removed from every plan, whatever the search chose."
        where = "tests/planning/safety/test_gate.py"
        yield Rule("Never", rule.key, rule.text, effect, rule.sources, where)


_STAY = {
    Stay.NEVER: "Bars: {}.",
    Stay.WHILE_IT_WORKS: "Bars: {}. What is worn may stay while it works.",
    Stay.WHILE_IT_FITS: "Bars: {}. What is worn may stay while the opening fits.",
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
    """Each piece of evidence names its sources in the plan itself."""
    for cause in CAUSES:
        group = "Causes of damaged skin" if cause.of is CauseOf.SKIN else "Causes of a leak"
        where = "tests/planning/causes/test_causes.py"
        yield Rule(group, cause.key, cause.title, f"To check for it: {cause.tell}", (), where)


def _needs() -> Iterator[Rule]:
    for need in (*NEEDS, *LADDER_NEEDS):
        met = ", ".join(s.name for s in CATALOGUE if need.key in s.provides)
        first = "Comes before needs that are not essential. " if need.essential else ""
        effect = f"Where {need.when}. {first}Met by: {met}."
        of_ladder = need in LADDER_NEEDS
        where = "restraint/test_ladders.py" if of_ladder else "needs/test_each_need.py"
        where = f"tests/planning/{where}"
        yield Rule("Needs", need.key, need.title, effect, need.sources, where)


_LADDERS = "tests/planning/restraint/test_ladders.py"


def _ladders() -> Iterator[Rule]:
    """Steps by their place, so that the same step on two ladders is listed twice."""
    for ladder in LADDERS:
        for place, rung in enumerate(ladder.rungs, 1):
            title = f"{rung.text[:1].upper()}{rung.text[1:]}"
            effect = f"Step {place} of this ladder, taken where none before it is left."
            where = f"{_LADDERS}::test_the_steps_are_in_the_order_of_the_facts"
            key = f"{ladder.key}_{rung.key}"
            yield Rule("Ladders", key, title, effect, (PRACTICE, DESIGN), where)


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


def _decided(group: str) -> Iterator[Rule]:
    return (told.rule(group) for told in DECISIONS[group])


def _steps() -> Iterator[Rule]:
    for step in in_order():
        title = step.key.replace("_", " ")
        effect = "After: " + ", ".join(step.after) + "." if step.after else "Comes first."
        where = "tests/planning/technique/test_each_step.py"
        yield Rule("Steps", step.key, title, effect, step.sources, where)


def _advice() -> Iterator[Rule]:
    for advice in ADVICE:
        asks = f" Asks: {advice.asks[:1].lower()}{advice.asks[1:]}." if advice.asks else ""
        effect = f"Given where {advice.when}.{asks}"
        where = f"tests/planning/recommendations/{advice.test}"
        yield Rule("Advice", advice.key, advice.title, effect, advice.sources, where)


def _maxima() -> Iterator[Rule]:
    """By code: what is ordered under it, and how much a month is usual at most."""
    for code, lines in all_lines().items():
        most = lines[0].maximum
        cap = "no stated maximum" if most is None else f"usually at most {most:.3g} a month"
        effect = f"Counted as {lines[0].unit}; {cap}."
        effect += f" Code {lines[0].doubt}." if lines[0].doubt else ""
        title = "; ".join(line.text for line in lines)
        where = "tests/planning/instructions/test_quantities.py"
        yield Rule("Usual maxima", code, title, effect, lines[0].sources, where)


def _follow_up() -> Iterator[Rule]:
    where = "tests/planning/safety/test_follow_up.py"
    for rule in follow_up.RULES:
        effect = f"Again within {rule.days.value:g} days; the soonest of all reasons counts."
        yield Rule("Next visit", rule.key, rule.why, effect, rule.sources, where)
    for visit in routine.VISITS:
        only = ", ".join(kind.value for kind in visit.only) or "every stoma"
        effect = f"Day {visit.day} after surgery, {only}."
        if visit.day > routine.CALLS_UNTIL:
            effect += " A look in the second half of the time before it stands for it."
        yield Rule("Next visit", visit.key, visit.why, effect, visit.sources, where)
    for visit in (routine.YEARLY, routine.OVERDUE, routine.UNKNOWN):
        effect = f"Again within {visit.day} days."
        yield Rule("Next visit", visit.key, visit.why, effect, visit.sources, where)


def _call_when() -> Iterator[Rule]:
    for danger in call_when.DANGERS:
        who = "everybody" if danger.told is None else "those it applies to"
        effect = f"Printed for {who}: {danger.urgency.value.replace('_', ' ')}. {danger.then}"
        title = f"Call when {danger.words}"
        where = "tests/planning/safety/test_call_when.py"
        yield Rule("When to call", danger.key, title, effect.strip(), danger.sources, where)


def _notices() -> Iterator[Rule]:
    where = "tests/planning/notices/test_notices.py"
    effect = "Shown with the plan; changes no supply."
    for rule in OF_FINDINGS:
        yield Rule("Notices", rule.key, rule.title, effect, rule.sources, where)
    for of_choice in OF_CHOICE:
        yield Rule("Notices", of_choice.key, of_choice.title, effect, of_choice.sources, where)


def _missing() -> Iterator[Rule]:
    effect = "Asked for where it is not recorded and would matter; never assumed to be normal."
    for lack in LACKS:
        where = "tests/planning/facts/test_missing.py"
        yield Rule("Not recorded", lack.key, lack.text, effect, (PRACTICE,), where)


_PAIRS = "tests/planning/coding/test_diagnoses.py"


def _codes() -> Iterator[Rule]:
    where = "tests/planning/coding/test_diagnoses.py"
    for rule in CODES:
        names = " or ".join(f"{code} ({TITLES[code]})" for code in dict.fromkeys(rule.codes))
        effect = f"Suggests {names}: {CAVEAT}."
        yield Rule("Diagnosis codes", rule.key, rule.text, effect, rule.sources, where)
    for kind, code in STATUS.items():
        title = f"{kind.value.capitalize()} without a complication that excludes this code"
        effect = f"Suggests {code} ({TITLES[code]}): {CAVEAT}."
        yield Rule("Diagnosis codes", code, title, effect, ("icd10cm/titles",), where)
    for left, right in EXCLUDES:
        title = f"{_any_of(left)} never with {_any_of(right)}"
        key, effect = f"not_{'_'.join(left)}", "Not offered together for one stoma."
        where = f"{_PAIRS}::test_what_excludes_what_is_in_the_tabular_list"
        yield Rule("Diagnosis codes", key, title, effect, ("icd10cm/excludes",), where)
    for first, wanted, words in CALLS_FOR:
        title = f"{first} calls for {_any_of(wanted)}"
        effect = f"Said beside the code: {words}."
        where = f"{_PAIRS}::test_what_calls_for_what_is_in_the_tabular_list"
        yield Rule(
            "Diagnosis codes", f"also_{first}", title, effect, ("icd10cm/additional",), where
        )


def _any_of(codes: tuple[str, ...]) -> str:
    return " or ".join(codes)


def _figures() -> Iterator[Rule]:
    for name, figure in all_thresholds().items():
        effect = (
            f"{figure.value:g} {figure.unit}; {figure.checked_by}; "
            f"next review {figure.next_review}."
        )
        where = "tests/planning/evidence/test_thresholds.py"
        yield Rule("Figures", name.lower(), figure.meaning, effect, (figure.source,), where)


__all__ = ["Rule", "all_rules"]
