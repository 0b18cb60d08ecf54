"""Clinical words as a patient would say them: short, no trade terms, no clock hours."""

import re
from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from clinic.documents.patient_language.unsaid import Phrase, Unsaid
from clinic.formatting import number
from clinic.patients.models import Site
from clinic.visits.choices import SkinKind
from planning.inputs.clock import HOURS, SECTOR_DEGREES, ClockHours
from planning.results.message import Length

SKIN_WORDS = {
    SkinKind.ERYTHEMA: "Red skin, not broken",
    SkinKind.EROSION: "Raw skin",
    SkinKind.ULCER: "An open sore",
    SkinKind.UNDERMINED_ULCER: "An open sore with a loose edge",
    SkinKind.BLISTERS: "Blisters or small bumps",
    SkinKind.SATELLITES: "Small red spots",
    SkinKind.HAIR_PUSTULES: "Small spots where hair grows",
    SkinKind.MACERATION: "Pale, soggy skin",
    SkinKind.STRIPPING: "Skin torn or peeled",
    SkinKind.PRESSURE_MARK: "A mark from pressing",
    SkinKind.WARTY: "Thick, bumpy skin",
    SkinKind.GRANULOMA: "A moist red bump",
    SkinKind.HARD_LUMP: "A hard lump",
    SkinKind.DILATED_VEINS: "Blue veins",
    SkinKind.SCALE: "Dry, scaly skin",
    SkinKind.SPREADING_WARMTH: "Warm, sore skin that spreads",
    SkinKind.ABSCESS: "A sore lump with fluid in it",
    SkinKind.FISTULA: "A small extra hole",
    SkinKind.WEAL: "Raised patches (hives)",
    SkinKind.PIGMENTED_SPOT: "A dark spot or mole",
    SkinKind.BRUISE: "A bruise",
    SkinKind.SETTLED_SCAR: "An old scar",
}

#: The eight ways to look from the stoma, clockwise from the head as the clinician sees it:
#: 3 o'clock is the patient's left (common practice, no source).
DIRECTIONS = (
    "towards your head",
    "towards your head, on your left",
    "on your left",
    "towards your feet, on your left",
    "towards your feet",
    "towards your feet, on your right",
    "on your right",
    "towards your head, on your right",
)
SITES = {
    Site.RIGHT_LOWER: "low on your right side",
    Site.LEFT_LOWER: "low on your left side",
    Site.RIGHT_UPPER: "high on your right side",
    Site.LEFT_UPPER: "high on your left side",
    Site.UMBILICAL: "at your navel",
}
#: Contexts of the catalogue.
MONTH, WEEKDAY = "month", "weekday"
MONTHS = (
    *("January", "February", "March", "April", "May", "June"),
    *("July", "August", "September", "October", "November", "December"),
)
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
#: How many inches: part of one, one, more.
FRACTION, ONE, MANY = "less than one inch", "one inch", "more than one inch"
ALL_ROUND = "all the way round"
MOST_ROUND = "most of the way round"
NBSP = "\N{NO-BREAK SPACE}"
MOST_OF_THE_WAY = 8  # hours in one run: a single direction would mislead


def where(hours: Iterable[int]) -> Unsaid:
    """The hours of a finding as the patient's own directions; "" for none."""
    clock = ClockHours.of(*hours)
    if len(clock) == len(HOURS):
        return Phrase(ALL_ROUND)
    ways = dict.fromkeys(_way(ClockHours.arc(*run)) for run in clock.arcs())
    return all_of([Phrase(way) for way in ways])


def all_of(things: Sequence[Unsaid]) -> Unsaid:
    """Joined by *and*; "" for none."""
    if not things:
        return ""
    told = things[0]
    for thing in things[1:]:
        told = Phrase.of("{first} and {second}", first=told, second=thing)
    return told


def _way(run: ClockHours) -> str:
    if len(run) >= MOST_OF_THE_WAY or run.mean_hour is None:
        return MOST_ROUND
    return DIRECTIONS[round(run.mean_hour * SECTOR_DEGREES / 45) % 8]


def long_day(when: date, *, weekday: bool = False) -> Phrase:
    """A day with nothing shortened, such as *Monday, 2 March 2026*."""
    month = Phrase(MONTHS[when.month - 1], MONTH)
    plain = Phrase.of("{day} {month} {year}", day=when.day, month=month, year=when.year)
    if not weekday:
        return plain
    name = Phrase(WEEKDAYS[when.weekday()], WEEKDAY)
    return Phrase.of("{weekday}, {day}", weekday=name, day=plain)


def sixteenths(mm: float) -> int:
    """Of an inch, to the nearest."""
    return round(mm / 25.4 * 16)


def inches(mm: float) -> str:
    """To the nearest 1/16, as one writes it."""
    whole, part = divmod(sixteenths(mm), 16)
    over = 16
    while part and part % 2 == 0:
        part, over = part // 2, over // 2
    return " ".join(filter(None, [str(whole) if whole else "", f"{part}/{over}" if part else ""]))


def size(length: Length) -> Phrase:
    """In mm with inches beside it; mm stay what counts."""
    both = [length.mm] if length.by_mm is None else [length.mm, length.by_mm]
    parts = [sixteenths(one) for one in both]
    told = _by([Phrase.of("{number} mm", number=number(one)) for one in both])
    if 0 in parts:
        return told
    most = max(parts)
    context = FRACTION if most < 16 else ONE if most == 16 else MANY
    words = "{number} inch" if most <= 16 else "{number} inches"
    about = Phrase.of(words, context, number=_by([inches(one) for one in both]))
    return Phrase.of("{size} (about {inches})", size=told, inches=about)


def _by(sizes: Sequence[Any]) -> Any:
    if len(sizes) == 1:
        return sizes[0]
    return Phrase.of("{length} by {width}", length=sizes[0], width=sizes[1])


def tied(words: str) -> str:
    """Figures stay on one line with their unit, in any script."""
    return re.sub(r"(?<=\d) (?=\d+/\d|[^\W\d])", NBSP, words)
