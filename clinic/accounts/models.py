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


# The hash is a secret; what else is left out is in the access log.
@tracked(
    exclude=[
        "password",
        "last_login",
        "must_change_password",
        "sessions_ended_at",
        "sign_in_releases",
    ]
)
class User(AbstractUser):
    """A member of staff. No one is deleted, only deactivated, so that records keep a name."""

    uuid = models.UUIDField(default=uuid4, unique=True, editable=False)
    role = models.CharField(max_length=10, choices=Role)
    #: The password was given by a lead, who knows it.
    must_change_password = models.BooleanField(default=False, db_default=False, editable=False)
    #: Sessions begun until then are over for good.
    sessions_ended_at = models.DateTimeField(null=True, editable=False)
    #: How often a lead let the person try again; failures are counted from the last time on.
    sign_in_releases = models.PositiveIntegerField(default=0, db_default=0, editable=False)

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
