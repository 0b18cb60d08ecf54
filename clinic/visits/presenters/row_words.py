"""What comes several times at a visit: one line of words each."""

from clinic import formatting
from clinic.visits.choices import Circumstance, Colour, Posture, Product, RemovalReason
from clinic.visits.models import (
    BegunProduct,
    ColourPart,
    Crease,
    OtherStoma,
    WearEpisode,
    Wound,
)
from planning.inputs.clock import ClockHours


def crease_words(row: Crease) -> str:
    """``Crease at 3 and 9 o'clock, 6 mm deep, sitting``."""
    parts = [f"Crease{ClockHours.of(*row.hours).placed()}"]
    if row.depth_mm is not None:
        parts.append(f"{formatting.mm(row.depth_mm)} deep")
    if row.postures:
        parts.append(", ".join(Posture(p).label.lower() for p in row.postures))
    return ", ".join(parts)


def colour_words(row: ColourPart) -> str:
    """``Part of the stoma at 3 to 5 o'clock: dusky or maroon``."""
    where = ClockHours.of(*row.hours).placed()
    return f"Part of the stoma{where}: {Colour(row.colour).label.lower()}"


def begun_words(row: BegunProduct) -> str:
    """``Also started: ring, 9 days ago``."""
    if row.days is None:
        when = "on a day not known"
    else:
        when = f"{formatting.number(row.days)} day{'s' * (row.days != 1)} ago"
    return f"Also started: {Product(row.product).label.lower()}, {when}"


def wound_words(row: Wound) -> str:
    """``Wound at 3 o'clock, 12 mm from the stoma, 20 by 10 mm, pus``."""
    parts = [f"Wound{ClockHours.of(*row.hours).placed()}", *_sizes(row)]
    if row.depth_mm is not None:
        parts.append(f"{formatting.mm(row.depth_mm)} deep")
    parts += ["pus"] if row.pus else []
    parts += ["stool or urine reaches it"] if row.effluent_reaches else []
    parts += ["stool or urine comes out of it"] if row.comes_free else []
    return ", ".join(parts)


def other_stoma_words(row: OtherStoma) -> str:
    """``Another stoma at 9 o'clock, 40 mm from the stoma, 25 by 20 mm, gives only mucus``."""
    parts = [f"Another stoma{ClockHours.of(*row.hours).placed()}", *_sizes(row)]
    parts += ["gives only mucus"] if row.rests else []
    return ", ".join(parts)


def _sizes(row: Wound | OtherStoma) -> list[str]:
    said = []
    if row.distance_mm is not None:
        said.append(f"{formatting.mm(row.distance_mm)} from the stoma")
    if row.length_mm is not None and row.width_mm is not None:
        said.append(f"{formatting.number(row.length_mm)} by {formatting.mm(row.width_mm)}")
    elif row.length_mm is not None or row.width_mm is not None:
        said.append(f"{formatting.mm(row.length_mm or row.width_mm)} across")
    return said


def wear_words(row: WearEpisode) -> str:
    """``3 Mar 2026 to 6 Mar 2026, 3 days: leak``."""
    if row.off is None or row.days is None:
        return f"{formatting.day(row.on)}, still on"
    days = "less than a day" if row.days == 0 else f"{row.days} day{'s' * (row.days != 1)}"
    reason = RemovalReason(row.reason).label.lower()
    if row.circumstance:
        reason += f" ({Circumstance(row.circumstance).label.lower()})"
    return f"{formatting.day(row.on)} to {formatting.day(row.off)}, {days}: {reason}"
