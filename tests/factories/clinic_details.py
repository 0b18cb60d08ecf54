"""The clinic's details, and a day on which it is closed."""

from datetime import date, timedelta

import factory

from clinic.clinic_details.models import THE_ROW, ClinicDetails, Holiday, PaperSize


class ClinicDetailsFactory(factory.django.DjangoModelFactory[ClinicDetails]):
    """Open from Monday to Friday."""

    class Meta:
        model = ClinicDetails

    id = THE_ROW
    name = "Elm Row Clinic"
    phone = "555-0155"
    hours = "Every morning"
    paper_size = PaperSize.A4
    closed_weekdays = [5, 6]


class HolidayFactory(factory.django.DjangoModelFactory[Holiday]):
    """Far away from every day that other factories name."""

    class Meta:
        model = Holiday

    day = factory.Sequence(lambda n: date(2090, 1, 1) + timedelta(days=n))
    name = "Harvest Day"
