"""What a visit found in a few lines, as recorded: for a question or a letter to a colleague."""

from __future__ import annotations

from collections.abc import Iterator

from django.db.models import Model

from clinic.visits.choices import SkinState
from clinic.visits.models import Assessment
from clinic.visits.presenters.clockface import finding_words
from clinic.visits.presenters.row_words import crease_words, wear_words
from clinic.visits.value_words import value_words

#: Relation -> heading, and the columns that a colleague asks for first with what is said before
#: each value; "" where the value is clear by itself.
MATTERS: dict[str, tuple[str, dict[str, str]]] = {
    "measurement": (
        "Stoma",
        {
            "length_mm": "length",
            "width_mm": "width",
            "protrusion_mm": "protrusion",
            "colour": "",
            "turgor": "",
            "oedema": "swelling:",
            "junction": "join with the skin:",
            "separation_hours": "separated at",
            "separation_depth_mm": "depth of the gap",
            "prolapse": "prolapse:",
            "prolapse_extra_mm": "longer by",
            "prolapse_reducible": "slips back:",
            "prolapse_painful": "prolapse painful:",
            "bleeding": "bleeding:",
            "deep_cut": "deep cut:",
        },
    ),
    "output": (
        "Output",
        {
            "volume_ml_24h": "",
            "consistency": "",
            "urine_signs": "urine shows:",
            "symptoms": "symptoms:",
            "pain_0_10": "pain 0 to 10:",
        },
    ),
    "abdomen": (
        "Abdomen",
        {
            "contour": "",
            "firmness": "",
            "bulge": "bulge:",
            "bulge_hours": "at",
            "bulge_height_mm": "height",
            "bulge_width_mm": "width",
            "bulge_reducible": "goes back:",
            "bulge_painful": "bulge painful:",
        },
    ),
    "system": (
        "Worn now",
        {
            "pieces": "",
            "profile": "",
            "convex_depth_mm": "dome",
            "opening_length_mm": "opening length",
            "opening_width_mm": "opening width",
            "pouch": "pouch:",
            "accessories": "also used:",
            "erosion_hours": "barrier melted at:",
            "leak_hours": "leaked under it at:",
        },
    ),
}
WEAR_ROWS = 3


def finding_lines(assessment: Assessment) -> tuple[str, ...]:
    """One line a matter, the most telling first; what was not recorded has no line here."""
    return (
        *_part(assessment, "measurement"),
        *_skin(assessment),
        *_part(assessment, "output"),
        *_part(assessment, "abdomen"),
        *(crease_words(row) for row in assessment.crease_rows.all()),
        *_part(assessment, "system"),
        *_wear(assessment),
    )


def _part(assessment: Assessment, relation: str) -> Iterator[str]:
    row: Model | None = getattr(assessment, relation, None)
    if row is None:
        return
    heading, columns = MATTERS[relation]
    said = [
        _labelled(label, words)
        for name, label in columns.items()
        if (words := value_words(row, name).lower())
    ]
    if said:
        yield f"{heading}: {'; '.join(said)}".replace("ml/24 h", "mL/24 h")


def _labelled(label: str, words: str) -> str:
    """``separated at 6 to 7 o'clock``, but ``separated all round``."""
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
