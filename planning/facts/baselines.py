"""What a nurse or surgeon agreed as long-standing, beside what is found today.

Usual only while unchanged: what is worse is named, and then counts as new. The planner agrees to
nothing by itself, and an agreement past its review no longer counts.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Final

from planning.evidence.thresholds import BULGE_LARGER, EARLY_ISCHAEMIA, PROLAPSE_LONGER
from planning.facts.colour import colours
from planning.facts.derive import Facts
from planning.inputs.findings import (
    Baseline,
    BaselineKind,
    Bleeding,
    Bulge,
    Colour,
    Prolapse,
    SkinKind,
    Symptom,
    Turgor,
)

_HEAVIER: Final = (
    Bleeding.OOZE_AT_JUNCTION,
    Bleeding.SEVERAL_EMPTIES,
    Bleeding.FROM_LUMEN,
    Bleeding.SPURTING_OR_UNSTOPPED,
)


@dataclass(frozen=True, slots=True)
class Compared:
    """``worse``: what has changed since it was agreed, in words; empty: nothing has."""

    baseline: Baseline
    worse: tuple[str, ...]


def compared(kind: BaselineKind, facts: Facts) -> Compared | None:
    """None where nothing was agreed, it has lapsed, or there is none of it today."""
    baseline = facts.history.baseline(kind)
    if baseline is None or kind not in _LOOK:
        return None
    worse = _LOOK[kind](baseline, facts)
    return None if worse is None else Compared(baseline, worse)


def unchanged(kind: BaselineKind, facts: Facts) -> bool:
    """Agreed as known, and no worse today."""
    found = compared(kind, facts)
    return found is not None and not found.worse


def colour_usual(facts: Facts) -> bool:
    """A dark stoma of which a surgeon recorded this very colour, with every good sign today.

    Never in the first week, nor where the day is not known: there only a look on the same day
    would do, and when the surgeon looked is not recorded. A part of another colour is not what
    the surgeon recorded.
    """
    m, days = facts.findings.measurement, facts.findings.stoma.days_since_surgery
    settled = days is not None and days > EARLY_ISCHAEMIA.value
    good = m.turgor is Turgor.MOIST_SOFT and m.bleeds_on_touch is True
    same = colours(facts) <= {m.colour, Colour.PINK_RED}
    return bool(m.colour_known) and settled and good and same


def _said(*signs: tuple[bool | None, str]) -> tuple[str, ...]:
    return tuple(words for there, words in signs if there)


def _prolapse(baseline: Baseline, facts: Facts) -> tuple[str, ...] | None:
    m = facts.findings.measurement
    if not m.prolapse:
        return None
    dark = bool(colours(facts) - {Colour.PINK_RED})
    return tuple(
        dict.fromkeys(
            words
            for one in m.prolapse
            for words in _said(
                (baseline.reducible and one.reducible is False, "it no longer goes back"),
                (_longer(baseline, one), "it is longer"),
                (one.growing, "it swells"),
                (one.painful, "it hurts"),
                (dark, "its colour has changed"),
                (m.bleeding in _HEAVIER, "it bleeds"),
            )
        )
    )


def _longer(baseline: Baseline, prolapse: Prolapse) -> bool:
    length = prolapse.extra_length_mm
    if baseline.value is None or length is None:
        return False
    return length >= baseline.value + PROLAPSE_LONGER.value


def _bulge(baseline: Baseline, facts: Facts) -> tuple[str, ...] | None:
    bulges = facts.findings.abdomen.bulges
    if not bulges:
        return None
    return tuple(
        dict.fromkeys(
            words
            for one in bulges
            for words in _said(
                (baseline.reducible is not False and one.reducible is False,
                 "it no longer goes back"),
                (_larger(baseline, one), "it is larger"),
                (one.painful, "it hurts"),
                (one.hard, "it is hard"),
                (one.skin_changed, "the skin over it has changed"),
                (facts.feels(Symptom.VOMITING), "the person vomits"),
            )
        )
    )  # fmt: skip


def _larger(baseline: Baseline, bulge: Bulge) -> bool:
    if baseline.value is None or bulge.width_mm is None:
        return False
    return bulge.width_mm >= baseline.value + BULGE_LARGER.value


def _dark(_: Baseline, facts: Facts) -> tuple[str, ...] | None:
    if not colours(facts) - {Colour.PINK_RED}:
        return None
    return () if colour_usual(facts) else ("colour and feel are not recorded as unchanged",)


def _gap(baseline: Baseline, facts: Facts) -> tuple[str, ...] | None:
    gaps = facts.findings.measurement.junction
    if not gaps:
        return None
    depths = [gap.depth_mm for gap in gaps]
    known = [depth for depth in depths if depth is not None]
    return _said(
        (None in depths or baseline.value is None, "its depth is not recorded"),
        (baseline.value is not None and any(d > baseline.value for d in known), "it is deeper"),
    )


def _narrow(_: Baseline, facts: Facts) -> tuple[str, ...] | None:
    if facts.findings.measurement.calibre is None:
        return None
    return _said(
        (facts.feels(Symptom.RIBBON_STOOL), "the stool is thin as a ribbon"),
        (facts.feels(Symptom.EXPLOSIVE_OUTPUT), "it comes out with force"),
    )


def _thick_skin(_: Baseline, facts: Facts) -> tuple[str, ...] | None:
    warty = facts.find(SkinKind.WARTY)
    if not warty:
        return None
    grows = any(s.finding.enlarging or s.finding.changing for s in warty)
    sore = bool(facts.find(SkinKind.ULCER, SkinKind.UNDERMINED_ULCER))
    return _said(
        (grows, "it grows"),
        (sore, "there is an ulcer"),
        (bool(facts.find(SkinKind.HARD_LUMP)), "there is a lump"),
    )


_LOOK: Final[Mapping[BaselineKind, Callable[[Baseline, Facts], tuple[str, ...] | None]]] = {
    BaselineKind.PROLAPSE: _prolapse,
    BaselineKind.BULGE: _bulge,
    BaselineKind.DARK_STOMA: _dark,
    BaselineKind.SEPARATION: _gap,
    BaselineKind.NARROW_LUMEN: _narrow,
    BaselineKind.THICK_SKIN: _thick_skin,
}
#: Of which this file compares, with the words of a notice.
TITLES: Final[Mapping[BaselineKind, str]] = {
    BaselineKind.PROLAPSE: "The prolapse",
    BaselineKind.BULGE: "The bulge beside the stoma",
    BaselineKind.DARK_STOMA: "The dark colour of the stoma",
    BaselineKind.SEPARATION: "The gap between stoma and skin",
    BaselineKind.NARROW_LUMEN: "The narrow stoma",
    BaselineKind.THICK_SKIN: "The thick skin",
}
