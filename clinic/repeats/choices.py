"""Why a repeat no longer counts."""

from django.db.models import TextChoices


class Withdrawn(TextChoices):
    MISTAKE = "mistake", "Recorded by mistake"
    OTHER_PERSON = "other_person", "Recorded for the wrong patient"
    POSTURE = "posture", "Not measured in the same posture"
    KNOWN = "known", "The visit's own figures were known before measuring"
