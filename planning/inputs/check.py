"""Stage 1: what cannot be. Unlikely is not impossible: unlikely values are noticed, not refused."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from dataclasses import dataclass, is_dataclass
from typing import Any, Final, get_args, get_type_hints

from planning.inputs.clock import ClockHours
from planning.inputs.errors import FieldError
from planning.inputs.findings import (
    Abdomen,
    Ability,
    Construction,
    Findings,
    LumenPosition,
    Measurement,
    Output,
    Person,
    PouchingSystem,
    Profile,
    SkinFinding,
    Stoma,
    WearEpisode,
)
from planning.inputs.quantities import QUANTITIES

_Errors = Iterator[FieldError]


def check(findings: Findings) -> tuple[FieldError, ...]:
    """Everything that makes ``findings`` impossible, in the order of ``PARTS``; empty: sound."""
    if not _finite(findings):
        return tuple(_not_numbers(findings, ""))
    return tuple(error for part in PARTS for error in part.errors(findings))


def _finite(value: object) -> bool:
    """No infinity and no not-a-number anywhere."""
    left = [value]
    while left:
        inner = left.pop()
        if isinstance(inner, float):
            if not math.isfinite(inner):
                return False
        elif isinstance(inner, tuple):
            left += inner
        else:
            held = (getattr(inner, field) for field in _parts(inner))
            left += [one for one in held if one is not None]
    return True


def _not_numbers(value: object, path: str) -> _Errors:
    """Infinity and not-a-number, wherever they hide."""
    if isinstance(value, float) and not math.isfinite(value):
        yield FieldError(path, "Enter a number.")
    elif isinstance(value, tuple):
        for i, inner in enumerate(value):
            yield from _not_numbers(inner, f"{path}[{i}]")
    else:
        for field in _parts(value):
            name = f"{path}.{field}" if path else field
            yield from _not_numbers(getattr(value, field), name)


def _parts(value: object) -> tuple[str, ...]:
    """Names of the fields of a record that may hold a number; looked up once for each kind."""
    kind = type(value)
    known = _PARTS.get(kind)
    if known is None:
        known = ()
        if is_dataclass(value) and not isinstance(value, ClockHours):
            hints = get_type_hints(kind)
            known = tuple(name for name, hint in hints.items() if _may_hold_number(hint))
        _PARTS[kind] = known
    return known


_PARTS: dict[type, tuple[str, ...]] = {}


def _may_hold_number(hint: Any) -> bool:
    """A number, or something that has one inside."""
    inner = get_args(hint)
    return hint in (int, float) or is_dataclass(hint) or any(map(_may_hold_number, inner))


def _ranges(findings: Findings) -> _Errors:
    """A number outside its range: each quantity has its own, in the list of ranges."""
    for quantity in QUANTITIES:
        for path, value in quantity.found_in(findings):
            if not quantity.holds(value):
                yield FieldError(path, f"{quantity.label}: {quantity.range_words}, not {value:g}.")


def _some_clock_hour(path: str, hour: int | None, last: int, what: str) -> _Errors:
    if hour is not None and not 1 <= hour <= last:
        yield FieldError(path, f"{what} must be from 1 to {last}, not {hour}.")


def _some_hour(path: str, hours: ClockHours, what: str) -> _Errors:
    if not hours:
        yield FieldError(path, f"Mark at least one hour for the {what}.")


def _person(person: Person) -> _Errors:
    """A condition marked both as there and as not; one hand given for eyesight."""
    for condition in sorted(person.has & person.has_not):
        words = condition.value.replace("_", " ")
        yield FieldError("person.has", f"{words.capitalize()} is marked both as yes and as no.")
    if person.eyesight is Ability.ONE_HAND:
        yield FieldError("person.eyesight", "One hand describes hands, not eyesight.")


def _stoma(stoma: Stoma) -> _Errors:
    """A surgery after the visit; a rod in an end stoma."""
    if stoma.days_since_surgery is not None and stoma.days_since_surgery < 0:
        yield FieldError("stoma.days_since_surgery", "The surgery is dated after this visit.")
    if stoma.rod_in_place and stoma.construction is Construction.END:
        yield FieldError(
            "stoma.rod_in_place", "A rod holds a loop stoma; this one is an end stoma."
        )


def _size(m: Measurement) -> _Errors:
    """An hour of the length outside 1 to 6; a trace of other than 12 distances; a tip narrower
    than the base."""
    yield from _some_clock_hour("measurement.axis_hour", m.axis_hour, 6, "The hour of the length")
    if m.radii_mm is not None and len(m.radii_mm) != 12:
        yield FieldError(
            "measurement.radii_mm",
            f"A traced stoma needs twelve distances, not {len(m.radii_mm)}.",
        )
    base = [size for size in (m.length_mm, m.width_mm) if size is not None]
    if m.widest_mm is not None and base and m.widest_mm < max(base):
        yield FieldError(
            "measurement.widest_mm",
            f"The widest part cannot be narrower than the base ({max(base):g} mm).",
        )


def _lumen(m: Measurement) -> _Errors:
    """A lumen off the centre without its hour, or in the centre with one."""
    yield from _some_clock_hour("measurement.lumen_hour", m.lumen_hour, 12, "The hour of the lumen")
    if m.lumen is LumenPosition.OFF_CENTRE and m.lumen_hour is None:
        yield FieldError("measurement.lumen_hour", "At which hour does the off-centre lumen lie?")
    if m.lumen is LumenPosition.CENTRE and m.lumen_hour is not None:
        yield FieldError("measurement.lumen_hour", "A lumen in the centre points to no hour.")


def _junction_and_prolapse(m: Measurement) -> _Errors:
    """A separation without an hour; a prolapse below the skin."""
    for i, gap in enumerate(m.junction or ()):
        yield from _some_hour(f"measurement.junction[{i}].hours", gap.hours, "separation")
    if m.prolapse and m.protrusion_mm is not None and m.protrusion_mm < 0:
        yield FieldError(
            "measurement.protrusion_mm",
            "A prolapsed stoma is above the skin; this height is below it.",
        )


def _skin(skin: tuple[SkinFinding, ...]) -> _Errors:
    """A skin finding without an hour, or one that ends no further out than it starts."""
    for i, finding in enumerate(skin):
        path = f"skin[{i}]"
        yield from _some_hour(f"{path}.hours", finding.hours, "finding")
        ends = (finding.inner_mm, finding.outer_mm)
        if ends[0] is not None and ends[1] is not None and ends[1] <= ends[0]:
            yield FieldError(f"{path}.outer_mm", "It must end further out than it starts.")


def _abdomen(abdomen: Abdomen) -> _Errors:
    """A crease or bulge without an hour."""
    for i, crease in enumerate(abdomen.creases or ()):
        yield from _some_hour(f"abdomen.creases[{i}].hours", crease.hours, "crease")
    for i, bulge in enumerate(abdomen.bulges or ()):
        yield from _some_hour(f"abdomen.bulges[{i}].hours", bulge.hours, "bulge")


def _output(output: Output) -> _Errors:
    """A symptom marked both as present and as absent."""
    for symptom in sorted(output.present & output.absent):
        words = symptom.value.replace("_", " ")
        yield FieldError("output.present", f"{words.capitalize()} is marked as present and absent.")


def _system(system: PouchingSystem) -> _Errors:
    """A flat barrier with a depth of convexity."""
    if system.profile is Profile.FLAT and system.convex_depth_mm is not None:
        yield FieldError("system.convex_depth_mm", "A flat barrier has no depth of convexity.")


def _wear(wear: tuple[WearEpisode, ...]) -> _Errors:
    """A barrier that came off before it was put on."""
    for i, episode in enumerate(wear):
        if episode.days < 0:
            yield FieldError(f"wear[{i}].days", "It came off before it was put on.")


@dataclass(frozen=True, slots=True)
class Part:
    """One part of the form: ``judge`` says in its first words what it refuses."""

    key: str
    title: str
    judge: Callable[[Any], _Errors]
    of: Callable[[Findings], Any]

    def errors(self, findings: Findings) -> _Errors:
        """What cannot be in this part."""
        return self.judge(self.of(findings))


#: The numbers first, then what contradicts itself, in the order of the form.
PARTS: Final = (
    Part("ranges", "Ranges", _ranges, lambda f: f),
    Part("person", "The person", _person, lambda f: f.person),
    Part("stoma", "The stoma", _stoma, lambda f: f.stoma),
    Part("measurement.radii_mm", "Size", _size, lambda f: f.measurement),
    Part("measurement.lumen_hour", "The lumen", _lumen, lambda f: f.measurement),
    Part("measurement.junction", "Junction and prolapse", _junction_and_prolapse,
         lambda f: f.measurement),
    Part("skin", "The skin", _skin, lambda f: f.skin or ()),
    Part("abdomen", "The abdomen", _abdomen, lambda f: f.abdomen),
    Part("output", "The output", _output, lambda f: f.output),
    Part("system", "The system in use", _system, lambda f: f.system or PouchingSystem()),
    Part("wear", "The wear log", _wear, lambda f: f.wear or ()),
)  # fmt: skip
