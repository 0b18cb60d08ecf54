"""How the person is today, whichever of their stomas is looked at."""

from django.db import models
from django.db.models import Q

from clinic.audit.history import tracked
from clinic.visits import choices
from clinic.visits.models.assessment import Assessment
from clinic.visits.models.charted import Charted
from clinic.visits.models.fields import (
    in_range,
    measured,
    one_of,
    word,
    words,
    words_valid,
    yes_no,
)
from clinic.visits.models.finality import OF_ASSESSMENT, final_once_signed, never_emptied
from planning.inputs import quantities as q


@tracked()
class PersonToday(Charted):
    """Charted with one stoma, it counts for every stoma of the visit.

    What passes (a treatment, a pregnancy, the list of medicines) is asked at each visit: an old
    answer would be no answer. ``medicines`` NULL: the list is not known.
    """

    assessment = models.OneToOneField(
        Assessment, on_delete=models.CASCADE, related_name="person_today"
    )
    temperature_c = measured(q.TEMPERATURE)
    highest_c = measured(q.HIGHEST, help_text="Measured elsewhere.")
    antipyretic_hours = measured(q.ANTIPYRETIC)
    pulse = measured(q.PULSE)
    breaths = measured(q.BREATHS)
    systolic_mmhg = measured(q.SYSTOLIC)
    blood_tests = word("Blood tests today", choices.BloodTests)
    medicines = words(
        "Medicines taken", choices.Medicine, help_text="Nothing ticked: the list is not known."
    )
    chemotherapy_recent = yes_no("Chemotherapy in the last weeks")
    neutropenia = yes_no("Low white cells (neutropenia)")
    low_platelets = yes_no("Low platelets")
    radiotherapy_now = yes_no("Radiotherapy now")
    pregnant = yes_no("Pregnant")
    pregnant_weeks = measured(q.PREGNANT_WEEKS)
    child_signs = words("The child has", choices.ChildSign)
    child_others_absent = yes_no("All others on this list absent")

    #: Conditions that pass; the lasting ones are on the person's record.
    CONDITIONS = (
        "chemotherapy_recent",
        "neutropenia",
        "low_platelets",
        "radiotherapy_now",
        "pregnant",
    )

    class Meta:
        constraints = [
            in_range("temperature_c", q.TEMPERATURE, "person_temperature_range"),
            in_range("highest_c", q.HIGHEST, "person_highest_range"),
            in_range("antipyretic_hours", q.ANTIPYRETIC, "person_antipyretic_range"),
            in_range("pulse", q.PULSE, "person_pulse_range"),
            in_range("breaths", q.BREATHS, "person_breaths_range"),
            in_range("systolic_mmhg", q.SYSTOLIC, "person_systolic_range"),
            one_of("blood_tests", choices.BloodTests, "person_blood_tests_known"),
            words_valid("medicines", choices.Medicine, "person_medicines_known"),
            in_range("pregnant_weeks", q.PREGNANT_WEEKS, "person_pregnant_weeks_range"),
            models.CheckConstraint(
                condition=Q(pregnant_weeks__isnull=True) | Q(pregnant=True, pregnant__isnull=False),
                name="person_weeks_of_pregnant",
            ),
            words_valid("child_signs", choices.ChildSign, "person_child_signs_known"),
        ]
        triggers = [
            final_once_signed("person_today_final_once_signed", OF_ASSESSMENT),
            never_emptied("person_today_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Person today {self.pk}"
