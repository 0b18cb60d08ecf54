"""The invented clinic: whole, plausible, dated up to today, told once."""

from collections.abc import Iterator
from datetime import date, datetime
from io import StringIO
from itertools import pairwise
from random import Random
from typing import Any

import pytest
from django.contrib.auth.password_validation import validate_password
from django.core.management import CommandError, call_command
from django.db import connection, transaction
from django.db.models import Model
from django.test import override_settings
from django.utils import timezone

from clinic.accounts.models import Role, User
from clinic.patients.models import Patient, Sensitivity, Stoma
from clinic.plans.models import Choice, Decision, FollowUp, PlanSnapshot, Referral, Urgency
from clinic.visits.models import Addendum, Assessment, SkinFinding, Visit, WearEpisode
from fixtures.invented_clinic.accounts import ACCOUNTS, STAFF
from fixtures.invented_clinic.courses import told
from fixtures.invented_clinic.days import Calendar, barriers, workday
from fixtures.invented_clinic.load import Loaded, load
from fixtures.invented_clinic.story import PersonStory

pytestmark = pytest.mark.django_db

COUNTED: tuple[type[Model], ...] = (
    User,
    Patient,
    Stoma,
    Sensitivity,
    Visit,
    Assessment,
    SkinFinding,
    PlanSnapshot,
    Decision,
    FollowUp,
    Referral,
    Addendum,
)
STORIES = [story for people in told().values() for story in people]


def counts() -> dict[str, int]:
    return {model.__name__: model._default_manager.count() for model in COUNTED}


@pytest.fixture(scope="module")
def loaded(django_db_setup: None, django_db_blocker: Any) -> Iterator[Loaded]:
    """The clinic, loaded once and taken back at the end; each test runs in a savepoint in it."""
    with django_db_blocker.unblock(), transaction.atomic():
        result = load(timezone.now())
        with connection.cursor() as cursor:
            # What the database checks at commit is checked here: nothing is ever committed.
            cursor.execute("SET CONSTRAINTS ALL IMMEDIATE")
        yield result
        transaction.set_rollback(True)


def seen(family: str, stoma_kind: str = "") -> list[Assessment]:
    """A person's signed assessments, oldest first."""
    found = Assessment.objects.filter(visit__patient__family_name=family, visit__state="signed")
    if stoma_kind:
        found = found.filter(stoma__kind=stoma_kind)
    return list(found.order_by("visit__happened_at"))


def kinds(assessment: Assessment) -> set[str]:
    return {finding.kind for finding in assessment.skin_findings.all()}


def families(course: str) -> list[str]:
    return [story.family for story in told()[course]]


# --- the stories by themselves ----------------------------------------------------------------
def test_names_are_distinct_and_nobody_is_called_like_the_staff() -> None:
    for names in ([s.family for s in STORIES], [s.given for s in STORIES]):
        assert len(names) == len(set(names))
    staff = {name for member in STAFF for name in (member.first_name, member.last_name)}
    assert not staff & {name for s in STORIES for name in (s.family, s.given)}


def test_the_stories_are_the_same_every_time() -> None:
    assert told() == told()


@pytest.mark.parametrize("ahead", range(7))
def test_visits_lie_in_order_on_working_days_between_surgery_and_today(ahead: int) -> None:
    """Whatever day of the week the clinic is loaded on."""
    now = datetime(2025, 6, 2 + ahead, 8, 5, tzinfo=timezone.get_current_timezone())
    for story in STORIES:
        check_days(story, Calendar(now))


def check_days(story: PersonStory, calendar: Calendar) -> None:
    dice = Random(story.family)  # noqa: S311 - times of day, no secrets
    at = [calendar.visit_at(v, dice) for v in story.visits]
    assert all(earlier.date() < later.date() for earlier, later in pairwise(at))
    assert all(moment <= calendar.now for moment in at)
    assert all(m.weekday() < 5 for m, v in zip(at, story.visits, strict=True) if not v.draft)
    for visit, moment in zip(story.visits, at, strict=True):
        for stoma, chart in zip(story.stomas, visit.charts, strict=True):
            if chart is not None and stoma.made is not None:
                assert calendar.before(stoma.made) < moment.date()
            if chart is not None and stoma.closed is not None:
                assert moment.date() < calendar.before(stoma.closed)


