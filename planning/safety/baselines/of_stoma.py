"""What would be worse than agreed: the stoma, its edge, its skin and the bulge beside it."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from types import MappingProxyType
from typing import Final

from planning.evidence.thresholds import BULGE_LARGER, HEIGHT_LOWER, PROLAPSE_LONGER
from planning.facts.colour import colours
from planning.facts.derive import Facts
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    Colour,
    SkinKind,
    Symptom,
)
from planning.safety.baselines.colour import colour_usual
from planning.safety.baselines.difference import Difference, NoneToday, unseen

_HEAVIER: Final = (
    Bleeding.OOZE_AT_JUNCTION,
    Bleeding.SEVERAL_EMPTIES,
    Bleeding.FROM_LUMEN,
    Bleeding.SPURTING_OR_UNSTOPPED,
)


def _looked_at(found: tuple[object, ...] | None, name: str) -> Iterator[Difference]:
    """Nothing where there is one; ``NoneToday`` where there is none."""
    if found is None:
        yield unseen(name)
    elif not found:
        raise NoneToday


def _said(*signs: tuple[bool | None, str]) -> Iterator[Difference]:
    """The signs that are there; one that is None was not recorded."""
    for there, words in signs:
        if there is None:
            yield unseen(f"whether {words}")
        elif there:
            yield Difference(words)


# --- prolapse, bulge ------------------------------------------------------------------------
def _prolapse(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    m = facts.findings.measurement
    yield from _looked_at(m.prolapse, "whether there is a prolapse")
    for one in m.prolapse or ():
        stuck = None if one.reducible is None else not one.reducible
        yield from _said(
            (bool(agreed.reducible) and stuck, "it no longer goes back"),
            (_grown(one.extra_length_mm, agreed, PROLAPSE_LONGER.value), "it is longer"),
            (bool(one.growing), "it swells"),
            (one.painful, "it hurts"),
            (_odd(facts), "its colour has changed"),
            (None if m.bleeding is None else m.bleeding in _HEAVIER, "it bleeds"),
        )  # fmt: skip


def _bulge(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    bulges = facts.findings.abdomen.bulges
    yield from _looked_at(bulges, "whether there is a bulge")
    for one in bulges or ():
        stuck = None if one.reducible is None else not one.reducible
        yield from _said(
            (agreed.reducible is not False and stuck, "it no longer goes back"),
            (_grown(one.width_mm, agreed, BULGE_LARGER.value), "it is larger"),
            (one.painful, "it hurts"),
            (one.hard, "it is hard"),
            (one.skin_changed, "the skin over it has changed"),
            (facts.asked(Symptom.VOMITING), "the person vomits"),
        )


def _grown(now: float | None, agreed: Baseline, by: float) -> bool | None:
    """By at least ``by`` mm; False where no size was agreed."""
    if agreed.value is None:
        return False
    return None if now is None else now >= agreed.value + by


# --- the stoma and its edge -----------------------------------------------------------------
def _height(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    now, pain = facts.findings.measurement.protrusion_mm, facts.findings.output.pain_0_10
    if now is None or agreed.value is None:
        yield unseen("height against an agreed figure")
    elif now <= agreed.value - HEIGHT_LOWER.value:
        yield Difference(f"it is lower, {now:g} mm today")
    yield from _said(
        (facts.leaking if facts.leaking is None else facts.troubled, "it leaks more than once "
         "in a while"),
        (None if pain is None else pain > 0, "it hurts"),
        (facts.asked(Symptom.RIBBON_STOOL), "the stool is ribbon-like"),
    )  # fmt: skip


def _dark(facts: Facts, _: Baseline) -> Iterator[Difference]:
    odd = _odd(facts)
    if odd is None:
        yield unseen("its colour")
    elif not odd:
        raise NoneToday
    elif not colour_usual(facts):
        yield Difference("colour and feel are not recorded as unchanged")


def _odd(facts: Facts) -> bool | None:
    """Whether any part is of another colour than red or pink; None: not looked at."""
    seen = colours(facts)
    return bool(seen - {Colour.PINK_RED}) if seen else None


def _gap(facts: Facts, agreed: Baseline) -> Iterator[Difference]:
    gaps = facts.findings.measurement.junction
    yield from _looked_at(gaps, "whether the edge is whole")
    for gap in gaps or ():
        if gap.depth_mm is None or agreed.value is None:
            yield unseen("its depth against an agreed figure")
        elif gap.depth_mm > agreed.value:
            yield Difference("it is deeper")


def _narrow(facts: Facts, _: Baseline) -> Iterator[Difference]:
    if facts.findings.measurement.calibre is None:
        yield unseen("how wide it is")
    yield from _said(
        (facts.asked(Symptom.RIBBON_STOOL), "the stool is ribbon-like"),
        (facts.asked(Symptom.EXPLOSIVE_OUTPUT), "it comes out with force"),
    )


# --- the skin -------------------------------------------------------------------------------
def _thick_skin(facts: Facts, _: Baseline) -> Iterator[Difference]:
    warty = facts.find(SkinKind.WARTY)
    yield from _skin_looked_at(facts)
    if not warty:
        raise NoneToday
    yield from _said(
        (any(s.finding.enlarging or s.finding.changing for s in warty), "it grows"),
        (bool(facts.find(SkinKind.ULCER, SkinKind.UNDERMINED_ULCER)), "there is an ulcer"),
        (bool(facts.find(SkinKind.HARD_LUMP)), "there is a lump"),
    )


def _healed_pyoderma(facts: Facts, _: Baseline) -> Iterator[Difference]:
    """Sore, or a mark that stays."""
    yield from _skin_looked_at(facts)
    yield from _said(
        (bool(facts.find(SkinKind.ULCER, SkinKind.UNDERMINED_ULCER)), "there is an ulcer"),
        (any(s.finding.pain for s in facts.damaged), "the skin is sore"),
        (bool(facts.find(SkinKind.PRESSURE_MARK)), "there is a pressure mark"),
    )


def _skin_looked_at(facts: Facts) -> Iterator[Difference]:
    if facts.findings.skin is None:
        yield unseen("the skin round the stoma")


#: By kind: every respect in which today is not as agreed.
DIFFERENCES: Final[Mapping[BaselineKind, Callable[[Facts, Baseline], Iterator[Difference]]]] = (
    MappingProxyType(
        {
            BaselineKind.PROLAPSE: _prolapse,
            BaselineKind.HEIGHT: _height,
            BaselineKind.BULGE: _bulge,
            BaselineKind.DARK_STOMA: _dark,
            BaselineKind.THICK_SKIN: _thick_skin,
            BaselineKind.HEALED_PYODERMA: _healed_pyoderma,
            BaselineKind.SEPARATION: _gap,
            BaselineKind.NARROW_LUMEN: _narrow,
        }
    )
)
