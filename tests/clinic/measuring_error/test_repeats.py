"""A repeat is charted blind, kept as it was, withdrawn with a reason, and used from then on."""

from __future__ import annotations

from datetime import timedelta
from decimal import Decimal
from typing import Any
from uuid import uuid4

import pytest
from django.core.exceptions import ValidationError
from django.db import DatabaseError, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from clinic.accounts.models import Role
from clinic.audit.models import AccessLog
from clinic.plans.course import course_at, course_of, plans_of
from clinic.plans.measuring_error import LEAST, errors_at, estimates_now
from clinic.plans.own_figures import own_figures
from clinic.repeats.models import RepeatMeasurement
from clinic.visits.models import Assessment, Confirmation, PhotoMeasurement, StomaMeasurement
from planning.course.errors import ASSUMED, TWO_NURSES
from tests.clinic.plans.signed_visits import reread, signed
from tests.factories.accounts import UserFactory
from tests.factories.repeats import RepeatFactory
from tests.factories.visits import AssessmentFactory, PhotoFactory, VisitFactory

pytestmark = pytest.mark.django_db

#: Unlike anything else on a page.
OWN = {"measurement__length_mm": Decimal("37.3"), "measurement__protrusion_mm": Decimal("-3.7")}


def today(**more: Any) -> Assessment:
    visit = VisitFactory(happened_at=timezone.now())
    return AssessmentFactory(
        visit=visit, stoma__patient=visit.patient, **({"leaking": True} | OWN | more)
    )


def typed(assessment: Assessment, **changed: Any) -> dict[str, Any]:
    """What the second nurse posts; the signed-in one unless changed."""
    local = timezone.localtime()
    return {
        "once": str(uuid4()),
        "at": f"{local:%H:%M}",
        "first_by": str(assessment.visit.clinician.uuid),
        "known_before": "no",
        "posture": "same",
        "length_mm": "38,5",
        "width_mm": "29",
        "protrusion_mm": "-5",
        "skin": "damaged",
        "hours_1": ["5", "6"],
        "inner_1": "0",
        "outer_1": "12",
    } | changed


def charted(client: Client, one: Assessment, by: Any = None, **changed: Any) -> Any:
    nurse = by or UserFactory()
    client.force_login(nurse)
    sent = {"measured_by": str(nurse.uuid)} | typed(one, **changed)
    return client.post(reverse("measuring_error:chart", args=[one.uuid]), sent)


def test_the_second_nurse_sees_the_first_reading_only_after_saving(client: Client) -> None:
    one = today()
    stored = StomaMeasurement.objects.values().get()
    client.force_login(UserFactory())
    form = client.get(reverse("measuring_error:chart", args=[one.uuid])).content.decode()
    assert "37.3" not in form
    assert "3.7" not in form
    answer = charted(client, one)
    row = RepeatMeasurement.objects.get()
    assert answer.headers["Location"] == reverse("measuring_error:show", args=[row.uuid])
    shown = client.get(answer.headers["Location"]).content.decode()
    for words in ("37.3 mm", "38.5 mm", "\N{MINUS SIGN}3.7 mm", "\N{MINUS SIGN}5 mm", "1.3 mm"):
        assert words in shown
    assert "Counts towards this clinic" in shown
    assert (row.first_length_mm, row.length_mm) == (Decimal("37.3"), Decimal("38.5"))
    assert row.area_mm2 is not None
    assert row.first_area_mm2 is not None
    assert row.first_area_mm2 > row.area_mm2
    # The visit's own figures are what they were.
    assert StomaMeasurement.objects.values().get() == stored
    did = set(AccessLog.objects.filter(subject_uuid=row.uuid).values_list("action", flat=True))
    assert did == {"charted repeat", "viewed"}


def test_sent_twice_it_is_one(client: Client) -> None:
    one, key, nurse = today(), str(uuid4()), UserFactory()
    for _ in range(2):
        assert charted(client, one, nurse, once=key).status_code == 302
    assert RepeatMeasurement.objects.count() == 1


@pytest.fixture
def draft_today(db: None) -> Assessment:
    return today()


