from django.apps import AppConfig


class PatientAnswersConfig(AppConfig):
    name = "clinic.patient_answers"
    label = "patient_answers"
