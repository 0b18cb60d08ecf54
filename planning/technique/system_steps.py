"""From fillers to the closed pouch."""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import PRACTICE
from planning.inputs.findings import Contour
from planning.recommendations import supply_words
from planning.supplies.system_choice import SystemChoice
from planning.technique.rule import StepRule, When, carrying, uses, with_barrier
from planning.technique.skin_steps import shrinks

_SKIN_READY: Final = (
    "check",
    "measure",
    "trim",
    "repeat_layers",
    "brush_off",
    "film",
    "fill_wound",
)

_FILLERS: Final = ("strip", "half_ring", "ring", "paste")


def _cuts(chosen: SystemChoice) -> bool:
    """Scissors are needed: at the size given, or as before where all is kept."""
    if {"pre_cut", "mouldable"} & chosen.supplies:
        return False
    as_before = chosen.kept and "cut_to_fit" in chosen.supplies
    return chosen.sizes.opening_length_mm is not None or as_before


def _cuts_alone(chosen: SystemChoice) -> bool:
    return _cuts(chosen) and not chosen.cut_by_helper


def _helper_cuts(chosen: SystemChoice) -> bool:
    return _cuts(chosen) and chosen.cut_by_helper


def _folds(chosen: SystemChoice) -> bool:
    hangs = chosen.situation.facts.findings.abdomen.contour is Contour.PENDULOUS
    return hangs or "strip" in chosen.supplies


def _convex(chosen: SystemChoice) -> bool:
    return chosen.convex


def _flat(chosen: SystemChoice) -> bool:
    return not chosen.convex


def _ring_words(chosen: SystemChoice) -> str:
    base = (
        "Ring: warm it, stretch it to the stoma, begin at the lowest point where effluent pools, "
        "press outwards; it touches the mucosa all round and is never tight."
    )
    if chosen.sizes.ring_cut_and_overlap:
        return base + (
            " It will not stretch that far: cut it, add a piece, overlap the ends by 5 to 10 mm, "
            "away from 6 o'clock."
        )
    return base


def _half_ring_words(chosen: SystemChoice) -> str:
    layers = chosen.sizes.half_ring_layers
    count = "" if layers is None else f", {layers} layer{'s' if layers > 1 else ''} thick"
    need = next((n for n in chosen.needs if n.key in ("level_low_side", "raise_side")), None)
    where = need.hours.placed() if need is not None else ""
    return f"Half ring on the low side{where}{count}, so that the barrier lies level."


