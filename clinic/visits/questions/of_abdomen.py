"""The abdomen felt lying, sitting and standing."""

from clinic.visits.questions.question import Question, quick

QUESTIONS = (
    Question(
        "contour",
        "Contour and firmness",
        ("abdomen-contour", "abdomen-firmness"),
        core=True,
        in_sight=True,
    ),
    Question(
        "beside",
        "Beside the stoma",
        (
            *("abdomen-creases", "rows:crease"),
            *("abdomen-bulge", "abdomen-bulge_hours", "abdomen-bulge_height_mm"),
            *("abdomen-bulge_width_mm", "abdomen-bulge_reducible", "abdomen-bulge_painful"),
            *("abdomen-bulge_new", "abdomen-bulge_hard", "abdomen-bulge_skin_changed"),
        ),
        core=True,
        quick=quick(
            ("no crease, scar or dip", "abdomen-creases", "none"),
            ("no bulge", "abdomen-bulge", "none"),
        ),
    ),
)
