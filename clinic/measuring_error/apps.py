from django.apps import AppConfig


class MeasuringErrorConfig(AppConfig):
    name = "clinic.measuring_error"
    label = "measuring_error"
