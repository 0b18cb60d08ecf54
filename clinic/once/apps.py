"""Forms that were sent, so that none is carried out twice."""

from django.apps import AppConfig


class OnceConfig(AppConfig):
    name = "clinic.once"
    label = "once"
    verbose_name = "forms sent"