@pytest.mark.parametrize(
    ("changed", "field", "words"),
    [
        ({"length_mm": "nan"}, "length_mm", "Write a number"),
        ({"width_mm": "inf"}, "width_mm", "Write a number"),
        ({"protrusion_mm": "-Infinity"}, "protrusion_mm", "Write a number"),
        ({"length_mm": "-4"}, "length_mm", "At least 0.1 mm"),
        ({"length_mm": "0"}, "length_mm", "At least 0.1 mm"),
        ({"width_mm": "301"}, "width_mm", "At most 300 mm"),
        ({"protrusion_mm": "-151"}, "protrusion_mm", "At least"),
        ({"length_mm": "38.55"}, "length_mm", "one digit"),
        ({"outer_1": "nan"}, "outer_1", "Write a number"),
        ({"inner_1": "-1"}, "inner_1", "At least 0 mm"),
        ({"outer_1": "0"}, "outer_1", "Farther out"),
        ({"outer_1": ""}, "outer_1", "how far"),
        ({"hours_1": []}, "hours_1", "which hours"),
        ({"hours_1": ["13"]}, "hours_1", "valid choice"),
        ({"hours_1": [], "inner_1": "", "outer_1": ""}, "hours_1", "damaged"),
        ({"skin": "intact"}, "skin", "choose Damaged"),
        ({"width_mm": ""}, "width_mm", "area needs length and width"),
        ({"outer_1": "300", "hours_1": list("123456789")}, "skin", "more skin than"),
        ({"posture": "other"}, "posture", "two postures are not repeats"),
        ({"posture": ""}, "posture", "which posture"),
        ({"known_before": ""}, "known_before", "yes or no"),
        ({"first_by": ""}, "first_by", "not known is an answer"),
        ({"measured_by": str(uuid4())}, "measured_by", "valid choice"),
        ({"at": "half past"}, "at", "not a time"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(
    client: Client, draft_today: Assessment, changed: dict[str, Any], field: str, words: str
) -> None:
    answer = charted(client, draft_today, **changed)
    assert answer.status_code == 422
    errors = answer.context["form"].errors
    assert words in str(errors[field])
    assert set(errors) == {field}
    assert not RepeatMeasurement.objects.exists()


def test_nothing_measured_and_a_time_to_come_are_refused(client: Client) -> None:
    one = today()
    nothing = dict.fromkeys(("length_mm", "width_mm", "protrusion_mm", "inner_1", "outer_1"), "")
    answer = charted(client, one, skin="", hours_1=[], **nothing)
    assert "at least one figure" in str(answer.context["form"].errors["length_mm"])
    later = timezone.localtime() + timedelta(minutes=5)
    if later.date() == timezone.localdate():
        answer = charted(client, one, at=f"{later:%H:%M}")
        assert "later than now" in str(answer.context["form"].errors["at"])


def test_only_on_the_day_of_the_visit_and_beside_figures_of_its_own(client: Client) -> None:
    before = AssessmentFactory(leaking=True)
    answer = charted(client, before)
    assert (answer.status_code, answer.context["refused"][:8]) == (422, "A repeat")
    bare = today(leaking=False, **dict.fromkeys(OWN))
    StomaMeasurement.objects.filter(assessment=bare).delete()
    answer = charted(client, bare)
    assert answer.context["refused"].startswith("The visit has no figure of its own")
    assert not RepeatMeasurement.objects.exists()


def test_what_was_taken_over_from_the_last_visit_is_no_reading_of_the_day() -> None:
    one, last = today(), AssessmentFactory()
    assert own_figures(reread(one))["protrusion_mm"] == Decimal("-3.7")
    assert None not in own_figures(reread(one)).values()
    Confirmation.objects.create(
        assessment=one,
        section="stoma",
        against=last,
        fields=[],
        by=one.visit.clinician,
        at=timezone.now(),
    )
    assert set(own_figures(reread(one)).values()) == {None}


def test_a_size_from_a_photo_is_no_reading_of_a_ruler() -> None:
    one = today()
    PhotoMeasurement.objects.create(
        photo=PhotoFactory(assessment=one),
        by=one.visit.clinician,
        at=timezone.now(),
        marks={},
        result={"length_mm": [37.3, 1.2], "width_mm": [28.0, 1.2]},
    )
    own = own_figures(reread(one))
    assert (own["length_mm"], own["width_mm"], own["area_mm2"]) == (None, None, None)
    assert own["protrusion_mm"] == Decimal("-3.7")


def test_it_never_changes_and_is_withdrawn_once(client: Client) -> None:
    row = RepeatFactory()
    for change in ({"protrusion_mm": 30}, {"first_protrusion_mm": 30}, {"known_before": True}):
        with pytest.raises(DatabaseError), transaction.atomic():
            RepeatMeasurement.objects.filter(pk=row.pk).update(**change)
    with pytest.raises(DatabaseError), transaction.atomic():
        row.delete()
    client.force_login(UserFactory())
    page = reverse("measuring_error:withdraw", args=[row.uuid])
    assert "Say why." in client.post(page, {}).content.decode()
    assert client.post(page, {"why": "posture"}).status_code == 302
    row.refresh_from_db()
    assert (row.withdrawn_why, row.protrusion_mm) == ("posture", 21)
    assert client.post(page, {"why": "mistake"}).status_code == 404
    with pytest.raises(DatabaseError), transaction.atomic():
        RepeatMeasurement.objects.filter(pk=row.pk).update(withdrawn_why="mistake")
    assert AccessLog.objects.filter(action="withdrew", subject_uuid=row.uuid).count() == 1
    shown = client.get(reverse("measuring_error:show", args=[row.uuid])).content.decode()
    assert "not measured in the same posture" in shown
    assert "Counts towards" not in shown


@pytest.mark.parametrize(
    "wrong",
    [
        {"first_protrusion_mm": None},
        {"protrusion_mm": None},
        {"protrusion_mm": 501},
        {"length_mm": -1, "first_length_mm": 30},
        {"area_mm2": -1, "first_area_mm2": 30},
        {"area_mm2": Decimal("NaN"), "first_area_mm2": 30},
        {"withdrawn_why": "mistake"},
    ],
)
def test_the_database_refuses_it_too(wrong: dict[str, Any]) -> None:
    with pytest.raises((DatabaseError, ValidationError)), transaction.atomic():
        RepeatFactory(**wrong)


def many(count: int, **each: Any) -> list[RepeatMeasurement]:
    return [RepeatFactory(**each) for _ in range(count)]


def test_the_clinics_own_error_is_used_from_then_on_and_said(
    client: Client, django_assert_num_queries: Any
) -> None:
    """Known on the day: a signed visit and its plan stay as they were, whatever comes later."""
    first = signed(leaking=True)
    plan = first.plan.plan
    now = timezone.now()
    rows = many(LEAST - 1, protrusion_mm=24, recorded_at=now)
    # None of these counts: seen before, by an unknown nurse, the second of one visit, one nurse.
    RepeatFactory(known_before=True, recorded_at=now)
    RepeatFactory(first_by=None, recorded_at=now)
    RepeatFactory(assessment=rows[0].assessment, protrusion_mm=90, recorded_at=now)
    RepeatFactory(measured_by=rows[0].assessment.visit.clinician, assessment=rows[0].assessment)
    with django_assert_num_queries(1):
        assert errors_at() == TWO_NURSES
    last = RepeatFactory(protrusion_mm=24, recorded_at=now)
    with django_assert_num_queries(1):
        used = errors_at().height
    assert used.words.startswith(f"this clinic's own, from {LEAST} repeats, 95 % interval ")
    # 4 mm apart each; chi-squared with 20 degrees of freedom, lower 2.5 %: 9.591 (tables).
    assert used.sem == pytest.approx(4 / 2**0.5 * (20 / 9.591) ** 0.5, abs=1e-3)
    stoma = first.stoma
    assert course_of(stoma).errors.height == used
    assert course_of(stoma, today=timezone.localdate() - timedelta(days=1)).errors == TWO_NURSES
    # The signed visit is judged by what was known when it was signed.
    at_signing = course_at(first, course_of(stoma).visits[0].findings, list(plans_of(stoma.pk)))
    assert at_signing.errors == TWO_NURSES
    assert reread(first).plan.plan == plan
    draft = AssessmentFactory(stoma=stoma, visit__patient=stoma.patient, leaking=True)
    findings = course_of(stoma).visits[0].findings
    assert course_at(draft, findings, []).errors.height == used
    client.force_login(UserFactory())
    trend = client.get(reverse("trends:stoma", args=[stoma.uuid])).content.decode()
    assert "this clinic&#x27;s own, from 20 repeats" in trend
    assert f"size 1 mm, {ASSUMED}" in trend
    client.force_login(UserFactory(role=Role.LEAD))
    page = client.get(reverse("measuring_error:clinic")).content.decode()
    assert "this clinic&#x27;s own, from 20 repeats" in page
    assert "figures were known before measuring" in page
    assert stoma.patient.family_name not in page
    # Withdrawn, it no longer counts from then on; before, it did.
    then = timezone.now()
    by = last.recorded_by
    RepeatMeasurement.objects.filter(pk=last.pk).update(
        withdrawn_at=then + timedelta(seconds=1), withdrawn_by=by, withdrawn_why="mistake"
    )
    assert errors_at() == TWO_NURSES
    assert errors_at(then).height == used


def test_one_nurses_repeats_are_estimated_apart_and_used_for_nothing() -> None:
    for _ in range(LEAST):
        one = AssessmentFactory()
        RepeatFactory(assessment=one, measured_by=one.visit.clinician)
    assert errors_at() == TWO_NURSES
    two, same = estimates_now()
    assert [row.repeats for row in two] == [0, 0, 0]
    assert [row.repeats for row in same] == [0, LEAST, 0]
    assert (same[1].assumed, same[1].used) == ("1 mm", "")
    assert same[1].own.startswith("0.71 mm (95 % interval ")
    assert two[1].own.startswith("too few to say")


def test_both_are_beside_the_visit_that_was_signed(client: Client) -> None:
    row = RepeatFactory(assessment=signed(leaking=True))
    client.force_login(UserFactory())
    page = client.get(reverse("charting:visit", args=[row.assessment.visit.uuid])).content.decode()
    assert "Measured again" in page
    assert "protrusion 21 mm (visit 20 mm)" in page
