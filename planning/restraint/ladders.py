"""The ladders: which step comes before which (common practice; steps and entry are design values).

The first step not yet worn or tried is taken, one a visit. What a step asks is a need like any
other, so that the choice of a supply for it goes by the same rules.
"""

from __future__ import annotations

from typing import Final

from planning.evidence.sources import DESIGN, PRACTICE
from planning.evidence.thresholds import (
    DEEP_FROM,
    LEAKS_A_DAY,
    LEAKS_A_WEEK,
    RETRACTED_AT,
    SHALLOW_TO,
    STRIP_LAYERS,
    STRIP_THICKNESS,
)
from planning.facts.height import Height, dome_height
from planning.inputs.clock import ClockHours
from planning.inputs.findings import Condition
from planning.needs.register import NeedRule
from planning.needs.skin_surface import step_beside_bulge
from planning.ranked_facts import RankedFacts
from planning.restraint.rung import Ladder, Rung
from planning.results.plan import Need, Reason
from planning.supplies.catalogue import CONVEX, DEEP_CONVEX, FIRM_CONVEX, MODERATE_TO
from planning.supplies.worn import worn_before, worn_now

_STEP: Final = Reason("The next step of the ladder for this leak.", (PRACTICE, DESIGN))
#: Depths (mm) that a shallow and a moderate dome reach.
_SHALLOW, _MODERATE = SHALLOW_TO.value, MODERATE_TO
_DEPTHS: Final = (("deep", DEEP_FROM.value), ("moderate", MODERATE_TO), ("shallow", _SHALLOW))
_AT_LEAST_MODERATE: Final = frozenset(key for key in CONVEX if not key.endswith("shallow"))


def _any(*keys: str) -> tuple[frozenset[str], ...]:
    return (frozenset(keys),)


# --- what a step asks -----------------------------------------------------------------------
def _seal(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("seal_edge", "Seal right at the stoma, all round", (_STEP,)),)


def _lift(depth_mm: float, words: str) -> Need:
    return Need("lift_rim", f"Press the skin back round the stoma: {words}", (_STEP,), depth_mm,
                "mm")  # fmt: skip


def _lift_shallow(situation: RankedFacts) -> tuple[Need, ...]:
    wanted = situation.facts.lift_mm or _SHALLOW
    return (_lift(min(wanted, _SHALLOW), "shallow convexity"),)


def _dome_as_tried(situation: RankedFacts) -> Need:
    """The deepest dome worn or tried so far, to which a step adds something."""
    facts = situation.facts
    systems = worn_before(facts, worn_now(facts))
    depths = {key.rpartition("_")[2] for system in systems for key in system & CONVEX}
    amount = next((mm for depth, mm in _DEPTHS if depth in depths), _SHALLOW)
    return Need("dome_as_tried", "The convexity that was tried", (_STEP,), amount, "mm")


def _ring_with_dome(situation: RankedFacts) -> tuple[Need, ...]:
    return (_dome_as_tried(situation), *_seal(situation))


def _belt_with_dome(situation: RankedFacts) -> tuple[Need, ...]:
    return (_dome_as_tried(situation), *_belt(situation))


def _lift_moderate(_: RankedFacts) -> tuple[Need, ...]:
    return (_lift(_SHALLOW + 1, "moderate convexity"),)


def _deeper(situation: RankedFacts) -> tuple[Need, ...]:
    return (_lift(max(situation.facts.lift_mm or 0.0, DEEP_FROM.value), "deep convexity"),)


def _firmer(_: RankedFacts) -> tuple[Need, ...]:
    return (
        _lift(_SHALLOW + 1, "moderate convexity"),
        Need("firm_dome", "Convexity that keeps its shape", (_STEP,)),
    )


def _wants_depth(situation: RankedFacts) -> bool:
    """The height asks for more than a moderate dome reaches."""
    return (situation.facts.lift_mm or 0.0) > _MODERATE


def _firmer_or_deeper(situation: RankedFacts) -> tuple[Need, ...]:
    """Deeper where the height wants depth, else firmer; never both."""
    return _deeper(situation) if _wants_depth(situation) else _firmer(situation)


def _the_other(situation: RankedFacts) -> tuple[Need, ...]:
    return _firmer(situation) if _wants_depth(situation) else _deeper(situation)


