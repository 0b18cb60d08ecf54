"""What of a decided plan reaches the patient, and in whose words."""

from collections.abc import Iterator
from dataclasses import dataclass

from clinic.documents.patient_language.earlier_plans import AS_STORED
from clinic.documents.patient_language.unsaid import Joined, Phrase, Unsaid, typed
from clinic.plans.decidables import own_recommendations
from clinic.plans.decided_item import Decided
from clinic.plans.models import Choice
from clinic.plans.plan_with_decisions import DecidedPlan
from planning.results.message import Length, Text

#: Before what the clinician wrote in words of their own.
CLINICIAN_SAYS = "Your nurse or doctor says"


@dataclass(frozen=True)
class PatientRecommendation:
    """One recommendation that was not dropped. Key, kind and change are the plan's own words."""

    key: str
    kind: str
    change: str
    words: Unsaid
    by_clinician: bool
    #: Whether the words themselves name a length.
    sized: bool = False


def words_for_patient(patient_text: Text | None, decision: Decided) -> Unsaid:
    """The plan's patient wording, or the clinician's own where they changed it in words; a note is
    marked as theirs.

    "" for what was dropped, and for what is not for the patient (``patient_text`` None): that
    is written between clinicians, changed or not.
    """
    if patient_text is None or decision.choice not in {Choice.ACCEPTED, Choice.CHANGED}:
        return ""
    if decision.in_own_words:
        said = typed(decision.changed_to)
        return Joined((Phrase(CLINICIAN_SAYS), said), between=": ") if decision.note else said
    return patient_text


def recommendations(decided: DecidedPlan) -> Iterator[PatientRecommendation]:
    """What was not dropped, in the plan's order. A thing to stop that was changed is no longer
    that."""
    items = own_recommendations(decided.plan)
    for item, decision in zip(items, decided.recommendations, strict=True):
        if words := words_for_patient(item.patient_text, decision):
            changed = decision.in_own_words
            change = "change" if changed else item.change.value
            sized = not changed and _sized(item.patient_text)
            yield PatientRecommendation(item.key, item.kind.value, change, words, changed, sized)


def _sized(text: Text | None) -> bool:
    """By its parts; what an earlier plan stored has none, and is known by its words."""
    return any(
        (message.context == AS_STORED and "mm" in message.id)
        or any(isinstance(part, Length) for _, part in message.parts)
        for message in text or ()
    )
