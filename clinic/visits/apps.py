"""Visits: what was measured, seen and felt."""

from django.apps import AppConfig


class VisitsConfig(AppConfig):
    name = "clinic.visits"
    label = "visits"
    verbose_name = "visits"

    def ready(self) -> None:
        from clinic.patients import sections
        from clinic.visits.sections import timeline_section

        sections.register(20, timeline_section)
