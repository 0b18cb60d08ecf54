"""A crease, a barrier worn: one line of words each."""

from clinic import formatting
from clinic.visits.choices import Circumstance, Posture, RemovalReason
from clinic.visits.models import Crease, WearEpisode
from planning.inputs.clock import ClockHours


def crease_words(row: Crease) -> str:
    """``Crease at 3 and 9 o'clock, 6 mm deep, sitting``."""
    parts = [f"Crease{ClockHours.of(*row.hours).placed()}"]
    if row.depth_mm is not None:
        parts.append(f"{formatting.mm(row.depth_mm)} deep")
    if row.postures:
        parts.append(", ".join(Posture(p).label.lower() for p in row.postures))
    return ", ".join(parts)


def wear_words(row: WearEpisode) -> str:
    """``3 Mar 2026 to 6 Mar 2026, 3 days: leak``."""
    if row.off is None or row.days is None:
        return f"{formatting.day(row.on)}, still on"
    days = "less than a day" if row.days == 0 else f"{row.days} day{'s' * (row.days != 1)}"
    reason = RemovalReason(row.reason).label.lower()
    if row.circumstance:
        reason += f" ({Circumstance(row.circumstance).label.lower()})"
    return f"{formatting.day(row.on)} to {formatting.day(row.off)}, {days}: {reason}"
