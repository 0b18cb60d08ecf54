"""The front desk reads nothing clinical, prints for people of the day or recalled by name, and gets
each paper as a file."""

import re
from datetime import timedelta
from html import unescape
from typing import Any

import pytest
from django.test import Client
from django.urls import get_resolver, reverse
from django.utils import timezone
from pytest_django import Settings

from clinic.accounts.models import Role
from clinic.accounts.permissions import ROLE_RIGHTS, Right
from clinic.audit.models import AccessLog
from clinic.documents.desk import days_of_papers
from clinic.follow_up.models import FollowUp, Move
from clinic.patients.found_beyond_doubt import RECALLED, names_beyond_doubt
from clinic.patients.models import Patient
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment
from tests.clinic.access import table
from tests.clinic.documents.made_papers import printed_paper
from tests.clinic.documents.made_visits import signed_as_planned
from tests.clinic.plans.signed_visits import signed
from tests.clinic.test_access import patterns
from tests.factories.accounts import UserFactory
from tests.factories.complications import ComplicationFactory
from tests.factories.patients import SensitivityFactory
from tests.factories.tasks import TaskFactory

pytestmark = pytest.mark.django_db
NURSE_READS = (
    *("patients:record", "charting:visit", "trends:stoma", "complications:of_stoma"),
    *("follow_up:reschedule", "clinic_day:day", "visits:history"),
)


@pytest.fixture(autouse=True)
def _open_daily_and_quickly_set(settings: Settings, monkeypatch: pytest.MonkeyPatch) -> None:
    settings.CLINIC_CLOSED_WEEKDAYS = frozenset()
    monkeypatch.setattr("clinic.documents.rendering.pdf.fitting", lambda *_, **__: b"%PDF-1.7")


def signed_in(role: Role) -> Client:
    client = Client()
    client.force_login(UserFactory.create(role=role))
    return client


def due(made: Assessment, days: int = 0) -> Assessment:
    """As if the visit had asked for a day so many days from now."""
    day = timezone.localdate() + timedelta(days=days)
    FollowUp.objects.filter(set_by=made).update(due=day)
    return made


def with_findings() -> Assessment:
    """A leak, a dark stoma, what the record knows beside them, a task, a day moved for a reason."""
    made = due(signed(leaking=True, measurement__colour="black_brown_grey"))
    person = made.stoma.patient
    Patient.objects.filter(pk=person.pk).update(
        diabetes=True, dementia=True, notes="Frightened of haemorrhage since Easter"
    )
    SensitivityFactory(patient=person, reaction="Blistering overnight")
    ComplicationFactory(stoma=made.stoma)
    TaskFactory(patient=person)
    moved(made, "sooner", "weeping ulcer")
    return made


def moved(made: Assessment, reason: str, words: str) -> None:
    Move.objects.create(
        follow_up=FollowUp.objects.get(set_by=made),
        was=timezone.localdate() + timedelta(days=5),
        became=timezone.localdate(),
        reason=reason,
        words=words,
        by=made.visit.clinician,
        at=timezone.now(),
    )


def ids_of(made: Assessment) -> dict[str, Any]:
    return {
        "patient": made.stoma.patient.uuid,
        "stoma": made.stoma.uuid,
        "assessment": made.uuid,
        "visit": made.visit.uuid,
        "document": printed_paper(made).uuid,
    }


def words_of(page: str) -> set[str]:
    """Four letters and more, of everything a person reads or a browser keeps."""
    text = re.sub(r"(?s)<style.*?</style>|<script.*?</script>", " ", page)
    spoken = " ".join(re.findall(r'(?:title|alt|aria-label|placeholder|content)="([^"]*)"', text))
    shown = unescape(re.sub(r"<[^>]*>", " ", text) + " " + spoken)
    return set(re.findall(r"[^\W\d_]{4,}", shown.lower()))


def desk_pages() -> dict[str, set[str]]:
    """By name, every page that the desk may open, with the parts of its address."""
    held = ROLE_RIGHTS[Role.DESK]
    opens = {
        n for n, row in table().items() if not isinstance(row.takes, Right) or row.takes in held
    }
    return {
        name: set(url.pattern.converters)
        for name, url in patterns(get_resolver())
        if name in opens and not name.startswith(("mfa_", "account_", "accounts:session_end"))
    }


def read_at_desk(client: Client, made: Assessment) -> tuple[set[str], int]:
    """All words of every page and answer, and how many papers came as files."""
    ids, words, files = ids_of(made), set(), 0
    asked = {"words": made.stoma.patient.record_number}
    answers = {"results": client.post(reverse("patients:results"), asked)}
    for name, parts in desk_pages().items():
        assert parts <= set(ids), f"{name}: give this test a row for {parts}"
        address = reverse(name, kwargs={part: ids[part] for part in parts})
        answers[name] = client.get(address)
    for name, answer in answers.items():
        assert answer.status_code < 500, name
        heads = " ".join(f"{k} {v}" for k, v in answer.headers.items())
        words |= words_of(str(answer.headers.get("Content-Disposition", "")))
        if answer.headers["Content-Type"] == "application/pdf":
            assert "attachment" in heads, name
            files += 1
        else:
            words |= words_of(answer.content.decode())
    return words, files


