"""The patient's own clock face in plain words."""

from dataclasses import replace

from clinic.documents.plain import SKIN_WORDS, where
from clinic.documents.sheet import Mark
from clinic.documents.wording.tongue import ENGLISH, Tongue
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


def marks_of(assessment: Assessment, tongue: Tongue = ENGLISH) -> tuple[Mark, ...]:
    """What each mark means; numbers and letters are those the clock face draws on paper. The
    reading of the used barrier is the nurse's, not the patient's."""
    skin = [
        Mark(str(place), _skin(row, tongue))
        for place, row in enumerate(assessment.skin_findings.all(), start=1)
    ]
    folds = [Mark("C", _at(FOLD, row.hours, tongue)) for row in assessment.crease_rows.all()]
    return (*skin, *_others(assessment, tongue), *folds)


def _skin(row: SkinFinding, tongue: Tongue) -> str:
    felt = [tongue.say(word, FELT_WORD) for name, word in FELT if getattr(row, name)]
    words = SKIN_WORDS[SkinKind(row.kind)]
    if not felt:
        return _at(words, row.hours, tongue)
    listed = felt[0]
    for word in felt[1:]:
        listed = tongue.say("{first}, {second}", first=listed, second=word)
    found = tongue.say("{what} ({felt})", what=tongue.say(words), felt=listed)
    return tongue.say("{what}: {where}", what=found, where=where(row.hours, tongue))


def _at(words: str, hours: list[int], tongue: Tongue) -> str:
    return tongue.say("{what}: {where}", what=tongue.say(words), where=where(hours, tongue))


def _others(assessment: Assessment, tongue: Tongue) -> list[Mark]:
    stoma = getattr(assessment, "measurement", None)
    abdomen = getattr(assessment, "abdomen", None)
    found: list[tuple[str, str, list[int] | None]] = []
    if stoma and stoma.junction == Junction.SEPARATED:
        found.append(("S", GAP, stoma.separation_hours))
    if abdomen and abdomen.bulge == Presence.PRESENT:
        found.append(("B", BULGE, abdomen.bulge_hours))
    return [Mark(letter, _at(words, hours, tongue)) for letter, words, hours in found if hours]


def picture(
    assessment: Assessment, marks: tuple[Mark, ...], tongue: Tongue = ENGLISH
) -> Face | None:
    """The clock face for paper, or None with nothing to show on it."""
    if not marks:
        return None
    told = "; ".join(f"{mark.number}: {mark.words}" for mark in marks)
    title = tongue.say("Picture of your stoma and the skin round it. {told}.", told=told)
    return replace(face_of(assessment, uid="sheet", paper=True), title=title)


def skin_words(assessment: Assessment, tongue: Tongue = ENGLISH, *, reassure: bool = True) -> str:
    """Whether the skin was looked at; "" where the marks say what was found, and for skin that
    looks well where nothing may ``reassure``."""
    if assessment.skin_findings.all():
        return ""
    stored = getattr(assessment, "skin_assessment", None)
    if stored and stored.state == SkinState.INTACT:
        return tongue.say(SKIN_WELL) if reassure else ""
    return tongue.say(SKIN_UNKNOWN)
