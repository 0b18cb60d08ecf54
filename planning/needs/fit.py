"""Needs of the fit: lift, level, fill, cover, stay flexible, hold."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import SPOUT_TROUBLE
from planning.facts.derive import Facts
from planning.facts.height import Height, dome_height, height_words
from planning.inputs.findings import (
    Ability,
    ChangedBy,
    Contour,
    Firmness,
    LumenPosition,
    Oedema,
    StomaKind,
)
from planning.needs.skin_surface import ground_needs, worth_changing
from planning.ranked_facts import RankedFacts
from planning.results.plan import Need, Reason
from planning.supplies.opening_size import judge_opening
from planning.supplies.trials import failed

_LOW: Final = (Height.RETRACTED, Height.FLUSH, Height.SHORT)
_HEIGHT: Final = "measurement.protrusion_mm"

_BULGE_STIFF: Final = Reason(
    "A bulge beside the stoma: stiff barriers wrinkle and press.",
    ("complicationsreview/hernia", "martins2022/outward", PRACTICE),
    "abdomen.bulges",
)
_PROLAPSED: Final = Reason(
    "The stoma is prolapsed.", ("complicationsreview/prolapse",), "measurement.prolapse"
)
_VARICES: Final = Reason("Varices are known or suspected.", (MEMORY,), "skin")
_IRRADIATED: Final = Reason("The skin was irradiated.", (MEMORY,))
_PYODERMA: Final = Reason(
    "Pyoderma is suspected.", ("taylor2018/no_pressure", "hughes2000/injury"), "skin"
)
_LIFT: Final = Reason(
    "One mm of convexity is taken to lift the stoma by one mm: no source says so.",
    (DESIGN,),
    _HEIGHT,
)
_OUTWARDS: Final = Reason(
    "The abdomen curves outwards.", ("martins2022/outward",), "abdomen.contour"
)


def fit_needs(situation: RankedFacts) -> Iterator[Need]:
    """All needs of the fit that these findings make."""
    facts = situation.facts
    lift = _lift_rim(facts)
    if lift is not None:
        yield lift
        yield from _dome(facts)
    yield from _flexible(situation)
    yield from _pressure(situation)
    yield from ground_needs(facts)
    yield from _edge(facts)
    yield from _opening(facts)


def _lift_rim(facts: Facts) -> Need | None:
    """Too low a stoma, or a leak that a well-fitted flat barrier did not stop."""
    if facts.works or facts.prolapsed or facts.lift_mm is None:
        return None
    m = facts.findings.measurement
    height = m.protrusion_mm or 0.0
    low = facts.height in (Height.RETRACTED, Height.FLUSH) and worth_changing(facts)
    short = height < dome_height(facts.kind)
    pours_low = m.lumen is LumenPosition.SKIN_LEVEL
    if facts.lift_mm > 0 and (low or (facts.troubled and (short or pours_low))):
        reasons = [_height_reason(facts)] if short else []
        if m.lumen is LumenPosition.SKIN_LEVEL:
            reasons.append(
                Reason(
                    "The lumen opens at skin level.", ("barrierfit2022/lumen",), "measurement.lumen"
                )
            )
        reasons += _leak_reason(facts)
        reasons.append(_LIFT)
        text = f"Press the skin back round the stoma: about {facts.lift_mm:g} mm of convexity"
        return Need("lift_rim", text, tuple(reasons), facts.lift_mm, "mm")
    if facts.leaking and failed(facts.history, "flat_flexible", "ring"):
        reason = Reason(
            "A flat barrier with a ring was tried and leaked: assess for convexity.",
            ("rolstad2006/assess",),
            "system.leak",
        )
        return Need("lift_rim", "Press the skin back round the stoma", (reason,), 1.0, "mm")
    return None


def _leak_reason(facts: Facts) -> list[Reason]:
    """Where effluent got under the barrier, as far as it was read."""
    if not facts.leak_hours:
        return []
    text = f"Effluent got under the barrier{facts.leak_hours.placed()}."
    return [Reason(text, (PRACTICE,), "system.leak")]


def _height_reason(facts: Facts) -> Reason:
    """The height against the figure for this kind of stoma, and whose figure that is."""
    height = facts.findings.measurement.protrusion_mm or 0.0
    # An outlet at skin level may lie in a stoma that is not low.
    how = height_words(facts.height if facts.height in _LOW else Height.SHORT, height)
    measured = f"The stoma's height is {height:g} mm: {how}"
    limit = dome_height(facts.kind)
    if facts.kind is StomaKind.COLOSTOMY:
        text = f"{measured}; under {limit:g} mm half of all colostomies leak."
        return Reason(text, ("persson2010/colostomy", "barrierfit2022/lumen"), _HEIGHT)
    text = f"{measured}. Leaking and under {limit:g} mm: convexity advised."
    return Reason(text, (PRACTICE, "cottam2007/low", "barrierfit2022/lumen"), _HEIGHT)


def _dome(facts: Facts) -> Iterator[Need]:
    """How the dome must be, and what holds it."""
    abdomen = facts.findings.abdomen
    soft = abdomen.firmness is Firmness.SOFT or abdomen.contour is Contour.PENDULOUS
    reasons = []
    if facts.height is Height.RETRACTED:
        reasons.append(
            Reason("The stoma is retracted.", ("complicationsreview/retracted", PRACTICE), _HEIGHT)
        )
    if soft:
        reasons.append(
            Reason(
                "The abdomen is soft and yields.",
                ("complicationsreview/soft_belt", "mcnichol2021/firmness"),
                "abdomen.firmness",
            )
        )
    if reasons:
        yield Need("firm_dome", "Convexity that keeps its shape", tuple(reasons))
        yield Need("hold_snug", "Hold the convexity against the skin", tuple(reasons))


def stiff_harms(situation: RankedFacts) -> tuple[Reason, ...]:
    """Everything found that a stiff barrier could injure."""
    facts = situation.facts
    grounds = (
        (facts.bulging, _BULGE_STIFF),
        (facts.prolapsed, _PROLAPSED),
        (situation.likely("varices"), _VARICES),
        (situation.flagged("pyoderma"), _PYODERMA),
        (situation.likely("radiation"), _IRRADIATED),
    )
    return tuple(reason for holds, reason in grounds if holds)


def _flexible(situation: RankedFacts) -> Iterator[Need]:
    """Surfaces and skin that only a soft, flexible barrier follows."""
    facts = situation.facts
    reasons = stiff_harms(situation)
    if facts.findings.abdomen.contour is Contour.ROUNDED and facts.troubled:
        reasons = (*reasons, _OUTWARDS)
    if reasons:
        yield Need("flexible_surface", "A flat or soft barrier that bends along", reasons)
    if facts.prolapsed or situation.likely("varices"):
        yield Need("one_piece", "One soft piece without a coupling", reasons)


def _pressure(situation: RankedFacts) -> Iterator[Need]:
    if situation.barrier_injures:
        reason = Reason(
            "A pressure injury heals only without the pressure.",
            ("pressure2007/causes", PRACTICE),
            "skin",
        )
        yield Need("relieve_pressure", "Take the pressure off", (reason,))


def _edge(facts: Facts) -> Iterator[Need]:
    """Seal right at the stoma, or cover the skin a large opening must leave bare."""
    m = facts.findings.measurement
    reasons = []
    if facts.prolapsed:
        reasons.append(
            Reason(
                "A prolapse needs a larger opening.",
                ("complicationsreview/prolapse",),
                "measurement.prolapse",
            )
        )
    if mushroom(facts):
        reasons.append(
            Reason(
                "The stoma is wider above than at its base.", (PRACTICE,), "measurement.widest_mm"
            )
        )
    if m.oedema is Oedema.MARKED:
        reasons.append(
            Reason("The stoma is swollen and needs room.", (PRACTICE,), "measurement.oedema")
        )
    if reasons and not facts.works:
        text = "Cover the skin between stoma and opening"
        yield Need("cover_gap", text, tuple(reasons))
    if facts.troubled and (facts.height in _LOW or _short_spout(facts) or facts.leak_unexplained):
        reason = Reason(
            "It leaks at the edge of the stoma.", ("morgan2015/ring", PRACTICE), "system.leak"
        )
        yield Need("seal_edge", "Seal right at the stoma, all round", (reason,))


def mushroom(facts: Facts) -> bool:
    """Wider above than at the base."""
    widest = facts.findings.measurement.widest_mm
    return widest is not None and facts.outline is not None and widest > facts.outline.length_mm


def _short_spout(facts: Facts) -> bool:
    height = facts.findings.measurement.protrusion_mm
    return (
        height is not None
        and height < SPOUT_TROUBLE.value
        and facts.kind is not StomaKind.COLOSTOMY
    )


def _opening(facts: Facts) -> Iterator[Need]:
    """An opening that fits, and hands that need not cut it."""
    verdict = judge_opening(facts)
    if verdict.changes and verdict.why is not None:
        yield Need("refit_opening", "An opening of the size of the stoma", (verdict.why,))
    person = facts.findings.person
    unable = (Ability.LIMITED, Ability.ONE_HAND, Ability.NONE)
    alone = person.changed_by in (None, ChangedBy.SELF) and not facts.works
    if alone and (person.dexterity in unable or person.eyesight in unable):
        reason = Reason(
            "Cutting is hard with these hands or eyes.", (PRACTICE,), "person.dexterity"
        )
        yield Need("no_cutting", "An opening that needs no cutting at home", (reason,))
