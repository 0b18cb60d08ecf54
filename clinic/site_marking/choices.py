"""Words for a marked site: what was checked, in which positions, which site was used.

What to check and in which order: published quick reference and common practice.
"""

from django.db.models import TextChoices


class Rank(TextChoices):
    FIRST = "1", "First choice"
    SECOND = "2", "Second choice"


class Used(TextChoices):
    """Where the stoma was made."""

    FIRST = "first", "The first choice"
    SECOND = "second", "The second choice"
    ANOTHER = "another", "Another place"
    UNKNOWN = "unknown", "Not known"


class Withdrawn(TextChoices):
    """Why a marking no longer counts."""

    MISTAKE = "mistake", "Recorded by mistake"
    OTHER_PERSON = "other_person", "Recorded for the wrong patient"
    NO_SURGERY = "no_surgery", "No surgery took place"


#: Field of a site -> what is asked. Yes, no or not checked.
CRITERIA = {
    "in_rectus": "Within the rectus muscle (felt while the head is raised, or at a cough)",
    "on_flat_skin": "On a flat spot of skin",
    "clear_of_edges": "About 5 cm from midline, navel, bone, scars and folds",
    "below_ribs": "Below the ribs",
    "clear_of_belt": "Clear of the belt line",
    "seen_by_person": "The person can see it",
    "barrier_tried": "A barrier was tried there",
}
#: Field of a site -> posture. Yes: seen in it, and the spot holds.
POSTURES = {
    "lying": "Lying",
    "sitting": "Sitting",
    "standing": "Standing",
    "bending": "Bending",
}
