"""A material that a signed plan suspects becomes a recorded sensitivity."""

from django.db import transaction
from django.http import HttpRequest

from clinic.accounts.models import User
from clinic.patients.actions import add_sensitivity
from clinic.patients.models import Material, Patient, Sensitivity
from clinic.plans.plan_with_decisions import decided_plan
from clinic.plans.suspected_materials import (
    origin_words,
    reaction_words,
    sensitivity_key,
    suspects_of,
)
from clinic.visits.models import Assessment
from clinic.visits.policies import NotAllowedNow

NOT_SUSPECTED = "This plan does not suspect that."


@transaction.atomic
def record_suspected(
    *,
    assessment: Assessment,
    material: Material,
    by: User,
    request: HttpRequest | None = None,
) -> Sensitivity:
    """The sensitivity, with the plan it comes from; pressed again, the one recorded then.

    Raises ``NotAllowedNow`` where the signed plan does not suspect ``material``, it is on record
    already, or it was removed since.
    """
    # One press at a time for one person.
    Patient.objects.select_for_update().get(pk=assessment.visit.patient_id)
    key = sensitivity_key(assessment, material)
    if found := Sensitivity.objects.filter(uuid=key).first():
        return found
    decided = decided_plan(assessment)
    suspects = suspects_of(decided) if decided else ()
    found_here = next((one for one in suspects if one.material == material), None)
    if found_here is None:
        raise NotAllowedNow(NOT_SUSPECTED)
    if not found_here.open:
        raise NotAllowedNow(_why_not(found_here.before))
    return add_sensitivity(
        patient=assessment.visit.patient,
        by=request or by,
        values={
            "uuid": key,
            "material": material,
            "reaction": reaction_words(assessment),
            "origin": origin_words(assessment),
            "origin_visit": assessment.visit.uuid,
        },
    )


def _why_not(on_record: bool) -> str:
    if on_record:
        return "It is on record as a sensitivity already."
    return "It was dropped from this plan, or taken off the record since. Add it by hand if needed."
