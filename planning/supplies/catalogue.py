"""The table of generic supplies: what each provides, when it is hazardous, what it costs.

``provides`` maps a need to how much of it the supply can meet (mm; ``ANY``: all of it).
``hazards`` name rows of ``planning.supplies.hazards``. ``hands``, ``eyes`` and ``press`` are the
effort for hands, for eyes and the pressure on the skin, 0 to 3 (design values: they only order
what is otherwise equal). One supply is chosen from each slot, or none where the slot allows it.
``words`` are how sentences name it, for clinician and patient (patterns, read by ``named.py``).
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Final

from planning.evidence.thresholds import (
    DEEP_FROM,
    HALF_RINGS,
    PASTE_DEPTH,
    RING_THICKNESS,
    SHALLOW_TO,
    STRIP_LAYERS,
    STRIP_THICKNESS,
)
from planning.inputs.findings import Material
from planning.results.plan import ItemKind

ANY: Final = math.inf
#: A moderate dome reaches up to, not including, the depth of a deep one.
MODERATE_TO: Final = DEEP_FROM.value - 0.001


class Slot(StrEnum):
    """Places in the system; in the order in which a plan is read."""

    BARRIER = "barrier"
    MATERIAL = "material"
    WEAR = "wear"
    PIECES = "pieces"
    OPENING = "opening"
    RING = "ring"
    HALF_RING = "half_ring"
    STRIP = "strip"
    PASTE = "paste"
    POWDER = "powder"
    PROTECTANT = "protectant"
    WOUND = "wound"
    REMOVER = "remover"
    POUCH = "pouch"
    NIGHT = "night"
    THICKENER = "thickener"
    BELT = "belt"
    GARMENT = "garment"
    TAPE = "tape"
    COVER = "cover"
    CONTENTS = "contents"


@dataclass(frozen=True, slots=True)
class Supply:
    """One generic supply. ``name`` for the clinician, ``patient_name`` for the sheet."""

    key: str
    slot: Slot
    kind: ItemKind
    name: str
    patient_name: str
    provides: Mapping[str, float] = field(default_factory=dict)
    hazards: tuple[str, ...] = ()
    materials: frozenset[Material] = frozenset()
    hands: int = 0
    eyes: int = 0
    press: int = 0
    sources: tuple[str, ...] = ("common_practice",)
    words: tuple[str, ...] = ()


# --- barriers -------------------------------------------------------------------------------
_NO_CONVEX: Final = (
    "varices",
    "bleeding_liver",
    "liver",
    "pyoderma",
    "pressure_injury",
    "malignancy",
    "ischaemia",
    "infection",
    "rod",
    "prolapse",
    "early",
    "deep_separation",
    "surgery_date_unknown",
    "bulge",
    "fistula",
    "radiation",
)
_NO_FIRM: Final = (*_NO_CONVEX, "early_firm", "bulge_firm")
_NO_PLATE: Final = (
    "varices",
    "bleeding_liver",
    "liver",
    "pyoderma",
    "pressure_injury",
    "prolapse",
    "bulge_firm",
    "fistula",
    "radiation",
)


def _convex(depth: str, lift: float, press: int, *, firm: bool) -> Supply:
    kind = "firm" if firm else "soft"
    provides = {"lift_rim": lift, "dome_as_tried": lift}
    provides |= {"firm_dome": ANY, "hold_fold": ANY} if firm else {"flexible_surface": ANY}
    return Supply(
        key=f"{kind}_convex_{depth}",
        slot=Slot.BARRIER,
        kind=ItemKind.BARRIER,
        name=f"{kind} convex barrier, {depth}",
        patient_name=f"{kind} barrier with a dome ({depth})",
        provides=provides,
        hazards=_NO_FIRM if firm else _NO_CONVEX,
        hands=1,
        press=press + firm,
        sources=(
            "mcnichol2021/depth",
            "hoeflok2017/low",
            "beitz2025/no_unit",
            "common_practice",
            "design_value",
        ),
        words=("convex(?:ity)?", "barriers? with a dome"),
    )


# fmt: off
_BARRIERS: Final = (
    Supply("flat_flexible", Slot.BARRIER, ItemKind.BARRIER,
           "flat, flexible barrier", "flat, soft barrier",
           provides={"flexible_surface": ANY, "relieve_pressure": ANY},
           sources=("complicationsreview/prolapse", "common_practice")),
    Supply("concave", Slot.BARRIER, ItemKind.BARRIER,
           "barrier curved for an outward belly", "barrier curved for a round belly",
           provides={"flexible_surface": ANY, "follow_bulge": ANY},
           hazards=("varices", "bleeding_liver", "pyoderma", "prolapse", "fistula"),
           sources=("martins2022/outward", "common_practice"),
           words=("curved barriers?", "barriers? curved")),
    Supply("flat_firm", Slot.BARRIER, ItemKind.BARRIER,
           "flat, firm barrier", "flat, firm barrier",
           provides={"hold_fold": ANY}, hazards=_NO_PLATE, press=1,
           words=("(?:firm|rigid) plates?", "flat,? firm barriers?")),
    _convex("shallow", SHALLOW_TO.value, 1, firm=False),
    _convex("moderate", MODERATE_TO, 2, firm=False),
    _convex("deep", ANY, 3, firm=False),
    _convex("shallow", SHALLOW_TO.value, 1, firm=True),
    _convex("moderate", MODERATE_TO, 2, firm=True),
    _convex("deep", ANY, 3, firm=True),
    Supply("other_material", Slot.MATERIAL, ItemKind.BARRIER,
           "barrier of another adhesive material, tried first on distant skin",
           "barrier made of another material",
           provides={"other_adhesive": ANY}),
    Supply("extended_wear", Slot.WEAR, ItemKind.BARRIER,
           "extended-wear barrier material", "long-wear barrier",
           provides={"resist_effluent": ANY},
           words=("extended-wear",)),
    Supply("one_piece", Slot.PIECES, ItemKind.BARRIER,
           "one-piece system", "one-piece system",
           provides={"one_piece": ANY}),
    Supply("two_piece", Slot.PIECES, ItemKind.BARRIER,
           "two-piece system", "two-piece system",
           hazards=("prolapse_coupling", "varices"), hands=1),
)

# --- opening --------------------------------------------------------------------------------
_OPENINGS: Final = (
    Supply("cut_to_fit", Slot.OPENING, ItemKind.OPENING,
           "cut-to-fit opening", "opening you cut to size",
           provides={"refit_opening": ANY},
           hands=2, eyes=2, sources=("oklahoma1997/cut_first",)),
    Supply("pre_cut", Slot.OPENING, ItemKind.OPENING,
           "pre-cut opening", "ready-cut opening",
           provides={"refit_opening": ANY, "no_cutting": ANY}, hazards=("pre_cut",),
           sources=("oklahoma1997/cut_first",)),
    Supply("mouldable", Slot.OPENING, ItemKind.OPENING,
           "mouldable opening", "opening you roll to size",
           provides={"refit_opening": ANY}, hazards=("prolapse_coupling",),
           hands=2, eyes=1),
)

# --- fillers --------------------------------------------------------------------------------
_HYDROCOLLOID: Final = frozenset({Material.RING})
_FILLERS: Final = (
    Supply("ring", Slot.RING, ItemKind.RING,
           "mouldable ring", "soft ring",
           provides={"seal_edge": ANY, "cover_gap": ANY, "fill_crease": RING_THICKNESS.value},
           materials=_HYDROCOLLOID, hands=1, eyes=1,
           sources=("morgan2015/ring", "morgan2015/fills"),
           words=("(?<!half )(?<!half a )rings?(?! to halve)",)),
    Supply("half_ring", Slot.HALF_RING, ItemKind.FILLER,
           "half ring", "half a ring",
           provides={"level_low_side": HALF_RINGS.value * RING_THICKNESS.value,
                     "raise_side": ANY},
           materials=_HYDROCOLLOID, hands=2, eyes=2,
           words=("half (?:a )?rings?",)),
    Supply("strip", Slot.STRIP, ItemKind.FILLER,
           "mouldable strip", "soft strip",
           provides={"fill_crease": STRIP_LAYERS.value * STRIP_THICKNESS.value,
                     "bridge_step": ANY},
           materials=_HYDROCOLLOID, hands=2, eyes=1,
           sources=("morgan2015/fills", "complicationsreview/crease"),
           words=("strips?",)),
    Supply("paste", Slot.PASTE, ItemKind.FILLER,
           "alcohol-free paste", "paste (no alcohol)",
           provides={"bridge_step": ANY, "fill_crease": PASTE_DEPTH.value},
           hazards=("deep_gap",), materials=frozenset({Material.PASTE}),
           hands=1, eyes=1, sources=("accessories/filler", "common_practice"),
           words=("paste",)),
)

# --- skin care ------------------------------------------------------------------------------
_SKIN_CARE: Final = (
    Supply("powder", Slot.POWDER, ItemKind.SKIN_CARE,
           "plain powder, on weeping skin only", "skin powder",
           provides={"absorb_moisture": ANY}, hazards=("dry_skin", "no_one_helps"),
           materials=frozenset({Material.POWDER}), sources=("crusting/wet_only",),
           words=("powder",)),
    Supply("antifungal_powder", Slot.POWDER, ItemKind.SKIN_CARE,
           "antifungal powder as prescribed, instead of plain powder",
           "the powder your doctor ordered",
           provides={"absorb_moisture": ANY, "treat_yeast": ANY},
           hazards=("no_yeast", "no_prescriber"), materials=frozenset({Material.POWDER}),
           hands=1, sources=("hightech/antifungal", "crusting/antifungal"),
           words=("antifungal powder", "special powder", "powder your doctor ordered")),
    Supply("protectant", Slot.PROTECTANT, ItemKind.SKIN_CARE,
           "alcohol-free protectant film", "skin film (no alcohol)",
           provides={"protect_skin": ANY}, hazards=("no_one_helps",),
           materials=frozenset({Material.PROTECTANT}),
           sources=("crusting/layers", "accessories/no_alcohol"),
           words=("film", "protectant")),
    Supply("absorbent_dressing", Slot.WOUND, ItemKind.SKIN_CARE,
           "absorbent filler (alginate or hydrofibre) under a cover", "soft filler for the wound",
           provides={"absorb_wound": ANY}, hands=2, eyes=2,
           sources=("swedish/dressing", "from_memory"),
           words=("absorbent", "soft filler")),
    Supply("adhesive_remover", Slot.REMOVER, ItemKind.SKIN_CARE,
           "silicone adhesive remover, alcohol-free", "remover for the barrier",
           provides={"gentle_removal": ANY},
           materials=frozenset({Material.ADHESIVE_REMOVER}), sources=("removers2013/silicone",),
           words=("remover",)),
)

# --- pouch and support ----------------------------------------------------------------------
_POUCHES: Final = (
    Supply("drainable", Slot.POUCH, ItemKind.POUCH,
           "drainable pouch", "pouch you can empty",
           provides={"empty_often": ANY}, hazards=("urine",)),
    Supply("drainable_large", Slot.POUCH, ItemKind.POUCH,
           "large drainable pouch", "large pouch you can empty",
           provides={"empty_often": ANY, "room_for_stoma": ANY}, hazards=("urine",)),
    Supply("high_output", Slot.POUCH, ItemKind.POUCH,
           "high-output pouch with wide outlet", "large pouch with a wide outlet",
           provides={"empty_often": ANY, "hold_volume": ANY, "room_for_stoma": ANY},
           hazards=("urine",)),
    Supply("closed", Slot.POUCH, ItemKind.POUCH,
           "closed pouch", "closed pouch", hazards=("urine", "liquid", "liquid_now")),
    Supply("tap", Slot.POUCH, ItemKind.POUCH,
           "pouch with tap and anti-reflux valve", "pouch with a tap",
           provides={"drain_urine": ANY, "room_for_stoma": ANY}, hazards=("not_urine",)),
    Supply("night_bag", Slot.NIGHT, ItemKind.POUCH,
           "night drainage bag", "night bag",
           provides={"drain_night": ANY}, hazards=("not_urine",),
           words=("night bag", "night drainage bag")),
    Supply("thickener", Slot.THICKENER, ItemKind.POUCH,
           "thickener sachets in the pouch", "sachets for the pouch (never to swallow)",
           provides={"thicken_output": ANY}, hazards=("urine",),
           words=("sachets?",)),
)
_SUPPORT: Final = (
    Supply("belt", Slot.BELT, ItemKind.SUPPORT,
           "ostomy belt, level with the stoma", "belt",
           provides={"hold_snug": ANY},
           hazards=("varices", "bleeding_liver", "liver", "pyoderma", "ulcer",
                    "pressure_injury_belt", "malignancy", "ischaemia", "infection", "prolapse",
                    "separation", "deep_separation", "raw_belt_line", "bulge_belt",
                    "trapped_bulge", "fistula_belt", "radiation"),
           materials=frozenset({Material.LATEX}), hands=1, press=1,
           sources=("complicationsreview/soft_belt", "complicationsreview/belt"),
           words=("(?<!support )belts?",)),
    Supply("support_garment", Slot.GARMENT, ItemKind.SUPPORT,
           "support garment, measured by a trained fitter", "support garment",
           hazards=("ischaemia", "prolapse", "trapped_bulge"),
           materials=frozenset({Material.LATEX}),
           hands=2, press=1,
           words=("(?:support )?garments?", "support belts?")),
)
# fmt: on

# fmt: off
_AROUND: Final = (
    Supply("tape", Slot.TAPE, ItemKind.SUPPORT,
           "tape border or tape round the barrier", "tape round the barrier",
           hazards=("radiation", "edge_hidden", "plaques", "sore_border"),
           materials=frozenset({Material.TAPE}),
           words=("(?<!adhesive )tapes?",)),
    Supply("pouch_cover", Slot.COVER, ItemKind.SUPPORT,
           "pouch cover", "cover for the pouch",
           materials=frozenset({Material.POUCH_COVER}),
           words=("pouch covers?", "cover for the pouch")),
    Supply("lubricant", Slot.CONTENTS, ItemKind.POUCH,
           "lubricant in the pouch", "a lubricant in the pouch",
           provides={"loosen_stool": ANY},
           words=("lubricants?",)),
)
# fmt: on

CATALOGUE: Final[tuple[Supply, ...]] = (
    *_BARRIERS,
    *_OPENINGS,
    *_FILLERS,
    *_SKIN_CARE,
    *_POUCHES,
    *_SUPPORT,
    *_AROUND,
)
#: By key.
SUPPLIES: Final[Mapping[str, Supply]] = {supply.key: supply for supply in CATALOGUE}

CONVEX: Final = frozenset(key for key in SUPPLIES if "_convex_" in key)
DEEP_CONVEX: Final = frozenset(key for key in CONVEX if key.endswith("deep"))
FIRM_CONVEX: Final = frozenset(key for key in CONVEX if key.startswith("firm"))
FLAT: Final = frozenset({"flat_flexible", "flat_firm"})
#: What presses on the skin: barred with varices.
PRESSES: Final = CONVEX | {"flat_firm", "belt"}
#: Always admissible: without it no pouch could be worn.
LAST_RESORT: Final = "flat_flexible"
