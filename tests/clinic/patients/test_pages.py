"""Registering, showing and correcting; who sees what; nothing typed is lost."""

from datetime import date

import pytest
from django.apps import apps
from django.test import Client
from django.urls import reverse

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.patients.models import Patient, Stoma
from tests.clinic.patients.test_rules import PERSON, STOMA
from tests.factories.accounts import UserFactory
from tests.factories.patients import PatientFactory, SensitivityFactory, StomaFactory

pytestmark = pytest.mark.django_db


def signed_in(role: Role) -> Client:
    client = Client()
    client.force_login(UserFactory(role=role))
    return client


@pytest.fixture
def nurse() -> Client:
    return signed_in(Role.NURSE)


def record_of(patient: Patient) -> str:
    return reverse("patients:record", args=[patient.uuid])


def test_registering_keeps_a_trail(nurse: Client) -> None:
    answer = nurse.post(reverse("patients:register"), {**PERSON, "diabetes": "yes"})
    patient = Patient.objects.get()
    assert answer["Location"] == record_of(patient)
    assert (patient.diabetes, patient.liver_disease) == (True, None)
    assert AccessLog.objects.filter(action="registered", patient_uuid=patient.uuid).exists()
    event = apps.get_model("patients", "PatientEvent")._default_manager.get()
    assert event.pgh_label == "insert"
    assert event.pgh_context.metadata["user"] == int(nurse.session["_auth_user_id"])


def test_errors_keep_what_was_typed(nurse: Client) -> None:
    answer = nurse.post(reverse("patients:register"), {**PERSON, "date_of_birth": "04/05/1961"})
    page = answer.content.decode()
    assert "Is that 5 Apr 1961 or 4 May 1961?" in page
    assert 'value="04/05/1961"' in page
    assert 'value="Wisp"' in page
    assert not Patient.objects.exists()


def test_the_desk_sees_and_writes_identity_alone() -> None:
    desk = signed_in(Role.DESK)
    one = SensitivityFactory(material="latex", patient=StomaFactory().patient)
    patient = one.patient
    page = desk.get(record_of(patient)).content.decode()
    assert patient.record_number in page
    for word in ("latex", "Latex", "ensitiv", "leostomy", "Diabetes", "Eyesight"):
        assert word not in page
    form = desk.get(reverse("patients:correct", args=[patient.uuid])).content.decode()
    assert 'name="family_name"' in form
    assert 'name="diabetes"' not in form


def test_the_desk_cannot_overwrite_what_it_does_not_see() -> None:
    desk = signed_in(Role.DESK)
    patient = PatientFactory(diabetes=True, notes="Prefers mornings")
    address = reverse("patients:correct", args=[patient.uuid])
    seen = desk.get(address).context["form"]["seen"].value()
    desk.post(address, {**PERSON, "seen": seen, "diabetes": "no", "notes": "x"})
    patient.refresh_from_db()
    assert patient.family_name == "Wisp"
    assert (patient.diabetes, patient.notes) == (True, "Prefers mornings")


@pytest.mark.parametrize("role", [Role.NURSE, Role.SURGEON, Role.LEAD])
def test_clinical_roles_see_sensitivities_everywhere(role: Role) -> None:
    one = SensitivityFactory(material="latex", reaction="Weals")
    page = signed_in(role).get(record_of(one.patient)).content.decode()
    assert "Sensitive to:" in page
    assert "Weals" in page


def test_no_sensitivity_is_not_said_to_be_none(nurse: Client) -> None:
    page = nurse.get(record_of(PatientFactory())).content.decode()
    assert "Sensitivities not recorded: ask" in page


def test_every_viewing_is_on_record(nurse: Client) -> None:
    patient = PatientFactory()
    nurse.get(record_of(patient))
    assert AccessLog.objects.filter(action="viewed", patient_uuid=patient.uuid).count() == 1
    assert nurse.get(reverse("patients:find")).context["recent"] == [patient]


def test_correcting_names_the_fields_and_keeps_the_old_words(nurse: Client) -> None:
    patient = PatientFactory(family_name="Whisp", given_name="Nell", record_number="K-204")
    address = reverse("patients:correct", args=[patient.uuid])
    seen = nurse.get(address).context["form"]["seen"].value()
    nurse.post(address, {**PERSON, "seen": seen})
    assert AccessLog.objects.get(action="corrected").detail == "family_name"
    names = patient.events.order_by("pgh_id").values_list("family_name", flat=True)
    assert list(names) == ["Whisp", "Wisp"]