@pytest.mark.parametrize(
    ("day", "worked"),
    [
        (date(2025, 6, 6), date(2025, 6, 6)),
        (date(2025, 6, 7), date(2025, 6, 6)),
        (date(2025, 6, 8), date(2025, 6, 6)),
        (date(2025, 6, 9), date(2025, 6, 9)),
    ],
)
def test_a_weekend_moves_back_to_friday(day: date, worked: date) -> None:
    assert workday(day) == worked


def test_wear_ends_at_the_visit_and_begins_after_the_last_one() -> None:
    rows = barriers("4 3L 2", date(2025, 6, 20), since=date(2025, 6, 14))
    assert [(row.on.day, row.off.day, row.reason.value) for row in rows] == [
        (15, 18, "leak"),
        (18, 20, "planned"),
    ]


# --- staff --------------------------------------------------------------------------------------
def test_every_role_is_there_and_two_nurses(loaded: Loaded) -> None:
    roles = sorted(User.objects.values_list("role", flat=True))
    assert roles == sorted([*Role.values, Role.NURSE])


def test_the_demo_can_name_every_account(loaded: Loaded) -> None:
    for username, password, words in ACCOUNTS:
        user = User.objects.get(username=username)
        assert user.check_password(password)
        assert len(password) >= 15
        validate_password(password, user)
        assert words == Role(user.role).label


# --- the whole ----------------------------------------------------------------------------------
def test_the_clinic_is_of_a_size_to_try_things_in(loaded: Loaded) -> None:
    assert 40 <= Patient.objects.count() == loaded.people <= 48
    assert Visit.objects.signed().count() == loaded.signed >= 110
    assert Visit.objects.drafts().count() == loaded.drafts == 1
    assert {len(seen(f)) >= 2 for f in families("leak_low_hours")} == {True}


def test_every_signed_assessment_has_its_plan_and_decisions(loaded: Loaded) -> None:
    signed = Assessment.objects.filter(visit__state="signed")
    assert not signed.filter(plan__isnull=True).exists()
    assert not signed.filter(decisions__isnull=True).exists()
    assert not PlanSnapshot.objects.filter(assessment__visit__state="draft").exists()


def test_nurses_sometimes_decide_otherwise_and_say_why(loaded: Loaded) -> None:
    otherwise = Decision.objects.exclude(choice=Choice.ACCEPTED)
    assert otherwise.filter(choice=Choice.CHANGED).exclude(key="follow_up").exists()
    assert otherwise.filter(choice=Choice.DROPPED).exclude(key="follow_up").exists()
    assert all(decision.reason for decision in otherwise)


def test_nothing_but_due_dates_lies_in_the_future(loaded: Loaded) -> None:
    now, today = timezone.now(), timezone.localdate()
    assert not Visit.objects.filter(happened_at__gt=now).exists()
    assert not Visit.objects.filter(signed_at__gt=now).exists()
    assert not Addendum.objects.filter(at__gt=now).exists()
    assert not Referral.objects.filter(answered_at__gt=now).exists()
    assert not WearEpisode.objects.filter(off__gt=today).exists()
    assert not Stoma.objects.filter(surgery_date__gt=today).exists()
    assert not Stoma.objects.filter(closed_on__gt=today).exists()


def test_people_are_due_today_overdue_and_later(loaded: Loaded) -> None:
    today = timezone.localdate()
    due = [row.due for row in FollowUp.objects.open()]
    assert due.count(today) >= 4
    assert len([day for day in due if day < today]) >= 4
    assert len([day for day in due if day > today]) >= 8


