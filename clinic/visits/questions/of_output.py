"""How they are, and what comes out."""

from clinic.visits.models import PersonToday
from clinic.visits.questions.question import BOWEL, UROSTOMY, Question, quick

#: From here a blood test may decide how soon the person is seen, mL/24 h (at 75 and over one step
#: sooner). A test holds it to the planner's own figure.
MUCH_OUTPUT = "output-volume_ml_24h>=1500"
_BELLY = "output-symptoms=mild_cramps,severe_cramps,nausea,vomiting,swollen_abdomen"
_DRYING = "output-symptoms=dizzy_on_standing,confusion,little_urine,faintness"
_ILL = "output-symptoms=fever,confusion,faintness,loin_pain"

QUESTIONS = (
    Question(
        "danger",
        "Any of these today?",
        ("output-symptoms", "output-others_absent", "output-pain_0_10", "output-pouch_blood"),
        core=True,
        lists="output-symptoms",
        quick=quick(
            ("none of these symptoms", "output-symptoms", "none"),
            ("no red or black in the pouch", "output-pouch_blood", "none"),
        ),
    ),
    Question(
        "amount",
        "Output",
        ("output-volume_ml_24h", "output-consistency"),
        core=True,
        in_sight=True,
    ),
    Question(
        "urine",
        "Urine in the pouch",
        ("output-urine_signs", "output-urine_looks"),
        core=True,
        quick=quick(
            ("no crystals, strong odour or blood", "output-urine_signs", "none"),
            ("not pink, no clots, not cloudy, stream as usual", "output-urine_looks", "none"),
        ),
        kinds=UROSTOMY,
    ),
    Question(
        "silence",
        "No output, or watery, for how long",
        ("output-hours_without_output", "output-watery_for_hours"),
        opens=f"{_BELLY} or output-consistency=watery or {MUCH_OUTPUT}",
    ),
    Question(
        "belly",
        "More on belly and output",
        ("output-belly_symptoms", "output-belly_others_absent"),
        opens=_BELLY,
    ),
    Question(
        "fluids",
        "More on fluids",
        ("output-fluid_symptoms", "output-fluid_others_absent"),
        opens=f"{_DRYING} or output-consistency=watery or {MUCH_OUTPUT}",
    ),
    Question(
        "bladder",
        "Urine passed by the bladder",
        ("output-urine_ml_24h", "output-hours_without_urine"),
        kinds=BOWEL,
        opens="output-symptoms=little_urine",
    ),
    Question(
        "infection",
        "More on infection and appearance",
        ("output-infection_symptoms", "output-infection_others_absent"),
        opens=_ILL,
    ),
    Question(
        "vital-signs",
        "Temperature, pulse, breathing, blood pressure",
        (
            *("person-temperature_c", "person-highest_c", "person-antipyretic_hours"),
            *("person-pulse", "person-breaths", "person-systolic_mmhg"),
        ),
        opens=f"{_ILL} or {_DRYING} or output-symptoms=face_swelling_or_wheeze",
    ),
    Question(
        "weight",
        "Weight, and output against the usual",
        (
            *("output-weight_kg", "output-usual_ml_24h", "output-days_at_volume"),
            "output-stools_per_day",
        ),
        opens=MUCH_OUTPUT,
    ),
    Question(
        "blood-tests",
        "Blood tests today",
        ("person-blood_tests",),
        kinds=BOWEL,
        opens=MUCH_OUTPUT,
        once=MUCH_OUTPUT,
    ),
    Question("left-behind", "Discharge and tablets", ("output-discharge", "output-tablets_whole")),
    Question(
        "stents",
        "Urine pH and stents",
        ("output-urine_ph", "output-stents", "output-stent_out_early"),
        kinds=UROSTOMY,
    ),
    Question("medicines", "Medicines", ("person-medicines",)),
    Question(
        "conditions",
        "Treatment, blood count, pregnancy",
        (*(f"person-{name}" for name in PersonToday.CONDITIONS), "person-pregnant_weeks"),
    ),
    Question(
        "child",
        "Child: signs of dehydration",
        ("person-child_signs", "person-child_others_absent"),
        for_children=True,
    ),
)
