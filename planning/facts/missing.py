"""What was not recorded and would have mattered. Unknown is never assumed to be normal."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from typing import Final

from planning.evidence.sources import PRACTICE
from planning.facts.colour import DUSKY, colours
from planning.facts.derive import Facts
from planning.inputs.age import AgeGroup
from planning.inputs.findings import (
    Condition,
    PouchingSystem,
    SkinKind,
    StomaKind,
    Symptom,
    UrineSign,
)
from planning.results.plan import Reason


@dataclass(frozen=True, slots=True)
class Lack:
    """``key`` the field, with ``[]`` where it comes several times; ``where`` yields the paths at
    which it is lacking."""

    key: str
    text: str
    where: Callable[[Facts], Iterable[str]]


def missing(facts: Facts, lacks: Iterable[Lack] | None = None) -> tuple[Reason, ...]:
    """In the order of the visit. ``lacks``: what is asked for, where not all of it."""
    asked = RULES if lacks is None else lacks
    return tuple(
        Reason(lack.text, (PRACTICE,), path) for lack in asked for path in lack.where(facts)
    )


def _one(path: str, text: str, lacking: Callable[[Facts], bool]) -> Lack:
    """A field that is there once."""
    return Lack(path, text, lambda facts: (path,) if lacking(facts) else ())


def _worn(path: str, text: str, lacking: Callable[[PouchingSystem, Facts], bool]) -> Lack:
    """A field of the system in use, asked only where a system is recorded."""
    return _one(path, text, lambda f: f.findings.system is not None and
                lacking(f.findings.system, f))  # fmt: skip


def _asked(symptom: Symptom, text: str, *kinds: StomaKind) -> Lack:
    """A symptom that was not asked; ``kinds`` empty: of every stoma."""
    key = f"output.present:{symptom.value}"

    def where(facts: Facts) -> Iterable[str]:
        matters = not kinds or facts.kind in kinds
        return ("output.present",) if matters and facts.asked(symptom) is None else ()

    return Lack(key, text, where)


def _fixed(facts: Facts) -> Iterator[str]:
    for i, prolapse in enumerate(facts.findings.measurement.prolapse or ()):
        if prolapse.reducible is None:
            yield f"measurement.prolapse[{i}].reducible"


#: Kinds whose extent does not count towards the damaged area.
_NO_EXTENT: Final = (SkinKind.DILATED_VEINS, SkinKind.HARD_LUMP, SkinKind.FISTULA)


def _extent(facts: Facts) -> Iterator[str]:
    for seen in facts.seen:
        finding = seen.finding
        unknown = finding.inner_mm is None or finding.outer_mm is None
        if unknown and finding.kind not in _NO_EXTENT:
            yield f"{seen.path}.outer_mm"


def _weeping(facts: Facts) -> Iterator[str]:
    for seen in facts.find(SkinKind.BLISTERS):
        if seen.finding.moist is None:
            yield f"{seen.path}.moist"


def _distance(facts: Facts) -> Iterator[str]:
    for seen in facts.find(SkinKind.FISTULA):
        if seen.finding.inner_mm is None:
            yield f"{seen.path}.inner_mm"


def _crease_depth(facts: Facts) -> Iterator[str]:
    for i, crease in enumerate(facts.findings.abdomen.creases or ()):
        if crease.depth_mm is None:
            yield f"abdomen.creases[{i}].depth_mm"


def _bulge_size(facts: Facts) -> Iterator[str]:
    for i, bulge in enumerate(facts.findings.abdomen.bulges or ()):
        if bulge.height_mm is None or bulge.width_mm is None:
            yield f"abdomen.bulges[{i}].height_mm"


def _bulge_fixed(facts: Facts) -> Iterator[str]:
    for i, bulge in enumerate(facts.findings.abdomen.bulges or ()):
        if bulge.reducible is None:
            yield f"abdomen.bulges[{i}].reducible"


def _dark_and_untouched(facts: Facts) -> bool:
    return bool(colours(facts) & set(DUSKY)) and facts.findings.measurement.turgor is None


def _urine_open(facts: Facts, sign: UrineSign) -> bool:
    """Each group of signs is asked by itself."""
    output = facts.findings.output
    return output.urine_signs is None or sign in output.urine_signs_not_asked


_SMALL: Final = (StomaKind.ILEOSTOMY, StomaKind.JEJUNOSTOMY)

#: In the order of the visit.
RULES: Final = (
    _one("person.age_years",
         "The age is not recorded, and the rules here are for adults: enter it to get a plan.",
         lambda f: f.age_group is AgeGroup.UNKNOWN),
    _one("system", "The system in use is not recorded.", lambda f: f.findings.system is None),
    _worn("system.leak",
          "The back of the used barrier was not read: a leak is neither seen nor excluded.",
          lambda _, f: not f.barrier_read),
    _worn("system.profile", "Whether the barrier in use is flat or convex is not recorded.",
          lambda s, _: s.profile is None),
    _worn("system.accessories", "Accessories in use are not recorded.",
          lambda s, _: s.accessories is None),
    _worn("system.opening_length_mm", "The opening in use was not measured.",
          lambda s, _: s.opening_length_mm is None),
    _worn("system.convex_depth_mm", "The depth of the convexity in use is not recorded.",
          lambda s, f: bool(f.wears_convex) and {s.convex_depth_mm, s.convex_depth} == {None}),
    _one("stoma.days_since_surgery", "Time since surgery is not known: no new convexity.",
         lambda f: f.findings.stoma.days_since_surgery is None),
    _one("measurement.length_mm", "The size was not measured: no opening can be given.",
         lambda f: f.outline is None),
    _one("measurement.protrusion_mm", "The height was not measured: no convexity can be judged.",
         lambda f: f.findings.measurement.protrusion_mm is None),
    _one("measurement.lumen", "The position of the lumen is not recorded.",
         lambda f: f.findings.measurement.lumen is None),
    _one("measurement.colour", "The colour is not recorded: it is not assumed to be healthy.",
         lambda f: f.findings.measurement.colour is None),
    _one("measurement.turgor", "A dark stoma: is it cold, dry or hard?", _dark_and_untouched),
    _one("measurement.junction", "The mucocutaneous junction is not recorded.",
         lambda f: f.findings.measurement.junction is None),
    _one("measurement.prolapse", "Whether there is a prolapse is not recorded.",
         lambda f: f.findings.measurement.prolapse is None),
    _one("measurement.bleeding", "Bleeding is not recorded.",
         lambda f: f.findings.measurement.bleeding is None),
    Lack("measurement.prolapse[].reducible", "Does the prolapse go back by itself?", _fixed),
    _one("measurement.widest_mm", "The widest part of the prolapse sets the opening: measure it.",
         lambda f: bool(f.prolapsed) and f.findings.measurement.widest_mm is None),
    _one("skin", "The skin was not recorded: it is not assumed to be sound.",
         lambda f: f.findings.skin is None),
    Lack("skin[].outer_mm", "How far out it reaches is not recorded: no area.", _extent),
    Lack("skin[].inner_mm",
         "How far from the stoma's edge is the second opening? If not recorded, it counts as "
         "under the barrier, where nothing may press.", _distance),
    Lack("skin[].moist", "Blisters or papules: do they weep? That decides how soon.", _weeping),
    _one("abdomen.bulges", "Whether there is a bulge beside the stoma is not recorded.",
         lambda f: f.findings.abdomen.bulges is None),
    _one("abdomen.creases", "Creases are not recorded.",
         lambda f: f.findings.abdomen.creases is None),
    _one("abdomen.firmness", "Soft or firm abdomen? It decides convexity and belt.",
         lambda f: f.findings.abdomen.firmness is None and bool(f.lift_mm)),
    Lack("abdomen.creases[].depth_mm", "How deep is the crease?", _crease_depth),
    Lack("abdomen.bulges[].height_mm", "Height and width of the bulge set the half ring.",
         _bulge_size),
    Lack("abdomen.bulges[].reducible", "Does the bulge go back when lying?", _bulge_fixed),
    _one("output.volume_ml_24h", "The output of 24 hours is not known.",
         lambda f: f.small_bowel and f.findings.output.volume_ml_24h is None),
    _one("output.hours_without_output", "Hours since the last output are not recorded.",
         lambda f: f.findings.output.hours_without_output is None),
    _one("output.consistency", "Consistency is not recorded.",
         lambda f: f.findings.output.consistency is None),
    _one("output.urine_signs", "Crystals, odour and blood in the urine are not recorded.",
         lambda f: f.kind is StomaKind.UROSTOMY and _urine_open(f, UrineSign.BLOOD)),
    _one("output.urine_signs_not_asked",
         "Clots, pink or cloudy urine or a thin stream are not recorded.",
         lambda f: f.kind is StomaKind.UROSTOMY and f.findings.output.urine_signs is not None
         and _urine_open(f, UrineSign.CLOTS)),
    _asked(Symptom.FEVER, "Fever was not asked."),
    _asked(Symptom.LITTLE_URINE, "The amount of urine was not asked.", *_SMALL),
    _asked(Symptom.DIZZY_ON_STANDING, "Dizziness on standing was not asked.", *_SMALL),
    _asked(Symptom.LOIN_PAIN, "Loin pain was not asked.", StomaKind.UROSTOMY),
    _one("person.sensitivities", "Sensitivities are not recorded: ask before anything new.",
         lambda f: f.findings.person.sensitivities is None),
    _one("person.has", "Liver disease is not known: convexity and belt depend on it.",
         lambda f: f.has(Condition.LIVER_DISEASE) is None),
)  # fmt: skip