def test_a_second_run_adds_nothing_and_says_so(loaded: Loaded) -> None:
    before, out = counts(), StringIO()
    call_command("load_invented_clinic", stdout=out)
    assert counts() == before
    assert "nothing was added" in out.getvalue()


@override_settings(PRODUCTION=True)
def test_production_is_refused() -> None:
    with pytest.raises(CommandError):
        call_command("load_invented_clinic")


def test_some_things_are_honestly_not_recorded(loaded: Loaded) -> None:
    assert Patient.objects.filter(hand_dexterity="").exists()
    assert Patient.objects.filter(anticoagulant__isnull=True).exists()
    assert Stoma.objects.filter(surgery_date_unknown=True).exists()
    assert Assessment.objects.filter(not_looked_at__len__gt=0).exists()


# --- each course --------------------------------------------------------------------------------
@pytest.mark.parametrize("family", ["Footstool", "Hailstone"])
def test_a_leak_at_the_lowest_hours_heals_after_a_change(loaded: Loaded, family: str) -> None:
    first, *_, last = seen(family)
    assert set(first.system.leak_hours) <= {5, 6, 7}
    assert kinds(first)
    assert first.system.opening_length_mm > last.system.opening_length_mm
    assert last.system.leak_hours == []
    assert kinds(last) == set()
    assert last.last_plan_helped is True


@pytest.mark.parametrize("family", families("shrinking"))
def test_a_new_stoma_shrinks(loaded: Loaded, family: str) -> None:
    lengths = [one.measurement.length_mm for one in seen(family)]
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[0] - lengths[-1] >= 8


@pytest.mark.parametrize("family", families("flush"))
def test_a_low_stoma_is_helped_by_a_convex_barrier(loaded: Loaded, family: str) -> None:
    first, *_, last = seen(family)
    assert all(one.measurement.protrusion_mm <= 4 for one in (first, last))
    assert first.system.profile == "flat"
    assert first.system.leak_hours
    assert last.system.profile == "convex"
    assert last.system.leak_hours == []


@pytest.mark.parametrize("family", families("prolapse"))
def test_a_prolapse_grows_and_slips_back(loaded: Loaded, family: str) -> None:
    heights = [one.measurement.protrusion_mm for one in seen(family)]
    assert heights == sorted(set(heights))
    last = seen(family)[-1].measurement
    assert last.prolapse == "present"
    assert last.prolapse_reducible is True


@pytest.mark.parametrize("family", families("hernia"))
def test_a_bulge_appears_beside_the_stoma(loaded: Loaded, family: str) -> None:
    assert seen(family)[-1].abdomen.bulge == "present"


def test_the_bulge_is_held_with_a_half_ring(loaded: Loaded) -> None:
    _, lifted, *_, last = seen("Bookcase")
    assert lifted.system.leak_hours
    assert "half_ring" in last.system.accessories
    assert last.system.leak_hours == []


@pytest.mark.parametrize("family", families("contact_reaction"))
def test_a_contact_reaction_is_found_out_and_settles(loaded: Loaded, family: str) -> None:
    patient = Patient.objects.get(family_name=family)
    reacted = SkinFinding.objects.get(
        assessment__visit__patient=patient, product_outline=True, hours__len=12
    )
    assert reacted.assessment.system.leak_hours == []
    assert patient.sensitivities.count() == 1
    assert kinds(seen(family)[-1]) == set()


def test_high_output_comes_down(loaded: Loaded) -> None:
    volumes = [one.output.volume_ml_24h or 0 for one in seen("Thunderhead")]
    assert volumes[0] >= 1500
    assert 0 < volumes[-1] < 1000


@pytest.mark.parametrize("family", families("urostomy_crystals"))
def test_crystals_come_and_go(loaded: Loaded, family: str) -> None:
    signs = [one.output.urine_signs for one in seen(family)]
    assert any("crystals" in found for found in signs)
    assert signs[-1] == []


