"""Notices about the stoma, its size and the opening in use."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from planning.evidence.sources import DESIGN, MEMORY, PRACTICE
from planning.evidence.thresholds import (
    GAP_MOST,
    GAP_RUBS,
    PROLAPSE_HEIGHT,
    PROLAPSE_RISE,
    SIZE_LEAST,
    SIZE_MOST,
)
from planning.facts.derive import Facts
from planning.inputs.findings import Bleeding, Colour, Condition
from planning.notices.rule import NoticeRule


def _size(facts: Facts) -> Iterator[str]:
    m = facts.findings.measurement
    sizes = [size for size in (m.length_mm, m.width_mm) if size is not None]
    sizes += [facts.outline.length_mm, facts.outline.width_mm] if facts.outline else []
    odd = [s for s in sizes if not SIZE_LEAST.value <= s <= SIZE_MOST.value]
    if odd:
        yield (
            f"A stoma of {odd[0]:g} mm is an unusual size (usual: {SIZE_LEAST.value:g} to "
            f"{SIZE_MOST.value:g} mm): measure again before anything is cut."
        )


def _height(facts: Facts) -> Iterator[str]:
    if _too_high(facts):
        yield "Higher than 50 mm: think of a prolapse (no agreed definition)."


def _too_high(facts: Facts) -> bool:
    m = facts.findings.measurement
    high = m.protrusion_mm is not None and m.protrusion_mm > PROLAPSE_HEIGHT.value
    return high and m.prolapse == ()


def _rise(facts: Facts) -> Iterator[str]:
    m = facts.findings.measurement
    if not facts.history.previous or m.protrusion_mm is None or m.prolapse != ():
        return
    before = facts.history.previous[-1].measurement.protrusion_mm
    rise = None if before is None else m.protrusion_mm - before
    if rise is not None and rise >= PROLAPSE_RISE.value and not _too_high(facts):
        yield f"It is {rise:.0f} mm higher than at the last visit: think of a prolapse."


def _slough(facts: Facts) -> Iterator[str]:
    if facts.findings.measurement.colour is Colour.YELLOW_SLOUGH:
        yield "Yellow slough: tissue is coming away; look at the depth."


def _oozing(facts: Facts) -> Iterator[str]:
    if facts.findings.measurement.bleeding is Bleeding.OOZE_AT_JUNCTION:
        yield (
            "Oozing at the junction is usually venous: press, check for rubbing and blood thinners."
        )


def _thinned(facts: Facts) -> Iterator[str]:
    bleeds = facts.findings.measurement.bleeding not in (None, Bleeding.NONE)
    if facts.has(Condition.ANTICOAGULANT) and bleeds:
        yield "Blood thinners: bleeding lasts longer."


def _cuts(facts: Facts) -> Iterator[str]:
    if facts.worn_gap is not None and facts.worn_gap.least_mm < 0:
        yield "The opening in use is smaller than the stoma: its edge may cut."


def _rubs(facts: Facts) -> Iterator[str]:
    gap = facts.worn_gap
    if gap is not None and 0 <= gap.least_mm < GAP_RUBS.value and not facts.mouldable:
        yield (
            f"The opening in use comes within {gap.least_mm:.1f} mm of the stoma: a plain cut edge "
            "nearer than 1 mm may rub."
        )


def _bare(facts: Facts) -> Iterator[str]:
    gap = facts.worn_gap
    if gap is None or gap.most_mm <= GAP_MOST.value:
        return
    bare = f"The opening in use leaves {gap.most_mm:.1f} mm bare on a side, over the usual "
    bare += f"{GAP_MOST.value:.1f} mm"
    known_sound = ": the skin there is sound, so it may stay; look at it at every change."
    yield bare + (known_sound if facts.works else ".")


_AT_OPENING: Final = "system.opening_length_mm"


def _from_a_photo(facts: Facts) -> Iterator[str]:
    size = facts.findings.measurement
    errors = [e for e in (size.length_error_mm, size.width_error_mm) if e is not None]
    if errors:
        yield (
            f"The size was taken on a photo, give or take {max(errors):.1f} mm: check it with a "
            "ruler before anything is cut."
        )


RULES: Final[tuple[NoticeRule[Facts], ...]] = (
    NoticeRule("unusual_size", "A stoma under 10 or over 80 mm", (DESIGN,), _size,
               "measurement.length_mm"),
    NoticeRule("from_a_photo", "A size taken on a photo", (DESIGN,), _from_a_photo,
               "measurement.length_mm"),
    NoticeRule("stands_high", "A height over 50 mm with no prolapse on record",
               (DESIGN, "prolapsereview/no_definition"), _height, "measurement"),
    NoticeRule("risen", "25 mm or more higher than at the last visit", (DESIGN,), _rise,
               "measurement.protrusion_mm"),
    NoticeRule("slough", "Yellow slough on the stoma", (MEMORY,), _slough, "measurement.colour"),
    NoticeRule("oozing", "Oozing at the junction", ("barr2004/oozing",),
               _oozing, "measurement.bleeding"),
    NoticeRule("blood_thinners", "Any bleeding with blood thinners", (PRACTICE,), _thinned,
               "person.has"),
    NoticeRule("opening_cuts", "An opening in use smaller than the stoma", (PRACTICE,), _cuts,
               _AT_OPENING),
    NoticeRule("opening_rubs", "A plain cut edge nearer than 1 mm", (PRACTICE,), _rubs,
               _AT_OPENING),
    NoticeRule("opening_bare", "An opening in use wider than usual", ("green2018/most", PRACTICE),
               _bare,
               _AT_OPENING),
)  # fmt: skip
