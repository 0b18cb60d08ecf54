"""The stoma measured at its base; looked at; felt."""

from clinic.visits.questions.of_system import LEAKS
from clinic.visits.questions.question import NOT_END, TWO_OPENINGS, Question, quick

QUESTIONS = (
    Question(
        "size",
        "Size at the base, and height",
        ("stoma-length_mm", "stoma-width_mm", "stoma-protrusion_mm"),
        core=True,
        in_sight=True,
        hint="At the base: the longest way across, then at right angles. Protrusion lying and "
        "sitting: the lower.",
    ),
    Question(
        "looks",
        "Looks and feels",
        (
            *("stoma-colour", "stoma-turgor", "stoma-oedema", "stoma-bleeding"),
            *("stoma-junction", "stoma-separation_hours", "stoma-separation_depth_mm"),
            *("stoma-separation_base_visible", "stoma-separation_undermined"),
            *("stoma-separation_contaminated", "stoma-separation_fascia_seen"),
            *("stoma-prolapse", "stoma-prolapse_extra_mm", "stoma-prolapse_reducible"),
            *("stoma-prolapse_painful", "stoma-prolapse_new", "stoma-prolapse_growing"),
        ),
        core=True,
        quick=quick(
            ("pink to red", "stoma-colour", "pink_red"),
            ("moist and soft", "stoma-turgor", "moist_soft"),
            ("no swelling", "stoma-oedema", "none"),
            ("no bleeding", "stoma-bleeding", "none"),
            ("junction intact", "stoma-junction", "intact"),
            ("no prolapse", "stoma-prolapse", "none"),
        ),
    ),
    Question(
        "lumen",
        "Lumen",
        ("stoma-lumen", "stoma-lumen_hour", "stoma-calibre"),
        opens=LEAKS,
    ),
    Question(
        "shape",
        "Shape, widest part, tracing",
        ("stoma-shape", "stoma-axis_hour", "stoma-widest_mm", "stoma-radii_mm"),
    ),
    Question(
        "sitting",
        "Height sitting and standing",
        ("stoma-protrusion_sitting_mm", "stoma-protrusion_standing_mm"),
        opens="stoma-prolapse=present",
    ),
    Question(
        "closely",
        "Bleeding and injury in detail",
        (
            *("stoma-deep_cut", "stoma-bleeds_on_touch", "stoma-bleeding_stops_min"),
            *("stoma-bleeding_stopped_days", "stoma-rubbed", "stoma-bowel_outside"),
        ),
        opens="stoma-bleeding=*",
    ),
    Question(
        "colour-parts",
        "Colour not the same all over",
        ("rows:colourpart", "stoma-colour_known"),
        opens="stoma-colour=pale,dusky,purple,black_brown_grey,yellow_slough",
    ),
    Question(
        "rod",
        "Rod or bridge",
        ("whole-rod_in_place",),
        constructions=NOT_END,
    ),
    Question(
        "two-openings",
        "The two openings",
        ("stoma-working_mm", "stoma-working_hour", "stoma-resting_mm"),
        constructions=TWO_OPENINGS,
    ),
)
