"""Irritant contact dermatitis from effluent: stool or urine that lay on the skin."""

from planning.causes.rule import CLEAR, HINT, STRONG, CauseRule, Evidence
from planning.evidence.sources import MEMORY
from planning.evidence.thresholds import AWAY_FROM_EDGE, GAP_MOST, NEAR_EDGE
from planning.facts.derive import Facts
from planning.facts.distribution import Shape
from planning.facts.height import Height, height_sources
from planning.inputs.clock import ClockHours
from planning.inputs.findings import LumenPosition, SkinKind
from planning.results.plan import CauseOf


def _weigh(facts: Facts, evidence: Evidence) -> ClockHours | None:
    burnt = facts.find(SkinKind.ERYTHEMA, SkinKind.EROSION, SkinKind.MACERATION)
    if not burnt:
        return None
    hours = ClockHours.union(s.finding.hours for s in burnt)
    _where(facts, evidence, hours)
    _why(facts, evidence)
    _symptoms(facts, evidence)
    return hours


def _where(facts: Facts, evidence: Evidence, hours: ClockHours) -> None:
    burnt = facts.find(SkinKind.ERYTHEMA, SkinKind.EROSION, SkinKind.MACERATION)
    shapes = {s.spread.shape for s in burnt}
    path = burnt[0].path
    evidence.speaks_for(
        Shape.LOWEST_SIDE in shapes,
        CLEAR,
        f"The skin is damaged{hours.placed()}, the side where effluent falls.",
        "hightech/lowest_side",
        at=path,
    )
    evidence.speaks_for(
        Shape.ALONG_CREASE in shapes,
        CLEAR,
        f"The damage follows a crease{facts.crease_hours.placed()}.",
        MEMORY,
        at="abdomen.creases",
    )
    shared = hours & facts.leak_hours
    evidence.speaks_for(
        shared,
        STRONG,
        f"The used barrier let effluent under at the same hours ({shared.words()}).",
        MEMORY,
        at="system.leak",
    )
    lumen = facts.findings.measurement.lumen_hour
    evidence.speaks_for(
        lumen is not None and lumen in hours,
        HINT,
        f"The lumen points to {lumen} o'clock, the damaged side.",
        MEMORY,
        at="measurement.lumen_hour",
    )
    starts = [s.finding.inner_mm for s in burnt if s.finding.inner_mm is not None]
    evidence.speaks_for(
        starts and min(starts) <= NEAR_EDGE.value,
        HINT,
        "It begins at the edge of the stoma.",
        MEMORY,
        at=path,
    )
    evidence.speaks_against(
        starts and min(starts) >= AWAY_FROM_EDGE.value,
        CLEAR,
        "It lies away from the stoma.",
        MEMORY,
        at=path,
    )
    evidence.speaks_against(
        facts.leaking is False,
        STRONG,
        "The used barrier came off intact, with no effluent beneath it.",
        MEMORY,
        at="system.leak",
    )


def _why(facts: Facts, evidence: Evidence) -> None:
    gap = facts.worn_gap
    evidence.speaks_for(
        gap is not None and gap.most_mm > GAP_MOST.value,
        CLEAR,
        "The opening in use leaves skin bare beside the stoma.",
        "green2018/most",
        at="system.opening_length_mm",
    )
    evidence.speaks_for(
        facts.height in (Height.FLUSH, Height.RETRACTED, Height.SHORT),
        HINT,
        "The stoma is too low to empty clear of the skin.",
        *height_sources(facts.kind),
        at="measurement.protrusion_mm",
    )
    evidence.speaks_for(
        facts.findings.measurement.lumen is LumenPosition.SKIN_LEVEL,
        HINT,
        "The lumen opens at skin level.",
        MEMORY,
        at="measurement.lumen",
    )
    evidence.speaks_for(
        facts.liquid, HINT, "The output is liquid.", MEMORY, at="output.consistency"
    )
    evidence.speaks_for(
        facts.small_bowel,
        HINT,
        "Irritation is more frequent with an ileostomy (odds ratio 1.65).",
        "ayik2020/ileostomy",
        at="stoma.kind",
    )


def _symptoms(facts: Facts, evidence: Evidence) -> None:
    burnt = facts.find(SkinKind.ERYTHEMA, SkinKind.EROSION, SkinKind.MACERATION)
    burning = any(s.finding.burning or s.finding.pain for s in burnt)
    itching = any(s.finding.itch for s in burnt)
    evidence.speaks_for(burning, HINT, "It burns or hurts.", MEMORY, at=burnt[0].path)
    evidence.speaks_against(
        itching and not burning, HINT, "It itches rather than burns.", MEMORY, at=burnt[0].path
    )
    evidence.speaks_against(
        any(s.finding.product_outline for s in burnt),
        CLEAR,
        "Its sharp edge follows the outline of a product.",
        MEMORY,
        at=burnt[0].path,
    )
    evidence.speaks_against(
        facts.find(SkinKind.SATELLITES), HINT, "There are satellite spots.", MEMORY
    )


RULE = CauseRule(
    key="irritant_effluent",
    of=CauseOf.SKIN,
    title="Irritation by effluent on the skin",
    weigh=_weigh,
    tell="Read the back of the used barrier: is there effluent under it at the sore hours?",
)
