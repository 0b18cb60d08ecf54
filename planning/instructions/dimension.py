"""Stage 6: sizes, from the measured outline and the chosen supplies."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from planning.evidence.thresholds import GAP_LEAST, GAP_MOST, GAP_TARGET
from planning.facts.derive import Facts, fistula_at_barrier
from planning.geometry.bulge import Levelling, level
from planning.geometry.convexity import Depth, depth_class
from planning.geometry.opening import Opening, opening_for, rounded
from planning.geometry.outline import Outline, ellipse, polygon_area
from planning.geometry.precut import pre_cut_for
from planning.geometry.ring import fit_ring
from planning.inputs.findings import Measurement, Oedema
from planning.needs.fit import mushroom
from planning.needs.skin_surface import step_beside_bulge
from planning.results.plan import Dimensions, Need
from planning.supplies.catalogue import CONVEX
from planning.supplies.opening_kind import pre_cut_barred
from planning.supplies.opening_size import OpeningVerdict, Verdict

#: Gaps that differ by less are the same on both axes (design value).
_EVEN_MM = 0.5


def dimensions(
    facts: Facts,
    needs: tuple[Need, ...],
    supplies: frozenset[str],
    verdict: OpeningVerdict | None = None,
    gap_mm: float | None = None,
) -> Dimensions:
    """Every size that the findings allow; what cannot be known stays None. ``verdict``: what
    becomes of the opening in use; None: none is known to stay. ``gap_mm``: the gap that the
    clinician chose for an opening to cut or roll; None: the usual one."""
    sizes = stoma_size(facts)
    if facts.outline is None:
        sizes = _convexity(sizes, facts, needs, supplies, None)
        return _half_ring(sizes, facts, supplies)
    stays = verdict is not None and verdict.verdict is Verdict.STAYS
    stays = stays and gap_mm is None
    opening = opening_worn(facts) if stays else opening_wanted(facts, supplies, gap_mm)
    if opening is not None:
        sizes = replace(
            sizes,
            gap_mm=opening.gap_mm,
            opening_length_mm=opening.length_mm,
            opening_width_mm=opening.width_mm,
            opening_outline=opening.points,
            gap_area_mm2=polygon_area(opening.points) - facts.outline.area_mm2,
            nearest_pre_cut_mm=_pre_cut(facts, facts.outline),
        )
    sizes = _convexity(sizes, facts, needs, supplies, opening)
    sizes = _ring(sizes, facts, supplies)
    return _half_ring(sizes, facts, supplies)


def stoma_size(facts: Facts) -> Dimensions:
    """Size and damage alone: what is shown when nothing is to be cut."""
    sizes = Dimensions(skin_burden_mm2=facts.burden_mm2, skin_burden_share=facts.burden_share)
    if facts.outline is None:
        return sizes
    return replace(
        sizes,
        stoma_length_mm=facts.outline.length_mm,
        stoma_width_mm=facts.outline.width_mm,
        stoma_area_mm2=facts.outline.area_mm2,
        stoma_perimeter_mm=facts.outline.perimeter_mm,
        stoma_outline=rounded(facts.outline.points),
    )


def opening_wanted(
    facts: Facts, supplies: frozenset[str], gap_mm: float | None = None
) -> Opening | None:
    """Opening for this stoma; None where its size, or a prolapse's widest part, is unknown, and
    beside a fistula, which an opening for the stoma alone would seal under the barrier."""
    if facts.outline is None or _widest_unknown(facts) or fistula_at_barrier(facts):
        return None
    if "pre_cut" in supplies and (size := pre_cut_for(facts.outline.length_mm)) is not None:
        gap = (size - facts.outline.length_mm) / 2
        return Opening(gap, size, size, _circle(size))
    gap = usual_gap(facts) if gap_mm is None else gap_mm
    widest = facts.findings.measurement.widest_mm if mushroom(facts) else None
    return opening_for(facts.outline, gap, widest)


def opening_worn(facts: Facts) -> Opening | None:
    """The opening in use, as it stays; its gap at the narrowest side."""
    system, gap = facts.findings.system, facts.worn_gap
    if system is None or gap is None or system.opening_length_mm is None:
        return None
    length = system.opening_length_mm
    width = system.opening_width_mm or length
    return Opening(gap.least_mm, length, width, rounded(ellipse(length, width).points))


def fitting_gap(facts: Facts) -> float | None:
    """The even, usual gap (mm) of the opening in use; None where it is neither."""
    worn = facts.worn_gap
    if worn is None or worn.most_mm - worn.least_mm >= _EVEN_MM:
        return None
    usual = GAP_LEAST.value <= worn.least_mm and worn.most_mm <= GAP_MOST.value
    return worn.least_mm if usual else None


def usual_gap(facts: Facts) -> float:
    """2 mm; the widest usual gap for a swollen stoma; the gap in use where the system works."""
    if facts.works and (worn := fitting_gap(facts)) is not None:
        return worn
    swollen = facts.findings.measurement.oedema is Oedema.MARKED
    return GAP_MOST.value if swollen else GAP_TARGET.value


def _pre_cut(facts: Facts, outline: Outline) -> float | None:
    return None if pre_cut_barred(facts) else pre_cut_for(outline.length_mm)


def _widest_unknown(facts: Facts) -> bool:
    m: Measurement = facts.findings.measurement
    return bool(facts.prolapsed) and m.widest_mm is None


@lru_cache(maxsize=32)
def _circle(size_mm: float) -> tuple[tuple[float, float], ...]:
    return rounded(ellipse(size_mm, size_mm).points)


def _convexity(
    sizes: Dimensions,
    facts: Facts,
    needs: tuple[Need, ...],
    supplies: frozenset[str],
    opening: Opening | None,
) -> Dimensions:
    barrier = next(iter(supplies & CONVEX), None)
    if barrier is None:
        return sizes
    chosen = Depth(barrier.rpartition("_")[2])
    return replace(
        sizes,
        convex_depth_mm=_depth(facts, needs, chosen),
        convex_depth_class=chosen.value,
        plateau_mm=None if opening is None else opening.across_mm,
    )


def _depth(facts: Facts, needs: tuple[Need, ...], chosen: Depth) -> float | None:
    """Depth wanted by the geometry, else the depth worn, where it lies in the chosen band."""
    lift = next((n.amount for n in needs if n.key == "lift_rim"), None)
    system = facts.findings.system
    worn = None if system is None else system.convex_depth_mm
    fitting = [d for d in (lift, worn) if d is not None and depth_class(d) is chosen]
    return fitting[0] if fitting else None


def _ring(sizes: Dimensions, facts: Facts, supplies: frozenset[str]) -> Dimensions:
    if "ring" not in supplies or facts.outline is None:
        return sizes
    ring = fit_ring(facts.outline, facts.findings.measurement.widest_mm)
    return replace(
        sizes,
        ring_stretched_inner_mm=ring.inner_mm,
        ring_stretched_thickness_mm=ring.thickness_mm,
        ring_cut_and_overlap=ring.cut_and_overlap,
    )


def levelling(facts: Facts) -> Levelling | None:
    """Half rings and paste for the step beside a bulge; None without its measures."""
    step = step_beside_bulge(facts)
    return None if step is None else level(step)


def _half_ring(sizes: Dimensions, facts: Facts, supplies: frozenset[str]) -> Dimensions:
    if "half_ring" not in supplies:
        return sizes
    if not facts.bulging:
        return replace(sizes, half_ring_layers=1)
    fill = levelling(facts)
    if fill is None:
        return sizes
    paste = fill.paste_mm if "paste" in supplies else None
    return replace(sizes, half_ring_layers=fill.layers, paste_mm=paste)
