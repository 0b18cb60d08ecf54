"""How the answers came, and why they no longer count."""

from django.db.models import TextChoices


class How(TextChoices):
    ASKED = "asked", "Asked at the visit"
    PAPER = "paper", "Filled in on paper"
    FOR_THEM = "for_them", "Somebody else answered for the person"


class Withdrawn(TextChoices):
    MISTAKE = "mistake", "Typed in wrongly"
    OTHER_PERSON = "other_person", "Recorded for the wrong patient"
