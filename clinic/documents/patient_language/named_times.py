"""What a sentence of a plan says of how soon somebody looks, and which say that all is well.

Declared by the id of the sentence, never read from its words. A sentence without a row names no
time and reassures nobody; ``tests/clinic/documents/patient_language/test_named_times.py`` fails
for one on record that reads as if it did and has no row.
"""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType
from typing import Final

from clinic.documents.patient_language import earlier_plans
from clinic.documents.patient_language.earlier_plans import AS_STORED
from clinic.referrals.models import Urgency
from planning.results.message import Message

_BY_URGENCY: Final[Mapping[Urgency | None, tuple[str, ...]]] = {
    Urgency.EMERGENCY: (
        "A doctor must look at it now.",
        "A doctor must look now.",
        "A surgeon must look at it now.",
        "A surgeon must look now.",
        "Call at once if you have cramps, vomit or nothing comes: it may be a blockage.",
        "Call for help now.",
        "Call us at once if it turns dark or hard, hurts, stays out or gives nothing.",
        "Fever or pain in your side needs a doctor now.",
        "Go now too if the pain gets strong or your belly swells.",
        "Go to the hospital now if you vomit or nothing comes out.",
        "The lump beside your stoma needs a doctor now.",
        "This needs a surgeon now.",
        "Your stoma has come out and needs a surgeon now.",
    ),
    Urgency.SAME_DAY: (
        "A doctor must look at it today.",
        "A doctor must look at your medicines today.",
        "A doctor must look today.",
        "A surgeon must look at it today.",
        "A surgeon must look today.",
        "Ask the children's stoma team today if what comes out is too much or too little.",
        "Call the children's stoma team today.",
        "Call the same day if you see drowsiness, fever or too little drinking.",
        "Call the team that gives you blood thinners today.",
        "Call the team today.",
        "Call us the same day, even if it stops.",
        "The children's stoma team must hear today how you grow.",
        "The liver team must hear of it today.",
        "The lump beside your stoma needs a doctor today.",
        "The team must look today at why you are restless.",
        "The team must look today.",
        "The team must talk to you today.",
    ),
    Urgency.DAYS: (
        "A doctor must look at your medicines within days.",
        "A doctor will look within days.",
        "A surgeon will look within days.",
        "The pharmacist will look within days.",
        "The team will ask about your medicines within days.",
        "The team will ask you about it within days.",
        "The team will look for the cause within days.",
        "The team will look within days at why you are restless.",
        "The team will look within days.",
    ),
    Urgency.TWO_WEEKS: (
        "A doctor will look within two weeks.",
        "A surgeon will look within two weeks.",
        "There is a dark spot that a skin doctor must look at within two weeks.",
        "There is a lump that a surgeon must look at within two weeks.",
    ),
    # A time, but not of when somebody looks; or none in so many words.
    None: (
        "At the next change, look at the skin.",
        "Change at once if it itches, burns or leaks.",
        "Change it on the day you do now.",
        "Change it one day sooner than you do now.",
        "Go on with what you use now.",
        "The hole you use is too wide for it now.",
        "To look again at what we found today.",
        "You have a fever soon after surgery.",
        "You have a sore that needs a skin doctor soon.",
    ),
}
#: Sentence -> how soon it says that somebody looks; None where it speaks of another time.
NAMED: Final[Mapping[str, Urgency | None]] = MappingProxyType(
    {sentence: urgency for urgency, some in _BY_URGENCY.items() for sentence in some}
)
#: Sentences that say that all is well.
REASSURING: Final = frozenset(
    {
        "A little blood on the cloth is normal.",
        "To check that all is still well.",
        "To check that all is well.",
    }
)


def time_named(sentence: Message) -> Urgency | None:
    """How soon the sentence says that somebody looks; None where it does not say."""
    if sentence.context == AS_STORED:
        return earlier_plans.time_in(sentence.id)
    return NAMED.get(sentence.id)


def reassures(sentence: Message) -> bool:
    """Whether the sentence says that all is well."""
    if sentence.context == AS_STORED:
        return earlier_plans.reassures(sentence.id)
    return sentence.id in REASSURING
