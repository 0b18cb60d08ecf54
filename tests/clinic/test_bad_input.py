"""Input that no one could have meant, class by class: refused with words, and nothing is lost."""

import io
from collections.abc import Iterator
from datetime import date
from typing import Any

import pytest
from django import forms
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import get_resolver, reverse

from clinic.bad_input import BESIDE_A_FIELD, BROKEN, refuse_broken, utf8_only
from clinic.patients.models import Patient, Stoma
from clinic.requests import whole_number
from clinic.visits.choices import SectionKey
from tests.clinic.test_access import patterns
from tests.clinic.visits.posting import posted
from tests.factories.accounts import UserFactory
from tests.factories.complications import ComplicationFactory
from tests.factories.patients import PatientFactory, StomaFactory
from tests.factories.visits import PIXEL, AssessmentFactory, PhotoFactory

pytestmark = pytest.mark.django_db
FORM = "application/x-www-form-urlencoded"
PARTS = "multipart/form-data; boundary=edge"
REFUSED = "That request could not be read"


@pytest.fixture
def nurse(client: Client) -> Client:
    client.force_login(UserFactory())
    # As the server's own application (clinic/wsgi.py).
    client.handler = utf8_only(client.handler)
    return client


@pytest.mark.parametrize(
    "sent",
    [b"Odi%00le", b"Odi%FFle", b"Odi%ED%A0%80le"],
    ids=["NUL", "no UTF-8", "half of a character"],
)
def test_a_text_that_came_broken_is_refused_beside_its_field(nurse: Client, sent: bytes) -> None:
    body = b"record_number=R1&family_name=Owlsworth&date_of_birth=5+Apr+1961&given_name=" + sent
    answer = nurse.post(reverse("patients:register"), body, content_type=FORM)
    assert answer.status_code == 200
    page = answer.content.decode()
    field = page.partition('id="div_id_given_name"')[2].partition('id="div_id_')[0]
    assert BESIDE_A_FIELD in field
    # What was typed is still there, with the sign where it broke.
    assert f'value="Odi{BROKEN}' in page
    assert 'value="Owlsworth"' in page
    assert not Patient.objects.exists()


def test_a_body_or_query_in_bare_bytes_is_refused(nurse: Client) -> None:
    """Django would read all of it, good text too, as Latin-1."""
    address = reverse("patients:results")
    body = "words=é&x=".encode() + b"\xff"
    assert nurse.post(address, body, content_type=FORM).status_code == 400
    assert nurse.get("/", QUERY_STRING="page=\xff").status_code == 400


def every_form() -> Iterator[Any]:
    dict(patterns(get_resolver()))  # loads the views, and so their forms

    def below(kind: Any) -> Iterator[Any]:
        for one in kind.__subclasses__():
            yield one
            yield from below(one)

    yield from below(forms.BaseForm)


def test_every_field_of_text_refuses_it() -> None:
    own = (forms.EmailField, forms.SlugField, forms.URLField)  # they refuse it by their own rule
    fields = [
        (form, name, field)
        for form in every_form()
        for name, field in getattr(form, "base_fields", {}).items()
        if isinstance(field, forms.CharField) and not isinstance(field, own)
    ]
    assert len(fields) > 100
    assert not [one[:2] for one in fields if refuse_broken not in one[2].validators]


def test_a_caption_and_the_words_of_a_sheet_are_no_forms_fields_and_refuse_it_too(
    nurse: Client,
) -> None:
    assessment = AssessmentFactory(leaking=True)
    photos = reverse("visits:photo_add", args=[assessment.uuid])
    picture = SimpleUploadedFile("a.jpg", PIXEL)
    page = nurse.post(photos, {"picture": picture, "caption": "a\0b"})
    assert page.status_code == 422
    assert BESIDE_A_FIELD in page.content.decode()


def test_a_broken_query_or_cookie_is_refused_and_a_broken_path_is_no_page(nurse: Client) -> None:
    answer = nurse.get("/?page=%00")
    assert answer.status_code == 400
    assert REFUSED in answer.content.decode()
    assert answer.headers["Cache-Control"] == "no-store"
    assert "Content-Security-Policy" in answer.headers
    assert nurse.get("/patients/%00/").status_code == 404
    assert nurse.get("/patients/%FF/").status_code == 404
    assert nurse.get("/", HTTP_COOKIE='session="a\\000b"').status_code == 400


