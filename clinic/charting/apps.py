"""Charting: the visit page."""

from django.apps import AppConfig


class ChartingConfig(AppConfig):
    name = "clinic.charting"
    label = "charting"
    verbose_name = "charting"
