"""Follow-up: the day of each next visit."""

from django.apps import AppConfig


class FollowUpConfig(AppConfig):
    name = "clinic.follow_up"
    label = "follow_up"
    verbose_name = "follow-up"

    def ready(self) -> None:
        from clinic.follow_up.sections import due_section
        from clinic.patients import sections

        sections.register(5, due_section)
