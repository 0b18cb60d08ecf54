"""Documents: what is printed."""

from django.apps import AppConfig


class DocumentsConfig(AppConfig):
    name = "clinic.documents"
    label = "documents"
    verbose_name = "documents"