def test_no_page_of_the_desk_has_a_word_of_the_findings() -> None:
    """Words of a record full of findings that the desk does not read of one with none."""
    nurse, desk = signed_in(Role.NURSE), signed_in(Role.DESK)
    nothing = due(signed(well_fitting=True))
    moved(nothing, "patient_asked", "")
    plain, papers = read_at_desk(desk, nothing)
    FollowUp.objects.filter(set_by=nothing).update(due=timezone.localdate() + timedelta(days=400))
    made = with_findings()
    ids = ids_of(made)
    clinical: set[str] = set()
    for name in NURSE_READS:
        parts = dict(patterns(get_resolver()))[name].pattern.converters
        answer = nurse.get(reverse(name, kwargs={part: ids[part] for part in parts}))
        assert answer.status_code == 200, name
        clinical |= words_of(answer.content.decode())
    for one in Referral.objects.filter(assessment=made):
        address = reverse("referrals:referral", args=[one.uuid])
        clinical |= words_of(nurse.get(address).content.decode())
    person = made.stoma.patient
    clinical.discard("nothing")  # some papers there are not: "Nothing to print", without a why
    clinical -= plain | words_of(f"{person.full_name} {made.visit.clinician.display_name}")
    for word in ("ileostomy", "haemorrhage", "blistering", "weeping", "diabetes"):
        assert word in clinical
    # A choice of the desk's own form, yet not said of anybody there.
    moves = reverse("follow_up:reschedule", args=[made.uuid])
    said = ": To be seen sooner"
    assert said in nurse.get(moves).content.decode()
    assert said not in desk.get(moves).content.decode()
    read, files = read_at_desk(desk, made)
    assert papers >= 6  # an emergency has fewer
    assert files >= 3
    assert not read & clinical, sorted(read & clinical)


def test_papers_are_of_the_day_or_of_somebody_recalled() -> None:
    desk, made = signed_in(Role.DESK), due(signed_as_planned("well_fitting"), 30)
    person = made.stoma.patient
    born = f"{person.date_of_birth:%d %b %Y}"
    sheet = reverse("documents:care_sheet", args=[made.uuid])
    again = reverse("documents:printed", args=[printed_paper(made).uuid])
    record = reverse("patients:record", args=[person.uuid])
    search = reverse("patients:results")

    def open_to(client: Client) -> bool:
        got = {client.get(one).status_code for one in (sheet, again)}
        assert got in ({200}, {409})
        listed = sheet in client.get(record).content.decode()
        assert listed == (got == {200})
        return listed

    assert not open_to(desk)
    assert AccessLog.objects.filter(action="asked for papers", patient_uuid=person.uuid).exists()
    for vague in (person.family_name, person.full_name, born, f"{person.family_name} {born}"):
        desk.post(search, {"words": vague})
        assert not open_to(desk), vague
    for sure in (f"{person.full_name} {born}", person.record_number.lower()):
        other = signed_in(Role.DESK)
        other.post(search, {"words": sure})
        assert open_to(other), sure
        session = other.session
        session[RECALLED.key] = {str(person.uuid): 1.0}
        session.save()
        assert not open_to(other)
    # Those who see clinical matters print as before, and look at it first.
    assert signed_in(Role.NURSE).get(sheet).headers["Content-Disposition"].startswith("inline")
    for ahead in range(len(days_of_papers())):
        due(made, ahead)
        assert open_to(desk)
    due(made, 2)
    assert not open_to(desk)


def test_a_name_is_whole_whatever_its_case_and_accents() -> None:
    person = Patient(
        record_number="K-204", given_name="Zoë Ann", family_name="Wisp", date_of_birth="1961-04-05"
    )
    person.clean_fields(exclude=["record_number"])
    for sure in ("zoe ann WISP 5 Apr 1961", "Wisp, Zoë Ann, 1961-04-05", "k-204"):
        assert names_beyond_doubt(sure, person), sure
    for vague in ("Wisp 5 Apr 1961", "Zoë Ann Wisp", "Zoë Ann Wisp 6 Apr 1961", "k-20", ""):
        assert not names_beyond_doubt(vague, person), vague


def test_the_days_sheets_at_the_desk_are_of_today_and_the_next_open_day() -> None:
    desk, made = signed_in(Role.DESK), due(signed_as_planned("well_fitting"), 9)
    name = made.stoma.patient.list_name
    address = reverse("documents:day_sheets")
    day = {"day": str(timezone.localdate() + timedelta(days=9))}
    assert name not in desk.get(address, day).content.decode()
    assert name in signed_in(Role.NURSE).get(address, day).content.decode()
    assert desk.post(address, {"sheet": [made.uuid], **day}).status_code == 404
    ready = reverse("documents:day_sheet_ready")
    assert desk.post(ready, {"sheet": [made.uuid]}).status_code == 404
    due(made, 1)
    assert name in desk.get(address, {"day": str(days_of_papers()[1])}).content.decode()
    assert desk.post(ready, {"sheet": [made.uuid]}).status_code == 200
