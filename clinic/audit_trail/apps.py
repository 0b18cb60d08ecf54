"""Audit trail: the page of the access log."""

from django.apps import AppConfig


class AuditTrailConfig(AppConfig):
    name = "clinic.audit_trail"
    label = "audit_trail"
    verbose_name = "audit trail"
