"""Follow-up: the day of each next visit."""

from django.apps import AppConfig


class FollowUpConfig(AppConfig):
    name = "clinic.follow_up"
    label = "follow_up"
    verbose_name = "follow-up"

    def ready(self) -> None:
        from clinic.clinic_details import on_closed_days
        from clinic.follow_up.queries import visits_on

        on_closed_days.register(visits_on)
