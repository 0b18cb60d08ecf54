"""Clinic details."""

from django.apps import AppConfig


class ClinicDetailsConfig(AppConfig):
    name = "clinic.clinic_details"
    label = "clinic_details"
    verbose_name = "clinic details"
