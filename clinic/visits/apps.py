"""Visits: what was measured, seen and felt."""

from django.apps import AppConfig


class VisitsConfig(AppConfig):
    name = "clinic.visits"
    label = "visits"
    verbose_name = "visits"
