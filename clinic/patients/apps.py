from django.apps import AppConfig


class PatientsConfig(AppConfig):
    name = "clinic.patients"
    verbose_name = "Patients"
