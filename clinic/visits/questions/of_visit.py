"""The reason for the visit, and whether the last plan helped."""

from clinic.visits.questions.question import Question

LAST_PLAN = Question(
    "last-plan",
    "Did the last plan help?",
    ("whole-last_plan_helped",),
    core=True,
    in_sight=True,
)
QUESTIONS = (
    Question("reason", "Reason for the visit", ("visit-reason",), core=True, in_sight=True),
    LAST_PLAN,
    Question(
        "when",
        "Type of contact, date and time, reason in words",
        ("visit-held", "visit-happened_at", "visit-reason_words"),
    ),
)
