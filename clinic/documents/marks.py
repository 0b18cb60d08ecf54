"""The patient's own clock face in plain words."""

from dataclasses import replace

from clinic.documents.plain import SKIN_WORDS, where
from clinic.documents.sheet import Mark
from clinic.visits.choices import Junction, Presence, SkinKind, SkinState
from clinic.visits.models import Assessment, SkinFinding
from clinic.visits.presenters.clockface import Face, face_of

FELT = (("itch", "itchy"), ("pain", "sore"), ("burning", "burning"), ("moist", "wet"))


def marks_of(assessment: Assessment) -> tuple[Mark, ...]:
    """What each mark means; numbers and letters are those the clock face draws on paper. The
    reading of the used barrier is the nurse's, not the patient's."""
    skin = [
        Mark(str(place), _skin(row))
        for place, row in enumerate(assessment.skin_findings.all(), start=1)
    ]
    folds = [
        Mark("C", f"A fold or dip: {where(row.hours)}") for row in assessment.crease_rows.all()
    ]
    return (*skin, *_others(assessment), *folds)


def _skin(row: SkinFinding) -> str:
    felt = [word for name, word in FELT if getattr(row, name)]
    beside = f" ({', '.join(felt)})" if felt else ""
    return f"{SKIN_WORDS[SkinKind(row.kind)]}{beside}: {where(row.hours)}"


def _others(assessment: Assessment) -> list[Mark]:
    stoma = getattr(assessment, "measurement", None)
    abdomen = getattr(assessment, "abdomen", None)
    found: list[tuple[str, str, list[int] | None]] = []
    if stoma and stoma.junction == Junction.SEPARATED:
        found.append(("S", "A gap next to the stoma", stoma.separation_hours))
    if abdomen and abdomen.bulge == Presence.PRESENT:
        found.append(("B", "A bulge", abdomen.bulge_hours))
    return [Mark(letter, f"{words}: {where(hours)}") for letter, words, hours in found if hours]


def picture(assessment: Assessment, marks: tuple[Mark, ...]) -> Face | None:
    """The clock face for paper, or None with nothing to show on it."""
    if not marks:
        return None
    told = "; ".join(f"{mark.number}: {mark.words}" for mark in marks)
    title = f"Picture of your stoma and the skin round it. {told}."
    return replace(face_of(assessment, uid="sheet", paper=True), title=title)


def skin_words(assessment: Assessment) -> str:
    """Whether the skin was looked at; "" where the marks say what was found."""
    if assessment.skin_findings.all():
        return ""
    stored = getattr(assessment, "skin_assessment", None)
    if stored and stored.state == SkinState.INTACT:
        return "The skin round your stoma looks well."
    return "We did not write down how your skin looks this time."
