"""How many changes a plan makes, by the one definition that rules and cases share.

One each: a component worn that is added, dropped or swapped for another kind (barrier, pouch,
ring, strip, paste, film, tape, belt, garment, pouch cover, night bag, something in the pouch or on
its filter); a new opening size or shape; care of damaged skin (powder with or without film). Parts
that need each other are one: plate and pouch, a swapped barrier with its opening, two systems made
one. None: technique, posture, remover, cleaning, emptying, change day, compress, mirror, clothing,
teaching, referral, a prescriber's lotion, a dressing on a wound, ulcer, gap or tear (design value).

The planner's own counting is not used here: this reads the plan as a person would who has to do
what it says.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Final

from planning import Findings, Plan
from planning.inputs.findings import Accessory, PouchingSystem, Profile
from planning.results.plan import Change, ItemKind, Recommendation
from tests.planning.acceptance.pages import clinician_page, person_page

#: Recommendation by its key -> component. A key that is not here counts by what it is about.
_COMPONENT: Final = {
    **dict.fromkeys(
        (
            "other_material",
            "extended_wear",
            "one_piece",
            "two_piece",
            "flat_flexible",
            "flat_firm",
            "concave",
        ),
        "barrier",
    ),
    **dict.fromkeys(("cut_to_fit", "pre_cut", "mouldable", "opening", "cut_for_both"), "opening"),
    **dict.fromkeys(("powder", "antifungal_powder"), "skin care"),
    **dict.fromkeys(("drainable", "drainable_large", "high_output", "closed", "tap"), "pouch"),
    "night_bag": "night bag",
    **dict.fromkeys(("thickener", "lubricant"), "in the pouch"),
    "protectant": "film",
    "support_garment": "garment",
    "no_tape": "tape",
}
#: Nothing that is worn: what is done, taught, asked or laid on a wound. A garment that a trained
#: fitter is asked about is not yet worn.
_NO_CHANGE: Final = frozenset(
    {"adhesive_remover", "absorbent_dressing", "support_fitting", "cut_ahead", "meanwhile"}
)
#: The next step of a ladder that is no supply: an opinion, a fitting, a trial with the person.
_STEP: Final = "step_"
_WORN_KINDS: Final = frozenset(
    {
        ItemKind.BARRIER,
        ItemKind.OPENING,
        ItemKind.RING,
        ItemKind.FILLER,
        ItemKind.SKIN_CARE,
        ItemKind.POUCH,
        ItemKind.SUPPORT,
    }
)
#: What presses comes off in words alone where no supplies are planned.
_OFF: Final = {
    "barrier": r"no (firm )?convexity|convexity( and belt)? off|nothing that presses|"
    r"take off what presses|plate off",
    "belt": r"no belt|(any |the )?belt off|take off (any |the )?belt|convexity and belt off|"
    r"nothing that presses|take off what presses",
    "garment": r"garment off|take off (any |the )?(support|garment)",
}
_OPENED: Final = r"(loosen|enlarge)[^.;]*opening|opening[^.;]*(larger|roomier|enlarged)|hole larger"


def changes(plan: Plan, findings: Findings) -> dict[str, str]:
    """Component -> the words that change it. Its length is the number of changes."""
    system = findings.system or PouchingSystem()
    found: dict[str, str] = {}
    for item in changing(plan, findings):
        found.setdefault(_component(item), item.text)
    for component, words in _in_words(plan, system):
        found.setdefault(component, words)
    return _parts_together(found)


def changing(plan: Plan, findings: Findings) -> tuple[Recommendation, ...]:
    """Every recommendation that changes something worn, before parts are taken together."""
    system = findings.system or PouchingSystem()
    return tuple(item for item in plan.recommendations if _changes(item, system))


def _changes(item: Recommendation, system: PouchingSystem) -> bool:
    if item.change is Change.KEEP or item.key in _NO_CHANGE or item.key.startswith(_STEP):
        return False
    if item.kind not in _WORN_KINDS and item.key not in _COMPONENT:
        return False
    return item.change is not Change.START or _was_read(_component(item), item.key, system)


def _component(item: Recommendation) -> str:
    if "_convex_" in item.key:
        return "barrier"
    if item.key in _COMPONENT:
        return _COMPONENT[item.key]
    if item.kind in (ItemKind.BARRIER, ItemKind.POUCH, ItemKind.OPENING):
        return item.kind.value
    return item.key


def _was_read(component: str, key: str, system: PouchingSystem) -> bool:
    """The usual pouch, build or kind of opening named where the record says nothing of it is not
    known to be new. A barrier, a size or an accessory is: somebody has to do it."""
    if key in ("one_piece", "two_piece"):
        return system.pieces is not None
    if key in ("cut_to_fit", "pre_cut", "mouldable"):
        return system.opening_kind is not None
    return component != "pouch" or system.pouch is not None


def _in_words(plan: Plan, system: PouchingSystem) -> Iterator[tuple[str, str]]:
    """What is said to come off or to be cut larger although no supply says so."""
    if plan.leave_alone or plan.supplies:
        return
    worn = {
        "barrier": system.profile is Profile.CONVEX,
        "belt": Accessory.BELT in (system.accessories or ()),
        "garment": Accessory.SUPPORT_GARMENT in (system.accessories or ()),
    }
    texts = (*person_page(plan), *clinician_page(plan))
    for component, pattern in _OFF.items():
        words = next((text for text in texts if re.search(pattern, text, re.I)), None)
        if worn[component] and words is not None:
            yield component, words
    words = next((text for text in texts if re.search(_OPENED, text, re.I)), None)
    if words is not None:
        yield "opening", words


def _parts_together(found: dict[str, str]) -> dict[str, str]:
    """A swapped barrier with its opening and its pouch is one; powder with film is one."""
    together = {"barrier": ("opening", "pouch"), "skin care": ("film",)}
    gone = {part for whole, parts in together.items() if whole in found for part in parts}
    return {component: words for component, words in found.items() if component not in gone}
