"""The skin round the stoma; what is painted on the clock face becomes a finding."""

from clinic.visits.questions.question import Question

QUESTIONS = (
    Question(
        "skin", "Skin round the stoma", ("skin-state", "rows:finding"), core=True, in_sight=True
    ),
    Question(
        "nearby",
        "Wound or another stoma nearby",
        ("skin-wounds", "rows:wound", "skin-other_stomas", "rows:otherstoma"),
    ),
)
