"""Pieces of advice that exclude one another, by their keys: only one of them may be given."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Final

from planning.consistency.said import Fault, Part, Said
from planning.supplies.catalogue import SUPPLIES


@dataclass(frozen=True, slots=True)
class Opposite:
    """Where ``stays`` is given, none of ``gives_way`` may be: ``about`` what they differ."""

    stays: str
    gives_way: frozenset[str]
    about: str


_FOOD: Final = frozenset({"softer_stool", "drink_against_crystals", "slow_bowel"})
_BY_MOUTH: Final = frozenset({*_FOOD, "blockage_first_aid", "sip", "sips_only", "fluids"})
OPPOSITES: Final = (
    Opposite("nothing_by_mouth", _BY_MOUTH, "food and drink"),
    Opposite("no_solid_food", _FOOD, "food"),
    Opposite("sip", frozenset({"softer_stool", "slow_bowel"}), "drink"),
    Opposite("fluids", frozenset({"softer_stool"}), "drink"),
    Opposite("comfort_first", frozenset({"wear_interval", "wear_as_now", "change_sooner"}),
             "the day of the change"),
    Opposite("change_sooner", frozenset({"wear_as_now", "wear_interval"}),
             "the day of the change"),
    Opposite("ballooning_closed", frozenset({"ballooning"}), "the pouch"),
    Opposite("radiotherapy_skin", frozenset({"vinegar"}), "what touches the skin"),
    Opposite("psoriasis_lotion", frozenset({"tape"}), "tape"),
    Opposite("thin_skin", frozenset({"tape"}), "tape"),
    Opposite("latex_clinic", frozenset({"belt", "support_garment"}), "latex"),
    Opposite("no_tape", frozenset({"tape"}), "tape"),
)  # fmt: skip


def excludes(said: Said) -> Iterator[Fault]:
    """Both of a pair are said; the one that gives way is the fault."""
    given = {line.key: line for line in said.lines if line.key and line.part is not Part.LATER}
    for pair in OPPOSITES:
        if pair.stays in given:
            for key in sorted(pair.gives_way & given.keys()):
                if key not in SUPPLIES or key in said.chosen:
                    yield Fault("opposite", given[key], f"said otherwise of {pair.about}")
