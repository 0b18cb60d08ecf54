"""What comes out, and how the person is."""

from django.db import models

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
class OutputAssessment(Charted):
    """Volume in mL/24 h, weight in kg. ``symptoms`` are those present; the rest were asked about
    and absent only where ``others_absent`` says so. So with each further group, by itself."""

    assessment = models.OneToOneField(Assessment, on_delete=models.CASCADE, related_name="output")
    volume_ml_24h = measured(q.VOLUME)
    consistency = word("Consistency", choices.Consistency)
    watery_for_hours = measured(q.WATERY_FOR)
    hours_without_output = measured(q.NOTHING_FOR)
    weight_kg = measured(q.WEIGHT)
    urine_signs = words("Urine", choices.UrineSign)
    urine_looks = words("Urine: colour, clots, stream", choices.UrineLook)
    symptoms = words("Symptoms today", choices.Symptom)
    others_absent = yes_no("All other symptoms denied")
    belly_symptoms = words("Abdomen and output", choices.BellySymptom)
    belly_others_absent = yes_no("All others on this list denied")
    fluid_symptoms = words("Fluids", choices.FluidSymptom)
    fluid_others_absent = yes_no("All others on this list denied")
    infection_symptoms = words("Infection and general appearance", choices.InfectionSymptom)
    infection_others_absent = yes_no("All others on this list denied")
    pain_0_10 = measured(q.PAIN)
    pouch_blood = word("Red or black in the pouch", choices.PouchBlood)
    discharge = word("From the bowel left behind", choices.Discharge)
    tablets_whole = yes_no("Tablets come out whole")
    stools_per_day = measured(q.STOOLS)
    usual_ml_24h = measured(q.USUAL_VOLUME, help_text="Mean of the 7 days before.")
    days_at_volume = measured(q.DAYS_AT_VOLUME)
    urine_ml_24h = measured(q.URINE, help_text="Passed by the bladder.")
    hours_without_urine = measured(q.NO_URINE_FOR)
    urine_ph = measured(q.URINE_PH)
    stents = measured(q.STENTS)
    stent_out_early = yes_no("A stent came out early")

    class Meta:
        constraints = [
            in_range("volume_ml_24h", q.VOLUME, "output_volume_range"),
            in_range("watery_for_hours", q.WATERY_FOR, "output_watery_range"),
            in_range("hours_without_output", q.NOTHING_FOR, "output_silence_range"),
            in_range("weight_kg", q.WEIGHT, "output_weight_range"),
            in_range("pain_0_10", q.PAIN, "output_pain_range"),
            one_of("consistency", choices.Consistency, "output_consistency_known"),
            words_valid("urine_signs", choices.UrineSign, "output_urine_known"),
            words_valid("urine_looks", choices.UrineLook, "output_urine_looks_known"),
            words_valid("symptoms", choices.Symptom, "output_symptoms_known"),
            words_valid("belly_symptoms", choices.BellySymptom, "output_belly_known"),
            words_valid("fluid_symptoms", choices.FluidSymptom, "output_fluid_known"),
            words_valid("infection_symptoms", choices.InfectionSymptom, "output_infection_known"),
            one_of("pouch_blood", choices.PouchBlood, "output_pouch_blood_known"),
            one_of("discharge", choices.Discharge, "output_discharge_known"),
            in_range("stools_per_day", q.STOOLS, "output_stools_range"),
            in_range("usual_ml_24h", q.USUAL_VOLUME, "output_usual_range"),
            in_range("days_at_volume", q.DAYS_AT_VOLUME, "output_days_at_range"),
            in_range("urine_ml_24h", q.URINE, "output_urine_range"),
            in_range("hours_without_urine", q.NO_URINE_FOR, "output_no_urine_range"),
            in_range("urine_ph", q.URINE_PH, "output_urine_ph_range"),
            in_range("stents", q.STENTS, "output_stents_range"),
        ]
        triggers = [
            final_once_signed("output_final_once_signed", OF_ASSESSMENT),
            never_emptied("output_never_emptied"),
        ]

    def __str__(self) -> str:
        return f"Output {self.pk}"
