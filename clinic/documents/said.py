"""What of a decided plan reaches the patient, and in whose words."""

from collections.abc import Iterator
from dataclasses import dataclass

from clinic.documents.wording.plan_words import as_typed, from_plan
from clinic.documents.wording.tongue import ENGLISH, Tongue
from clinic.plans.decided import Decided, DecidedPlan
from clinic.plans.decisions import own_recommendations
from clinic.plans.models import Choice


@dataclass(frozen=True)
class Said:
    """One recommendation that stands. Key, kind and change are the plan's own words."""

    key: str
    kind: str
    change: str
    words: str
    by_clinician: bool


def words_for_patient(patient_text: str | None, fate: Decided, tongue: Tongue = ENGLISH) -> str:
    """The plan's patient wording, or the clinician's own where they changed it.

    "" for what was dropped, and for what is not for the patient (``patient_text`` None): that
    is written between clinicians, changed or not.
    """
    if patient_text is None or fate.choice not in {Choice.ACCEPTED, Choice.CHANGED}:
        return ""
    if fate.choice == Choice.CHANGED:
        return as_typed(fate.changed_to, tongue)
    return from_plan(patient_text, tongue)


def recommendations(decided: DecidedPlan, tongue: Tongue = ENGLISH) -> Iterator[Said]:
    """What stands, in the plan's order. A thing to stop that was changed is no longer that."""
    items = own_recommendations(decided.plan)
    for item, fate in zip(items, decided.recommendations, strict=True):
        if words := words_for_patient(item.patient_text, fate, tongue):
            changed = fate.choice == Choice.CHANGED
            change = "change" if changed else item.change.value
            yield Said(item.key, item.kind.value, change, words, changed)
