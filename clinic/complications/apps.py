from django.apps import AppConfig


class ComplicationsConfig(AppConfig):
    name = "clinic.complications"
