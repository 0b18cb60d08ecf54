"""The back of the used barrier, and the system they arrived in."""

from clinic.visits.questions.question import Question, quick

#: The pouching system leaks.
LEAKS = "visit-reason=leak"

QUESTIONS = (
    Question(
        "back",
        "Back of the used barrier",
        ("system-erosion_hours", "system-leak_hours"),
        core=True,
        quick=quick(
            ("not melted", "system-erosion_hours", "none"),
            ("nothing got under it", "system-leak_hours", "none"),
        ),
        opens="visit-reason=leak",
    ),
    Question(
        "worn",
        "System in use",
        (
            *("system-pieces", "system-profile", "system-convex_depth_mm", "system-convex_depth"),
            *("system-compressibility", "system-flexibility", "system-opening_kind"),
            *("system-opening_length_mm", "system-opening_width_mm"),
            *("system-pouch", "system-accessories"),
        ),
        core=True,
    ),
    Question(
        "leaks",
        "No wear log: leaks counted",
        ("system-leaks", "system-leak_barriers", "system-usual_wear_days"),
    ),
    Question(
        "sits",
        "How it sits, and other supplies",
        (
            *("system-more_accessories", "system-lifts_hours", "system-load_hours"),
            *("system-placed_towards_hour", "system-presses", "system-belt_tight"),
            *("system-tape_border", "system-clear_pouch", "system-filter"),
        ),
    ),
    Question(
        "begun",
        "Products started recently",
        ("system-begun_product", "system-begun_days", "rows:begun"),
        opens="visit-reason=skin",
    ),
)
