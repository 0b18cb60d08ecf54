"""The patient's own clock face in plain words."""

from dataclasses import replace

from clinic.documents.care_sheet.sheet import Mark
from clinic.documents.patient_language.lay_terms import SKIN_WORDS, where
from clinic.documents.patient_language.translator import ENGLISH, Translator
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


def marks_of(assessment: Assessment, translator: Translator = ENGLISH) -> tuple[Mark, ...]:
    """What each mark means; numbers and letters are those the clock face draws on paper. The
    reading of the used barrier is the nurse's, not the patient's."""
    skin = [
        Mark(str(place), _skin(row, translator))
        for place, row in enumerate(assessment.skin_findings.all(), start=1)
    ]
    folds = [Mark("C", _at(FOLD, row.hours, translator)) for row in assessment.crease_rows.all()]
    return (*skin, *_others(assessment, translator), *folds)


def _skin(row: SkinFinding, translator: Translator) -> str:
    felt = [translator.translate(word, FELT_WORD) for name, word in FELT if getattr(row, name)]
    words = SKIN_WORDS[SkinKind(row.kind)]
    if not felt:
        return _at(words, row.hours, translator)
    listed = felt[0]
    for word in felt[1:]:
        listed = translator.translate("{first}, {second}", first=listed, second=word)
    found = translator.translate("{what} ({felt})", what=translator.translate(words), felt=listed)
    return translator.translate("{what}: {where}", what=found, where=where(row.hours, translator))


def _at(words: str, hours: list[int], translator: Translator) -> str:
    return translator.translate(
        "{what}: {where}", what=translator.translate(words), where=where(hours, translator)
    )


def _others(assessment: Assessment, translator: Translator) -> list[Mark]:
    stoma = getattr(assessment, "measurement", None)
    abdomen = getattr(assessment, "abdomen", None)
    found: list[tuple[str, str, list[int] | None]] = []
    if stoma and stoma.junction == Junction.SEPARATED:
        found.append(("S", GAP, stoma.separation_hours))
    if abdomen and abdomen.bulge == Presence.PRESENT:
        found.append(("B", BULGE, abdomen.bulge_hours))
    return [Mark(letter, _at(words, hours, translator)) for letter, words, hours in found if hours]


def picture(
    assessment: Assessment, marks: tuple[Mark, ...], translator: Translator = ENGLISH
) -> Face | None:
    """The clock face for paper, or None with nothing to show on it."""
    if not marks:
        return None
    told = "; ".join(f"{mark.number}: {mark.words}" for mark in marks)
    title = translator.translate("Picture of your stoma and the skin round it. {told}.", told=told)
    return replace(face_of(assessment, uid="sheet", paper=True), title=title)


def skin_words(
    assessment: Assessment, translator: Translator = ENGLISH, *, reassure: bool = True
) -> str:
    """Whether the skin was looked at; "" where the marks say what was found, and for skin that
    looks well where nothing may ``reassure``."""
    if assessment.skin_findings.all():
        return ""
    stored = getattr(assessment, "skin_assessment", None)
    if stored and stored.state == SkinState.INTACT:
        return translator.translate(SKIN_WELL) if reassure else ""
    return translator.translate(SKIN_UNKNOWN)
