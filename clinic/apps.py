from django.apps import AppConfig
from django.forms import CharField

from clinic.bad_input import refuse_broken


class ClinicConfig(AppConfig):
    name = "clinic"

    def ready(self) -> None:
        # Forms are declared after this: each field of text, our own or a package's, is made with
        # the validator.
        CharField.default_validators = [refuse_broken]
