"""How long each barrier was worn since the last visit, and why it came off."""

from clinic.visits.questions.question import Question

QUESTIONS = (
    Question("barriers", "Barriers since last visit", ("rows:wear",), core=True, in_sight=True),
)