def _firm_and_deep(situation: RankedFacts) -> tuple[Need, ...]:
    depth = max(situation.facts.lift_mm or 0.0, DEEP_FROM.value)
    firm = Need("firm_dome", "Convexity that keeps its shape", (_STEP,))
    return (_lift(depth, "deep convexity"), firm)


def _belt(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("hold_snug", "Hold the convexity against the skin", (_STEP,)),)


def _fill(situation: RankedFacts) -> tuple[Need, ...]:
    """Filled in layers as deep as strips go: a deeper crease is filled in part, never left."""
    depths = [c.depth_mm for c in situation.facts.findings.abdomen.creases or ()]
    known = [depth for depth in depths if depth is not None]
    most = STRIP_THICKNESS.value * STRIP_LAYERS.value
    depth = min(max(known), most) if known and len(known) == len(depths) else None
    hours = situation.facts.crease_hours
    text = (
        f"Fill the crease{hours.placed()} level with the skin, in the posture where it is deepest"
    )
    if depth is not None and max(known) > depth:
        text += f"; deeper than {most:g} mm, filled in layers as far as they reach"
    return (Need("fill_crease", text, (_STEP,), depth, "" if depth is None else "mm", hours),)


def _hold_fold(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("hold_fold", "Hold the deep fold open", (_STEP,)),)


def _bend(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("flexible_surface", "A flat or soft barrier that bends along", (_STEP,)),)


def _follow(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("follow_bulge", "A barrier that follows the outward curve", (_STEP,)),)


def _level(situation: RankedFacts) -> tuple[Need, ...]:
    """The low side opposite the bulge, by the height of the step where it was measured."""
    low = situation.facts.bulge_hours.opposite()
    step = step_beside_bulge(situation.facts)
    unit = "" if step is None else "mm"
    return (Need("level_low_side", f"Raise the low side{low.placed()}", (_STEP,), step, unit, low),)


def low_side(situation: RankedFacts) -> ClockHours:
    """The side to which it pours: the lumen's, else that of the leak where it is one side."""
    hour = situation.facts.findings.measurement.lumen_hour
    loop = situation.facts.findings.measurement.loop
    hour = loop.working_hour if hour is None and loop is not None else hour
    if hour is not None:
        return ClockHours.of(hour).widened()
    leak = situation.facts.leak_hours
    return leak if 0 < len(leak) <= 6 else ClockHours()


def _raise(situation: RankedFacts) -> tuple[Need, ...]:
    side = low_side(situation)
    if not side:
        return _seal(situation)
    text = f"Raise the side{side.placed()}"
    return (Need("raise_side", text, (_STEP,), hours=side),)


def _resist(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("resist_effluent", "A barrier that liquid does not wash away", (_STEP,)),)


def _soft_piece(_: RankedFacts) -> tuple[Need, ...]:
    return (
        Need("flexible_surface", "A flat or soft barrier that bends along", (_STEP,)),
        Need("one_piece", "One soft piece without a coupling", (_STEP,)),
        Need("room_for_stoma", "A pouch with room for the long stoma", (_STEP,)),
    )


def _cover(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("cover_gap", "Cover the skin between stoma and opening", (_STEP,)),)


def _loosen(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("loosen_stool", "Let thick stool slide down in the pouch", (_STEP,)),)


def _no_cutting(_: RankedFacts) -> tuple[Need, ...]:
    return (Need("no_cutting", "An opening that needs no cutting at home", (_STEP,)),)


# --- steps that several ladders share --------------------------------------------------------
_RING = Rung(
    "ring",
    "a mouldable ring, touching the stoma all round",
    lambda s: "ring" in s or bool(s & CONVEX),
    _any("ring"),
    _seal,
)
_SOFT = Rung(
    "soft_shallow",
    "a soft, shallow convex barrier",
    lambda s: bool(s & CONVEX),
    (CONVEX,),
    _lift_shallow,
)
_MODERATE_DOME = Rung("soft_moderate", "a soft convex barrier of moderate depth",
                      lambda s: bool(s & _AT_LEAST_MODERATE), (_AT_LEAST_MODERATE,),
                      _lift_moderate)  # fmt: skip
