"""The ladders as a table of what each step comes to when it is worn (order: common practice).

Written apart from the planner's: a step here is a test of the whole system, not a need that is
searched for.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final, NamedTuple

from planning.evidence.thresholds import (
    HALF_RINGS,
    PASTE_DEPTH,
    RING_THICKNESS,
    STRIP_LAYERS,
    STRIP_THICKNESS,
)
from planning.facts.height import dome_height
from planning.needs.skin_surface import step_beside_bulge
from planning.ranked_facts import RankedFacts
from planning.restraint.ladders import leaks_a_week, low_side
from planning.supplies.catalogue import MODERATE_TO

System = frozenset[str]
_DEPTHS: Final = ("", "shallow", "moderate", "deep")
_DOMES: Final = frozenset(
    f"{feel}_convex_{depth}" for feel in ("soft", "firm") for depth in _DEPTHS[1:]
)


class Dome(NamedTuple):
    """Depth 1 to 3 (0: none), and whether it is firm."""

    depth: int
    firm: bool


def dome(system: System) -> Dome:
    """The dome of a system."""
    key = next(iter(system & _DOMES), "")
    return Dome(_DEPTHS.index(key.rpartition("_")[2]), key.startswith("firm"))


@dataclass(frozen=True)
class Tried:
    """Systems that are behind this person."""

    systems: tuple[System, ...]
    now: RankedFacts

    @property
    def dome(self) -> Dome:
        """The deepest tried, and whether any was firm."""
        domes = [dome(system) for system in self.systems]
        return Dome(max(d.depth for d in domes), any(d.firm for d in domes))


@dataclass(frozen=True)
class Stated:
    """One step. ``behind``: a system that held it or went further. ``made``: a system that takes
    it, after what was tried; None: it is an opinion, a fitting or a trial. ``of``: supplies that it
    may need. ``instead_of``: what the system did so far and this step does in its place.
    ``rather``: of several ways the lowest goes first. ``unless``: only where none of these may be
    worn."""

    key: str
    behind: Callable[[System], bool]
    made: Callable[[System, Tried], bool] | None = None
    of: System = frozenset()
    instead_of: frozenset[str] = frozenset()
    rather: Callable[[System, Tried], int] = lambda _, __: 0
    unless: System = frozenset()


def _asked(key: str) -> Stated:
    return Stated(key, lambda _: False)


def _one(key: str, supply: str) -> Stated:
    return Stated(key, lambda s: supply in s, lambda s, _: supply in s, frozenset({supply}))


def _no_less(system: System, tried: Tried) -> bool:
    """As deep as what was tried, and a dome at all."""
    return dome(system).depth >= max(tried.dome.depth, 1)


def _firmer_or_deeper(system: System, tried: Tried) -> bool:
    """Not both."""
    new, old = dome(system), tried.dome
    deeper = new.depth > max(old.depth, 2) and new.firm == old.firm
    firmer = new.firm > old.firm and new.depth == max(old.depth, 2)
    return deeper or firmer


def _first_choice(system: System, tried: Tried) -> int:
    """Deeper first where the stoma lies lower than a moderate dome reaches, else firmer."""
    deeper = (tried.now.facts.lift_mm or 0) > MODERATE_TO
    return 0 if (dome(system).depth == 3) == deeper else 1


def _fills(system: System, tried: Tried) -> bool:
    """What reaches as deep as the crease, as far as strips in layers go."""
    most = STRIP_LAYERS.value * STRIP_THICKNESS.value
    depths = [c.depth_mm for c in tried.now.facts.findings.abdomen.creases or ()]
    reach = {"ring": RING_THICKNESS.value, "strip": most, "paste": PASTE_DEPTH.value}
    if not depths or None in depths:
        return bool(system & set(reach))
    deepest = min(most, max(d for d in depths if d is not None))
    return any(reach[key] >= deepest for key in system & set(reach))


def _levels(system: System, tried: Tried) -> bool:
    """Half rings as high as the step beside the bulge, where that was measured."""
    step = step_beside_bulge(tried.now.facts)
    return "half_ring" in system and (
        step is None or step <= HALF_RINGS.value * RING_THICKNESS.value
    )


def _raises(system: System, tried: Tried) -> bool:
    return ("half_ring" if low_side(tried.now) else "ring") in system


_RING: Final = Stated("ring", lambda s: "ring" in s or bool(s & _DOMES),
                      lambda s, _: "ring" in s, frozenset({"ring"}))  # fmt: skip
_SOFT: Final = Stated("soft_shallow", lambda s: bool(s & _DOMES), lambda s, _: bool(s & _DOMES),
                      _DOMES, frozenset({"lift_rim"}))  # fmt: skip
_MODERATE: Final = Stated("soft_moderate", lambda s: dome(s).depth >= 2,
                          lambda s, _: dome(s).depth >= 2, _DOMES,
                          frozenset({"lift_rim"}))  # fmt: skip
_BOTH: Final = Stated("convex_and_ring", lambda s: "ring" in s and bool(s & _DOMES),
                      lambda s, t: "ring" in s and _no_less(s, t), _DOMES | {"ring"})  # fmt: skip
_FIRMER: Final = Stated("firmer_or_deeper", lambda s: dome(s).firm or dome(s).depth == 3,
                        _firmer_or_deeper, _DOMES, frozenset({"lift_rim", "firm_dome"}),
                        _first_choice)  # fmt: skip
_BELT: Final = Stated("belt", lambda s: "belt" in s,
                      lambda s, t: "belt" in s and _no_less(s, t), _DOMES | {"belt"})  # fmt: skip
_FIRM_DEEP: Final = Stated("firm_deep", lambda s: dome(s) == Dome(3, firm=True),
                           lambda s, _: dome(s) == Dome(3, firm=True), _DOMES,
                           frozenset({"lift_rim"}))  # fmt: skip
_SURGEON: Final = _asked("surgeon")
_EXTENDED: Final = _one("extended", "extended_wear")
_FLAT: Final = Stated("flexible", lambda s: bool(s & (_DOMES | {"flat_flexible", "concave"})),
                      lambda s, _: "flat_flexible" in s, frozenset({"flat_flexible"}))  # fmt: skip

LADDERS: Final[dict[str, tuple[Stated, ...]]] = {
    "low_stoma": (_RING, _SOFT, _MODERATE, _BOTH, _FIRMER, _BELT, _FIRM_DEEP, _SURGEON),
    "edge": (_RING, _SOFT, _MODERATE, _BOTH, _FIRMER, _BELT, _SURGEON),
    "crease": (
        Stated("fill", lambda s: bool(s & {"ring", "strip"}), _fills,
               frozenset({"ring", "strip"})),
        Stated("fill_with_paste", lambda s: bool(s & {"ring", "strip", "paste"}), _fills,
               frozenset({"paste"}), unless=frozenset({"ring", "strip"})),
        Stated("soft_on_crease", _SOFT.behind, _SOFT.made, _DOMES, _SOFT.instead_of),
        _asked("narrow"),
        Stated("firm_on_crease", lambda s: dome(s).firm, lambda s, t: dome(s).firm, _DOMES),
        _one("belly_support", "belt"),
        _SURGEON,
    ),
    "bulge": (
        Stated("flexible", lambda s: bool(s & {"flat_flexible", "concave"}),
               lambda s, _: "flat_flexible" in s, frozenset({"flat_flexible"})),
        _one("concave", "concave"),
        Stated("edge_strips", lambda s: bool(s & {"half_ring", "strip"}), _levels,
               frozenset({"half_ring"})),
        Stated("garment", lambda s: "support_garment" in s),
        _SURGEON,
    ),
    "pours_low": (
        Stated("low_side", lambda s: bool(s & {"ring", "half_ring"}), _raises,
               frozenset({"ring", "half_ring"})),
        _SOFT,
        _MODERATE,
        _EXTENDED,
        _SURGEON,
    ),
    "loose_output": (_RING, _EXTENDED, _SURGEON),
    "prolapse": (
        Stated("one_soft_piece", lambda s: {"flat_flexible", "one_piece"} <= s,
               lambda s, _: {"flat_flexible", "one_piece"} <= s
               and bool(s & {"drainable_large", "high_output", "tap"}),
               frozenset({"flat_flexible", "one_piece", "drainable_large", "high_output", "tap"})),
        _one("cover", "ring"),
        Stated("flap", lambda s: "support_garment" in s),
        _SURGEON,
    ),
    "separation": (
        _FLAT,
        _one("ring_as_it_fills", "ring"),
        Stated("soft_assessed", _SOFT.behind, _SOFT.made, _DOMES, _SOFT.instead_of),
    ),
    "thick_stool": (_one("one_pouch_measure", "lubricant"), _asked("softer_stool")),
    "placing": (_one("pre_cut", "pre_cut"), _asked("one_piece"), _asked("helper")),
}  # fmt: skip


def _low_from(now: RankedFacts, may_not: frozenset[str]) -> int:
    """A ring or a dome comes first: a stoma lower than its kind needs begins at the dome, where one
    may be worn. It begins at a moderate one with liquid output, raw skin and three leaks a week; or
    5 mm or more below the skin with raw skin or two leaks a day."""
    if may_not >= _DOMES:
        return 0
    facts, often = now.facts, leaks_a_week(now) or 0
    height = facts.findings.measurement.protrusion_mm
    raw = bool(facts.weeping)
    if facts.liquid and raw and often >= 3:
        return 2
    if height is not None and height <= -5 and (raw or often >= 14):
        return 2
    return 1 if height is not None and height < dome_height(facts.kind) else 0


#: How many first steps are left out.
ENTERED_AT: Final[dict[str, Callable[[RankedFacts, frozenset[str]], int]]] = {
    "low_stoma": _low_from
}
