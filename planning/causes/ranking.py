"""Likeliest first; what cannot be told apart; and what would tell it apart."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Final

from planning.causes.products import worn_outside
from planning.causes.rule import CauseRule
from planning.facts.derive import Facts
from planning.inputs.findings import Material
from planning.results.plan import Cause, CauseOf, CauseRanking

#: Causes whose scores differ by no more than this are level (design value).
_LEVEL: Final = 1.0

_ALLERGY: Final = "allergic_contact"

_CONTACT: Final = {"allergic_contact", "irritant_contact"}
#: In place of wearing the product again, where rubber latex may be the cause.
_LATEX: Final = (
    "Only an allergy clinic can tell: anything that may contain latex is not worn again as a test."
)

#: One check that separates a pair better than either one's own.
_BETWEEN: Final[dict[frozenset[str], str]] = {
    frozenset({"allergic_contact", "irritant_contact"}): (
        "Leave off the suspected product for two or three changes; if it returns on re-exposure, "
        "supervised by a nurse, ask dermatology for a patch test."
    ),
    frozenset({"irritant_effluent", "irritant_contact"}): (
        "Read the back of the next barrier: effluent beneath it, or dry to the edge?"
    ),
    frozenset({"irritant_effluent", "yeast"}): (
        "Look for spots outside the edge and take a swab or scrape."
    ),
    frozenset({"irritant_effluent", "moisture"}): (
        "Read the back of the next barrier: effluent beneath it, or only moisture?"
    ),
    frozenset({"pressure_injury", "pyoderma"}): (
        "Take the pressure off: a pressure injury improves within 2 weeks; a violet, "
        "undermined, growing edge does not."
    ),
    frozenset({"yeast", "folliculitis"}): "Look with a lens: are the spots on hairs or between?",
    frozenset({"granuloma", "malignancy"}): "Only a biopsy by the surgeon can tell.",
    frozenset({"warty", "malignancy"}): "Only a biopsy by the surgeon can tell.",
}


def rank(facts: Facts, rules: Iterable[CauseRule]) -> CauseRanking:
    """Every cause with evidence, skin before leak, by score; ties keep the rules' order.

    Causes of damaged skin compete and may be level; causes of a leak add up and are all listed.
    """
    rules = tuple(rules)
    found = [cause for rule in rules if (cause := rule.assess(facts)) is not None]
    ordered = sorted(found, key=lambda c: (c.of is CauseOf.LEAK, -c.score))
    if facts.leaking:
        ordered = _never_conclude_allergy(ordered)
    skin = [c for c in ordered if c.of is CauseOf.SKIN and c.score > 0]
    level = tuple(c.key for c in skin if skin[0].score - c.score <= _LEVEL)
    if len(level) < 2:
        return CauseRanking(tuple(ordered))
    return CauseRanking(tuple(ordered), level, _observation(facts, skin, rules))


def _never_conclude_allergy(ordered: list[Cause]) -> list[Cause]:
    """While effluent gets under the barrier, allergy ranks behind every other skin cause
    (Lyon 2000; patch testing 2012)."""
    allergy = [c for c in ordered if c.key == _ALLERGY]
    skin = [c for c in ordered if c.of is CauseOf.SKIN and c.key != _ALLERGY]
    leaks = [c for c in ordered if c.of is CauseOf.LEAK]
    return skin + allergy + leaks


def _observation(facts: Facts, causes: list[Cause], rules: tuple[CauseRule, ...]) -> str:
    first, second = causes[0].key, causes[1].key
    if {first, second} == _CONTACT and Material.LATEX in worn_outside(facts):
        return _LATEX
    if between := _BETWEEN.get(frozenset({first, second})):
        return between
    tells = {rule.key: rule.tell for rule in rules}
    return tells[second]
