"""Plans: the snapshot, the decisions, the codes."""

from django.apps import AppConfig


class PlansConfig(AppConfig):
    name = "clinic.plans"
    label = "plans"
    verbose_name = "plans"