@pytest.mark.parametrize("charset", ["latin-1", "utf-16", "hex", "rot13", "no-such", '"utf-7"'])
@pytest.mark.parametrize("kind", [FORM, PARTS, "text/plain"])
def test_another_charset_is_refused(nurse: Client, kind: str, charset: str) -> None:
    address = reverse("patients:results") + "?x=1"
    answer = nurse.generic("POST", address, b"words=a", f"{kind}; charset={charset}")
    assert answer.status_code == 400
    assert REFUSED in answer.content.decode()


@pytest.mark.parametrize("length", ["x", "-1", "²", "9" * 5000])
def test_a_length_that_is_none_is_refused(nurse: Client, length: str) -> None:
    address = reverse("patients:results")
    for kind in (FORM, PARTS, "text/plain"):
        answer = nurse.generic("POST", address, b"words=a", kind, CONTENT_LENGTH=length)
        assert answer.status_code == 400, kind


def test_a_body_that_ends_too_soon_is_refused(nurse: Client) -> None:
    class Ended(io.RawIOBase):
        def read(self, _size: int = -1) -> bytes:
            raise OSError

    for kind in (FORM, PARTS):
        sent: Any = {"wsgi.input": Ended()}
        answer = nurse.generic("POST", reverse("patients:results"), b"words=a", kind, **sent)
        assert answer.status_code == 400, kind


@pytest.mark.parametrize("charset", ["utf-8", "UTF-8", '"utf-8"', "utf8"])
def test_our_own_charset_may_be_named(nurse: Client, charset: str) -> None:
    answer = nurse.post(
        reverse("patients:results"), b"words=a", content_type=f"{FORM}; charset={charset}"
    )
    assert answer.status_code == 200


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("multipart/form-data", b"x"),
        ("multipart/form-data; boundary=", b"x"),
        ("multipart/form-data; boundary=\xe9", b"x"),
        (PARTS, b'--edge\r\nContent-Disposition: form-data; name="a"\r\nX: ' + b"y" * 70_000),
        (
            PARTS,
            b"--edge\r\nContent-Transfer-Encoding: base64\r\n"
            b'Content-Disposition: form-data; name="a"; filename="a"\r\n\r\n!\r\n--edge--',
        ),
    ],
    ids=["no boundary", "empty boundary", "odd boundary", "endless header", "no base64"],
)
def test_a_body_in_broken_parts_is_refused(nurse: Client, kind: str, body: bytes) -> None:
    answer = nurse.post(reverse("patients:results"), body, content_type=kind)
    assert answer.status_code == 400


@pytest.mark.parametrize(
    ("path", "kind", "body"),
    [
        ("", FORM, b"&".join([b"a=1"] * 1001)),
        ("", FORM, b"a=" + b"x" * 3_000_000),
        ("", PARTS, b'--edge\r\nContent-Disposition: form-data; name="a"\r\n\r\nx\r\n' * 1010),
        (
            "",
            PARTS,
            b'--edge\r\nContent-Disposition: form-data; name="a"; filename="a"\r\n\r\nx\r\n' * 101,
        ),
        ("?" + "&".join(["a=1"] * 1001), FORM, b""),
    ],
    ids=["fields", "length", "parts", "files", "query"],
)
def test_too_much_at_once_is_refused_in_words(
    nurse: Client, path: str, kind: str, body: bytes
) -> None:
    answer = nurse.post(reverse("patients:results") + path, body, content_type=kind)
    assert answer.status_code == 400
    assert "Too much was sent at once" in answer.content.decode()


@pytest.mark.parametrize("typed", ["9" * 10, "9" * 5000, "-1", "²", "٤", "1e3", "", "x", None])
def test_a_number_that_no_column_holds_is_none(typed: str | None) -> None:
    assert whole_number(typed) is None


