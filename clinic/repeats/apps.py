from django.apps import AppConfig


class RepeatsConfig(AppConfig):
    name = "clinic.repeats"
    label = "repeats"
