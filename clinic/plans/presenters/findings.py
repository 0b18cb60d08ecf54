"""What a visit found in a few lines, as recorded: for a question or a letter to a colleague."""

from __future__ import annotations

from collections.abc import Iterator

from django.db.models import Model

from clinic.visits.choices import SkinState
from clinic.visits.models import Assessment
from clinic.visits.presenters.clockface import finding_words
from clinic.visits.presenters.rows import crease_words, wear_words
from clinic.visits.presenters.words import value_words

#: Relation -> heading and the columns that a colleague asks for first, in this order.
MATTERS: dict[str, tuple[str, tuple[str, ...]]] = {
    "measurement": (
        "Stoma",
        (
            *("length_mm", "width_mm", "protrusion_mm", "colour", "turgor", "oedema"),
            *("junction", "separation_hours", "separation_depth_mm", "prolapse"),
            *("prolapse_extra_mm", "prolapse_reducible", "prolapse_painful"),
            *("bleeding", "deep_cut"),
        ),
    ),
    "output": (
        "Output",
        ("volume_ml_24h", "consistency", "urine_signs", "symptoms", "pain_0_10"),
    ),
    "abdomen": (
        "Abdomen",
        (
            *("contour", "firmness", "bulge", "bulge_hours", "bulge_height_mm"),
            *("bulge_width_mm", "bulge_reducible", "bulge_painful"),
        ),
    ),
    "system": (
        "Worn now",
        (
            *("pieces", "profile", "convex_depth_mm", "opening_length_mm", "opening_width_mm"),
            *("pouch", "accessories", "erosion_hours", "leak_hours"),
        ),
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
    heading, names = MATTERS[relation]
    said = [
        f"{_label(row, name)} {words}"
        for name in names
        if (words := value_words(row, name).lower())
    ]
    if said:
        yield f"{heading}: {'; '.join(said)}"


def _label(row: Model, name: str) -> str:
    return str(getattr(row._meta.get_field(name), "verbose_name", name)).lower()


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
