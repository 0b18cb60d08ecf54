"""The clinic's own questions, not a validated questionnaire: each declared once.

Ratings from 0 to 10 are common practice. Published questionnaires for people with a stoma are not
free to use (danger-restraint-teaching.md, section 11), so these were written here. Low mood is not
asked, and there is no total. ``asks`` is what the person reads; on paper it is said in the
person's language, and so are ``none`` (0) and ``most`` (10).
"""

from dataclasses import dataclass

NOT_VALIDATED = "The clinic's own questions, not a validated questionnaire."
NOT_USED = "Plans, red flags and the judging of a plan do not use the answers."


@dataclass(frozen=True)
class Question:
    """``key``: the column, and the channel of the trend."""

    key: str
    label: str
    asks: str
    none: str
    most: str


QUESTIONS = (
    Question(
        "pain", "Pain at the stoma", "How much pain have you had at your stoma?",
        "no pain", "the worst pain you can think of",
    ),
    Question(
        "itching", "Itching or burning", "How much has the skin round your stoma itched or burned?",
        "not at all", "all the time, very strongly",
    ),
    Question(
        "worry", "Worry about leaks", "How much have you worried that the pouch leaks?",
        "not at all", "all the time",
    ),
    Question(
        "kept_from", "Kept from things",
        "How far has your stoma kept you from what you wanted to do?",
        "not at all", "from everything",
    ),
    Question(
        "sure", "Sure at changing", "How sure do you feel when you change the pouch?",
        "not sure at all", "completely sure",
    ),
)  # fmt: skip
#: Asked about.
OVER = "Think of the last 7 days."
EACH = "0 means: {none}. 10 means: {most}."
BY_KEY = {question.key: question for question in QUESTIONS}
