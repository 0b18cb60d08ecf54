"""Invented patients, their stomas and sensitivities."""

from datetime import date

import factory

from clinic.patients.models import (
    Construction,
    Contacts,
    KnownKind,
    KnownState,
    Material,
    Patient,
    Permanence,
    Sensitivity,
    Site,
    Stoma,
    StomaKind,
    Telephone,
)
from tests.factories.accounts import UserFactory


class PatientFactory(factory.django.DjangoModelFactory[Patient]):
    """Identity only; everything clinical is unknown until a test says otherwise."""

    class Meta:
        model = Patient

    record_number = factory.Sequence(lambda n: f"T{n:06d}")
    family_name = factory.Iterator(["Thistledown", "Brackwater", "Owlsworth", "Hazelgrove"])
    given_name = factory.Iterator(["Imogen", "Rufus", "Tamsin", "Jonty", "Odile"])
    date_of_birth = date(1961, 4, 5)


class ContactsFactory(factory.django.DjangoModelFactory[Contacts]):
    """Nothing is recorded until a test says otherwise."""

    class Meta:
        model = Contacts

    patient = factory.SubFactory(PatientFactory)


class TelephoneFactory(factory.django.DjangoModelFactory[Telephone]):
    """A number kept for fiction."""

    class Meta:
        model = Telephone

    patient = factory.SubFactory(PatientFactory)
    number = "01632 960123"


class SensitivityFactory(factory.django.DjangoModelFactory[Sensitivity]):
    class Meta:
        model = Sensitivity

    patient = factory.SubFactory(PatientFactory)
    material = Material.PASTE
    reaction = "Itching and redness within a day"


class StomaFactory(factory.django.DjangoModelFactory[Stoma]):
    class Meta:
        model = Stoma

    patient = factory.SubFactory(PatientFactory)
    kind = StomaKind.ILEOSTOMY
    construction = Construction.END
    site = Site.RIGHT_LOWER
    surgery_date = date(2024, 3, 14)
    permanence = Permanence.PERMANENT


class KnownStateFactory(factory.django.DjangoModelFactory[KnownState]):
    """Agreed before any visit of the factories; never reviewed."""

    class Meta:
        model = KnownState

    stoma = factory.SubFactory(StomaFactory)
    kind = KnownKind.PROLAPSE
    agreed_by = "Dr Hale, surgeon"
    agreed_on = date(2025, 1, 1)
    recorded_by = factory.SubFactory(UserFactory)