def test_a_change_in_the_meantime_is_shown_and_the_second_save_goes_through(nurse: Client) -> None:
    patient = PatientFactory(record_number="K-204")
    address = reverse("patients:correct", args=[patient.uuid])
    seen = nurse.get(address).context["form"]["seen"].value()
    Patient.objects.filter(pk=patient.pk).update(given_name="Other")
    page = nurse.post(address, {**PERSON, "seen": seen})
    assert "Someone changed this record" in page.content.decode()
    assert 'value="Wisp"' in page.content.decode()
    # The newer words are beside the field that holds one's own, and beside no other.
    errors = page.context["form"].errors
    assert set(errors) == {"seen", "given_name"}
    assert errors["given_name"] == ["On record now: Other. Yours is still in the field."]
    patient.refresh_from_db()
    assert patient.family_name != "Wisp"
    nurse.post(address, {**PERSON, "seen": page.context["form"]["seen"].value()})
    patient.refresh_from_db()
    assert patient.family_name == "Wisp"


def test_search_needs_no_script_and_leaves_no_trace_in_addresses(nurse: Client) -> None:
    patient = PatientFactory(family_name="Thistledown")
    assert nurse.get(reverse("patients:results")).status_code == 405
    whole = nurse.post(reverse("patients:results"), {"words": "thistldown"})
    assert record_of(patient) in whole.content.decode()
    assert "<html" in whole.content.decode()
    part = nurse.post(
        reverse("patients:results"),
        {"words": "thistldown"},
        headers={"HX-Request": "true", "HX-Target": "results"},
    )
    assert record_of(patient) in part.content.decode()
    assert "<html" not in part.content.decode()
    searched = AccessLog.objects.filter(action="searched")
    assert {row.detail for row in searched} == {"1 shown"}
    shown = AccessLog.objects.filter(action="found").values_list("patient_uuid", flat=True)
    assert list(shown) == [patient.uuid] * 2  # whom each search showed


def test_adding_correcting_and_closing_a_stoma(nurse: Client) -> None:
    patient = PatientFactory()
    nurse.post(reverse("patients:stoma_add", args=[patient.uuid]), STOMA)
    stoma = Stoma.objects.get()
    address = reverse("patients:stoma_correct", args=[patient.uuid, stoma.uuid])
    seen = nurse.get(address).context["form"]["seen"].value()
    nurse.post(address, {**STOMA, "site": "left upper", "seen": seen})
    address = reverse("patients:stoma_close", args=[patient.uuid, stoma.uuid])
    seen = nurse.get(address).context["form"]["seen"].value()
    nurse.post(address, {"closed_on": "1 Sep 2024", "seen": seen})
    stoma.refresh_from_db()
    assert (stoma.site, stoma.closed_on) == ("left upper", date(2024, 9, 1))
    assert nurse.get(address).status_code == 404
    rows = AccessLog.objects.filter(subject_uuid=stoma.uuid).order_by("id")
    actions = [row.action for row in rows if row.action != "opened to change"]
    assert actions == ["added", "corrected", "closed"]


def test_closing_needs_a_day(nurse: Client) -> None:
    stoma = StomaFactory()
    address = reverse("patients:stoma_close", args=[stoma.patient.uuid, stoma.uuid])
    seen = nurse.get(address).context["form"]["seen"].value()
    page = nurse.post(address, {"closed_on": "", "seen": seen})
    assert page.context["form"].errors == {"closed_on": ["Give the date."]}


def test_another_patients_parts_are_not_found(nurse: Client) -> None:
    stranger, stoma, one = PatientFactory(), StomaFactory(), SensitivityFactory()
    for name, part in (
        ("patients:stoma_correct", stoma),
        ("patients:stoma_close", stoma),
        ("patients:sensitivity_remove", one),
    ):
        assert nurse.post(reverse(name, args=[stranger.uuid, part.uuid])).status_code == 404


def test_adding_and_removing_a_sensitivity_keeps_history(nurse: Client) -> None:
    patient = PatientFactory()
    data = {"material": "latex", "reaction": "Weals", "confirmed_by_patch_test": "yes"}
    nurse.post(reverse("patients:sensitivity_add", args=[patient.uuid]), data)
    one = patient.sensitivities.get()
    address = reverse("patients:sensitivity_remove", args=[patient.uuid, one.uuid])
    assert "Say why" in nurse.post(address).content.decode()
    nurse.post(address, {"why": "mistake"})
    assert not patient.sensitivities.exists()
    assert AccessLog.objects.get(action="removed").detail == "Recorded by mistake"
    events = apps.get_model("patients", "SensitivityEvent")._default_manager
    labels = events.order_by("pgh_id").values_list("pgh_label", flat=True)
    assert list(labels) == ["insert", "delete"]