@pytest.mark.parametrize("family", families("separation"))
def test_the_skin_join_opens_early_and_narrows(loaded: Loaded, family: str) -> None:
    first, *_, last = seen(family)
    assert first.measurement.junction == "separated"
    assert first.stoma.surgery_date is not None
    assert (first.visit.happened_at.date() - first.stoma.surgery_date).days < 21
    assert len(last.measurement.separation_hours or []) < len(first.measurement.separation_hours)


@pytest.mark.parametrize("family", families("yeast"))
def test_yeast_follows_antibiotics_and_clears(loaded: Loaded, family: str) -> None:
    spotted = [one for one in seen(family) if "satellites" in kinds(one)]
    assert [one.recent_antibiotics for one in spotted] == [True]
    assert kinds(seen(family)[-1]) == set()


@pytest.mark.parametrize("family", families("pressure_mark"))
def test_a_pressure_mark_goes_after_stepping_down(loaded: Loaded, family: str) -> None:
    marked = next(one for one in seen(family) if "pressure_mark" in kinds(one))
    last = seen(family)[-1]
    assert marked.system.compressibility == "less"
    assert last.system.compressibility == "more"
    assert kinds(last) == set()


@pytest.mark.parametrize("family", families("uncomplicated"))
def test_what_fits_is_left_alone(loaded: Loaded, family: str) -> None:
    assert all(kinds(one) == set() and one.system.leak_hours == [] for one in seen(family))
    assert seen(family)[-1].plan.plan["leave_alone"] is True


def test_a_dusky_stoma_is_an_emergency(loaded: Loaded) -> None:
    first, second = seen("Ottoman")
    assert first.plan.plan["urgency"] == Urgency.EMERGENCY
    referral = first.referrals.get(flag_key="dusky")
    assert referral.urgency == Urgency.EMERGENCY
    assert referral.answered_at is not None
    assert second.measurement.colour == "pink_red"


def test_two_stomas_are_planned_apart(loaded: Loaded) -> None:
    assert len(seen("Hoarfrost", "colostomy")) == 2
    assert len(seen("Hoarfrost", "urostomy")) == 3


@pytest.mark.parametrize("family", families("closed"))
def test_a_closed_stoma_has_nothing_due(loaded: Loaded, family: str) -> None:
    closed = Stoma.objects.get(patient__family_name=family, closed_on__isnull=False)
    assert not FollowUp.objects.open().filter(stoma=closed).exists()


def test_hands_and_eyes_differ(loaded: Loaded) -> None:
    assert Patient.objects.filter(large_print=True).count() >= 2
    assert Patient.objects.filter(hand_dexterity="one hand").exists()
    assert Patient.objects.filter(eyesight="limited").exists()
    assert Patient.objects.filter(pouch_changed_by="carer").exists()


@pytest.mark.parametrize("family", families("creases"))
def test_a_filled_crease_no_longer_leaks(loaded: Loaded, family: str) -> None:
    first, *_, last = seen(family)
    creased = {hour for crease in first.crease_rows.all() for hour in crease.hours}
    assert set(first.system.leak_hours) == creased
    assert last.crease_rows.exists()
    assert last.system.leak_hours == []


@pytest.mark.parametrize("family", families("removal"))
def test_harm_from_removal_stops_with_a_remover(loaded: Loaded, family: str) -> None:
    first, last = seen(family)
    assert kinds(first) <= {"stripping", "hair_pustules"}
    assert "adhesive_remover" in last.system.accessories
    assert kinds(last) == set()


@pytest.mark.parametrize("family", families("rare"))
def test_what_is_rare_is_referred(loaded: Loaded, family: str) -> None:
    assert Referral.objects.filter(assessment__visit__patient__family_name=family).exists()


def test_today_holds_an_unfinished_visit_and_a_newcomer(loaded: Loaded) -> None:
    draft = Visit.objects.drafts().get()
    assert timezone.localdate(draft.happened_at) == timezone.localdate()
    assessment = draft.assessments.get()
    assert assessment.measurement.length_mm is not None
    assert not hasattr(assessment, "abdomen")
    assert not Visit.objects.filter(patient__family_name="Lectern").exists()