def test_an_oversize_number_is_refused_in_address_query_and_body(nurse: Client) -> None:
    huge = "9" * 400
    assessment = AssessmentFactory(leaking=True)
    assert nurse.get(f"/sign-in/second-factor/webauthn/keys/{huge}/edit/").status_code == 302
    assert nurse.get(f"/visits/photos/{huge}/").status_code == 404
    for number in (huge, "9" * 5000, "-1"):
        assert nurse.get(f"/?page={number}&overdue={number}").status_code == 200
    chart = reverse("charting:save", args=[assessment.uuid])
    sent = posted(assessment)
    sent["version"], sent["stoma-length_mm"] = str(assessment.visit.version), huge
    assert nurse.post(chart, sent.urlencode(), content_type=FORM).status_code == 422
    page = nurse.get(reverse("charting:chart", args=[assessment.uuid]))
    assert huge in page.content.decode(), "what was typed is still there"


def test_correcting_a_closed_stoma_to_a_later_surgery_is_refused_beside_the_date(
    nurse: Client,
) -> None:
    stoma = StomaFactory(surgery_date=date(2024, 3, 14), closed_on=date(2025, 6, 1))
    address = reverse("patients:stoma_correct", args=[stoma.patient.uuid, stoma.uuid])
    form = nurse.get(address).context["form"]
    sent = {name: form[name].value() or "" for name in form.fields}
    page = nurse.post(address, {**sent, "surgery_date": "2 Jun 2025"})
    assert page.status_code == 200
    words = "Made on 2 Jun 2025 and closed on 1 Jun 2025: it cannot be closed before it is made."
    assert page.context["form"].errors == {"surgery_date": [words]}
    assert 'value="2 Jun 2025"' in page.content.decode()
    assert Stoma.objects.get().surgery_date == date(2024, 3, 14)


def test_what_hangs_on_a_closed_stoma_can_be_corrected(nurse: Client) -> None:
    row = ComplicationFactory(stoma=StomaFactory(closed_on=date(2025, 6, 1)))
    address = reverse("complications:correct", args=[row.uuid])
    form = nurse.get(address).context["form"]
    sent = {name: form[name].value() or "" for name in form.fields}
    assert nurse.post(address, {**sent, "done": "Widened."}).status_code == 302
    row.refresh_from_db()
    assert row.done == "Widened."


def test_a_draft_of_a_stoma_closed_in_the_meantime_is_saved_and_says_so(nurse: Client) -> None:
    assessment = AssessmentFactory()
    Stoma.objects.update(closed_on=date(2025, 5, 1))
    sent = posted(assessment, **{"whole-not_looked_at": [SectionKey.SKIN]})
    answer = nurse.post(
        reverse("charting:save", args=[assessment.uuid]), sent.urlencode(), content_type=FORM
    )
    assert answer.status_code == 422
    assert "This stoma was closed before the visit." in answer.content.decode()
    assessment.refresh_from_db()
    assert assessment.not_looked_at == [SectionKey.SKIN]


def test_marks_on_a_photo_are_read_within_limits(nurse: Client) -> None:
    address = reverse("charting:measure_photo", args=[PhotoFactory().pk])
    huge = f'{{"card": {"9" * 999}}}'
    for marks in ("[" * 15_000, '{"a":' * 3000, '{"card": [[1e999, 0, 1]]}', huge):
        page = nurse.post(address, {"marks": marks})
        assert page.status_code in {200, 422}
        assert "marks" in page.context["form"].errors


@pytest.mark.parametrize("method", ["PUT", "PATCH", "DELETE", "TRACE", "FOO"])
def test_an_odd_method_is_not_answered(nurse: Client, method: str) -> None:
    patient = PatientFactory()
    for name in ("patients:record", "patients:correct", "patients:contacts"):
        answer = nurse.generic(method, reverse(name, args=[patient.uuid]), b"family_name=x")
        assert answer.status_code == 405, name


def test_fields_that_no_form_has_change_nothing(nurse: Client) -> None:
    patient = PatientFactory(family_name="Owlsworth")
    address = reverse("patients:sensitivities_asked", args=[patient.uuid])
    form = nurse.get(address).context["form"]
    sent = {name: form[name].value() or "" for name in form.fields}
    nurse.post(address, {**sent, "family_name": "x", "__class__": "x", "id": "9"})
    patient.refresh_from_db()
    assert patient.family_name == "Owlsworth"
