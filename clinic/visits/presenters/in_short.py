"""What one visit found in one line, as recorded: for the list of visits in a record."""

from __future__ import annotations

from collections.abc import Iterator

from clinic import formatting
from clinic.visits.choices import (
    Bleeding,
    Colour,
    Junction,
    Presence,
    SkinKind,
    SkinState,
    Symptom,
)
from clinic.visits.models import Assessment
from clinic.visits.presenters.row_words import colour_words
from clinic.visits.value_words import value_words
from planning.inputs.clock import ClockHours

NOTHING = "Nothing recorded of the barrier, the stoma or the skin"
#: What describes a pouching system in the fewest words, in this order.
SYSTEM = ("pieces", "profile", "convex_depth", "pouch", "accessories", "more_accessories")


def found_in_short(assessment: Assessment) -> str:
    """``Leak at 6 o'clock; redness, skin intact, at 5 to 7 o'clock; 12 mm high``: what matters most
    first. What was not recorded is not in it, and says nothing."""
    found = [
        *_symptoms(assessment),
        *_stoma(assessment),
        *_barrier(assessment),
        *_skin(assessment),
        *_abdomen(assessment),
        *_height(assessment),
    ]
    line = "; ".join(found) or NOTHING
    return line[:1].upper() + line[1:]


def system_in_short(assessment: Assessment) -> tuple[str, ...]:
    """What was worn at this visit, a few words each, as inside a sentence; () where nothing was
    recorded."""
    row = getattr(assessment, "system", None)
    if row is None:
        return ()
    said = (value_words(row, name) for name in SYSTEM)
    return tuple(words.lower() for words in said if words and words != "none of these")


def _symptoms(assessment: Assessment) -> Iterator[str]:
    row = getattr(assessment, "output", None)
    for word in (row.symptoms or ()) if row else ():
        yield str(Symptom(word).label).lower()


def _stoma(assessment: Assessment) -> Iterator[str]:
    row = getattr(assessment, "measurement", None)
    if row is not None and row.colour not in ("", Colour.PINK_RED):
        yield f"stoma {Colour(row.colour).label.lower()}"
    yield from (colour_words(part) for part in assessment.colour_rows.all())
    if row is None:
        return
    if row.junction == Junction.SEPARATED:
        yield f"mucocutaneous separation{_at(row.separation_hours)}"
    if row.prolapse == Presence.PRESENT:
        yield "prolapse"
    if row.bleeding not in ("", Bleeding.NONE):
        yield f"bleeding: {Bleeding(row.bleeding).label.lower()}"


def _barrier(assessment: Assessment) -> Iterator[str]:
    row = getattr(assessment, "system", None)
    if row is None:
        return
    if row.leak_hours:
        yield f"leak{_at(row.leak_hours)}"
    elif row.leak_hours is not None:
        yield "no leak"
    if row.erosion_hours and not row.leak_hours:
        yield f"barrier melted{_at(row.erosion_hours)}"


def _skin(assessment: Assessment) -> Iterator[str]:
    for row in assessment.skin_findings.all():
        kind = SkinKind(row.kind).label.lower()
        yield f"{kind}{',' if ',' in kind else ''}{_at(row.hours)}"
    state = getattr(assessment, "skin_assessment", None)
    if state is not None and state.state == SkinState.INTACT:
        yield "skin intact"


def _abdomen(assessment: Assessment) -> Iterator[str]:
    row = getattr(assessment, "abdomen", None)
    if row is not None and row.bulge == Presence.PRESENT:
        yield f"bulge{_at(row.bulge_hours)}"


def _height(assessment: Assessment) -> Iterator[str]:
    row = getattr(assessment, "measurement", None)
    if row is not None and row.protrusion_mm is not None:
        yield f"height {formatting.mm(row.protrusion_mm)}"


def _at(hours: list[int] | None) -> str:
    return ClockHours.of(*hours).placed() if hours else ""
