"""Who is due, how late, what is behind it; moving a day."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.db import DatabaseError, connection, transaction
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone
from pytest_django import DjangoAssertNumQueries, Settings

from clinic import formatting
from clinic.accounts.models import Role, User
from clinic.audit.models import AccessLog
from clinic.clinic_day.views import BESIDE, DRAFTS
from clinic.follow_up.actions import NewDay, reschedule
from clinic.follow_up.models import FollowUp, Move, MoveReason
from clinic.referrals.models import Referral
from clinic.visits.models import Assessment
from clinic.visits.policies import NotAllowedNow
from tests.clinic.plans.signed_visits import signed
from tests.factories.accounts import UserFactory
from tests.factories.clinic_details import HolidayFactory
from tests.factories.patients import TelephoneFactory
from tests.factories.visits import AssessmentFactory

pytestmark = pytest.mark.django_db
TODAY = timezone.localdate


@pytest.fixture(autouse=True)
def _always_open(settings: Settings) -> None:
    """Else the tests would differ by the day they are run on."""
    settings.CLINIC_CLOSED_WEEKDAYS = frozenset()


def due(day: date, **traits: object) -> FollowUp:
    """A visit to come on ``day``, as if the last one had asked for it."""
    assessment = signed(**traits)
    FollowUp.objects.filter(set_by=assessment).update(due=day)
    return FollowUp.objects.get(set_by=assessment)


def day_page(client: Client, role: Role = Role.NURSE, day: date | None = None) -> str:
    client.force_login(UserFactory(role=role))
    asked = {"day": day.isoformat()} if day else {}
    return client.get(reverse("clinic_day:day"), asked).content.decode()


def moving(client: Client, one: FollowUp, role: Role = Role.NURSE, **given: object) -> str:
    """What the page answers; redirects are followed."""
    client.force_login(UserFactory(role=role))
    data = {"was": one.due.isoformat(), "reason": "patient_asked", **given}
    address = reverse("follow_up:reschedule", args=[one.set_by.uuid])
    return client.post(address, data, follow=True).content.decode()


@pytest.mark.parametrize(
    ("days", "said"),
    [(-30, "30 days overdue"), (-1, "1 day overdue"), (0, "Today"), (7, "In the next 7 days")],
)
def test_who_is_due_and_by_how_many_days_late(client: Client, days: int, said: str) -> None:
    one = due(TODAY() + timedelta(days=days))
    shown = day_page(client)
    assert said in shown
    assert one.stoma.patient.list_name in shown


def test_a_week_and_a_day_ahead_is_another_day(client: Client) -> None:
    one = due(TODAY() + timedelta(days=8))
    assert one.stoma.patient.record_number not in day_page(client)
    assert one.stoma.patient.record_number in day_page(client, day=one.due)
    assert one.stoma.patient.record_number not in day_page(client, day=one.due + timedelta(1))


@pytest.mark.parametrize("asked", ["soon", "0001-01-01", "9999-12-31"])
def test_nonsense_for_a_day_is_today(client: Client, asked: str) -> None:
    client.force_login(UserFactory())
    assert client.get(reverse("clinic_day:day"), {"day": asked}).context["is_today"]


def test_flags_are_for_clinicians_the_desk_sees_name_and_date(client: Client) -> None:
    one = due(TODAY(), leaking=True, measurement__colour="black_brown_grey")
    nurse, desk = day_page(client), day_page(client, Role.DESK)
    for word in ("Last plan: emergency, now", "referral without an answer", one.reason):
        assert word in nurse
        assert word not in desk
    assert one.stoma.short_name not in desk
    assert one.stoma.patient.list_name in desk
    assert reverse("follow_up:reschedule", args=[one.set_by.uuid]) in desk


@pytest.mark.parametrize("role", [Role.NURSE, Role.SURGEON])
def test_the_first_page_costs_the_same_with_many_patients(client: Client, role: Role) -> None:
    def cost() -> int:
        client.force_login(nurse)
        with CaptureQueriesContext(connection) as asked:
            client.get(reverse("clinic_day:day"))
        return len(asked)

    nurse = UserFactory(role=role)
    for days in (-1, 0, 1):
        made = due(TODAY() + timedelta(days=days))
        again(made.set_by, nurse)
    few = cost()
    for days in (-2, -1, 0, 0, 1, 2):
        made = due(TODAY() + timedelta(days=days))
        again(made.set_by, nurse)
    assert cost() == few


def again(
    about: Assessment, by: User, *, to: str = "surgeon", urgency: str = "emergency", days: int = 0
) -> Referral:
    """An emergency without an answer, unless said otherwise."""
    return Referral.objects.create(
        assessment=about,
        to=to,
        urgency=urgency,
        question="Now?",
        made_at=timezone.now() - timedelta(days=days),
        made_by=by,
    )


def test_a_surgeon_finds_first_what_is_asked_of_the_surgeon(client: Client) -> None:
    one = due(TODAY())
    Referral.objects.all().delete()
    nurse = UserFactory(role=Role.NURSE)
    surgeon = UserFactory(role=Role.SURGEON, first_name="Hazel", last_name="Quillwort")
    newer = again(one.set_by, nurse, urgency="routine", days=1)
    older = again(one.set_by, nurse, urgency="routine", days=9, to="Colorectal Surgeon")
    by_name = again(one.set_by, nurse, urgency="days", to="Dr Quillwort")
    other = again(one.set_by, nurse, urgency="two_weeks", to="physician")
    answered = again(one.set_by, nurse)
    Referral.objects.filter(pk=answered.pk).update(
        answer="Yes.", answered_at=timezone.now(), answered_by=surgeon
    )
    client.force_login(surgeon)
    page = client.get(reverse("clinic_day:day"))
    assert [row.referral for row in page.context["asked_rows"]] == [by_name, older, newer]
    assert [row.referral for row in page.context["referrals"]] == [other]
    shown = page.content.decode()
    heads = ("Unanswered surgeon referrals", "Other unanswered referrals", ">Due</h2>")
    at = [shown.index(head) for head in heads]
    assert at == sorted(at)
    for role in (Role.NURSE, Role.LEAD):
        shown = day_page(client, role)
        assert heads[0] not in shown
        assert shown.index(">Due</h2>") < shown.index("Referrals without an answer")
    # On another day it is that day's list that was asked for.
    assert heads[0] not in day_page(client, Role.SURGEON, TODAY() + timedelta(days=1))


def test_lists_are_paged(client: Client) -> None:
    first = due(TODAY() - timedelta(days=3))
    for days in range(26):
        copy = due(TODAY() - timedelta(days=days + 4), well_fitting=True)
    client.force_login(UserFactory())
    shown = client.get(reverse("clinic_day:day"))
    assert len(shown.context["overdue_rows"]) == 25
    assert "overdue=2" in shown.content.decode()
    second = client.get(reverse("clinic_day:day"), {"overdue": "2"})
    assert [row.follow_up for row in second.context["overdue_rows"]][-1] == first
    assert copy.pk
    assert str(shown.context["overdue_count"]) == "27"


@pytest.mark.parametrize("role", [Role.NURSE, Role.DESK, Role.LEAD])
def test_the_day_is_moved_with_a_reason(client: Client, role: Role) -> None:
    one = due(TODAY() + timedelta(days=5))
    to = TODAY() + timedelta(days=2)
    assert "Next visit moved" in moving(client, one, role, day=to.isoformat())
    one.refresh_from_db()
    assert one.due == to
    move = Move.objects.get()
    assert (move.was, move.became, move.reason, move.late_confirmed) == (
        TODAY() + timedelta(days=5),
        to,
        "patient_asked",
        False,
    )
    history: Any = one
    assert [e.due for e in history.events.order_by("pgh_id")][-1] == to
    row = AccessLog.objects.get(action="moved next visit")
    assert row.patient_uuid == one.stoma.patient.uuid


def test_who_is_overdue_is_listed_by_danger_except_for_the_desk(client: Client) -> None:
    first, pressing, asked, last = (
        due(TODAY() - timedelta(days=days), well_fitting=True) for days in (9, 5, 3, 2)
    )
    weigh(pressing, "telephone")
    again(asked.set_by, asked.set_by.visit.clinician, urgency="same_day")

    def listed(role: Role) -> list[FollowUp]:
        client.force_login(UserFactory(role=role))
        rows = client.get(reverse("clinic_day:day")).context["overdue_rows"]
        return [row.follow_up for row in rows]

    for role in (Role.NURSE, Role.LEAD):
        assert listed(role) == [asked, pressing, first, last]
    assert listed(Role.DESK) == [first, pressing, asked, last]


def test_the_urgency_is_that_of_the_plan_that_asked() -> None:
    one = due(TODAY(), **BLACK)
    assert one.urgency == one.set_by.plan.plan["urgency"] == "emergency"


@pytest.mark.parametrize(
    ("role", "does"),
    [(Role.NURSE, "Start visit"), (Role.SURGEON, "Open record"), (Role.DESK, "Open record")],
)
def test_each_line_has_one_thing_to_do_first(client: Client, role: Role, does: str) -> None:
    due(TODAY(), well_fitting=True)
    page = day_page(client, role)
    line = page.split('<li class="due')[1].split("</li>")[0]
    assert line.count('class="button') == 1
    assert does in line


def test_a_surgeon_moves_no_day(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5))
    client.force_login(UserFactory(role=Role.SURGEON))
    assert client.get(reverse("follow_up:reschedule", args=[one.set_by.uuid])).status_code == 403


def test_the_desk_neither_reads_nor_writes_words(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5))
    sooner = (TODAY() + timedelta(days=4)).isoformat()
    moving(client, one, Role.NURSE, day=sooner, words="Fears the leak")
    one.refresh_from_db()
    to = (TODAY() + timedelta(days=3)).isoformat()
    moving(client, one, Role.DESK, day=to, words="Slipped in")
    assert [move.words for move in Move.objects.all()] == ["Fears the leak", ""]
    client.force_login(UserFactory(role=Role.DESK))
    shown = client.get(reverse("follow_up:reschedule", args=[one.set_by.uuid])).content.decode()
    assert "Fears the leak" not in shown
    assert one.reason not in shown
    assert "The patient asked for another day" in shown


BLACK = {"leaking": True, "measurement__colour": "black_brown_grey"}
NURSE_AGREES = "A nurse has to agree to a later day. Ask the nurse."


def later_by_the_desk(client: Client, one: FollowUp, role: Role = Role.DESK) -> str:
    """A day after the one set, confirmed as later than asked for."""
    day = (max(one.due, TODAY()) + timedelta(days=2)).isoformat()
    return moving(client, one, role, day=day, late_confirmed="on")


@pytest.mark.parametrize("urgency", ["emergency", "same_day", "telephone", "days"])
def test_the_desk_puts_no_pressing_visit_off(client: Client, urgency: str) -> None:
    one = due(TODAY() + timedelta(days=5), well_fitting=True)
    weigh(one, urgency)
    assert NURSE_AGREES in later_by_the_desk(client, one)
    assert not Move.objects.exists()
    day = one.due + timedelta(days=2)
    with pytest.raises(NotAllowedNow, match=NURSE_AGREES):
        reschedule(
            follow_up=one,
            to=NewDay(one.due, day, MoveReason.OTHER, late_confirmed=True),
            by=UserFactory(role=Role.DESK),
            at=timezone.now(),
            today=TODAY(),
        )
    sooner = (one.due - timedelta(days=1)).isoformat()
    assert "Next visit moved" in moving(client, one, Role.DESK, day=sooner)


def weigh(one: FollowUp, urgency: str) -> None:
    """As if the plan that asked for this visit had been so urgent."""
    FollowUp.objects.filter(pk=one.pk).update(urgency=urgency)


@pytest.mark.parametrize("urgency", ["two_weeks", "routine"])
def test_the_desk_puts_another_visit_off_unless_an_answer_is_waited_for(
    client: Client, urgency: str
) -> None:
    one = due(TODAY() + timedelta(days=5), well_fitting=True)
    weigh(one, urgency)
    again(one.set_by, one.set_by.visit.clinician)
    assert NURSE_AGREES in later_by_the_desk(client, one)
    Referral.objects.update(
        answered_at=timezone.now(), answered_by=one.set_by.visit.clinician, answer="No."
    )
    assert "Next visit moved" in later_by_the_desk(client, one)


@pytest.mark.parametrize("role", [Role.NURSE, Role.LEAD])
def test_a_clinician_puts_a_pressing_visit_off(client: Client, role: Role) -> None:
    one = due(TODAY() + timedelta(days=5), **BLACK)
    assert "Next visit moved" in later_by_the_desk(client, one, role)


def test_every_move_is_seen_in_the_record_and_on_the_day(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5))
    mover = UserFactory(role=Role.NURSE, first_name="Fern", last_name="Larkspur")
    client.force_login(mover)
    days = [TODAY() + timedelta(days=days) for days in (4, 3)]
    for day, words in zip(days, ("Fears the leak", ""), strict=True):
        one.refresh_from_db()
        reschedule(
            follow_up=one,
            to=NewDay(one.due, day, MoveReason.AWAY, words),
            by=mover,
            at=timezone.now(),
            today=TODAY(),
        )
    assert AccessLog.objects.filter(action="moved next visit")[0].detail.endswith(": away")
    record = reverse("patients:record", args=[one.stoma.patient.uuid])
    for role in (Role.NURSE, Role.DESK):
        client.force_login(UserFactory(role=role))
        for address in (record, reverse("clinic_day:day")):
            shown = client.get(address).content.decode()
            assert shown.count("Moved from ") == 2
            assert f"to {formatting.day(days[1])}: The patient is away that day" in shown
            assert "By Fern Larkspur" in shown
            assert ("Fears the leak" in shown) is (role == Role.NURSE)


def test_closed_and_past_days_are_refused_in_words(client: Client, settings: Settings) -> None:
    one = due(TODAY() + timedelta(days=30))
    closed = TODAY() + timedelta(days=3)
    settings.CLINIC_CLOSED_WEEKDAYS = frozenset({closed.weekday()})
    said = moving(client, one, day=closed.isoformat())
    assert f"The clinic is closed on {closed:%A}s" in said
    assert "is in the past" in moving(client, one, day="2025-05-07")
    assert not Move.objects.exists()


def test_a_day_closed_after_it_was_set_is_said_to_everyone(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5))
    HolidayFactory(day=one.due, name="Harvest Day")
    record = reverse("patients:record", args=[one.stoma.patient.uuid])
    for role in (Role.NURSE, Role.DESK):
        assert "The clinic is closed: Harvest Day" in day_page(client, role)
        shown = client.get(record).content.decode()
        assert "The clinic is closed that day: Harvest Day." in shown


def test_the_first_telephone_is_beside_the_name_in_one_query_for_all(
    client: Client, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    first = TelephoneFactory(patient=due(TODAY()).stoma.patient, whose="patient", kind="mobile")
    TelephoneFactory(patient=first.patient, number="01632 960124", whose="carer")
    for role in (Role.NURSE, Role.DESK):
        shown = day_page(client, role)
        assert "own mobile <b>01632 960123</b>" in shown
        assert "01632 960124" not in shown
    with CaptureQueriesContext(connection) as one:
        client.get("/")
    asked = len(one)
    for _ in range(2):
        TelephoneFactory(patient=due(TODAY()).stoma.patient)
    client.get("/")  # puts on the trail who was shown, the first time that day
    with django_assert_num_queries(asked):
        client.get("/")


def test_a_holiday_is_refused_in_words(client: Client) -> None:
    one = due(TODAY() + timedelta(days=30))
    closed = HolidayFactory(day=TODAY() + timedelta(days=3), name="Harvest Day").day
    said = moving(client, one, day=closed.isoformat())
    assert "The clinic is closed that day: Harvest Day. Choose another day." in said
    assert not Move.objects.exists()


def test_later_than_asked_for_is_confirmed_never_silent(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5))
    later = (TODAY() + timedelta(days=9)).isoformat()
    said = moving(client, one, day=later)
    assert "4 days later than the last visit asked for" in said
    assert later in said
    assert not Move.objects.exists()
    moving(client, one, day=later, late_confirmed="on")
    assert Move.objects.get().late_confirmed
    assert "4 days later than the visit asked for" in day_page(client, day=TODAY() + timedelta(9))


def test_moved_twice_is_measured_from_the_day_first_asked_for(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5))
    moving(client, one, day=(TODAY() + timedelta(days=2)).isoformat())
    one.refresh_from_db()
    moving(client, one, day=(TODAY() + timedelta(days=5)).isoformat())
    assert [move.late_confirmed for move in Move.objects.all()] == [False, False]


def test_two_people_do_not_move_it_past_one_another(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5))
    moving(client, one, day=(TODAY() + timedelta(days=2)).isoformat())
    said = moving(client, one, day=(TODAY() + timedelta(days=3)).isoformat())
    assert "Someone else has moved this visit to" in said
    assert Move.objects.count() == 1


def test_the_action_refuses_what_the_form_would() -> None:
    one = due(TODAY() + timedelta(days=5))
    later = NewDay(one.due, one.due + timedelta(days=1), MoveReason.OTHER)
    with pytest.raises(NotAllowedNow):
        reschedule(follow_up=one, to=later, by=UserFactory(), at=timezone.now(), today=TODAY())
    closed = one.stoma
    closed.closed_on = TODAY()
    closed.save()
    sooner = NewDay(one.due, one.due - timedelta(days=1), MoveReason.OTHER)
    with pytest.raises(NotAllowedNow):
        reschedule(follow_up=one, to=sooner, by=UserFactory(), at=timezone.now(), today=TODAY())


def test_a_move_is_never_changed(client: Client) -> None:
    one = due(TODAY() + timedelta(days=5))
    moving(client, one, day=(TODAY() + timedelta(days=2)).isoformat())
    with pytest.raises(DatabaseError), transaction.atomic():
        Move.objects.update(reason="other")
    with pytest.raises(DatabaseError), transaction.atomic():
        Move.objects.all().delete()


def test_the_planner_of_the_lists_uses_the_indexes() -> None:
    """With sequential scans forbidden an index must be able to serve the question. Among several
    of a table without rows which one is chance, so the other is taken away."""
    from clinic.follow_up.queries import due as due_query
    from clinic.referrals.queries import pressing, waiting

    asked = {
        "referral_waiting": waiting()[:26],
        "referral_pressing": pressing(TODAY()).order_by(),
    }
    with connection.cursor() as cursor:
        cursor.execute("SET LOCAL enable_seqscan = off")
        cursor.execute("SET LOCAL enable_sort = off")
    for index, rows in asked.items():
        (other,) = set(asked) - {index}
        with transaction.atomic(), connection.cursor() as cursor:
            cursor.execute(f"DROP INDEX {other}")
            assert index in rows.explain()
            transaction.set_rollback(True)
    plan = due_query(clinical=True).filter(due=TODAY())[:26].explain()
    assert "Seq Scan on follow_up_followup" not in plan


def test_unfinished_visits_that_do_not_fit_are_not_passed_over(client: Client) -> None:
    more = "There are older drafts"
    AssessmentFactory.create_batch(DRAFTS)
    assert more not in day_page(client)
    AssessmentFactory()
    assert more in day_page(client)


def test_presses_more_than_fits_says_how_many_and_where(client: Client) -> None:
    more, one = "more</b> press", due(TODAY())
    for made in range(BESIDE + 3):
        if made == BESIDE:
            assert more not in day_page(client)
        again(one.set_by, one.set_by.visit.clinician)
    shown = day_page(client)
    assert "3 more</b> urgent referrals without an answer" in shown
    assert f'href="{reverse("referrals:referrals")}">See every referral' in shown
