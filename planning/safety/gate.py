"""The last gate: never and always rules, checked again over whatever the search chose.

Written apart from the search and its table on purpose. What breaks a rule is taken out and said;
in a sound rule set it never has to act, and a test holds it to that.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import Final

from planning.evidence.thresholds import BARRIER_ACROSS, EARLY_DAYS, FISTULA_CLEAR
from planning.inputs.findings import (
    Accessory,
    Condition,
    Degree,
    Material,
    Profile,
    SkinKind,
    StomaKind,
)
from planning.ranked_facts import RankedFacts
from planning.supplies.worn import worn_now


@dataclass(frozen=True, slots=True)
class Never:
    """``breaks`` answers the chosen supplies that must go."""

    key: str
    text: str
    sources: tuple[str, ...]
    breaks: Callable[[RankedFacts, frozenset[str]], frozenset[str]]


def _convex(supplies: frozenset[str]) -> frozenset[str]:
    return frozenset(key for key in supplies if "_convex_" in key)


def _pressing(supplies: frozenset[str]) -> frozenset[str]:
    return _convex(supplies) | (supplies & {"belt"})


def _varices(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    veins = any(f.kind is SkinKind.DILATED_VEINS for f in s.facts.findings.skin or ())
    if veins:
        return _pressing(supplies) | (supplies & {"flat_firm"})
    sick = {Condition.LIVER_DISEASE, Condition.CIRRHOSIS, Condition.PORTAL_HYPERTENSION}
    if not sick & s.facts.findings.person.has:
        return frozenset()
    # Without veins what is worn may stay; nothing that presses is begun.
    return frozenset(key for key in _pressing(supplies) if key not in worn_now(s.facts).keys)


def _pyoderma(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    undermined = any(f.kind is SkinKind.UNDERMINED_ULCER for f in s.facts.findings.skin or ())
    return _pressing(supplies) if undermined else frozenset()


def _early_convexity(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    days = s.facts.findings.stoma.days_since_surgery
    fresh = (days is not None and days <= EARLY_DAYS.value) or bool(
        s.facts.findings.measurement.junction
    )
    assessed = s.facts.history.specialist_convexity_assessment
    return _convex(supplies) if fresh and not assessed else frozenset()


def _pressure_injury(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    """A bruise, or a mark that was not timed; beyond the barrier only the belt presses."""
    size = s.facts.outline
    rim = BARRIER_ACROSS.value / 2 - (min(size.radii) if size else 0)
    out: frozenset[str] = frozenset()
    for found in s.facts.findings.skin or ():
        untimed = found.fades_min is None and found.stays_min is None
        marked = found.kind is SkinKind.PRESSURE_MARK and untimed
        if marked or found.kind is SkinKind.BRUISE:
            far = found.inner_mm is not None and found.inner_mm >= rim
            out |= supplies & {"belt"} if far else _pressing(supplies)
    return out


def _growth_infection_rod(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    kinds = {SkinKind.HARD_LUMP, SkinKind.SPREADING_WARMTH, SkinKind.ABSCESS}
    sick = any(f.kind in kinds for f in s.facts.findings.skin or ())
    return _convex(supplies) if sick or s.facts.findings.stoma.rod_in_place else frozenset()


def _prolapse_and_hernia(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    out = _convex(supplies) if s.facts.findings.measurement.prolapse else frozenset()
    hernia = s.facts.findings.abdomen.bulges and not s.facts.works
    return out | frozenset(k for k in supplies if hernia and k.startswith("firm_convex"))


def _antifungal(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    wearing = s.facts.findings.system
    worn = {a.value for a in (wearing.accessories or ())} if wearing else set()
    seen = any(f.kind is SkinKind.SATELLITES for f in s.facts.findings.skin or ())
    agreed = s.facts.history.prescriber_agreed_antifungal
    if (seen and agreed) or "antifungal_powder" in worn:
        return frozenset()
    return supplies & {"antifungal_powder"}


def _sensitivities(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    made_of = {
        Material.PROTECTANT: {"protectant"},
        Material.PASTE: {"paste"},
        Material.POWDER: {"powder", "antifungal_powder"},
        Material.RING: {"ring", "half_ring", "strip"},
        Material.ADHESIVE_REMOVER: {"adhesive_remover"},
        Material.LATEX: {"belt", "support_garment"},
    }
    known = s.facts.findings.person.sensitivities or frozenset()
    return supplies & frozenset().union(*(made_of.get(m, set()) for m in known))


def _fistula(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    size = s.facts.outline
    rim = BARRIER_ACROSS.value / 2 - (min(size.radii) if size else 0)
    out: frozenset[str] = frozenset()
    for found in s.facts.findings.skin or ():
        if found.kind is SkinKind.FISTULA:
            far = found.inner_mm is not None and found.inner_mm - rim > FISTULA_CLEAR.value
            aside = not any(hour in found.hours for hour in (2, 3, 4, 8, 9, 10))
            out |= frozenset() if far else _convex(supplies) | (supplies & {"flat_firm"})
            out |= frozenset() if far and aside else supplies & {"belt"}
    return out


def _irradiated(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    """The field is not recorded: it may hold this skin. Only on sound skin, with nothing leaking,
    may stay what is worn."""
    if Condition.RADIOTHERAPY_ABDOMEN not in s.facts.findings.person.has:
        return frozenset()
    presses = _pressing(supplies) | (supplies & {"flat_firm"})
    worn = s.facts.findings.system
    if worn is None or not s.facts.works:
        return presses
    convex = _convex(supplies) if worn.profile is Profile.CONVEX else frozenset()
    firm = worn.profile is Profile.FLAT and worn.flexibility is not Degree.MORE
    flat = supplies & {"flat_firm"} if firm else frozenset()
    belt = supplies & {"belt"} if Accessory.BELT in (worn.accessories or ()) else frozenset()
    return presses - convex - flat - belt


def _closed_on_urostomy(s: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    urine = s.facts.kind is StomaKind.UROSTOMY
    return supplies & {"closed"} if urine else frozenset()


#: What no plan may ever hold.
RULES: Final = (
    Never(
        "varices",
        "No convexity, plate or belt with varices.",
        ("from_memory", "white/review"),
        _varices,
    ),
    Never(
        "pyoderma",
        "No convexity or belt with pyoderma.",
        ("taylor2018/no_pressure", "from_memory"),
        _pyoderma,
    ),
    Never(
        "early_convexity",
        "No convexity in the first 30 days or on a fresh separation without a "
        "specialist's assessment.",
        ("ascnuk2025/assessed", "design_value"),
        _early_convexity,
    ),
    Never(
        "pressure_injury",
        "No convexity or belt on an unhealed pressure injury.",
        ("common_practice",),
        _pressure_injury,
    ),
    Never(
        "growth_infection_rod",
        "No convexity over growth, infection or a rod.",
        ("common_practice",),
        _growth_infection_rod,
    ),
    Never(
        "prolapse_and_hernia",
        "No convexity with prolapse, no firm convexity with a hernia.",
        ("common_practice", "complicationsreview/prolapse", "complicationsreview/hernia"),
        _prolapse_and_hernia,
    ),
    Never(
        "fistula",
        "No convexity, plate or belt over a fistula or within 10 mm of it; where it lies is not "
        "known: as near.",
        ("design_value",),
        _fistula,
    ),
    Never(
        "irradiated",
        "No convexity, plate or belt on irradiated skin; what is worn on sound skin may stay "
        "while it works.",
        ("common_practice", "from_memory", "design_value"),
        _irradiated,
    ),
    Never(
        "antifungal",
        "Antifungal only with features and a prescriber.",
        ("from_memory",),
        _antifungal,
    ),
    Never("sensitivities", "Nothing the person reacts to.", ("common_practice",), _sensitivities),
    Never(
        "closed_on_urostomy",
        "No closed pouch on a urostomy.",
        ("common_practice",),
        _closed_on_urostomy,
    ),
)


def broken_rules(situation: RankedFacts, supplies: frozenset[str]) -> dict[str, frozenset[str]]:
    """Each rule broken, with the supplies that break it; empty for a sound choice."""
    found = {rule.key: rule.breaks(situation, supplies) for rule in RULES}
    return {key: broken for key, broken in found.items() if broken}


def passed(situation: RankedFacts, supplies: frozenset[str]) -> frozenset[str]:
    """``supplies`` without what breaks a rule; a barred barrier gives way to the flat, flexible."""
    broken = frozenset().union(*broken_rules(situation, supplies).values())
    kept = supplies - broken
    barrier = any(key.startswith("flat_") or "_convex_" in key for key in kept)
    return kept if barrier or not broken else kept | {"flat_flexible"}
