"""Care sheets as full as real ones, made without a database: what the benchmarks print."""

from __future__ import annotations

from dataclasses import replace

from clinic.documents.care_sheet.sheet import Group, Line, Mark, Sheet, Step, Use
from clinic.documents.care_sheet.step_drawings import OF_STEP, SHOWS
from clinic.documents.patient_language.typed_words import with_inches
from clinic.documents.shared import Who
from clinic.visits.models import SkinFinding
from clinic.visits.presenters.clockface import Face, skin_patch
from clinic.visits.presenters.clockface import Line as Crease
from planning.results.message import sentence, to_patient
from planning.technique import in_order
from tests.clinic.documents.conftest import SHEET

#: One change as most sheets have it: powder under film, a ring, a flat barrier in one piece.
STEPS = (
    "quiet_time",
    "lay_out",
    "cut_opening",
    "empty",
    "peel",
    "read_back",
    "clean",
    "dry",
    "check",
    "powder",
    "brush_off",
    "seal_powder",
    "repeat_layers",
    "ring",
    "apply",
    "hold_flat",
    "close",
    "note_date",
)
USES = (
    ("Barrier", "Flat, soft barrier.", "Same"),
    ("Barrier", "Long-wear barrier.", "New"),
    ("Hole", "Cut the hole along the line of your template. 35 mm by 32 mm.", "New"),
    ("Ring", "Soft ring.", "New"),
    ("Skin care", "Skin powder.", "New"),
    ("Skin care", "Skin film (no alcohol).", "New"),
    ("Pouch", "Pouch you can empty.", "Same"),
    ("Change it", "Every 3 days or when it leaks.", ""),
    ("Remember", "Put no cream or oil under the barrier.", ""),
)
CALLS = (
    (
        "Get emergency help now",
        "emergency",
        (
            "Your stoma turns black, purple or very pale, or a lump beside it gets hard and hurts.",
            "It bleeds and does not stop after you press for 10 minutes.",
            "You faint, get confused or pass very little urine, or you cannot breathe well.",
            "Nothing comes out for 4 hours and you have strong cramps or throw up.",
        ),
    ),
    (
        "Call us the same day",
        "same_day",
        (
            "Nothing comes out for 6 hours, or more than 1 litre comes in a day.",
            "You see blood each time you empty the pouch, or your stoma has a deep cut.",
            "Red, warm skin spreads or you have a fever, or a red mark stays.",
        ),
    ),
    ("Call us within 3 days", "days", ("It leaks, itches or burns again, or looks different.",)),
)


def full_sheet(number: int) -> Sheet:
    """One of many: the same plan for somebody else, so that no two are one page."""
    told = {rule.key: str(to_patient(rule.patient) or "") for rule in in_order()}
    return replace(
        SHEET,
        who=Who(f"Imogen Thistledown {number}", "5 April 1961", f"T{number:06d}"),
        uses=_uses(),
        steps=tuple(_step(key, told[key]) for key in STEPS),
        marks=(Mark("1", "Raw skin (sore, wet): towards your feet"), Mark("C", "A fold: left")),
        face=_face(),
        face_words="Picture of your stoma and the skin round it.",
        size="Your stoma is 31 mm by 28 mm (about 1 1/4 by 1 1/8 inches).",
        call=tuple(Group(title, lines, key) for title, key, lines in CALLS),
    )


def _uses() -> tuple[Use, ...]:
    rows: dict[str, list[Line]] = {}
    for label, words, news in USES:
        rows.setdefault(label, []).append(Line(with_inches(words), news))
    return tuple(Use(label, tuple(lines)) for label, lines in rows.items())


def _step(key: str, words: str) -> Step:
    picture = OF_STEP.get(key, "")
    return Step(with_inches(sentence(words)), picture, SHOWS[picture] if picture else "")


def _face() -> Face:
    found = SkinFinding(kind="erosion", hours=[5, 6, 7], inner_mm=0, outer_mm=20)
    return Face(
        uid="sheet",
        title="Picture of your stoma and the skin round it.",
        stoma_rx=50.0,
        stoma_ry=45.0,
        stoma_turn=30.0,
        stoma_colour="pink_red",
        patches=[skin_patch(found, "1")],
        creases=[Crease(60.0, 0.0, 160.0, 0.0)],
        paper=True,
    )
