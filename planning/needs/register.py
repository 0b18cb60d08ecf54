"""Every need there is: when it arises, its source, and whether it is essential.

The functions beside this file judge the findings; a test holds them to this table, need by need
and source by source.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE


@dataclass(frozen=True, slots=True)
class NeedRule:
    """``when`` completes "Where ...". ``essential``: it goes before every need that is not."""

    key: str
    title: str
    when: str
    sources: tuple[str, ...]
    essential: bool = False


_SOFT: Final = (
    "complicationsreview/hernia", "complicationsreview/prolapse", "martins2022/outward", MEMORY,
    "taylor2018/no_pressure", "hughes2000/injury",
)  # fmt: skip

#: Of the stoma that is to be lifted; how far a dome lifts is a design value.
LIFT: Final = (
    PRACTICE, "persson2010/colostomy", "cottam2007/low", "barrierfit2022/lumen",
    "rolstad2006/assess", DESIGN,
)  # fmt: skip
_DOME: Final = (
    "complicationsreview/retracted", "complicationsreview/soft_belt", "mcnichol2021/firmness",
    PRACTICE,
)  # fmt: skip
#: Fit before skin before pouch.
NEEDS: Final = (
    NeedRule("lift_rim", "Press the skin back round a stoma that is too low",
             "a flush or retracted stoma, a lumen at skin level or a spout under its height leaks, "
             "or a flat barrier with a ring was tried and leaked",
             LIFT, True),
    NeedRule("firm_dome", "Convexity that keeps its shape",
             "the stoma to lift is retracted, or the abdomen is soft or hangs",
             (*_DOME, DESIGN)),
    NeedRule("hold_snug", "Hold the convexity against the skin",
             "the stoma to lift is retracted, or the abdomen is soft or hangs",
             _DOME),
    NeedRule("flexible_surface", "A flat or soft barrier that bends along",
             "a bulge, a prolapse, varices, pyoderma or irradiated skin would suffer from a stiff "
             "one, or it leaks on an abdomen that curves outwards",
             (*_SOFT, DESIGN, PRACTICE), True),
    NeedRule("one_piece", "One soft piece without a coupling",
             "there is a prolapse, or varices are likely", _SOFT),
    NeedRule("relieve_pressure", "Take the pressure off", "a pressure injury is likely",
             ("pressure2007/causes", PRACTICE), True),
    NeedRule("level_low_side", "Raise the low side opposite a bulge",
             "a bulge lies beside a stoma that leaks", (PRACTICE, DESIGN), True),
    NeedRule("bridge_step", "Bridge the step to the bulge",
             "a bulge lies beside a stoma that leaks", (PRACTICE, DESIGN)),
    NeedRule("raise_side", "Raise the side to which the lumen points",
             "the lumen is off the centre and it leaks on that side, or the side is not known",
             ("barrierfit2022/lumen", PRACTICE)),
    NeedRule("fill_crease", "Fill the crease to skin level", "it leaks along a crease",
             ("complicationsreview/crease", "morgan2015/fills"), True),
    NeedRule("hold_fold", "Hold a deep fold open",
             "the crease is deeper than two strips fill, or a strip was tried and leaked",
             ("complicationsreview/crease", "morgan2015/fills", DESIGN, PRACTICE)),
    NeedRule("cover_gap", "Cover the skin between stoma and opening",
             "a prolapse, a wide tip or a marked swelling makes the opening larger than the base",
             ("complicationsreview/prolapse", PRACTICE), True),
    NeedRule("seal_edge", "Seal right at the stoma, all round",
             "a low stoma leaks, or a leak has no other explanation",
             ("morgan2015/ring", PRACTICE)),
    NeedRule("refit_opening", "An opening of the size of the stoma",
             "the opening in use is smaller than the stoma or wider than usual and it does not "
             "work", ("green2018/most", "barrierfit2022/opening", "agarwal2010/equipment")),
    NeedRule("no_cutting", "An opening that needs no cutting at home",
             "hands or eyes make cutting hard and no one else changes the barrier", (PRACTICE,)),
    NeedRule("absorb_moisture", "Dry the weeping skin", "the skin is raw or weeping",
             ("crusting/wet_only", PRACTICE, "germansky2017/variants", "caretrials2014/weak"),
             True),
    NeedRule("protect_skin", "Film between skin and adhesive",
             "powder is to be sealed, or stripped skin is fragile",
             ("crusting/wet_only", PRACTICE)),
    NeedRule("treat_yeast", "Treat the yeast", "yeast is likely", ("hightech/satellites",), True),
    NeedRule("absorb_wound", "Fill and cover the wound",
             "there is a mucocutaneous separation or an ulcer",
             (MEMORY, "swedish/dressing"), True),
    NeedRule("gentle_removal", "Take the barrier off without pulling",
             "adhesive injury, inflamed hair roots, varices, pyoderma, irradiated skin or a skin "
             "disease is likely; not for the first, the second and the last while a product is "
             "suspected and nothing else may change",
             ("leblanc2019/look", "folliculitis/look", MEMORY, "hughes2000/injury")),
    NeedRule("other_adhesive", "A barrier of another material",
             "the person reacts to a barrier adhesive, or it is the first to suspect",
             (PRACTICE, "hightech/outline"), True),
    NeedRule("drain_urine", "A tap and a valve against backflow", "it is a urostomy",
             (PRACTICE,), True),
    NeedRule("drain_night", "A night bag", "it is a urostomy", (PRACTICE,)),
    NeedRule("empty_often", "A pouch that empties from below",
             "the output is liquid or from the small bowel", (PRACTICE,), True),
    NeedRule("hold_volume", "A pouch for a large output", "output is 1000 mL or more in 24 hours",
             ("gateshead/call_1000", PRACTICE), True),
    NeedRule("thicken_output", "Thicken the output in the pouch",
             "output is 1000 mL or more in 24 hours", ("gateshead/call_1000", PRACTICE)),
    NeedRule("room_for_stoma", "A pouch with room for the long stoma", "there is a prolapse",
             (PRACTICE,)),
    NeedRule("resist_effluent", "A barrier that liquid does not wash away",
             "liquid output or urine leaks", (PRACTICE,)),
)  # fmt: skip

#: Needs that come first; the others are met where nothing of these is given up.
ESSENTIAL: Final = frozenset(rule.key for rule in NEEDS if rule.essential)
