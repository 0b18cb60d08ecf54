"""Documents: what is printed."""

from django.apps import AppConfig


class DocumentsConfig(AppConfig):
    name = "clinic.documents"
    label = "documents"
    verbose_name = "documents"

    def ready(self) -> None:
        from clinic.documents.sections import papers_section
        from clinic.patients import sections

        sections.register(20, papers_section)
