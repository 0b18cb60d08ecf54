"""Plans: the snapshot, the decisions, the codes."""

from django.apps import AppConfig


class PlansConfig(AppConfig):
    name = "clinic.plans"
    label = "plans"
    verbose_name = "plans"

    def ready(self) -> None:
        from clinic.patients import sections
        from clinic.plans.sections import last_plan_section

        sections.register(10, last_plan_section)
