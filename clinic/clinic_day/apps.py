"""Clinic day: the start page."""

from django.apps import AppConfig


class ClinicDayConfig(AppConfig):
    name = "clinic.clinic_day"
    label = "clinic_day"
    verbose_name = "clinic day"
