"""One hand, or eyes that cannot read or see the stoma."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.inputs.findings import Ability, ChangedBy
from planning.recommendations.situations.rule import Situation
from planning.results.plan import Urgency
from planning.supplies.system_choice import SystemChoice

_BY_OTHERS: Final = (ChangedBy.CARER, ChangedBy.NURSE)
_LOST_HAND: Final = (Ability.ONE_HAND, Ability.NONE)
_POOR_SIGHT: Final = (Ability.LIMITED, Ability.NONE)


def _own_hands(chosen: SystemChoice) -> bool:
    person = chosen.situation.facts.findings.person
    return person.changed_by not in _BY_OTHERS and not chosen.kept


def _touch(chosen: SystemChoice) -> bool:
    person = chosen.situation.facts.findings.person
    needed = person.dexterity in _LOST_HAND or person.eyesight is Ability.NONE
    return needed and _own_hands(chosen)


def _by_touch(chosen: SystemChoice) -> str:
    """A closed pouch has no outlet."""
    outlet = "" if "closed" in chosen.supplies else " and an outlet that opens easily"
    return (
        "Set up in a fixed order within reach of one hand and placed by touch, with a mark to feel "
        f"at 12 o'clock{outlet}. Record who helps, and with what"
    )


def _print(chosen: SystemChoice) -> bool:
    return chosen.situation.facts.findings.person.eyesight in _POOR_SIGHT and not chosen.kept


def _therapist(chosen: SystemChoice) -> bool:
    return _touch(chosen) and chosen.situation.facts.troubled


ROWS: Final = (
    Situation(
        "by_touch",
        "A fixed order, found by touch",
        "somebody has one working hand or none, or cannot see the stoma, and changes it without a "
        "carer or nurse",
        _touch,
        _by_touch,
        "Dexterity or sight is limited.",
        (PRACTICE, DESIGN),
        "Lay everything out in the same order each time.",
        "person.dexterity",
    ),
    Situation(
        "large_print",
        "Very large print or a recording",
        "somebody sees poorly or not at all and the system is not simply kept",
        _print,
        "This sheet in very large print, or read out as a recording",
        "Print is hard or impossible to read.",
        (PRACTICE,),
        "Ask us for this sheet in very large print or as a recording.",
        "person.eyesight",
    ),
    Situation(
        "therapist",
        "A therapist looks at the handling",
        "somebody with one working hand or none, or who cannot see the stoma, changes it without "
        "a carer or nurse, and it leaks or the skin may be burnt",
        _therapist,
        "try the handling with the person, piece by piece, and agree who helps",
        "Dexterity or sight is limited, and it does not hold.",
        (PRACTICE, DESIGN),
        at="person.dexterity",
        who="Occupational therapist",
        within=Urgency.TWO_WEEKS,
    ),
)