_RING_TOO = Rung(
    "convex_and_ring",
    "a ring with the convex barrier",
    lambda s: bool(s & CONVEX) and "ring" in s,
    (*_any("ring"), CONVEX),
    _seal,
)
_FIRMER = Rung("firmer_or_deeper", "a firmer or a deeper convex barrier, not both",
               lambda s: bool(s & (FIRM_CONVEX | DEEP_CONVEX)),
               (FIRM_CONVEX | DEEP_CONVEX,), _firmer_or_deeper, _the_other)  # fmt: skip
_FIRM_DEEP = Rung("firm_deep", "a firm, deep convex barrier, and the surgeon's opinion",
                  lambda s: "firm_convex_deep" in s, _any("firm_convex_deep"),
                  _firm_and_deep, operation=True)  # fmt: skip
_BELT = Rung("belt", "a belt, level with the stoma", lambda s: "belt" in s,
             (*_any("belt"), CONVEX), _belt_with_dome)  # fmt: skip


def _never(_: frozenset[str]) -> bool:
    return False


def _opinion(what: str, *, operation: bool = True) -> Rung:
    return Rung("surgeon", what, _never, operation=operation)


_SURGEON = _opinion("the surgeon's opinion on revision, with wear log and photos")


def _enter_low(situation: RankedFacts) -> int:
    """A stoma lower than its kind needs starts with convexity; liquid on raw skin with
    frequent leaks, or a deeply retracted stoma with trouble, with moderate convexity. In
    the last weeks of life the gentlest step is the first."""
    facts = situation.facts
    if facts.has(Condition.LAST_WEEKS_OF_LIFE):
        return 0
    m = facts.findings.measurement
    often = leaks_a_week(situation)
    raw = bool(facts.weeping)
    deep = m.protrusion_mm is not None and m.protrusion_mm <= RETRACTED_AT.value
    many_a_day = often is not None and often >= LEAKS_A_DAY.value * 7
    if (facts.liquid and raw and often is not None and often >= LEAKS_A_WEEK.value) or (
        deep and (raw or many_a_day)
    ):
        return 2
    low = facts.height in (Height.RETRACTED, Height.FLUSH)
    short = m.protrusion_mm is not None and m.protrusion_mm < dome_height(facts.kind)
    return 1 if low or short else 0


def leaks_a_week(situation: RankedFacts) -> float | None:
    """From the log, or from a count with the usual wear; None where neither says."""
    facts = situation.facts
    if facts.wear is not None and facts.wear.changes and facts.wear.mean_days:
        return facts.wear.leaks / (facts.wear.changes * facts.wear.mean_days) * 7
    system = facts.findings.system
    if system is None or system.leak_count is None or not system.usual_wear_days:
        return None
    worn_days = system.leak_count.barriers * system.usual_wear_days
    return system.leak_count.leaks / worn_days * 7 if worn_days else None


