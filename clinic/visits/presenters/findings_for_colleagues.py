"""What a visit found in a few lines, as recorded: for a question or a letter to a colleague."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Final

from django.db.models import Model

from clinic.visits.choices import Colour, SkinState
from clinic.visits.models import Assessment, ColourPart
from clinic.visits.models.fields import quantity_of
from clinic.visits.presenters.clockface import finding_words
from clinic.visits.presenters.row_words import (
    begun_words,
    colour_words,
    crease_words,
    other_stoma_words,
    wear_words,
    wound_words,
)
from clinic.visits.value_words import value_words

#: Relation -> heading, and the columns that a colleague asks for first with what is said before
#: each value; "" where the value is clear by itself. A number is declared with its own.
MATTERS: dict[str, tuple[str, dict[str, str]]] = {
    "measurement": (
        "Stoma",
        {
            "colour": "",
            "colour_known": "colour recorded by a surgeon, unchanged:",
            "turgor": "",
            "oedema": "swelling:",
            "junction": "mucocutaneous junction:",
            "separation_hours": "separated at",
            "prolapse": "prolapse:",
            "prolapse_reducible": "reducible:",
            "separation_contaminated": "stool, urine or pus in the gap:",
            "separation_fascia_seen": "fascia or bowel at its base:",
            "prolapse_painful": "prolapse painful:",
            "prolapse_new": "prolapse new:",
            "prolapse_growing": "its swelling grows:",
            "bleeding": "bleeding:",
            "deep_cut": "deep cut:",
            "bleeds_on_touch": "bleeds on touch:",
            "rubbed": "cut or pale line:",
            "calibre": "lumen admits:",
            "bowel_outside": "bowel or fat beside the stoma:",
        },
    ),
    "output": (
        "Output",
        {
            "consistency": "",
            "urine_signs": "urine shows:",
            "urine_looks": "urine looks:",
            "symptoms": "symptoms:",
            "belly_symptoms": "belly:",
            "fluid_symptoms": "fluids:",
            "infection_symptoms": "infection:",
            "pouch_blood": "red or black in the pouch:",
            "discharge": "from the bowel left behind:",
            "tablets_whole": "tablets come out whole:",
            "stent_out_early": "a stent came out early:",
        },
    ),
    "person_today": (
        "Person today",
        {
            "blood_tests": "blood tests today:",
            "medicines": "takes:",
            "chemotherapy_recent": "recent chemotherapy:",
            "neutropenia": "neutropenia:",
            "low_platelets": "low platelets:",
            "radiotherapy_now": "radiotherapy now:",
            "pregnant": "pregnant:",
            "child_signs": "signs in the child:",
        },
    ),
    "abdomen": (
        "Abdomen",
        {
            "contour": "",
            "firmness": "",
            "bulge": "bulge:",
            "bulge_hours": "at",
            "bulge_reducible": "reducible:",
            "bulge_painful": "bulge painful:",
            "bulge_new": "bulge new:",
            "bulge_hard": "bulge hard:",
            "bulge_skin_changed": "skin over it red or dark:",
        },
    ),
    "system": (
        "Worn now",
        {
            "pieces": "",
            "profile": "",
            "pouch": "pouch:",
            "accessories": "also used:",
            "more_accessories": "of tape, cover, lubricant:",
            "convex_depth": "dome:",
            "presses": "tight on the stoma:",
            "belt_tight": "belt tight:",
            "begun_product": "started last:",
            "lifts_hours": "barrier lifts at:",
            "load_hours": "load across at:",
            "erosion_hours": "barrier melted at:",
            "leak_hours": "leaked under it at:",
        },
    ),
}
#: What was found on the back of the barrier comes after what it is.
LAST = {"erosion_hours", "leak_hours"}
WEAR_ROWS = 3


def finding_lines(assessment: Assessment) -> tuple[str, ...]:
    """One line a matter, the most telling first; what was not recorded has no line here."""
    return (
        *(colour_words(row) for row in _worst_first(assessment)),
        *_part(assessment, "measurement"),
        *_skin(assessment),
        *(wound_words(row) for row in assessment.wound_rows.all()),
        *(other_stoma_words(row) for row in assessment.other_stoma_rows.all()),
        *_part(assessment, "person_today"),
        *_part(assessment, "output"),
        *_part(assessment, "abdomen"),
        *(crease_words(row) for row in assessment.crease_rows.all()),
        *_part(assessment, "system"),
        *(begun_words(row) for row in assessment.begun_rows.all()),
        *_wear(assessment),
    )


def worn_words(assessment: Assessment) -> str:
    """What was worn when it was seen, in one line; "" where nothing was recorded of it."""
    row: Model | None = getattr(assessment, "system", None)
    words = {name: label for name, label in MATTERS["system"][1].items() if name not in LAST}
    return "" if row is None else "; ".join(_said(row, words))


#: The darkest first; what is not named is no worse than another.
_WORST: Final = (Colour.BLACK_BROWN_GREY, Colour.PURPLE, Colour.DUSKY)


def _worst_first(assessment: Assessment) -> list[ColourPart]:
    rows = list(assessment.colour_rows.all())
    return sorted(rows, key=lambda row: _WORST.index(row.colour) if row.colour in _WORST else 3)


def _part(assessment: Assessment, relation: str) -> Iterator[str]:
    row: Model | None = getattr(assessment, relation, None)
    if row is None:
        return
    if said := _said(row, MATTERS[relation][1]):
        yield f"{MATTERS[relation][0]}: {'; '.join(said)}"


def _said(row: Model, words: dict[str, str]) -> list[str]:
    return [
        _labelled(label, value_words(row, name))
        for name, label in _columns(row, words)
        if value_words(row, name)
    ]


def _columns(row: Model, words: dict[str, str]) -> list[tuple[str, str]]:
    """In the order of the record, each with what is said before its value."""
    asked = []
    for column in row._meta.concrete_fields:
        quantity = quantity_of(column)
        label = words.get(column.name) if quantity is None else quantity.said
        if label is not None:
            asked.append((column.name, label))
    return sorted(asked, key=lambda pair: pair[0] in LAST)


def _labelled(label: str, words: str) -> str:
    """``separated at 6 to 7 o'clock``, but ``separated all round``."""
    if not words[:1].isdigit():
        words = words.lower()
    if words == "all round":
        label = label.removesuffix(":").removesuffix("at").rstrip()
    return f"{label} {words}".strip()


def _skin(assessment: Assessment) -> Iterator[str]:
    rows = [finding_words(row) for row in assessment.skin_findings.all()]
    yield from (f"Skin: {words[0].lower()}{words[1:]}" for words in rows)
    state = getattr(assessment, "skin_assessment", None)
    if not rows and state is not None and state.state == SkinState.INTACT:
        yield "Skin: looked at and intact"


def _wear(assessment: Assessment) -> Iterator[str]:
    rows = sorted(assessment.wear_rows.all(), key=lambda row: row.on)[-WEAR_ROWS:]
    if rows:
        yield f"Last barriers worn: {' | '.join(wear_words(row) for row in rows)}"
