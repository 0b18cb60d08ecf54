"""Site marking before surgery."""

from django.apps import AppConfig


class SiteMarkingConfig(AppConfig):
    name = "clinic.site_marking"
