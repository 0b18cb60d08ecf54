"""Stage 2: what follows from the findings by measuring and counting alone.

``Facts`` is what every later stage reads. Three-valued answers keep *not recorded* (None) apart
from no.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from planning.evidence.thresholds import (
    GAP_LEAST,
    GAP_MOST,
    LEAKS_ONCE_IN,
    OUTPUT_CALL,
    SHRINKS_DAYS,
    WEAR_LONG,
)
from planning.facts.distribution import Spread, spread_of
from planning.facts.harmless import harmless, lasting_mark
from planning.facts.height import Height, height_of
from planning.facts.separation import SeparationClass, separation_class
from planning.facts.wear_summary import WearSummary, summarise
from planning.geometry.barrier import barrier_reach, fistula_near
from planning.geometry.burden import landing_zone, skin_burden
from planning.geometry.convexity import lift_wanted, outlet_height
from planning.geometry.outline import Outline, outline_of
from planning.inputs.age import AgeGroup, age_group
from planning.inputs.clock import NOWHERE, ClockHours
from planning.inputs.findings import (
    Accessory,
    Condition,
    Consistency,
    Findings,
    History,
    Material,
    Medicine,
    OpeningKind,
    Profile,
    SkinFinding,
    SkinKind,
    StomaKind,
    Symptom,
)

#: Skin that is open or raw.
BROKEN = frozenset(
    {
        SkinKind.EROSION,
        SkinKind.ULCER,
        SkinKind.UNDERMINED_ULCER,
        SkinKind.BLISTERS,
        SkinKind.STRIPPING,
    }
)
#: Raw skin that powder may dry: shallow, not a deep wound.
#: Torn skin gets a cover, not powder.
SHALLOW_RAW = frozenset({SkinKind.EROSION, SkinKind.MACERATION})


@dataclass(frozen=True, slots=True)
class Seen:
    """One skin finding with where it lies; ``path`` names it in ``Findings``."""

    finding: SkinFinding
    spread: Spread
    path: str


@dataclass(frozen=True, slots=True)
class WornGap:
    """Gap per side of the opening in use, mm, at its narrowest and widest axis; measured from the
    widest part where the stoma is wider above than at its base."""

    least_mm: float
    most_mm: float


@dataclass(frozen=True)
class Facts:
    """Findings with everything measured and counted from them."""

    findings: Findings
    history: History
    outline: Outline | None
    height: Height | None
    lift_mm: float | None
    seen: tuple[Seen, ...]
    burden_mm2: float | None
    burden_share: float | None
    wear: WearSummary | None
    worn_gap: WornGap | None

    @property
    def age_group(self) -> AgeGroup:
        """Whose rules hold."""
        return age_group(self.findings.person.age_years)

    # --- skin --------------------------------------------------------------------------------
    def find(self, *kinds: SkinKind) -> tuple[Seen, ...]:
        """Skin findings of these kinds."""
        return tuple(s for s in self.seen if s.finding.kind in kinds)

    def hours_of(self, *kinds: SkinKind) -> ClockHours:
        """Every hour at which one of these kinds was seen."""
        return ClockHours.union(s.finding.hours for s in self.find(*kinds))

    @cached_property
    def skin_clear(self) -> bool | None:
        """True: looked for, no damage found. None: skin not recorded."""
        return None if self.findings.skin is None else not self.damaged

    @cached_property
    def damaged(self) -> tuple[Seen, ...]:
        """Every skin finding but those that ask for nothing."""
        return tuple(s for s in self.seen if not harmless(s.finding))

    @cached_property
    def lasting_marks(self) -> tuple[Seen, ...]:
        """Red marks on whole skin that stay after the pressure is off."""
        return tuple(s for s in self.seen if lasting_mark(s.finding))

    @cached_property
    def broken_skin(self) -> bool | None:
        """Open or weeping skin under the barrier."""
        if self.findings.skin is None:
            return None
        return any(s.finding.kind in BROKEN or s.finding.moist for s in self.seen)

    @cached_property
    def open_skin(self) -> tuple[Seen, ...]:
        """Skin that is not whole; closed blisters are."""
        return tuple(
            s
            for s in self.seen
            if s.finding.kind in BROKEN
            and not (s.finding.kind is SkinKind.BLISTERS and s.finding.moist is False)
        )

    @cached_property
    def weeping(self) -> tuple[Seen, ...]:
        """Shallow raw or weeping spots under the barrier, where powder helps it to hold."""
        return tuple(
            s
            for s in self.seen
            if self.under_barrier(s)
            and (
                (s.finding.kind in SHALLOW_RAW and s.finding.moist is not False)
                or (s.finding.kind in (SkinKind.ERYTHEMA, SkinKind.SATELLITES) and s.finding.moist)
            )
        )

    def under_barrier(self, seen: Seen) -> bool:
        """It begins within the outline of a 4 inch barrier, or where it begins is not recorded."""
        inner = seen.finding.inner_mm
        return inner is None or inner < barrier_reach(self.outline)

    # --- the leak ----------------------------------------------------------------------------
    @cached_property
    def barrier_read(self) -> bool:
        """Both erosion and leak of the used barrier were looked for."""
        system = self.findings.system
        return system is not None and system.erosion is not None and system.leak is not None

    @cached_property
    def leak_hours(self) -> ClockHours:
        """Where effluent got under the barrier; where none was seen, where the barrier melted."""
        system = self.findings.system
        if system is None:
            return NOWHERE
        return system.leak or system.erosion or NOWHERE

    @cached_property
    def leaking(self) -> bool | None:
        """Evidence of leak: on the used barrier, counted, or in the wear log. None: none of it was
        read."""
        logged = self.wear is not None and self.wear.leaks > 0
        counted = self.counted_leaks
        if self.leak_hours or logged or counted:
            return True
        return False if self.barrier_read or counted == 0 else None

    @property
    def counted_leaks(self) -> int | None:
        """Leaks counted without their days; None: not counted."""
        system = self.findings.system
        return None if system is None or system.leak_count is None else system.leak_count.leaks

    @cached_property
    def occasional(self) -> bool:
        """No more than one leak among enough barriers, with the skin looked at and sound: the
        seal is watched, nothing is changed. A leak with a circumstance that explains it is none."""
        barriers, leaks = self._barriers_and_leaks
        return (
            bool(self.leaking)
            and self.skin_clear is True
            and barriers >= LEAKS_ONCE_IN.value
            and leaks <= 1
        )

    @property
    def _barriers_and_leaks(self) -> tuple[int, int]:
        system = self.findings.system
        if self.wear is not None and self.wear.changes:
            return self.wear.changes, self.wear.leaks
        if system is not None and system.leak_count is not None:
            return system.leak_count.barriers, system.leak_count.leaks
        return 0, 0

    @cached_property
    def troubled(self) -> bool:
        """A leak that is more than occasional, or skin that effluent may have burnt while no
        barrier was read."""
        burnt = self.find(SkinKind.ERYTHEMA, SkinKind.EROSION, SkinKind.MACERATION, SkinKind.WARTY)
        if self.occasional:
            return False
        return bool(self.leaking or (self.leaking is None and burnt))

    @cached_property
    def leak_unexplained(self) -> bool:
        """It leaks though the opening fits, the wear is not long and the ground is even."""
        gap = self.worn_gap
        misfit = gap is not None and not GAP_LEAST.value <= gap.most_mm <= GAP_MOST.value
        long = self.wear is not None and (self.wear.longest_days or 0) > WEAR_LONG.value
        uneven = bool(self.crease_hours | self.bulge_hours)
        return bool(self.leaking) and not (misfit or long or uneven)

    @cached_property
    def works(self) -> bool | None:
        """The system in use seals, but for an occasional leak, and the skin is sound. None: not
        known."""
        if self.troubled or self.skin_clear is False or (self.wear is not None and self.wear.sore):
            return False
        seals = self.leaking is False or self.occasional
        return True if seals and self.skin_clear else None

    # --- the abdomen -------------------------------------------------------------------------
    @cached_property
    def crease_hours(self) -> ClockHours:
        return ClockHours.union(c.hours for c in self.findings.abdomen.creases or ())

    @cached_property
    def bulge_hours(self) -> ClockHours:
        return ClockHours.union(b.hours for b in self.findings.abdomen.bulges or ())

    @property
    def bulging(self) -> bool | None:
        bulges = self.findings.abdomen.bulges
        return None if bulges is None else bool(bulges)

    # --- the stoma ---------------------------------------------------------------------------
    @property
    def kind(self) -> StomaKind:
        return self.findings.stoma.kind

    @property
    def small_bowel(self) -> bool:
        return self.kind in (StomaKind.ILEOSTOMY, StomaKind.JEJUNOSTOMY)

    @property
    def prolapsed(self) -> bool | None:
        prolapse = self.findings.measurement.prolapse
        return None if prolapse is None else bool(prolapse)

    @property
    def separated(self) -> bool | None:
        junction = self.findings.measurement.junction
        return None if junction is None else bool(junction)

    @cached_property
    def separation_class(self) -> SeparationClass | None:
        """How deep a mucocutaneous separation is; None: none, or not looked for."""
        days = self.findings.stoma.days_since_surgery
        return separation_class(self.findings.measurement.junction, days)

    # --- output and how the person is ----------------------------------------------------------
    def feels(self, *symptoms: Symptom) -> bool:
        """Any of these is present."""
        return bool(self.findings.output.present & set(symptoms))

    def asked(self, symptom: Symptom) -> bool | None:
        """True, False or None (not asked)."""
        output = self.findings.output
        if symptom in output.present:
            return True
        return False if symptom in output.absent else None

    @cached_property
    def liquid(self) -> bool | None:
        """Output that washes a barrier away: urine, liquid, watery or much of it."""
        output = self.findings.output
        if self.kind is StomaKind.UROSTOMY:
            return True
        if output.volume_ml_24h is not None and output.volume_ml_24h >= OUTPUT_CALL.value:
            return True
        if output.consistency is None:
            return None
        return output.consistency in (Consistency.WATERY, Consistency.LIQUID)

    # --- person and system -------------------------------------------------------------------
    def has(self, condition: Condition) -> bool | None:
        return self.findings.person.condition(condition)

    def takes(self, *medicines: Medicine) -> bool | None:
        """Any of these; None where the list of medicines is not known."""
        return self.findings.person.takes(*medicines)

    def reacts_to(self, material: Material) -> bool:
        return material in (self.findings.person.sensitivities or frozenset())

    def wears(self, accessory: Accessory) -> bool | None:
        """None: accessories not recorded, or this one not asked."""
        system = self.findings.system
        if system is None or system.accessories is None:
            return None
        if accessory in system.accessories_not_asked:
            return None
        return accessory in system.accessories

    @property
    def wears_convex(self) -> bool | None:
        system = self.findings.system
        if system is None or system.profile is None:
            return None
        return system.profile is Profile.CONVEX

    @property
    def mouldable(self) -> bool:
        system = self.findings.system
        return system is not None and system.opening_kind is OpeningKind.MOULDABLE


def still_shrinks(facts: Facts) -> bool:
    """Still in the weeks in which a stoma shrinks: measured at every change."""
    days = facts.findings.stoma.days_since_surgery
    return days is not None and days < SHRINKS_DAYS.value


def fistula_at_barrier(facts: Facts) -> bool:
    """A second opening under the barrier, or so near that nothing there may press or seal it."""
    found = facts.find(SkinKind.FISTULA)
    return any(fistula_near(seen.finding.inner_mm, facts.outline) for seen in found)


def derive(findings: Findings, history: History) -> Facts:
    """Measure and count; ``findings`` must have passed ``check``."""
    m = findings.measurement
    outline = outline_of(m)
    creases = ClockHours.union(c.hours for c in findings.abdomen.creases or ())
    burden = skin_burden(findings.skin, outline)
    lift = None
    if m.protrusion_mm is not None:
        lift = lift_wanted(outlet_height(m.protrusion_mm, m.lumen))
    return Facts(
        findings=findings,
        history=history,
        outline=outline,
        height=height_of(findings.stoma.kind, m.protrusion_mm),
        lift_mm=lift,
        seen=tuple(
            Seen(f, spread_of(f, creases), f"skin[{i}]") for i, f in enumerate(findings.skin or ())
        ),
        burden_mm2=burden,
        burden_share=_share(burden, outline),
        wear=summarise(findings.wear),
        worn_gap=_worn_gap(findings, outline),
    )


def _share(burden: float | None, outline: Outline | None) -> float | None:
    zone = 0.0 if outline is None else landing_zone(outline)
    return None if burden is None or zone == 0 else burden / zone


def _worn_gap(findings: Findings, outline: Outline | None) -> WornGap | None:
    system = findings.system
    if system is None or outline is None or system.opening_length_mm is None:
        return None
    length, width = system.opening_length_mm, system.opening_width_mm
    if width is None:
        if system.opening_kind is not OpeningKind.PRE_CUT:
            return None
        width = length
    long, short = max(length, width), min(length, width)
    passing = findings.measurement.widest_mm or 0.0
    gaps = (
        (long - max(outline.length_mm, passing)) / 2,
        (short - max(outline.width_mm, passing)) / 2,
    )
    return WornGap(min(gaps), max(gaps))
