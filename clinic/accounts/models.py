"""The people who sign in. There is no superuser site: a clinic lead manages users."""

from uuid import uuid4

from django.contrib.auth.models import AbstractUser
from django.db import models

from clinic.audit.history import tracked


class Role(models.TextChoices):
    """What a person is in this clinic; it alone decides what they may do."""

    NURSE = "nurse", "Stoma-care nurse"
    SURGEON = "surgeon", "Surgeon"
    DESK = "desk", "Desk"
    LEAD = "lead", "Clinic lead"


# The hash is a secret and the time of sign-in is in the access log.
@tracked(exclude=["password", "last_login"])
class User(AbstractUser):
    """A member of staff. No one is deleted, only deactivated, so that records keep a name."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    role = models.CharField(max_length=10, choices=Role)

    REQUIRED_FIELDS = ["email", "role"]

    class Meta:
        ordering = ["last_name", "first_name", "username"]
        constraints = [
            models.CheckConstraint(
                condition=models.Q(role__in=Role.values), name="user_role_is_known"
            ),
        ]

    def __str__(self) -> str:
        return self.display_name

    @property
    def display_name(self) -> str:
        """Full name and role in words, as records and prints show it."""
        return f"{self.get_full_name() or self.username}, {Role(self.role).label.lower()}"
