"""The patient's own clock face in plain words."""

from clinic.documents.care_sheet.sheet import Mark
from clinic.documents.patient_language.lay_terms import SKIN_WORDS, where
from clinic.documents.patient_language.unsaid import Joined, Phrase, Unsaid
from clinic.visits.choices import Junction, Presence, SkinKind, SkinState
from clinic.visits.models import Assessment, SkinFinding
from clinic.visits.presenters.clockface import Face, face_of

#: Context of the catalogue: short words for what a mark is like.
FELT_WORD = "felt"
FELT = (("itch", "itchy"), ("pain", "sore"), ("burning", "burning"), ("moist", "wet"))
FOLD = "A fold or dip"
GAP = "A gap next to the stoma"
BULGE = "A bulge"
SKIN_WELL = "The skin round your stoma looks well."
SKIN_UNKNOWN = "We did not write down how your skin looks this time."


def marks_of(assessment: Assessment) -> tuple[Mark[Unsaid], ...]:
    """What each mark means; numbers and letters are those the clock face draws on paper. The
    reading of the used barrier is the nurse's, not the patient's."""
    skin = [
        Mark(str(place), _skin(row))
        for place, row in enumerate(assessment.skin_findings.all(), start=1)
    ]
    folds = [Mark("C", _at(Phrase(FOLD), row.hours)) for row in assessment.crease_rows.all()]
    return (*skin, *_others(assessment), *folds)


def _skin(row: SkinFinding) -> Unsaid:
    felt = [Phrase(word, FELT_WORD) for name, word in FELT if getattr(row, name)]
    words = Phrase(SKIN_WORDS[SkinKind(row.kind)])
    if not felt:
        return _at(words, row.hours)
    listed = felt[0]
    for word in felt[1:]:
        listed = Phrase.of("{first}, {second}", first=listed, second=word)
    return _at(Phrase.of("{what} ({felt})", what=words, felt=listed), row.hours)


def _at(words: Unsaid, hours: list[int]) -> Unsaid:
    return Phrase.of("{what}: {where}", what=words, where=where(hours))


def _others(assessment: Assessment) -> list[Mark[Unsaid]]:
    stoma = getattr(assessment, "measurement", None)
    abdomen = getattr(assessment, "abdomen", None)
    found: list[tuple[str, str, list[int] | None]] = []
    if stoma and stoma.junction == Junction.SEPARATED:
        found.append(("S", GAP, stoma.separation_hours))
    if abdomen and abdomen.bulge == Presence.PRESENT:
        found.append(("B", BULGE, abdomen.bulge_hours))
    return [Mark(letter, _at(Phrase(words), hours)) for letter, words, hours in found if hours]


def picture(assessment: Assessment, marks: tuple[Mark[Unsaid], ...]) -> Face | None:
    """The clock face for paper, or None with nothing to show on it."""
    return face_of(assessment, uid="sheet", paper=True) if marks else None


def picture_words(marks: tuple[Mark[Unsaid], ...]) -> Unsaid:
    """The same in words; "" with nothing to show."""
    if not marks:
        return ""
    told = Joined(tuple(Joined((f"{one.number}:", one.words)) for one in marks), "; ")
    return Phrase.of("Picture of your stoma and the skin round it. {told}.", told=told)


def skin_words(assessment: Assessment, *, reassure: bool = True) -> Unsaid:
    """Whether the skin was looked at; "" where the marks say what was found, and for skin that
    looks well where nothing may ``reassure``."""
    if assessment.skin_findings.all():
        return ""
    stored = getattr(assessment, "skin_assessment", None)
    if stored and stored.state == SkinState.INTACT:
        return Phrase(SKIN_WELL) if reassure else ""
    return Phrase(SKIN_UNKNOWN)
