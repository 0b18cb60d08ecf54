"""Every section of the visit page with its questions, in the order the hands work."""

from clinic.visits.choices import SectionKey
from clinic.visits.questions import (
    of_abdomen,
    of_closing,
    of_output,
    of_skin,
    of_stoma,
    of_system,
    of_visit,
    of_wear,
)
from clinic.visits.questions.question import Question, Section


def _of(key: SectionKey, questions: tuple[Question, ...]) -> Section:
    return Section(key.value, str(key.label), questions)


SECTIONS = (
    Section("visit", "Visit", of_visit.QUESTIONS, closable=False),
    _of(SectionKey.OUTPUT, of_output.QUESTIONS),
    _of(SectionKey.WEAR, of_wear.QUESTIONS),
    _of(SectionKey.SYSTEM, of_system.QUESTIONS),
    _of(SectionKey.STOMA, of_stoma.QUESTIONS),
    _of(SectionKey.SKIN, of_skin.QUESTIONS),
    _of(SectionKey.ABDOMEN, of_abdomen.QUESTIONS),
    Section("closing", "To finish", of_closing.QUESTIONS, closable=False),
)

#: What no one can see or feel by telephone.
UNSEEN_BY_TELEPHONE = (SectionKey.STOMA, SectionKey.SKIN, SectionKey.ABDOMEN)
#: What a pouch covers that is left on, as on a ward round: through it the stoma is seen.
UNSEEN_UNDER_POUCH = (SectionKey.WEAR, SectionKey.SKIN)

#: Question's key -> the question.
BY_KEY = {question.key: question for section in SECTIONS for question in section.questions}
