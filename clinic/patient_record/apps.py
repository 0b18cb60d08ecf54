"""The record page of a patient, above the apps it is composed of."""

from django.apps import AppConfig


class PatientRecordConfig(AppConfig):
    name = "clinic.patient_record"
    label = "patient_record"
    verbose_name = "patient record"
