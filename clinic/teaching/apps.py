"""Teaching: the checklist of each stoma."""

from django.apps import AppConfig


class TeachingConfig(AppConfig):
    name = "clinic.teaching"