LOW: Final = Ladder(
    "low_stoma",
    (_RING, _SOFT, _MODERATE_DOME, _RING_TOO, _FIRMER, _BELT, _FIRM_DEEP, _SURGEON),
    _enter_low,
)
EDGE: Final = Ladder("edge", (_RING, _SOFT, _MODERATE_DOME, _RING_TOO, _FIRMER, _BELT, _SURGEON))
CREASE: Final = Ladder(
    "crease",
    (
        Rung("fill", "a strip or ring laid level with the skin in the posture where the crease is "
             "deepest", lambda s: bool(s & {"strip", "ring"}), _any("strip", "ring"), _fill),
        Rung("fill_with_paste", "paste laid level with the skin, where neither strip nor ring may "
             "be worn", lambda s: bool(s & {"strip", "ring", "paste"}), _any("paste"), _fill,
             unless=frozenset({"strip", "ring"})),
        Rung("soft_on_crease", "a soft convex barrier, its pressure on the crease",
             lambda s: bool(s & CONVEX), (CONVEX,), _lift_shallow),
        Rung("narrow", "a narrow or oval flexible barrier inside the fold", _never),
        Rung("firm_on_crease", "a firm convex barrier", lambda s: bool(s & FIRM_CONVEX),
             (FIRM_CONVEX,), _hold_fold),
        Rung("belly_support", "a belt or belly support", lambda s: "belt" in s, _any("belt"),
             _belt),
        _SURGEON,
    ),
)  # fmt: skip
BULGE: Final = Ladder(
    "bulge",
    (
        Rung("flexible", "a flat, flexible barrier with a larger border, put on lying",
             lambda s: bool(s & {"flat_flexible", "concave"}), _any("flat_flexible"), _bend),
        Rung("concave", "a barrier curved for an outward belly", lambda s: "concave" in s,
             _any("concave"), _follow),
        Rung("edge_strips", "half rings or strips on the low side, so that the edge lies level",
             lambda s: bool(s & {"strip", "half_ring"}), _any("half_ring"), _level),
        Rung("garment", "a measured support garment, fitted by trained staff",
             lambda s: "support_garment" in s,
             latex_free="a measured latex-free support garment, fitted by trained staff"),
        _opinion("the surgeon about the hernia"),
    ),
)  # fmt: skip
POURS_LOW: Final = Ladder(
    "pours_low",
    (
        Rung("low_side", "a half ring or strip on the low side, or a ring to the mucosa",
             lambda s: bool(s & {"ring", "half_ring"}), _any("half_ring", "ring"), _raise),
        _SOFT,
        _MODERATE_DOME,
        Rung("extended", "an extended-wear barrier", lambda s: "extended_wear" in s,
             _any("extended_wear"), _resist),
        _SURGEON,
    ),
)  # fmt: skip
LOOSE: Final = Ladder(
    "loose_output",
    (
        _RING,
        Rung("extended", "an extended-wear barrier", lambda s: "extended_wear" in s,
             _any("extended_wear"), _resist),
        _opinion("the team about why the output is loose", operation=False),
    ),
)  # fmt: skip
PROLAPSE: Final = Ladder(
    "prolapse",
    (
        Rung("one_soft_piece", "one soft piece with an opening for the widest part and a long "
             "pouch, put on lying", lambda s: {"flat_flexible", "one_piece"} <= s,
             _any("flat_flexible"), _soft_piece),
        Rung("cover", "a ring over the bare skin", lambda s: "ring" in s, _any("ring"), _cover),
        Rung("flap", "a support band with a prolapse flap, fitted by trained staff",
             lambda s: "support_garment" in s),
        _opinion("the surgeon about the prolapse"),
    ),
)  # fmt: skip
SEPARATION: Final = Ladder(
    "separation",
    (
        Rung("flexible", "a flat, flexible barrier over the covered gap",
             lambda s: bool(s & (CONVEX | {"flat_flexible", "concave"})),
             _any("flat_flexible"), _bend),
        Rung("ring_as_it_fills", "a ring as the gap fills", lambda s: "ring" in s, _any("ring"),
             _seal),
        Rung("soft_assessed", "soft convexity, only after a recorded assessment and in a gap of "
             "class 0 or 1", lambda s: bool(s & CONVEX), (CONVEX,), _lift_shallow),
    ),
)  # fmt: skip
THICK: Final = Ladder(
    "thick_stool",
    (
        Rung("one_pouch_measure", "one measure at the pouch: lubricant in it, or the filter "
             "covered with a little air left in", lambda s: "lubricant" in s, _any("lubricant"),
             _loosen),
        Rung("softer_stool", "softer stool: drink, fibre, and the prescriber about medicines that "
             "harden it", _never),
    ),
)  # fmt: skip
PLACING: Final = Ladder(
    "placing",
    (
        Rung("pre_cut", "an opening that needs no cutting, put on by touch in a fixed order",
             lambda s: "pre_cut" in s, _any("pre_cut"), _no_cutting),
        Rung("one_piece", "one piece or two, whichever these hands manage in a trial", _never),
        Rung("helper", "a helper, or the occupational therapist", _never),
    ),
)  # fmt: skip

#: Needs that only a step asks for.
LADDER_NEEDS: Final = (
    NeedRule(
        "follow_bulge",
        "A barrier that follows the outward curve",
        "a flat, flexible barrier beside a bulge leaked",
        (PRACTICE, DESIGN),
    ),
    NeedRule(
        "loosen_stool",
        "Let thick stool slide down in the pouch",
        "thick stool lies on the stoma and it leaks",
        (PRACTICE, DESIGN),
    ),
    NeedRule(
        "dome_as_tried",
        "The convexity that was tried",
        "a ring or a belt is added to convexity that leaked",
        (PRACTICE, DESIGN),
    ),
)

LADDERS: Final = (LOW, EDGE, CREASE, BULGE, POURS_LOW, LOOSE, PROLAPSE, SEPARATION, THICK, PLACING)
