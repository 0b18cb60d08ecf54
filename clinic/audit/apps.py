from django.apps import AppConfig


class AuditConfig(AppConfig):
    name = "clinic.audit"
    verbose_name = "Audit trail"
