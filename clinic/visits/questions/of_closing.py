"""What the plan may ask for at the end, and a note."""

from clinic.visits.questions.question import Question

QUESTIONS = (
    Question("note", "Note", ("visit-note",), core=True, in_sight=True),
    Question(
        "asked-by-plan",
        "Antibiotics, convexity, antifungal powder",
        (
            *("whole-recent_antibiotics", "whole-convexity_assessed"),
            *("whole-convexity_reason", "whole-antifungal_agreed"),
        ),
    ),
)
