"""What was not recorded and would have mattered. Unknown is never taken for normal."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Final

from planning.derive import Facts
from planning.findings import Colour, Condition, SkinKind, StomaKind, Symptom
from planning.plan import Reason
from planning.sources import PRACTICE


def missing(facts: Facts) -> tuple[Reason, ...]:
    """In the order of the visit."""
    parts = (_system(facts), _stoma(facts), _skin(facts), _abdomen(facts), _output(facts))
    return tuple(
        Reason(text, (PRACTICE,), path) for part in (*parts, _person(facts)) for path, text in part
    )


_Lack = tuple[str, str]


def _system(facts: Facts) -> Iterator[_Lack]:
    system = facts.findings.system
    if system is None:
        yield "system", "The system in use is not recorded."
        return
    if not facts.barrier_read:
        yield (
            "system.leak",
            "The back of the used barrier was not read: a leak is neither seen nor excluded.",
        )
    if system.profile is None:
        yield "system.profile", "Whether the barrier in use is flat or convex is not recorded."
    if system.accessories is None:
        yield "system.accessories", "Accessories in use are not recorded."
    if system.opening_length_mm is None:
        yield "system.opening_length_mm", "The opening in use was not measured."
    if facts.wears_convex and system.convex_depth_mm is None:
        yield "system.convex_depth_mm", "The depth of the convexity in use is not recorded."


#: What to ask of the stoma: path, words, and whether it is lacking.
_STOMA: Final[tuple[tuple[str, str, Callable[[Facts], bool]], ...]] = (
    (
        "stoma.days_since_surgery",
        "Time since surgery is not known: no new convexity.",
        lambda f: f.findings.stoma.days_since_surgery is None,
    ),
    (
        "measurement.length_mm",
        "The size was not measured: no opening can be given.",
        lambda f: f.outline is None,
    ),
    (
        "measurement.protrusion_mm",
        "The height was not measured: no convexity can be judged.",
        lambda f: f.findings.measurement.protrusion_mm is None,
    ),
    (
        "measurement.lumen",
        "The position of the lumen is not recorded.",
        lambda f: f.findings.measurement.lumen is None,
    ),
    (
        "measurement.colour",
        "The colour is not recorded: it is not taken for healthy.",
        lambda f: f.findings.measurement.colour is None,
    ),
    (
        "measurement.turgor",
        "A dark stoma: is it cold, dry or hard?",
        lambda f: (
            f.findings.measurement.colour in (Colour.DUSKY, Colour.PURPLE)
            and f.findings.measurement.turgor is None
        ),
    ),
    (
        "measurement.junction",
        "The junction of stoma and skin is not recorded.",
        lambda f: f.findings.measurement.junction is None,
    ),
    (
        "measurement.prolapse",
        "Whether there is a prolapse is not recorded.",
        lambda f: f.findings.measurement.prolapse is None,
    ),
    (
        "measurement.bleeding",
        "Bleeding is not recorded.",
        lambda f: f.findings.measurement.bleeding is None,
    ),
)


def _stoma(facts: Facts) -> Iterator[_Lack]:
    for path, text, lacking in _STOMA:
        if lacking(facts):
            yield path, text
    yield from _prolapse(facts)


def _prolapse(facts: Facts) -> Iterator[_Lack]:
    m = facts.findings.measurement
    for i, prolapse in enumerate(m.prolapse or ()):
        if prolapse.reducible is None:
            yield f"measurement.prolapse[{i}].reducible", "Does the prolapse go back by itself?"
    if m.prolapse and m.widest_mm is None:
        yield (
            "measurement.widest_mm",
            "The widest part of the prolapse sets the opening: measure it.",
        )


#: Kinds whose extent does not count towards the damaged area.
_NO_EXTENT: Final = (SkinKind.DILATED_VEINS, SkinKind.HARD_LUMP, SkinKind.FISTULA)


def _skin(facts: Facts) -> Iterator[_Lack]:
    if facts.findings.skin is None:
        yield "skin", "The skin was not recorded: it is not taken for sound."
        return
    for seen in facts.seen:
        finding = seen.finding
        if finding.kind in _NO_EXTENT:
            continue
        if finding.inner_mm is None or finding.outer_mm is None:
            yield f"{seen.path}.outer_mm", "How far out it reaches is not recorded: no area."


def _abdomen(facts: Facts) -> Iterator[_Lack]:
    abdomen = facts.findings.abdomen
    if abdomen.bulges is None:
        yield "abdomen.bulges", "Whether there is a bulge beside the stoma is not recorded."
    if abdomen.creases is None:
        yield "abdomen.creases", "Creases are not recorded."
    if abdomen.firmness is None and facts.lift_mm:
        yield "abdomen.firmness", "Soft or firm abdomen? It decides the dome and the belt."
    yield from _uneven(facts)


def _uneven(facts: Facts) -> Iterator[_Lack]:
    abdomen = facts.findings.abdomen
    for i, crease in enumerate(abdomen.creases or ()):
        if crease.depth_mm is None:
            yield f"abdomen.creases[{i}].depth_mm", "How deep is the crease?"
    for i, bulge in enumerate(abdomen.bulges or ()):
        if bulge.height_mm is None or bulge.width_mm is None:
            yield (
                f"abdomen.bulges[{i}].height_mm",
                "Height and width of the bulge set the half ring.",
            )
        if bulge.reducible is None:
            yield f"abdomen.bulges[{i}].reducible", "Does the bulge go back when lying?"


def _output(facts: Facts) -> Iterator[_Lack]:
    output = facts.findings.output
    if output.volume_ml_24h is None and facts.small_bowel:
        yield "output.volume_ml_24h", "The output of 24 hours is not known."
    if output.hours_without_output is None:
        yield "output.hours_without_output", "Hours since the last output are not recorded."
    if output.consistency is None:
        yield "output.consistency", "Consistency is not recorded."
    if facts.kind is StomaKind.UROSTOMY and output.urine_signs is None:
        yield "output.urine_signs", "Crystals, odour and blood in the urine are not recorded."
    for symptom, question in _questions(facts):
        if facts.asked(symptom) is None:
            yield "output.present", question


def _questions(facts: Facts) -> Iterator[tuple[Symptom, str]]:
    yield Symptom.FEVER, "Fever was not asked."
    if facts.small_bowel:
        yield Symptom.LITTLE_URINE, "The amount of urine was not asked."
        yield Symptom.DIZZY_ON_STANDING, "Dizziness on standing was not asked."
    if facts.kind is StomaKind.UROSTOMY:
        yield Symptom.LOIN_PAIN, "Loin pain was not asked."


def _person(facts: Facts) -> Iterator[_Lack]:
    if facts.findings.person.sensitivities is None:
        yield "person.sensitivities", "Sensitivities are not recorded: ask before anything new."
    if facts.has(Condition.LIVER_DISEASE) is None:
        yield "person.has", "Liver disease is not known: convexity and belt depend on it."