RULES: Final = (
    StepRule(
        "cut_opening",
        supply_words.opening,
        "Cut the hole along your template.",
        after=("lay_out",),
        applies=carrying("opening", lambda c: _cuts_alone(c) and not shrinks(c)),
        sources=("metcalf2001/template", PRACTICE),
    ),
    StepRule(
        "cut_after_measuring",
        supply_words.opening,
        "Cut along your template. If your size has changed, ask us for a new template.",
        after=("measure",),
        applies=carrying("opening", lambda c: _cuts_alone(c) and shrinks(c)),
        sources=("metcalf2001/template", "weekly/measured", PRACTICE),
    ),
    StepRule(
        "take_cut_ahead",
        supply_words.opening,
        "Take a barrier with the hole cut for you.",
        after=("lay_out",),
        applies=carrying("opening", lambda c: _helper_cuts(c) and not shrinks(c)),
    ),
    StepRule(
        "helper_cuts",
        supply_words.opening,
        "Let your helper cut along your template. If your size has changed, ask us for a new "
        "template.",
        after=("measure",),
        applies=carrying("opening", lambda c: _helper_cuts(c) and shrinks(c)),
        sources=("weekly/measured", PRACTICE),
    ),
    StepRule(
        "stretch_skin",
        "Sit back or lie; stretch the skin smooth, lift a hanging abdomen (helper or mirror).",
        "Lean back. Stretch the skin smooth with your free hand.",
        after=_SKIN_READY,
        applies=When(_folds),
    ),
    StepRule(
        "tight_belly",
        "Lie back or stand straight with the abdomen tight.",
        "Lie back or stand straight. Tighten your belly.",
        after=_SKIN_READY,
        applies=with_barrier(
            lambda c: c.convex and not _folds(c) and not c.situation.facts.bulging
        ),
    ),
    StepRule(
        "strip",
        "Roll strip into the crease until it is level with the skin.",
        "Fill the crease with the soft strip until it is level.",
        after=(*_SKIN_READY, "stretch_skin"),
        applies=uses("strip"),
        sources=("morgan2015/fills", PRACTICE),
    ),
    StepRule(
        "half_ring",
        _half_ring_words,
        "Lay half a ring on the low side, as you were shown.",
        after=(*_SKIN_READY, "stretch_skin", "strip"),
        applies=uses("half_ring"),
    ),
    StepRule(
        "ring",
        _ring_words,
        "Warm the ring and stretch it to fit. Start at the lowest point. It touches the stoma "
        "all round.",
        after=(*_SKIN_READY, "stretch_skin", "tight_belly", "strip", "half_ring"),
        applies=uses("ring"),
        sources=("morgan2015/ring", PRACTICE),
    ),
    StepRule(
        "paste",
        "Paste (alcohol-free) into the remaining step, at most 1 cm, and a thin bead along the cut "
        "edge, so that it meets the stoma all round; let it dry 30 to 60 seconds; shape with a wet "
        "finger.",
        "Put a thin line of paste in the gap and round the edge of the hole. Wait one minute.",
        after=("half_ring", "strip", "ring", *_SKIN_READY),
        applies=uses("paste"),
        sources=("accessories/filler", PRACTICE),
    ),
    StepRule(
        "apply",
        "Barrier: centre it, bottom first; press the inner edge, then outwards.",
        "Put the barrier on, bottom edge first. Press round the stoma, then outwards.",
        after=(
            "cut_opening",
            "cut_after_measuring",
            "take_cut_ahead",
            "helper_cuts",
            "stretch_skin",
            "tight_belly",
            *_FILLERS,
            *_SKIN_READY,
        ),
    ),
    StepRule(
        "hold_flat",
        "Hold a warm hand on it for 45 seconds to 2 minutes.",
        "Hold your warm hand on it for one to two minutes.",
        after=("apply",),
        applies=When(_flat),
        sources=("sizing2020/hold", PRACTICE),
    ),
    StepRule(
        "hold_plateau",
        "Press the plateau down evenly and hold it for 1 to 2 minutes.",
        "Press the middle down all round. Hold it for one to two minutes.",
        after=("apply",),
        applies=with_barrier(_convex),
    ),
    StepRule(
        "couple",
        "Click the pouch on, from the bottom up, without pressing on a bulge or wound.",
        "Click the pouch on, bottom first.",
        after=("hold_flat", "hold_plateau"),
        applies=uses("two_piece"),
    ),
    StepRule(
        "night_bag",
        "At night connect the bag; leave a little urine in the pouch first against an airlock.",
        "At night, join the night bag. Leave a little urine in the pouch first.",
        after=("close",),
        applies=uses("night_bag"),
    ),
    StepRule(
        "thickener",
        "One sachet into the empty pouch.",
        "Put one sachet in the empty pouch. Never swallow it.",
        after=("couple", "hold_flat", "hold_plateau"),
        applies=uses("thickener"),
    ),
    StepRule(
        "close",
        "Close the outlet.",
        "Close the outlet.",
        after=("couple", "hold_flat", "hold_plateau", "thickener"),
        applies=When(lambda c: "closed" not in c.supplies),
    ),
    StepRule(
        "belt",
        "Belt last: level with the stoma, even at 3 and 9 o'clock, two fingers fit under it.",
        "Put the belt on last, level with the stoma. Two fingers must fit under it.",
        after=("close",),
        applies=uses("belt"),
        sources=("complicationsreview/belt", "pressure2007/belt_pull", PRACTICE),
    ),
    StepRule(
        "garment",
        "Support garment lying down, with the hernia soft; off at night.",
        "Put the support belt on while you lie down. Take it off at night.",
        after=("close", "belt"),
        applies=uses("support_garment"),
    ),
    StepRule(
        "note_date",
        "Note the date.",
        "Write down the date.",
        after=("close", "belt", "garment", "night_bag"),
    ),
    StepRule(
        "check_imprint",
        "At the next change look for the imprint: it must fade within about 15 to 30 minutes; if "
        "it stays, the pressure is too high.",
        "At the next change, look at the skin. A red mark must fade in half an hour. If it "
        "stays, call us.",
        after=("note_date",),
        applies=When(lambda c: c.convex or "belt" in c.supplies),
        sources=("complicationsreview/imprint", PRACTICE),
    ),
)
